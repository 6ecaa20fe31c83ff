"""Seams and openings of the body in its picture, each at its own place."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from ellwand.depict.setting_in import SetIn, hem_drop
from ellwand.depict.view_neck import open_shoulders, opened_down
from ellwand.depict.view_trunk import Trunk
from ellwand.depict.view_turning import highest_first, hung
from ellwand.geometry.lines import Line, Point, backwards, mirror
from ellwand.model.drawing import Stroke
from ellwand.model.piece import EdgeKind

SEAMS: Final[frozenset[EdgeKind]] = frozenset(
    {"panel seam", "gore seam", "centre seam", "piecing seam", "division seam", "side seam"}
)
GAPE: Final = 0.09
"""A split at the side is drawn so far open, as a share of its length: our own figure."""


def seams_of(trunk: Trunk) -> list[Stroke]:
    """Every seam of this face at its own place, and what is left open."""
    return [*(Stroke("seam", line) for line in _sewn(trunk)), *_open(trunk)]


def _sewn(trunk: Trunk) -> Iterator[Line]:
    """The panels' own edges, and the sides of what is set in beside no panel."""
    seen: set[tuple[Point, ...]] = set()
    for panel in trunk.panels:
        for edge in panel.piece.edges:
            if edge.kind not in SEAMS:
                continue
            for flat in panel.lines(edge, trunk.face):
                if edge.kind == "side seam" and all(abs(abs(x) - trunk.wide) < 1e-3 for x, _ in flat):
                    continue
                line = trunk.lie(panel, flat)
                line = line if line[0][1] >= line[-1][1] else backwards(line)
                key = tuple((round(x, 2), round(y, 2)) for x, y in (line[0], line[-1]))
                if key not in seen:
                    seen.add(key)
                    yield line
    for place in trunk.places:
        yield from _set_in(trunk, place)


def _set_in(trunk: Trunk, place: SetIn) -> Iterator[Line]:
    if not place.gores:
        return
    far = (place.blunt, place.radius)
    lines: list[Line] = []
    if place.name.startswith("side-"):
        lines.append(tuple(trunk.at(place, r, 1.0) for r in _bends(trunk, place, far)))
    if place.count > 1 and place.name != "side":
        share = 0.0 if place.x == 0 else 0.5
        ends = (place.blunt, trunk.reach(place, share))
        lines.append(tuple(trunk.at(place, r, share) for r in _bends(trunk, place, ends)))
    if place.blunt:
        inner = 0.0 if place.x or place.name == "side" else -1.0
        lines.append((trunk.at(place, place.blunt, max(inner, 0.0)), trunk.at(place, place.blunt, 1.0)))
    for line in lines:
        yield line
        if any(abs(x) > 1e-6 for x, _ in line):
            yield mirror(line)


def _bends(trunk: Trunk, place: SetIn, far: tuple[float, float]) -> list[float]:
    """Distances from a place's point at which its lines may turn."""
    lower = [place.gores - top for top, _ in trunk.bend.within(place.x) if far[0] < place.gores - top < far[1]]
    return [far[0], *sorted(lower), far[1]]


def _open(trunk: Trunk) -> Iterator[Stroke]:
    draft, size = trunk.draft, trunk.draft.dimensions
    for line in _opened(trunk):
        yield Stroke("opening", line)
    if size.neck_slit and (slit := slit_of(trunk)):
        yield Stroke("opening", slit)
    far = max(x for x, _ in trunk.neck)
    shoulder = trunk.armhole[0]
    for sign, opened in open_shoulders(draft, trunk.face):
        share = opened / (math.dist(shoulder, (far, trunk.length)) or 1.0)
        end = (far + (shoulder[0] - far) * share, trunk.length + (shoulder[1] - trunk.length) * share)
        yield Stroke("opening", ((sign * far, trunk.length), (sign * end[0], end[1])))


def _opened(trunk: Trunk) -> Iterator[Line]:
    draft = trunk.draft
    middle = trunk.neck[0][1]
    if any(closure.at == f"centre-{trunk.face}" for closure in draft.choices.closures):
        down = opened_down(draft, trunk.face, trunk.length)
        yield ((0.0, middle), (0.0, max(-hem_drop(draft, trunk.face, 0.0), middle - down)))
    for place in trunk.places:
        if place.split:
            yield from opened_at(trunk, place.name)


def opened_at(trunk: Trunk, name: str) -> Iterator[Line]:
    """The split of that place, on both sides of the picture, from its upper end down."""
    place = next((place for place in trunk.places if place.name == name and place.split), None)
    if place is None:
        return
    turns = trunk.bend.within(place.x)
    if place.x and place.gores:
        turns.append((place.gores, trunk.fan_of(place) / (1.0 if place.name == "side" else 2.0)))
    turns = highest_first(turns)
    low = -place.low
    cuts = [place.split, *(y for y, _ in turns if low < y < place.split), low]
    line = tuple(hung(trunk._flared(place.x, y), y, turns) for y in cuts)
    yield line
    if place.x:
        yield mirror(line)


def gaping(trunk: Trunk) -> Iterator[Stroke]:
    """Splits at the sides stand open a little, so that the inside of the other face is seen; not adorned ones."""
    adorned = {band.at for band in trunk.draft.adornment.bands}
    if (adorned | {repeat.chosen.along for repeat in trunk.draft.adornment.repeats}) & {"splits", "hem"}:
        return
    for line in opened_at(trunk, "side"):
        (x0, y0), (x1, y1) = line[0], line[-1]
        deep = min(GAPE * math.dist((x0, y0), (x1, y1)), 0.2 * trunk.wide)
        inner = (x1 - math.copysign(deep, x1), y1)
        yield Stroke("garment back", (*line, inner), True)
        yield Stroke("opening", ((x0, y0), inner))


def slit_of(trunk: Trunk) -> Line | None:
    """The neck's slit from its upper end down, if this face has it."""
    points = [
        point
        for panel in trunk.panels
        for edge in panel.piece.edges
        if edge.kind == "neck slit"
        for line in panel.lines(edge, trunk.face)
        for point in line
    ]
    if not points:
        return None
    low, high = min(y for _, y in points), max(y for _, y in points)
    deep = [x for x, y in points if y < low + 1e-6]
    x = math.fsum(deep) / len(deep)
    return ((x, high + trunk.draft.choices.neck.collar), (x, low))
