"""The measuring form: one page a person, to be filled in by hand; and the same as a list to type it into."""

from __future__ import annotations

import csv
import io
from collections.abc import Collection, Sequence
from typing import Final

from ellwand.depict.figure import number, three_views
from ellwand.depict.lettering import shortened, text_width
from ellwand.depict.measuring import in_unit, mixed_up
from ellwand.depict.spread import drawing_bounds
from ellwand.errors import BadInput, InternalFault
from ellwand.language import N_, _
from ellwand.model.measurement import FIELDS, MEASUREMENTS
from ellwand.model.wearer import HANDS
from ellwand.publish.letters import spelled
from ellwand.publish.paper import Paper, paper_for
from ellwand.publish.text import clean
from ellwand.publish.typst_text import FONT, LAST_PAGE, PRELUDE, compile_pdf, page_count, picture, quoted, words
from ellwand.units import Unit

SIZES: Final = (
    (0.054, 8.5),
    (0.052, 8.5),
    (0.05, 8.5),
    (0.05, 8.0),
    (0.048, 8.0),
    (0.046, 8.0),
    (0.044, 8.0),
    (0.042, 8.0),
)
"""How large the figures are (paper cm per cm), and how high a box to write in is (mm), best first."""
SMALL: Final = 8.6
"""Size of the smallest text (points)."""
NAME_SIZE: Final = 12.0
NEEDED: Final = ("height", "bust_girth", "head_girth")
"""What every garment needs: the first two make the body, the head decides the neck."""

UNIT_WORDS: Final[dict[Unit, str]] = {
    "cm": N_("all in centimetres"),
    "in": N_("all in inches and fractions"),
}
ADVICE: Final = (
    N_("Find a private room, and one helper. Ask before you touch."),
    N_("Tie a string round the natural waist. Stand easily, look ahead."),
    N_("The tape is snug, not tight. Take everything twice."),
    N_("The person who is measured holds the tape's zero, always for 20."),
    N_("Over what will be worn beneath the garment, not over a coat."),
    N_("Keep this sheet private; destroy it when the garment is done."),
)
BOX_WIDTH: Final = 26.0
"""In mm: room for four signs and a fraction by hand."""
NARROWED: Final = """
#let narrowed(body) = layout(room => {
  let wide = measure(body).width
  if wide > room.width { scale(x: room.width / wide * 100%, origin: left, reflow: true, body) } else { body }
})
"""
"""Makes what is wider than its room as narrow as that."""
RULE: Final = "table.hline(stroke: 0.25pt + luma(150))"
HALF: Final = 13
"""So many rows stand in the left half of the table."""


def measuring_form_pdf(people: Sequence[str] = ("",), unit: Unit = "cm", wanted: Collection[str] = ()) -> bytes:
    """A page for each of ``people`` (an empty name leaves a line): A4 for centimetres, Letter for inches.

    ``wanted``: the fields that are starred, because the garment needs them; without them what every garment needs.
    The same bytes for the same people.  Raises BadInput for a field that is none.
    """
    for field in wanted:
        if field not in MEASUREMENTS:
            raise BadInput(
                "wanted",
                _("{field!r} is not a measurement", field=field),
                _("use any of {names}", names=", ".join(FIELDS)),
            )
    setting = _setting(paper_for(unit))
    settings = (f"{setting}\n{_rest(unit, wanted, scale, box)}\n" for scale, box in SIZES)
    fitting = next((text for text in settings if page_count(f"{text}{_page('', unit)}\n{LAST_PAGE}") == 1), None)
    if fitting is None:
        raise InternalFault("the measuring form does not fit a page")
    return compile_pdf(fitting + "\n#pagebreak()\n".join(_page(name, unit) for name in people or ("",)))


def measuring_form_csv(unit: Unit = "cm", people: Sequence[str] = ()) -> str:
    """The form as a CSV to type filled forms into: a column for each box, a row for each of ``people``."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    columns = [f"{number(field)} {MEASUREMENTS[field].label} ({unit})" for field in FIELDS]
    columns += [f"{hand} arm ({unit})" for hand in HANDS]
    writer.writerow(["name", "age", "sex", *columns])
    writer.writerows([clean(name), "", "", *("" for _ in columns)] for name in people)
    return out.getvalue()


def _setting(paper: Paper) -> str:
    return "\n".join(
        [
            f"#set document(title: {quoted(_('Measurements'))}, date: none)",
            f"#set page(width: {paper.width}cm, height: {paper.height}cm, margin: {paper.margin}cm)",
            f'#set text(font: "{FONT}", size: {SMALL}pt, hyphenate: false)',
            "#set par(leading: 0.38em, spacing: 0.5em)",
            PRELUDE,
            NARROWED,
        ]
    )


def _page(name: str, unit: Unit) -> str:
    title, stated = (words(text, size=20, bold=True) for text in (_("Measurements"), _(UNIT_WORDS[unit])))
    return f"#grid(columns: (1fr, auto), {title}, {stated})\n#v(1mm)\n{_who(name, paper_for(unit))}\n#rest"


def _rest(unit: Unit, wanted: Collection[str], scale: float, box: float) -> str:
    """What is the same on every page, set once."""
    starred = wanted or NEEDED
    rows = [_row(field, unit, box, field in starred) for field in FIELDS] + _arms(unit, box)
    return "\n".join(
        [
            "#let rest = [",
            "#v(2mm)",
            _above(unit, scale),
            "#v(1mm)",
            _advice(),
            "#v(1mm)",
            f"#{words(_legend(wanted), bold=True)}",
            f"#grid(columns: (1fr, 1fr), column-gutter: 5mm, {_table(rows[:HALF])}, {_table(rows[HALF:])})",
            "]",
        ]
    )


def _who(name: str, paper: Paper) -> str:
    """Name and date, and below them who measures, age and sex; what is not known is a line to write on."""
    room = 0.66 * paper.room - 1.6
    most = next(n for n in range(60, 0, -1) if text_width(shortened(spelled(name), n), NAME_SIZE) * 1.1 <= room)
    known = f"narrowed({words(shortened(spelled(name), most), size=NAME_SIZE, bold=True)})"
    first = [_asked(_("Name"), known), _asked(_("Date"))]
    sex = words(_("Sex:  female  /  male  (for the estimates; may be left out)"))
    second = [_asked(_("Taken by")), _asked(_("Age, if under 18")), f"align(bottom, {sex})"]
    return (
        f"#grid(columns: (66%, 1fr), column-gutter: 4mm, {', '.join(first)})\n"
        f"#grid(columns: (1fr, 42mm, auto), column-gutter: 4mm, {', '.join(second)})"
    )


def _asked(label: str, known: str = "none") -> str:
    """A label with a line to write on, or with what is known."""
    return (
        f"grid(columns: (auto, 1fr), column-gutter: 2mm, align: bottom, {words(label)},"
        f" box(width: 100%, height: 7mm, inset: (bottom: 0.8mm), stroke: (bottom: 0.5pt), align(bottom, {known})))"
    )


def _above(unit: Unit, scale: float) -> str:
    """The figures, and beside them what is easily mixed up."""
    drawing = three_views()
    x0, x1 = drawing_bounds(drawing, scale)[::2]
    pairs = [
        f"par({words(_numbered(field), bold=True)}"
        f" + {words(_(', not {other}: {tell}.', other=_numbered(other), tell=in_unit(_(tell), unit)))})"
        for field, other, tell in mixed_up()
    ]
    box = f"block(width: 100%, stroke: 0.6pt, inset: 2mm, {{{'; '.join([_heading(_('Easily mixed up')), *pairs])}}})"
    return f"#grid(columns: ({(x1 - x0) * scale:.3f}cm, 1fr), column-gutter: 4mm, [{picture(drawing, scale)}], {box})"


def _numbered(field: str) -> str:
    return f"{number(field)} {_(MEASUREMENTS[field].label)}"


def _advice() -> str:
    cells = [f"par(hanging-indent: 2.5mm, {words('• ' + _(text))})" for text in ADVICE]
    grid = f"#grid(columns: (1fr, 1fr), column-gutter: 5mm, row-gutter: 1.2mm, {', '.join(cells)})"
    return f"#{_heading(_('Before you begin'))}\n{grid}"


def _heading(text: str) -> str:
    return f"block(below: 1.2mm, {words(text, size=10, bold=True)})"


def _legend(wanted: Collection[str]) -> str:
    if wanted:
        return _("* starred: this garment needs it; the rest can be estimated.")
    return _(
        "* starred: every garment needs height and bust or chest, and the head decides the neck; the rest can be"
        " estimated."
    )


def _table(rows: Sequence[str]) -> str:
    return (
        f"table(columns: (7.5mm, 1fr, {BOX_WIDTH}mm), stroke: none, inset: (x: 0pt, y: 0.7mm),"
        f" column-gutter: (0mm, 2mm), align: left + horizon, {f', {RULE}, '.join(rows)})"
    )


def _row(field: str, unit: Unit, box: float, starred: bool) -> str:
    measurement = MEASUREMENTS[field]
    how = in_unit(_(measurement.how), unit)
    what = f"{words(_(measurement.label), bold=True)} + {words(', ' + how)}"
    return ", ".join([words(f"{number(field)}{'*' if starred else ''}", size=11, bold=True), what, _box(unit, box)])


def _arms(unit: Unit, box: float) -> list[str]:
    """A row for each arm, for who has two that differ."""
    return [
        ", ".join([words(""), f"{words(arm, bold=True)} + {words(', ' + _('where the two differ'))}", _box(unit, box)])
        for arm in (_("left arm"), _("right arm"))
    ]


def _box(unit: Unit, high: float) -> str:
    return (
        f"rect(width: {BOX_WIDTH}mm, height: {high}mm, stroke: 0.7pt, inset: 1mm,"
        f" align(right + bottom, text(fill: luma(90), {quoted(unit)})))"
    )
