"""The bench shared in the network: the word on a page of this machine, and the door where a device gives it."""

from __future__ import annotations

import io
from typing import Final

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.language import _
from ellwand.web.door import COOKIE, Door, TooOften, is_here
from ellwand.web.given import Given, posted
from ellwand.web.rendering import page
from ellwand.web.serving import addresses

LONG: Final = 12 * 3600
"""A device is let in for a day's work (s)."""


def share(request: Request) -> Response:
    """The word for the next device, to be read out or held up to its camera."""
    door = _door(request)
    if not is_here(request.scope):
        raise HTTPException(404)
    links = [f"http://{address}:{request.url.port or 80}/enter" for address in addresses()]
    return page(
        request, "share.html", word=door.word, links=links, squares=[qr_svg(f"{link}#{door.word}") for link in links]
    )


def enter(request: Request) -> Response:
    """Asks for the word."""
    _door(request)
    return page(request, "enter.html", wrong="")


@posted
def try_word(request: Request, given: Given) -> Response:
    """Lets the device in that has the word."""
    try:
        token = _door(request).enter(given.text("word"), request.client.host if request.client else "")
    except TooOften:
        sentence = _("There were too many wrong words: wait ten minutes, or start the bench again.")
        return page(request, "enter.html", 429, wrong=sentence)
    if token is None:
        wrong = _("That is not the word; each word lets one device in, so look for the newest.")
        return page(request, "enter.html", 403, wrong=wrong)
    answer = RedirectResponse("/", 303)
    answer.set_cookie(COOKIE, token, max_age=LONG, httponly=True, samesite="strict")
    return answer


def qr_svg(text: str) -> str:
    """The text as a square to hold a camera to."""
    import segno

    out = io.BytesIO()
    segno.make(text, error="m", micro=False).save(
        out, kind="svg", scale=6, xmldecl=False, svgclass="qr", lineclass=None
    )
    return out.getvalue().decode()


def _door(request: Request) -> Door:
    """The door, where the bench has one."""
    door: Door | None = request.app.state.door
    if door is None:
        raise HTTPException(404)
    return door
