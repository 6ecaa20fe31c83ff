"""Who does the reckoning: processes of this machine, or the workers of a Dask cluster; the results are the same."""

from __future__ import annotations

import multiprocessing
import os
import signal
import sys
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from multiprocessing.context import BaseContext
from typing import Any, Final, Protocol, TypeVar, cast

from ellwand.errors import BadInput, InternalFault
from ellwand.language import _

Asked = TypeVar("Asked")
Answer = TypeVar("Answer")
Stop = Callable[[], bool]

AHEAD: Final = 2
"""So many jobs a worker wait at hand, so that what was asked takes no room before it is needed."""
LOST: Final = 2
"""So many times in turn workers may die of one job before it is given up."""
WARM: Final = ["ellwand.pipeline", "ellwand.publish.all_files", "ellwand.publish.card", "ellwand.publish.company"]
TICK: Final = 0.2
"""How soon (s) a stop is heard."""


class Hands(Protocol):
    """Does the same job on many things; each answer comes with the number of what was asked, as soon as it is done.

    Ends early, with what is done, when ``stop`` says so.
    """

    def __call__(
        self, do: Callable[[Asked], Answer], asked: Sequence[Asked], stop: Stop
    ) -> Iterator[tuple[int, Answer]]: ...


def count_of(workers: int | None) -> int:
    """So many processes, or one for each core.

    Raises BadInput.
    """
    if workers is not None and workers < 1:
        raise BadInput("--workers", _("there must be someone to do it"), _("give 1 or more, or leave it out"))
    return workers or os.cpu_count() or 1


@contextmanager
def processes(workers: int) -> Iterator[Hands]:
    """So many processes of this machine; one that dies is replaced, and its job is done again."""
    pool = _Pool(workers)
    try:
        yield pool.each
    finally:
        pool.close()


class _Pool:
    """Processes that are started anew when one of them has died."""

    def __init__(self, workers: int) -> None:
        self._workers = workers
        self._pool: ProcessPoolExecutor | None = None

    def each(self, do: Callable[[Asked], Answer], asked: Sequence[Asked], stop: Stop) -> Iterator[tuple[int, Answer]]:
        waiting, under_way = deque(range(len(asked))), dict[Future[Answer], int]()
        lost = 0
        while (waiting or under_way) and not stop():
            try:
                while waiting and len(under_way) < AHEAD * self._workers:
                    under_way[self._executor().submit(do, asked[waiting[0]])] = waiting[0]
                    waiting.popleft()
                for future in wait(under_way, TICK, FIRST_COMPLETED).done:
                    answer = future.result()
                    yield under_way.pop(future), answer
                    lost = 0
            except BrokenProcessPool:
                lost += 1
                if lost > LOST:
                    raise InternalFault("the processes that reckon die again and again") from None
                waiting.extendleft(sorted(under_way.values(), reverse=True))
                under_way.clear()
                self.close()

    def _executor(self) -> ProcessPoolExecutor:
        if self._pool is None:
            self._pool = ProcessPoolExecutor(self._workers, _context(), initializer=_begin)
        return self._pool

    def close(self) -> None:
        """No process is left; what waits is not begun."""
        if self._pool is not None:
            for process in list((self._pool._processes or {}).values()):
                process.terminate()
            self._pool.shutdown(wait=True, cancel_futures=True)
            self._pool = None


def _context() -> BaseContext:
    """Processes that know nothing of this one's threads; where that can be, what is slow to load is loaded once."""
    if sys.platform == "win32":
        return multiprocessing.get_context("spawn")
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(WARM)
    return context


def _begin() -> None:
    """In every process: Ctrl-C is heard by the one that asked."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


@contextmanager
def cluster(address: str) -> Iterator[Hands]:
    """The workers of the Dask cluster at an address such as tcp://10.0.0.5:8786; they need the same Ellwand.

    A worker that is lost is done without: its jobs go to the others.  Raises BadInput where nobody answers.
    """
    try:
        from distributed import Client
    except ImportError:
        raise BadInput(
            "--cluster",
            _("Dask is not installed"),
            _("install it: {command}", command="pip install 'ellwand[cluster]'"),
        ) from None
    try:
        client: Any = cast(Any, Client)(address, timeout=5, set_as_default=False)
    except (OSError, ValueError, TypeError) as error:
        raise BadInput(
            "--cluster",
            _("no cluster answers at {address} ({why})", address=address, why=type(error).__name__),
            _("give the address that its scheduler prints, as in {example}", example="tcp://10.0.0.5:8786"),
        ) from None
    try:
        yield lambda do, asked, stop: _on_cluster(client, do, asked, stop)
    finally:
        client.close()


def _on_cluster(
    client: Any, do: Callable[[Asked], Answer], asked: Sequence[Asked], stop: Stop
) -> Iterator[tuple[int, Answer]]:
    from distributed import CancelledError, as_completed
    from distributed.scheduler import KilledWorker

    numbers = {}
    waiting = deque(range(len(asked)))
    ahead = AHEAD * max(2, sum(client.nthreads().values())) * 4

    def begin() -> Any:
        number = waiting.popleft()
        future = client.submit(do, asked[number], pure=False, retries=LOST)
        numbers[future.key] = number
        return future

    first = [begin() for _each in range(min(ahead, len(waiting)))]
    coming: Any = cast(Any, as_completed)(first, loop=client.loop)
    try:
        for future in coming:
            if stop():
                return
            try:
                yield numbers[future.key], future.result()
            except KilledWorker:
                raise InternalFault("the cluster's workers die again and again") from None
            except CancelledError:
                raise BadInput("--cluster", _("the cluster is gone"), _("start it and run the same again")) from None
            future.release()
            if waiting:
                coming.add(begin())
    finally:
        coming.clear()
