"""The shelf: lengths of cloth that are there to be used."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from starlette.datastructures import QueryParams
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from ellwand.choose.form import Group, Pairs, groups, pairs_of, path_of, plain_path, tables_of
from ellwand.choose.form.described import options
from ellwand.choose.form.labels import word_said
from ellwand.errors import BadInput
from ellwand.keep import KeptCloth, Stale, every, get, save
from ellwand.language import _
from ellwand.units import Unit, states_unit
from ellwand.web.given import Given, posted, unit_of, whole
from ellwand.web.kept import differing
from ellwand.web.making import demo_people
from ellwand.web.pages.basket import thrown
from ellwand.web.pages.bench import Trouble
from ellwand.web.pages.stale import saved_in_between
from ellwand.web.rendering import page
from ellwand.web.state import read_state
from ellwand.web.work.at_once import sheet_of

MAIN = "cloth.main."
LONGEST = 120


def cloths(request: Request) -> Response:
    """The list."""
    store = request.app.state.store
    kept = [(each, _told(each)) for each in every(store, KeptCloth)]
    return page(request, "cloths.html", cloths=kept, gone=thrown(request, KeptCloth))


def new_cloth(request: Request) -> Response:
    """An empty form."""
    return _page(request, KeptCloth(name=""), (), unit_of(request.query_params.get("unit")))


def one_cloth(request: Request) -> Response:
    """A kept cloth, to be changed."""
    kept = get(request.app.state.store, KeptCloth, request.path_params["id"])
    return _page(request, kept, _pairs(kept), unit_of(request.query_params.get("unit")))


@posted
def save_cloth(request: Request, given: Given) -> Response:
    """Keeps it, new or as its next version; the form comes back where it cannot be read."""
    unit, id = unit_of(given.text("unit")), request.path_params.get("id", "")
    kept = KeptCloth(name=given.text("name").strip()[:LONGEST], id=id, version=whole(given.text("based")))
    filled = [(path, text) for path, text in given.pairs if path.startswith(MAIN)]
    try:
        table = _table(filled, unit)
        if not kept.name:
            raise BadInput(_("name"), _("there is none"), _("give one, to find it again"))
        sheet_of({"wearer": demo_people()["joan-netmaker"], "cloth": {"main": table}})
    except BadInput as error:
        return _page(request, kept, filled, unit, error, 422)
    kept = replace(kept, table=table)
    try:
        save(request.app.state.store, kept)
    except Stale as stale:
        assert isinstance(stale.newer, KeptCloth)
        own, other = dict(_pairs(kept)), dict(_pairs(stale.newer))
        hidden = [("name", kept.name), *own.items()]
        both = _("Keep both: save mine as another cloth")
        return saved_in_between(request, stale.newer, differing(other, own), hidden, "cloths", both)
    return RedirectResponse("/cloths", 303)


def use_cloth(request: Request) -> Response:
    """The bench with this cloth in place of the one that was chosen."""
    asked = request.query_params
    kept = get(request.app.state.store, KeptCloth, asked.get("shelf", ""))
    state = read_state(QueryParams([(key, text) for key, text in asked.multi_items() if text]))
    others = tuple((path, text) for path, text in state.pairs if not path.startswith(MAIN))
    return RedirectResponse(f"/?{replace(state, pairs=(*others, *_pairs(kept))).query}#z-cloth", 303)


def _pairs(kept: KeptCloth) -> Pairs:
    return pairs_of({"cloth": {"main": dict(kept.table)}})


def _table(filled: Sequence[tuple[str, str]], unit: Unit) -> dict[str, Any]:
    """The [cloth.main] table, every plain length with its unit, so that it is the same wherever it is used."""
    pairs = pairs_of(tables_of(filled), unit)
    stated = [(path, _with_unit(path, text, unit)) for path, text in pairs]
    table: dict[str, Any] = tables_of(stated).get("cloth", {}).get("main", {})
    return table


def _with_unit(path: str, text: str, unit: Unit) -> str:
    takes = options()[plain_path(path)].takes
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
    request: Request,
    kept: KeptCloth,
    pairs: Sequence[tuple[str, str]],
    unit: Unit,
    error: BadInput | None = None,
    status: int = 200,
) -> Response:
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
