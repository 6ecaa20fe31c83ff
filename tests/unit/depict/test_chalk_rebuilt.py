"""Every piece chalked afresh from its rows alone, in millimetres, against the lay."""

from __future__ import annotations

import itertools
import math
from functools import cache

import pytest
from shapely import LineString, MultiPolygon, Polygon, box
from shapely.affinity import rotate, scale, translate

from ellwand.depict.chalk import ChalkRow, chalk_rows
from ellwand.depict.sizes import is_traced
from ellwand.geometry.lines import Line, Point
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay, Placement
from ellwand.model.piece import Piece
from ellwand.pipeline import make
from sheets import sheet

ROUNDED = 0.15
"""Chalked to the millimetre, arcs within half of one, and curves by hand (cm)."""

SEAMED = {"body": {"shoulder": "seam", "centre_seam": "both"}, "neck": {"shape": "round"}}
SHAPED = {"body": {"cut": "shoulder panels", "flare": 12}, "sleeve": {"shape": "fitted forearm"}}
KINDS = {
    **{shape: {"neck": {"shape": shape}} for shape in ("round", "oval", "rectangle", "boat", "keyhole")},
    "slit": {"gores": [{"place": "centre-front", "start": "waist", "base": 40}]},
    "seamed": SEAMED,
    "shaped": SHAPED,
}
FOLDS = [(kind, fold) for kind in ("round", "keyhole", "slit", "shaped") for fold in ("lengthwise", "crosswise")]


@cache
def made(kind: str, fold: str = "flat") -> Garment:
    return make(sheet(KINDS[kind], cloth={"width": 150, "fold": fold}), seconds=0)


def smooth(points: list[Point], closed: bool = False) -> list[Point]:
    """A curve by hand: through all the points, in the direction of its neighbours at each (Catmull and Rom, 1974)."""
    ends = [points[-1], *points, *points[:2]] if closed else [_beyond(points), *points, _beyond(points[::-1])]
    out = []
    for a, b, c, d in zip(ends, ends[1:], ends[2:], ends[3:], strict=False):
        for t in (i / 8 for i in range(8)):
            weights = (-t + 2 * t**2 - t**3, 2 - 5 * t**2 + 3 * t**3, t + 4 * t**2 - 3 * t**3, t**3 - t**2)
            x, y = (sum(w * p[k] for w, p in zip(weights, (a, b, c, d), strict=True)) / 2 for k in (0, 1))
            out.append((x, y))
    return out


def _beyond(points: list[Point]) -> Point:
    (ax, ay), (bx, by) = points[:2]
    return (2 * ax - bx, 2 * ay - by)


def spot(row: ChalkRow) -> Point:
    return round(row.across, 1), round(row.along, 1)


def outline(rows: list[ChalkRow]) -> Line:
    corners = {row.letter: spot(row) for row in rows if row.what == "corner"}
    ring: list[Point] = []
    for here, there in itertools.pairwise([*corners, next(iter(corners))]):
        ends = f"{here}–{there}"
        ring.append(corners[here])
        between = [row for row in rows if row.letter == ends]
        if between and between[0].what == "arc":
            row = between[0]
            a, b = (math.atan2(corners[k][1] - row.along, corners[k][0] - row.across) for k in (here, there))
            sweep = (b - a + math.pi) % (2 * math.pi) - math.pi
            turns = [a + sweep * i / 60 for i in range(1, 60)]
            ring += [(row.across + row.radius * math.cos(t), row.along + row.radius * math.sin(t)) for t in turns]
        elif between:
            ring += smooth([corners[here], *map(spot, between), corners[there]])[1:]
    return tuple(ring)


def on_cloth(piece: Piece, p: Placement, lay: Lay) -> tuple[Polygon, Polygon | None]:
    """The outline and the neck hole where they lie, slits closed, the half of them that is on folded cloth."""
    shapes = []
    for ring in (piece.cut, *piece.cut_holes[:1]):
        shape = Polygon(ring).buffer(0.13, join_style="mitre").buffer(-0.13, join_style="mitre")
        if ring is not piece.cut:
            shape = Polygon(ring).buffer(-0.13).buffer(0.13, join_style="mitre")
        if isinstance(shape, MultiPolygon):
            shape = max(shape.geoms, key=lambda g: g.area)
        if p.flip:
            shape = scale(shape, -1, 1, origin=(0, 0))
        shape = translate(rotate(shape, p.turn, origin=(0, 0)), p.x, p.y)
        if p.on_fold:
            shape = shape.intersection(box(0, -999, 999, 999) if lay.fold == "lengthwise" else box(-999, 0, 999, 999))
        shapes.append(Polygon(shape.exterior))
    return shapes[0], shapes[1] if len(shapes) > 1 else None


def check(garment: Garment, lay: Lay) -> None:
    known = {piece.id: piece for piece in garment.draft.pieces}
    rows = chalk_rows(lay, garment.draft.pieces, "cm")
    by_step = [[row for row in rows if row.step == n] for n in range(1, len(lay.placements) + 1)]
    left = list(lay.placements)
    for mine in by_step:
        chalked = Polygon(outline(mine))
        name = mine[0].piece
        fit = {p.part: on_cloth(known[p.piece], p, lay) for p in left if known[p.piece].name == name}
        if is_traced(next(piece for piece in garment.draft.pieces if piece.name == name)):
            part = next(q for q, (shape, _) in fit.items() if chalked.buffer(ROUNDED).contains(shape))
        else:
            part = min(fit, key=lambda q: chalked.exterior.hausdorff_distance(fit[q][0].exterior))
            apart = chalked.exterior.hausdorff_distance(fit[part][0].exterior)
            assert apart < ROUNDED, (name, part, apart)
        _, hole = fit[part]
        placed = next(p for p in left if p.part == part)
        left.remove(placed)
        if not is_traced(known[placed.piece]):
            check_neck(mine, hole)
            check_slits(mine, known[placed.piece], placed)
    assert not left


def check_neck(rows: list[ChalkRow], hole: Polygon | None) -> None:
    points = [spot(row) for row in rows if row.what == "neck point"]
    assert bool(points) == (hole is not None)
    if hole is not None:
        drawn = LineString([*points, points[0]])
        assert drawn.hausdorff_distance(hole.exterior) < 0.3
        assert all(hole.exterior.distance(LineString([p, p])) < ROUNDED for p in points)


def check_slits(rows: list[ChalkRow], piece: Piece, p: Placement) -> None:
    """Where the chalk says that a slit is cut there is no cloth, and its end is a corner of the outline."""
    shape = Polygon(piece.cut, piece.cut_holes)
    if p.flip:
        shape = scale(shape, -1, 1, origin=(0, 0))
    shape = translate(rotate(shape, p.turn, origin=(0, 0)), p.x, p.y)
    corners = [q for ring in (shape.exterior, *shape.interiors) for q in ring.coords]
    for row in rows:
        if row.what == "slit":
            a, b = (row.across, row.along), (row.to_across, row.to_along)
            assert LineString([a, b]).intersection(shape).length < 0.01 * math.dist(a, b) + 0.05
            assert min(math.dist(b, q) for q in corners) < 0.01


@pytest.mark.parametrize("kind", KINDS)
def test_flat_lays_are_chalked_afresh(kind: str) -> None:
    for lay in made(kind).lays:
        check(made(kind), lay)


@pytest.mark.parametrize(("kind", "fold"), FOLDS)
def test_folded_lays_are_chalked_afresh(kind: str, fold: str) -> None:
    """Distances count from the fold; of what lies on it half is chalked."""
    garment = made(kind, fold)
    assert any(lay.fold == fold for lay in garment.lays)
    for lay in garment.lays:
        check(garment, lay)
        from_fold = [
            row.across if fold == "lengthwise" else row.along
            for row in chalk_rows(lay, garment.draft.pieces, "cm")
            if row.what in ("corner", "curve", "neck point")
        ]
        assert lay.fold != fold or min(from_fold) >= -1e-6


def test_how_a_piece_lies_is_said_once() -> None:
    garment = made("round", "lengthwise")
    lay = next(lay for lay in garment.lays if lay.fold == "lengthwise")
    rows = chalk_rows(lay, garment.draft.pieces, "cm")
    said = [row.note for row in rows if row.what == "corner" and ("layers" in row.note or "fold" in row.note)]
    assert len(said) == sum(p.layers == 2 or p.on_fold for p in lay.placements)


def test_a_line_that_is_there_already_is_said() -> None:
    """Whatever is said to lie on an earlier piece's line does."""
    garment = made("slit")
    rows = chalk_rows(garment.lays[0], garment.draft.pieces, "cm")
    corners = {(row.step, row.letter): (row.across, row.along) for row in rows if row.what == "corner"}
    noted = [row for row in rows if "on the line of" in row.note]
    assert noted
    for row in noted:
        ends, steps = row.note.split("; ")[-1].split(" on the line of ")
        side = LineString([corners[row.step, letter] for letter in ends.split("–")])
        others = [int(n) for n in steps.split() if n.isdigit()]
        assert all(n < row.step for n in others)
        rings = [LineString([p for (n, _), p in corners.items() if n == other]) for other in others]
        assert any(ring.distance(side) < 0.1 for ring in rings)
