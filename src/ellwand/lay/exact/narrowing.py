"""A lay made shorter, and its bound longer, question by question until they meet.

A length is put to CP-SAT (``bounds.proof``).  'Yes' comes with places, which are pushed apart where they overlap by the
rounding and are then a shorter lay; 'no' is a bound.  Questions a little below the lay and a little above the bound
take turns: the step is doubled after an answer and halved after none, and when no step is left to halve each question
gets twice the time.  Every question is put with another seed, as the same one may take a second with one seed and a
minute with another.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from ellwand.lay.bounds.best import MET, Purse, at_once, groups_of, words
from ellwand.lay.bounds.kinds import Kind
from ellwand.lay.bounds.proof import Answer, fits_within
from ellwand.lay.exact.places import Places, settled_places
from ellwand.lay.task import Budget, length_of

ONE: Final = 0.25
"""CP-SAT's deterministic time for one question, at first."""

STEP: Final = 0.3
"""The first step from either end, over what is open between lay and bound."""

LONGEST: Final = 0.5

LEAST: Final = 0.1
"""The least step (cm): lengths are read to the millimetre."""

ASKING: Final = 0.02
"""What it takes to put a question, counted as deterministic time."""


@dataclass(slots=True)
class Heard:
    """The shortest length that anyone has (cm); changed from outside."""

    length: float


Lay = Callable[[Places, float], None]
"""Told of every shorter lay that is sound, and its length (cm)."""

Bound = Callable[[float, str], None]
"""Told of every longer bound (cm), and what sets it."""


class Narrowing:
    """One task, between the longest bound and the shortest lay."""

    def __init__(
        self, kinds: Sequence[Kind], width: float, budget: Budget, heard: Heard, lay: Lay, bound: Bound
    ) -> None:
        self._kinds, self._width, self._heard = tuple(kinds), width, heard
        self._tell_lay, self._tell_bound = lay, bound
        self._purse = Purse(budget)
        self._seed = budget.seed
        self._bound, why = at_once(kinds, width)
        self._groups = list(groups_of(kinds))
        # no proof is possible above these
        self._fit_in = {len(group): math.inf for group in self._groups}
        bound(self._bound, why)

    @property
    def open(self) -> float:
        """Between bound and lay (cm)."""
        return self._heard.length - self._bound

    def run(self) -> None:
        """Until they meet or the budget is spent."""
        one, down, up = ONE, STEP, STEP
        while self.open > MET and not self._purse.empty:
            if down >= up:
                down = _next(down, self._shorter(max(down * self.open, LEAST), one))
            else:
                up = _next(up, self._longer(max(up * self.open, LEAST), one))
            if max(down, up) * self.open < LEAST:
                one, down, up = 2 * one, STEP, STEP

    def _shorter(self, step: float, effort: float) -> bool:
        """Ask for a lay shorter by a step; whether anything came of it."""
        length = max(self._heard.length - step, self._bound + LEAST / 2)
        return self._learnt(self._kinds, length, self._ask(self._kinds, length, effort))

    def _longer(self, step: float, effort: float) -> bool:
        """Ask, of the largest things and of all, about a length a step beyond what is proved too short."""
        length = min(self._bound + step, self._heard.length - LEAST / 2)
        for group in self._groups:
            if self._fit_in[len(group)] <= length or self._purse.empty:
                continue
            if self._learnt(group, length, self._ask(group, length, effort)):
                # what has just answered is asked first again
                self._groups.sort(key=lambda each: each is not group)
                return True
        return False

    def _ask(self, some: Sequence[Kind], length: float, effort: float) -> Answer:
        self._seed += 1
        answer = fits_within(
            some,
            self._width,
            length,
            effort=min(effort, self._purse.left),
            seconds=self._purse.seconds(1.0),
            seed=self._seed,
        )
        self._purse.spend(answer.effort + ASKING)
        return answer

    def _learnt(self, some: Sequence[Kind], length: float, answer: Answer) -> bool:
        """Whether lay or bound is the better for it."""
        if answer.fits is False:
            self._bound = length
            self._tell_bound(length, words(some, self._kinds))
            return True
        if answer.fits:
            self._fit_in[len(some)] = min(self._fit_in.get(len(some), math.inf), length)
            if len(some) == len(self._kinds):
                return self._shown(answer)
        return False

    def _shown(self, answer: Answer) -> bool:
        spots = settled_places(answer, self._kinds, self._width)
        if not spots or length_of([spot for _, _, spot in spots]) >= self._heard.length:
            return False
        self._heard.length = length_of([spot for _, _, spot in spots])
        self._tell_lay([(kind, way, spot.x, spot.y) for kind, way, spot in spots], self._heard.length)
        return True


def _next(step: float, learnt: bool) -> float:
    return min(2 * step, LONGEST) if learnt else step / 2
