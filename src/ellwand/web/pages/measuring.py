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
from ellwand.model.measurement import FIELDS, MEASUREMENTS, Measurement
from ellwand.publish.measuring_form import NEEDED
from ellwand.web.measured import ARMS, Answers, answers, table_of, typed
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


async def check(request: Request) -> Response:
    """What there is to say of a form, before it is saved."""
    async with request.form() as form:
        found = answers(table_of([(key, str(value)) for key, value in form.multi_items()]))
    told = {field: fragment("_answer.html", field=field, answers=found) for field in (*FIELDS, *ARMS, "unit", "age")}
    return JSONResponse({"answers": told, "wrong": found.wrong, "said": found.said})


async def save_person(request: Request) -> Response:
    """Keeps what was typed, new or as the next version; the form comes back where that cannot be."""
    async with request.form() as form:
        pairs = [(key, str(value)) for key, value in form.multi_items()]
    given = dict(pairs)
    table = table_of(pairs)
    id = request.path_params.get("id", "")
    based = int(given["based"]) if given.get("based", "").isdecimal() and len(given["based"]) < 9 else 0
    person = Person(name=str(table.get("name", "")), id=id, version=based, table=table)
    found = _too_long(given) or answers(table)
    if not found.sentence and not table.get("name"):
        found = Answers(wrong="name", sentence=_("Nobody can be found again without a name; give one."))
    if found.sentence:
        return _page(request, person, given, found, status=422)
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
        measurements=[Row(field) for field in FIELDS],
        arms=ARMS,
        needed=NEEDED,
    )


class Row:
    """One measurement on the page."""

    def __init__(self, field: str) -> None:
        about: Measurement = MEASUREMENTS[field]
        self.field, self.number, self.is_girth = field, number(field), about.kind == "girth"
        self.label, self.how, self.mind = _(about.label), _(about.how), _(about.mind) if about.mind else ""
        self.term = about.term


def _stale(request: Request, mine: Person, theirs: Any) -> Response:
    """Someone saved in between: both are shown, and nothing is lost."""
    own, other = typed(mine.table), typed(theirs.table)
    differ = [
        (label_of(key), other.get(key, ""), own.get(key, ""))
        for key in dict.fromkeys((*own, *other))
        if own.get(key) != other.get(key)
    ]
    hidden = [*own.items(), *(("confirmed", str(each)) for each in _listed(mine.table.get("confirmed")))]
    return page(
        request,
        "stale.html",
        409,
        name=theirs.name,
        differ=differ,
        hidden=hidden,
        theirs=f"/people/{mine.id}",
        ways=[
            (f"/people/{mine.id}", [("based", str(theirs.version))], _("Keep mine; the other stays in the history")),
            ("/people", [], _("Keep both: save mine as another person")),
        ],
    )


def label_of(key: str) -> str:
    """What a key of the [wearer] table is called."""
    if key in MEASUREMENTS:
        return _(MEASUREMENTS[key].label)
    own = {"name": _("name"), "sex": _("cut for"), "age": _("age"), "unit": _("unit")}
    return own.get(key, key.replace("_", " "))


def _listed(value: object) -> list[object]:
    return list(value) if isinstance(value, list) else []
