"""Motifs on real garments: upright as they are worn, mirrored where asked, refused with what would do."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest
from shapely import Polygon, affinity, union_all

from ellwand import prove_sheet
from ellwand.errors import BadInput, CannotDraft
from ellwand.loading import load_sheet
from ellwand.model.draft import Draft
from ellwand.model.motif import motif_area
from ellwand.model.repeat import Placement, Repeat, motif_rings
from sheets import JOAN, sheet, toml

PLAIN: dict[str, Any] = {"style": "tunic"}


def drafted(*repeats: dict[str, Any], **garment: Any) -> Draft:
    return prove_sheet(sheet({**PLAIN, **garment, "repeats": list(repeats)})).draft


def one(repeat: dict[str, Any], **garment: Any) -> tuple[Draft, Repeat]:
    found = drafted(repeat, **garment)
    return found, found.adornment.repeats[0]


def mirrored_as_worn(draft: Draft, placement: Placement) -> bool:
    part = next(part for part in draft.parts if part.id == placement.part)
    return placement.mirrored != part.mirrored


def up(placement: Placement) -> tuple[float, float]:
    """Which way the motif's upper side lies on its piece."""
    return -math.sin(math.radians(placement.angle)), math.cos(math.radians(placement.angle))


def test_nothing_changes_without_repeats() -> None:
    assert drafted() == prove_sheet(sheet(PLAIN)).draft
    bare, worn = drafted(), drafted({"motif": "roundel", "along": "hem"})
    assert (worn.pieces, worn.parts, worn.seams) == (bare.pieces, bare.parts, bare.seams)


@pytest.mark.parametrize("place", ["hem", "cuffs", "neck"])
def test_no_motif_is_turned_over_unasked(place: str) -> None:
    """Also on the sleeve that is cut the other way round."""
    draft = drafted({"motif": "pellets", "along": place, "size": [1.5, 2.5]})
    placements = [each for repeat in draft.adornment.repeats for each in repeat.placements]
    assert placements and not any(mirrored_as_worn(draft, each) for each in placements)
    if place == "cuffs":
        assert {each.mirrored for each in placements} == {True, False}


def test_upright_at_the_front_of_hem_and_neck() -> None:
    draft, hem = one({"motif": "fleuron", "along": "hem", "size": 4})
    first, edge = hem.placements[0], min(y for _, y in draft.pieces[0].sewn)
    assert up(first) == pytest.approx((0, 1))
    assert first.point[1] == pytest.approx(edge + 1 + hem.motif.size[1] / 2)
    _, neck = one({"motif": "fleuron", "along": "neck", "size": [2, 3]}, neck={"shape": "round"})
    middle = neck.placements[0]
    assert middle.at == pytest.approx(0, abs=1e-6)
    assert up(middle)[1] > 0.99


def test_the_right_half_mirrors_the_left() -> None:
    draft, hem = one({"motif": "vine-scroll", "along": "hem", "mirrored": True})
    assert {mirrored_as_worn(draft, each) for each in hem.placements} == {True, False}
    body = next(piece for piece in draft.pieces if piece.id == "body")
    xs = [x for x, _ in body.sewn]
    middle = (min(xs) + max(xs)) / 2
    shapes = [
        union_all([Polygon(ring, holes).buffer(0) for ring, holes in motif_rings(hem, each)])
        for each in hem.placements
        if each.part == "body"
    ]
    whole = union_all(shapes)
    other = affinity.scale(whole, -1, 1, origin=(middle, 0))
    assert whole.symmetric_difference(other).area < 0.02 * whole.area


def test_lips_of_an_opening_mirror_each_other() -> None:
    draft = drafted({"motif": "fleuron", "along": "neck slit", "size": [1, 2], "inset": 0.5}, neck={"shape": "keyhole"})
    left, right = draft.adornment.repeats
    body = next(piece for piece in draft.pieces if piece.id == "body")
    middle = sum(x for x, _ in body.sewn) / len(body.sewn)
    for a, b in zip(left.placements, right.placements, strict=True):
        assert a.point[0] - middle == pytest.approx(middle - b.point[0], abs=1e-6)
        assert a.point[1] == pytest.approx(b.point[1])
        # both stand with their foot to the slit
        assert up(a)[0] == pytest.approx(-up(b)[0])


def test_corner_motifs_stand_square_outside_a_square_neck() -> None:
    draft, neck = one({"motif": "key", "along": "neck", "size": [2, 3]}, neck={"shape": "square"})
    corners = [each for each in neck.placements if each.corner]
    assert len(corners) == 4 and neck.corner is not None and neck.corner.name == "key corner"
    side = math.sqrt(Polygon(draft.pieces[0].sewn_holes[0]).area)
    high = neck.motif.size[1]
    for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
        # middle to middle: the hole's side, and on both sides the inset and half a corner motif
        assert math.dist(a.point, b.point) == pytest.approx(side + 2 * (neck.chosen.inset + high / 2), rel=0.15)
    assert len({round(each.angle % 90, 3) % 90 for each in corners}) == 1


def test_what_is_painted_is_what_lies_there() -> None:
    _, hem = one({"motif": "roundel", "along": "hem", "clear_of_seams": True})
    drawn = [Polygon(ring, holes).area for each in hem.placements for ring, holes in motif_rings(hem, each)]
    assert hem.painted == pytest.approx(math.fsum(drawn)) == pytest.approx(hem.count * motif_area(hem.motif))


@pytest.mark.parametrize(
    ("repeat", "garment", "says"),
    [
        ({"motif": "roundel", "along": "splits"}, {}, "no splits"),
        ({"motif": "roundel", "along": "cuffs", "size": 14, "gap": 1}, {}, "a (size|gap) of"),
        ({"motif": "key", "along": "hem", "size": [6, 7]}, {}, "a size of"),
        ({"motif": "roundel", "along": "neck", "size": 4, "inset": 0, "gap": 0.2}, {}, "a (size|gap) of"),
        ({"motif": "roundel", "along": "centre-front"}, {"body": {"centre_seam": "front"}}, "is a seam"),
        ({"motif": "roundel", "along": "skirt ring", "height": 190}, {}, "does not go round"),
    ],
)
def test_refused_with_what_would_do(repeat: dict[str, Any], garment: dict[str, Any], says: str) -> None:
    with pytest.raises(CannotDraft, match=says) as caught:
        drafted(repeat, **garment)
    assert caught.value.where.startswith("garment.repeats[1]") and caught.value.mend


@pytest.mark.parametrize(
    "repeat",
    [
        {"motif": "key", "along": "hem", "size": [6, 7]},
        {"motif": "roundel", "along": "cuffs", "size": 14, "gap": 1},
    ],
)
def test_what_would_do_does(repeat: dict[str, Any]) -> None:
    with pytest.raises(CannotDraft) as caught:
        drafted(repeat)
    key, _, length = caught.value.mend.removeprefix("a ").removesuffix(" would do").partition(" of ")
    cm = float(length.removesuffix(" cm"))
    # the sentence gives millimetres
    changed = {**repeat, key: [cm - 0.06, cm + 0.06]}
    assert drafted(changed).adornment.repeats


SKETCH = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10"><path d="M0 10L5 0L10 10zM10 10L15 5L20 10z"/></svg>'
)


def written(folder: Path, motif: str) -> Path:
    repeat = {"motif": motif, "along": "hem", "size": 6}
    tables = {"wearer": JOAN, "garment": {**PLAIN, "repeats": [repeat]}, "cloth": {"main": {"width": 150}}}
    (folder / "joan.toml").write_text(toml(tables))
    return folder / "joan.toml"


def test_a_motif_of_ones_own_beside_the_sheet(tmp_path: Path) -> None:
    (tmp_path / "hills.svg").write_text(SKETCH)
    hem = prove_sheet(load_sheet(written(tmp_path, "hills.svg"))).draft.adornment.repeats[0]
    assert hem.motif.name == "hills"
    assert hem.motif.size == pytest.approx((6, 3))
    assert motif_area(hem.motif) == pytest.approx((50 + 25) * 0.09)


@pytest.mark.parametrize(
    ("text", "says"),
    [(None, "no such file"), (b"\xff\xfe\x00", "UTF-8"), (b"<svg/>", "nothing"), (b"<svg><script/></svg>", "script")],
)
def test_a_bad_file_is_named(tmp_path: Path, text: bytes | None, says: str) -> None:
    if text is not None:
        (tmp_path / "hills.svg").write_bytes(text)
    with pytest.raises(BadInput, match=says) as caught:
        load_sheet(written(tmp_path, "hills.svg"))
    assert all(word in str(caught.value) for word in ("joan.toml", "garment.repeats[1].motif", "hills.svg"))


def test_a_sheet_alone_has_no_files_beside_it() -> None:
    with pytest.raises(BadInput, match="cannot be read here"):
        sheet({**PLAIN, "repeats": [{"motif": "hills.svg", "along": "hem"}]})


@pytest.mark.parametrize(
    ("repeat", "says"),
    [
        ({"motif": "rundel", "along": "hem"}, 'perhaps "roundel"'),
        ({"motif": 3, "along": "hem"}, "not a motif"),
        ({"motif": "roundel", "along": "skirt ring"}, "needs one"),
        ({"motif": "roundel", "along": "hem", "height": 20}, "has none"),
        ({"motif": "roundel", "along": "hem", "size": [7, 5]}, "backwards"),
        ({"motif": "roundel"}, "must be given"),
        ({"motif": "roundel", "along": "hem", "by": "spray"}, "not a choice"),
    ],
)
def test_bad_repeats_are_refused(repeat: dict[str, Any], says: str) -> None:
    with pytest.raises(BadInput, match=says) as caught:
        sheet({**PLAIN, "repeats": [repeat]})
    assert caught.value.where.startswith("garment.repeats[1].")


def test_what_a_deep_hem_hides_is_not_adorned() -> None:
    child = {"sex": "female", "age": 6, "height": 116}
    garment = {**PLAIN, "growth": {"months": 24}}
    hem = {"motif": "roundel", "along": "hem", "size": [4, 6]}
    with pytest.raises(CannotDraft, match="turned up") as caught:
        prove_sheet(sheet({**garment, "repeats": [hem]}, wearer=child))
    least = caught.value.mend.removeprefix("give ").partition(",")[0]
    assert prove_sheet(sheet({**garment, "repeats": [{**hem, "inset": least}]}, wearer=child)).draft.adornment.repeats
