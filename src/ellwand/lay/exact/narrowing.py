"""A lay made shorter, and its bound longer, question by question until they meet.

A length is put to CP-SAT (``bounds.proof``).  'Yes' comes with places, which are pushed apart where they overlap by the
rounding and are then a shorter lay; 'no' is a bound.  Questions a little below the lay and a little above the bound
take turns: the step is doubled after an answer and halved after none, and when no step is left to halve each question
gets twice the time.  Every question is put with another seed, as the same one may take a second with one seed and a
minute with another; the first guess at an answer is every other time the best lay that there is.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from ellwand.lay.bounds.best import Purse, at_once, groups_of, met, words
from ellwand.lay.bounds.kinds import Kind
from ellwand.lay.bounds.proof import Answer, fits_within
from ellwand.lay.exact.places import Numbered, settled_places
from ellwand.lay.task import Budget

ONE: Final = 0.25
"""CP-SAT's deterministic time for one question, at first."""

STEP: Final = 0.3
"""The first step from either end, over what is open between lay and bound."""

LONGEST: Final = 0.5

SMALL: Final = 0.1
"""The least step (cm), but where less is open: lengths are read to the millimetre."""

LEAST: Final = 0.005
"""Nearer (cm) they need not come."""

ASKING: Final = 0.02
"""What it takes to put a question, counted as deterministic time."""


@dataclass(slots=True)
class Heard:
    """The shortest lay that anyone has, and its length (cm); changed from outside.

    Without ``places`` only the length is known.
    """

    length: float
    places: Numbered = ()


Lay = Callable[[Numbered, float], None]
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
        self._seed, self._asked = budget.seed, 0
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
        while not met(self._heard.length, self._bound) and self.open > LEAST and not self._purse.empty:
            if down >= up:
                down = _next(down, self._shorter(self._step(down), one))
            else:
                up = _next(up, self._longer(self._step(up), one))
            if max(down, up) <= STEP / 2 and max(down, up) * self.open < SMALL:
                one, down, up = 2 * one, STEP, STEP

    def _step(self, share: float) -> float:
        return min(max(share * self.open, SMALL), self.open / 2)

    def _shorter(self, step: float, effort: float) -> bool:
        """Ask for a lay shorter by a step; whether anything came of it."""
        length = self._heard.length - step
        return self._learnt(self._kinds, length, self._ask(self._kinds, length, effort))

    def _longer(self, step: float, effort: float) -> bool:
        """Ask whether all, or the largest, fit in a length a step beyond what is proved too short; as ``_shorter``."""
        length = self._bound + step
        group = next((group for group in self._groups if self._fit_in[len(group)] > length), None)
        if group is None:
            return False
        learnt = self._learnt(group, length, self._ask(group, length, effort))
        if not learnt:
            # the others' turn
            self._groups.sort(key=lambda each: each is group)
        return learnt

    def _ask(self, some: Sequence[Kind], length: float, effort: float) -> Answer:
        self._seed += 1
        self._asked += 1
        # two with the places of the lay as a first guess, two without: a poor lay misleads
        guess = self._heard.places if self._asked % 4 in (1, 2) else ()
        answer = fits_within(
            some,
            self._width,
            length,
            effort=min(effort, self._purse.left),
            seconds=self._purse.seconds(1.0),
            seed=self._seed,
            near=[(self._kinds[kind], self._kinds[kind].ways[way], x, y) for kind, way, x, y in guess],
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
        places = settled_places(answer, self._kinds, self._width)
        length = max((y + self._kinds[kind].ways[way].height for kind, way, _, y in places), default=math.inf)
        if length >= self._heard.length:
            return False
        self._heard.length, self._heard.places = length, places
        self._tell_lay(places, length)
        return True


def _next(step: float, learnt: bool) -> float:
    return min(2 * step, LONGEST) if learnt else step / 2
