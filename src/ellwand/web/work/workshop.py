"""The workshop: jobs in processes, so many at once, the rest waiting; what was done is kept while there is room."""

from __future__ import annotations

import contextlib
import hashlib
import multiprocessing
import os
import pickle
import sys
import threading
import time
from collections import OrderedDict, deque
from dataclasses import dataclass, field
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Any, Final

from ellwand.language import _
from ellwand.web.work.jobs import Ask, do

ROOM: Final = 64_000_000
"""Of what was done so much is kept (bytes)."""
GRACE: Final = 5.0
"""A job that nobody listens to any more is stopped after so many seconds."""
WARM: Final = ["ellwand.plan", "ellwand.publish.all_files", "ellwand.publish.card", "ellwand.web.cloth_laid"]


@dataclass(frozen=True, slots=True)
class Event:
    """What a job told: 'said', 'lay', 'done' or 'failed'."""

    kind: str
    value: Any


@dataclass(slots=True, eq=False)
class Job:
    """A job and all that it has told; ``over`` once no more will come, ``stopped`` by our own hand."""

    key: str
    ask: Ask
    events: list[Event] = field(default_factory=list)
    over: bool = False
    stopped: bool = False
    listeners: int = 0
    left: float = field(default_factory=time.monotonic)
    process: BaseProcess | None = None
    changed: threading.Condition = field(default_factory=threading.Condition)

    @property
    def size(self) -> int:
        """Bytes of what it told."""
        return sum(_weight(event.value) for event in self.events)

    def last(self, kind: str) -> Any:
        """What it told last of that kind; None where it told nothing."""
        return next((event.value for event in reversed(self.events) if event.kind == kind), None)

    def told(self, kind: str) -> bool:
        """Whether it told anything of that kind."""
        return any(event.kind == kind for event in self.events)

    def leave(self) -> None:
        """One listener less."""
        self.listeners -= 1
        self.left = time.monotonic()

    def wait(self, seconds: float) -> None:
        """Until it is over, or for so long."""
        with self.changed:
            self.changed.wait_for(lambda: self.over, seconds)


class Workshop:
    """Runs jobs; safe for several threads. ``close`` ends all of them."""

    def __init__(self, at_once: int = 2) -> None:
        self._at_once = at_once
        self._lock = threading.Lock()
        self._jobs: OrderedDict[str, Job] = OrderedDict()
        self._queue: deque[Job] = deque()
        self._running: set[Job] = set()
        self._closed = False
        if sys.platform == "win32":
            self._context = multiprocessing.get_context("spawn")
        else:
            self._context = multiprocessing.get_context("forkserver")
            self._context.set_forkserver_preload(WARM)
        threading.Thread(target=self._tidy, daemon=True).start()

    def ask(self, ask: Ask) -> Job:
        """The job that does it: a new one, or the one that did it or is doing it already; one that was stopped goes on
        from what it had."""
        key = _key(ask)
        with self._lock:
            job = self._jobs.get(key)
            if job is None or ((job.over or job.stopped) and not job.told("done")):
                had = job.last("lay") if job is not None else None
                job = self._jobs[key] = Job(key, ask, [Event("lay", had)] if had else [])
                self._queue.append(job)
                self._next()
            self._jobs.move_to_end(key)
            job.left = time.monotonic()
        return job

    def known(self, ask: Ask) -> Job | None:
        """The job, where it was ever asked for."""
        with self._lock:
            return self._jobs.get(_key(ask))

    def place(self, job: Job) -> int:
        """How many are before it in the queue; 0 once it runs."""
        with self._lock:
            return list(self._queue).index(job) + 1 if job in self._queue else 0

    def stop(self, job: Job) -> None:
        """End the job; what it told stays."""
        with self._lock:
            job.stopped = True
            with contextlib.suppress(ValueError):
                self._queue.remove(job)
            if job.process is not None and not job.over:
                job.process.kill()
            elif not job.over:
                self._over(job)

    def close(self) -> None:
        """End every job, and wait for their ends."""
        with self._lock:
            self._closed = True
            self._queue.clear()
            jobs = list(self._jobs.values())
        for job in jobs:
            self.stop(job)
        for job in jobs:
            job.wait(2.0)

    def _next(self) -> None:
        """Begin what there is room for; the lock is held."""
        while self._queue and len(self._running) < self._at_once and not self._closed:
            job = self._queue.popleft()
            here, there = self._context.Pipe(duplex=False)
            job.process = self._context.Process(target=_work, args=(job.ask, there, job.last("lay")), daemon=False)
            job.process.start()
            there.close()
            self._running.add(job)
            threading.Thread(target=self._listen, args=(job, here), daemon=True).start()

    def _listen(self, job: Job, pipe: Connection) -> None:
        """Hear the job out."""
        with contextlib.suppress(EOFError, OSError):
            while True:
                event = Event(*pipe.recv())
                with job.changed:
                    job.events.append(event)
                    job.changed.notify_all()
        pipe.close()
        assert job.process is not None
        job.process.join()
        with self._lock:
            if not job.stopped and not job.told("done") and not job.told("failed"):
                job.events.append(Event("failed", _("The work broke off; ask for it again.")))
            self._running.discard(job)
            self._over(job)
            self._next()

    def _over(self, job: Job) -> None:
        with job.changed:
            job.over = True
            job.changed.notify_all()

    def _tidy(self) -> None:
        """Stop what nobody waits for, and forget what there is no room for."""
        while not self._closed:
            time.sleep(0.5)
            with self._lock:
                jobs = list(self._jobs.values())
                size = sum(job.size for job in jobs)
                for job in jobs:
                    if size > ROOM and job.over and not job.listeners:
                        size -= job.size
                        del self._jobs[job.key]
            for job in jobs:
                if not job.over and not job.listeners and time.monotonic() - job.left > GRACE:
                    self.stop(job)


def _key(ask: Ask) -> str:
    return hashlib.sha256(pickle.dumps(ask)).hexdigest()[:24]


def _weight(value: Any) -> int:
    if isinstance(value, (bytes, str)):
        return len(value)
    return sum(map(_weight, value.values())) if isinstance(value, dict) else 64


def _work(ask: Ask, pipe: Connection, had: Any) -> None:
    """In the job's own process, which lets everyone else go first."""
    if hasattr(os, "nice"):
        os.nice(10)
    threading.Thread(target=_until_parent_ends, daemon=True).start()
    with contextlib.suppress(BrokenPipeError):
        do(ask, lambda kind, value: pipe.send((kind, value)), had)


def _until_parent_ends() -> None:
    """Whoever asked is gone: nobody hears the rest."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
