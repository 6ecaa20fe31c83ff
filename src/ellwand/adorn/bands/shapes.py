"""Bands that are cut like the edge they lie along: all that lies within their width of it, part by part."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

import numpy as np
from shapely import LineString, Polygon, distance, get_parts, points, unary_union

from ellwand.adorn.applied.cutting import Applied, Side, applied
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line
from ellwand.language import _
from ellwand.model.draft import Draft, piece_of
from ellwand.model.names import named
from ellwand.model.piece import Edge, Piece
from ellwand.model.run import Run
from ellwand.units import format_length

ON = 1e-7
"""A step that lies nearer to an edge than this (cm) lies on it."""
SPECK = 0.01
"""What is smaller (cm²) comes of rounding."""
LAPPED = frozenset({"neck", "hem", "cuff", "face", "edge", "leg", "waist", "armhole"})
"""Edges left open, at which a band is turned under; where it ends at any other the parts of it are sewn together."""


def shaped(draft: Draft, run: Run, name: str, width: float, turned: float, where: str) -> list[Applied]:
    """The band's pieces along a run of edges; parts cut alike share one.

    Raises CannotDraft where it would leave a part by anything but its seams.
    """
    by_part: dict[str, list[str]] = {}
    for stretch in run.stretches:
        edges = by_part.setdefault(stretch.part, [])
        if stretch.edge not in edges:
            edges.append(stretch.edge)
    alike: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for part, edges in by_part.items():
        alike.setdefault((piece_of(draft, part).id, tuple(sorted(edges))), []).append(part)
    mirrored = {part.id: part.mirrored for part in draft.parts}
    cut = [
        (parts, piece, shape, ids)
        for (_, ids), parts in alike.items()
        for piece in [piece_of(draft, parts[0])]
        for shape in _within(piece, ids, width)
    ]
    out = []
    for n, (parts, piece, shape, ids) in enumerate(cut, 1):
        called = name if len(cut) == 1 else f"{name} {n}"
        named = [(f"{called}-{part}".replace(" ", "-"), mirrored[part]) for part in parts]
        rings = [_line(shape.exterior.coords, ccw=True), *(_line(hole.coords, ccw=False) for hole in shape.interiors)]
        along = [edge for edge in piece.edges if edge.id in ids]
        ring, *holes = (_sides(piece, along, each, turned, draft.choices.sewing.allowance) for each in rings)
        over = {side.id.split("/")[0] for side in (*ring, *(side for hole in holes for side in hole))} - set(ids)
        for edge in piece.edges:
            if edge.id in over and edge.kind in ("armhole", "gusset"):
                raise _too_wide(width, edge.kind, where)
        out.append(applied(called, piece.cloth, "body", named, ring, holes))
    return out


def _within(piece: Piece, edges: Sequence[str], width: float) -> list[Polygon]:
    """What of a piece lies within the band's width of these edges: one shape, or one for each that lies apart."""
    along = [LineString(edge.points) for edge in piece.edges if edge.id in edges]
    near = unary_union(along).buffer(width, cap_style="round", join_style="mitre")
    found = get_parts(Polygon(piece.sewn, piece.sewn_holes).intersection(near))
    return [shape for shape in found if shape.geom_type == "Polygon" and shape.area > SPECK]


def _too_wide(width: float, what: str, where: str) -> CannotDraft:
    return CannotDraft(
        f"{where}.width",
        _("a band {width} wide runs out over the {kind}", width=format_length(width), kind=named(what)),
        _("choose a narrower one"),
    )


def _line(coords: Sequence[tuple[float, ...]], *, ccw: bool) -> Line:
    line = tuple((float(at[0]), float(at[1])) for at in coords)
    return line if Polygon(line).exterior.is_ccw == ccw else tuple(reversed(line))


def _sides(piece: Piece, along: Sequence[Edge], ring: Line, turned: float, seam: float) -> list[Side]:
    """A closed ring as edges: what it shares with the piece keeps its name, and its kind where it is sewn there."""
    owners = _owners(piece, ring)
    start = next((i for i in range(len(owners)) if owners[i] is not owners[i - 1]), 0)
    segments = [(ring[i], ring[i + 1], owners[i]) for i in [*range(start, len(owners)), *range(start)]]
    out: list[Side] = []
    for owner, group in itertools.groupby(segments, key=lambda segment: segment[2]):
        steps = list(group)
        line = (steps[0][0], *(b for _, b, _ in steps))
        if owner is None:
            out.append(Side(f"outer-{sum(side.kind == 'facing' for side in out) + 1}", "facing", line, turned))
            continue
        taken = sum(side.id.split("/")[0] == owner.id for side in out)
        name = owner.id if not taken else f"{owner.id}/{taken + 1}"
        free = owner in along or owner.kind in LAPPED
        out.append(Side(name, "facing" if free else owner.kind, line, turned if free else min(seam, owner.allowance)))
    return out


def _owners(piece: Piece, ring: Line) -> list[Edge | None]:
    """The piece's edge that each step of the ring lies on, or None."""
    middles = points([((ax + bx) / 2, (ay + by) / 2) for (ax, ay), (bx, by) in itertools.pairwise(ring)])
    out: list[Edge | None] = [None] * len(middles)
    for edge in piece.edges:
        for i in np.flatnonzero(distance(middles, LineString(edge.points)) < ON):
            out[i] = out[i] or edge
    return out
