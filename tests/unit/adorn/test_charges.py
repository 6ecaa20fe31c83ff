"""Charges on real garments: where they lie, what is cut for them, and what cannot be done."""

from __future__ import annotations

import json
import math
from typing import Any, get_args

import pytest
from shapely import LineString, Polygon, box, union_all
from shapely.affinity import translate

from ellwand import make, prove_sheet
from ellwand.adorn.charges.shapes import CHARGES, plain_charge
from ellwand.depict import words
from ellwand.errors import BadInput, CannotDraft
from ellwand.model.draft import Draft
from ellwand.model.heraldry import PLAIN_CHARGES, Charge, Ordinary
from ellwand.model.neckline import necklines
from ellwand.publish.garment_json import garment_json
from independent import faults
from sheets import sheet

FESS = {"ordinary": "fess", "tincture": "or"}


def draft(*charges: dict[str, Any], **garment: Any) -> Draft:
    return prove_sheet(sheet({"charges": list(charges), **garment})).draft


def shape(charge: Charge) -> Any:
    return union_all([Polygon(region.ring, region.holes) for region in charge.regions])


def applied(found: Draft, tincture: str) -> list[Any]:
    return [piece for piece in found.pieces if piece.tincture == tincture]


def test_without_charges_nothing_changes() -> None:
    bare = draft()
    assert bare.adornment.charges == ()
    assert all(piece.kind == "shell" for piece in bare.pieces)


def test_a_fess_is_cut_once_for_each_face_and_its_ends_go_into_the_side_seams() -> None:
    found = draft({**FESS, "on": "both"})
    (piece,) = applied(found, "or")
    assert (piece.kind, piece.count, piece.name) == ("applied", 2, "fess or")
    # caught at both ends, turned under above and below
    assert sorted(edge.allowance for edge in piece.edges) == [1.0, 1.0, 1.5, 1.5]
    width, height = (max(p[i] for p in piece.sewn) - min(p[i] for p in piece.sewn) for i in (0, 1))
    assert width == pytest.approx(found.dimensions.panel_width)
    # a third of the height, to the chalk grid
    assert height == pytest.approx(found.dimensions.length / 3, abs=found.dimensions.grid / 2 + 1e-6)


@pytest.mark.parametrize("ordinary", get_args(Ordinary))
def test_ordinaries_keep_clear_of_neck_slit_and_hem(ordinary: Ordinary) -> None:
    found = draft({"ordinary": ordinary, "tincture": "gules", "on": "both"})
    size = found.dimensions
    for charge in found.adornment.charges:
        neck = necklines(found)[charge.face]
        open_ = Polygon([*neck, (neck[-1][0], 999.0), (-neck[-1][0], 999.0), *((-x, y) for x, y in reversed(neck))])
        assert shape(charge).distance(open_.buffer(0)) > 1.0 - 0.02
        assert shape(charge).bounds[1] >= found.choices.sewing.hem + 1.0 - 1e-6
        if charge.face == "front":
            deep = min(y for _, y in neck)
            assert shape(charge).distance(LineString([(0, deep), (0, deep - size.neck_slit)])) > 1.0 - 0.02


@pytest.mark.parametrize("side", ["left", "right", "centre"])
@pytest.mark.parametrize("neck", ["round", "rectangle", "square", "oval"])
def test_a_slit_at_a_side_is_left_free_where_it_is_cut(neck: str, side: str) -> None:
    found = draft(
        {"ordinary": "chief", "tincture": "gules"}, neck={"shape": neck, "slit": side}, body={"centre_seam": "none"}
    )
    body = next(piece for piece in found.pieces if piece.id == "body")
    middle, level = (min(x for x, _ in body.sewn) + max(x for x, _ in body.sewn)) / 2, body.levels[0].base_y
    lips = [edge.points for edge in body.edges if edge.kind == "neck slit"]
    assert lips
    for lip in lips:
        cut = LineString([(x - middle, y - level) for x, y in lip])
        assert shape(found.adornment.charges[0]).distance(cut) >= 0.85


def test_a_back_is_the_front_in_a_mirror_so_that_dexter_stays_the_wearers_right() -> None:
    bend = {"ordinary": "bend", "tincture": "gules", "on": "both", "width": 0.15}
    front, back = draft(bend, neck={"shape": "boat", "slit": "none"}).adornment.charges
    # on the front the wearer's right shoulder is at the viewer's left, behind at the viewer's right
    high = {c.face: max((y, x) for r in c.regions for x, y in r.ring)[1] for c in (front, back)}
    assert high["front"] < 0 < high["back"]


def test_a_motif_behind_changes_its_side_but_not_its_shape() -> None:
    front, back = draft(
        {"motif": "crescent", "tincture": "argent", "on": "both", "place": "dexter chief"}
    ).adornment.charges
    far = shape(back).centroid.x - shape(front).centroid.x
    assert shape(front).centroid.x == pytest.approx(-far / 2, abs=0.01)
    assert far > 10
    assert translate(shape(front), far, 0.0).symmetric_difference(shape(back)).area < 0.01 * shape(back).area


def test_three_motifs_lie_two_and_one_and_are_one_piece_cut_three_times() -> None:
    found = draft({"motif": "roundel", "tincture": "sable", "number": 3})
    (piece,) = applied(found, "sable")
    assert piece.count == 3
    middles = [Polygon(region.ring).centroid for region in found.adornment.charges[0].regions]
    left, right, low = middles
    assert left.y == pytest.approx(right.y) and left.y > low.y
    assert left.x == pytest.approx(-right.x) and low.x == pytest.approx(0.0, abs=1e-6)


def test_what_is_sewn_on_is_what_is_shown() -> None:
    found = draft(
        {"ordinary": "saltire", "tincture": "gules", "on": "both"}, {"motif": "annulet", "tincture": "or", "number": 5}
    )
    pieces = {part.id: piece for part in found.applied for piece in found.pieces if piece.id == part.piece}
    for charge in found.adornment.charges:
        for region, part in zip(charge.regions, charge.parts, strict=True):
            sewn = Polygon(pieces[part].sewn, pieces[part].sewn_holes)
            assert Polygon(region.ring, region.holes).area == pytest.approx(sewn.area, rel=1e-6)


def test_a_bend_is_wider_where_something_lies_on_it() -> None:
    bend = {"ordinary": "bend", "tincture": "gules"}
    (plain,) = draft(bend).adornment.charges
    charged, roundel = draft(bend, {"motif": "roundel", "tincture": "or", "size": 0.1}).adornment.charges
    assert shape(charged).area > 1.4 * shape(plain).area
    assert roundel.on_charge == "bend" and roundel.upon == ("gules",)
    beside, _ = draft(
        bend, {"motif": "roundel", "tincture": "or", "size": 0.1, "place": "dexter base"}
    ).adornment.charges
    assert shape(beside).area == pytest.approx(shape(plain).area)


def test_the_tinctures_beneath_are_those_of_the_field() -> None:
    division = {"by": "per pale", "tinctures": ["gules", "azure"]}
    fess, heart = draft(
        FESS, {"motif": "heart", "tincture": "argent", "place": "dexter chief"}, division=division
    ).adornment.charges
    assert set(fess.upon) == {"gules", "azure"}
    # the first tincture is the wearer's right half
    assert heart.upon == ("gules",)


def test_charges_on_an_open_front_are_cut_in_two() -> None:
    found = draft(FESS, closures=[{"at": "centre-front", "by": "buttons"}], neck={"shape": "round"})
    (charge,) = found.adornment.charges
    assert len(charge.regions) == 2
    assert all(abs(x) >= 1.0 - 1e-6 for region in charge.regions for x, _ in region.ring)
    (piece,) = applied(found, "or")
    assert piece.count == 2


def test_gores_in_the_middle_are_left_free() -> None:
    gores = [{"place": "centre-front", "start": "waist"}]
    found = draft({"ordinary": "pale", "tincture": "or"}, gores=gores)
    waist = found.dimensions.levels["waist"]
    line = LineString([(0, 0), (0, waist)])
    assert shape(found.adornment.charges[0]).distance(line) >= 1.0 - 1e-6


def test_a_sleeveless_chief_leaves_the_armholes_free() -> None:
    chief = {"ordinary": "chief", "tincture": "or"}
    sleeved, bare = (draft(chief, sleeve={"shape": shape_}) for shape_ in ("straight", "none"))
    half = bare.dimensions.panel_width / 2
    above = box(-99, bare.dimensions.length - bare.dimensions.armhole, 99, 999)
    assert shape(sleeved.adornment.charges[0]).bounds[2] == pytest.approx(sleeved.dimensions.panel_width / 2)
    assert shape(bare.adornment.charges[0]).intersection(above).bounds[2] == pytest.approx(half - 1.0)


@pytest.mark.parametrize(
    ("charge", "says"),
    [
        ({"tincture": "or"}, "either an ordinary or a motif"),
        ({"ordinary": "fess", "motif": "roundel", "tincture": "or"}, "either an ordinary or a motif"),
        ({"motif": "mullet", "tincture": "or", "size": 0.8}, "no room for mullet"),
        ({"motif": "billet", "tincture": "or", "size": 0.28, "number": 6}, "6 times billet"),
        ({"motif": "knot", "tincture": "or", "size": 0.05}, "too fine"),
    ],
)
def test_what_cannot_be_done_is_said(charge: dict[str, Any], says: str) -> None:
    with pytest.raises(CannotDraft, match=says) as found:
        draft(charge)
    assert found.value.where.startswith("garment.charges") and found.value.mend


@pytest.mark.parametrize(
    ("charge", "says"),
    [
        ({"ordinary": "fes", "tincture": "or"}, "ordinary"),
        ({"motif": "roundle", "tincture": "or"}, 'perhaps "roundel"'),
        ({"ordinary": "fess", "tincture": "red"}, "tincture"),
        ({"ordinary": "fess", "tincture": "or", "number": 1.5}, "whole number"),
        ({"ordinary": "fess", "tincture": "or", "width": 30}, "0.9"),
        ({"ordinary": "fess"}, "tincture: this must be given"),
    ],
)
def test_bad_options_are_refused_by_name(charge: dict[str, Any], says: str) -> None:
    with pytest.raises(BadInput, match=says) as found:
        sheet({"charges": [charge]})
    assert found.value.where.startswith("garment.charges[1]")


def test_the_plain_charges_are_those_that_are_named_and_can_be_sewn_small() -> None:
    assert set(CHARGES) == set(PLAIN_CHARGES)
    for name in PLAIN_CHARGES:
        motif = plain_charge(name)
        assert motif is not None
        assert motif.size[1] == pytest.approx(1.0)
        (region,) = motif.regions
        # 12 cm high, some of it is broader than twice the allowance that is turned under
        assert not Polygon(region.ring, region.holes).buffer(-1.0 / 12).is_empty


def test_a_mullet_is_a_star_of_five_straight_rays() -> None:
    motif = plain_charge("mullet")
    assert motif is not None
    star = Polygon(motif.regions[0].ring)
    assert len(motif.regions[0].ring) == 10
    # between two points a flat triangle is missing, with 36 degrees at both of its ends, as in any pentagram
    points = star.convex_hull
    side = points.length / 5
    core = math.tan(math.radians(36)) * side**2 / 4
    assert points.area == pytest.approx(5 * side**2 / (4 * math.tan(math.radians(36))), rel=1e-6)
    assert star.area == pytest.approx(points.area - 5 * core, rel=1e-6)


def test_growing_garments_keep_charges_above_what_is_taken_up() -> None:
    child = {"sex": "female", "age": 7, "height": 122}
    garment = {"charges": [{"ordinary": "pale", "tincture": "or"}], "growth": {"months": 24}}
    found = prove_sheet(sheet(garment, wearer=child)).draft
    taken = found.taken_up
    assert taken is not None and taken.body > 0
    low = shape(found.adornment.charges[0]).bounds[1]
    assert low >= found.choices.sewing.hem + taken.body + 1.0 - 1e-6


def test_an_svg_drawing_of_the_makers_own_is_sewn_on() -> None:
    from ellwand.choose import read_sheet
    from sheets import JOAN, toml

    tables = {
        "wearer": JOAN,
        "garment": {"charges": [{"motif": "boat.svg", "tincture": "azure", "number": 2}]},
        "cloth": {"main": {"width": 150}},
    }
    svg = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20"><path d="M0 0 H40 L30 20 H10 Z"/></svg>'
    read = read_sheet(toml(tables).encode(), lambda name: 1.0, lambda name: svg)
    found = prove_sheet(read).draft
    (charge,) = found.adornment.charges
    assert (charge.name, len(charge.regions)) == ("boat", 2)
    boat = Polygon(charge.regions[0].ring)
    # a trapezium, twice as wide as high, its lower side half as long as its upper: three quarters of its box
    width, height = boat.bounds[2] - boat.bounds[0], boat.bounds[3] - boat.bounds[1]
    assert width == pytest.approx(2 * height) and boat.area == pytest.approx(0.75 * width * height)
    assert {part.id for part in found.applied} == set(charge.parts)


def test_on_a_narrow_cloth_a_charge_is_cut_in_strips_that_meet() -> None:
    charges = [{"ordinary": "saltire", "tincture": "gules"}, {"ordinary": "chief", "tincture": "or"}]
    wide, narrow = (make(sheet({"charges": charges}, cloth={"width": width}), seconds=0) for width in (150, 56))
    for one, other in zip(wide.draft.adornment.charges, narrow.draft.adornment.charges, strict=True):
        assert shape(one).symmetric_difference(shape(other)).area < 0.01 * shape(one).area
    assert [len(charge.regions) for charge in wide.draft.adornment.charges] == [1, 1]
    assert len(narrow.draft.adornment.charges[0].regions) > 1
    # the chief, lower than the cloth is wide, lies crosswise in one piece
    assert len(narrow.draft.adornment.charges[1].regions) == 1
    assert faults(json.loads(garment_json(narrow))) == []
    step = next(each for each in narrow.steps if each.code == "charges")
    assert "edge to edge" in words.step(step, narrow.draft, "cm")
