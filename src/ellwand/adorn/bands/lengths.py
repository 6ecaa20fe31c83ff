"""How long the two sides of a band are that lies along a run, and how much it has to bend.

A line that lies d beside another is shorter than it by d times the angle (radians) by which that one turns toward it
(parallel curves, Steiner).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from ellwand.geometry.lines import SAME
from ellwand.model.band import BandCorners, Corner
from ellwand.model.run import Run, hand_in, starts
from ellwand.model.surface import turning

WINDOW: Final = 10.0
"""The bend is told of so much of a run (cm): over less, cloth gives way (our own figure)."""
NO_MITRE: Final = 150.0
"""A band that turns by more than this (degrees) is not folded: its ends cross at the point."""
SQUARE: Final = 20.0
"""Within so many degrees of a right angle a corner is square enough for butted ends (our own figure)."""


@dataclass(frozen=True, slots=True)
class Sides:
    """Lengths in cm: of the band as it lies flat, of its longer and its shorter side, and what of it is eased in, its
    mitres aside; ``bent``: the greatest bend."""

    length: float
    longer: float
    shorter: float
    eased: float
    bent: float


def reaches(run: Run, width: float) -> tuple[float, float]:
    """How far to the cloth's side of the run (cm) the band's two sides lie: inside an edge, else on both sides."""
    return (0.0, width) if run.along == "edge" else (-width / 2, width / 2)


def sides(run: Run, width: float, corners: tuple[Corner, ...]) -> Sides:
    """The two sides of a band along the run."""
    low, high = reaches(run, width)
    flat, longer, shorter, eased = 0.0, 0.0, 0.0, 0.0
    for begin, end, before, after in _between_corners(run):
        turned = math.radians(math.fsum(turn for at, turn in _turns(run) if begin - SAME <= at < end - SAME))
        mitred = sum(math.tan(math.radians(turn) / 2) for turn in (before, after) if abs(turn) <= NO_MITRE)
        smooth = [end - begin - d * turned for d in (low, high)]
        whole = [cm - d * mitred for cm, d in zip(smooth, (low, high), strict=True)]
        flat += max(smooth)
        eased += max(smooth) - min(smooth)
        longer += max(whole)
        shorter += min(whole)
    return Sides(flat + math.fsum(corner.extra for corner in corners), longer, shorter, eased, _bent(run, width))


def corners_of(run: Run, width: float, style: BandCorners) -> tuple[Corner, ...]:
    """What a band does at each corner of its run."""
    out = []
    low, high = reaches(run, width)
    for at, turn in zip(run.corners, run.turns, strict=True):
        toward = 1.0 if turn > 0 else -1.0
        if abs(turn) > NO_MITRE:
            out.append(Corner(at, turn, 90.0, width))
        elif style == "butted":
            out.append(Corner(at, turn, 90.0, -toward * width if run.along == "edge" else 0.0))
        else:
            reach = high if turn < 0 else abs(low)
            extra = 2 * reach * math.tan(math.radians(abs(turn)) / 2)
            out.append(Corner(at, turn, 90.0 - abs(turn) / 2, extra))
    return tuple(out)


def is_square(turn: float) -> bool:
    """Whether a corner that turns by so many degrees may be butted."""
    return abs(abs(turn) - 90.0) <= SQUARE


def _between_corners(run: Run) -> Iterator[tuple[float, float, float, float]]:
    """(begin, end, turn before, turn after) of what lies between corners; past the end of a closed run."""
    whole, stops = run.length, list(zip(run.corners, run.turns, strict=True))
    if run.closed and stops:
        for (a, before), (b, after) in itertools.pairwise([*stops, (stops[0][0] + whole, stops[0][1])]):
            yield a, b, before, after
        return
    for (a, before), (b, after) in itertools.pairwise([(0.0, 0.0), *stops, (whole, 0.0)]):
        yield a, b, before, after


def _turns(run: Run) -> list[tuple[float, float]]:
    """Every turn (degrees toward the cloth, or to the left as worn) that is no corner; of a closed run twice round."""
    out = list(run.bends)
    for stretch, at in zip(run.stretches, starts(run), strict=False):
        hand = hand_in(stretch)
        for a, b, c in zip(stretch.points, stretch.points[1:], stretch.points[2:], strict=False):
            at += math.dist(a, b)
            out.append((at, hand * turning(a, b, c)))
    sharp = set(run.corners)
    kept = [(at, turn) for at, turn in out if all(abs(at - corner) > SAME for corner in sharp)]
    whole = run.length
    return sorted([*kept, *((at + whole, turn) for at, turn in kept)] if run.closed else kept)


def _bent(run: Run, width: float) -> float:
    """The band's width over the radius of the tightest bend; what it bends at seams is shared by the whole run."""
    whole, seams = run.length, [at for at, _ in run.bends]
    span = min(WINDOW, whole)
    smooth = [(at, turn) for at, turn in _turns(run) if all(abs(at % whole - seam) > SAME for seam in seams)]
    tightest, i, total = 0.0, 0, 0.0
    for at, turn in smooth:
        total += turn
        while smooth[i][0] <= at - span + SAME:
            total -= smooth[i][1]
            i += 1
        tightest = max(tightest, abs(total))
    shared = abs(math.fsum(turn for _, turn in run.bends)) / whole
    return width * math.radians(tightest / span + shared)
