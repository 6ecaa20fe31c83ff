"""The best bound: what lies side by side at once, then what a search proves."""

from __future__ import annotations

import math
import time
from collections.abc import Sequence
from typing import Final

import numpy as np

from ellwand.lay.bounds.beside import beside_the_widest
from ellwand.lay.bounds.kinds import Kind, kinds_in, kinds_of
from ellwand.lay.bounds.proof import Places, fits_within
from ellwand.lay.bounds.sections import by_name
from ellwand.lay.task import Budget, Stop, Task
from ellwand.model.cloth import Cloth
from ellwand.model.draft import Part
from ellwand.model.piece import Piece
from ellwand.units import round_up

MET: Final = 0.09
"""A bound this near (cm) to the length found proves it best: lengths are read to the millimetre."""

NEAR: Final = 0.04
"""Nothing is asked any nearer (cm) to what is proved."""

LARGEST: Final = 0.8
"""How much of all the cloth's area the largest kinds take up that are tried by themselves, before all are."""

AHEAD: Final = 0.6
"""How far into what is open the next question is put; half as far after each that stayed open."""

PACE: Final = 0.5
"""CP-SAT's deterministic time in what one second of one core does."""

ASKING: Final = 0.01
"""What it takes to put a question, counted as deterministic time."""

MOST: Final = 26
"""More things than these are not searched: the proof would not end."""

PAIRS: Final = 6000
"""Nor more pairs of things than these, each way that one may lie counted for itself: the question would be too long."""

LEAST: Final = 0.08
"""With less than this part of the budget left nothing more is asked."""

ONE: Final = 0.15
"""The part of the budget that one question may take at first; twice as much each time that nothing shorter is left."""


def met(length: float, bound: float) -> bool:
    """Whether no lay can be shorter than ``length`` (cm) by the millimetre that lengths are rounded up to."""
    return round_up(length, 0.1) < bound + 0.1


def lower_bound(pieces: Sequence[Piece], cloth: Cloth) -> tuple[float, str]:
    """The bound at once, in cm, and what sets it; every piece must fit the width in some allowed turn."""
    kinds, width = kinds_of(pieces, (), cloth)
    return at_once(kinds, width)


def better_bound(
    pieces: Sequence[Piece],
    cloth: Cloth,
    *,
    parts: Sequence[Part],
    budget: Budget,
    known: float | None = None,
    stop: Stop | None = None,
) -> tuple[float, str]:
    """The best bound in cm that the budget proves, and what sets it.

    ``known`` is the shortest length found (cm): the search ends when that is proved best, and when ``stop`` says so.
    The same for the same ``budget.effort``; ``budget.seconds`` are of the clock.  Holes in pieces may hold others,
    folded lays are counted opened out, and gaps and faults are left aside: they only lengthen a lay.
    """
    kinds, width = kinds_of(pieces, parts, cloth)
    return _searched(kinds, width, budget, known, stop)


def bound_of(task: Task, *, budget: Budget, known: float | None = None, stop: Stop | None = None) -> tuple[float, str]:
    """The same for a task's shapes as they are posed, along its ground; blocked places are left aside."""
    kinds, width = kinds_in(task)
    return _searched(kinds, width, budget, known, stop)


def at_once(kinds: Sequence[Kind], width: float) -> tuple[float, str]:
    """The longest of the bounds that need no search (cm), and what sets it."""
    bounds = named_bounds(kinds, width)
    name = max(bounds, key=lambda key: round(bounds[key], 6))
    return float(bounds[name]), name


def named_bounds(kinds: Sequence[Kind], width: float) -> dict[str, float]:
    """Every bound that needs no search, in cm, by its name; each holds by itself."""
    return {**by_name(kinds, width), "what fits beside the widest pieces": beside_the_widest(kinds, width)}


def _searched(
    kinds: Sequence[Kind], width: float, budget: Budget, known: float | None, stop: Stop | None
) -> tuple[float, str]:
    """Asks whether the largest kinds, or all, fit in a length that is not yet proved too short.

    Where that stays open it asks about a shorter one; each group only about lengths in which it is not known to fit.
    """
    purse = Purse(budget)
    bound, why = at_once(kinds, width)
    top = known if known is not None else sum(kind.count * min(w.height for w in kind.ways) for kind in kinds)
    groups = groups_of(kinds)
    fit_in = {len(group): math.inf for group in groups}
    one, ahead = ONE * purse.whole, AHEAD
    near: Places = ()
    while top - bound > MET and any(fit > bound + NEAR for fit in fit_in.values()) and not _over(purse, stop):
        length = max(bound + ahead * (top - bound), bound + NEAR)
        # there is always something to ask
        length = min(length, max(fit_in.values()) - NEAR / 2)
        for group in groups:
            if fit_in[len(group)] <= length or _over(purse, stop):
                continue
            effort, seconds = min(one, purse.left), purse.seconds(ONE)
            answer = fits_within(group, width, length, effort=effort, seconds=seconds, near=near, stop=stop)
            purse.spend(answer.effort + ASKING)
            if answer.fits:
                fit_in[len(group)], near = min(length, answer.length), answer.places
            if answer.fits is False:
                bound, why = length, words(group, kinds)
                # what has just proved something is asked first again
                groups.sort(key=lambda each: each is not group)
                ahead = AHEAD
                break
        else:
            ahead /= 2
        top = min(top, fit_in.get(len(kinds), top))
        if ahead * (top - bound) < NEAR:
            one, ahead = 2 * one, AHEAD
    return bound, why


def _over(purse: Purse, stop: Stop | None) -> bool:
    return purse.empty or (stop is not None and stop())


def groups_of(kinds: Sequence[Kind]) -> list[tuple[Kind, ...]]:
    """All, and the largest kinds, where the proof may end."""
    areas = np.cumsum([kind.count * kind.solid for kind in kinds])
    large = int(np.searchsorted(areas, LARGEST * areas[-1])) + 1 if kinds else 0
    counts = sorted({min(large, len(kinds)), len(kinds)}, reverse=True)
    return [tuple(kinds[:n]) for n in counts if n and may_end(kinds[:n])]


def may_end(kinds: Sequence[Kind]) -> bool:
    """Whether so many things in so many ways are worth a search."""
    ways = sum(kind.count * len(kind.ways) for kind in kinds)
    return sum(kind.count for kind in kinds) <= MOST and ways * ways / 2 <= PAIRS


def words(some: Sequence[Kind], kinds: Sequence[Kind]) -> str:
    """What sets a bound that was proved of some of the kinds."""
    count = sum(kind.count for kind in some)
    if len(some) == len(kinds):
        return "every arrangement of the pieces tried"
    return f"every arrangement of the {count} largest pieces tried"


class Purse:
    """What is left of a budget, as CP-SAT's deterministic time; by the clock where the budget is."""

    def __init__(self, budget: Budget) -> None:
        self._end = time.monotonic() + budget.seconds if budget.seconds and not budget.effort else math.inf
        self.whole = (budget.effort or budget.seconds) * PACE
        self._left = self.whole

    @property
    def empty(self) -> bool:
        """Whether too little is left to ask anything."""
        return self.left <= LEAST * self.whole

    @property
    def left(self) -> float:
        """What may still be spent."""
        return self._left if self._end == math.inf else max(self._end - time.monotonic(), 0.0) * PACE

    def seconds(self, share: float) -> float:
        """Of the clock, for one question."""
        return max(share * (self._end - time.monotonic()), 0.01) if self._end < math.inf else 1e6

    def spend(self, effort: float) -> None:
        """It is gone."""
        self._left -= effort
