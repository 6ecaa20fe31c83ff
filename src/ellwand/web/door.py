"""The door of a shared bench: a word lets one device in, and then there is a new word."""

from __future__ import annotations

import secrets
import threading
import time
from collections import deque
from collections.abc import Callable
from typing import Final

from starlette.datastructures import Headers
from starlette.requests import cookie_parser
from starlette.types import Scope

COOKIE: Final = "admitted"
OPEN: Final = ("/enter", "/language")
"""What is shown before the door; style, letters and scripts are too."""
HERE: Final = ("127.0.0.1", "::1")
"""Whoever sits at this machine needs no word."""
TRIES: Final = 5
TRIES_IN_ALL: Final = 40
WHILE: Final = 600.0
"""So many wrong words, of one address and of all, in so many seconds."""


class Door:
    """Who has been let in; safe for several threads.  ``told`` hears each new word."""

    def __init__(self, told: Callable[[str], None] = lambda word: None, now: Callable[[], float] = time.monotonic):
        self._told, self._now = told, now
        self._admitted: set[str] = set()
        self._wrong: deque[tuple[float, str]] = deque()
        self._lock = threading.Lock()
        self.word = new_word()

    def admits(self, scope: Scope, headers: Headers) -> bool:
        """Whether this visitor may see the page asked for."""
        path: str = scope["path"]
        if is_here(scope) or path in OPEN or path.startswith("/static/"):
            return True
        token = cookie_parser(headers.get("cookie", "")).get(COOKIE, "")
        with self._lock:
            return token in self._admitted

    def enter(self, word: str, address: str) -> str | None:
        """What a device that has the word shows from then on; None for a wrong word.

        Raises TooOften after so many wrong ones.
        """
        with self._lock:
            while self._wrong and self._wrong[0][0] < self._now() - WHILE:
                self._wrong.popleft()
            if sum(each == address for _when, each in self._wrong) >= TRIES or len(self._wrong) >= TRIES_IN_ALL:
                raise TooOften
            if not secrets.compare_digest(_plain(word).encode(), self.word.encode()):
                self._wrong.append((self._now(), address))
                return None
            token = secrets.token_urlsafe(24)
            self._admitted.add(token)
            self.word = new_word()
        self._told(self.word)
        return token


class TooOften(Exception):
    """Too many wrong words: the door stays shut for a while."""


def is_here(scope: Scope) -> bool:
    """Whether the visitor sits at this machine."""
    client = scope.get("client")
    return client is not None and client[0] in HERE


def new_word() -> str:
    """Four syllables that can be read out and typed: one of 40 million."""
    return "".join(secrets.choice("bdfghklmnprstvwz") + secrets.choice("aeiou") for _syllable in range(4))


def _plain(word: str) -> str:
    return "".join(word.lower().split())[:40]
