"""The sewn shell laid against the wearer: what can be measured on it, from the pieces' own geometry."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from ellwand.errors import InternalFault
from ellwand.geometry.lines import Line, Point, length
from ellwand.model.choices import girth_over
from ellwand.model.draft import Draft, EdgeRef
from ellwand.model.piece import Edge, EdgeKind, Level, Piece
from ellwand.model.shell import Shell
from ellwand.model.wearer import HANDS, Hand, Wearer
from ellwand.prove.shell import shell_of

MEETS = 0.1
"""An opening that ends so near to a split or the hem (cm) is one with it."""
AT_THE_HEM = 0.2
"""Nearer to the hem than this (cm) a level is the hem itself: its arc is drawn in straight bits."""


@dataclass(frozen=True, slots=True)
class Sewn:
    """A draft, whom it is for, its shell, and every edge by where it is."""

    draft: Draft
    wearer: Wearer
    shell: Shell
    pieces: Mapping[str, Piece]
    """By the part's id."""
    edges: Mapping[EdgeRef, Edge]


def sewn_up(draft: Draft, wearer: Wearer) -> Sewn:
    """Sew the draft together.

    Raises InternalFault when a seam names an edge that no part has.
    """
    by_id = {piece.id: piece for piece in draft.pieces}
    pieces = {part.id: by_id[part.piece] for part in draft.parts}
    edges = {EdgeRef(part, edge.id): edge for part, piece in pieces.items() for edge in piece.edges}
    for seam in draft.seams:
        for ref in (seam.a, seam.b):
            if ref not in edges:
                raise InternalFault(f"{seam.id} joins {ref.edge} of {ref.part}, which has no such edge")
    return Sewn(draft, wearer, shell_of(draft), MappingProxyType(pieces), MappingProxyType(edges))


def hem_height(sewn: Sewn) -> float:
    """Height of the hem above the floor (cm); below 0 it trails."""
    return sewn.wearer["nape_to_floor"] - sewn.draft.dimensions.length + sewn.draft.choices.blouse


def girth_beneath(sewn: Sewn) -> float:
    """Girth (cm) that what is worn beneath adds to the body."""
    return girth_over(sewn.draft.choices.beneath_mm)


def body_top(sewn: Sewn) -> float:
    """The highest level (cm above the hem) at which the body is still one closed tube: just under the armhole."""
    size = sewn.draft.dimensions
    return size.length - size.shoulder_slope - size.armhole - 0.05


def hem_sweep(sewn: Sewn) -> float:
    """Length of the hem all round (cm), from the edges."""
    return math.fsum(length(edge.points) for _, edge in edges_of(sewn, "hem"))


def girth_at(sewn: Sewn, level: float) -> float:
    """Girth of the sewn body ``level`` cm above the hem: the widths of all its parts there."""
    if level < AT_THE_HEM:
        if all(gore.hem == "arc" for gore in sewn.draft.choices.gores):
            return hem_sweep(sewn)
        # what hangs below the hem of a gore that is cut straight is trimmed away
        level = AT_THE_HEM
    count = Counter(part.piece for part in sewn.draft.parts)
    return math.fsum(count[piece.id] * _width(piece, level) for piece in sewn.draft.pieces if piece.place == "body")


def rounding(sewn: Sewn) -> float:
    """What rounding to the chalk grid may already have given the body girth (cm): a mark at each of two halves."""
    return 2 * sewn.draft.dimensions.grid


def edges_of(sewn: Sewn, kind: EdgeKind) -> Iterator[tuple[EdgeRef, Edge]]:
    """Every edge of that kind, part by part."""
    return ((ref, edge) for ref, edge in sewn.edges.items() if edge.kind == kind)


def level_of(piece: Piece, point: Point) -> float:
    """How high above the hem (cm) a point of a body piece hangs; of two halves in one, the half it lies in."""
    return min(_height(level, point) for level in piece.levels)


def sleeves_of(sewn: Sewn) -> dict[Hand, tuple[Piece, ...]]:
    """The wearer's sleeves, each in its pieces from armhole to cuff, elbow gores left out; none without."""
    out = {}
    for hand in HANDS:
        names = [f"sleeve-{hand}", f"sleeve-{hand}-front", f"sleeve-{hand}-back"]
        if pieces := tuple(sewn.pieces[name] for name in names if name in sewn.pieces):
            out[hand] = pieces
    return out


def sleeve_levels(sleeve: tuple[Piece, ...]) -> tuple[float, float]:
    """(underarm, cuff): how far below the top of the arm (cm) the sleeve becomes a whole tube, and ends being one."""
    return max(from_top(sleeve, "armhole"), default=0.0), min(from_top(sleeve, "cuff"), default=0.0)


def sleeve_girth(sleeve: tuple[Piece, ...], down: float) -> float:
    """Girth (cm) of a sleeve ``down`` cm below the top of the arm: its pieces side by side."""
    # a hair inside the piece, so that its straight cuff counts as cloth
    return math.fsum(widths(piece, max(y for _, y in piece.sewn) - down + 1e-9) for piece in sleeve)


def elbow_gore_at(gore: Piece, above: float) -> float:
    """What an elbow gore adds to the sleeve's girth (cm) ``above`` the cuff: it narrows evenly to its point."""
    base = math.fsum(length(edge.points) for edge in gore.edges if edge.kind == "cuff")
    high = max(y for _, y in gore.sewn) - min(y for _, y in gore.sewn)
    return base * max(0.0, 1 - above / high)


def depths(piece: Piece) -> set[float]:
    """How far below its highest point (cm) each corner of a piece lies."""
    top = max(y for _, y in piece.sewn)
    return {top - y for _, y in piece.sewn}


def from_top(sleeve: tuple[Piece, ...], kind: EdgeKind) -> list[float]:
    """How far below the highest point of its piece each point of these edges lies (cm)."""
    tops = [(piece, max(y for _, y in piece.sewn)) for piece in sleeve]
    return [top - y for piece, top in tops for edge in piece.edges if edge.kind == kind for _, y in edge.points]


def splits_of(sewn: Sewn) -> dict[str, float]:
    """The top (cm above the hem) of every split that was asked for, by place, from the edges left open."""
    out: dict[str, float] = {}
    for split in sewn.draft.choices.splits:
        tops = [
            level_of(sewn.pieces[ref.part], point)
            for ref, edge in edges_of(sewn, "split")
            if split.place in f"{ref.part} {ref.edge}"
            for point in edge.points
        ]
        if tops:
            out[split.place] = max(tops)
    return out


def opened_down(sewn: Sewn) -> dict[str, float]:
    """How high above the hem (cm) the front or back ends that a closure opens from the neck down, by face."""
    out: dict[str, float] = {}
    for face in ("front", "back"):
        if any(closure.at == f"centre-{face}" for closure in sewn.draft.choices.closures):
            ends = [
                level_of(sewn.pieces[ref.part], point)
                for ref, edge in edges_of(sewn, "opening")
                if edge.id.startswith(f"centre-{face}")
                for point in edge.points
            ]
            # open to the hem it is one long split
            out[face] = min(ends, default=0.0)
    return out


def opens_through(sewn: Sewn) -> str:
    """'front' or 'back' where neck and hem are one opening there, else ''."""
    if not any({"neck", "hem"} <= set(rim.opens_to) for rim in sewn.shell.rims):
        return ""
    splits = splits_of(sewn)
    low = opened_down(sewn)
    return next((face for face in low if low[face] <= splits.get(f"centre-{face}", 0.0) + MEETS), "front")


def widths(piece: Piece, y: float) -> float:
    """Width (cm) of a piece along the horizontal line at ``y``."""
    return math.fsum(_pairs(_line_crossings(_rings(piece), y)))


# --- inside ---------------------------------------------------------------------------------------------


def _rings(piece: Piece) -> tuple[Line, ...]:
    return (piece.sewn, *piece.sewn_holes)


def _height(level: Level, point: Point) -> float:
    if level.centre is None:
        return (point[1] - level.base_y) * level.up
    return level.radius - math.dist(level.centre, point)


def _width(piece: Piece, height: float) -> float:
    total = 0.0
    for level in piece.levels:
        if level.centre is None:
            total += widths(piece, level.base_y + height * level.up)
        elif level.radius > height:
            radius = level.radius - height
            total += radius * math.fsum(_pairs(_arc_crossings(_rings(piece), level.centre, radius)))
    return total


def _pairs(crossings: list[float]) -> Iterator[float]:
    """Along a line that starts outside the cloth: from every way in to the next way out."""
    ordered = sorted(crossings)
    return (out - into for into, out in zip(ordered[::2], ordered[1::2], strict=True))


def _line_crossings(rings: tuple[Line, ...], y: float) -> list[float]:
    return [
        ax + (bx - ax) * (y - ay) / (by - ay)
        for ring in rings
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True)
        if (ay <= y) != (by <= y)
    ]


def _arc_crossings(rings: tuple[Line, ...], centre: Point, radius: float) -> list[float]:
    """Angles (radians, from straight up) at which a circle enters or leaves; the piece lies below its centre."""
    out = []
    for ring in rings:
        far = [math.dist(point, centre) >= radius for point in ring]
        for i, b in enumerate(ring):
            if far[i] != far[i - 1]:
                x, y = _on_circle(ring[i - 1], b, centre, radius)
                out.append(math.atan2(-(x - centre[0]), y - centre[1]) % (2 * math.pi))
    return out


def _on_circle(a: Point, b: Point, centre: Point, radius: float) -> Point:
    """Where the stretch from a to b, one end in and one out, meets the circle."""
    ax, ay = a[0] - centre[0], a[1] - centre[1]
    dx, dy = b[0] - a[0], b[1] - a[1]
    square, middle, rest = dx * dx + dy * dy, ax * dx + ay * dy, ax * ax + ay * ay - radius * radius
    root = math.sqrt(max(0.0, middle * middle - square * rest))
    t = (-middle + root) / square if rest < 0 else (-middle - root) / square
    return (a[0] + dx * t, a[1] + dy * t)
