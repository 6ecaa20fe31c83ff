"""A second computation of the sewn shell: every part is triangulated, welded along its seams, and trimesh counts.

Triangulation: shapely's constrained Delaunay.  Two barycentric subdivisions before the welding make sure that no
triangle and no edge meets itself afterwards (any text on simplicial complexes).  Where seams run is the contract's:
the two edges go opposite ways, unless exactly one of their parts is mirrored.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
import trimesh
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from shapely import Polygon, constrained_delaunay_triangles

from ellwand.model.draft import EdgeRef, Part, Seam
from ellwand.model.piece import Edge, Piece
from ellwand.model.shell import Shell

Points = np.ndarray
SAME_SHARE = 1e-7


class Stitched(Protocol):
    """Pieces, the parts cut as them, and what is sewn to what: a draft, or garment.json read back."""

    @property
    def pieces(self) -> tuple[Piece, ...]: ...
    @property
    def parts(self) -> tuple[Part, ...]: ...
    @property
    def seams(self) -> tuple[Seam, ...]: ...


@dataclass(frozen=True, slots=True)
class Glued:
    """What trimesh counts.  ``rims``: the length (cm) of every boundary loop, in order.

    ``manifold``: no edge on more than two triangles and no vertex where the boundary touches itself.
    """

    euler: int
    rims: tuple[float, ...]
    bodies: int
    two_sided: bool
    manifold: bool


def glued(work: Stitched, wrong_way: Collection[str] = ()) -> Glued:
    """Weld the parts and count; the seams named in ``wrong_way`` are welded with one edge turned round."""
    by_id = {piece.id: piece for piece in work.pieces}
    pieces = {part.id: by_id[part.piece] for part in work.parts}
    edges = {EdgeRef(part, edge.id): edge for part, piece in pieces.items() for edge in piece.edges}
    mirrored = {part.id: part.mirrored for part in work.parts}
    same_way = {
        seam.id: (mirrored[seam.a.part] != mirrored[seam.b.part]) != (seam.id in wrong_way) for seam in work.seams
    }
    shares = {ref: _shares(edge) for ref, edge in edges.items()}
    for seam in work.seams:
        there = shares[seam.b] if same_way[seam.id] else 1 - shares[seam.b]
        both = _merged(shares[seam.a], there)
        shares[seam.a], shares[seam.b] = both, both if same_way[seam.id] else (1 - both)[::-1]
    places: list[Points] = []
    triangles: list[Points] = []
    at: dict[EdgeRef, Points] = {}
    count = 0
    for part in work.parts:
        rings = _rings(
            pieces[part.id], {e.id: _sampled(e, shares[EdgeRef(part.id, e.id)]) for e in pieces[part.id].edges}
        )
        points = np.array([point for ring in rings for _, line in ring for point in line[:-1]])
        start = count
        for ring in rings:
            size = sum(len(line) - 1 for _, line in ring)
            walked = 0
            for name, line in ring:
                at[EdgeRef(part.id, name)] = start + (walked + np.arange(len(line))) % size
                walked += len(line) - 1
            start += size
        corners = _triangulated(points, rings)
        triangles.append(count + (corners[:, ::-1] if part.mirrored else corners))
        places.append(points)
        count += len(points)
    welds = [
        [[a0, b0], [a1, b1]]
        for seam in work.seams
        for (a0, a1), (b0, b1) in zip(
            itertools.pairwise(at[seam.a].tolist()),
            itertools.pairwise((at[seam.b] if same_way[seam.id] else at[seam.b][::-1]).tolist()),
            strict=True,
        )
    ]
    mesh = np.concatenate(places), np.concatenate(triangles), np.array(welds, dtype=int).reshape(-1, 2, 2)
    return _counted(*_barycentric(*_barycentric(*mesh)))


def agree(work: Stitched, shell: Shell) -> bool:
    """Whether trimesh counts the shell that is told, and finds it a surface with two sides."""
    found = glued(work)
    told = sorted(rim.length for rim in shell.rims)
    return (
        (found.euler, found.bodies, found.two_sided, found.manifold) == (shell.euler, shell.components, True, True)
        and len(found.rims) == len(told)
        and all(abs(a - b) <= 0.1 for a, b in zip(found.rims, told, strict=True))
    )


def _shares(edge: Edge) -> Points:
    """How far along the edge (0 to 1) its points lie."""
    run = np.cumsum([0.0, *(math.dist(a, b) for a, b in itertools.pairwise(edge.points))])
    return run / run[-1]


def _merged(one: Points, other: Points) -> Points:
    both = np.union1d(one, other)
    out = both[np.concatenate([[True], np.diff(both) > SAME_SHARE])]
    out[0], out[-1] = 0.0, 1.0
    return out


def _sampled(edge: Edge, shares: Points) -> list[tuple[float, float]]:
    own = _shares(edge)
    xs, ys = (np.interp(shares, own, [point[axis] for point in edge.points]) for axis in (0, 1))
    line = list(zip(xs.tolist(), ys.tolist(), strict=True))
    return [edge.points[0], *line[1:-1], edge.points[-1]]


Ring = list[tuple[str, list[tuple[float, float]]]]


def _rings(piece: Piece, lines: Mapping[str, list[tuple[float, float]]]) -> list[Ring]:
    """The outline and the holes, each as its edges end to end."""
    out: list[Ring] = [[]]
    for edge in piece.edges:
        ring = out[-1]
        if ring and math.dist(ring[-1][1][-1], ring[0][1][0]) < 1e-6:
            out.append(ring := [])
        assert not ring or math.dist(ring[-1][1][-1], edge.points[0]) < 1e-6, f"{piece.id}: {edge.id} hangs loose"
        ring.append((edge.id, lines[edge.id]))
    assert len(out) == 1 + len(piece.sewn_holes), f"{piece.id} has {len(out)} rings"
    return out


def _triangulated(points: Points, rings: Sequence[Ring]) -> Points:
    """Triangles by index, counter-clockwise; every boundary point is used."""
    loops = [[point for _, line in ring for point in line[:-1]] for ring in rings]
    index = {tuple(point): i for i, point in enumerate(points.tolist())}
    assert len(index) == len(points), "an outline comes twice through one point"
    shape = Polygon(loops[0], loops[1:])
    faces = [
        [index[corner] for corner in triangle.exterior.coords[:-1]]
        for triangle in constrained_delaunay_triangles(shape).geoms
    ]
    corners = np.array(faces)
    turned = np.cross(
        np.pad(points[corners[:, 1]] - points[corners[:, 0]], ((0, 0), (0, 1))),
        np.pad(points[corners[:, 2]] - points[corners[:, 0]], ((0, 0), (0, 1))),
    )[:, 2]
    corners[turned < 0] = corners[turned < 0][:, ::-1]
    assert len(corners) == len(points) + 2 * len(loops) - 4, "the triangles do not use every point"
    assert math.isclose(abs(turned).sum() / 2, shape.area, rel_tol=1e-6)
    return corners


def _barycentric(points: Points, corners: Points, welds: Points) -> tuple[Points, Points, Points]:
    """Each triangle in six about its centre, and each pair of welded segments in two.

    ``welds``: for each pair, the points that its two beginnings and its two ends are.
    """
    ends, which = np.unique(
        np.sort(corners[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1), axis=0, return_inverse=True
    )
    middle = len(points) + which.reshape(-1, 3)
    centre = len(points) + len(ends) + np.arange(len(corners))
    six = [
        np.stack(three, axis=1)
        for i in range(3)
        for three in ((corners[:, i], middle[:, i], centre), (middle[:, i], corners[:, (i + 1) % 3], centre))
    ]
    key = ends[:, 0] * len(points) + ends[:, 1]
    sides = np.sort(welds, axis=1)
    halfway = len(points) + np.searchsorted(key, sides[:, 0] * len(points) + sides[:, 1])
    halves = np.concatenate(
        [np.stack([welds[:, 0], halfway], axis=1), np.stack([halfway, welds[:, 1]], axis=1)], dtype=int
    )
    places = np.concatenate([points, points[ends].mean(axis=1), points[corners].mean(axis=1)])
    return places, np.concatenate(six), halves


def _counted(points: Points, corners: Points, welds: Points) -> Glued:
    """Weld, and let trimesh count."""
    together = welds.reshape(-1, 2)
    joined = coo_array((np.ones(len(together)), (together[:, 0], together[:, 1])), shape=(len(points), len(points)))
    _, label = connected_components(joined, directed=False)
    mesh = trimesh.Trimesh(np.zeros((label.max() + 1, 3)), label[corners], process=False, validate=False)
    edges = mesh.edges_sorted
    open_edges = trimesh.grouping.group_rows(edges, require_count=1)
    paired = trimesh.grouping.group_rows(edges, require_count=2)
    flat = trimesh.geometry.faces_to_edges(corners)[open_edges]
    lengths = np.linalg.norm(points[flat[:, 0]] - points[flat[:, 1]], axis=1)
    loops = trimesh.graph.connected_components(edges[open_edges], min_len=1)
    loop_of = np.full(label.max() + 1, -1)
    for number, loop in enumerate(loops):
        loop_of[loop] = number
    rims = np.bincount(loop_of[edges[open_edges][:, 0]], weights=lengths, minlength=len(loops))
    twice = np.bincount(edges[open_edges].ravel()) if len(open_edges) else np.array([], int)
    return Glued(
        euler=int(mesh.euler_number),
        rims=tuple(sorted(rims.tolist())),
        bodies=int(mesh.body_count),
        two_sided=bool(mesh.is_winding_consistent),
        manifold=len(open_edges) + 2 * len(paired) == len(edges) and set(twice.tolist()) <= {0, 2},
    )
