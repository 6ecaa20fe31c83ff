"""Parts into triangles: hexagonal points inside, matched points along the seams, welded from the start."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Final

import numpy as np

from ellwand.errors import InternalFault
from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, EdgeRef
from ellwand.model.mesh import Counts, Mesh, Reals
from ellwand.model.piece import Edge, Piece
from ellwand.model.surface import Surface, surface_of

CLEAR: Final = 0.6
"""An inner point keeps so many spacings from its part's edge."""
SMOOTHINGS: Final = 8
FLIPS: Final = 300
"""So many diagonals are turned for a part's edge at most."""


def mesh_of(draft: Draft, spacing: float) -> Mesh:
    """The shell's parts as triangles about ``spacing`` (cm) long, sewn together."""
    surface = surface_of(draft)
    counts = _edge_counts(surface, draft, spacing)
    flat: list[Reals] = []
    triangles: list[Counts] = []
    along: dict[EdgeRef, Counts] = {}
    made: dict[tuple[object, ...], tuple[Reals, Counts, dict[str, Counts]]] = {}
    start = 0
    for part in draft.parts:
        piece = surface.pieces[part.id]
        lines = {edge.id: _points_along(edge, counts[EdgeRef(part.id, edge.id)]) for edge in piece.edges}
        key = (piece.id, *(len(line) for line in lines.values()))
        if key not in made:
            made[key] = _triangulated(piece, lines, spacing)
        points, corners, edges = made[key]
        for edge_id, numbers in edges.items():
            along[EdgeRef(part.id, edge_id)] = numbers + start
        triangles.append(corners[:, ::-1] + start if part.mirrored else corners + start)
        flat.append(points * (-1.0, 1.0) if part.mirrored else points)
        start += len(points)
    owner = np.concatenate([np.full(len(each), n) for n, each in enumerate(triangles)])
    corners, place = np.concatenate(triangles), np.concatenate(flat)
    welded = _welded(surface, draft, along, start)
    rims: dict[str, list[Counts]] = defaultdict(list)
    sewn: list[Counts] = []
    for ref, numbers in along.items():
        pairs = welded[np.column_stack([numbers[:-1], numbers[1:]])]
        if ref not in surface.across:
            rims[surface.edges[ref].kind].append(pairs)
        elif surface.across[ref][1].a == ref:
            sewn.append(pairs)
    return Mesh(
        corners=welded[corners],
        flat=place[corners],
        part=owner,
        parts=tuple(part.id for part in draft.parts),
        rims={kind: np.concatenate(pairs) for kind, pairs in rims.items()},
        seams=np.concatenate(sewn) if sewn else np.zeros((0, 2), np.int64),
        count=int(np.max(welded)) + 1,
    )


def refined(mesh: Mesh) -> tuple[Mesh, Counts]:
    """Each triangle in four; and the two points that each new point lies between."""
    a, b, c = mesh.corners.T
    sides = np.sort(np.stack([np.stack([a, b], 1), np.stack([b, c], 1), np.stack([c, a], 1)], 1), axis=2)
    keys, inverse = np.unique(sides.reshape(-1, 2), axis=0, return_inverse=True)
    number = {(int(p), int(q)): mesh.count + n for n, (p, q) in enumerate(keys)}
    ab, bc, ca = (inverse.reshape(-1, 3) + mesh.count).T
    corners = np.concatenate([np.stack(each, 1) for each in ((a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca))])
    p, q, r = (mesh.flat[:, n] for n in range(3))
    pq, qr, rp = (p + q) / 2, (q + r) / 2, (r + p) / 2
    flat = np.concatenate([np.stack(each, 1) for each in ((p, pq, rp), (pq, q, qr), (rp, qr, r), (pq, qr, rp))])

    def halved(pairs: Counts) -> Counts:
        middle = np.array([number[min(i, j), max(i, j)] for i, j in pairs.tolist()], np.int64)
        return np.concatenate([np.stack([pairs[:, 0], middle], 1), np.stack([middle, pairs[:, 1]], 1)])

    rims = {kind: halved(pairs) for kind, pairs in mesh.rims.items()}
    seams = halved(mesh.seams) if len(mesh.seams) else mesh.seams
    return Mesh(corners, flat, np.tile(mesh.part, 4), mesh.parts, rims, seams, mesh.count + len(keys)), keys


def quality(mesh: Mesh) -> Reals:
    """Of each triangle 4√3 × area over the sum of its squared sides: 1 where it is equilateral."""
    u, v = mesh.flat[:, 1] - mesh.flat[:, 0], mesh.flat[:, 2] - mesh.flat[:, 0]
    area = (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]) / 2
    squares = (u**2).sum(1) + (v**2).sum(1) + ((v - u) ** 2).sum(1)
    return np.asarray(4 * math.sqrt(3) * area / squares)


def _edge_counts(surface: Surface, draft: Draft, spacing: float) -> dict[EdgeRef, int]:
    out = {ref: max(1, round(length(edge.points) / spacing)) for ref, edge in surface.edges.items()}
    for seam in draft.seams:
        out[seam.a] = out[seam.b] = max(out[seam.a], out[seam.b])
    return out


def _points_along(edge: Edge, count: int) -> Reals:
    """The edge in that many equal stretches."""
    points = np.array(edge.points)
    walked = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    at = np.linspace(0.0, walked[-1], count + 1)
    return np.column_stack([np.interp(at, walked, points[:, 0]), np.interp(at, walked, points[:, 1])])


def _triangulated(piece: Piece, lines: Mapping[str, Reals], spacing: float) -> tuple[Reals, Counts, dict[str, Counts]]:
    """Points, triangles, and the points along each edge."""
    from scipy.spatial import Delaunay
    from shapely import MultiLineString, Point, Polygon, contains_xy, distance
    from shapely import points as to_points

    rim: list[Reals] = []
    edges: dict[str, Counts] = {}
    rings: list[Reals] = []
    for ring in _rings(piece.edges):
        first = len(rim)
        for edge in ring:
            line = lines[edge.id]
            edges[edge.id] = np.arange(len(rim), len(rim) + len(line))
            rim.extend(line[:-1])
        edges[ring[-1].id][-1] = first
        rings.append(np.array(rim[first:]))
    edge_points = np.array(rim)
    shape = Polygon(rings[0], rings[1:])
    if not shape.is_valid:
        raise InternalFault(f"the edge of {piece.id} crosses itself when it is drawn in steps of {spacing:g} cm")
    inside = _hexagonal(edge_points, spacing)
    border = MultiLineString([np.vstack([ring, ring[:1]]) for ring in rings])
    keep = contains_xy(shape, inside[:, 0], inside[:, 1])
    inside = inside[keep]
    inside = inside[distance(to_points(inside), border) > CLEAR * spacing]
    count = len(edge_points)
    points = np.vstack([edge_points, inside])
    for turn in range(SMOOTHINGS + 1):
        corners = Delaunay(points).simplices
        middle = points[corners].mean(1)
        u, v = points[corners[:, 1]] - points[corners[:, 0]], points[corners[:, 2]] - points[corners[:, 0]]
        twice = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
        corners = corners[contains_xy(shape, middle[:, 0], middle[:, 1]) & (np.abs(twice) > 1e-9)]
        if turn == SMOOTHINGS or len(inside) == 0:
            break
        total, many = np.zeros_like(points), np.zeros(len(points))
        for i, j in ((0, 1), (1, 2), (2, 0), (1, 0), (2, 1), (0, 2)):
            np.add.at(total, corners[:, i], points[corners[:, j]])
            np.add.at(many, corners[:, i], 1.0)
        moved = total[count:] / np.maximum(many[count:], 1.0)[:, None]
        fits = np.array([distance(Point(p), border) > 0.5 * CLEAR * spacing for p in moved], bool)
        points[count:][fits] = moved[fits]
    u, v = points[corners[:, 1]] - points[corners[:, 0]], points[corners[:, 2]] - points[corners[:, 0]]
    under = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0] < 0
    corners[under] = corners[under][:, ::-1]
    found = _with_rim(points, corners, edges)
    if found is None:
        # a shape too thin for points inside
        points, found = edge_points, _within(rings)
    return points, found.astype(np.int64), edges


def _within(rings: Sequence[Reals]) -> Counts:
    """Triangles of a shape between its rim's points alone, which are numbered ring by ring."""
    from shapely import Polygon, constrained_delaunay_triangles, get_coordinates, get_parts

    number = {(float(x), float(y)): n for n, (x, y) in enumerate(np.concatenate(rings))}
    parts = get_parts(constrained_delaunay_triangles(Polygon(rings[0], rings[1:])))
    corners = [[number[float(x), float(y)] for x, y in get_coordinates(part)[:3]] for part in parts]
    points = np.concatenate(rings)
    return np.array([_left(points, *each) for each in corners])


def _hexagonal(around: Reals, spacing: float) -> Reals:
    """Points of a hexagonal grid over the box of these, alike to both sides of its middle."""
    low, high = around.min(0), around.max(0)
    mid = (low + high) / 2
    rows = math.ceil((high[1] - low[1]) / (spacing * math.sqrt(3) / 2) / 2) + 1
    columns = math.ceil((high[0] - low[0]) / spacing / 2) + 1
    j, i = np.mgrid[-rows : rows + 1, -columns : columns + 1]
    x = mid[0] + (i + 0.5 * (j % 2)) * spacing
    y = mid[1] + j * spacing * math.sqrt(3) / 2
    return np.column_stack([x.ravel(), y.ravel()])


def _rings(edges: Sequence[Edge]) -> Iterator[list[Edge]]:
    ring: list[Edge] = []
    for edge in edges:
        ring.append(edge)
        if math.dist(edge.points[-1], ring[0].points[0]) < 1e-4:
            yield ring
            ring = []


def _with_rim(points: Reals, corners: Counts, edges: Mapping[str, Counts]) -> Counts | None:
    """The triangles with every stretch of the rim among their sides: diagonals that cross one are turned; None where
    that does not do."""
    wanted = [(int(a), int(b)) for line in edges.values() for a, b in pairwise(line)]
    tris = [list(map(int, each)) for each in corners]
    for _ in range(FLIPS):
        sides: dict[tuple[int, int], list[int]] = defaultdict(list)
        for n, (a, b, c) in enumerate(tris):
            for p, q in ((a, b), (b, c), (c, a)):
                sides[min(p, q), max(p, q)].append(n)
        missing = [(a, b) for a, b in wanted if (min(a, b), max(a, b)) not in sides]
        if not missing:
            return np.array(tris)
        turned = False
        for a, b in missing:
            for (p, q), of in list(sides.items()):
                if len(of) == 2 and not {p, q} & {a, b} and _cross(points[a], points[b], points[p], points[q]):
                    one, other = (next(v for v in tris[n] if v not in (p, q)) for n in of)
                    if _cross(points[one], points[other], points[p], points[q]):
                        tris[of[0]] = _left(points, one, other, p)
                        tris[of[1]] = _left(points, one, other, q)
                        turned = True
                        break
            if turned:
                break
        if not turned:
            break
    return None


def _left(points: Reals, a: int, b: int, c: int) -> list[int]:
    u, v = points[b] - points[a], points[c] - points[a]
    return [a, b, c] if u[0] * v[1] - u[1] * v[0] > 0 else [a, c, b]


def _cross(a: Reals, b: Reals, p: Reals, q: Reals) -> bool:
    def side(o: Reals, d: Reals, x: Reals) -> float:
        return float((d[0] - o[0]) * (x[1] - o[1]) - (d[1] - o[1]) * (x[0] - o[0]))

    return side(a, b, p) * side(a, b, q) < 0 and side(p, q, a) * side(p, q, b) < 0


def _welded(surface: Surface, draft: Draft, along: Mapping[EdgeRef, Counts], count: int) -> Counts:
    """The number of each point when what is sewn together is one."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    one: list[Counts] = []
    other: list[Counts] = []
    for seam in draft.seams:
        a, b = (along[ref][::-1] if surface.mirrored[ref.part] else along[ref] for ref in (seam.a, seam.b))
        one.append(a)
        other.append(b[::-1])
    if not one:
        return np.arange(count)
    i, j = np.concatenate(one), np.concatenate(other)
    _, label = connected_components(coo_array((np.ones(len(i)), (i, j)), (count, count)), directed=False)
    # numbered in the order in which the points come, whatever the order of the seams
    _, first = np.unique(label, return_index=True)
    rank = np.empty(len(first), np.int64)
    rank[np.argsort(first)] = np.arange(len(first))
    return np.asarray(rank[label])
