"""A picture for every step of sewing: the pieces concerned, as they are joined, in cm on paper."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from ellwand.depict.spread import drawing_bounds, moved
from ellwand.depict.step_view.layout import Layout, layout
from ellwand.depict.step_view.picture import drawn, window
from ellwand.depict.step_view.sections import section
from ellwand.depict.step_view.showing import edge_section
from ellwand.depict.step_view.whole import above, beside, fastened, hanging, marked, sewn_on, shrunk, viewed
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing
from ellwand.model.step import Step
from ellwand.units import Unit

__all__ = ["Layout", "laid_out", "section", "step_drawing"]

WIDTH: Final = 7.4
HEIGHT: Final = 5.5
"""A picture fits in so much paper (cm), its lettering included as a rule."""
SECTION: Final = 2.9
"""What an edge cut across takes of the width."""
LEAST_GAP: Final = 0.24
"""Edges to be joined lie at least so far apart on paper (cm)."""
BEYOND: Final = 0.8
"""Lettering reaches no farther beyond the width (cm), and twice as far beyond the height; else all is smaller."""
MOST_TAKEN: Final = 1.8
"""Names beside the pieces take at most this of the width (cm)."""
WIDEST: Final = 14.0
"""And on the cloth no farther than this (cm)."""


def step_drawing(
    step: Step, draft: Draft, unit: Unit, steps: Sequence[Step] = (), *, width: float = WIDTH, height: float = HEIGHT
) -> Drawing:
    """The picture of a step in cm of paper, to be drawn at scale 1; its lower left corner is (0, 0).

    ``steps``: all of the garment's; what the earlier ones join is drawn as one.  ``width`` and ``height``: the room
    (cm); lettering may reach BEYOND it.
    """
    picture = _picture(step, draft, steps, width, height - 0.6)
    x0, y0, x1, y1 = drawing_bounds(picture, 1.0)
    smaller = min(1.0, (width + BEYOND) / (x1 - x0), (height + 2 * BEYOND) / (y1 - y0))
    return shrunk(moved(picture, -x0, -y0), smaller)


def _picture(step: Step, draft: Draft, steps: Sequence[Step], width: float, height: float) -> Drawing:
    if step.code == "mark":
        return marked(draft, width, height)
    if step.code in ("hang", "let hang"):
        return hanging(draft, width, height)
    if step.code == "charges":
        return viewed(draft, width, height)
    if step.code in ("closures", "fasten"):
        return fastened(draft, width, height) or viewed(draft, width, height)
    edge = edge_section(step, draft)
    cut = section(edge) if edge else None
    put_on = None if step.seams else sewn_on(step, draft, SECTION - 0.5, 2.4)
    notes = above(put_on, cut, 0.35) if put_on and cut else put_on or cut
    if notes is None:
        return _fitted(step, draft, steps, width, height)
    picture = _fitted(step, draft, steps, width - SECTION, height)
    x0, _, x1, _ = drawing_bounds(picture, 1.0)
    if x1 - x0 <= width - SECTION + 0.4:
        return beside(picture, notes, 0.35)
    _, b0, _, b1 = drawing_bounds(notes, 1.0)
    return above(_fitted(step, draft, steps, width, height - (b1 - b0)), notes, 0.3)


def _fitted(step: Step, draft: Draft, steps: Sequence[Step], width: float, height: float) -> Drawing:
    """The pieces as large as they go; names beside them take some of the room."""
    made = laid_out(step, draft, steps, width=width, height=height)
    if not made.laid:
        return viewed(draft, width, height)
    picture = drawn(made, step, draft, width, height)
    x0, _, x1, _ = drawing_bounds(picture, 1.0)
    over = x1 - x0 - width - 0.2
    return drawn(made, step, draft, width - min(over + 0.1, MOST_TAKEN), height) if over > 0 else picture


def laid_out(
    step: Step, draft: Draft, steps: Sequence[Step] = (), *, width: float = WIDTH, height: float = HEIGHT - 0.6
) -> Layout:
    """Where the parts lie, the gap between edges as wide as it has to be to be seen on paper."""
    made = layout(step, draft, steps)
    for _again in range(3):
        if not made.joins:
            return made
        scale = window(made, width, height).scale
        if made.gap * scale >= 0.9 * LEAST_GAP or made.gap >= WIDEST:
            return made
        made = layout(step, draft, steps, min(WIDEST, LEAST_GAP / scale))
    return made
