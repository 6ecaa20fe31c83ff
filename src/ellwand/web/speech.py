"""The language of each visit: the one chosen on the bench, else the browser's own, else English."""

from __future__ import annotations

from typing import Final

from starlette.datastructures import Headers
from starlette.requests import cookie_parser
from starlette.types import ASGIApp, Receive, Scope, Send

from ellwand.language import SOURCE, languages, speaking

COOKIE: Final = "language"
"""Holds the language chosen on the bench."""


def language_for(headers: Headers) -> str:
    """The language that this browser is answered in."""
    chosen = cookie_parser(headers.get("cookie", "")).get(COOKIE, "")
    if chosen in languages():
        return chosen
    wished = [entry.split(";")[0].strip()[:2].lower() for entry in headers.get("accept-language", "").split(",")]
    return next((name for name in wished if name in languages()), SOURCE)


class Speech:
    """Answers each request in its language."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        with speaking(language_for(Headers(scope=scope))):
            await self.app(scope, receive, send)
