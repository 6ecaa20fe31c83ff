"""Sheets: the whole of a garment as a file, out and in."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.choose import read_tables
from ellwand.choose.form import pairs_of
from ellwand.choose.form.written import sheet_text
from ellwand.errors import BadInput
from ellwand.keep import Person, save
from ellwand.language import _
from ellwand.units import Unit
from ellwand.web.making import no_sheets, read_sheet_bytes, tables_for
from ellwand.web.measured import of_form
from ellwand.web.pages.working import download, whose
from ellwand.web.rendering import page
from ellwand.web.state import WHO, State, read_state


def sheet(request: Request) -> Response:
    """All that is chosen on the bench and the wearer's measurements, as the command line reads it."""
    state = read_state(request.query_params)
    made = sheet_text(tables_for(state, request.app.state.store)).encode()
    return download(made, "sheet.toml", f"{whose(state, request)}.toml")


async def sheets(request: Request) -> Response:
    """Takes a sheet in: its choices go to the bench, its wearer to the people."""
    if request.method != "POST":
        return page(request, "sheets.html", trouble="", text="")
    async with request.form() as form:
        file, text = form.get("file"), str(form.get("text", ""))
        data = await file.read() if isinstance(file, UploadFile) else b""
        keep_wearer = form.get("wearer") == "keep"
    try:
        tables = read_sheet_bytes(data or text.encode())
        state = _state(tables, request, keep_wearer)
    except BadInput as error:
        shown = text or data.decode("utf-8", "replace")
        return page(request, "sheets.html", 422, trouble=str(error), text=shown)
    return RedirectResponse(f"/?{state.query}", 303)


def _state(tables: dict[str, Any], request: Request, keep_wearer: bool) -> State:
    """What the bench shows of a sheet.

    Raises BadInput as the command line would.
    """
    wearer = tables.get("wearer")
    if not isinstance(wearer, dict):
        raise BadInput("wearer", _("the sheet has no [wearer]"), _("choose a whole sheet"))
    read_tables(tables, no_sheets)
    own = of_form(wearer)
    unit: Unit = "in" if wearer.get("unit") == "in" else "cm"
    state = State(WHO, unit, pairs_of(tables, unit))
    if keep_wearer:
        kept = save(request.app.state.store, Person(name=str(own.get("name") or _("the wearer")), table=own))
        state = replace(state, who=kept.id)
    return state
