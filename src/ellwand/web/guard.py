"""What stands before every page: who may ask, how much they may send, and what a browser may do with the answer."""

from __future__ import annotations

from typing import Final
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from ellwand.language import _
from ellwand.web.settings import Settings

SAFE: Final = ("GET", "HEAD", "OPTIONS")
LARGEST: Final = 4_000_000
"""Of what is sent in (bytes): a backup of a large company is smaller."""
LONGEST: Final = 16_000
"""Of an address (bytes)."""
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
    """Refuses what comes under another name, from another site or in too great a size."""

    def __init__(self, app: ASGIApp, settings: Settings) -> None:
        self.app, self.settings = app, settings

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refusal = self._refusal(scope, headers)
        if refusal is not None:
            await PlainTextResponse(refusal[1], refusal[0])(scope, receive, _with_headers(send, kept=False))
            return
        bounded = _Bounded(receive)
        try:
            await self.app(scope, bounded.receive, _with_headers(send))
        except _TooMuch:
            await _too_much()(scope, receive, _with_headers(send, kept=False))

    def _refusal(self, scope: Scope, headers: Headers) -> tuple[int, str] | None:
        """Why it is refused: the status and a sentence."""
        if len(scope.get("raw_path", b"")) + len(scope["query_string"]) > LONGEST:
            return 414, _("The address is too long: choose less at once.")
        host = headers.get("host", "")
        if _without_port(host) not in self.settings.hosts:
            return 421, _("This bench does not answer to that name: open it by the address that it was started with.")
        if scope["method"] in SAFE:
            return None
        came = headers.get("origin") or headers.get("referer", "")
        same = urlsplit(came).netloc == host
        if not same or headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
            return 403, _("This was sent from another site: open the page on the bench itself.")
        length = headers.get("content-length", "0")
        if not length.isdigit() or int(length) > LARGEST:
            return 413, too_much_said()
        return None


def too_much_said() -> str:
    """The sentence for too large a file."""
    return _("What was sent is too large: send up to {most} MB.", most=LARGEST // 1_000_000)


class _TooMuch(Exception):
    pass


def _too_much() -> PlainTextResponse:
    return PlainTextResponse(too_much_said(), 413)


class _Bounded:
    """Counts what comes in, whatever its head says."""

    def __init__(self, receive: Receive) -> None:
        self._receive, self._got = receive, 0

    async def receive(self) -> Message:
        message = await self._receive()
        self._got += len(message.get("body", b""))
        if self._got > LARGEST:
            raise _TooMuch
        return message


def _without_port(host: str) -> str:
    name, colon, port = host.rpartition(":")
    return name if colon and port.isdigit() else host


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
