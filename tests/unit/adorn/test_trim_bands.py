"""Bands in numbers: against shapely's offsets, against the maker's worked example, and against each other."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon, unary_union

from ellwand import prove_sheet
from ellwand.adorn.bands.banded import EASES_BIAS, EASES_STRAIGHT
from ellwand.adorn.bands.lengths import corners_of, sides
from ellwand.adorn.runs.making import made
from ellwand.adorn.runs.places import runs_at
from ellwand.depict.words import mend
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, area
from ellwand.model.band import Band
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.model.run import Run, Stretch
from ellwand.prove.bands import EASES
from sheets import JOAN, sheet


def _garment(bands: list[dict[str, Any]], **garment: Any) -> Garment:
    return prove_sheet(sheet({**garment, "bands": bands}))


def _run(points: Line, cloth: str = "left") -> Run:
    return made("test", [Stretch("part", "edge", points, cloth)], [], closed=False, along="edge")  # type: ignore[arg-type]


# --- corners ------------------------------------------------------------------------------------------------

TURNS = st.lists(st.floats(35, 120).flatmap(lambda a: st.sampled_from([a, -a])), min_size=1, max_size=4)


def _zigzag(turns: list[float], long: float) -> Line:
    points, heading = [(0.0, 0.0), (long, 0.0)], 0.0
    for turn in turns:
        heading += math.radians(turn)
        x, y = points[-1]
        points.append((x + long * math.cos(heading), y + long * math.sin(heading)))
    return tuple(points)


@given(turn=st.floats(35, 140), away=st.booleans(), width=st.floats(0.5, 6.0))
def test_two_mitred_strips_tile_what_lies_within_the_band_s_width(turn: float, away: bool, width: float) -> None:
    """Each strip is drawn from the fold's angle alone, and both together are shapely's offset of the corner."""
    turn = -turn if away else turn
    line = _zigzag([turn], 40.0)
    (corner,) = corners_of(_run(line), width, "mitred")
    assert corner.turn == pytest.approx(turn)
    assert corner.at == pytest.approx(40.0)
    # how far the far side of each strip goes on past the corner, or stops short of it
    on = math.copysign(width / math.tan(math.radians(corner.fold)), -turn)
    strips = []
    for a, b, before, after in ((line[0], line[1], 0.0, on), (line[1], line[2], on, 0.0)):
        dx, dy = (b[0] - a[0]) / 40.0, (b[1] - a[1]) / 40.0
        far = [
            (b[0] - dy * width + dx * after, b[1] + dx * width + dy * after),
            (a[0] - dy * width - dx * before, a[1] + dx * width - dy * before),
        ]
        strips.append(Polygon([a, b, *far]))
    wanted = LineString(line).buffer(width, single_sided=True, join_style="mitre", mitre_limit=50)
    assert strips[0].intersection(strips[1]).area < 0.01
    assert unary_union(strips).symmetric_difference(wanted).area < 0.01
    assert corner.extra == pytest.approx(2 * max(on, 0.0))


@given(turns=TURNS, width=st.floats(0.5, 3.0))
def test_a_folded_strip_is_as_long_as_its_outer_sides(turns: list[float], width: float) -> None:
    run = _run(_zigzag(turns, 40.0))
    corners = corners_of(run, width, "mitred")
    lies = sides(run, width, corners)
    added = sum(2 * width * math.tan(math.radians(-turn) / 2) for turn in turns if turn < 0)
    assert lies.length == pytest.approx(40.0 * (len(turns) + 1) + added)
    assert lies.eased == pytest.approx(0.0, abs=1e-9)


@given(radius=st.floats(8, 80), angle=st.floats(0.3, 3.0), width=st.floats(0.5, 6.0), inside=st.booleans())
def test_the_sides_of_a_band_on_a_curve_are_as_long_as_shapely_s_offsets(
    radius: float, angle: float, width: float, inside: bool
) -> None:
    count = 400
    points = tuple(
        (radius * math.cos(angle * i / count), radius * math.sin(angle * i / count)) for i in range(count + 1)
    )
    run = _run(points, "left" if inside else "right")
    lies = sides(run, width, ())
    offset = LineString(points).offset_curve(width if inside else -width, quad_segs=64)
    told = sorted((lies.longer, lies.shorter))
    assert told == pytest.approx(sorted((LineString(points).length, offset.length)), abs=0.03)
    assert lies.length == pytest.approx(max(told))
    assert lies.eased == pytest.approx(max(told) - min(told))


def test_butted_strips_round_a_square_neck_cover_it_once() -> None:
    (band,) = _garment(
        [{"at": "neck", "width": 4, "corners": "butted"}], neck={"shape": "rectangle"}
    ).draft.adornment.bands
    assert math.fsum(band.strips) == pytest.approx(band.length)
    # the frame's area: 4 cm along all sides and a square in each corner
    assert band.length * band.width == pytest.approx(band.run.length * 4 + 4 * 4**2)


def test_bands_of_a_slit_s_edges_cross_at_its_point() -> None:
    draft = _garment([{"at": "neck slit", "width": 2}, {"at": "splits", "width": 3}], splits=[{"place": "side"}]).draft
    for band in draft.adornment.bands:
        assert band.length == pytest.approx(band.run.length + band.width)
        assert math.fsum(band.strips) == pytest.approx(band.length)


def test_corners_that_are_not_square_are_not_butted() -> None:
    with pytest.raises(CannotDraft, match=r"garment\.bands\[1\]\.corners: the corners at the neck are not square"):
        _garment([{"at": "neck", "corners": "butted"}], neck={"shape": "V"})


# --- strips ---------------------------------------------------------------------------------------------------

GARMENTS: Mapping[str, dict[str, Any]] = {
    "tunic": {},
    "panels": {"body": {"cut": "shoulder panels", "shoulder": "seam", "centre_seam": "both"}},
    "split": {"splits": [{"place": "side"}], "neck": {"shape": "rectangle"}},
    "gown": {"style": "wide-sleeved gown"},
}


@pytest.mark.parametrize("garment", GARMENTS.values(), ids=GARMENTS)
@pytest.mark.parametrize("cut", ["straight", "bias"])
def test_the_strips_are_the_band_and_their_allowances(garment: dict[str, Any], cut: str) -> None:
    bands = [{"at": at, "width": 2.5, "cut": cut} for at in ("neck", "cuffs", "hem")]
    made_up = _garment([*bands, {"at": "skirt ring", "height": 15, "width": 2, "cut": cut}], **garment)
    draft = made_up.draft
    allowance = draft.choices.sewing.allowance
    pieces = {piece.id: piece for piece in draft.pieces}
    cut_as = {part.id: pieces[part.piece] for part in draft.applied}
    for band in draft.adornment.bands:
        assert math.fsum(band.strips) == pytest.approx(band.length, abs=1e-6)
        assert len(band.parts) == len(band.strips) == len(band.joins) + (not band.run.closed)
        sewn = math.fsum(abs(area(cut_as[part].sewn)) for part in band.parts)
        assert sewn == pytest.approx(band.length * band.width, abs=0.02 * len(band.strips))
        whole = math.fsum(abs(area(cut_as[part].cut)) for part in band.parts)
        wide = band.width + 2 * band.turned
        assert whole == pytest.approx((band.length + 2 * allowance * len(band.strips)) * wide, abs=0.1)
        assert all(cut_as[part].kind == "applied" for part in band.parts)
    counted = {piece.id: sum(part.piece == piece.id for part in draft.applied) for piece in draft.pieces}
    assert all(piece.count == counted[piece.id] for piece in draft.pieces if piece.kind == "applied")


def test_ends_meet_out_of_sight() -> None:
    bands = _garment([{"at": at, "width": 1} for at in ("cuffs", "hem")]).draft.adornment.bands
    assert [band.joins[0].place for band in bands] == ["underarm seam", "underarm seam", "side"]
    long = _garment([{"at": "hem", "width": 1}]).draft.adornment.bands[0]
    assert max(long.strips) <= 120
    assert {join.place for join in long.joins} == {"side"}


def test_a_shaped_band_is_what_lies_within_its_width_of_the_edge() -> None:
    draft = _garment([{"at": "neck", "width": 5, "cut": "shaped"}], neck={"shape": "round", "slit": "none"}).draft
    (band,) = draft.adornment.bands
    (piece,) = (piece for piece in draft.pieces if piece.id == "neck-band")
    hole = LineString([point for stretch in band.run.stretches for point in stretch.points])
    ring = Polygon(hole.buffer(5, quad_segs=64).exterior).difference(Polygon(hole.coords))
    assert Polygon(piece.sewn, piece.sewn_holes).area == pytest.approx(ring.area, rel=0.003)


def test_a_garment_without_bands_stays_as_it_was() -> None:
    draft = prove_sheet(sheet({})).draft
    assert draft.adornment.bands == ()
    assert all(piece.kind == "shell" for piece in draft.pieces)
    assert all("band" not in guide.name for piece in draft.pieces for guide in piece.guides)


def test_chalk_lines_lie_as_deep_as_the_band_is_wide() -> None:
    ring = {"at": "skirt ring", "height": 25, "width": 1.5}
    draft = _garment([{"at": "hem", "width": 3}, {"at": "side seams", "width": 2}, ring]).draft
    body = next(piece for piece in draft.pieces if piece.id == "body")
    hems = unary_union([LineString(edge.points) for edge in body.edges if edge.kind == "hem"])
    seams = unary_union([LineString(edge.points) for edge in body.edges if edge.kind == "side seam"])
    deep = {"hem band": (hems, 3.0), "side seam band": (seams, 1.0)}
    assert {guide.name for guide in body.guides if "band" in guide.name} == {*deep, "skirt ring band"}
    rings = [guide for guide in body.guides if guide.name == "skirt ring band"]
    assert sorted({round(LineString(guide.points).distance(hems), 3) for guide in rings}) == [24.25, 25.75]
    for guide in body.guides:
        if guide.name in deep:
            edge, far = deep[guide.name]
            assert LineString(guide.points).distance(edge) == pytest.approx(far, abs=1e-3)


# --- rooms and bends --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("bands", "said"),
    [
        ([{"at": "cuffs", "width": 40}], r"bands\[1\]\.width: a band 40 cm wide runs out over the gusset"),
        ([{"at": "hem"}, {"at": "skirt ring", "height": 4, "width": 2}], r"bands\[2\]: it would lie on another band"),
        ([{"at": "cuffs"}, {"at": "arm ring", "height": 5, "width": 3}], r"bands\[2\]: it would lie on another band"),
        ([{"at": "neck"}, {"at": "neck", "width": 2}], r"bands\[2\]: it would lie on another band"),
        ([{"at": "skirt ring", "height": 150}], r"bands\[1\]\.height: a ring 150 cm above the hem does not go round"),
        ([{"at": "skirt ring"}], r"bands\[1\]\.height: skirt ring needs one"),
        ([{"at": "face"}], r"bands\[1\]\.at: this garment has no face"),
        ([{"at": "hem", "make": "cord", "width": 6}], r"bands\[1\]\.width: a cord 6 cm wide takes 5184 strands"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(bands: list[dict[str, Any]], said: str) -> None:
    with pytest.raises(CannotDraft, match=said) as refused:
        _garment(bands)
    assert "\n" not in str(refused.value)
    assert refused.value.mend


def _bends(bands: list[dict[str, Any]]) -> list[Finding]:
    return [found for found in _garment(bands).proof.findings if found.code == "band-bends"]


def test_what_bends_too_much_is_told_and_its_mends_are_true() -> None:
    (neck,) = _bends([{"at": "neck", "width": 4, "cut": "straight"}])
    assert neck.outcome == "look again"
    assert mend(neck, "cm").startswith('Choose bands.make = "cloth" and bands.cut = "shaped"')
    assert not _bends([{"at": "neck", "width": 4, "cut": "shaped"}])
    (hem,) = _bends([{"at": "hem", "width": 4, "cut": "straight"}])
    assert mend(hem, "cm").startswith('Make the band 1.5 cm wide or less, or choose bands.cut = "bias"')
    assert not _bends([{"at": "hem", "width": 1.5, "cut": "straight"}])
    assert not _bends([{"at": "hem", "width": 4, "cut": "bias"}])


def test_the_cut_that_is_chosen_is_one_that_lies_flat() -> None:
    assert EASES["straight"] == EASES_STRAIGHT
    assert EASES["bias"] == EASES_BIAS
    for width in (0.5, 1, 2, 4, 8):
        findings = _garment([{"at": at, "width": width} for at in ("neck", "cuffs", "hem")]).proof.findings
        assert not any(f.code == "band-bends" for f in findings)


def test_a_child_s_turned_up_hem_takes_its_band_with_it() -> None:
    child = {"sex": "female", "age": 7, "height": 122}
    growing = {"growth": {"months": 18, "by": "deep hem"}, "bands": [{"at": "hem", "width": 2}]}
    assert "band-taken-up" in {f.code for f in prove_sheet(sheet(growing, wearer=child)).proof.findings}
    growing["growth"] = {"months": 18, "by": "tucks"}
    assert "band-taken-up" not in {f.code for f in prove_sheet(sheet(growing, wearer=child)).proof.findings}


# --- beside the rest ------------------------------------------------------------------------------------------


def test_bands_of_a_cloth_of_their_own() -> None:
    from ellwand.choose import read_sheet
    from sheets import toml

    tables = {
        "wearer": JOAN,
        "garment": {"bands": [{"at": "cuffs", "width": 3}]},
        "cloth": {"main": {"width": 150}, "red": {"width": 90, "pieces": ["bands"]}},
    }
    draft = prove_sheet(read_sheet(toml(tables).encode(), lambda name: 1.0)).draft
    assert {piece.cloth for piece in draft.pieces if "band" in piece.name} == {"red"}
    assert {piece.cloth for piece in draft.pieces if "band" not in piece.name} == {"main"}


def test_a_cuff_band_is_as_long_as_the_wider_of_its_sides() -> None:
    """The sleeve widens above the cuff: the band's upper side is the sleeve's girth there."""
    draft = _garment([{"at": "cuffs", "width": 4, "cut": "straight"}]).draft
    band = draft.adornment.bands[0]
    (above, _) = runs_at(draft, "arm ring", 4.0)
    assert isinstance(band, Band)
    assert band.longer == pytest.approx(above.length, abs=0.05)
    assert band.shorter == pytest.approx(band.run.length)
