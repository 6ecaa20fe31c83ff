"""Repeated motifs on the view of the garment: as large as they are, along the lines of the picture."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from ellwand.depict.setting_in import Face
from ellwand.depict.tinctures import polygons_of, ring_of
from ellwand.depict.view_bands import ON_SLEEVES, BodySeen, SleeveSeen
from ellwand.depict.view_closings import Spot
from ellwand.geometry.lines import Line, Point, backwards, length
from ellwand.model.draft import Draft
from ellwand.model.drawing import Stroke
from ellwand.model.motif import Motif, placed_line
from ellwand.model.repeat import Placement, Repeat, motif_rings
from ellwand.model.run import hand_in
from ellwand.model.wearer import Hand

if TYPE_CHECKING:
    pass


STEP: Final = 0.1
"""The way of the cloth about a motif is read over so much (cm)."""


class _Ground:
    """What of a motif is seen on a garment of that outline."""

    def __init__(self, outline: Line) -> None:
        from shapely import Polygon, prepare

        self.body = Polygon(outline).buffer(0)
        prepare(self.body)
        self.sizes: dict[int, tuple[float, float]] = {}

    def size(self, motif: Motif) -> tuple[float, float]:
        """A motif's size, measured once."""
        if id(motif) not in self.sizes:
            self.sizes[id(motif)] = motif.size
        return self.sizes[id(motif)]

    def shown(self, ring: Line, holes: Sequence[Line]) -> Iterator[Stroke]:
        """A ring with its holes, cut off where the garment ends."""
        import numpy as np
        from shapely import Polygon, contains_properly, linestrings

        if contains_properly(self.body, linestrings(np.array(ring))):
            yield Stroke("motif", ring, True, tuple(holes))
            return
        for part in polygons_of(Polygon(ring, holes).buffer(0).intersection(self.body)):
            line, inner = ring_of(part)
            yield Stroke("motif", line, True, inner)


@dataclass(frozen=True, slots=True)
class _Line:
    """A run's line in the picture: ``at`` (cm along the run) lies at ``middle`` of ``points``; ``inward``: which hand
    the cloth is on, 1 for the left; ``closed`` after ``whole`` cm."""

    points: Line
    at: float
    whole: float
    closed: bool
    inward: int = 1
    stretch: float = 1.0


def motifs_on_body(draft: Draft, face: Face, body: BodySeen, spot: Spot) -> list[Stroke]:
    """Every repeat that does not go round a sleeve: evenly along a whole line of the picture, or each motif where it
    lies on its part."""
    if not draft.adornment.repeats:
        return []
    ground = _Ground(body.outline)
    out: list[Stroke] = []
    for repeat in draft.adornment.repeats:
        runs = sum(each.chosen == repeat.chosen for each in draft.adornment.repeats)
        place = repeat.chosen.along
        if place in ON_SLEEVES:
            continue
        if place in ("hem", "neck", "skirt ring") and runs == 1:
            for line in _around(repeat, face, body):
                out += _along(repeat, line, ground)
        elif place == f"centre-{face}" or (place == "neck slit" and face == "front"):
            for points in body.lines.get(place, ())[:1]:
                out += _down(repeat, tuple(sorted(points, key=lambda point: -point[1])), face, ground)
        elif place not in ("centre-front", "centre-back"):
            out += _each(repeat, spot, ground)
    return out


def _each(repeat: Repeat, spot: Spot, ground: _Ground) -> Iterator[Stroke]:
    """Every motif by the points of its own part, as far as they are seen."""
    drawn: dict[tuple[float, bool, bool], tuple[tuple[Line, tuple[Line, ...]], ...]] = {}
    for each in repeat.placements:
        moved = None if each.again else _moved(each, spot)
        if moved is None:
            continue
        key = (round(each.angle, 3), each.mirrored, each.corner)
        if key not in drawn:
            drawn[key] = motif_rings(repeat, replace(each, point=(0.0, 0.0)))
        for ring, holes in drawn[key]:
            yield from ground.shown(moved(ring), [moved(hole) for hole in holes])


def _moved(each: Placement, spot: Spot) -> Callable[[Line], Line] | None:
    """From a motif about its middle, as it lies on its piece, to the picture; None where it is not seen."""
    x, y = each.point
    at, right, up = spot(each.part, (x, y)), spot(each.part, (x + STEP, y)), spot(each.part, (x, y + STEP))
    if at is None or right is None or up is None:
        return None
    (ax, ay), (bx, by) = at, right
    turned = math.atan2(by - ay, bx - ax)
    c, s = math.cos(turned), math.sin(turned)
    # the other way round where 'up' lies on the other hand
    hand = math.copysign(1.0, (bx - ax) * (up[1] - ay) - (by - ay) * (up[0] - ax))
    return lambda line: tuple((ax + c * px - s * hand * py, ay + s * px + c * hand * py) for px, py in line)


def motifs_on_sleeve(draft: Draft, hand: Hand, sleeve: SleeveSeen) -> list[Stroke]:
    """Every repeat round that sleeve, its first half, which is all that is seen."""
    if all(repeat.chosen.along not in ON_SLEEVES for repeat in draft.adornment.repeats):
        return []
    ground = _Ground(sleeve.outline)
    out: list[Stroke] = []
    for repeat in draft.adornment.repeats:
        if repeat.chosen.along not in ON_SLEEVES or hand not in repeat.run.name:
            continue
        height = repeat.chosen.height or 0.0
        over = {"cuffs": 0.0, "arm ring": height, "upper arm ring": sleeve.long - height}[repeat.chosen.along]
        deep = repeat.run.length / 2
        line = (sleeve.at(sleeve.long - over, deep), sleeve.at(sleeve.long - over, 0.0))
        if repeat.chosen.along == "cuffs":
            line = (sleeve.cuff[-1], sleeve.cuff[0])
        # the sleeve's own side of the line is toward the shoulder
        towards = sleeve.at(0.0, 0.0)
        side = (line[1][0] - line[0][0]) * (towards[1] - line[0][1]) - (line[1][1] - line[0][1]) * (
            towards[0] - line[0][0]
        )
        points = line if side > 0 else backwards(line)
        seen = _Line(points, deep / 2, repeat.run.length, repeat.run.closed, stretch=length(points) / deep)
        out += _along(repeat, seen, ground)
    return out


def _around(repeat: Repeat, face: Face, body: BodySeen) -> Iterator[_Line]:
    """The line from its left end to its right one as it is seen, its middle that of the front or the back."""
    whole = repeat.run.length
    at = 0.0 if face == "front" else whole / 2
    place = repeat.chosen.along
    if place == "neck":
        for points in body.lines["neck"][:1]:
            yield _Line(points, at, whole, True, inward=-1)
        return
    points = body.hem
    if place == "skirt ring":
        from shapely import LineString, Polygon

        level = LineString(points).offset_curve(repeat.chosen.height or 0.0, join_style="mitre")
        ends = level.coords
        first, last = _beyond(ends[1], ends[0]), _beyond(ends[-2], ends[-1])
        inside = LineString([first, *ends, last]).intersection(Polygon(body.outline).buffer(0))
        lines = [each for each in getattr(inside, "geoms", [inside]) if each.geom_type == "LineString"]
        if not lines:
            return
        points = tuple(max(lines, key=lambda each: each.length).coords)
    # front and back lie on each other, so that either shows half of it
    yield _Line(points, at, whole, True, stretch=2 * length(points) / whole)


def _beyond(a: Point, b: Point) -> Point:
    step = math.dist(a, b) or 1.0
    return b[0] + (b[0] - a[0]) / step * 60, b[1] + (b[1] - a[1]) / step * 60


def _along(repeat: Repeat, line: _Line, ground: _Ground) -> Iterator[Stroke]:
    """The motifs of one line, upright as they are worn."""
    long, half = length(line.points), repeat.size / 2
    lifted = 0.0 if repeat.run.along == "line" else repeat.chosen.inset + repeat.motif.size[1] / 2
    for each in repeat.placements:
        if each.again:
            continue
        off = each.at - line.at
        if line.closed:
            off = (off + line.whole / 2) % line.whole - line.whole / 2
        there = long / 2 + off * line.stretch
        if -half < there < long + half:
            (ax, ay), (bx, by) = _point(line.points, there - half), _point(line.points, there + half)
            step = math.dist((ax, ay), (bx, by)) or 1.0
            dx, dy = (bx - ax) / step, (by - ay) / step
            x, y = _point(line.points, there)
            middle = (x - dy * lifted * line.inward, y + dx * lifted * line.inward)
            if each.corner:
                # on the bisector, as on the cloth
                (ax, ay), (bx, by) = _point(line.points, there - 0.1), _point(line.points, there + 0.1)
                middle = (x + _aside(x - ax, bx - x, lifted), y + _aside(y - ay, by - y, lifted))
                dx, dy = x - ax, y - ay
            yield from _motif(repeat, each, middle, math.degrees(math.atan2(dy, dx)), ground)


def _aside(before: float, after: float, lifted: float) -> float:
    """How far the middle of a square corner's motif lies from the corner, outside it: back along the one side and on
    along the other (0.1 cm of either are given)."""
    return (before - after) / 0.1 * lifted


def _down(repeat: Repeat, line: Line, face: Face, ground: _Ground) -> Iterator[Stroke]:
    """The motifs beside or on a line from its upper end down, as they lie on its wearer's left or right."""
    stretch = repeat.run.stretches[0]
    right = (hand_in(stretch) < 0) != stretch.mirrored
    way = (-1 if right else 1) * (1 if face == "front" else -1)
    lifted = 0.0 if repeat.run.along == "line" else repeat.chosen.inset + repeat.motif.size[1] / 2
    for each in repeat.placements:
        if not each.again and not each.corner:
            x, y = _point(line, each.at)
            turn = 0.0 if repeat.upright else -90.0 * way
            yield from _motif(repeat, each, (x + lifted * way, y), turn, ground)


def _motif(repeat: Repeat, each: Placement, middle: Point, turn: float, ground: _Ground) -> Iterator[Stroke]:
    """One motif, cut off where the garment ends in the picture."""
    motif = repeat.corner if each.corner and repeat.corner else repeat.motif
    width, height = ground.size(motif)
    worn = next(stretch.mirrored for stretch in repeat.run.stretches if stretch.part == each.part)
    for region in motif.regions:
        ring, *holes = (
            placed_line(line, (width / 2, height / 2), middle, turn, each.mirrored != worn)
            for line in (region.ring, *region.holes)
        )
        yield from ground.shown(ring, holes)


def _point(points: Line, at: float) -> Point:
    """So far along a line of the picture (cm); past its ends straight on."""
    left = at
    for i in range(len(points) - 1):
        a, b = points[i], points[i + 1]
        step = math.dist(a, b)
        if step and (left <= step or i == len(points) - 2):
            return a[0] + (b[0] - a[0]) * left / step, a[1] + (b[1] - a[1]) * left / step
        left -= step
    return points[-1]
