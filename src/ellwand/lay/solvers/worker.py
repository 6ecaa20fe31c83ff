"""A solver in a process of its own, listened to and ended from here.

A native crash, a leak, a message on its standard error or a limit that it overruns stays with that process; ending
it answers at once and gives its memory back.
"""

from __future__ import annotations

import contextlib
import importlib.util
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

_APART: dict[str, Any] = {"process_group": 0}
"""Ctrl-C is ours to hear."""
if sys.platform == "win32":
    _APART = {"creationflags": subprocess.CREATE_NEW_PROCESS_GROUP}


def available(solver: str) -> bool:
    """Whether the solver is installed; packingsolver has no wheels for Python 3.11."""
    return importlib.util.find_spec(solver) is not None


def beside(*arguments: str) -> subprocess.Popen[bytes]:
    """Python in another process, that nobody hears and that goes on when we end."""
    null = subprocess.DEVNULL
    return subprocess.Popen([sys.executable, *arguments], stdin=null, stdout=null, stderr=null, **_APART)


class Worker:
    """A running solver; ``told`` hears each of its lines, from a thread of its own, until ``end``.

    ``way`` is how packingsolver goes about it: anytime, chase or steady.
    """

    def __init__(
        self,
        solver: str,
        problem: str,
        told: Callable[[str], None],
        way: str = "anytime",
        *,
        script: Path | None = None,
    ) -> None:
        """``script``: what is run, where it is not this folder's script of the solver's name."""
        found = importlib.util.find_spec(solver)
        assert found is not None and found.origin is not None
        # -I: neither the user's settings nor the working directory can come between
        self._process = subprocess.Popen(
            [sys.executable, "-I", str(script or _script(solver)), str(Path(found.origin).parents[1]), way],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
            **_APART,
        )
        self._told = told
        assert self._process.stdin is not None
        with contextlib.suppress(BrokenPipeError):  # stays open: the worker ends itself when we are gone
            self._process.stdin.write(problem)
            self._process.stdin.flush()
        self._thread = threading.Thread(target=self._listen, daemon=True)
        self._thread.start()

    @property
    def running(self) -> bool:
        """Whether more may come."""
        return self._thread.is_alive()

    def say(self, line: str) -> None:
        """Tell it what others have found, in a line of its own words."""
        stdin = self._process.stdin
        assert stdin is not None
        with contextlib.suppress(BrokenPipeError, ValueError):
            stdin.write(f"{line}\n")
            stdin.flush()

    def end(self) -> None:
        """Kill it, if it runs; nothing is told after this returns."""
        self._process.kill()
        self._process.wait()
        if self._thread is not threading.current_thread():
            self._thread.join()

    def _listen(self) -> None:
        stdin, stdout = self._process.stdin, self._process.stdout
        assert stdin is not None and stdout is not None
        try:
            for line in stdout:
                self._told(line)
        finally:
            self._process.wait()
            for pipe in (stdin, stdout):
                with contextlib.suppress(BrokenPipeError):
                    pipe.close()


def _script(solver: str) -> Path:
    return Path(__file__).with_name(f"{solver}_worker.py")
