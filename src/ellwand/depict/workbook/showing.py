"""What a workbook shows: which measurements the garment needs, and in which views of the figure."""

from __future__ import annotations

from collections.abc import Sequence

from ellwand.depict.figure import CAPTION, GAP, VIEWS, figure
from ellwand.depict.people import SHOWN, SHOWN_OF_OTHERS
from ellwand.depict.spread import joined, moved
from ellwand.depict.step_view.legend import COLUMN, ROW, legend
from ellwand.depict.tapes import TAPES
from ellwand.geometry.lines import bounds
from ellwand.language import N_, _
from ellwand.model.drawing import Drawing, Label
from ellwand.model.garment import Garment
from ellwand.model.others import kind_of

SEEN = {"front": N_("from the front"), "side": N_("from the side"), "back": N_("from behind")}


def fields_of(garment: Garment) -> tuple[str, ...]:
    """The measurements that decide this garment's pieces, in the order of the form."""
    other = garment.choices.other
    return tuple(SHOWN if other is None else SHOWN_OF_OTHERS[kind_of(other)])


def tapes_drawing(fields: Sequence[str]) -> Drawing:
    """The figure with the tapes of those fields, in as few views as show them all (cm)."""
    left, views = set(fields), []
    while left:
        best = max(VIEWS, key=lambda view: len(left & TAPES[view].keys()))
        views.append(best)
        left -= TAPES[best].keys()
    out: list[Drawing] = []
    edge = 0.0
    for view in (view for view in VIEWS if view in views):
        drawing = figure(view, fields)
        x0, _y0, x1, _y1 = bounds(point for stroke in drawing.strokes for point in stroke.points)
        caption = Label("note", _(SEEN[view]), (0.0, CAPTION))
        out.append(moved(Drawing(drawing.strokes, (*drawing.labels, caption)), edge - x0, 0.0))
        edge += x1 - x0 + GAP
    return joined(out)


def legend_in_one() -> Drawing:
    """The signs of the steps' pictures below each other, for a narrow page (cm on paper)."""
    drawing = legend()
    out = []
    for stroke in drawing.strokes:
        dx, dy = _below(min(x for x, _y in stroke.points), stroke.points[0][1])
        out.append(moved(Drawing((stroke,), ()), dx, dy))
    for label in drawing.labels:
        out.append(moved(Drawing((), (label,)), *_below(*label.at)))
    return joined(out)


def _below(x: float, y: float) -> tuple[float, float]:
    """How far what stands there in three columns is moved, to stand in one."""
    column, row = int(x // COLUMN), round(-y / ROW)
    return -COLUMN * column, ROW * row - ROW * (3 * row + column)
