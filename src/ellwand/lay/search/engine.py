"""Searching: many lays, one after the other, until the budget is spent."""

from __future__ import annotations

import itertools
import math
import time
from collections.abc import Iterator
from typing import Final

from ellwand.lay.search.tables import tables_of
from ellwand.lay.search.upturned import upturned
from ellwand.lay.shapes import HAIR
from ellwand.lay.task import Budget, Found, Ground, Pose, Report, Shape, Spot, Stop, Task

EFFORT: Final = 40_000_000
"""Tests of one outline against another that one second of a core makes."""

LOOK: Final = 1_500_000
"""After so many tests the clock, the improvements and ``stop`` are looked at."""

RULES: Final = 2
"""How many rules of placing one short cooling uses."""

ROUNDS: Final = ((False, 4), (True, 2), (True, 4), (True, 6))
"""What the coolings do in turn: whether they begin anew, and how many rules of placing they use."""

FIRST_ROUND: Final = 20_000_000
LONGER: Final = 1.3
"""How many tests the first cooling takes; each later one takes so many times more."""


def search(task: Task, budget: Budget, report: Report, stop: Stop) -> Found | None:
    """The shortest lay found within the budget; None when nothing was, or shapes must be left out.

    With ``budget.effort`` the same lay to the last digit on every run, else what the seconds allow.
    """
    best: Found | None = None
    for lay in _lays(task, budget, stop):
        if len(lay.spots) == len(task.shapes) and (best is None or lay.length < best.length - HAIR):
            best = lay
            report(best)
    return best


def fill(task: Task, budget: Budget, report: Report, stop: Stop) -> tuple[Spot, ...]:
    """Ground with a length (a remnant): a lay of the shapes that cover most of it together; may be empty."""
    best: tuple[Spot, ...] = ()
    for lay in _lays(task, budget, stop):
        best = lay.spots
        report(lay)
    return best


def first(task: Task) -> Found | None:
    """The best of a few lays, at once and the same every time; None when shapes must be left out."""
    return search(task, Budget(), lambda found: None, lambda: True)


def prepare() -> None:
    """Compiles what is not compiled yet (about 20 s of one core) and keeps it on disk."""
    square = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    shape = Shape("square", "square", (Pose(0.0, False, square, (0.0, 0.0), 1.0, 1.0),))
    brief(Task((shape,), Ground(1.0)), 1)


def brief(task: Task, tests: int) -> Found | None:
    """The best of one short cooling of about so many tests, the same every time; None when shapes must be left out."""
    from ellwand.lay.search.state import State

    begun = time.monotonic()
    tables = tables_of(task)
    if tables is None:
        return None
    state = State(tables, 1)
    state.start()
    if state.least == math.inf:
        return None
    state.begin(tests, RULES, anew=False)
    while state.done < state.ends:
        state.cool(state.ends)
    found = state.found(begun)
    return found if len(found.spots) == len(task.shapes) else None


def _lays(task: Task, budget: Budget, stop: Stop) -> Iterator[Found]:
    """Ever better lays (shorter, or with more in them), until the budget is spent or ``stop`` says so."""
    from ellwand.lay.search.state import State

    begun = time.monotonic()
    other = upturned(task)
    states = []
    for each in (task, other.task) if other else (task,):
        tables = tables_of(each)
        if tables is None:
            return
        states.append(State(tables, budget.seed))
    least = math.inf

    def over() -> bool:
        late = time.monotonic() - begun >= budget.seconds
        return stop() or (sum(s.done for s in states) >= budget.effort * EFFORT if budget.effort else late)

    def better(state: State) -> Iterator[Found]:
        nonlocal least
        if state.least < least - HAIR:
            least = state.least
            found = state.found(begun)
            yield other.righted(found) if other and state is states[1] else found

    for state in states:
        state.start()
        yield from better(state)
    if least == math.inf:
        return
    for number in itertools.count():
        turn, which = divmod(number, len(states))
        anew, rules = ROUNDS[turn % len(ROUNDS)]
        state = states[which]
        state.begin(int(FIRST_ROUND * LONGER**turn), rules, anew=anew)
        while state.done < state.ends:
            if over():
                return
            state.cool(state.done + LOOK)
            yield from better(state)
