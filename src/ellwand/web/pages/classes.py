"""A class: many wearers, one kind of garment, a page for each and one order."""

from __future__ import annotations

import math
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final, Literal

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.depict.company import cloth_said, everyone
from ellwand.depict.company import looks as looks_table
from ellwand.depict.company import order as order_table
from ellwand.errors import BadInput
from ellwand.keep import KeptGarment, Missing, Person, Roster, Stale, Store, every, get, save
from ellwand.language import _, language
from ellwand.model.company import Company, Done
from ellwand.model.measurement import FIELDS
from ellwand.publish.letters import plain_name
from ellwand.publish.tables import table_csv
from ellwand.web.given import Given, posted, unit_of, whole
from ellwand.web.kept import state_in, state_of
from ellwand.web.making import demo_people, tables_for, wearer_table
from ellwand.web.pages.basket import thrown
from ellwand.web.pages.stale import saved_in_between
from ellwand.web.pages.working import done, download
from ellwand.web.rendering import page
from ellwand.web.state import State
from ellwand.web.work import Ask, Job
from ellwand.web.work.at_once import text_of

MOST: Final = 60
"""Wearers in one class."""
LONGEST: Final = 120
QUICK: Final = 0.4
"""So long (s) a page waits for what may be there at once."""

AWAY: Final = 90.0
"""So long (s) everyone's papers are written on while the page is not looked at."""


@dataclass(frozen=True, slots=True)
class Member:
    """Someone in the class; ``state``: the bench with the garment for them, None while they are to be measured."""

    name: str
    state: State | None = None
    measured: int = 0


OUTCOMES: Final = ("will not work", "look again")


@dataclass(frozen=True, slots=True)
class Line:
    """What is told of someone's garment: why it cannot be cut; what will not work, what there is to look at again; the
    cloth that its own lays take."""

    trouble: str
    fails: tuple[str, ...]
    looks: tuple[str, ...]
    cloth: str


def classes(request: Request) -> Response:
    """The list."""
    kept = every(request.app.state.store, Roster)
    return page(request, "classes.html", classes=kept, gone=thrown(request, Roster))


def new_class(request: Request) -> Response:
    """An empty form."""
    return _form(request, Roster(name=""))


def change_class(request: Request) -> Response:
    """The form of a kept one."""
    return _form(request, _roster(request))


@posted
def save_class(request: Request, given: Given) -> Response:
    """Keeps it, new or as its next version."""
    known = dict.fromkeys(given.every("member"))
    named = dict.fromkeys(" ".join(line.split())[:LONGEST] for line in given.text("names").splitlines())
    members: tuple[str | Mapping[str, object], ...] = (*known, *({"name": name} for name in named if name))
    roster = Roster(
        name=given.text("name").strip()[:LONGEST],
        id=request.path_params.get("id", ""),
        version=whole(given.text("based")),
        members=members,
        garment=given.text("garment") or None,
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
    members, lost = _members(roster, store)
    found, waits, said = None, False, ""
    if any(each.state for each in members):
        job = request.app.state.shop.ask(_asked("order", members, store))
        job.wait(QUICK)
        found, waits = job.last("done"), not job.over
        said = job.last("failed") or job.last("said") or ""
    lines = iter(sorted(found.done.items()) if found else ())
    return page(
        request,
        "class.html",
        roster=roster,
        rows=[(each, _line(next(lines, None), found) if each.state else None) for each in members],
        order=found.order if found else None,
        needs=order_table(found).rows if found else (),
        hours=_hours(found),
        waits=waits,
        said=said,
        garment=get(store, KeptGarment, roster.garment) if roster.garment else None,
        lost=lost,
    )


def _line(reckoned: tuple[int, Done] | None, company: Company | None) -> Line | None:
    if reckoned is None or company is None:
        return None
    done = reckoned[1]
    fails, looks = (tuple(each.why for each in done.said if each.outcome == outcome) for outcome in OUTCOMES)
    return Line(done.trouble, fails, looks, cloth_said(done, company.order.unit))


def _hours(company: Company | None) -> tuple[float, float]:
    work = company.order.work if company else ()
    return math.fsum(each.hours[0] for each in work), math.fsum(each.hours[1] for each in work)


async def order(request: Request) -> Response:
    """The order as a table."""
    roster, ask = await run_in_threadpool(_gathered, request, "order")
    reckoned: Company = await done(request, ask)
    tables = (order_table(reckoned), looks_table(reckoned), everyone(reckoned))
    return download("\n".join(map(table_csv, tables)).encode(), "order.csv", f"{plain_name(roster.name)}-order.csv")


async def pack(request: Request) -> Response:
    """Everyone's papers in one archive."""
    roster, ask = await run_in_threadpool(_gathered, request, "pack")
    made = await done(request, ask)
    return download(made, "pack.zip", f"{plain_name(roster.name)}.zip")


def packing(request: Request) -> Response:
    """How far everyone's papers are; the page looks again by itself while they are made."""
    roster, ask = _gathered(request, "pack")
    shop = request.app.state.shop
    job: Job | None = shop.known(ask)
    if job is not None:
        waited_for(job)
        job.wait(QUICK)
    return page(
        request,
        "class_papers.html",
        roster=roster,
        state=how_far(job),
        said=(job.last("failed") or job.last("said") or "") if job else "",
        place=shop.place(job) if job else 0,
    )


def waited_for(job: Job) -> None:
    """It goes on while nobody looks for a while, as behind another page."""
    job.left = time.monotonic() + AWAY


def how_far(job: Job | None) -> Literal["none", "done", "failed", "stopped", "under way"]:
    if job is None:
        return "none"
    if job.told("done"):
        return "done"
    if job.told("failed"):
        return "failed"
    return "stopped" if job.over or job.stopped else "under way"


def begin_packing(request: Request) -> Response:
    """Everyone's papers are begun, or gone on with."""
    roster, ask = _gathered(request, "pack")
    waited_for(request.app.state.shop.ask(ask))
    return RedirectResponse(f"/classes/{roster.id}/papers", 303)


def stop_packing(request: Request) -> Response:
    """Enough of it."""
    roster, ask = _gathered(request, "pack")
    job = request.app.state.shop.known(ask)
    if job is not None:
        request.app.state.shop.stop(job)
    return RedirectResponse(f"/classes/{roster.id}/papers", 303)


def forms(request: Request) -> Response:
    """A measuring form for each who is still to be measured; for everyone where nobody is."""
    from ellwand.publish import measuring_form_pdf

    roster = _roster(request)
    members = _members(roster, request.app.state.store)[0]
    names = tuple(each.name for each in members if not each.state) or tuple(each.name for each in members) or ("",)
    unit = unit_of(request.query_params.get("unit"))
    return download(measuring_form_pdf(names, unit), "forms.pdf", f"{plain_name(roster.name)}-forms.pdf")


def _gathered(request: Request, what: Literal["order", "pack"]) -> tuple[Roster, Ask]:
    """The class and what is asked of the workshop for it.

    Raises BadInput where nobody in it is measured.
    """
    store, roster = request.app.state.store, _roster(request)
    members, _lost = _members(roster, store)
    if not any(each.state for each in members):
        raise BadInput(roster.name, _("nobody in this class is measured yet"), _("tick those who are"))
    return roster, _asked(what, members, store)


def _roster(request: Request) -> Roster:
    return get(request.app.state.store, Roster, request.path_params["id"])


def _members(roster: Roster, store: Store) -> tuple[list[Member], int]:
    """Everyone, and how many are kept no longer."""
    base = state_of(get(store, KeptGarment, roster.garment)) if roster.garment else state_in("")
    out, lost = [], 0
    for each in roster.members:
        if not isinstance(each, str):
            out.append(Member(str(each.get("name", ""))))
            continue
        try:
            table = wearer_table(each, store)
        except BadInput:
            lost += 1
            continue
        measured = sum(field in FIELDS for field in table)
        out.append(Member(str(table.get("name", "")), replace(base, who=each, garment="", based=0), measured))
    return out, lost


def _asked(what: Literal["order", "pack"], members: Sequence[Member], store: Store) -> Ask:
    sheets = [tables_for(each.state, store) for each in members if each.state]
    return Ask(what, text_of(sheets), language())


def _names(roster: Roster) -> list[str]:
    """Those who are still to be measured."""
    return [str(each.get("name", "")) for each in roster.members if isinstance(each, Mapping)]


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
        names=_names(roster),
        garments=every(store, KeptGarment),
    )


def _stale(request: Request, mine: Roster, newer: Any) -> Response:
    store = request.app.state.store
    said = [
        (_("name"), [each.name for each in (newer, mine)]),
        (_("wearers"), [", ".join(one.name for one in _members(each, store)[0]) for each in (newer, mine)]),
        (_("what everyone makes"), [_makes(each, store) for each in (newer, mine)]),
    ]
    differ = [(label, theirs, own) for label, (theirs, own) in said if theirs != own]
    known = [("member", each) for each in mine.members if isinstance(each, str)]
    hidden = [("name", mine.name), ("garment", mine.garment or ""), *known, ("names", "\n".join(_names(mine)))]
    both = _("Keep both: save mine as another class")
    return saved_in_between(request, newer, differ, hidden, "classes", both)


def _makes(roster: Roster, store: Store) -> str:
    return get(store, KeptGarment, roster.garment).name if roster.garment else _("a plain tunic")
