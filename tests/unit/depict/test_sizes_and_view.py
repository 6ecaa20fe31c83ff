"""Sizes read off pieces against closed forms and the draft's own numbers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from shapely import LineString, Polygon

from ellwand.depict.outline import circle, corners, slits, trace
from ellwand.depict.pieces import piece_drawing
from ellwand.depict.shopping import shopping_rows
from ellwand.depict.sizes import extent, marks, neck_hole
from ellwand.depict.spread import drawing_bounds, pieces_sheet
from ellwand.depict.view import garment_view
from ellwand.errors import BadInput
from ellwand.geometry.flare import flare
from ellwand.model.draft import Draft
from ellwand.model.garment import Garment
from ellwand.model.piece import Piece
from ellwand.pipeline import make, prove_sheet
from ellwand.units import format_length
from sheets import sheet
from strategies import garments

GORES = [{"place": p, "start": "waist", "base": 40} for p in ("side", "centre-front")]


def drafted(**garment: object) -> Garment:
    return prove_sheet(sheet(garment))


def named(draft: Draft, name: str) -> Piece:
    return next(piece for piece in draft.pieces if piece.name == name)


def test_a_sector_is_two_sides_and_an_arc_of_known_radius() -> None:
    """The lower edge of a flare is an arc about the point where its sides meet (plane geometry)."""
    shape = flare(0.0, 60.0, 40.0)
    stretches = trace((*shape.hem(), shape.point))
    assert [stretch.curved for stretch in stretches].count(True) == 1
    found = circle(next(s.points for s in stretches if s.curved))
    assert found is not None
    assert found.radius == pytest.approx(60.0, abs=1e-6)
    assert found.centre == pytest.approx(shape.point, abs=1e-6)
    assert len(corners(stretches)) == 3


def test_a_slit_is_no_corner() -> None:
    ring = ((0.0, 0.0), (9.9, 0.0), (10.0, 30.0), (10.1, 0.0), (20.0, 0.0), (20.0, 50.0), (0.0, 50.0))
    found = slits(trace(ring))
    assert [(slit.mouth, slit.tip) for slit in found] == [((10.0, 0.0), (10.0, 30.0))]
    assert len(corners(trace(ring))) == 4


def test_body_sizes_are_the_drafts_plus_allowances() -> None:
    garment = drafted(gores=GORES)
    size, sewing = garment.draft.dimensions, garment.choices.sewing
    body = named(garment.draft, "body")
    assert extent(body).bottom_width == pytest.approx(size.panel_width + 2 * sewing.allowance)
    assert extent(body).height == pytest.approx(2 * (size.length + sewing.hem))
    # gore, gusset and armhole follow each other up the side; the gore starts at the waist
    waist = next(e for e in body.edges if e.id == "front-left-side-gore").points[1][1]
    distances = {round(mark.distance, 4) for mark in marks(body)}
    assert round(waist, 4) in distances
    assert round(size.length + sewing.hem - size.armhole, 4) in distances


def test_neck_hole_is_its_sewn_size_less_the_allowance() -> None:
    garment = drafted(neck={"shape": "rectangle"})
    hole = neck_hole(named(garment.draft, "body"))
    assert hole is not None
    target, allowance = garment.draft.dimensions.neck_target, 1.0
    # a rectangle of 3 parts to 2, so 0.3 and 0.2 of its perimeter
    assert hole.width == pytest.approx(0.3 * target - 2 * allowance, abs=1e-3)
    assert hole.front + hole.back == pytest.approx(0.2 * target - 2 * allowance, abs=1e-3)


@pytest.mark.parametrize("seam", ["none", "front", "back", "both"])
@pytest.mark.parametrize("shoulder", ["fold", "seam"])
def test_labels_keep_clear_of_each_other(seam: str, shoulder: str) -> None:
    if shoulder == "fold" and seam in ("front", "back"):
        shoulder = "seam"
    garment = drafted(body={"centre_seam": seam, "shoulder": shoulder}, gores=GORES[:1])
    for piece in garment.draft.pieces:
        drawing = piece_drawing(piece, "cm", number=1, how="cut 2", scale=0.07)
        edges = [label for label in drawing.labels if label.role in ("edge", "name")]
        assert len({(label.at, label.text) for label in edges}) == len(edges)
        assert any(label.text == "1" for label in drawing.labels)


def test_every_piece_fits_the_sheet_at_one_scale() -> None:
    garment = drafted(gores=GORES)
    placed = pieces_sheet(garment.draft, "cm", 18.6, 17.0)
    x0, y0, x1, y1 = drawing_bounds(placed.drawing, placed.scale)
    assert (x1 - x0) * placed.scale <= 18.6 + 1e-6
    assert (y1 - y0) * placed.scale <= 17.0 + 1e-6
    cuts = sorted(Polygon(s.points, s.holes).area for s in placed.drawing.strokes if s.role == "cut")
    assert cuts == pytest.approx(sorted(Polygon(p.cut, p.cut_holes).area for p in garment.draft.pieces))


@pytest.mark.parametrize("face", ["front", "back"])
@pytest.mark.parametrize("place", ["side", "centre-front", "panel-front", "centre-back"])
def test_the_picture_is_drawn_from_the_numbers(face: str, place: str) -> None:
    """The hem of both faces together is what the pieces' hems add up to; the body is as long and wide as drafted."""
    garment = drafted(gores=[{"place": place, "start": "waist", "base": 40}])
    size = garment.draft.dimensions
    view = garment_view(garment.draft, face)  # type: ignore[arg-type]
    trunk = max((s for s in view.strokes if s.role == "garment"), key=lambda s: Polygon(s.points).area)
    ys = [y for _, y in trunk.points]
    assert max(ys) == pytest.approx(size.length)
    at_arm = LineString([(-200, size.length - 1), (200, size.length - 1)]).intersection(Polygon(trunk.points))
    assert at_arm.bounds[2] - at_arm.bounds[0] == pytest.approx(size.panel_width, abs=1e-6)


@settings(max_examples=40)
@given(table=garments)
def test_any_garment_can_be_drawn(table: dict[str, object]) -> None:
    """Whatever can be drafted has a picture and a sheet of pieces on which each is numbered and measured."""
    try:
        draft = prove_sheet(sheet(table)).draft
    except BadInput:
        return
    assert garment_view(draft, "front").strokes and garment_view(draft, "back").strokes
    labels = [label.text for label in pieces_sheet(draft, "cm", 18.6, 17.0).drawing.labels]
    for number, piece in enumerate(draft.pieces, 1):
        assert labels.count(str(number)) >= 1
        assert format_length(extent(piece).bottom_width, mark=False) in labels
        assert format_length(extent(piece).height, mark=False) in labels


def test_shopping_says_width_shrinkage_price_and_thread() -> None:
    garment = make(sheet({}, cloth={"price": 12.5, "shrink_warp": 0.05}), seconds=0.2)
    rows = dict(shopping_rows(garment))
    assert "150 cm wide" in rows["cloth"] and "5% in length" in rows["cloth"]
    assert rows["price"].startswith(f"{12.5 * garment.lays[0].buy_length / 100:.2f}")
    metres = math.fsum(row.thread_m[1] for step in garment.steps for row in step.rows)
    assert metres <= float(rows["thread"].split("\u00a0")[0]) < metres + 10
