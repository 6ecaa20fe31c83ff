"""Two garments beside each other: how they look, and all that differs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

from ellwand.depict.shopping import shopping_rows
from ellwand.depict.tables import pieces_table
from ellwand.depict.words import why
from ellwand.keep import KeptGarment, Store, every, get
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.web.drawn import plain_face
from ellwand.web.kept import apart, differing, state_of
from ellwand.web.making import laid_for
from ellwand.web.rendering import page
from ellwand.web.state import State, read_state


@dataclass(frozen=True, slots=True)
class Side:
    """One of the two."""

    name: str
    state: State
    garment: Garment
    faces: tuple[str, str]


def compare(request: Request) -> Response:
    """The two in the address; where one is missing, what is on the bench stands for it."""
    store, asked = request.app.state.store, request.query_params
    one = _kept(asked["a"], store) if asked.get("a") else None
    other = _kept(asked["b"], store) if asked.get("b") else None
    if one is None or other is None:
        on_bench = _side(_("On the bench"), read_state(asked), store)
        one, other = one or on_bench, other or on_bench
    return page(
        request,
        "compare.html",
        sides=(one, other),
        choices=differing(dict(one.state.pairs), dict(other.state.pairs)),
        sizes=apart(_pieces(one.garment), _pieces(other.garment)),
        needs=apart(dict(shopping_rows(one.garment)), dict(shopping_rows(other.garment))),
        findings=[_open(side.garment) for side in (one, other)],
        kept=every(store, KeptGarment),
        chosen=(asked.get("a", ""), asked.get("b", "")),
    )


def _kept(id: str, store: Store) -> Side:
    kept = get(store, KeptGarment, id)
    return _side(kept.name, state_of(kept), store)


def _side(name: str, state: State, store: Store) -> Side:
    garment = laid_for(state, store)
    faces = (plain_face(garment.draft, name), plain_face(garment.draft, name, "back"))
    return Side(name, state, garment, faces)


def _pieces(garment: Garment) -> Mapping[str, str]:
    """Each piece's sizes in one line."""
    return {
        f"{name} {where}".strip(): f"{cut}: {width} × {length}"
        for _number, name, where, cut, _cloth, width, length in pieces_table(garment).rows
    }


def _open(garment: Garment) -> Sequence[str]:
    """What is not sound."""
    return [why(each, garment.wearer.unit) for each in garment.proof.findings if each.outcome != "sound"]
