"""The exact engine beside the others: its process, begun once, told how short the others are, and heard."""

from __future__ import annotations

import json
import math
from collections import deque
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from ellwand.lay.bounds.best import may_end
from ellwand.lay.bounds.kinds import kinds_in
from ellwand.lay.exact.places import Numbered, as_json, numbered, spots_of
from ellwand.lay.solvers import Worker
from ellwand.lay.task import Budget, Found, Spot, Task, length_of

SCRIPT: Final = Path(__file__).with_name("worker.py")

FEW: Final = 16
"""So many things it lays as well as the other engines, and often proves it; of more it gives way to them."""

NICE: Final = 4
"""How much, as the system counts it."""


def takes(task: Task) -> bool:
    """Whether the task is a plain strip with few enough things that a question may be settled."""
    kinds, _ = kinds_in(task)
    return task.plain and len(task.shapes) > 1 and may_end(kinds)


def leads(task: Task) -> bool:
    """Whether it is the best of the engines."""
    return takes(task) and len(task.shapes) <= FEW


class Exact:
    """The process; ``bound`` is what no lay of the task undercuts (cm), and what sets it."""

    engine: Final = "exact"

    def __init__(self, task: Task, budget: Budget, known: Sequence[Spot]) -> None:
        """``known``: a lay that there is already."""
        self._task, self._budget = task, budget
        self._kinds, self._width = kinds_in(task)
        self._known, self._length = known, length_of(known)
        self._worker: Worker | None = None
        self._lays: deque[Numbered] = deque(maxlen=1)
        self.bound = (0.0, "")

    @property
    def running(self) -> bool:
        """Whether more may come."""
        return self._worker is not None and self._worker.running

    def keep_going(self, seconds: float) -> None:
        """Begin, once: it ends when it has proved something best, or when the time is over."""
        if self._worker is not None:
            return
        problem = {
            "kinds": as_json(self._kinds),
            "width": self._width,
            "known": self._told(self._known),
            "seconds": seconds if math.isfinite(seconds) else 0.0,
            "effort": self._budget.effort,
            "seed": self._budget.seed,
            "nice": 0 if leads(self._task) else NICE,
        }
        self._worker = Worker("ortools", json.dumps(problem) + "\n", self._hear, script=SCRIPT)

    def aim(self, found: Found) -> None:
        """Tell it the best of all, once."""
        if self._worker is not None and found.length < self._length:
            self._length = found.length
            self._worker.say(json.dumps(self._told(found.spots)))

    def latest(self) -> Sequence[Spot]:
        """The last lay told, once."""
        return spots_of(self._lays.pop(), self._task, self._kinds) if self._lays else ()

    def end(self) -> None:
        """Kill it."""
        if self._worker is not None:
            self._worker.end()

    def _told(self, spots: Sequence[Spot]) -> dict[str, object]:
        return {"length": length_of(spots), "places": numbered(spots, self._kinds)}

    def _hear(self, line: str) -> None:
        told = json.loads(line)
        if "lay" in told:
            self._lays.append(told["lay"])
        else:
            self.bound = (told["bound"], told["why"])
