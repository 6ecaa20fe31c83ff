"""Where gores and splits are set into the sewn body, read off the draft for its picture."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import Literal

from ellwand.model.draft import Draft, whole_part
from ellwand.model.piece import Edge, Piece

Face = Literal["front", "back"]


@dataclass(frozen=True, slots=True)
class SetIn:
    """A line up the body where something may be set in: x of it, top of the gores, of the split, their width."""

    name: str
    x: float
    gores: float
    split: float
    base: float
    count: int


def set_in(draft: Draft, face: Face) -> list[SetIn]:
    """Every line with gores or a split on this face, from the right half (x ≥ 0) of the picture."""
    size, choices = draft.dimensions, draft.choices
    half = size.panel_width / 2
    xs = {
        f"centre-{face}": 0.0,
        f"panel-{face}": half / 2,
        f"side-{face}": half,
        "side": half + size.side_panel / 2,
    }
    out = []
    for name, x in xs.items():
        gores = [p for p in draft.parts if _gore_at(p.id, name)]
        splits = [s for s in choices.splits if s.place == name]
        if not gores and not splits:
            continue
        # a pieced gore's tip has no hem, its corner has some
        each = [_gore_numbers(piece) for p in gores if _hems(piece := _piece(draft, p.piece))]
        sides = 1 if name.startswith("centre") else 2
        start = max((n[0] for n in each), default=0.0)
        base = sum(n[1] for n in each) / sides
        split = _split_height(draft, name) if splits else 0.0
        out.append(SetIn(name, x, start, split, base, max(1, len({whole_part(p.id) for p in gores}) // sides)))
    return out


def _gore_at(part: str, place: str) -> bool:
    words = whole_part(part).removeprefix("gore-")
    if not part.startswith("gore-"):
        return False
    rest = words.removeprefix(place)
    return rest != words and (not rest or rest.split("-")[1] in ("left", "right") or rest.split("-")[1].isdigit())


def _hems(piece: Piece) -> list[Edge]:
    return [edge for edge in piece.edges if edge.kind == "hem"]


def _piece(draft: Draft, name: str) -> Piece:
    return next(piece for piece in draft.pieces if piece.id == name)


def _gore_numbers(piece: Piece) -> tuple[float, float]:
    """(side, width along the hem) of a gore or half gore."""
    level = piece.levels[0]
    hem = next(edge for edge in _hems(piece) if "corner" not in edge.id)
    return level.radius, math.fsum(math.dist(a, b) for a, b in itertools.pairwise(hem.points))


def _split_height(draft: Draft, place: str) -> float:
    """How high a split reaches, read off the lips left open."""
    lips = [
        (piece, edge)
        for piece in draft.pieces
        for edge in piece.edges
        if edge.kind == "split" and (place in edge.id or "gore" in piece.name) and _hems(piece)
    ]
    return max((_above_hem(piece, edge) for piece, edge in lips), default=0.0)


def _above_hem(piece: Piece, edge: Edge) -> float:
    return max(
        min(math.dist(point, end) for hem in _hems(piece) for end in (hem.points[0], hem.points[-1]))
        for point in (edge.points[0], edge.points[-1])
    )


def fan(place: SetIn) -> float:
    """How far (radians) a place turns the cloth on its outer side: half of what it adds lies each way."""
    if not place.gores:
        return 0.0
    return (place.base if place.name.startswith(("panel", "side-")) else place.base / 2) / place.gores


def inner_turn(places: list[SetIn]) -> float:
    """How far (radians) everything set in inside the side turns the side."""
    return sum(fan(place) for place in places if place.name != "side")
