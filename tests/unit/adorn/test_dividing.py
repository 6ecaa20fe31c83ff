"""Divided garments: what is cut from which cloth, where the lines lie, and what is told of them."""

from __future__ import annotations

import json
from collections import Counter
from typing import Any, get_args

import pytest
from shapely import Polygon, box
from shapely.affinity import affine_transform
from shapely.ops import unary_union

from ellwand import prove_sheet
from ellwand.adorn.division.field import patches
from ellwand.adorn.division.frames import field_of
from ellwand.errors import BadInput
from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, edge_at
from ellwand.model.garment import Garment
from ellwand.model.heraldry import Division, Partition
from ellwand.publish.garment_json import document, read_stitched
from independent import faults
from sheets import sheet

TWO = ["gules", "or"]


def garment(by: str, tinctures: list[str] = TWO, *, cloth: dict[str, Any] | None = None, **choices: Any) -> Garment:
    more = {key: choices.pop(key) for key in ("count", "at") if key in choices}
    division = {"by": by, "tinctures": tinctures, **more}
    return prove_sheet(sheet({"division": division, **choices}, cloth=cloth))


def areas(work: Draft, words: tuple[str, ...] = ()) -> dict[str, float]:
    """Sewn area by tincture, of parts whose names begin so."""
    pieces = {piece.id: piece for piece in work.pieces}
    out: Counter[str] = Counter()
    for part in work.parts:
        if part.id.startswith(words or ("",)):
            piece = pieces[part.piece]
            out[piece.tincture] += Polygon(piece.sewn, piece.sewn_holes).area
    return dict(out)


def on_front(whole: Draft) -> tuple[Polygon, Polygon]:
    """The front and the back panel in the field: x toward the wearer's left, y upward from the hem.

    Front and back are pieces of their own, drawn as they are seen, with their centre line in their middle; seen from
    behind, the wearer's left is at the left.
    """
    out = []
    for name, sign in (("front", 1), ("back", -1)):
        piece = next(piece for piece in whole.pieces if piece.id == name)
        shape = Polygon(piece.sewn, piece.sewn_holes)
        middle = (shape.bounds[0] + shape.bounds[2]) / 2
        out.append(affine_transform(shape, (sign, 0, 0, 1, -sign * middle, -piece.levels[0].base_y)))
    return out[0], out[1]


@pytest.mark.parametrize("by", get_args(Partition))
def test_the_panels_take_what_lies_of_each_tincture_in_their_field(by: Partition) -> None:
    """Shapely's areas of the field's patches on the undivided panels; a line moved 5 mm to a corner makes 1%."""
    choices = {"body": {"shoulder": "seam"}, "neck": {"shape": "round"}}
    whole = prove_sheet(sheet(choices)).draft
    cut = garment(by, **choices).draft
    panels, field = on_front(whole), field_of(whole)
    wanted = dict.fromkeys(TWO, 0.0)
    for patch in patches(Division(by, ("gules", "or")), field):
        wanted[patch.tincture] += sum(panel.intersection(Polygon(patch.ring)).area for panel in panels)
    assert areas(cut, ("front", "back")) == pytest.approx(wanted, rel=0.01)


def test_per_pale_gives_each_side_half_the_cloth_and_the_right_one_the_first_tincture() -> None:
    for choices in ({}, {"body": {"centre_seam": "both"}}, {"body": {"cut": "shoulder panels"}}, {"gores": GORES}):
        found = garment("per pale", **choices).draft
        gules, gold = areas(found)["gules"], areas(found)["or"]
        assert gules == pytest.approx(gold, rel=1e-6)
        pieces = {piece.id: piece for piece in found.pieces}
        for part in found.parts:
            words = part.id.split("-")
            if "right" in words or "left" in words:
                assert pieces[part.piece].tincture == ("gules" if "right" in words else "or")


GORES = [{"place": "side"}, {"place": "centre-front"}, {"place": "centre-back", "make": "halves"}]


def test_no_seam_is_made_where_there_is_one() -> None:
    found = garment("per pale", body={"centre_seam": "both"}).draft
    assert not [seam for seam in found.seams if seam.kind == "division seam"]
    assert {piece.name for piece in found.pieces if piece.place == "body"} >= {"body half, gules", "body half, or"}


def test_lines_meet_at_the_sides_and_go_on_across_gores() -> None:
    """Barry of six: a seam at every sixth of the field's height, at one height on front, gore and back."""
    found = garment("barry", neck={"shape": "round"}).draft
    high = found.dimensions.length
    division = [seam for seam in found.seams if seam.kind == "division seam"]
    whole = [length(edge_at(found, seam.a).points) for seam in division if seam.a.part.startswith("body")]
    wide = found.dimensions.panel_width
    assert whole == pytest.approx([wide] * 10)
    pieces = {piece.id: piece for piece in found.pieces}
    for part in found.parts:
        if part.id.startswith("body") and "division" in {edge.id for edge in pieces[part.piece].edges}:
            low, top = (Polygon(pieces[part.piece].sewn).bounds[i] for i in (1, 3))
            assert min(abs(top - low - n * high / 6) for n in (1, 2)) < 1e-6
    on_gores = Counter(round(length(edge_at(found, seam.a).points), 3) for seam in division if "gore" in seam.a.part)
    assert on_gores and all(count % 2 == 0 for count in on_gores.values())


def test_a_gore_on_the_middle_line_is_parted_down_its_middle() -> None:
    found = garment("per pale", gores=[{"place": "centre-front", "make": "whole"}]).draft
    gores = {part.id for part in found.parts if part.id.startswith("gore")}
    assert gores == {"gore-centre-front-gules", "gore-centre-front-or"}
    assert areas(found, ("gore",))["gules"] == pytest.approx(areas(found, ("gore",))["or"], rel=1e-6)


def test_a_slit_that_the_division_opens_gets_allowances() -> None:
    found = garment("per pale", gores=[{"place": "centre-front"}]).draft
    lips = [edge for piece in found.pieces for edge in piece.edges if "viewer" in edge.id or edge.kind == "neck slit"]
    assert lips and all(edge.allowance == found.choices.sewing.allowance for edge in lips)
    kept = garment("per fess", gores=[{"place": "centre-front", "start": 25, "base": 30}]).draft
    assert any(edge.allowance == 0 for piece in kept.pieces for edge in piece.edges if edge.kind == "neck slit")


def test_alike_checks_are_one_piece_cut_many_times() -> None:
    found = garment("chequy", ["azure", "argent"]).draft
    most = max(found.pieces, key=lambda piece: piece.count)
    assert most.count >= 10
    _, _, wide, high = box(*Polygon(most.sewn).bounds).bounds
    assert Polygon(most.sewn).area == pytest.approx(
        (wide - Polygon(most.sewn).bounds[0]) * (high - Polygon(most.sewn).bounds[1])
    )
    assert len(found.pieces) < len(found.parts) * 0.7


def test_each_tincture_is_cut_from_its_cloth_and_told() -> None:
    found = garment("quarterly", ["gules", "or", "azure", "argent"], neck={"facing": "shaped"})
    assert [cloth.name for cloth in found.cloths] == ["main", "or", "azure", "argent"]
    cloths = {piece.tincture: piece.cloth for piece in found.draft.pieces if piece.kind == "shell"}
    assert cloths == {"gules": "main", "or": "or", "azure": "azure", "argent": "argent"}
    assert {piece.cloth for piece in found.draft.pieces if piece.kind == "applied"} == {"main"}
    doc = json.loads(json.dumps(document(found)))
    assert faults(doc) == []
    assert doc["choices"]["division"]["by"] == "quarterly"
    assert {piece["tincture"] for piece in doc["pieces"] if "kind" not in piece} == {"gules", "or", "azure", "argent"}
    assert read_stitched(json.dumps(doc)).pieces[0].tincture == found.draft.pieces[0].tincture
    assert any("divide the field" in step["do"] for step in doc["sewing"])


def test_names_say_where_a_piece_goes() -> None:
    names = {piece.name for piece in garment("quarterly", body={"shoulder": "seam"}).draft.pieces}
    assert {"front, gules, upper", "front, gules, lower", "front, or, upper", "front, or, lower"} <= names
    names = {piece.name for piece in garment("paly", body={"shoulder": "seam"}).draft.pieces}
    assert {f"back, or, {side}" for side in ("right", "middle", "left")} <= names


def test_the_line_lies_at_the_waist() -> None:
    found = garment("per fess", at="waist", body={"shoulder": "seam"}).draft
    upper = next(piece for piece in found.pieces if piece.name == "front, gules")
    low, high = Polygon(upper.sewn).bounds[1], Polygon(upper.sewn).bounds[3]
    assert high - low == pytest.approx(found.dimensions.length - found.dimensions.levels["waist"], abs=1e-6)


def test_a_line_that_would_run_through_the_end_of_the_slit_passes_below_it() -> None:
    plain = prove_sheet(sheet()).draft
    slit = next(edge for piece in plain.pieces for edge in piece.edges if edge.kind == "neck slit")
    body = next(piece for piece in plain.pieces if piece.id == "body")
    tip = min(y for _, y in slit.points) - body.levels[0].base_y
    found = garment("per fess", at=f"{tip + 0.4} cm").draft
    assert len([seam for seam in found.seams if seam.kind == "division seam"]) == 2
    assert not any("slit" in edge.id and edge.allowance for piece in found.pieces for edge in piece.edges)


@pytest.mark.parametrize(
    ("choices", "told"),
    [
        ({"by": "per pale", "tinctures": []}, "takes 2 different tinctures, and there are none"),
        ({"by": "per pale", "tinctures": ["gules", "gules"]}, "and there is one"),
        ({"by": "paly", "tinctures": ["gules", "or", "azure", "vert"]}, "takes 2 different tinctures"),
        ({"by": "per pale", "tinctures": TWO, "count": 4}, "is not counted"),
        ({"by": "paly", "tinctures": TWO, "count": 5}, "even number"),
        ({"by": "barry", "tinctures": TWO, "at": "waist"}, "has no level line"),
        ({"by": "per fess", "tinctures": TWO, "at": 300}, "above the hem, and the garment is"),
        ({"by": "paly", "tinctures": TWO, "count": 22}, "makes pieces only 2.7 cm wide; choose 18 or fewer"),
        ({"by": "tierced", "tinctures": TWO}, "is not a choice here"),
        ({"by": "per pale"}, "tinctures"),
    ],
)
def test_what_does_not_go_together_is_refused_in_one_sentence(choices: dict[str, Any], told: str) -> None:
    with pytest.raises(BadInput, match=r"^garment\.division[.a-z]*: ") as caught:
        prove_sheet(sheet({"division": choices}))
    assert told in str(caught.value)


def test_other_garments_have_no_field() -> None:
    with pytest.raises(BadInput, match=r"garment\.division: style .hood. has no such choice"):
        garment("per pale", style="hood")


def test_what_was_cut_before_is_cut_as_before() -> None:
    """Without a division no piece has a tincture, and the draft is the same object's pieces."""
    assert {piece.tincture for piece in prove_sheet(sheet()).draft.pieces} == {""}
    shapes = [Polygon(patch.ring) for patch in patches(Division("per pale", ("gules", "or")), field_of(_plain()))]
    assert unary_union(shapes).bounds[3] == pytest.approx(_plain().dimensions.length)


def _plain() -> Draft:
    return prove_sheet(sheet()).draft
