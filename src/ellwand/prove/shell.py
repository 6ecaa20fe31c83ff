"""The sewn shell as a surface: vertices, edges, faces, rims, and whether it has two sides.

Euler characteristic V − E + F of a sphere with n holes is 2 − n (any text on the topology of surfaces).
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Hashable, Iterable
from typing import Final

from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, EdgeRef
from ellwand.model.piece import Edge, Piece
from ellwand.model.shell import Rim, Shell


class Groups:
    """Things that are found to be one (disjoint sets)."""

    def __init__(self) -> None:
        self._up: dict[Hashable, Hashable] = {}

    def find(self, thing: Hashable) -> Hashable:
        """The group's chosen member."""
        root = thing
        while (above := self._up.setdefault(root, root)) != root:
            root = above
        while self._up[thing] != root:
            self._up[thing], thing = root, self._up[thing]
        return root

    def join(self, one: Hashable, other: Hashable) -> None:
        """From now on these are one."""
        self._up[self.find(one)] = self.find(other)

    def count(self, things: Iterable[Hashable]) -> int:
        """How many groups the things fall into."""
        return len({self.find(thing) for thing in things})


def shell_of(draft: Draft) -> Shell:
    """Sew the draft together and count."""
    pieces = {piece.id: piece for piece in draft.pieces}
    mirrored = {part.id: part.mirrored for part in draft.parts}
    edges: dict[EdgeRef, Edge] = {}
    faces = 0
    for part in draft.parts:
        piece = pieces[part.piece]
        faces += 1 - len(piece.sewn_holes)
        for edge in piece.edges:
            edges[EdgeRef(part.id, edge.id)] = edge
    corners_of = {piece.id: _corners(piece) for piece in draft.pieces}
    ends = {
        EdgeRef(part.id, edge_id): ((part.id, start), (part.id, end))
        for part in draft.parts
        for edge_id, (start, end) in corners_of[part.piece].items()
    }
    corners, whole = Groups(), Groups()
    sewn: set[EdgeRef] = set()
    for seam in draft.seams:
        sewn |= {seam.a, seam.b}
        whole.join(seam.a.part, seam.b.part)
        (a0, a1), (b0, b1) = ends[seam.a], ends[seam.b]
        if mirrored[seam.a.part] != mirrored[seam.b.part]:
            b0, b1 = b1, b0
        corners.join(a0, b1)
        corners.join(a1, b0)
    free = [ref for ref in edges if ref not in sewn]
    vertices = corners.count(end for both in ends.values() for end in both)
    edge_count = len(draft.seams) + len(free)
    at: dict[Hashable, list[EdgeRef]] = defaultdict(list)
    for ref in free:
        for end in ends[ref]:
            at[corners.find(end)].append(ref)
    rims = _rims(free, edges, at.values())
    return Shell(
        vertices=vertices,
        edges=edge_count,
        faces=faces,
        euler=vertices - edge_count + faces,
        components=whole.count(mirrored),
        # every seam joins outside to outside by construction, so the outside is one side throughout
        orientable=True,
        rims=rims,
    )


SAME: Final = 1e-4
"""Ends nearer to each other than this (cm) meet in one corner."""


def _corners(piece: Piece) -> dict[str, tuple[int, int]]:
    """Edge -> the numbers of the corners it runs between; edges follow each other round each outline."""
    out: dict[str, tuple[int, int]] = {}
    first, number = piece.edges[0].points[0], 0
    start = number
    for edge in piece.edges:
        if math.dist(edge.points[-1], first) < SAME:
            out[edge.id] = (number, start)
            number += 1
            start = number
            following = piece.edges[len(out)] if len(out) < len(piece.edges) else edge
            first = following.points[0]
        else:
            out[edge.id] = (number, number + 1)
            number += 1
    return out


def _rims(free: list[EdgeRef], edges: dict[EdgeRef, Edge], meeting: Iterable[list[EdgeRef]]) -> tuple[Rim, ...]:
    """``meeting``: the free edges that end in each corner."""
    chains = Groups()
    for refs in meeting:
        for other in refs[1:]:
            chains.join(refs[0], other)
    groups: dict[Hashable, list[EdgeRef]] = defaultdict(list)
    for ref in free:
        groups[chains.find(ref)].append(ref)
    out: list[Rim] = []
    taken: dict[str, int] = defaultdict(int)
    for refs in groups.values():
        opens_to = tuple(sorted({_opening(ref, edges[ref]) for ref in refs}))
        name = "-".join(opens_to)
        taken[name] += 1
        out.append(
            Rim(
                id=name if taken[name] == 1 else f"{name}-{taken[name]}",
                edges=tuple(refs),
                length=sum(length(edges[ref].points) for ref in refs),
                opens_to=opens_to,
            )
        )
    return tuple(out)


_DOWN_FROM_NECK = ("centre-front-opening", "centre-back-opening")


def _opening(ref: EdgeRef, edge: Edge) -> str:
    """What an unsewn edge opens: the neck, the hem, one of the cuffs or armholes, the side."""
    hand = next((h for h in ("left", "right") if h in ref.part.split("-") or h in ref.edge.split("-")), "")
    if edge.kind in ("neck", "neck slit", "shoulder opening") or edge.id.startswith(_DOWN_FROM_NECK):
        return "neck"
    if edge.kind in ("hem", "split"):
        return "hem"
    if edge.kind in ("face", "edge", "waist"):
        return edge.kind
    if edge.kind == "leg":
        return f"leg-{hand}"
    if edge.kind == "cuff" or ref.part.startswith("sleeve"):
        return f"cuff-{hand}"
    if edge.kind == "armhole":
        return f"armhole-{hand}"
    return f"side-{hand}"
