"""The bench itself: the garment, its choices, what the proof says, its cloth and its order of work."""

from __future__ import annotations

import asyncio
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response

from ellwand.choose.form import Group, groups, path_of
from ellwand.depict import words as say
from ellwand.depict.naming import cut_how, numbers
from ellwand.depict.pieces import piece_drawing
from ellwand.depict.setting_in import Face
from ellwand.depict.step_facts import facts_line
from ellwand.depict.view_words import face_names
from ellwand.depict.view_zones import zone_of
from ellwand.errors import BadInput
from ellwand.keep import KeptCloth, KeptGarment, Person, Store, every, get
from ellwand.language import _, language, plural
from ellwand.model.garment import Garment
from ellwand.model.names import named
from ellwand.plan.mending import mends
from ellwand.publish.svg import svg
from ellwand.web.drawn import Mark, face_svg, plain_svg
from ellwand.web.kept import differing, kept_of, state_in
from ellwand.web.making import demo_people, garment_for, tables_for
from ellwand.web.rendering import fragment, page
from ellwand.web.state import State, read_state
from ellwand.web.work.at_once import text_of
from ellwand.web.work.quick import laid_quickly

GROUP_OF: Final[Mapping[str, str]] = {"gusset": "sleeve", "charges": "division"}
"""Where what one points at is chosen, if not under its own name."""
PIECES_SCALE: Final = 0.05
"""Pieces are drawn at so many paper cm per cm."""
FACES: Final[tuple[Face, Face]] = ("front", "back")
WEIGHTS: Final = {"will not work": "fails", "look again": "look", "sound": "sound"}


@dataclass(frozen=True, slots=True)
class Told:
    """A finding on the page: its number (0 where it is sound), where it belongs and what would mend it."""

    number: int
    weight: str
    group: str
    why: str
    mend: str
    ways: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Trouble:
    """Why there is no garment: the control that it is about, and the sentence."""

    path: str
    group: str
    sentence: str


def bench(request: Request) -> Response:
    """The whole page."""
    state, trouble = _read(request)
    if request.query_params.get("add") or request.query_params.get("drop"):
        return RedirectResponse(f"/?{state.query}" + (f"#z-{state.open}" if state.open else ""), 303)
    shown = _shown(state, request.app.state.store, trouble)
    return page(request, "bench.html", **shown, **_made_of(shown["garment"]))


def parts(request: Request) -> Response:
    """What changes at once with a choice, part by part, for a page that is open."""
    state, trouble = _read(request)
    shown = _shown(state, request.app.state.store, trouble)
    # without a garment the last one stays
    names = ("drawing", "what", "choices") if shown["garment"] is not None else ("what", "choices")
    out = {name: fragment(f"_{name}.html", **shown) for name in names}
    return JSONResponse({"query": state.query, "said": shown["said"], "trouble": bool(shown["trouble"]), "parts": out})


def more(request: Request) -> Response:
    """What follows from the garment: its pieces, the order of work and its papers."""
    state = read_state(request.query_params)
    shown = {"state": state, **_made_of(garment_for(state, request.app.state.store))}
    return JSONResponse({"parts": {name: fragment(f"_{name}.html", **shown) for name in ("pieces", "steps", "papers")}})


async def lay(request: Request) -> Response:
    """The cloth with the pieces lying on it, as quickly as it can be told."""
    state, trouble = await run_in_threadpool(_read, request)
    if trouble:
        laid, told = False, str(trouble)
    else:
        asked = text_of(await run_in_threadpool(tables_for, state, request.app.state.store))
        here = asyncio.get_running_loop()
        laid, told = await here.run_in_executor(request.app.state.quick, laid_quickly, asked, language())
    return JSONResponse({"laid": laid, "cloth": told if laid else fragment("_no_cloth.html", sentence=told)})


def step_picture(request: Request) -> Response:
    """The drawing of one step."""
    from ellwand.depict.step_view import step_drawing

    garment = garment_for(read_state(request.query_params), request.app.state.store)
    n = request.path_params["n"]
    step = next((step for step in garment.steps if step.n == n), None)
    drawing = None if step is None else step_drawing(step, garment.draft, garment.wearer.unit, garment.steps)
    if step is None or drawing is None:
        raise HTTPException(404)
    return Response(svg(drawing, 1.0, say.step(step, garment.draft, garment.wearer.unit)), media_type="image/svg+xml")


def _read(request: Request) -> tuple[State, BadInput | None]:
    """The state, and what is wrong with it where something is: then that of a first visit."""
    try:
        return read_state(request.query_params), None
    except BadInput as error:
        return state_in(""), error


def _shown(state: State, store: Store, trouble: BadInput | None) -> dict[str, Any]:
    """All that the templates need."""
    chosen = groups(state.pairs, state.unit)
    garment = None
    try:
        garment = garment_for(state, store) if trouble is None else None
    except BadInput as error:
        trouble = error
    told = _told(garment, state) if garment else ()
    wrong = None
    if trouble is not None:
        path = path_of(trouble.where)
        wrong = Trouble(path, _group_of(path, chosen), str(trouble))
    opened = state.open or (wrong.group if wrong else "") or chosen[0].name
    return {
        "state": state,
        "garment": garment,
        "groups": chosen,
        "open": opened if any(group.name == opened for group in chosen) else chosen[0].name,
        "trouble": wrong,
        "told": told,
        "faces": _faces(garment, opened, chosen, told) if garment else (),
        "people": every(store, Person),
        "shelf": every(store, KeptCloth),
        "demo": [(who, str(table["name"])) for who, table in demo_people().items()],
        "said": _said(told, wrong),
        **_kept(state, store),
    }


def _made_of(garment: Garment | None) -> dict[str, Any]:
    """Its pieces and steps."""
    return {"pieces": _pieces(garment) if garment else (), "steps": _steps(garment) if garment else ()}


def _kept(state: State, store: Store) -> dict[str, Any]:
    """The kept garment that this is a change of, and how many choices differ from it."""
    if not state.garment:
        return {"kept": None, "changes": 0}
    kept = get(store, KeptGarment, state.garment)
    now = kept_of(state, kept.name)
    changes = len(differing(kept.fields, now.fields)) + (now.person != kept.person)
    return {"kept": kept, "changes": changes or int(kept.fields != now.fields)}


def _group_of(path: str, chosen: Sequence[Group]) -> str:
    """The group that holds a control, or one that its path begins with."""
    for group in chosen:
        controls = [*group.controls, *(control for entry in group.entries for control in entry.controls)]
        if any(control.path == path for control in controls):
            return group.name
    steps = path.split(".")
    return next((group.name for group in chosen if group.name in steps), "")


def _told(garment: Garment, state: State) -> tuple[Told, ...]:
    """What the proof says, the gravest first."""
    order = ["will not work", "look again", "sound"]
    out = []
    number, tables = 0, state.tables
    for finding in sorted(garment.proof.findings, key=lambda each: order.index(each.outcome)):
        number += finding.outcome != "sound"
        zone = zone_of(garment.draft, finding)
        out.append(
            Told(
                number if finding.outcome != "sound" else 0,
                WEIGHTS[finding.outcome],
                GROUP_OF.get(zone, zone),
                say.why(finding, garment.wearer.unit),
                say.mend(finding, garment.wearer.unit),
                tuple((way.label, state.of(way.tables).query) for way in mends(finding, tables, garment)),
            )
        )
    return tuple(out)


def _faces(garment: Garment, opened: str, chosen: Sequence[Group], told: Sequence[Told]) -> tuple[tuple[str, str], ...]:
    """Both faces of the garment with their names."""
    names = {group.name: group.heading for group in chosen}
    names |= {zone: names[group] for zone, group in GROUP_OF.items() if group in names}
    marks = [Mark(each.group, each.number, each.weight) for each in told if each.number]  # type: ignore[arg-type]
    return tuple(
        (face_svg(garment.draft, face, name, opened, names, marks if face == "front" else []), name)
        for face, name in zip(FACES, face_names(garment.draft), strict=True)
    )


def _pieces(garment: Garment) -> list[dict[str, Any]]:
    """Each piece drawn with its sizes."""
    key, unit = numbers(garment.draft.pieces), garment.wearer.unit
    out = []
    for piece in garment.draft.pieces:
        name, how = named(piece.name), cut_how(garment.draft, piece)
        drawing = piece_drawing(piece, unit, number=key[piece.id], how=how, scale=PIECES_SCALE)
        out.append({"name": name, "how": how, "number": key[piece.id], "svg": plain_svg(drawing, PIECES_SCALE, name)})
    return out


def _steps(garment: Garment) -> list[tuple[int, str, str]]:
    """Number, sentence and facts of each step."""
    unit = garment.wearer.unit
    return [
        (step.n, say.step(step, garment.draft, unit), facts_line(step, garment.draft, unit)) for step in garment.steps
    ]


def _said(told: Sequence[Told], wrong: Trouble | None) -> str:
    """What a change came to, for who listens."""
    if wrong:
        return wrong.sentence
    failing = sum(each.weight == "fails" for each in told)
    looking = sum(each.weight == "look" for each in told)
    if not failing and not looking:
        return _("All is sound.")
    out = [plural("{n} will not work.", "{n} will not work.", failing)] if failing else []
    out += [plural("{n} to look at again.", "{n} to look at again.", looking)] if looking else []
    return " ".join(out)
