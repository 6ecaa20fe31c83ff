"""Keeping safe: where things are, copies of them, the waste basket, and erasing someone for good."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import date
from typing import Final

from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.errors import BadInput
from ellwand.keep import (
    KeptCloth,
    KeptGarment,
    Person,
    Roster,
    Thing,
    backup,
    basket,
    erase,
    every,
    get,
    history,
    restore,
    take_out,
)
from ellwand.language import N_, _
from ellwand.web.pages.working import download, plain_name
from ellwand.web.rendering import page

SHELVES: Final[Mapping[str, tuple[str, type[Thing], str]]] = {
    "people": (N_("People"), Person, "/people/{id}"),
    "cloths": (N_("Cloths"), KeptCloth, "/cloths/{id}"),
    "garments": (N_("Kept garments"), KeptGarment, "/garments/{id}"),
    "classes": (N_("Classes"), Roster, "/classes/{id}"),
}
"""What is kept, by its part of the address."""


def keeping(request: Request) -> Response:
    """Where things are kept, how many there are, and what lies in the waste basket."""
    store = request.app.state.store
    asked = request.query_params
    came = [int(text) for text in asked.get("came", "").split("-") if text.isdecimal() and len(text) < 7]
    return page(
        request,
        "keeping.html",
        place=store.place,
        counts=[(_(heading), len(every(store, kind))) for heading, kind, _there in SHELVES.values()],
        basket=[(shelf, each) for shelf, (_h, kind, _there) in SHELVES.items() for each in basket(store, kind)],
        came=came if len(came) == 4 else None,
        erased="erased" in asked,
    )


def copy(request: Request) -> Response:
    """Everything that is kept in one file."""
    return download(backup(request.app.state.store), "copy.jsonl", f"ellwand-{date.today().isoformat()}.jsonl")


async def bring_back(request: Request) -> Response:
    """Takes such a file in; what is there stays."""
    async with request.form() as form:
        file = form.get("file")
        data = await file.read() if isinstance(file, UploadFile) else b""
    if not data:
        raise BadInput("", _("no file was chosen"), _("choose the copy (.jsonl) that was saved"))
    found = restore(request.app.state.store, data)
    came = "-".join(map(str, (found.added, found.extended, found.skipped, found.erased)))
    return RedirectResponse(f"/keeping?came={came}", 303)


def take_thing_out(request: Request) -> Response:
    """Out of the waste basket again."""
    _heading, kind, there = _shelf(request)
    kept = take_out(request.app.state.store, kind, request.path_params["id"])
    return RedirectResponse(there.format(id=kept.id), 303)


def ask_to_erase(request: Request) -> Response:
    """What would go for good."""
    _heading, kind, there = _shelf(request)
    kept = get(request.app.state.store, kind, request.path_params["id"])
    versions = len(history(request.app.state.store, kind, kept.id))
    shelf = request.path_params["shelf"]
    return page(
        request,
        "erase.html",
        thing=kept,
        shelf=shelf,
        versions=versions,
        there=there.format(id=kept.id),
        is_person=kind is Person,
    )


def erase_thing(request: Request) -> Response:
    """For good."""
    _heading, kind, _there = _shelf(request)
    erase(request.app.state.store, kind, request.path_params["id"])
    return RedirectResponse("/keeping?erased", 303)


def copy_of_person(request: Request) -> Response:
    """All that is kept of someone, every version of it."""
    found = history(request.app.state.store, Person, request.path_params["id"])
    held = [{"kept": each.changed.isoformat(timespec="seconds"), "wearer": dict(each.table)} for each in found]
    made = json.dumps({"name": found[0].name, "versions": held}, ensure_ascii=False, indent=1).encode()
    return download(made, "copy.json", f"{plain_name(found[0].name)}.json")


def _shelf(request: Request) -> tuple[str, type[Thing], str]:
    shelf = SHELVES.get(request.path_params["shelf"])
    if shelf is None:
        raise HTTPException(404)
    return shelf
