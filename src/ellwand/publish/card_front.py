"""The card's first page: what the garment looks like, its pieces in a table, and who it is for."""

from __future__ import annotations

from typing import Final

from ellwand.depict.naming import count_how, numbers, places, places_said, view_said
from ellwand.depict.people import estimated, measure_these, measured
from ellwand.depict.sizes import extent
from ellwand.depict.spread import drawing_bounds
from ellwand.depict.view import garment_view
from ellwand.depict.view_others import view_names
from ellwand.depict.words.blazon import arms as arms_of
from ellwand.depict.words.blazon import hatching_key
from ellwand.language import N_, _
from ellwand.model.garment import Garment
from ellwand.model.names import named
from ellwand.publish.card_type import CardType
from ellwand.publish.letters import cut_short
from ellwand.publish.paper import Paper
from ellwand.publish.typst_text import picture, table, words
from ellwand.units import format_length

LONGEST_NAME: Final = 60
VIEWS: Final = 8.6
"""The column of the views (cm)."""
TALL: Final = 6.2
"""How high they may be (cm)."""
MANY: Final = 16
"""A longer table of pieces stands below the views, in two columns."""


def title_of(garment: Garment) -> str:
    """What it is and for whom, cut where it is very long."""
    name = cut_short(garment.wearer.name, LONGEST_NAME)
    style = cut_short(named(garment.title), LONGEST_NAME)
    style = style[:1].upper() + style[1:]
    return _("{garment} for {name}", garment=style, name=name) if name else style


def head(garment: Garment, paper: Paper, sizes: CardType) -> str:
    """Title, the views, the table of pieces and the measurements; in large type all below each other."""
    unit, sewing = garment.wearer.unit, garment.choices.sewing
    allowances = {"allowance": format_length(sewing.allowance, unit), "hem": format_length(sewing.hem, unit)}
    if unit == "in":
        note = _(
            "Sizes are in inches, as cut: the seam allowance of {allowance} and the hem of {hem} are in them.",
            **allowances,
        )
    else:
        note = _(
            "Sizes are in cm, as cut: the seam allowance of {allowance} and the hem of {hem} are in them.", **allowances
        )
    if garment.choices.growth is not None:
        note += " " + _(
            "It is cut for the body expected in {months:g} months; until then some of its length is taken up along the"
            " marked lines.",
            months=garment.choices.growth.months,
        )
    large, many = sizes.enlarged > 1, len(garment.draft.pieces) > MANY
    rows, measures = _piece_rows(garment), _measures(garment, sizes)
    half = -(-len(rows) // 2)
    if large:
        body = [_views(garment, paper.room, 1.4 * TALL, sizes), "#v(2mm)", _piece_table(rows, sizes), measures]
    elif many:
        both = ", ".join(f"[{_piece_table(some, sizes)}]" for some in (rows[:half], rows[half:]))
        body = [
            _beside(_views(garment, VIEWS, TALL, sizes), measures),
            f"#v(2mm)\n#grid(columns: (1fr, 1fr), column-gutter: 6mm, {both})",
        ]
    else:
        body = [_beside(_views(garment, VIEWS, TALL, sizes), _piece_table(rows, sizes) + "\n" + measures)]
    return "\n".join(
        [
            f"#block(below: 3mm, {words(title_of(garment), size=sizes.title, bold=True)})",
            f"#{words(note)}",
            "#v(2mm)",
            *body,
            *_arms(garment, sizes),
        ]
    )


def key(garment: Garment, sizes: CardType) -> str:
    """What the lines in the drawings of the pieces mean."""
    bands = " " + _(_BAND_KEY) if garment.draft.adornment.bands else ""
    return f"#{words(_(_KEY) + bands, size=sizes.small)}"


_KEY = N_(
    "Full line: cut here. Dashed: sew here. Dash and dot: fold. Arrow: along the selvedge. A short bar across the"
    " allowance: mark it; there one seam ends and the next begins. The figures beside the marks count from the"
    " cut hem or cuff; those along a top edge from its left corner."
)
_BAND_KEY = N_("Dotted: where the edge of a band will lie.")


def _beside(left: str, right: str) -> str:
    return f"#grid(columns: ({VIEWS}cm, 1fr), column-gutter: 6mm, [\n{left}\n], [\n{right}\n])"


def _arms(garment: Garment, sizes: CardType) -> list[str]:
    """The field of front and back as heralds say it, and in plain words; each block a line or two high."""
    out = []
    rows = arms_of(garment.draft)
    for faces, blazon, plain in rows:
        view = view_said("front" if faces == "front" else "back")
        where = "" if len(rows) == 1 else f"{view[:1].upper()}{view[1:]}: "
        said = f"{words(where + blazon, bold=True)} + {words('. ' + plain + '.', size=sizes.small)}"
        out.append(f"#block(above: 1.6mm, {said})")
    if drawn := hatching_key(garment.draft):
        out.append(
            f"#block(above: 1.6mm, {words(_('In the drawing, {hatchings}.', hatchings=drawn), size=sizes.small)})"
        )
    return out


def _views(garment: Garment, width: float, height: float, sizes: CardType) -> str:
    """Front and back beside each other at one scale, with captions."""
    drawings = [garment_view(garment.draft, face) for face in ("front", "back")]
    boxes = [drawing_bounds(drawing, 1.0) for drawing in drawings]
    scale = min(width * 0.48 / max(b[2] - b[0] for b in boxes), height / max(b[3] - b[1] for b in boxes))
    cells = [f"[{picture(drawing, scale / sizes.enlarged, enlarged=sizes.enlarged)}]" for drawing in drawings]
    captions = [f"align(center, {words(_captioned(text))})" for text in view_names(garment.draft)]
    return f"#grid(columns: (1fr, 1fr), align: center, row-gutter: 1.5mm, {', '.join(cells)}, {', '.join(captions)})"


def _captioned(name: str) -> str:
    return view_said("front") if name == "front" else view_said("back") if name == "back" else _(name)


def _piece_rows(garment: Garment) -> list[list[str]]:
    unit, keys = garment.wearer.unit, numbers(garment.draft.pieces)
    rows = []
    for piece in garment.draft.pieces:
        size, where = extent(piece), places(garment.draft, piece)
        where = "" if piece.name.startswith(where.replace(" ", "-")) else where
        wide = max(x for x, _ in piece.cut) - min(x for x, _ in piece.cut)
        rows.append(
            [
                words(str(keys[piece.id]), bold=True),
                words(f"{named(piece.name)}: {places_said(where)}" if where else named(piece.name)),
                words(count_how(garment.draft, piece)),
                words(f"{format_length(wide, unit, mark=False)} × {format_length(size.height, unit, mark=False)}"),
            ]
        )
    return rows


def _piece_table(rows: list[list[str]], sizes: CardType) -> str:
    head = [_("no."), _("piece"), _("cut"), _("width × length")]
    return table(["auto", "1fr", "auto", "auto"], head, rows, sizes.pieces)


def _measures(garment: Garment, sizes: CardType) -> str:
    out = []
    for label, text in ((_("Measured"), measured(garment)), (_("Estimated"), estimated(garment))):
        if text:
            said = f"{words(label + ': ', size=sizes.small, bold=True)} + {words(text + '.', size=sizes.small)}"
            out.append(f"#block(above: 2mm, {said})")
    if these := measure_these(garment):
        if len(these) == 1:
            text = _("Measure before cutting: {one}; it decides whether the neck passes the head.", one=these[0])
        else:
            text = _(
                "Measure before cutting: {one} and {other}; they decide whether the neck passes the head.",
                one=these[0],
                other=these[1],
            )
        out.append(f"#block(above: 2mm, stroke: 0.8pt, inset: 3pt, {words(text, bold=True)})")
    return "\n".join(out)
