"""Chalk list and lay drawing against the placements themselves, moved by shapely's affinity."""

from __future__ import annotations

import math
from functools import cache

import pytest
from shapely import Polygon
from shapely.affinity import rotate, scale, translate

from ellwand.depict.chalk import ChalkRow, chalk_rows
from ellwand.depict.laying import lay_drawing
from ellwand.model.garment import Garment
from ellwand.model.lay import Placement
from ellwand.model.piece import Piece
from ellwand.pipeline import make
from sheets import sheet

GORES = [{"place": p, "start": "waist", "base": 40} for p in ("side", "centre-front")]
KINDS = {
    "slit": {"gores": GORES},
    "halves": {"gores": [{**GORES[0], "make": "halves"}], "body": {"centre_seam": "both"}, "neck": {"slit": "left"}},
    "panels": {"body": {"cut": "shoulder panels", "flare": 12}, "sleeve": {"shape": "fitted forearm"}},
    "seamed": {"body": {"shoulder": "seam"}, "neck": {"shape": "boat"}, "sleeve": {"shape": "none"}},
}


@cache
def made(kind: str) -> Garment:
    return make(sheet(KINDS[kind]), seconds=0.3)


def lies(piece: Piece, place: Placement) -> Polygon:
    shape = Polygon(piece.cut, piece.cut_holes)
    if place.flip:
        shape = scale(shape, -1, 1, origin=(0, 0))
    return translate(rotate(shape, place.turn, origin=(0, 0)), place.x, place.y)


def expected(garment: Garment) -> list[Polygon]:
    pieces = {p.id: p for p in garment.draft.pieces}
    return [lies(pieces[p.piece], p) for p in garment.lays[0].placements]


@pytest.mark.parametrize("kind", KINDS)
def test_drawn_outlines_are_the_placed_pieces(kind: str) -> None:
    garment = made(kind)
    drawing = lay_drawing(garment.lays[0], garment.draft.pieces, "cm")
    drawn = [Polygon(s.points, s.holes) for s in drawing.strokes if s.role == "cut"]
    for a, b in zip(drawn, expected(garment), strict=True):
        assert a.symmetric_difference(b).area < 1e-6


@pytest.mark.parametrize("kind", KINDS)
def test_lying_is_a_quarter_turn_and_no_mirror(kind: str) -> None:
    garment = made(kind)
    drawing = lay_drawing(garment.lays[0], garment.draft.pieces, "cm", lying=True)
    drawn = [Polygon(s.points, s.holes) for s in drawing.strokes if s.role == "cut"]
    for a, b in zip(drawn, expected(garment), strict=True):
        assert a.symmetric_difference(rotate(b, -90, origin=(0, 0))).area < 1e-6


def rebuilt(rows: list[ChalkRow]) -> Polygon:
    """The outline as a maker chalks it: corners joined in turn, arcs swung about their points."""
    corners = {row.letter: (row.across, row.along) for row in rows if row.what == "corner"}
    arcs = {row.letter: row for row in rows if row.what == "arc"}
    letters = list(corners)
    ring = []
    for here, there in zip(letters, [*letters[1:], letters[0]], strict=True):
        ring.append(corners[here])
        row = arcs.get(f"{here}–{there}")
        if row is None:
            continue
        a, b = (math.atan2(corners[k][1] - row.along, corners[k][0] - row.across) for k in (here, there))
        sweep = (b - a + math.pi) % (2 * math.pi) - math.pi
        turns = [a + sweep * i / 60 for i in range(1, 60)]
        ring += [(row.across + row.radius * math.cos(t), row.along + row.radius * math.sin(t)) for t in turns]
    return Polygon(ring)


@pytest.mark.parametrize("kind", ["slit", "panels"])
def test_the_chalk_list_gives_the_pieces_back(kind: str) -> None:
    """Slits and necks apart: their own rows say how they are cut afterwards."""
    garment = made(kind)
    rows = chalk_rows(garment.lays[0], garment.draft.pieces, "cm")
    shapes = expected(garment)
    for step in {row.step for row in rows}:
        shape = rebuilt([row for row in rows if row.step == step])
        nearest = min(Polygon(s.exterior).symmetric_difference(shape).area for s in shapes)
        slit = max(row.to_along + row.along for row in rows) if any(row.what == "slit" for row in rows) else 0
        assert nearest < 0.5 + 0.2 * slit


@pytest.mark.parametrize("kind", KINDS)
def test_it_starts_at_the_cut_end(kind: str) -> None:
    garment = made(kind)
    rows = chalk_rows(garment.lays[0], garment.draft.pieces, "cm")
    firsts = [next(row.along for row in rows if row.step == n) for n in sorted({row.step for row in rows})]
    assert len(firsts) == len(garment.lays[0].placements)
    assert all(row.along > -1 for row in rows if row.what == "corner")
    assert [row.step for row in rows] == sorted(row.step for row in rows)
