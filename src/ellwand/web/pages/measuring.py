"""The measuring page: where the tape goes, what was measured, and what there is to ask about it."""

from __future__ import annotations

from collections import defaultdict
from typing import Any, Final

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response

from ellwand.depict.figure import number
from ellwand.keep import Person, Stale, get, save
from ellwand.language import _
from ellwand.model.measurement import FIELDS, MEASUREMENTS
from ellwand.publish.measuring_form import NEEDED
from ellwand.web.given import Given, posted, whole
from ellwand.web.measured import ARMS, Answers, answers, measured_apart, table_of, typed
from ellwand.web.pages.stale import saved_in_between
from ellwand.web.rendering import fragment, page
from ellwand.web.taped import figure_svg, tape_svg

LONGEST: Final = 60
"""Of one thing typed (signs); a name may be longer."""
NAME: Final = 200


def new_person(request: Request) -> Response:
    """An empty form."""
    return _page(request, Person(name=""), {}, Answers())


def one_person(request: Request) -> Response:
    """A kept person's measurements."""
    person = get(request.app.state.store, Person, request.path_params["id"])
    return _page(request, person, typed(person.table), answers(person.table), saved="saved" in request.query_params)


@posted
def check(request: Request, given: Given) -> Response:
    """What there is to say of a form, before it is saved."""
    found = answers(table_of(given.pairs))
    told = {field: fragment("_answer.html", field=field, answers=found) for field in (*FIELDS, *ARMS, "unit", "age")}
    return JSONResponse({"answers": told, "wrong": found.wrong, "said": found.said})


@posted
def save_person(request: Request, given: Given) -> Response:
    """Keeps what was typed, new or as the next version; the form comes back where that cannot be."""
    table, own = table_of(given.pairs), dict(given.pairs)
    name, id = str(table.get("name", "")), request.path_params.get("id", "")
    person = Person(name=name, id=id, version=whole(given.text("based")), table=table)
    found = _too_long(own) or answers(table)
    if not found.sentence and not name:
        found = Answers(wrong="name", sentence=_("Nobody can be found again without a name; give one."))
    if found.sentence:
        return _page(request, person, own, found, status=422)
    try:
        kept = save(request.app.state.store, person)
    except Stale as stale:
        return _stale(request, person, stale.newer)
    return RedirectResponse(f"/people/{kept.id}?saved", 303)


def tape(request: Request) -> Response:
    """Where one tape goes."""
    field = request.path_params["field"]
    if field not in MEASUREMENTS:
        raise HTTPException(404)
    return Response(tape_svg(field), media_type="image/svg+xml", headers={"Cache-Control": "private, max-age=3600"})


def _too_long(given: dict[str, str]) -> Answers | None:
    for key, text in given.items():
        if len(text) > (NAME if key == "name" else LONGEST):
            return Answers(wrong=key, sentence=_("This is too long; shorten it."))
    return None


def _page(
    request: Request, person: Person, given: dict[str, str], found: Answers, *, saved: bool = False, status: int = 200
) -> Response:
    return page(
        request,
        "measuring.html",
        status,
        person=person,
        given=defaultdict(str, given),
        answers=found,
        saved=saved,
        figure=figure_svg(),
        measurements=[(field, number(field), MEASUREMENTS[field]) for field in FIELDS],
        needed=NEEDED,
    )


def _stale(request: Request, mine: Person, theirs: Any) -> Response:
    confirmed = mine.table.get("confirmed")
    hidden = [*typed(mine.table).items(), *(("confirmed", str(each)) for each in _listed(confirmed))]
    both = _("Keep both: save mine as another person")
    return saved_in_between(request, theirs, measured_apart(mine.table, theirs.table), hidden, "people", both)


def _listed(value: object) -> list[object]:
    return list(value) if isinstance(value, list) else []
