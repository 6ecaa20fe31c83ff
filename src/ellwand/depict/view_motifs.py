"""Repeated motifs on the view of the garment: as large as they are, along the lines of the picture."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ellwand.depict.setting_in import Face
from ellwand.depict.tinctures import polygons_of, ring_of
from ellwand.depict.view_bands import ON_SLEEVES, BodySeen, SleeveSeen
from ellwand.geometry.lines import Line, Point, backwards, length
from ellwand.model.draft import Draft
from ellwand.model.drawing import Stroke
from ellwand.model.motif import placed_line
from ellwand.model.repeat import Placement, Repeat
from ellwand.model.run import hand_in
from ellwand.model.wearer import Hand

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


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


def motifs_on_body(draft: Draft, face: Face, body: BodySeen) -> list[Stroke]:
    """Every repeat along the hem, the neck or a ring, and down the middle of this face; others are told in words."""
    out: list[Stroke] = []
    for repeat in draft.adornment.repeats:
        runs = sum(each.chosen == repeat.chosen for each in draft.adornment.repeats)
        place = repeat.chosen.along
        if place in ("hem", "neck", "skirt ring") and runs == 1:
            for line in _around(repeat, face, body):
                out += _along(repeat, line, body.outline)
        elif place == f"centre-{face}" or (place == "neck slit" and face == "front"):
            for points in body.lines.get(place, ())[:1]:
                out += _down(repeat, tuple(sorted(points, key=lambda point: -point[1])), face, body.outline)
    return out


def motifs_on_sleeve(draft: Draft, hand: Hand, sleeve: SleeveSeen) -> list[Stroke]:
    """Every repeat round that sleeve, its first half, which is all that is seen."""
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
        out += _along(repeat, seen, sleeve.outline)
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


def _along(repeat: Repeat, line: _Line, outline: Line) -> Iterator[Stroke]:
    """The motifs of one line, upright as they are worn."""
    long = length(line.points)
    lifted = 0.0 if repeat.run.along == "line" else repeat.chosen.inset + repeat.motif.size[1] / 2
    for each in repeat.placements:
        if each.again:
            continue
        off = each.at - line.at
        if line.closed:
            off = (off + line.whole / 2) % line.whole - line.whole / 2
        there = long / 2 + off * line.stretch
        half = repeat.size / 2
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
            yield from _motif(repeat, each, middle, math.degrees(math.atan2(dy, dx)), outline)


def _aside(before: float, after: float, lifted: float) -> float:
    """How far the middle of a square corner's motif lies from the corner, outside it: back along the one side and on
    along the other (0.1 cm of either are given)."""
    return (before - after) / 0.1 * lifted


def _down(repeat: Repeat, line: Line, face: Face, outline: Line) -> Iterator[Stroke]:
    """The motifs beside or on a line from its upper end down, as they lie on its wearer's left or right."""
    stretch = repeat.run.stretches[0]
    right = (hand_in(stretch) < 0) != stretch.mirrored
    way = (-1 if right else 1) * (1 if face == "front" else -1)
    lifted = 0.0 if repeat.run.along == "line" else repeat.chosen.inset + repeat.motif.size[1] / 2
    for each in repeat.placements:
        if not each.again and not each.corner:
            x, y = _point(line, each.at)
            turn = 0.0 if repeat.upright else -90.0 * way
            yield from _motif(repeat, each, (x + lifted * way, y), turn, outline)


def _motif(repeat: Repeat, each: Placement, middle: Point, turn: float, outline: Line) -> Iterator[Stroke]:
    """One motif, cut off where the garment ends in the picture."""
    from shapely import Polygon

    motif = repeat.corner if each.corner and repeat.corner else repeat.motif
    width, height = motif.size
    worn = {stretch.part: stretch.mirrored for stretch in repeat.run.stretches}
    flipped = each.mirrored != worn[each.part]
    body = Polygon(outline).buffer(0)
    for region in motif.regions:
        ring, *holes = (
            placed_line(line, (width / 2, height / 2), middle, turn, flipped) for line in (region.ring, *region.holes)
        )
        shape: BaseGeometry = Polygon(ring, holes).buffer(0).intersection(body)
        for part in polygons_of(shape):
            line, inner = ring_of(part)
            yield Stroke("motif", line, True, inner)


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
