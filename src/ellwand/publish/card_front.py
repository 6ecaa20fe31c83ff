"""The card's first page: what the garment looks like, its pieces in a table, and who it is for."""

from __future__ import annotations

from typing import Final

from ellwand.depict.naming import cut_how, numbers, places
from ellwand.depict.people import estimated, measure_these, measured
from ellwand.depict.sizes import extent
from ellwand.depict.spread import drawing_bounds
from ellwand.depict.view import garment_view
from ellwand.depict.view_others import view_names
from ellwand.depict.words.blazon import arms as arms_of
from ellwand.depict.words.blazon import hatching_key
from ellwand.model.garment import Garment
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
    style = cut_short(garment.title, LONGEST_NAME)
    return f"{style[:1].upper()}{style[1:]} for {name}" if name else style[:1].upper() + style[1:]


def head(garment: Garment, paper: Paper, sizes: CardType) -> str:
    """Title, the views, the table of pieces and the measurements; in large type all below each other."""
    unit, sewing = garment.wearer.unit, garment.choices.sewing
    note = (
        f"Sizes are in {'inches' if unit == 'in' else 'cm'}, as cut: the seam allowance of"
        f" {format_length(sewing.allowance, unit)} and the hem of {format_length(sewing.hem, unit)} are in them."
    )
    if garment.choices.growth is not None:
        note += (
            f" It is cut for the body expected in {garment.choices.growth.months:g} months; until then some of its"
            " length is taken up along the marked lines."
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
    return f"#{words(_KEY + _BAND_KEY * bool(garment.draft.adornment.bands), size=sizes.small)}"


_KEY = (
    "Full line: cut here. Dashed: sew here. Dash and dot: fold. Arrow: along the selvedge. A short bar across the"
    " allowance: mark it; there one seam ends and the next begins. The figures beside the marks count from the"
    " cut hem or cuff; those along a top edge from its left corner."
)
_BAND_KEY = " Dotted: where the edge of a band will lie."


def _beside(left: str, right: str) -> str:
    return f"#grid(columns: ({VIEWS}cm, 1fr), column-gutter: 6mm, [\n{left}\n], [\n{right}\n])"


def _arms(garment: Garment, sizes: CardType) -> list[str]:
    """The field of front and back as heralds say it, and in plain words; each block a line or two high."""
    out = []
    rows = arms_of(garment.draft)
    for faces, blazon, plain in rows:
        where = "" if len(rows) == 1 else f"{faces[:1].upper()}{faces[1:]}: "
        said = f"{words(where + blazon, bold=True)} + {words('. ' + plain + '.', size=sizes.small)}"
        out.append(f"#block(above: 1.6mm, {said})")
    if drawn := hatching_key(garment.draft):
        out.append(f"#block(above: 1.6mm, {words('In the drawing, ' + drawn + '.', size=sizes.small)})")
    return out


def _views(garment: Garment, width: float, height: float, sizes: CardType) -> str:
    """Front and back beside each other at one scale, with captions."""
    drawings = [garment_view(garment.draft, face) for face in ("front", "back")]
    boxes = [drawing_bounds(drawing, 1.0) for drawing in drawings]
    scale = min(width * 0.48 / max(b[2] - b[0] for b in boxes), height / max(b[3] - b[1] for b in boxes))
    cells = [f"[{picture(drawing, scale / sizes.enlarged, enlarged=sizes.enlarged)}]" for drawing in drawings]
    captions = [f"align(center, {words(text)})" for text in view_names(garment.draft)]
    return f"#grid(columns: (1fr, 1fr), align: center, row-gutter: 1.5mm, {', '.join(cells)}, {', '.join(captions)})"


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
                words(f"{piece.name}: {where}" if where else piece.name),
                words(cut_how(garment.draft, piece).removeprefix("cut ")),
                words(f"{format_length(wide, unit, mark=False)} × {format_length(size.height, unit, mark=False)}"),
            ]
        )
    return rows


def _piece_table(rows: list[list[str]], sizes: CardType) -> str:
    return table(["auto", "1fr", "auto", "auto"], ["no.", "piece", "cut", "width × length"], rows, sizes.pieces)


def _measures(garment: Garment, sizes: CardType) -> str:
    out = []
    for label, text in (("Measured: ", measured(garment)), ("Estimated: ", estimated(garment))):
        if text:
            said = f"{words(label, size=sizes.small, bold=True)} + {words(text + '.', size=sizes.small)}"
            out.append(f"#block(above: 2mm, {said})")
    if these := measure_these(garment):
        decide = "it decides" if len(these) == 1 else "they decide"
        text = f"Measure before cutting: {' and '.join(these)}; {decide} whether the neck passes the head."
        out.append(f"#block(above: 2mm, stroke: 0.8pt, inset: 3pt, {words(text, bold=True)})")
    return "\n".join(out)
