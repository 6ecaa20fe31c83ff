"""Keeping safe: where things are, copies of them, the waste basket, and erasing someone for good."""

from __future__ import annotations

import json
from datetime import date

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.errors import BadInput
from ellwand.keep import Person, backup, basket, erase, every, get, history, restore, take_out
from ellwand.language import _
from ellwand.publish.letters import plain_name
from ellwand.web.given import Given, posted
from ellwand.web.pages.basket import SHELVES, kind_on_shelf
from ellwand.web.pages.working import download
from ellwand.web.rendering import page


def keeping(request: Request) -> Response:
    """Where things are kept, how many there are, and what lies in the waste basket."""
    store = request.app.state.store
    asked = request.query_params
    came = [int(text) for text in asked.get("came", "").split("-") if text.isdecimal() and len(text) < 7]
    return page(
        request,
        "keeping.html",
        place=store.place,
        counts=[(_(heading), len(every(store, kind))) for heading, kind in SHELVES.values()],
        basket=[(shelf, each) for shelf, (_heading, kind) in SHELVES.items() for each in basket(store, kind)],
        came=came if len(came) == 4 else None,
        erased="erased" in asked,
    )


def copy(request: Request) -> Response:
    """Everything that is kept in one file."""
    return download(backup(request.app.state.store), "copy.jsonl", f"ellwand-{date.today().isoformat()}.jsonl")


@posted
def bring_back(request: Request, given: Given) -> Response:
    """Takes such a file in; what is there stays."""
    if not given.file:
        raise BadInput("", _("no file was chosen"), _("choose the copy (.jsonl) that was saved"))
    found = restore(request.app.state.store, given.file)
    came = "-".join(map(str, (found.added, found.extended, found.skipped, found.erased)))
    return RedirectResponse(f"/keeping?came={came}", 303)


def take_thing_out(request: Request) -> Response:
    """Out of the waste basket again, and to it."""
    kept = take_out(request.app.state.store, kind_on_shelf(request), request.path_params["id"])
    return RedirectResponse(f"/{request.path_params['shelf']}/{kept.id}", 303)


def ask_to_erase(request: Request) -> Response:
    """What would go for good."""
    store, shelf, kind = request.app.state.store, request.path_params["shelf"], kind_on_shelf(request)
    kept = get(store, kind, request.path_params["id"])
    versions = len(history(store, kind, kept.id))
    return page(request, "erase.html", thing=kept, shelf=shelf, versions=versions, is_person=kind is Person)


def erase_thing(request: Request) -> Response:
    """For good."""
    erase(request.app.state.store, kind_on_shelf(request), request.path_params["id"])
    return RedirectResponse("/keeping?erased", 303)


def copy_of_person(request: Request) -> Response:
    """All that is kept of someone, every version of it."""
    found = history(request.app.state.store, Person, request.path_params["id"])
    held = [{"kept": each.changed.isoformat(timespec="seconds"), "wearer": dict(each.table)} for each in found]
    made = json.dumps({"name": found[0].name, "versions": held}, ensure_ascii=False, indent=1).encode()
    return download(made, "copy.json", f"{plain_name(found[0].name)}.json")
