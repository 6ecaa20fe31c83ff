"""A run: a line on the sewn garment that goes from part to part, as a neck, a hem or a ring round a sleeve does."""

from __future__ import annotations

import bisect
import itertools
import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Literal

from ellwand.geometry.lines import SAME, Line, Point, backwards, length, split

ClothOn = Literal["left", "right", "both"]
"""On which hand the cloth lies of someone who walks the line on its piece as that is drawn; ``both``: inside it."""
Along = Literal["edge", "seam", "line"]
"""What a run follows: an edge that is left open, a seam between parts, or a line across them."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """What of a run lies on one part: ``points`` in the coordinates of its piece (cm), as they are walked.

    ``edge``: the edge it follows, or '' where it crosses the piece.  The piece of a ``mirrored`` part is drawn the
    other way round: as it is worn, the cloth lies there on the hand that ``cloth`` does not name.
    """

    part: str
    edge: str
    points: Line
    cloth: ClothOn
    mirrored: bool = False

    @property
    def length(self) -> float:
        """Centimetres."""
        return length(self.points)


@dataclass(frozen=True, slots=True)
class Run:
    """Stretches end to end.  A closed one begins at the centre front, or where the band's join would be hidden.

    Seen from outside, a run round the body goes from the wearer's centre front toward the wearer's left; one round an
    arm begins at its seam; one along an opening begins at its upper end.
    ``corners``: how far along (cm) it turns sharply, and ``turns`` by how many degrees at each: toward the cloth where
    that is positive, away from it where it is negative; of a line inside the cloth, to the left as it is worn.
    ``seams``: how far along it crosses a seam; ``bends``: where it turns there, but less than at a corner, and by how
    many degrees.
    """

    name: str
    stretches: tuple[Stretch, ...]
    closed: bool
    corners: tuple[float, ...] = ()
    seams: tuple[float, ...] = ()
    along: Along = "edge"
    turns: tuple[float, ...] = ()
    bends: tuple[tuple[float, float], ...] = ()

    @property
    def length(self) -> float:
        """Centimetres."""
        return math.fsum(stretch.length for stretch in self.stretches)


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on a run: the stretch's number, the point and the unit direction in its piece's coordinates (cm)."""

    stretch: int
    at: Point
    direction: Point


def starts(run: Run) -> list[float]:
    """How far along the run each of its stretches begins (cm), and after the last where it ends."""
    return [0.0, *itertools.accumulate(stretch.length for stretch in run.stretches)]


def spot_at(run: Run, distance: float) -> Spot:
    """The place so far along (cm); round and round on a closed run, no further than the ends of an open one."""
    begins = starts(run)
    whole = begins[-1]
    distance = distance % whole if run.closed else min(max(distance, 0.0), whole)
    i = min(bisect.bisect_right(begins, distance + SAME) - 1, len(run.stretches) - 1)
    left = distance - begins[i]
    steps = [(a, b, math.dist(a, b)) for a, b in itertools.pairwise(run.stretches[i].points)]
    for n, (a, b, step) in enumerate(steps):
        if step and (left < step - SAME or n == len(steps) - 1):
            dx, dy = (b[0] - a[0]) / step, (b[1] - a[1]) / step
            return Spot(i, (a[0] + dx * left, a[1] + dy * left), (dx, dy))
        left -= step
    raise ValueError("a stretch without length")


def beside(run: Run, distance: float, inward: float) -> Spot:
    """The place so far along, and ``inward`` cm from the line: into the cloth; from a line inside it to the left as it
    is worn, which on a ring is upward."""
    spot = spot_at(run, distance)
    hand = hand_in(run.stretches[spot.stretch])
    (x, y), (dx, dy) = spot.at, spot.direction
    return replace(spot, at=(x - dy * inward * hand, y + dx * inward * hand))


def hand_in(stretch: Stretch) -> int:
    """1 where the cloth, or a ring's upper side, lies left of who walks the drawn points, −1 where it lies right."""
    if stretch.cloth == "both":
        return -1 if stretch.mirrored else 1
    return -1 if stretch.cloth == "right" else 1


def part_of_run(run: Run, start: float, end: float) -> Run:
    """What lies between two distances (cm) of a run, as an open one; on a closed run past its end to its beginning.

    Its corners, bends and seams are told from its own beginning.
    """
    whole = run.length
    begins = starts(run)
    out = []
    for lap in (0.0, whole) if run.closed and end > whole + SAME else (0.0,):
        for stretch, low, high in zip(run.stretches, begins, begins[1:], strict=False):
            a, b = max(start - lap, low), min(end - lap, high)
            if b - a > SAME:
                lines = split(stretch.points, [at - low for at in (a, b) if low + SAME < at < high - SAME])
                out.append(replace(stretch, points=lines[1 if a > low + SAME else 0]))

    def kept(at: float) -> float | None:
        laps = (at, at + whole) if run.closed else (at,)
        return next((each - start for each in laps if start + SAME < each < end - SAME), None)

    return _retold(replace(run, stretches=_merged(out), closed=False), run, kept)


def begun_at(run: Run, start: float) -> Run:
    """A closed run that begins ``start`` cm further along."""
    whole = run.length
    start %= whole
    if start < SAME or whole - start < SAME:
        return run
    moved = replace(part_of_run(run, start, start + whole), closed=True)

    def along(at: float) -> float:
        further = (at - start) % whole
        return 0.0 if whole - further < SAME else further

    return _retold(moved, run, along)


def reversed_run(run: Run) -> Run:
    """The same line walked from its other end."""
    whole = run.length
    other: dict[ClothOn, ClothOn] = {"left": "right", "right": "left", "both": "both"}
    stretches = tuple(
        replace(each, points=backwards(each.points), cloth=other[each.cloth]) for each in reversed(run.stretches)
    )
    back = _retold(
        replace(run, stretches=stretches), run, lambda at: (whole - at) % whole if run.closed else whole - at
    )
    if run.along == "edge":
        return back
    return replace(
        back,
        turns=tuple(-turn for turn in back.turns),
        bends=tuple((at, -turn) for at, turn in back.bends),
    )


def _retold(new: Run, old: Run, along: Callable[[float], float | None]) -> Run:
    """The new run with the old one's corners, bends and seams: at the distances where they now lie, or nowhere."""

    def moved(pairs: Iterable[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
        return tuple(sorted((there, turn) for at, turn in pairs if (there := along(at)) is not None))

    corners = moved(zip(old.corners, old.turns, strict=True))
    return replace(
        new,
        corners=tuple(at for at, _ in corners),
        turns=tuple(turn for _, turn in corners),
        bends=moved(old.bends),
        seams=tuple(at for at, _ in moved((at, 0.0) for at in old.seams)),
    )


def _merged(stretches: Iterable[Stretch]) -> tuple[Stretch, ...]:
    """Neighbours on one edge, the second of which goes on where the first ends, as one stretch."""
    out: list[Stretch] = []
    for each in stretches:
        last = out[-1] if out and (out[-1].part, out[-1].edge) == (each.part, each.edge) else None
        if last and math.dist(last.points[-1], each.points[0]) < SAME:
            out[-1] = replace(last, points=(*last.points, *each.points[1:]))
        else:
            out.append(each)
    return tuple(out)
