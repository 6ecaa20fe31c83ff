"""From a picture to choices: marks on a picture that never leaves the browser, and the structures that look so."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final

import tomli_w
from starlette.datastructures import QueryParams
from starlette.requests import Request
from starlette.responses import Response

from ellwand.depict.spread import pieces_sheet
from ellwand.depict.words import picturing as say
from ellwand.depict.words import why
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.model.picture import Marks
from ellwand.picture.marking import MARKS, NEEDED, marks_of
from ellwand.picture.questions import QUESTIONS, UNSEEN
from ellwand.plan.exercising import exercise
from ellwand.plan.picturing import Offered, Pictured, pictured
from ellwand.publish.svg import svg
from ellwand.units import format_length
from ellwand.web.drawn import plain_face, plain_svg
from ellwand.web.given import whole
from ellwand.web.making import tables_for, wearer_table
from ellwand.web.pages.working import download, whose
from ellwand.web.rendering import page
from ellwand.web.state import State, read_state
from ellwand.web.work.at_once import sheet_of

DRAWN: Final = 0.12
"""Paper cm per cm of an exercise's figure."""
LONGEST: Final = 12
"""No honest coordinate has more signs."""


@dataclass(frozen=True, slots=True)
class Shown:
    """One structure as the page shows it."""

    about: str
    likely: str
    speaks: tuple[str, ...]
    against: tuple[str, ...]
    hidden: str
    evidence: tuple[str, ...]
    faces: tuple[str, ...]
    pieces: str
    refused: str
    query: str


@dataclass(frozen=True, slots=True)
class Truth:
    """What an exercise was drawn from: its structure, its ``place`` among those offered (0: none of them), and each
    length as it is, as it was read, within which range, and whether that holds it."""

    about: str
    place: int
    rows: tuple[tuple[str, str, str, str, bool], ...]
    face: str
    pieces: str


def picture(request: Request) -> Response:
    """The picture's board, the marks, the questions; and what they tell as soon as there is enough."""
    query = request.query_params
    state, number = _state(query), whole(query.get("exercise"), 4)
    found, trouble = None, ""
    if any(query.get(f"{axis}.{name}") for name in MARKS for axis in "xy"):
        try:
            found = _found(query, state, request)
        except BadInput as error:
            trouble = str(error)
    return page(
        request,
        "_pictured.html" if query.get("part") else "picture.html",
        422 if trouble else 200,
        state=state,
        who=wearer_table(state.who, request.app.state.store).get("name", ""),
        given=_typed(query),
        marks=MARKS,
        needed=NEEDED,
        questions=QUESTIONS,
        unseen=UNSEEN,
        trouble=trouble,
        readings=[say.reading_said(each, found.unit) for each in found.readings] if found else (),
        offers=[_shown(each, found, state) for each in found.offered] if found else (),
        unknown=say.unknown_said(),
        exercise=number,
        truth=_truth(number, found, state, request) if number and found else None,
        asked=str(query),
    )


def exercise_svg(request: Request) -> Response:
    """The figure of an exercise, to be marked as a picture is."""
    state = _state(request.query_params)
    given = exercise(request.path_params["number"], wearer_table(state.who, request.app.state.store))
    drawn = svg(given.drawing, DRAWN, _("Exercise {number}", number=given.number))
    return Response(drawn, media_type="image/svg+xml")


def _truth(number: int, found: Pictured, state: State, request: Request) -> Truth:
    """What the figure was drawn from, beside what was read."""
    given = exercise(number, wearer_table(state.who, request.app.state.store))
    read = {each.what: each for each in found.readings}
    rows = []
    for what, true in given.true.items():
        if what in read:
            said, value, held = say.reading_said(read[what], found.unit)
            within = read[what].low <= true <= read[what].high
            rows.append((said, format_length(round(2 * true) / 2, found.unit), value, held, within))
    sheet = pieces_sheet(given.garment.draft, found.unit, 16.0, 14.0)
    place = (
        [each.offer.structure for each in found.offered].index(given.structure) + 1
        if any(each.offer.structure == given.structure for each in found.offered)
        else 0
    )
    return Truth(
        about=say.structure_named(given.structure),
        place=place,
        rows=tuple(rows),
        face=plain_face(given.garment.draft, _("the garment from the front")),
        pieces=plain_svg(sheet.drawing, sheet.scale, _("the pieces")),
    )


def offered_sheet(request: Request) -> Response:
    """One of the offers as a sheet that remembers the marks and the reasons."""
    query = request.query_params
    found = _found(query, _state(query), request)
    number = whole(query.get("offer"))
    if not 1 <= number <= len(found.offered):
        raise BadInput("offer", _("there is no such offer"), _("read the picture again"))
    tables = found.offered[number - 1].tables
    return download(tomli_w.dumps(tables).encode(), "sheet.toml", f"{whose(tables)}.toml")


def _typed(query: QueryParams) -> dict[str, str]:
    """What stands in each field of the form."""
    places = [f"{axis}.{name}" for axis in "xy" for name in MARKS]
    keys = [*places, *(f"q.{name}" for name in QUESTIONS), "stoop", "lean"]
    return {key: query.get(key, "")[:LONGEST] for key in keys}


def _state(query: QueryParams) -> State:
    """The bench that the picture is read for."""
    return read_state(QueryParams(query.get("from", "")))


def _found(query: QueryParams, state: State, request: Request) -> Pictured:
    return pictured(_marks(query), tables_for(state, request.app.state.store), sheet_of, state.unit)


def _marks(query: QueryParams) -> Marks:
    """The marks of an address.

    Raises BadInput.
    """
    points = {name: [_number(query, f"{axis}.{name}") for axis in "xy"] for name in MARKS if _given(query, name)}
    answers = {name: query[f"q.{name}"] for name in QUESTIONS if query.get(f"q.{name}", UNSEEN) != UNSEEN}
    stated: Mapping[str, Any] = {key: _number(query, key) for key in ("lean", "stoop", "spread") if query.get(key)}
    return marks_of({"points": points, "answers": answers, **stated})


def _given(query: QueryParams, name: str) -> bool:
    return any(query.get(f"{axis}.{name}") for axis in "xy")


def _number(query: QueryParams, key: str) -> float | None:
    text = query.get(key, "")[:LONGEST].strip().replace(",", ".")
    try:
        value = float(text)
    except ValueError:
        return None
    return value if math.isfinite(value) else None


def _shown(each: Offered, found: Pictured, state: State) -> Shown:
    speaks, against = say.reasons_said(each.offer)
    garment = each.garment
    faces: tuple[str, ...] = ()
    pieces = ""
    if garment is not None:
        faces = tuple(plain_face(garment.draft, said, face) for said, face in _faces())
        sheet = pieces_sheet(garment.draft, found.unit, 16.0, 14.0)
        pieces = plain_svg(sheet.drawing, sheet.scale, _("the pieces"))
    tables = {key: value for key, value in each.tables.items() if key not in ("picture", "wearer")}
    return Shown(
        about=say.structure_said(each.offer),
        likely=say.likely_said(each.offer),
        speaks=speaks,
        against=against,
        hidden=say.hidden_said(each.offer),
        evidence=tuple(why(finding, found.unit) for finding in each.evidence),
        faces=faces,
        pieces=pieces,
        refused=each.refused,
        query=state.of(tables).query if garment is not None else "",
    )


def _faces() -> Iterator[tuple[str, Any]]:
    yield _("the garment from the front"), "front"
    yield _("the garment from behind"), "back"
