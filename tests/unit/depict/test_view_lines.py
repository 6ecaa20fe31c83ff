"""The drawn garment against its own pieces: every seam at its height and place, every fastening where it is marked."""

from __future__ import annotations

import itertools
import math
import xml.etree.ElementTree as ET
from collections.abc import Iterable
from typing import Any

import pytest
from shapely import Polygon, union_all

from ellwand import prove_sheet
from ellwand.adorn.closures.closings import TAIL
from ellwand.depict.view import garment_view
from ellwand.geometry.lines import Line, Point, length
from ellwand.model.draft import Draft
from ellwand.model.drawing import Stroke
from ellwand.model.heraldry import TINCTURES
from ellwand.model.piece import Edge, Piece
from ellwand.publish.garment_svg import garment_svg
from sheets import sheet

SHOULDER: dict[str, Any] = {"body": {"cut": "shoulder panels"}}
LACED: dict[str, Any] = {"style": "gored gown", "closures": [{"at": "centre-front", "by": "lacing", "to": "waist"}]}


def drafted(**garment: Any) -> Draft:
    return prove_sheet(sheet(garment)).draft


def of(strokes: Iterable[Stroke], *roles: str) -> list[Stroke]:
    return [stroke for stroke in strokes if stroke.role in roles]


def front_of(piece: Piece, edge: Edge, top: float) -> Line | None:
    """An edge of a panel as it stands above the hem, x as it is drawn; None where some of it is of the back."""
    level = piece.levels[0]
    line = tuple((x, y - level.base_y) for x, y in edge.points)
    return line if all(-1e-6 <= y <= top + 1e-6 for _, y in line) else None


def same_line(drawn: Line, edge: Line) -> bool:
    """Whether the drawn line is the edge, moved sideways and perhaps seen from its other side (0.1 mm)."""
    for sign, line in itertools.product((1, -1), (edge, edge[::-1])):
        if len(drawn) == len(line):
            dx = drawn[0][0] - sign * line[0][0]
            if all(math.dist(a, (sign * x + dx, y)) < 0.01 for a, (x, y) in zip(drawn, line, strict=True)):
                return True
    return False


@pytest.mark.parametrize(
    "garment",
    [
        {**SHOULDER, "gores": []},
        {"gores": [], "body": {"pieced": 30}},
        {"gores": [], "division": {"by": "quarterly", "tinctures": ["gules", "argent"]}},
        {"gores": [], "division": {"by": "per chevron", "tinctures": ["or", "azure"]}},
        {"body": {"centre_seam": "both"}, "gores": [{"place": "side", "start": "waist", "base": 50}]},
    ],
)
def test_seams_are_the_edges_of_the_pieces_moved_rigidly(garment: dict[str, Any]) -> None:
    draft = drafted(**garment)
    drawn = [stroke.points for stroke in of(garment_view(draft, "front").strokes, "seam")]
    kinds = ("panel seam", "piecing seam", "division seam", "centre seam", "gore seam")
    found = 0
    for piece in draft.pieces:
        if not piece.name.startswith(("front", "body")) or not piece.levels:
            continue
        for edge in piece.edges:
            line = front_of(piece, edge, draft.dimensions.length) if edge.kind in kinds else None
            if line and not edge.id.startswith("back"):
                found += 1
                assert any(same_line(each, line) for each in drawn), (piece.id, edge.id)
    assert found or garment.get("body", {}).get("pieced")
    if not found:
        # pieced strips go over the shoulder: their seams are as far from the middle as the strips are wide
        whole = next(p for p in draft.pieces if p.id == "body")
        wide = max(x for x, _ in whole.sewn) - min(x for x, _ in whole.sewn)
        upright = sorted({round(line[0][0], 3) for line in drawn if abs(line[0][0] - line[-1][0]) < 1e-3})
        assert any(b - a == pytest.approx(wide, abs=0.01) for a, b in itertools.combinations(upright, 2))


@pytest.mark.parametrize("face", ["front", "back"])
def test_a_panel_lies_at_its_width_and_its_seams_on_both_sides(face: Any) -> None:
    draft = drafted(**SHOULDER, gores=[])
    half = draft.dimensions.panel_width / 2
    xs = sorted(stroke.points[0][0] for stroke in of(garment_view(draft, face).strokes, "seam"))
    assert xs == pytest.approx([-half, half], abs=0.01)


def test_a_shaped_armhole_is_drawn_as_it_is_cut() -> None:
    draft = drafted(**SHOULDER, sleeve={"head": "shaped"})
    (body,) = (piece for piece in draft.pieces if piece.id == "body")
    (edge,) = (edge for edge in body.edges if edge.id == "front-left-armhole")
    middle = (min(x for x, _ in body.sewn) + max(x for x, _ in body.sewn)) / 2
    cut = [(x - middle, y - body.levels[0].base_y) for x, y in edge.points]
    assert len(cut) > 5 and max(x for x, _ in cut) - min(x for x, _ in cut) > 0.5
    trunk = max(of(garment_view(draft, "front").strokes, "garment"), key=lambda s: Polygon(s.points).area)
    for point in cut:
        assert min(math.dist(point, there) for there in trunk.points) < 0.01


def test_sloping_shoulders_slope() -> None:
    draft = drafted(body={"shoulder": "seam", "shoulder_slope": 4})
    size = draft.dimensions
    heavy = of(garment_view(draft, "front").strokes, "outline")
    points = [point for stroke in heavy for point in stroke.points]
    assert min(math.dist(p, (size.panel_width / 2, size.length - 4)) for p in points) < 0.01
    assert not any(p[1] > size.length - 3.9 and abs(p[0]) > size.panel_width / 2 - 0.5 for p in points)


def centres(strokes: Iterable[Stroke]) -> list[Point]:
    out = []
    for stroke in of(strokes, "fastening"):
        xs, ys = zip(*stroke.points, strict=True)
        out.append(((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2))
    return out


def test_eyelets_lie_where_they_are_marked() -> None:
    draft = drafted(**LACED)
    (piece,) = (p for p in draft.pieces if p.name == "front half")
    found = sorted(centres(garment_view(draft, "front").strokes))
    low = min(x for x, _ in piece.sewn)
    base = piece.levels[0].base_y
    want = []
    for mark in piece.marks:
        # a half is drawn as the wearer's left, which lies at the viewer's right
        sides = (1,) if mark.part == "front-left" else (-1,) if mark.part else (1, -1)
        want += [(side * (mark.at[0] - low), mark.at[1] - base) for side in sides]
    assert len(found) == len(want) == draft.closings[0].pieces
    for a, b in zip(found, sorted(want), strict=True):
        assert math.dist(a, b) < 0.05
    assert not centres(garment_view(draft, "back").strokes)


@pytest.mark.parametrize("way", ["spiral", "crossed", "ladder"])
def test_a_lace_is_drawn_as_long_as_it_must_be(way: str) -> None:
    draft = drafted(style="gored gown", closures=[{"at": "centre-back", "by": "lacing", "to": "hip", "lacing": way}])
    laces = of(garment_view(draft, "back").strokes, "lace")
    (closing,) = draft.closings
    drawn = math.fsum(length(stroke.points) for stroke in laces)
    assert drawn == pytest.approx(closing.cord - 2 * TAIL, abs=0.05)


@pytest.mark.parametrize("by", ["buttons", "ties", "loops", "hooks", "pins", "lacing"])
@pytest.mark.parametrize("at", ["centre-front", "cuffs", "side"])
def test_every_closure_is_seen(at: str, by: str) -> None:
    garment = {"style": "gored gown", "closures": [{"at": at, "by": by}], "sleeve": {"cuff": "close"}}
    draft = drafted(**garment)
    assert draft.closings
    bare = len(of(garment_view(drafted(**{**garment, "closures": []}), "front").strokes, "lace", "fastening"))
    assert len(of(garment_view(draft, "front").strokes, "lace", "fastening")) > bare


def sweep_of(draft: Draft) -> float:
    by_id = {piece.id: piece for piece in draft.pieces}
    return math.fsum(
        length(edge.points) for part in draft.parts for edge in by_id[part.piece].edges if edge.kind == "hem"
    )


def test_wider_garments_are_drawn_wider() -> None:
    places: list[list[dict[str, Any]]] = [
        [],
        [{"place": "side", "base": 20}],
        [{"place": "side", "base": 50}],
        [{"place": "side", "base": 50}, {"place": "centre-front", "base": 40}],
        [{"place": "side", "base": 60}, {"place": "centre-front", "base": 60}, {"place": "centre-back", "base": 60}],
        [{"place": "side", "base": 90}, {"place": "panel-front", "base": 40}, {"place": "panel-back", "base": 40}],
    ]
    rows = []
    for gores in places:
        draft = drafted(length="ankle", gores=[{"start": "waist", **gore} for gore in gores])
        lines = [point for stroke in of(garment_view(draft, "front").strokes, "outline") for point in stroke.points]
        xs = [x for x, y in lines if y < 0.5 * draft.dimensions.length]
        rows.append((sweep_of(draft), max(xs) - min(xs)))
    assert rows == sorted(rows)
    assert [wide for _, wide in rows] == sorted(wide for _, wide in rows)


@pytest.mark.parametrize(
    "garment", [{"body": {"back_longer": 12}}, {"style": "gored gown", "length": "floor", "train": 40}]
)
def test_a_longer_back_is_seen_from_both_sides(garment: dict[str, Any]) -> None:
    draft = drafted(**garment)
    dip = draft.dimensions.back_dip
    front, back = (garment_view(draft, face).strokes for face in ("front", "back"))
    assert min(y for s in of(back, "outline") for _, y in s.points) == pytest.approx(-dip, abs=1.5)
    assert min(y for s in of(front, "garment back") for _, y in s.points) == pytest.approx(-dip, abs=1.5)
    assert min(y for s in of(front, "outline") for _, y in s.points) > -0.5 * dip


@pytest.mark.parametrize(
    "style", ["tunic", "gored gown", "riding surcote", "hood", "cloak", "coif", "apron", "breeches"]
)
def test_the_outline_is_heavier_than_seams_and_they_than_stitching(style: str) -> None:
    from ellwand.publish.pens import PENS

    strokes = garment_view(drafted(style=style), "front").strokes
    assert of(strokes, "outline")
    assert PENS["outline"].width > PENS["opening"].width > PENS["seam"].width > PENS["stitching"].width


NAMED = "{http://www.w3.org/2000/svg}"


def test_the_picture_tells_what_it_shows() -> None:
    root = ET.fromstring(garment_svg(prove_sheet(sheet(LACED))))
    title, told = (root.findtext(f"{NAMED}{name}") or "" for name in ("title", "desc"))
    assert root.get("role") == "img"
    assert "Joan Netmaker" in title and "gored gown" in title
    assert "138.5" in told and "4 gores" in told and "Centre front" in told


def test_the_picture_is_in_colours_where_the_garment_has_any() -> None:
    divided = {"division": {"by": "quarterly", "tinctures": ["gules", "argent"]}}
    plain, coloured = (garment_svg(prove_sheet(sheet(each))) for each in ({}, divided))
    assert 'class="gules"' in coloured and "Quarterly gules and argent" in coloured
    assert not any(f'class="{tincture}"' in plain for tincture in TINCTURES)


def test_a_gusset_is_of_its_own_tincture() -> None:
    draft = drafted(division={"by": "per pale", "tinctures": ["gules", "or"]})
    half, arm = draft.dimensions.panel_width / 2, draft.dimensions.length - draft.dimensions.armhole
    shapes = of(garment_view(draft, "front", "colours").strokes, "gules", "or")
    for sign, tincture in ((-1, "gules"), (1, "or")):
        at = Polygon([(sign * (half + dx), arm - dy) for dx, dy in ((0.5, 1.0), (1.0, 1.5), (0.5, 2.0))])
        assert [s.role for s in shapes if Polygon(s.points, s.holes).buffer(0).contains(at)][-1] == tincture


def repeat(along: str) -> dict[str, Any]:
    return {"motif": "roundel", "along": along, "size": [3, 5], "by": "stencil"}


@pytest.mark.parametrize(
    ("along", "garment"),
    [
        ("splits", {"length": "ankle", "gores": [], "splits": [{"place": "side", "height": "hip"}]}),
        ("armholes", {"sleeve": {"shape": "none"}}),
        ("hem", {"gores": [], "splits": [{"place": "side", "height": "hip"}]}),
    ],
)
def test_motifs_on_edges_of_panels_lie_where_they_are_placed(along: str, garment: dict[str, Any]) -> None:
    draft = drafted(**garment, repeats=[repeat(along)])
    (body,) = (piece for piece in draft.pieces if piece.id == "body")
    middle = (min(x for x, _ in body.sewn) + max(x for x, _ in body.sewn)) / 2
    base, top = body.levels[0].base_y, draft.dimensions.length
    want = [
        (each.point[0] - middle, each.point[1] - base)
        for found in draft.adornment.repeats
        for each in found.placements
        if not each.again and each.part == "body" and each.point[1] - base < top
    ]
    shapes = [Polygon(s.points, s.holes) for s in of(garment_view(draft, "front").strokes, "motif")]
    assert len(want) > 3
    for x, y in want:
        near = [shape for shape in shapes if math.dist((x, y), (shape.centroid.x, shape.centroid.y)) < 3]
        assert near and any(math.dist((x, y), c.coords[0]) < 0.6 for c in (shape.envelope.centroid for shape in near))
    for shape in shapes:
        assert min(math.dist(at, (shape.centroid.x, shape.centroid.y)) for at in want) < 3


def test_a_straight_hem_is_level_and_an_arc_is_not() -> None:
    lows = {}
    for hem in ("arc", "straight"):
        draft = drafted(length="ankle", gores=[{"place": "centre-front", "start": "waist", "base": 60, "hem": hem}])
        trunk = max(of(garment_view(draft, "front").strokes, "garment"), key=lambda s: Polygon(s.points).area)
        inner = [y for x, y in trunk.points if abs(x) < 10 and y < 30]
        lows[hem] = max(inner) - min(inner)
    assert lows["straight"] < 0.01 < 0.4 < lows["arc"]


@pytest.mark.parametrize("by", ["gyronny", "per saltire", "barry", "chequy"])
def test_a_divided_body_is_of_some_tincture_everywhere(by: str) -> None:
    """Its sides too, whatever their breadth is written as."""
    for ease in (10, 10.1, 12.3):
        draft = drafted(
            body={"cut": "shoulder panels", "ease": ease}, division={"by": by, "tinctures": ["or", "gules"]}, gores=[]
        )
        strokes = garment_view(draft, "front", "colours").strokes
        trunk = max(of(strokes, "garment"), key=lambda s: Polygon(s.points).area)
        coloured = union_all([Polygon(s.points, s.holes).buffer(0) for s in of(strokes, "or", "gules")])
        assert Polygon(trunk.points).buffer(0).difference(coloured).area < 1
