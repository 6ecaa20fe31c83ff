"""What stands before every page: who may ask, how much they may send, and what a browser may do with the answer."""

from __future__ import annotations

import asyncio
from typing import Final
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from ellwand.language import _
from ellwand.web.door import Door
from ellwand.web.settings import Settings

SAFE: Final = ("GET", "HEAD", "OPTIONS")
LARGEST: Final = 4_000_000
"""Of what is sent in (bytes): a backup of a large company is smaller."""
LONGEST: Final = 16_000
"""Of an address, and of all that stands before a letter's body (bytes)."""
PATIENCE: Final = 20.0
"""Seconds to wait for the next part of what is sent in."""
HEADERS: Final = {
    "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:;"
    " font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; form-action 'self';"
    " base-uri 'none'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=(), screen-wake-lock=(self)",
}
"""On every answer; what is ours alone is loaded, and nothing leaves the machine."""


class Guard:
    """Refuses what comes under another name, from another site, in too great a size or without the word."""

    def __init__(self, app: ASGIApp, settings: Settings, door: Door | None) -> None:
        self.app, self.settings, self.door = app, settings, door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refusal = self._refusal(scope, headers)
        if refusal is None and self.door is not None and not self.door.admits(scope, headers):
            asked_to_see = "text/html" in headers.get("accept", "")
            said = PlainTextResponse(_("Enter the word first."), 401)
            refusal = RedirectResponse("/enter", 303) if asked_to_see else said
        if refusal is not None:
            await refusal(scope, receive, _with_headers(send, kept=False))
            return
        await self.app(scope, _Bounded(receive).receive, _with_headers(send))

    def _refusal(self, scope: Scope, headers: Headers) -> Response | None:
        """Why it is refused: the status and a sentence."""
        if len(scope.get("raw_path", b"")) + len(scope["query_string"]) > LONGEST:
            return PlainTextResponse(_("The address is too long: choose less at once."), 414)
        if sum(len(name) + len(value) for name, value in scope["headers"]) > 2 * LONGEST:
            return PlainTextResponse(_("Too much was sent along with the address."), 431)
        host = headers.get("host", "")
        if not self._ours(host):
            sentence = _("This bench does not answer to that name: open it by the address that it was started with.")
            return PlainTextResponse(sentence, 421)
        if scope["method"] in SAFE:
            return None
        came = urlsplit(headers.get("origin") or headers.get("referer", ""))
        same = came.scheme == scope["scheme"] and came.netloc == host
        if not same or headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
            return PlainTextResponse(_("This was sent from another site: open the page on the bench itself."), 403)
        length = headers.get("content-length", "0")
        if not length.isdecimal() or int(length) > LARGEST:
            return PlainTextResponse(too_much_said(), 413)
        return None

    def _ours(self, host: str) -> bool:
        """Whether it is by our own name, and at our own port, that we are asked."""
        name, colon, port = host.rpartition(":")
        if not colon or not port.isdecimal() or host.endswith("]"):
            name, port = host, "80"
        return name in self.settings.hosts and (not self.settings.port or int(port) == self.settings.port)


def too_much_said() -> str:
    """The sentence for too large a file."""
    return _("What was sent is too large: send up to {most} MB.", most=LARGEST // 1_000_000)


class _Bounded:
    """Counts what comes in, whatever its head says, and does not wait for ever for it."""

    def __init__(self, receive: Receive) -> None:
        self._receive, self._got, self._whole = receive, 0, False

    async def receive(self) -> Message:
        if self._whole:
            return await self._receive()
        try:
            message = await asyncio.wait_for(self._receive(), PATIENCE)
        except TimeoutError:
            raise HTTPException(408) from None
        self._whole = not message.get("more_body", False)
        self._got += len(message.get("body", b""))
        if self._got > LARGEST:
            raise HTTPException(413)
        return message


def _with_headers(send: Send, kept: bool = True) -> Send:
    async def wrapped(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers[name] = value
            if not kept or "cache-control" not in headers:
                headers["Cache-Control"] = "no-store"
        await send(message)

    return wrapped
