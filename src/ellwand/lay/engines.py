"""What the portfolio runs: our own search in a thread, the outside solvers' workers, and the lay that leads."""

from __future__ import annotations

import math
import threading
import time
from collections import deque
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from ellwand.errors import InternalFault
from ellwand.lay.bounds.best import met
from ellwand.lay.settle import settle, sound
from ellwand.lay.solvers import Asked, Worker, beside
from ellwand.lay.task import Budget, Found, Report, Spot, Task, length_of

ENOUGH: Final = 0.05
"""A lay that comes so near (cm) to what no lay can undercut is not searched further: lengths are read to 0.1 cm."""

SHORTER: Final = 1e-6
"""A lay counts as shorter by more than this (cm)."""

LEAST: Final = 0.5
"""Seconds for which a solver is worth beginning again."""


class Leader:
    """The shortest lay so far, offered from any thread."""

    def __init__(self, report: Report, enough: float) -> None:
        self._report = report
        self._enough = enough + ENOUGH
        self._bound = (0.0, "")
        self._lock = threading.Lock()
        self._start = time.monotonic()
        self._found: Found | None = None
        self._closed = False

    @property
    def found(self) -> Found:
        """The shortest so far, and the bound that was proved; there must be one."""
        if self._found is None:
            raise InternalFault("no engine could lay the pieces")
        bound, why = self._bound
        return replace(self._found, bound=bound, why=why) if why else self._found

    @property
    def wanting(self) -> bool:
        """Whether a shorter one is possible."""
        return self._found is None or not self.suffices(self._found)

    @property
    def elapsed(self) -> float:
        """Seconds since the start."""
        return time.monotonic() - self._start

    def suffices(self, found: Found) -> bool:
        """Whether no lay can be shorter than this one to the millimetre."""
        return found.length <= self._enough or met(found.length, self._bound[0])

    def proved(self, bound: float, why: str) -> None:
        """No lay of the task is shorter than ``bound`` (cm)."""
        if bound > self._bound[0]:
            self._bound = (bound, why)

    def close(self) -> None:
        """Hear nothing more."""
        with self._lock:
            self._closed = True

    def offer(self, spots: Sequence[Spot], engine: str) -> None:
        """Take the lay if it is shorter, and tell."""
        length = length_of(spots)
        with self._lock:
            if self._closed or (self._found is not None and length > self._found.length - SHORTER):
                return
            self._found = Found(tuple(spots), length, engine, self.elapsed)
            self._report(self._found)


class Own:
    """Our own search in a thread of its own; its kernels leave the interpreter free."""

    def __init__(self, task: Task, budget: Budget, leader: Leader) -> None:
        self._task, self._budget, self._leader = task, budget, leader
        self._over = threading.Event()
        self._found: deque[Found] = deque(maxlen=1)
        self._failed: Exception | None = None
        self.engine = "search"
        self._thread = threading.Thread(target=self._run, daemon=True)
        self._thread.start()

    @property
    def running(self) -> bool:
        """Whether more may come."""
        return self._thread.is_alive()

    def aim(self, found: Found) -> None:
        """It goes its own way."""

    def latest(self) -> Sequence[Spot]:
        """The last lay found, once."""
        if not self._found:
            return ()
        found = self._found.pop()
        self.engine = found.engine
        return found.spots

    def end(self) -> None:
        """Ask it to end, and wait a little: what it finds later is too late."""
        self._over.set()
        self._thread.join(0.1)
        if self._failed is not None:
            raise self._failed

    def _compile(self) -> None:
        """The first search of all has to wait for its kernels: in another process, which goes on when this one ends."""
        compiling = beside("-c", "from ellwand.lay.search import prepare; prepare()")
        while compiling.poll() is None and not self._over.wait(0.05):
            pass

    def _run(self) -> None:
        from ellwand.lay.search import ready, search

        begun = time.monotonic()

        def hear(found: Found) -> None:
            self._leader.offer(found.spots, found.engine)
            self._found.append(found)
            # by its own lays only: with effort it must end at the same one every time
            if self._leader.suffices(found):
                self._over.set()

        try:
            if not ready():
                self._compile()
            left = self._budget.seconds - (time.monotonic() - begun)
            search(self._task, replace(self._budget, seconds=max(left, 0.0)), hear, self._over.is_set)
        except Exception as error:  # raised again where the search was asked for
            self._failed = error


class Run:
    """A solver's worker, begun again with another seed when it ends before its time."""

    def __init__(self, engine: str, asked: Asked, way: str, seed: int, **settings: int) -> None:
        """``settings``: threads, runs or nice, as ``Asked.problem`` takes them."""
        self.engine = engine
        self._asked, self._way, self._seed, self._settings = asked, way, seed, settings
        self._worker: Worker | None = None
        self._begun, self._aimed = 0.0, math.inf
        self._lines: deque[str] = deque(maxlen=1)

    @property
    def running(self) -> bool:
        """Whether more may come."""
        return self._worker is not None and self._worker.running

    def keep_going(self, seconds: float) -> None:
        """Begin if it does not run and the time is worth it; not again when it ended at once."""
        if self.running:
            return
        if self._worker is not None and min(seconds, time.monotonic() - self._begun) < LEAST:
            return
        self._begun = time.monotonic()
        problem = self._asked.problem(seconds=seconds, seed=self._seed, **self._settings)
        self._seed += 1
        self._aimed = math.inf
        self._worker = Worker(self.engine, problem, self._lines.append, self._way)

    def aim(self, found: Found) -> None:
        """Tell it how short the best of all is, once."""
        if self._worker is not None and found.length < self._aimed:
            self._aimed = found.length
            self._worker.say(f"{found.length}")

    def latest(self) -> Sequence[Spot]:
        """The last lay told, once."""
        return self._asked.spots(self._lines.pop()) if self._lines else ()

    def end(self) -> None:
        """Kill it."""
        if self._worker is not None:
            self._worker.end()


def settled(spots: Sequence[Spot], task: Task) -> Sequence[Spot]:
    """The lay pushed together, or as it is where that fails; empty when it overlaps."""
    pushed = settle(spots, task.ground)
    if pushed is None or not sound(pushed, task.ground):
        return spots if sound(spots, task.ground) else ()
    # slanting edges are parted by a hair, which can cost one
    return spots if length_of(spots) < length_of(pushed) and sound(spots, task.ground) else pushed
