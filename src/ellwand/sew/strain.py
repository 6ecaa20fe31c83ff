"""Where strain is: gore points, ends of slits, splits and openings, gusset corners, armpits; and what holds them.

A bar across the point, or where an armpit has no gusset a few back stitches one on the other: common practice, no
source.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from ellwand.geometry.lines import Point
from ellwand.model.draft import EdgeRef
from ellwand.model.piece import Edge, EdgeKind
from ellwand.model.step import Reinforcement
from ellwand.model.surface import MEET
from ellwand.sew.bench import Bench

BAR: Final = "bar"
STITCHES: Final = "back stitches"
STRAIGHT: Final = 0.02
"""Two edges that turn by less than this (radians) where they meet make no corner: our own figure, one degree."""
_END_OF: Final[Mapping[EdgeKind, frozenset[EdgeKind]]] = {
    "split": frozenset({"hem", "neck", "opening"}),
    "neck slit": frozenset({"neck"}),
    "opening": frozenset({"neck", "cuff", "split"}),
    "shoulder opening": frozenset({"neck"}),
}
"""Edges left open, and the edges beside which they do not end in strain."""
_GORES: Final = frozenset({"gore to panel", "gore to gore", "sleeve gore", "square gore", "shoulder gore"})
_GUSSETS: Final = frozenset({"gusset", "gusset seam", "crotch gusset"})

Corner = tuple[str, int, int]
Ends = Mapping[Corner, list[tuple[str, str]]]
"""Corner -> the seams that end there, by name and kind."""


@dataclass(frozen=True, slots=True)
class _Spot:
    """A corner under strain: of a seam it is held when the last of these ``kinds`` is sewn there, else with ``ref``."""

    corner: Corner
    found: Reinforcement
    kinds: frozenset[str] = frozenset()
    ref: EdgeRef | None = None


def strained(
    bench: Bench, seam_at: Mapping[str, int], edge_at: Mapping[EdgeRef, int]
) -> dict[int, list[Reinforcement]]:
    """Step's number -> the points that are held in it; ``seam_at``, ``edge_at``: the number that each is worked in."""
    root, sewn_there = _corners(bench)
    last: dict[Corner, tuple[int, Reinforcement]] = {}
    for spot in _spots(bench):
        at = root(spot.corner)
        steps = [seam_at[name] for name, kind in sewn_there[at] if kind in spot.kinds]
        number = edge_at[spot.ref] if spot.ref else max(steps, default=0)
        if number > last.get(at, (0, None))[0]:
            last[at] = (number, spot.found)
    out: dict[int, list[Reinforcement]] = defaultdict(list)
    for number, found in last.values():
        out[number].append(found)
    return out


def _corner(part: str, point: Point) -> Corner:
    """A corner's name, to a hundredth of a millimetre."""
    return part, round(point[0] * 1000), round(point[1] * 1000)


def _corners(bench: Bench) -> tuple[Callable[[Corner], Corner], Ends]:
    """Which corners are one in the sewn garment, and the seams that end in each."""
    up: dict[Corner, Corner] = {}

    def root(corner: Corner) -> Corner:
        while (above := up.get(corner, corner)) != corner:
            corner = above
        return corner

    mirrored = {part.id: part.mirrored for part in bench.draft.parts}
    ends: dict[EdgeRef, tuple[Corner, Corner]] = {}
    for seam in bench.draft.seams:
        for ref in (seam.a, seam.b):
            points = bench.edges[ref].points
            ends[ref] = (_corner(ref.part, points[0]), _corner(ref.part, points[-1]))
        one, other = ends[seam.a], ends[seam.b]
        if mirrored[seam.a.part] == mirrored[seam.b.part]:
            other = (other[1], other[0])
        for a, b in zip(one, other, strict=True):
            a, b = root(a), root(b)
            if a != b:
                up[a] = b
    there: dict[Corner, list[tuple[str, str]]] = defaultdict(list)
    for seam in bench.draft.seams:
        for corner in {root(corner) for corner in ends[seam.a]}:
            there[corner].append((seam.id, seam.kind))
    return root, there


def _spots(bench: Bench) -> Iterator[_Spot]:
    armpits = bench.is_tunic and not bench.draft.dimensions.gusset
    for part, piece in bench.pieces.items():
        is_gore = part.startswith("gore") or "gore" in part.split("-")
        is_gusset = part.startswith("gusset")
        for edge, after in _neighbours(piece.edges):
            kinds = {edge.kind, after.kind}
            point = edge.points[-1]
            corner = _corner(part, point)
            if is_gore and len(kinds) == 1 and kinds <= {"gore seam", "underarm seam"} and _turns(edge, after):
                yield _Spot(corner, Reinforcement(part, point, BAR), _GORES)
            elif is_gusset and kinds <= {"gusset", "gusset seam"} and _turns(edge, after):
                yield _Spot(corner, Reinforcement(part, point, BAR), _GUSSETS)
            elif (ends := _ending(edge, after)) is not None:
                yield _Spot(corner, Reinforcement(part, point, BAR), ref=EdgeRef(part, ends.id))
            elif armpits and "armhole" in kinds and kinds & {"underarm seam", "side seam"}:
                held = frozenset({"armhole", "underarm seam", "side seam"})
                yield _Spot(corner, Reinforcement(part, point, STITCHES), held)


def _neighbours(edges: tuple[Edge, ...]) -> Iterator[tuple[Edge, Edge]]:
    """Each edge and the one that goes on where it ends, ring by ring."""
    ring: list[Edge] = []
    for edge in edges:
        ring.append(edge)
        if math.dist(edge.points[-1], ring[0].points[0]) < MEET:
            yield from zip(ring, (*ring[1:], ring[0]), strict=True)
            ring = []


def _turns(edge: Edge, after: Edge) -> bool:
    (ax, ay), (bx, by), (cx, cy) = edge.points[-2], edge.points[-1], after.points[1]
    ux, uy, vx, vy = bx - ax, by - ay, cx - bx, cy - by
    return abs(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)) > STRAIGHT


def _ending(edge: Edge, after: Edge) -> Edge | None:
    """The open edge that ends here in strain, of two that meet: against a seam, or in the point of a slit."""
    for one, other in ((edge, after), (after, edge)):
        if one.id.startswith("slit") and other.kind == "centre seam":
            return one
        beside = _END_OF.get(one.kind)
        if beside is None:
            continue
        if other.kind == one.kind:
            return one if _turns(edge, after) else None
        if other.kind not in beside:
            return one
    return None
