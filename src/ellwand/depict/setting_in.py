"""Where gores and splits are set into the sewn body, read off the draft for its picture."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import Literal

from ellwand.draft.back import dip_at
from ellwand.model.draft import Draft, whole_part
from ellwand.model.piece import Edge, Piece

Face = Literal["front", "back"]


@dataclass(frozen=True, slots=True)
class SetIn:
    """A line up the body where something may be set in (cm, heights above the hem as it lies at the sides).

    ``x`` of it; ``gores``: the height of the point its gores fan out from, 0 without; ``blunt``: how far below that
    point their cloth begins; ``radius``: from the point to their hem; ``split``: how high the split reaches; ``low``:
    how far the hem hangs lower there; ``base``: their width along the hem, and how many they are; ``straight``: not
    cut along an arc below.
    """

    name: str
    x: float
    gores: float
    split: float
    base: float
    count: int
    radius: float = 0.0
    blunt: float = 0.0
    low: float = 0.0
    straight: bool = False


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
        gores = [p for p in draft.parts if gore_at(p.id, name)]
        splits = [s for s in choices.splits if s.place == name]
        if not gores and not splits:
            continue
        # a pieced gore's tip has no hem, its corner has some
        each = [_gore_numbers(piece) for p in gores if _hems(piece := _piece(draft, p.piece))]
        sides = 1 if name.startswith("centre") else 2
        high = max((n[0] for n in each), default=0.0)
        radius = max((n[2] for n in each), default=0.0)
        base = sum(n[1] for n in each) / sides
        low = hem_drop(draft, face, x)
        split = max(0.0, _split_height(draft, name) - low) if splits else 0.0
        blunt = min((_blunt(_piece(draft, p.piece)) for p in gores), default=0.0)
        count = max(1, len({whole_part(p.id) for p in gores}) // sides)
        straight = any(gore.place == name and gore.hem == "straight" for gore in choices.gores)
        out.append(SetIn(name, x, high, split, base, count, radius, blunt, low, straight))
    return out


def hem_drop(draft: Draft, face: Face, x: float) -> float:
    """How far (cm) the hem of a face lies below the front's at the sides, ``x`` from the centre line."""
    size = draft.dimensions
    half = size.panel_width / 2
    return dip_at(size.back_dip, half, abs(x)) if face == "back" and size.back_dip and abs(x) < half else 0.0


def _blunt(piece: Piece) -> float:
    """How far below the point that a gore fans out from its blunt upper end lies (cm); 0 with a point."""
    tops = [edge for edge in piece.edges if edge.id.endswith("-top")]
    centre = piece.levels[0].centre if piece.levels else None
    return centre[1] - tops[0].points[0][1] if tops and centre else 0.0


def gore_at(part: str, place: str) -> bool:
    """Whether a part is a gore of that place, or pieced off one."""
    words = whole_part(part).removeprefix("gore-")
    if not part.startswith("gore-"):
        return False
    rest = words.removeprefix(place)
    return rest != words and (not rest or rest.split("-")[1] in ("left", "right") or rest.split("-")[1].isdigit())


def _hems(piece: Piece) -> list[Edge]:
    return [edge for edge in piece.edges if edge.kind == "hem"]


def _piece(draft: Draft, name: str) -> Piece:
    return next(piece for piece in draft.pieces if piece.id == name)


def _gore_numbers(piece: Piece) -> tuple[float, float, float]:
    """(height of its point above the hem at the sides, width along its own hem, from its point to that) of a gore."""
    level = piece.levels[0]
    hem = next(edge for edge in _hems(piece) if "corner" not in edge.id)
    wide = math.fsum(math.dist(a, b) for a, b in itertools.pairwise(hem.points))
    far = max(math.dist(level.centre, point) for point in hem.points) if level.centre else level.radius
    return level.radius, wide, far


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
    return (place.base if place.name.startswith(("panel", "side-")) else place.base / 2) / place.radius


def inner_turn(places: list[SetIn]) -> float:
    """How far (radians) everything set in inside the side turns the side."""
    return sum(fan(place) for place in places if place.name != "side")
