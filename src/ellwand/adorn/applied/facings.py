"""Facings: shaped ones that follow the neck as it is drawn, and strips for necks, slits, shoulders and splits."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from typing import Final

import numpy as np
from shapely import LineString, Point, Polygon, distance, get_parts, unary_union

from ellwand.adorn.applied.cutting import Applied, Side, applied, strip
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, length
from ellwand.language import _
from ellwand.model.draft import Draft, EdgeRef, piece_of
from ellwand.model.names import named
from ellwand.model.piece import Edge, EdgeKind, Piece
from ellwand.units import format_length

FACED: Final[frozenset[EdgeKind]] = frozenset({"neck", "neck slit", "shoulder opening"})
JOINED: Final[frozenset[EdgeKind]] = frozenset({"shoulder", "centre seam", "split", "opening"})
"""Edges of the body at which a facing may end, with the body's own allowance."""
TURNED: Final = 1.0
"""Turned under along a facing's outer edge (cm), or the seam allowance where that is less: common practice."""
LONGEST_BIAS: Final = 36.0
"""A longer bias strip is joined from shorter ones, which find room in the gaps of the lay (cm): common practice."""
BEYOND: Final = 3.0
"""How far a slit's facing reaches past its point (cm): common practice, no source."""
SLIT_FACING: Final = 5.0
"""Finished width of the facing of a slit, both sides together (cm): common practice, no source."""
ON: Final = 1e-7
"""What lies so near to an edge (cm) lies on it."""
HOLLOW: Final = 1.5
"""A shaped facing's hollow corners are rounded to this radius (cm): our own figure, more than what is turned under."""
STRAIGHT_NECKS: Final = frozenset({"rectangle", "square", "V"})
"""Necks of straight edges take straight strips; the others bias ones."""


def neck_facings(draft: Draft) -> list[Applied]:
    """The facing of the neck, with its slit and open shoulders, as it was chosen.

    Raises CannotDraft where a shaped facing runs into an armhole or a side.
    """
    facing = draft.choices.neck.facing
    if facing == "shaped":
        return _shaped(draft)
    return _neck_strips(draft) if facing == "strip" else []


def split_strips(draft: Draft) -> list[Applied]:
    """Strips for the splits that are to be faced."""
    out = []
    for split in draft.choices.splits:
        if split.facing == "strip":
            edges = [edge for ref, edge in _edges(draft, "split") if split.place in f"{ref.part} {ref.edge}"]
            out += _lips(draft, f"{split.place.replace('-', ' ')} split", edges)
    return out


def edge_allowance(draft: Draft) -> float:
    """Allowance along a facing's edges (cm)."""
    return min(draft.choices.sewing.allowance, TURNED)


def _edges(draft: Draft, *kinds: EdgeKind) -> Iterator[tuple[EdgeRef, Edge]]:
    for part in draft.parts:
        for edge in piece_of(draft, part.id).edges:
            if edge.kind in kinds:
                yield EdgeRef(part.id, edge.id), edge


def neck_length(draft: Draft) -> float:
    """The neck's edge all round (cm)."""
    return math.fsum(length(edge.points) for _, edge in _edges(draft, "neck"))


# --- strips ---------------------------------------------------------------------------------------------


def _neck_strips(draft: Draft) -> list[Applied]:
    neck, around, edge = draft.choices.neck, neck_length(draft), edge_allowance(draft)
    wide = neck.facing_width - 2 * edge
    if wide < 1:
        raise CannotDraft(
            "garment.neck.facing_width",
            _("a strip cut {width} wide leaves nothing between its allowances", width=format_length(neck.facing_width)),
            _("make it at least {least}", least=format_length(2 * edge + 1)),
        )
    bias = neck.shape not in STRAIGHT_NECKS
    count = math.ceil(around / LONGEST_BIAS) if bias else 1
    names = ["neck-strip"] if count == 1 else [f"neck-strip-{i + 1}" for i in range(count)]
    allowance = draft.choices.sewing.allowance
    what = "neck strip on the bias" if bias else "neck strip"
    out = [strip(what, _cloth(draft), "body", names, (around / count, wide), (allowance, edge), bias=bias)]
    out += _lips(draft, "slit", [edge for _, edge in _edges(draft, "neck slit")])
    return out + _lips(draft, "shoulder", [edge for _, edge in _edges(draft, "shoulder opening")])


def _lips(draft: Draft, what: str, edges: list[Edge]) -> list[Applied]:
    """Strips for edges left open: one over both lips of each slit cut into a panel, else one for each edge."""
    cloth, edge, allowance = _cloth(draft), edge_allowance(draft), draft.choices.sewing.allowance
    out = []
    cut_in = [each for each in edges if each.allowance == 0]
    if cut_in:
        names = [f"{what}-facing-{i + 1}".replace(" ", "-") for i in range(len(cut_in) // 2)]
        size = (max(length(each.points) for each in cut_in) + BEYOND, SLIT_FACING)
        out.append(strip(f"{what} facing", cloth, "body", names, size, (edge, edge), middle="slit"))
    in_seam: dict[float, int] = {}
    for each in edges:
        if each.allowance:
            long = round(length(each.points), 1)
            in_seam[long] = in_seam.get(long, 0) + 1
    wide = max(1.0, draft.choices.neck.facing_width - 2 * edge)
    for n, (long, count) in enumerate(in_seam.items(), 1):
        name = f"{what} strip" if len(in_seam) == 1 else f"{what} strip {n}"
        names = [f"{name}-{i + 1}".replace(" ", "-") for i in range(count)]
        out.append(strip(name, cloth, "body", names, (long, wide), (allowance, edge)))
    return out


def _cloth(draft: Draft) -> str:
    return draft.pieces[0].cloth


# --- shaped ---------------------------------------------------------------------------------------------


def _shaped(draft: Draft) -> list[Applied]:
    out: list[Applied] = []
    bodies = [piece for piece in draft.pieces if any(edge.kind == "neck" for edge in piece.edges)]
    names = [_name(piece) for piece in bodies]
    for i, piece in enumerate(bodies):
        name = names[i] if names.count(names[i]) == 1 else f"{names[i]} {names[: i + 1].count(names[i])}"
        parts = [(f"neck-facing-{part.id}", part.mirrored) for part in draft.parts if part.piece == piece.id]
        ring, holes = _follow(draft, piece)
        out.append(applied(name, piece.cloth, "body", parts, ring, holes))
    return out


def _name(piece: Piece) -> str:
    face = next((f"{face} " for face in ("front", "back") if piece.name.startswith(face)), "")
    return f"{face}neck facing"


def _follow(draft: Draft, piece: Piece) -> tuple[list[Side], list[list[Side]]]:
    """Outer ring and hole of the facing of one piece: what lies within its width of the faced edges."""
    width = draft.choices.neck.facing_width
    faced = unary_union([LineString(edge.points) for edge in piece.edges if edge.kind in FACED])
    # hollow corners are rounded, so that the allowance outside them can be cut
    near = faced.buffer(width + HOLLOW, cap_style="round", join_style="mitre").buffer(-HOLLOW)
    found = get_parts(Polygon(piece.sewn, piece.sewn_holes).intersection(near))
    shape = max(found, key=lambda part: part.area)
    outer = tuple((float(x), float(y)) for x, y in shape.exterior.normalize().coords)
    if Polygon(outer).exterior.is_ccw is False:
        outer = tuple(reversed(outer))
    ring = _sides(draft, piece, outer)
    if not piece.sewn_holes:
        return ring, []
    inside = set(piece.sewn_holes[0])
    hole = [
        Side(edge.id, edge.kind, edge.points, edge.allowance)
        for edge in piece.edges
        if edge.points[0] in inside and edge.points[-1] in inside
    ]
    return ring, [hole]


def _sides(draft: Draft, piece: Piece, ring: Line) -> list[Side]:
    """A closed ring as edges: those it shares with the piece keep their names, the rest is the facing's own."""
    owners = _owners(piece, ring)
    start = next((i for i in range(len(owners)) if owners[i] is not owners[i - 1]), 0)
    segments = [(ring[i], ring[i + 1], owners[i]) for i in [*range(start, len(owners)), *range(start)]]
    out: list[Side] = []
    for owner, group in itertools.groupby(segments, key=lambda segment: segment[2]):
        steps = list(group)
        points = (steps[0][0], *(b for _, b, _ in steps))
        if owner is None:
            number = sum(side.kind == "facing" for side in out) + 1
            out.append(Side(f"outer-{number}", "facing", points, edge_allowance(draft)))
            continue
        if owner.kind not in FACED | JOINED:
            width = format_length(draft.choices.neck.facing_width)
            raise CannotDraft(
                "garment.neck.facing_width",
                _("a facing {width} wide runs into the {kind}", width=width, kind=named(owner.kind)),
                _('choose a narrower one, or facing = "strip"'),
            )
        taken = sum(side.id.split("/")[0] == owner.id for side in out)
        out.append(Side(owner.id if not taken else f"{owner.id}/{taken + 1}", owner.kind, points, owner.allowance))
    return out


def _owners(piece: Piece, ring: Line) -> list[Edge | None]:
    """For each step of a closed ring the piece's edge that it lies on."""
    middles = [Point((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in itertools.pairwise(ring)]
    edges = np.array([LineString(edge.points) for edge in piece.edges])
    on = distance(edges[:, None], np.array(middles)[None, :]) < ON
    return [piece.edges[int(column.argmax())] if column.any() else None for column in on.T]
