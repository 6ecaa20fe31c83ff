"""The figure with the tape on it: where each measurement is taken."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from ellwand.depict.figure_landmarks import VIEWS, View
from ellwand.depict.figure_outline import inner_lines, outlines
from ellwand.depict.naming import view_said
from ellwand.depict.spread import joined, moved
from ellwand.depict.tapes import TAPES, Tape
from ellwand.geometry.lines import bounds
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.model.measurement import FIELDS

__all__ = ["VIEWS", "View", "best_view", "figure", "number", "three_views"]

FLOOR: Final = 6.0
"""How far the line of the floor runs on beside what is drawn (cm)."""

GAP: Final = 6.0
"""Between two views (cm)."""
CAPTION: Final = -12.0
"""Where the captions stand, below the floor (cm)."""


def number(field: str) -> int:
    """The number of a measurement on figure and form: its place in FIELDS, from 1."""
    return FIELDS.index(field) + 1


def best_view(field: str) -> View:
    """The view that shows one measurement best: from the side where it can be seen there, for then a slanting tape
    shows."""
    return next(view for view in ("side", "back", "front") if field in TAPES[view])


def figure(view: View, fields: Sequence[str] = FIELDS) -> Drawing:
    """The figure in cm, standing at y = 0, with the tapes of those ``fields`` that this view shows.

    Each bears its number; the lettering is made for scales from 0.042 up.
    """
    tapes = {field: tape for field, tape in TAPES[view].items() if field in fields}
    body, *limbs = outlines(view)
    strokes = [Stroke("body", body, True)]
    strokes += [Stroke("body line", line) for line in inner_lines(view)]
    strokes += _strokes(tape for tape in tapes.values() if tape.behind_arm)
    strokes += [Stroke("body", limb, True) for limb in limbs]
    strokes += _strokes(tape for tape in tapes.values() if not tape.behind_arm)
    left, _, right, _ = bounds(point for stroke in strokes for point in stroke.points)
    strokes.insert(0, Stroke("dimension", ((left - FLOOR, 0.0), (right + FLOOR, 0.0))))
    labels = [Label("number", str(number(field)), tape.at, tape.anchor) for field, tape in tapes.items()]
    return Drawing(tuple(strokes), tuple(labels))


def _strokes(tapes: Iterable[Tape]) -> list[Stroke]:
    kept = list(tapes)
    leaders = [Stroke("leader", line) for tape in kept for line in tape.leaders]
    return leaders + [Stroke("tape", line) for tape in kept for line in tape.lines]


def three_views(fields: Sequence[str] = FIELDS) -> Drawing:
    """The figure from the front, the side and behind, beside each other with captions, in cm."""
    out: list[Drawing] = []
    edge = 0.0
    for view in VIEWS:
        drawing = figure(view, fields)
        left, right = bounds(point for stroke in drawing.strokes for point in stroke.points)[::2]
        caption = Label("note", view_said(view), (0.0, CAPTION))
        out.append(moved(Drawing(drawing.strokes, (*drawing.labels, caption)), edge - left, 0.0))
        edge += right - left + GAP
    return joined(out)
