"""The figure with the tape on it, for the measuring page: each tape can be picked out."""

from __future__ import annotations

from collections.abc import Iterator
from xml.sax.saxutils import quoteattr

from ellwand.depict.figure import VIEWS, best_view, figure, number, three_views
from ellwand.depict.tapes import TAPES
from ellwand.language import _
from ellwand.model.drawing import Label
from ellwand.model.measurement import FIELDS, MEASUREMENTS
from ellwand.publish.svg import svg, svg_label, svg_stroke
from ellwand.web.drawn import on_page

SCALE = 0.06
"""Paper cm per cm of the figure."""


def figure_svg() -> str:
    """The three views; every tape and its number say in ``data-field`` what they measure."""
    drawing = three_views()
    there, wide, high = on_page(drawing, SCALE, 10 * SCALE, 2.0)
    fields = _fields_in_order()
    body = [
        _of_field(next(fields) if each.role in ("tape", "leader") else None, svg_stroke(each, there))
        for each in drawing.strokes
    ]
    body += [_of_field(_field_of(each), svg_label(each, there)) for each in drawing.labels]
    said = quoteattr(_("Where the tape goes: a figure from the front, from the side and from behind"))
    return f'<svg viewBox="0 0 {wide:.1f} {high:.1f}" role="img" aria-label={said}>' + "\n".join(body) + "</svg>"


def tape_svg(field: str) -> str:
    """One tape, in the view that shows it best."""
    about = MEASUREMENTS[field]
    return svg(figure(best_view(field), [field]), 0.05, _(about.label), told=_(about.how))


def _fields_in_order() -> Iterator[str]:
    """Which measurement each line of a tape belongs to, in the order in which the figure draws them."""
    for view in VIEWS:
        for is_behind in (True, False):
            tapes = [(field, tape) for field, tape in TAPES[view].items() if tape.behind_arm is is_behind]
            yield from (field for field, tape in tapes for _line in tape.leaders)
            yield from (field for field, tape in tapes for _line in tape.lines)


def _field_of(label: Label) -> str | None:
    if label.role != "number":
        return None
    return next((field for field in FIELDS if str(number(field)) == label.text), None)


def _of_field(field: str | None, drawn: str) -> str:
    return drawn if field is None else f'<g class="taped" data-field="{field}">{drawn}</g>'
