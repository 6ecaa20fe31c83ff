"""The garment on the standing figure from the front: its hem and cuffs at the right heights."""

from __future__ import annotations

import bisect
import math
from collections.abc import Callable
from typing import Final

from ellwand.depict.figure import figure
from ellwand.depict.figure_landmarks import BUST, CROTCH, CROWN, FRONT_ARM, HIP, KNEE, NAPE, WAIST
from ellwand.depict.view import garment_view
from ellwand.draft.size import BUST_SHARE
from ellwand.geometry.lines import Line, Point
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing, Stroke
from ellwand.model.others import ApronSize, BreechesSize, CloakSize, CoifSize, HoodSize
from ellwand.model.wearer import Wearer

ROUND: Final = 0.72
"""Cloth that goes round a body is seen from in front so much narrower than it lies flat: our own figure."""
SLOPE: Final = 0.32
"""How far shoulders fall for each cm away from the neck: our own figure, as the figure is drawn."""
NECK_EDGE: Final = 5.5
"""Half the neck of the figure (cm)."""
FACE_EDGE: Final = 4.5
"""Where a coif ends on the head seen from the side (cm)."""
ARM_TOP: Final = (19.0, 139.0)
"""The shoulder point of the figure, at the right of the picture (cm)."""
LOOSE: Final = 1.2
"""A sleeve stands off the arm by this much (cm): our own figure."""
OVER_HEAD: Final = 1.5
"""A hood's or coif's cloth stands off the crown by this much (cm): our own figure."""


At = Callable[[Point], Point]
"""From the garment lying flat to where it hangs."""


def worn_view(draft: Draft, wearer: Wearer) -> Drawing:
    """The figure in cm, standing at y = 0, with the garment on it.

    The wearer's heights are laid on the figure's own (floor, knee, crotch, hip, waist, bust, nape, crown), and what
    lies between them in proportion; widths go with the height.
    """
    side = isinstance(draft.settled, CoifSize)
    body = figure("side" if side else "front", ())
    if draft.choices.other is None:
        dressed = _tunic(draft, wearer)
    elif side:
        dressed = _coif(draft, wearer)
    else:
        dressed = _other(draft, wearer)
    return Drawing((*body.strokes, *dressed), ())


class _Heights:
    """From the wearer's heights above the floor to the figure's (cm)."""

    def __init__(self, wearer: Wearer) -> None:
        bust = wearer["nape_to_floor"] - BUST_SHARE * wearer["height"]
        fields = ("knee_to_floor", "crotch_to_floor", "hip_to_floor", "waist_to_floor")
        own = [0.0, *(wearer[field] for field in fields), bust, wearer["nape_to_floor"], wearer["height"]]
        there = [0.0, KNEE, CROTCH, HIP, WAIST, BUST, NAPE, CROWN]
        pairs = [(a, b) for a, b in zip(own, there, strict=True)]
        self.pairs = [pair for i, pair in enumerate(pairs) if i == 0 or pair[0] > pairs[i - 1][0]]
        self.share = CROWN / wearer["height"]

    def at(self, height: float) -> float:
        """Where a height lies on the figure; beyond its ends in proportion."""
        i = min(max(bisect.bisect([own for own, _ in self.pairs], height), 1), len(self.pairs) - 1)
        (a, p), (b, q) = self.pairs[i - 1], self.pairs[i]
        return p + (height - a) * (q - p) / (b - a)


def _tunic(draft: Draft, wearer: Wearer) -> list[Stroke]:
    size, heights = draft.dimensions, _Heights(wearer)
    hem = wearer["nape_to_floor"] - size.length
    # a body no wider than the shoulders lies flat on them
    at_top = max(ROUND, min(1.0, ARM_TOP[0] / (size.panel_width / 2 * heights.share)))

    def at(point: Point) -> Point:
        x, y = point
        # up to the armhole's foot the shoulders' slope dies out
        share = min(1.0, max(0.0, (y - size.length + size.armhole) / size.armhole))
        across = x * heights.share * (ROUND + (at_top - ROUND) * share)
        fall = SLOPE * max(0.0, abs(across) - NECK_EDGE) * share
        return across, heights.at(hem + y) - fall

    out = []
    if draft.choices.sleeve.shape != "none":
        out = [Stroke("garment", _sleeve(draft, heights, wearer["arm_length"], sign, at), True) for sign in (1, -1)]
    return [*[_moved(stroke, at) for stroke in _trunk(draft)], *out]


def _trunk(draft: Draft) -> list[Stroke]:
    """The view from the front without its sleeves: every stroke that lies on the body."""
    from shapely import LineString, Polygon

    view = garment_view(draft, "front").strokes
    body = next(i for i, s in enumerate(view) if s.role == "garment" and s.closed and _spans_middle(s.points))
    trunk = Polygon(view[body].points).buffer(1.0 + draft.choices.neck.collar)
    return [
        stroke
        for i, stroke in enumerate(view)
        if i == body or (len(stroke.points) > 1 and i > body and trunk.contains(LineString(stroke.points)))
    ]


def _spans_middle(points: Line) -> bool:
    return min(x for x, _ in points) < -1.0 and max(x for x, _ in points) > 1.0


def _sleeve(draft: Draft, heights: _Heights, arm: float, sign: int, at: At) -> Line:
    """A sleeve along the hanging arm of the figure."""
    size, sleeve = draft.dimensions, draft.choices.sleeve
    top: Point = at((size.panel_width / 2, size.length))
    foot: Point = at((size.panel_width / 2 + size.side_panel / 2, size.length - size.armhole))
    reach = (size.shoulder_drop + max(size.sleeve_lengths.values())) / arm
    (x0, y0), (x1, y1, half) = ARM_TOP, FRONT_ARM[6]
    end = (x0 + (x1 - x0) * reach + half + LOOSE, y0 + (y1 - y0) * reach)
    long, angle = math.dist(top, end), math.atan2(end[1] - top[1], end[0] - top[0])
    along = (math.cos(angle), math.sin(angle))
    inward = (along[1], -along[0])

    def point(far: float, deep: float) -> Point:
        return top[0] + along[0] * far + inward[0] * deep, top[1] + along[1] * far + inward[1] * deep

    cuff = size.cuff / 2 * heights.share * ROUND
    lower = []
    if size.elbow_width:
        lower = [point(long * 0.5, size.elbow_width / 2 * heights.share * ROUND)]
    ring = (top, point(long, 0.0), point(long + sleeve.drop, cuff), *lower, foot)
    return tuple((sign * x, y) for x, y in ring)


def _moved(stroke: Stroke, at: At) -> Stroke:
    holes = tuple(tuple(at(p) for p in hole) for hole in stroke.holes)
    return Stroke(stroke.role, tuple(at(p) for p in stroke.points), stroke.closed, holes)


def _other(draft: Draft, wearer: Wearer) -> list[Stroke]:
    """Hood, cloak, apron and breeches hung from the crown, the neck or the waist."""
    size, heights = draft.settled, _Heights(wearer)
    view = garment_view(draft, "front").strokes
    match size:
        case HoodSize(height=tall):
            foot, wide = wearer["height"] - tall + OVER_HEAD / heights.share, 1.0
        case CloakSize(length=long):
            foot, wide = wearer["nape_to_floor"] - long, 0.8
        case ApronSize(length=long) | BreechesSize(length=long):
            foot, wide = wearer["waist_to_floor"] - long, ROUND
        case _:
            foot, wide = 0.0, ROUND

    def at(point: Point) -> Point:
        return point[0] * heights.share * wide, heights.at(foot + point[1])

    return [_moved(stroke, at) for stroke in view]


def _coif(draft: Draft, wearer: Wearer) -> list[Stroke]:
    """A coif from the side; the figure looks to the right, the coif's face is drawn at the left."""
    size = draft.settled
    assert isinstance(size, CoifSize)
    share = CROWN / wearer["height"] * 0.95

    def at(point: Point) -> Point:
        return FACE_EDGE - point[0] * share, CROWN + OVER_HEAD - (size.height - point[1]) * share

    return [_moved(stroke, at) for stroke in garment_view(draft, "front").strokes]
