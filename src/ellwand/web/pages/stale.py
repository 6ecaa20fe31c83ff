"""Two windows, one thing: who saves later is told, sees both, and chooses; nothing is lost."""

from __future__ import annotations

from collections.abc import Sequence

from starlette.requests import Request
from starlette.responses import Response

from ellwand.keep import Thing
from ellwand.language import _
from ellwand.web.rendering import page

Pair = tuple[str, str]


def saved_in_between(
    request: Request,
    newer: Thing,
    differ: Sequence[tuple[str, str, str]],
    hidden: Sequence[Pair],
    shelf: str,
    both: str,
) -> Response:
    """The page for a thing that is changed at its own address: ``hidden``: mine, as its form has it; ``both``: the way
    to keep mine beside the other."""
    there = f"/{shelf}/{newer.id}"
    mine, beside = (there, [*hidden, ("based", str(newer.version))]), (f"/{shelf}", hidden)
    return stale_page(request, newer.name, differ, there, mine, (*beside, both))


def stale_page(
    request: Request,
    name: str,
    differ: Sequence[tuple[str, str, str]],
    theirs: str,
    mine: tuple[str, Sequence[Pair]],
    both: tuple[str, Sequence[Pair], str],
) -> Response:
    """What differs, and the ways on: keep mine over the other, both, or the other alone."""
    ways = [(*mine, _("Keep mine; the other stays in the history")), both]
    return page(request, "stale.html", 409, name=name, differ=differ, theirs=theirs, ways=ways)
