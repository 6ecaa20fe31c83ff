"""Sheets: the whole of a garment as a file, out and in."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.choose import sheet_tables
from ellwand.choose.form import pairs_of, sheet_text
from ellwand.errors import BadInput
from ellwand.keep import Person, save
from ellwand.language import _
from ellwand.web.given import Given, posted, unit_of
from ellwand.web.making import tables_for
from ellwand.web.measured import of_form
from ellwand.web.pages.working import download, whose
from ellwand.web.rendering import page
from ellwand.web.state import WHO, State, read_state
from ellwand.web.work.at_once import sheet_of


def sheet(request: Request) -> Response:
    """All that is chosen on the bench and the wearer's measurements, as the command line reads it."""
    tables = tables_for(read_state(request.query_params), request.app.state.store)
    return download(sheet_text(tables).encode(), "sheet.toml", f"{whose(tables)}.toml")


def ask_for_sheet(request: Request) -> Response:
    """The form."""
    return page(request, "sheets.html", trouble="", text="")


@posted
def take_in(request: Request, given: Given) -> Response:
    """Takes a sheet in: its choices go to the bench, its wearer to the people."""
    text = given.text("text")
    try:
        tables = sheet_tables(given.file or text.encode())
        state = _state(tables, request, given.text("wearer") == "keep")
    except BadInput as error:
        shown = text or given.file.decode("utf-8", "replace")
        return page(request, "sheets.html", 422, trouble=str(error), text=shown)
    return RedirectResponse(f"/?{state.query}", 303)


def _state(tables: dict[str, Any], request: Request, keep_wearer: bool) -> State:
    """What the bench shows of a sheet.

    Raises BadInput as the command line would.
    """
    wearer = tables.get("wearer")
    if not isinstance(wearer, dict):
        raise BadInput("wearer", _("the sheet has no [wearer]"), _("choose a whole sheet"))
    sheet_of(tables)
    own = of_form(wearer)
    unit = unit_of(wearer.get("unit"))
    state = State(WHO, unit, pairs_of(tables, unit))
    if keep_wearer:
        kept = save(request.app.state.store, Person(name=str(own.get("name") or _("the wearer")), table=own))
        state = replace(state, who=kept.id)
    return state
