"""A class: many wearers, one kind of garment, a page for each and one order."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any, Final

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.errors import BadInput
from ellwand.keep import KeptGarment, Missing, Person, Roster, Stale, Store, every, get, save, take_out, throw_away
from ellwand.language import _, language
from ellwand.units import Unit
from ellwand.web.kept import state_of
from ellwand.web.making import demo_people, tables_for
from ellwand.web.pages.working import done, download, plain_name
from ellwand.web.rendering import page
from ellwand.web.state import State, read_state
from ellwand.web.work import Ask
from ellwand.web.work.ordering import Order, order_csv

MOST: Final = 60
"""Wearers in one class."""
LONGEST: Final = 120


def classes(request: Request) -> Response:
    """The list."""
    store = request.app.state.store
    thrown = request.query_params.get("thrown", "")
    gone = get(store, Roster, thrown) if thrown else None
    return page(request, "classes.html", classes=every(store, Roster), gone=gone)


def new_class(request: Request) -> Response:
    """An empty form."""
    return _form(request, Roster(name=""))


def change_class(request: Request) -> Response:
    """The form of a kept one."""
    return _form(request, _roster(request))


async def save_class(request: Request) -> Response:
    """Keeps it, new or as its next version."""
    async with request.form() as form:
        given = {key: str(value) for key, value in form.items()}
        members = tuple(dict.fromkeys(str(each) for each in form.getlist("member")))
    based = given.get("based", "")
    roster = Roster(
        name=given.get("name", "").strip()[:LONGEST],
        id=request.path_params.get("id", ""),
        version=int(based) if based.isdecimal() and len(based) < 9 else 0,
        members=members,
        garment=given.get("garment") or None,
    )
    if not roster.name or len(members) > MOST:
        wrong = _("Give the class a name.") if not roster.name else _("At most {most} in one class.", most=MOST)
        return _form(request, roster, wrong, 422)
    try:
        kept = save(request.app.state.store, roster)
    except Stale as stale:
        return _stale(request, roster, stale.newer)
    except Missing as missing:
        return _form(request, roster, str(missing), 422)
    return RedirectResponse(f"/classes/{kept.id}", 303)


def one_class(request: Request) -> Response:
    """Its wearers and the order, as far as they are reckoned yet."""
    store, roster = request.app.state.store, _roster(request)
    states, lost = _states(roster, store)
    order, waits, said = None, False, ""
    if states:
        job = request.app.state.shop.ask(_asked("order", states, store))
        job.wait(0.4)
        found = job.last("done")
        order = found if isinstance(found, Order) else None
        waits, said = not job.over, job.last("failed") or job.last("said") or ""
    rows = list(zip(states, order.lines if order else [None] * len(states), strict=True))
    garment = get(store, KeptGarment, roster.garment) if roster.garment else None
    return page(
        request,
        "class.html",
        roster=roster,
        rows=rows,
        order=order,
        waits=waits,
        said=said,
        garment=garment,
        names=[_name(state, store) for state in states],
        lost=lost,
    )


async def order(request: Request) -> Response:
    """The order as a table."""
    roster, states = await _gathered(request)
    reckoned: Order = await done(request, _asked("order", states, request.app.state.store))
    return download(order_csv(reckoned).encode(), "order.csv", f"{plain_name(roster.name)}-order.csv")


async def pack(request: Request) -> Response:
    """Everyone's papers in one archive."""
    roster, states = await _gathered(request)
    made = await done(request, _asked("pack", states, request.app.state.store))
    return download(made, "pack.zip", f"{plain_name(roster.name)}.zip")


def forms(request: Request) -> Response:
    """A measuring form for each in the class."""
    from ellwand.publish import measuring_form_pdf

    store, roster = request.app.state.store, _roster(request)
    names = tuple(_name(state, store) for state in _states(roster, store)[0]) or ("",)
    unit: Unit = "in" if request.query_params.get("unit") == "in" else "cm"
    return download(measuring_form_pdf(names, unit), "forms.pdf", f"{plain_name(roster.name)}-forms.pdf")


def throw_class(request: Request) -> Response:
    """Into the waste basket."""
    id = request.path_params["id"]
    throw_away(request.app.state.store, Roster, id)
    return RedirectResponse(f"/classes?thrown={id}", 303)


def take_class_out(request: Request) -> Response:
    """Out of the waste basket again."""
    take_out(request.app.state.store, Roster, request.path_params["id"])
    return RedirectResponse("/classes", 303)


async def _gathered(request: Request) -> tuple[Roster, list[State]]:
    from starlette.concurrency import run_in_threadpool

    roster = await run_in_threadpool(_roster, request)
    states, _lost = await run_in_threadpool(_states, roster, request.app.state.store)
    if not states:
        raise BadInput(roster.name, _("nobody is in this class yet"), _("tick those who are"))
    return roster, states


def _roster(request: Request) -> Roster:
    return get(request.app.state.store, Roster, request.path_params["id"])


def _states(roster: Roster, store: Store) -> tuple[list[State], list[str]]:
    """The garment on the bench for each wearer, and those who are not kept any more."""
    base = state_of(get(store, KeptGarment, roster.garment)) if roster.garment else read_state_empty()
    out, lost = [], []
    for member in roster.members:
        who = str(member)
        try:
            if who not in demo_people():
                get(store, Person, who)
            out.append(replace(base, who=who, garment="", based=0))
        except Missing:
            lost.append(who)
    return out, lost


def read_state_empty() -> State:
    """What a first visit shows."""
    from starlette.datastructures import QueryParams

    return read_state(QueryParams(""))


def _name(state: State, store: Store) -> str:
    who = state.who
    return str(demo_people()[who]["name"]) if who in demo_people() else get(store, Person, who).name


def _asked(what: Any, states: list[State], store: Store) -> Ask:
    sheets = [tables_for(state, store) for state in states]
    return Ask(what, json.dumps(sheets, sort_keys=True, default=str), language())


def _form(request: Request, roster: Roster, wrong: str = "", status: int = 200) -> Response:
    store = request.app.state.store
    demo = [(who, str(table["name"])) for who, table in demo_people().items()]
    people = [(each.id, each.name) for each in every(store, Person)]
    return page(
        request,
        "class_form.html",
        status,
        roster=roster,
        wrong=wrong,
        people=people,
        demo=demo,
        garments=every(store, KeptGarment),
    )


def _stale(request: Request, mine: Roster, newer: Any) -> Response:
    differ = [(_("name"), newer.name, mine.name)] if newer.name != mine.name else []
    differ += [(_("wearers"), str(len(newer.members)), str(len(mine.members)))] if newer.members != mine.members else []
    hidden = [("name", mine.name), ("garment", mine.garment or ""), *(("member", str(each)) for each in mine.members)]
    return page(
        request,
        "stale.html",
        409,
        name=newer.name,
        differ=differ,
        hidden=hidden,
        theirs=f"/classes/{mine.id}",
        ways=[
            (f"/classes/{mine.id}", [("based", str(newer.version))], _("Keep mine; the other stays in the history")),
            ("/classes", [], _("Keep both: save mine as another class")),
        ],
    )
