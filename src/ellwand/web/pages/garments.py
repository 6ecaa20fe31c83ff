"""The garments that are kept: saved from the bench, copied, thrown away, and as they were before."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.errors import BadInput
from ellwand.keep import KeptGarment, Stale, every, get, history, save, take_back, take_out, throw_away, undo
from ellwand.language import _
from ellwand.web.drawn import plain_face
from ellwand.web.kept import as_new, differing, kept_of, state_in, state_of
from ellwand.web.making import garment_for
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
    thrown = request.query_params.get("thrown", "")
    gone = get(store, KeptGarment, thrown) if thrown else None
    return page(request, "garments.html", garments=shown, gone=gone)


async def save_garment(request: Request) -> Response:
    """Keeps what is on the bench, as a new garment or as a change of the one it came from."""
    async with request.form() as form:
        given = {key: str(value) for key, value in form.items()}
    state = state_in(given.get("query", ""))
    name = given.get("name", "").strip()[:LONGEST]
    store = request.app.state.store
    garment_for(replace(state, garment="", based=0), store)
    kept = kept_of(state, name)
    if given.get("way") == "new":
        kept = as_new(replace(kept, name=given.get("other", "").strip()[:LONGEST] or name))
    elif not name and kept.id:
        kept = replace(kept, name=get(store, KeptGarment, kept.id).name)
    try:
        saved = save(store, kept)
    except Stale as stale:
        return _stale(request, kept, stale.newer, given["query"])
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


def throw_garment(request: Request) -> Response:
    """Into the waste basket."""
    id = request.path_params["id"]
    throw_away(request.app.state.store, KeptGarment, id)
    return RedirectResponse(f"/garments?thrown={id}", 303)


def take_garment_out(request: Request) -> Response:
    """Out of the waste basket again."""
    take_out(request.app.state.store, KeptGarment, request.path_params["id"])
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


async def go_back(request: Request) -> Response:
    """An older save again, as the newest."""
    async with request.form() as given:
        version = str(given.get("version", ""))
    number = int(version) if version.isdecimal() and len(version) < 9 else 0
    kept = take_back(request.app.state.store, KeptGarment, request.path_params["id"], number)
    return RedirectResponse(f"/?{state_of(kept).query}", 303)


def _stale(request: Request, mine: KeptGarment, newer: object, query: str) -> Response:
    """Someone saved in between: both are shown, and nothing is lost."""
    assert isinstance(newer, KeptGarment)
    based = replace(state_in(query), based=newer.version)
    return page(
        request,
        "stale.html",
        409,
        name=newer.name,
        differ=differing(newer.fields, mine.fields),
        hidden=[("name", mine.name)],
        theirs=f"/?{state_of(newer).query}",
        ways=[
            ("/garments", [("query", based.query)], _("Keep mine; the other stays in the history")),
            ("/garments", [("query", query), ("way", "new")], _("Keep both: save mine as another garment")),
        ],
    )
