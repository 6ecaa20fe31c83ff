"""The garments that are kept: saved from the bench, copied, thrown away, and as they were before."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.errors import BadInput
from ellwand.keep import KeptGarment, Stale, every, get, history, save, take_back, undo
from ellwand.language import _
from ellwand.web.drawn import plain_face
from ellwand.web.given import Given, posted, whole
from ellwand.web.kept import as_new, differing, kept_of, state_in, state_of
from ellwand.web.making import garment_for
from ellwand.web.pages.basket import thrown
from ellwand.web.pages.stale import stale_page
from ellwand.web.rendering import page

LONGEST: Final = 120
"""Of a name (signs)."""


def garments(request: Request) -> Response:
    """All of them, each drawn."""
    store = request.app.state.store
    shown = []
    for kept in every(store, KeptGarment):
        state = state_of(kept)
        try:
            garment = garment_for(state, store)
            shown.append((kept, state, plain_face(garment.draft, kept.name), garment.wearer.name, ""))
        except BadInput as error:
            shown.append((kept, state, "", "", str(error)))
    return page(request, "garments.html", garments=shown, gone=thrown(request, KeptGarment))


@posted
def save_garment(request: Request, given: Given) -> Response:
    """Keeps what is on the bench, as a new garment or as a change of the one it came from."""
    query, name = given.text("query"), given.text("name").strip()[:LONGEST]
    state = state_in(query)
    store = request.app.state.store
    garment_for(replace(state, garment="", based=0), store)
    kept = kept_of(state, name)
    if given.text("way") == "new":
        kept = as_new(replace(kept, name=given.text("other").strip()[:LONGEST] or name))
    elif not name and kept.id:
        kept = replace(kept, name=get(store, KeptGarment, kept.id).name)
    try:
        saved = save(store, kept)
    except Stale as stale:
        return _stale(request, kept, stale.newer, query)
    return RedirectResponse(f"/?{state_of(saved).query}", 303)


def open_garment(request: Request) -> Response:
    """The bench with this garment."""
    kept = get(request.app.state.store, KeptGarment, request.path_params["id"])
    return RedirectResponse(f"/?{state_of(kept).query}", 303)


def copy_garment(request: Request) -> Response:
    """The same once more, under a name of its own."""
    store = request.app.state.store
    kept = get(store, KeptGarment, request.path_params["id"])
    save(store, replace(as_new(kept), name=_("{name}, copy", name=kept.name)[:LONGEST]))
    return RedirectResponse("/garments", 303)


def undo_garment(request: Request) -> Response:
    """The save before the last."""
    kept = undo(request.app.state.store, KeptGarment, request.path_params["id"])
    return RedirectResponse(f"/?{state_of(kept).query}", 303)


def versions(request: Request) -> Response:
    """Every save of it, the newest first, with what was changed."""
    found = history(request.app.state.store, KeptGarment, request.path_params["id"])
    rows = [
        (now, state_of(now).query, differing(before.fields, now.fields) if before else [])
        for now, before in zip(found, (*found[1:], None), strict=True)
    ]
    return page(request, "garment_history.html", garment=found[0], rows=rows)


@posted
def go_back(request: Request, given: Given) -> Response:
    """An older save again, as the newest."""
    id, version = request.path_params["id"], whole(given.text("version"))
    kept = take_back(request.app.state.store, KeptGarment, id, version)
    return RedirectResponse(f"/?{state_of(kept).query}", 303)


def _stale(request: Request, mine: KeptGarment, newer: object, query: str) -> Response:
    """Someone saved in between: both are shown, and nothing is lost."""
    assert isinstance(newer, KeptGarment)
    based = replace(state_in(query), based=newer.version)
    name = [("name", mine.name)]
    return stale_page(
        request,
        newer.name,
        differing(newer.fields, mine.fields),
        f"/?{state_of(newer).query}",
        ("/garments", [*name, ("query", based.query)]),
        ("/garments", [*name, ("query", query), ("way", "new")], _("Keep both: save mine as another garment")),
    )
