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
from ellwand.lay.exact.places import as_json, spots_of
from ellwand.lay.solvers import Worker
from ellwand.lay.task import Budget, Spot, Task

SCRIPT: Final = Path(__file__).with_name("worker.py")

NICE: Final = 4
"""How much it gives way to the other engines, as the system counts it."""


def takes(task: Task) -> bool:
    """Whether the task is a plain strip with few enough things that a question may be settled."""
    kinds, _ = kinds_in(task)
    return task.plain and len(task.shapes) > 1 and may_end(kinds)


class Exact:
    """The process; ``bound`` is what no lay of the task undercuts (cm), and what sets it."""

    engine: Final = "exact"

    def __init__(self, task: Task, budget: Budget, known: float) -> None:
        """``known``: the length of a lay that there is already."""
        self._task, self._budget = task, budget
        self._known = known
        self._worker: Worker | None = None
        self._lays: deque[str] = deque(maxlen=1)
        self.bound = (0.0, "")

    @property
    def running(self) -> bool:
        """Whether more may come."""
        return self._worker is not None and self._worker.running

    def keep_going(self, seconds: float) -> None:
        """Begin, once: it ends when it has proved something best, or when the time is over."""
        if self._worker is not None:
            return
        kinds, width = kinds_in(self._task)
        problem = {
            "kinds": as_json(kinds),
            "width": width,
            "known": self._known,
            "seconds": seconds if math.isfinite(seconds) else 0.0,
            "effort": self._budget.effort,
            "seed": self._budget.seed,
            "nice": NICE,
        }
        self._worker = Worker("ortools", json.dumps(problem) + "\n", self._hear, script=SCRIPT)

    def aim(self, length: float) -> None:
        """Tell it how short the best of all is, once."""
        if self._worker is not None and length < self._known:
            self._known = length
            self._worker.aim(length)

    def latest(self) -> Sequence[Spot]:
        """The last lay told, once."""
        return spots_of(self._lays.pop(), self._task) if self._lays else ()

    def end(self) -> None:
        """Kill it."""
        if self._worker is not None:
            self._worker.end()

    def _hear(self, line: str) -> None:
        told = json.loads(line)
        if "lay" in told:
            self._lays.append(json.dumps(told["lay"]))
        else:
            self.bound = (told["bound"], told["why"])
