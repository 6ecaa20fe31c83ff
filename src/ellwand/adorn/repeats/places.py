"""Where the motifs of a repeat lie on the pieces: each on its line, turned as the line runs there."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from ellwand.adorn.motifs import OWN, corner_for
from ellwand.adorn.motifs import motif as own_motif
from ellwand.adorn.repeats.rows import HAIR, Limits, has_corner, row_places
from ellwand.geometry.lines import Line, Point
from ellwand.model.motif import Motif, sized
from ellwand.model.repeat import Placement, Repeat, RepeatChoice, Row
from ellwand.model.run import Run, Stretch, hand_in, starts

LIPS: Final = frozenset({"neck slit", "splits", "centre-front", "centre-back"})
"""Openings from the upper end down: what lies along them stands with its foot to the edge, on either lip."""


def motif_in(choice: RepeatChoice, width: float) -> Motif:
    """The motif that is chosen, so many cm wide."""
    return own_motif(choice.motif, width) if choice.drawn is None else sized(choice.drawn, width)


def joins_usually(choice: RepeatChoice) -> bool:
    """Whether the motif is one of ours that runs on into its neighbour."""
    return choice.drawn is None and OWN[choice.motif].joins


def stands_upright(choice: RepeatChoice, run: Run) -> bool:
    """Whether motifs stand above each other: on a line down the front or back, unless they run on into each other."""
    return run.along == "line" and choice.along in LIPS and not joins_usually(choice)


def laid(run: Run, rows: tuple[Row, ...], choice: RepeatChoice, size: float, limits: Limits) -> Repeat:
    """The motifs on the pieces."""
    motif = motif_in(choice, size * limits.high if limits.upright else size)
    deep = motif.size[1] / 2 if run.along == "line" else choice.inset + motif.size[1] / 2
    begins = starts(run)
    inward = 0.0 if run.along == "line" else deep
    at = sorted(_along(run, place) for row in rows for place in row_places(row))
    placements = [each for place in at for each in _placements(run, begins, place, size / 2, inward, choice)]
    turned = [(at, turn) for at, turn in zip(run.corners, run.turns, strict=True) if has_corner(turn, limits)]
    corner = None
    if turned:
        corner = (corner_for(choice.motif, motif.size[1]) if choice.drawn is None else None) or _square(motif)
        placements += [_corner(run, place, turn, inward) for place, turn in turned]
    placements.sort(key=lambda each: (each.at, each.again))
    repeat = Repeat(
        chosen=choice,
        run=run,
        motif=motif,
        at=tuple(at),
        rows=tuple(row for row in rows if row.count),
        placements=tuple(placements),
        corner=corner,
        upright=limits.upright,
    )
    return replace(repeat, overlap=bends(repeat)[0]) if limits.joins else repeat


def _along(run: Run, place: float) -> float:
    """The place as cm from the run's beginning."""
    if not run.closed:
        return place
    at = place % run.length
    return 0.0 if run.length - at < HAIR else at


def _square(motif: Motif) -> Motif:
    """The motif no larger than fits a square corner."""
    width, height = motif.size
    return motif if width <= height else sized(motif, height * height / width if height < width else width)


def _placements(
    run: Run, begins: Sequence[float], at: float, half: float, inward: float, choice: RepeatChoice
) -> Iterator[Placement]:
    """On the part on which its middle lies, then on those whose seams it crosses."""
    upright = stands_upright(choice, run)
    whole = begins[-1]
    seams = [seam + turn for seam in run.seams for turn in ((0.0, whole, -whole) if run.closed else (0.0,))]
    found: list[tuple[bool, Placement]] = []
    for turn in (0.0, whole, -whole) if run.closed else (0.0,):
        for stretch, low, high in zip(run.stretches, begins, begins[1:], strict=False):
            if low - turn < at + half - 1e-4 and high - turn > at - half + 1e-4:
                there = _placement(
                    stretch, at + turn - low, half, inward, choice, _flips(run, whole, at, choice), upright
                )
                own = low - turn - HAIR <= at < high - turn - HAIR or at >= high - turn - HAIR >= whole - 2 * HAIR
                nearest = min(max(at, low - turn), high - turn)
                if own or any(min(at, nearest) - 1e-4 <= seam <= max(at, nearest) + 1e-4 for seam in seams):
                    found.append((not own, there))
    yield from _once(at, found)


def _once(at: float, found: Sequence[tuple[bool, Placement]]) -> Iterator[Placement]:
    """The own one first; another on the same part, all but in the same place, is the same."""
    ordered = sorted(found, key=lambda each: each[0])
    kept: list[Placement] = []
    for i, (_, each) in enumerate(ordered):
        if all(each.part != other.part or math.dist(each.point, other.point) > 0.5 for other in kept):
            kept.append(replace(each, at=at, again=i > 0))
    yield from kept


def _flips(run: Run, whole: float, at: float, choice: RepeatChoice) -> bool:
    """Whether the motif is one of those that mirror the others."""
    if not choice.mirrored:
        return False
    if choice.along in LIPS and run.along == "edge":
        return _worn_right(run.stretches[0])
    return at > whole / 2 + HAIR


def _worn_right(stretch: Stretch) -> bool:
    """Whether the cloth lies on the right hand as it is worn."""
    return (hand_in(stretch) < 0) != stretch.mirrored


def _placement(
    stretch: Stretch, at: float, half: float, inward: float, choice: RepeatChoice, flip: bool, upright: bool
) -> Placement:
    """A motif's middle ``inward`` of the stretch, its foot along the chord under it.

    It stands upright as the garment is worn, on an opening's lips with its foot to the edge.
    """
    (ax, ay), (bx, by) = _point(stretch.points, at - half), _point(stretch.points, at + half)
    long = math.dist((ax, ay), (bx, by))
    dx, dy = (bx - ax) / long, (by - ay) / long
    hand = hand_in(stretch)
    worn_left = -1 if stretch.mirrored else 1
    up = hand if choice.along in LIPS and stretch.cloth != "both" else worn_left
    along = (1 if up == worn_left else -1) * (-1 if flip else 1)
    x, y = _point(stretch.points, at)
    if upright:
        return Placement(stretch.part, at, (x, y), math.degrees(math.atan2(dx, -dy)), stretch.mirrored)
    point = (x - dy * inward * hand, y + dx * inward * hand)
    mirrored = along * up < 0
    way = -along if mirrored else along
    return Placement(stretch.part, at, point, math.degrees(math.atan2(dy * way, dx * way)), mirrored)


def _point(points: Line, at: float) -> Point:
    """So far along the points (cm); past their ends straight on."""
    steps = [(a, b, math.dist(a, b)) for a, b in itertools.pairwise(points)]
    for i, (a, b, step) in enumerate(steps):
        if step and (at <= step or i == len(steps) - 1):
            t = at / step
            return (a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t)
        at -= step
    return points[-1]


def _corner(run: Run, at: float, turn: float, inward: float) -> Placement:
    """The corner motif on the bisector of a corner, square to both edges where that is square."""
    begins = starts(run)
    whole = begins[-1]
    # the stretch that ends in the corner, or turns within itself
    i = next(i for i, end in enumerate(begins[1:]) if (at or whole) <= end + 1e-4)
    stretch, before = run.stretches[i], (at or whole) - begins[i]
    (ax, ay), (bx, by) = _point(stretch.points, before - 0.01), _point(stretch.points, before)
    long = math.dist((ax, ay), (bx, by))
    dx, dy = (bx - ax) / long, (by - ay) / long
    hand = hand_in(stretch)
    lean = math.tan(math.radians(turn) / 2) * inward
    point = (bx - dx * lean - dy * inward * hand, by - dy * lean + dx * inward * hand)
    worn_left = -1 if stretch.mirrored else 1
    angle = math.degrees(math.atan2(dy, dx)) + (turn / 2 - math.copysign(45.0, turn)) * hand
    return Placement(stretch.part, at, point, angle + (180.0 if worn_left < 0 else 0.0), worn_left < 0, corner=True)


def bends(repeat: Repeat) -> tuple[float, float]:
    """How far neighbours that touch on the line lie over each other on the inner side of a bend, and how far they gape
    on its outer side, at most (cm)."""
    deep = (0.0 if repeat.run.along == "line" else repeat.chosen.inset) + repeat.motif.size[1]
    hands = {stretch.part: hand_in(stretch) for stretch in repeat.run.stretches}
    over = gape = 0.0
    own = [each for each in repeat.placements if not each.again and not each.corner]
    for one, other in itertools.pairwise(own):
        around = any(one.at < at < other.at for at in repeat.run.corners)
        if one.part == other.part and one.mirrored == other.mirrored and not around:
            bend = ((other.angle - one.angle + 180.0) % 360.0 - 180.0) * hands[one.part]
            wide = 2 * math.tan(math.radians(bend) / 2) * deep
            over, gape = max(over, wide), max(gape, -wide)
    return over, gape
