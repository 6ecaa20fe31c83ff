"""The people who are measured: a list of them, their sheets, and what was measured before."""

from __future__ import annotations

from typing import Final

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.errors import BadInput
from ellwand.keep import Person, every, get, history, save, take_back, take_out, throw_away
from ellwand.language import _
from ellwand.measure import read_people
from ellwand.units import Unit
from ellwand.web.making import demo_people, read_sheet_bytes
from ellwand.web.measured import of_form, typed
from ellwand.web.pages.measuring import label_of
from ellwand.web.pages.working import download, plain_name
from ellwand.web.rendering import page

MOST: Final = 500
"""People in one list."""


def people(request: Request) -> Response:
    """The list."""
    kept = every(request.app.state.store, Person)
    thrown = request.query_params.get("thrown", "")
    gone = get(request.app.state.store, Person, thrown) if thrown else None
    taken = request.query_params.get("taken", "")
    return page(
        request,
        "people.html",
        people=kept,
        demo=[(who, table["name"]) for who, table in demo_people().items()],
        gone=gone,
        taken=int(taken) if taken.isdecimal() and len(taken) < 5 else 0,
    )


def throw_person(request: Request) -> Response:
    """Into the waste basket."""
    id = request.path_params["id"]
    throw_away(request.app.state.store, Person, id)
    return RedirectResponse(f"/people?thrown={id}", 303)


def take_person_out(request: Request) -> Response:
    """Out of the waste basket again."""
    take_out(request.app.state.store, Person, request.path_params["id"])
    return RedirectResponse("/people", 303)


def copy_demo(request: Request) -> Response:
    """One of the demo's people as a person of one's own."""
    table = demo_people().get(request.path_params["who"])
    if table is None:
        raise BadInput("", _("there is no such person in the demo"), _("choose one of the list"))
    kept = save(request.app.state.store, Person(name=str(table["name"]), table=table))
    return RedirectResponse(f"/people/{kept.id}", 303)


def sheet(request: Request) -> Response:
    """A person as a sheet's [wearer] table."""
    import tomli_w

    person = get(request.app.state.store, Person, request.path_params["id"])
    made = tomli_w.dumps({"wearer": dict(person.table)}).encode()
    return download(made, "sheet.toml", f"{plain_name(person.name)}.toml")


def form(request: Request) -> Response:
    """The measuring form to print."""
    from ellwand.publish import measuring_form_pdf

    unit: Unit = "in" if request.query_params.get("unit") == "in" else "cm"
    return download(measuring_form_pdf(("",), unit), "form.pdf", "measuring-form.pdf")


async def take_in(request: Request) -> Response:
    """People from a sheet, or from a list as spreadsheets save it."""
    async with request.form() as given:
        file = given.get("file")
        data = await file.read() if isinstance(file, UploadFile) else b""
        name = (file.filename or "")[:80] if isinstance(file, UploadFile) else ""
    if not data:
        raise BadInput("", _("no file was chosen"), _("choose a sheet (.toml) or a list (.csv)"))
    is_sheet = name.lower().endswith(".toml")
    tables = [_wearer(data, name)] if is_sheet else list(read_people(data).tables)
    if len(tables) > MOST:
        raise BadInput(name, _("more than {most} people are in the list", most=MOST), _("divide it"))
    read = []
    for number, table in enumerate(tables, 1):
        try:
            own = of_form(table)
        except BadInput as error:
            raise error.inside(str(table.get("name") or number)[:80]) from None
        called = str(own.get("name") or _("the wearer"))
        read.append(Person(name=called, table={"name": called, **own}))
    for person in read:
        save(request.app.state.store, person)
    return RedirectResponse(f"/people?taken={len(read)}", 303)


def _wearer(data: bytes, name: str) -> dict[str, object]:
    """The [wearer] of a sheet."""
    wearer = read_sheet_bytes(data).get("wearer")
    if not isinstance(wearer, dict):
        raise BadInput(name, _("the sheet has no [wearer]"), _("choose a whole sheet"))
    return wearer


def versions(request: Request) -> Response:
    """What was measured before, the newest first, each with what changed then."""
    found = history(request.app.state.store, Person, request.path_params["id"])
    rows = []
    for now, before in zip(found, (*found[1:], None), strict=True):
        own, other = typed(now.table), typed(before.table) if before else {}
        changed = [
            (label_of(key), other.get(key, ""), own.get(key, ""))
            for key in dict.fromkeys((*own, *other))
            if own.get(key) != other.get(key)
        ]
        rows.append((now, changed if before else []))
    return page(request, "people_history.html", person=found[0], rows=rows)


async def go_back(request: Request) -> Response:
    """An older version again, as the newest."""
    async with request.form() as given:
        version = str(given.get("version", ""))
    id = request.path_params["id"]
    take_back(request.app.state.store, Person, id, int(version) if version.isdecimal() and len(version) < 9 else 0)
    return RedirectResponse(f"/people/{id}", 303)
