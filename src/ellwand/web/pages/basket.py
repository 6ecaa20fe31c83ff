"""The waste basket of every shelf: what is thrown away lies in it until it is taken out or erased."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, TypeVar

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.keep import KeptCloth, KeptGarment, Person, Roster, Thing, get, take_out, throw_away
from ellwand.language import N_

SHELVES: Final[Mapping[str, tuple[str, type[Thing]]]] = {
    "people": (N_("People"), Person),
    "cloths": (N_("Cloths"), KeptCloth),
    "garments": (N_("Kept garments"), KeptGarment),
    "classes": (N_("Classes"), Roster),
}
"""What is kept, by its part of the address."""
T = TypeVar("T", bound=Thing)


def kind_on_shelf(request: Request) -> type[Thing]:
    """What the address is about.

    Raises HTTPException (404) where nothing is kept under that name.
    """
    shelf = SHELVES.get(request.path_params["shelf"])
    if shelf is None:
        raise HTTPException(404)
    return shelf[1]


def throw(request: Request) -> Response:
    """Into the waste basket."""
    shelf, id = request.path_params["shelf"], request.path_params["id"]
    throw_away(request.app.state.store, kind_on_shelf(request), id)
    return RedirectResponse(f"/{shelf}?thrown={id}", 303)


def take_out_again(request: Request) -> Response:
    """Out of the waste basket again."""
    take_out(request.app.state.store, kind_on_shelf(request), request.path_params["id"])
    return RedirectResponse(f"/{request.path_params['shelf']}", 303)


def thrown(request: Request, kind: type[T]) -> T | None:
    """What was thrown away just now, for the list that it is missing from."""
    id = request.query_params.get("thrown", "")
    return get(request.app.state.store, kind, id) if id else None
