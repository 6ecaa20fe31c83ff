"""The engines behind one function: an answer at once, then every engine at the same time until the budget is spent.

With seconds, our search runs in a thread, the exact engine and the outside solvers in processes of their own, each
told how short the others are; the last part of the time goes to the polish.  All end when a lay is proved best.  With
effort, only what repeats to the last digit runs, each engine to its end, whatever the clock says.  Where packingsolver
is not installed (it has no wheels for Python 3.11) the others search without it.
"""

from __future__ import annotations

import math
import os
import time
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from ellwand.errors import InternalFault
from ellwand.lay.engines import Leader, Own, Run, settled
from ellwand.lay.exact import Exact, leads, takes
from ellwand.lay.hulls import is_convex
from ellwand.lay.rows import rows
from ellwand.lay.solvers import Asked, ask, available, only_boxes
from ellwand.lay.swap import polished
from ellwand.lay.task import Budget, Found, Ground, Report, Spot, Stop, Task, length_of, never, unheard

POLISH: Final = 0.06
"""The last part of the time."""

TRIALS: Final = 50
"""The polish's trials for each unit of effort."""

RUN: Final = 2
"""Units of effort that one of packingsolver's runs takes, on average."""

MOST_EXACT: Final = 30
"""So many rectangles CP-SAT may lay as short as can be."""

MANY: Final = 40
"""With more pieces than this spyrrow goes first."""

SHORT: Final = 5.0
"""In less (s) the exact engine, which is slow to start, gives way to spyrrow."""

MOST_CHASED: Final = 8
"""With more kinds of shapes packingsolver finds more as it comes than in our short runs at a short strip."""

A_LITTLE: Final = 2
A_LOT: Final = 8
"""How much one solver gives way to another, as ``nice`` counts it."""

SLACK: Final = 1.02
"""A lay longer than the best by more than this is not worth settling."""

TICK: Final = 0.02
"""How often (s) the clock, the maker's stop and the engines are looked at."""


def best(task: Task, budget: Budget, report: Report = unheard, stop: Stop = never, *, enough: float = 0.0) -> Found:
    """The shortest lay of all of a strip's shapes that the budget finds.

    ``report`` hears of every shorter lay, one at a time, from whichever thread has it.  The search ends early when
    ``stop`` says so (within 0.2 s), on Ctrl-C, and when the length comes down to ``enough``, which no lay can undercut
    (cm), or to what is proved meanwhile: the lay's ``bound``.  Every lay is free of overlap.
    Raises InternalFault when no engine can lay the pieces at all.
    """
    leader = Leader(report, enough)
    leader.offer(*_at_once(task))
    if len(task.shapes) < 2 or not leader.wanting:
        return leader.found
    try:
        if budget.effort:
            _repeatable(task, budget, leader, stop)
        elif budget.seconds > 0:
            _timed(task, budget, leader, stop)
    except KeyboardInterrupt:
        pass
    finally:
        leader.close()
    return leader.found


def _at_once(task: Task) -> tuple[Sequence[Spot], str]:
    """The instant engine's lay; where the ground has more to heed than it knows, our search's first."""
    if not task.shapes:
        return (), "rows"
    if (asked := ask(task)) is not None and not task.ground.blocked and _strip(task.ground):
        inside = {id(shape): kind.poses for kind in asked.kinds for shape in kind.shapes}
        free = [replace(shape, poses=inside[id(shape)]) for shape in task.shapes]
        whole = {shape.part: shape for shape in task.shapes}
        fallen = [replace(s, shape=whole[s.shape.part]) for s in rows(free, task.ground.width)]
        return settled(fallen, task) or fallen, "rows"
    from ellwand.lay.search import first

    found = first(task)
    if found is None:
        raise InternalFault("no engine could lay the pieces")
    return settled(found.spots, task) or found.spots, found.engine


def _strip(ground: Ground) -> bool:
    """Whether the ground has neither an end nor a pattern."""
    return ground.length is None and ground.repeat == (0.0, 0.0)


def _timed(task: Task, budget: Budget, leader: Leader, stop: Stop) -> None:
    """All engines until it is time for the polish."""
    until = budget.seconds * (1 - POLISH)
    runs: list[Run | Exact] = [*_runs(task, leader, budget), *_exact(task, leader, budget)]
    own = Own(task, replace(budget, seconds=until - leader.elapsed), leader)
    try:
        while leader.wanting and not stop() and (left := until - leader.elapsed) > 0:
            for run in runs:
                run.keep_going(left)
            _hear(task, (own, *runs), leader)
            time.sleep(min(TICK, left))
    finally:
        for run in runs:
            run.end()
        own.end()
    if stop():
        return
    _hear(task, (own, *runs), leader)

    def over() -> bool:
        return stop() or not leader.wanting or leader.elapsed > budget.seconds

    polished(task, leader, over, seed=budget.seed)


def _hear(task: Task, engines: Sequence[Own | Run | Exact], leader: Leader) -> None:
    """Settle what has come in, and tell all engines how short the best is."""
    for engine in engines:
        if isinstance(engine, Exact):
            leader.proved(*engine.bound)
        spots = engine.latest()
        if spots and length_of(spots) < leader.found.length * SLACK and (lay := settled(spots, task)):
            leader.offer(lay, engine.engine)
    for engine in engines:
        engine.aim(leader.found)


def _repeatable(task: Task, budget: Budget, leader: Leader, stop: Stop) -> None:
    """Each engine to its end, and their last lays in turn: the same ones every time."""
    runs: list[Run | Exact] = [
        Run("packingsolver", asked, "steady", budget.seed, runs=math.ceil(budget.effort / RUN))
        for asked in [_asked("packingsolver", task, leader.found.spots)]
        if asked is not None
    ]
    runs += _exact(task, leader, budget)
    own = Own(task, replace(budget, seconds=0.0), leader)
    try:
        for run in runs:
            run.keep_going(math.inf)
        while own.running:
            if stop():
                return
            time.sleep(TICK)
        own.end()
        _hear(task, [own], leader)
        while leader.wanting and any(run.running for run in runs):
            if stop():
                return
            time.sleep(TICK)
        if leader.wanting:
            _hear(task, runs, leader)
    finally:
        own.end()
        for run in runs:
            run.end()
    polished(task, leader, lambda: stop() or not leader.wanting, seed=budget.seed, trials=TRIALS * budget.effort)


def _runs(task: Task, leader: Leader, budget: Budget) -> list[Run]:
    """The outside solvers that know the task, and what each is given of the machine."""
    engines: list[tuple[str, str, dict[str, int]]]
    if only_boxes(task) and len(task.shapes) <= MOST_EXACT:
        # CP-SAT is no use on one thread
        threads = max(2, os.cpu_count() or 1)
        engines = [("packingsolver", "rectangles", {"nice": A_LOT}), ("ortools", "rectangles", {"threads": threads})]
    elif only_boxes(task):
        engines = [("packingsolver", "rectangles", {})]
    elif _for_spyrrow(task):
        engines = [("packingsolver", "chase", {"nice": A_LOT}), ("spyrrow", "anytime", {})]
    else:
        nice = A_LOT if leads(task) and budget.seconds >= SHORT else A_LITTLE
        way = "chase" if len({id(shape.poses) for shape in task.shapes}) <= MOST_CHASED else "anytime"
        engines = [("packingsolver", way, {}), ("spyrrow", "anytime", {"nice": nice})]
    return [
        Run(engine, asked, way, budget.seed, **settings)
        for engine, way, settings in engines
        if (asked := _asked(engine, task, leader.found.spots)) is not None
    ]


def _exact(task: Task, leader: Leader, budget: Budget) -> list[Exact]:
    """The exact engine, where it knows the task; rectangles have one of their own."""
    if only_boxes(task) or not takes(task) or 0 < budget.seconds < SHORT:
        return []
    return [Exact(task, budget, leader.found.spots)]


def _for_spyrrow(task: Task) -> bool:
    """Whether there are many pieces, or hollow ones, on which spyrrow finds more than the others in the same time."""
    rings = {id(s.poses): s.poses[0].ring for s in task.shapes}.values()
    return len(task.shapes) > MANY or sum(not is_convex(ring) for ring in rings) > len(rings) / 2


def _asked(solver: str, task: Task, faces: Sequence[Spot]) -> Asked | None:
    """The task for a solver; None where it is not installed or cannot know the task."""
    if not available(solver) or not _strip(task.ground) or (solver == "spyrrow" and task.ground.blocked):
        return None
    return ask(task, faces if solver == "spyrrow" else ())
