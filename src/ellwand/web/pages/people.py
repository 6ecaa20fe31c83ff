"""The people who are measured: a list of them, their sheets, and what was measured before."""

from __future__ import annotations

from typing import Final

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.choose import sheet_tables
from ellwand.errors import BadInput
from ellwand.keep import Person, every, get, history, save, take_back
from ellwand.language import _
from ellwand.measure import read_people
from ellwand.publish.letters import plain_name
from ellwand.web.given import Given, posted, unit_of, whole
from ellwand.web.making import demo_people
from ellwand.web.measured import measured_apart, of_form
from ellwand.web.pages.basket import thrown
from ellwand.web.pages.working import download
from ellwand.web.rendering import page

MOST: Final = 500
"""People in one list."""


def people(request: Request) -> Response:
    """The list."""
    kept = every(request.app.state.store, Person)
    return page(
        request,
        "people.html",
        people=kept,
        demo=[(who, table["name"]) for who, table in demo_people().items()],
        gone=thrown(request, Person),
        taken=whole(request.query_params.get("taken"), 4),
    )


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

    made = measuring_form_pdf(("",), unit_of(request.query_params.get("unit")))
    return download(made, "form.pdf", "measuring-form.pdf")


@posted
def take_in(request: Request, given: Given) -> Response:
    """People from a sheet, or from a list as spreadsheets save it."""
    data, name = given.file, given.file_name
    if not data:
        raise BadInput("", _("no file was chosen"), _("choose a sheet (.toml) or a list (.csv, .xlsx)"))
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
    wearer = sheet_tables(data).get("wearer")
    if not isinstance(wearer, dict):
        raise BadInput(name, _("the sheet has no [wearer]"), _("choose a whole sheet"))
    return wearer


def versions(request: Request) -> Response:
    """What was measured before, the newest first, each with what changed then."""
    found = history(request.app.state.store, Person, request.path_params["id"])
    rows = []
    for now, before in zip(found, (*found[1:], None), strict=True):
        rows.append((now, measured_apart(now.table, before.table) if before else []))
    return page(request, "people_history.html", person=found[0], rows=rows)


@posted
def go_back(request: Request, given: Given) -> Response:
    """An older version again, as the newest."""
    id = request.path_params["id"]
    take_back(request.app.state.store, Person, id, whole(given.text("version")))
    return RedirectResponse(f"/people/{id}", 303)
