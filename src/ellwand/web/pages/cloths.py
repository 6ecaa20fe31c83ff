"""The shelf: lengths of cloth that are there to be used."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from starlette.datastructures import QueryParams
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.choose import read_tables
from ellwand.choose.form import Group, groups, pairs_of, tables_of
from ellwand.choose.form.described import options
from ellwand.choose.form.labels import word_said
from ellwand.choose.form.where import path_of
from ellwand.errors import BadInput
from ellwand.keep import KeptCloth, Stale, every, get, save, take_out, throw_away
from ellwand.language import _
from ellwand.units import Unit, states_unit
from ellwand.web.kept import differing
from ellwand.web.making import demo_people, no_sheets
from ellwand.web.pages.bench import Trouble
from ellwand.web.rendering import page
from ellwand.web.state import OWN, read_state

MAIN = "cloth.main."
LONGEST = 120


def cloths(request: Request) -> Response:
    """The list."""
    store = request.app.state.store
    thrown = request.query_params.get("thrown", "")
    gone = get(store, KeptCloth, thrown) if thrown else None
    kept = [(each, _told(each)) for each in every(store, KeptCloth)]
    return page(request, "cloths.html", cloths=kept, gone=gone)


def new_cloth(request: Request) -> Response:
    """An empty form."""
    return _page(request, KeptCloth(name=""), (), None)


def one_cloth(request: Request) -> Response:
    """A kept cloth, to be changed."""
    kept = get(request.app.state.store, KeptCloth, request.path_params["id"])
    return _page(request, kept, _pairs(kept), None)


async def save_cloth(request: Request) -> Response:
    """Keeps it, new or as its next version; the form comes back where it cannot be read."""
    async with request.form() as form:
        given = [(key, str(value)) for key, value in form.multi_items()]
    about = dict(given)
    unit: Unit = "in" if about.get("unit") == "in" else "cm"
    based = about.get("based", "")
    id = request.path_params.get("id", "")
    kept = KeptCloth(
        name=about.get("name", "").strip()[:LONGEST],
        id=id,
        version=int(based) if based.isdecimal() and len(based) < 9 else 0,
    )
    filled = [(path, text) for path, text in given if path.startswith(MAIN)]
    try:
        table = _table(filled, unit)
        if not kept.name:
            raise BadInput(_("name"), _("there is none"), _("give one, to find it again"))
        read_tables({"wearer": dict(demo_people()["joan-netmaker"]), "cloth": {"main": table}}, no_sheets)
    except BadInput as error:
        return _page(request, kept, filled, error, 422)
    kept = replace(kept, table=table)
    try:
        save(request.app.state.store, kept)
    except Stale as stale:
        return _stale(request, kept, stale.newer)
    return RedirectResponse("/cloths", 303)


def throw_cloth(request: Request) -> Response:
    """Into the waste basket."""
    id = request.path_params["id"]
    throw_away(request.app.state.store, KeptCloth, id)
    return RedirectResponse(f"/cloths?thrown={id}", 303)


def take_cloth_out(request: Request) -> Response:
    """Out of the waste basket again."""
    take_out(request.app.state.store, KeptCloth, request.path_params["id"])
    return RedirectResponse("/cloths", 303)


def use_cloth(request: Request) -> Response:
    """The bench with this cloth in place of the one that was chosen."""
    asked = request.query_params
    kept = get(request.app.state.store, KeptCloth, asked.get("shelf", ""))
    own = [(key, text) for key, text in asked.multi_items() if key in OWN and text]
    state = read_state(QueryParams([*own, *((k, v) for k, v in asked.multi_items() if k not in OWN and v)]))
    others = tuple((path, text) for path, text in state.pairs if not path.startswith(MAIN))
    return RedirectResponse(f"/?{replace(state, pairs=(*others, *_pairs(kept))).query}#z-cloth", 303)


def _pairs(kept: KeptCloth) -> tuple[tuple[str, str], ...]:
    return pairs_of({"cloth": {"main": dict(kept.table)}})


def _table(filled: Sequence[tuple[str, str]], unit: Unit) -> dict[str, Any]:
    """The [cloth.main] table, every plain length with its unit, so that it is the same wherever it is used."""
    pairs = pairs_of(tables_of(filled), unit)
    stated = [(path, _with_unit(path, text, unit)) for path, text in pairs]
    table: dict[str, Any] = tables_of(stated).get("cloth", {}).get("main", {})
    return table


def _with_unit(path: str, text: str, unit: Unit) -> str:
    plain = ".".join(step for step in path.removesuffix(".most").split(".") if not step.isdecimal())
    takes = options()[plain].takes
    bare = takes.kind == "length" and text not in takes.words and not states_unit(text)
    return f"{text} {unit}" if bare else text


def _told(kept: KeptCloth) -> str:
    """Width, length and colour in one line."""
    table: Mapping[str, Any] = kept.table
    wide, long = table.get("width", ""), table.get("length")
    out = [_("{width} wide", width=wide)] if wide else []
    out += [_("{length} long", length=long)] if long else []
    out += [word_said("cloth.main.tincture", str(table["tincture"]))] if table.get("tincture") else []
    return ", ".join(out)


def _page(
    request: Request, kept: KeptCloth, pairs: Sequence[tuple[str, str]], error: BadInput | None, status: int = 200
) -> Response:
    unit: Unit = "in" if request.query_params.get("unit") == "in" else "cm"
    try:
        group = _of_main(groups(tuple(pairs), unit))
    except BadInput:
        group = _of_main(groups((), unit))
    trouble = None if error is None else Trouble(path_of(error.where), "cloth", str(error))
    return page(request, "cloth.html", status, cloth=kept, group=group, trouble=trouble, unit=unit)


def _of_main(found: Sequence[Group]) -> Group:
    """What is chosen of one cloth; left-overs are chosen on the bench."""
    group = next(each for each in found if each.name == "cloth")
    entries = tuple(each for each in group.entries if not each.path.startswith("cloth.remnants"))
    return replace(group, entries=entries, adds=())


def _stale(request: Request, mine: KeptCloth, newer: Any) -> Response:
    own, other = dict(_pairs(mine)), dict(_pairs(newer))
    hidden = [("name", mine.name), *own.items()]
    return page(
        request,
        "stale.html",
        409,
        name=newer.name,
        differ=differing(other, own),
        hidden=hidden,
        theirs=f"/cloths/{mine.id}",
        ways=[
            (f"/cloths/{mine.id}", [("based", str(newer.version))], _("Keep mine; the other stays in the history")),
            ("/cloths", [], _("Keep both: save mine as another cloth")),
        ],
    )
