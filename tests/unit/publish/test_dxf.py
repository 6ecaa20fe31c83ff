"""DXF: read back by ezdxf and, for its numbers, by a reader of bare group codes; SVG by an XML parser."""

from __future__ import annotations

import io
import re
from collections import Counter
from dataclasses import replace
from functools import cache
from itertools import combinations
from xml.etree import ElementTree

import ezdxf
import ezdxf.recover
import pytest
from pattern_specimens import garment, off
from shapely import LineString, Polygon

from ellwand.depict.naming import all_parts
from ellwand.geometry.lines import area
from ellwand.publish.dxf import LAYERS, cutter_dxf, pattern_dxf
from ellwand.publish.svg_layers import pattern_svg

KINDS = ("tunic", "train", "child", "cloak", "hood", "scripts")
NEAR = 1e-6


@cache
def written(kind):
    return pattern_dxf(garment(kind))


def read(data):
    doc, auditor = ezdxf.recover.read(io.BytesIO(data))
    assert not auditor.errors and not auditor.fixes
    audit = doc.audit()
    assert not audit.errors and not audit.fixes
    return doc


def rings(block, layer):
    """Closed polylines of a layer, in cm."""
    found = [each for each in block.query("POLYLINE") if each.dxf.layer == layer and each.is_closed]
    return [tuple((x / 10, y / 10) for x, y, *_ in each.points()) for each in found]


def same(one, two):
    return len(one) == len(two) and all(
        abs(x - u) < NEAR and abs(y - v) < NEAR for (x, y), (u, v) in zip(one, two, strict=True)
    )


def blocks(doc):
    return [block for block in doc.blocks if not block.name.startswith("*")]


@pytest.mark.parametrize("kind", KINDS)
def test_a_block_for_each_piece_with_equal_geometry(kind):
    doc, pieces = read(written(kind)), garment(kind).draft.pieces
    assert len(blocks(doc)) == len(pieces)
    assert len(doc.modelspace().query("INSERT")) == len(pieces)
    for block, piece in zip(blocks(doc), pieces, strict=True):
        assert [same(piece.cut, ring) for ring in rings(block, "1")] == [True]
        for layer, wanted in (("11", piece.cut_holes), ("14", (piece.sewn, *piece.sewn_holes))):
            found = rings(block, layer)
            assert len(found) == len(wanted)
            assert all(same(one, two) for one, two in zip(wanted, found, strict=True))
        drill = [(p.dxf.location.x / 10, p.dxf.location.y / 10) for p in block.query("POINT[layer=='13']")]
        assert same([mark.at for mark in piece.marks], drill)


@pytest.mark.parametrize("kind", KINDS)
def test_every_point_is_a_turn_or_of_a_curve(kind):
    for block, piece in zip(blocks(read(written(kind))), garment(kind).draft.pieces, strict=True):
        told = [p.dxf.location for p in block.query("POINT") if p.dxf.layer in ("2", "3")]
        drawn = (piece.cut, *piece.cut_holes, piece.sewn, *piece.sewn_holes, *(g.points for g in piece.guides))
        assert len(told) == sum(map(len, drawn))
        (grain,) = block.query("LINE[layer=='7']")
        assert grain.dxf.start.x == pytest.approx(grain.dxf.end.x)
        assert grain.dxf.start.y < grain.dxf.end.y
        ends = [(each.x / 10, each.y / 10) for each in (grain.dxf.start, grain.dxf.end)]
        assert Polygon(piece.cut, piece.cut_holes).contains(LineString(ends))


def test_a_square_has_four_turns_and_an_arc_is_of_curve_points():
    doc = read(written("tunic"))
    kinds = {block.name: Counter(p.dxf.layer for p in block.query("POINT")) for block in blocks(doc)}
    gusset = next(count for name, count in kinds.items() if name.endswith("GUSSET"))
    assert gusset["2"] == 8 and gusset["3"] == 0
    gore = next(count for name, count in kinds.items() if "GORE" in name)
    assert gore["3"] > 20


@pytest.mark.parametrize("kind", ["tunic", "scripts"])
def test_it_says_what_it_is(kind):
    doc = read(written(kind))
    style = [text.dxf.text for text in doc.modelspace().query("TEXT[layer=='1']")]
    assert "UNITS: METRIC" in style
    assert "STYLE NAME: tunic" in style
    assert f"SAMPLE SIZE: {garment(kind).wearer.name}" in style
    for block, piece in zip(blocks(doc), garment(kind).draft.pieces, strict=True):
        texts = [text.dxf.text for text in block.query("TEXT[layer=='1']")]
        assert f"PIECE NAME: {piece.name}" in texts
        assert f"QUANTITY: {piece.count}" in texts
        assert any(text.dxf.text.startswith(piece.name) for text in block.query("TEXT[layer=='15']"))
    assert {layer.dxf.name for layer in doc.layers} >= set(LAYERS)


def pairs(data):
    lines = data.decode("ascii").split("\r\n")
    return list(zip(map(str.strip, lines[::2]), lines[1::2], strict=False))


def test_the_bare_file_holds_millimetres():
    """Read by group codes alone: the first piece's first corners."""
    codes = pairs(written("hood"))
    start = next(i for i, pair in enumerate(codes) if pair == ("0", "VERTEX"))
    numbers = [float(value) for code, value in codes[start : start + 60] if code in ("10", "20")]
    wanted = [10 * side for point in garment("hood").draft.pieces[0].cut for side in point]
    assert numbers[:6] == pytest.approx(wanted[:6], abs=1e-5)
    assert ("1", "AC1009") in codes


@pytest.mark.parametrize("make", [pattern_dxf, cutter_dxf])
def test_same_garment_same_bytes_and_no_clock(make):
    data = make(garment("train"))
    assert data == make(garment("train"))
    assert not re.search(rb"\d{4}-\d\d-\d\dT", data)


def test_names_longer_than_a_block_may_have_stay_apart():
    told = garment("hood")
    pieces = tuple(replace(piece, id=f"{'very-long-' * 6}{i}") for i, piece in enumerate(told.draft.pieces))
    parts = tuple(
        replace(part, piece=pieces[[p.id for p in told.draft.pieces].index(part.piece)].id) for part in told.draft.parts
    )
    doc = read(pattern_dxf(replace(told, draft=replace(told.draft, pieces=pieces, parts=parts))))
    assert len({block.name for block in blocks(doc)}) == len(pieces)
    assert all(len(block.name) <= 31 for block in blocks(doc))


@pytest.mark.parametrize("kind", ["tunic", "train"])
def test_a_cutter_gets_every_part_once_in_mm(kind):
    doc, told = read(cutter_dxf(garment(kind))), garment(kind).draft
    assert doc.header["$INSUNITS"] == 4
    found = rings(doc.modelspace(), "CUT")
    assert len(found) == len(doc.modelspace())
    known = {piece.id: piece for piece in told.pieces}
    wanted = [known[part.piece] for part in all_parts(told)]
    assert len(wanted) == sum(piece.count for piece in told.pieces)
    assert sorted(round(area(ring), 4) for ring in found) == sorted(
        round(area(ring), 4) for piece in wanted for ring in (piece.cut, *piece.cut_holes)
    )
    outer = [Polygon(ring) for ring in found if area(ring) > 0]
    assert all(one.distance(two) > 1 for one, two in combinations(outer, 2))


SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("kind", ["tunic", "train"])
def test_svg_in_mm_with_layers(kind):
    root = ElementTree.fromstring(pattern_svg(garment(kind)))
    assert root.get("width") == f"{float(root.get('viewBox').split()[2]):.3f}mm"
    groups = {group.get("id"): group for group in root.iter(f"{SVG}g")}
    assert list(groups) == ["pieces", "allowances", "texts"]
    drawn = []
    for path in groups["pieces"].iter(f"{SVG}path"):
        for part in path.get("d").split("M")[1:]:
            points = re.findall(r"([-\d.]+) ([-\d.]+)", part)
            drawn.append(tuple((float(x) / 10, -float(y) / 10) for x, y in points))
    for piece in garment(kind).draft.pieces:
        for ring in (piece.cut, *piece.cut_holes):
            assert min(off(line, ring) for line in drawn) < 0.001
