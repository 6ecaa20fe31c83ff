"""The openings of a drafted garment that are closed again: their two edges, walked from where each begins."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from ellwand.geometry.lines import Line, backwards
from ellwand.model.choices import ClosurePlace
from ellwand.model.draft import Draft, EdgeRef, piece_of
from ellwand.model.piece import Edge, EdgeKind, Piece
from ellwand.model.wearer import HANDS

BEGINS: Final[dict[ClosurePlace, tuple[str, frozenset[EdgeKind]]]] = {
    "neck slit": ("neck", frozenset({"neck"})),
    "centre-front": ("neck", frozenset({"neck"})),
    "centre-back": ("neck", frozenset({"neck"})),
    "shoulder": ("neck", frozenset({"neck"})),
    "cuffs": ("cuff", frozenset({"cuff"})),
    "side": ("armpit", frozenset({"armhole", "gusset"})),
}
"""Place -> where its opening begins, and the edges it begins beside."""
CENTRES: Final = ("centre-front", "centre-back")
SAME: Final = 1e-4


@dataclass(frozen=True, slots=True)
class Lip:
    """One edge of an opening; ``points`` run from where it begins, ``inward`` is the cloth's side: 1 left, −1 right."""

    ref: EdgeRef
    points: Line
    inward: int


@dataclass(frozen=True, slots=True)
class Opening:
    """Two lips that are brought together; ``edges`` says what each is called."""

    at: ClosurePlace
    start: str
    edges: tuple[str, str]
    one: Lip
    other: Lip


def openings_at(draft: Draft, at: ClosurePlace) -> list[Opening]:
    """Every opening of that place; none where the garment needs none, as a cuff that passes the hand."""
    found = list(_lips(draft, at))
    if at in ("neck slit", *CENTRES):
        ordered = sorted(found, key=lambda lip: _leftness(draft, lip), reverse=True)
        return [_opening(at, ("left", "right"), ordered)] if len(ordered) == 2 else []
    pairs = [[lip for lip in found if hand in _words(lip.ref)] for hand in HANDS] if at != "side" else [found]
    faced = [sorted(pair, key=lambda lip: "front" not in _words(lip.ref)) for pair in pairs if len(pair) == 2]
    return [_opening(at, ("front", "back"), pair) for pair in faced]


def _opening(at: ClosurePlace, edges: tuple[str, str], lips: list[Lip]) -> Opening:
    return Opening(at, BEGINS[at][0], edges, lips[0], lips[1])


def _words(ref: EdgeRef) -> list[str]:
    return f"{ref.part}-{ref.edge}".split("-")


def _lips(draft: Draft, at: ClosurePlace) -> Iterator[Lip]:
    found = [
        (part.id, piece, edge)
        for part in draft.parts
        for piece in [piece_of(draft, part.id)]
        for edge in piece.edges
        if _is_at(part.id, edge, at)
    ]
    # a centre that does not open down to the hem may be split below
    above = [each for each in found if each[2].kind == "opening"]
    for name, piece, edge in above or found:
        yield _lip(name, piece, edge, at)


def _is_at(part: str, edge: Edge, at: ClosurePlace) -> bool:
    sleeve = part.startswith("sleeve")
    if at in CENTRES:
        return edge.kind in ("opening", "split") and edge.id.startswith(at) and not part.startswith("gore")
    return {
        "neck slit": edge.kind == "neck slit",
        "shoulder": edge.kind == "shoulder opening",
        "cuffs": edge.kind == "opening" and sleeve,
        "side": edge.kind == "opening" and not sleeve and not edge.id.startswith(CENTRES),
    }[at]


def _lip(part: str, piece: Piece, edge: Edge, at: ClosurePlace) -> Lip:
    """The edge from the end that lies beside where its opening begins; a piece's cloth lies on the left hand."""
    beside = [
        point for other in piece.edges if other.kind in BEGINS[at][1] for point in (other.points[0], other.points[-1])
    ]
    forward = any(math.dist(edge.points[0], point) < SAME for point in beside)
    return Lip(EdgeRef(part, edge.id), edge.points if forward else backwards(edge.points), 1 if forward else -1)


def _leftness(draft: Draft, lip: Lip) -> float:
    """How far toward the wearer's left a lip begins, of two: seen from outside a front's left is at the right."""
    part = next(part for part in draft.parts if part.id == lip.ref.part)
    words = part.id.split("-")
    x = lip.points[0][0]
    if "left" in words or "right" in words:
        # a half is drawn as the wearer's left; its own two lips follow x
        return (1e6 if "left" in words else -1e6) + (-x if part.mirrored else x)
    return -x if words == ["back"] else x
