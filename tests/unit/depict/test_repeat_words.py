"""Repeats told and drawn: what a maker with chalk in hand reads off is where the motifs lie."""

from __future__ import annotations

import re
from typing import Any

import pytest
from shapely import Polygon, union_all

from ellwand import prove_sheet
from ellwand.depict.repeat_marks import motif_strokes
from ellwand.depict.spread import pieces_sheet
from ellwand.depict.view import garment_view
from ellwand.depict.view_repeats import line_drawing
from ellwand.depict.words.repeats import repeat_texts
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing
from ellwand.model.motif import motif_area
from ellwand.units import Unit
from sheets import sheet


def drafted(*repeats: dict[str, Any], **garment: Any) -> Draft:
    return prove_sheet(sheet({"style": "tunic", **garment, "repeats": list(repeats)})).draft


def told(draft: Draft, unit: Unit = "cm") -> list[tuple[str, str]]:
    return repeat_texts(draft.adornment.repeats, unit)


def places(text: str) -> list[float]:
    """The numbers of the list after 'at'."""
    found = re.search(r"middles at ([\d., ]+) cm", text)
    assert found
    return [float(each) for each in found[1].split(", ")]


def test_the_hem_of_a_tunic() -> None:
    draft = drafted({"motif": "roundel", "along": "hem", "size": 6, "gap": [3, 5], "colour": "madder"})
    ((what, how),) = told(draft)
    (hem,) = draft.adornment.repeats
    gap = hem.run.length / hem.count - 6
    assert what == (
        f"Roundel, {hem.count} times along the hem, 6 cm wide and 6 cm high, {gap:.1f} cm apart, stencilled in madder"
    )
    assert "1 cm from the sewn edge" in how and "From the centre front both ways" in how
    # both ways from the front: every motif of one half, and none of them twice
    assert places(how) == pytest.approx([at for at in hem.at if at <= hem.run.length / 2 + 0.01], abs=0.051)
    across = sum(each.again for each in hem.placements)
    assert (f"{across} lie across a seam" in how) == (across > 1)


def test_an_even_number_has_one_at_the_middle_of_the_back() -> None:
    draft = drafted({"motif": "roundel", "along": "skirt ring", "height": 16, "by": "block"})
    ((what, how),) = told(draft)
    (ring,) = draft.adornment.repeats
    assert ("which is the middle of the back" in how) == (ring.count % 2 == 0)
    assert "16 cm above the hem" in how and "block-printed" in what


def test_both_cuffs_are_told_together() -> None:
    ((what, how),) = told(drafted({"motif": "key", "along": "cuffs"}))
    assert "times each along the left and the right cuff" in what and "one touching the next" in what
    assert "From the seam" in how


def test_upright_down_the_front() -> None:
    draft = drafted({"motif": "fleuron", "along": "centre-front", "size": 4})
    ((what, how),) = told(draft)
    assert "and 4 cm high" in what and "upright" in how and "From the upper end" in how
    joined = drafted({"motif": "vine-scroll", "along": "centre-front", "size": [4, 6]})
    assert draft.adornment.repeats[0].upright and not joined.adornment.repeats[0].upright


def test_corners_and_mirrors_are_told() -> None:
    corners = drafted({"motif": "key", "along": "neck", "size": [2, 3]}, neck={"shape": "square"})
    assert "At each corner stands a key corner" in told(corners)[0][1]
    mirrored = drafted({"motif": "vine-scroll", "along": "hem", "mirrored": True})
    assert "turn the motif over" in told(mirrored)[0][1]
    assert "lie over each other by up to" in told(mirrored)[0][1]


def test_in_inches() -> None:
    draft = drafted({"motif": "roundel", "along": "hem", "size": "2 in"})
    ((what, how),) = told(draft, "in")
    assert "2 in wide" in what and " cm" not in what + how


def motifs(drawing: Drawing) -> list[Polygon]:
    return [Polygon(each.points, each.holes) for each in drawing.strokes if each.role == "motif"]


def test_the_line_shows_every_motif_whole() -> None:
    for repeat in drafted(
        {"motif": "fleuron", "along": "hem", "mirrored": True},
        {"motif": "roundel", "along": "cuffs"},
        {"motif": "pellets", "along": "centre-front", "size": [1, 3]},
    ).adornment.repeats:
        drawing = line_drawing(repeat, "cm", 0.1)
        shapes = motifs(drawing)
        assert len(shapes) == repeat.count * len(repeat.motif.regions)
        assert union_all(shapes).area == pytest.approx(repeat.count * motif_area(repeat.motif))
        assert sum(stroke.role == "seam" for stroke in drawing.strokes) == len(repeat.run.seams)


def test_on_the_pieces_all_of_it_lies_and_nothing_beyond_their_edges() -> None:
    draft = drafted({"motif": "roundel", "along": "hem"}, {"motif": "key", "along": "cuffs"})
    painted = 0.0
    for piece in draft.pieces:
        sewn = Polygon(piece.sewn, piece.sewn_holes).buffer(1e-6)
        for stroke in motif_strokes(draft, piece):
            shape = Polygon(stroke.points, stroke.holes)
            assert sewn.contains(shape)
            painted += shape.area * piece.count
    # the bend of a gore takes a little of those that lie across its seams
    whole = sum(repeat.painted for repeat in draft.adornment.repeats)
    assert painted == pytest.approx(whole, rel=0.02)
    assert motifs(pieces_sheet(draft, "cm", 40, 27).drawing)


def test_the_view_of_the_garment_shows_them_within_it() -> None:
    draft = drafted(
        {"motif": "roundel", "along": "hem", "size": 5},
        {"motif": "lozenge", "along": "neck", "size": [1.5, 3]},
        {"motif": "roundel", "along": "cuffs", "size": [3, 5]},
        {"motif": "fleuron", "along": "centre-front", "size": 4},
    )
    bare = garment_view(drafted(), "front")
    body = union_all([Polygon(each.points).buffer(0) for each in bare.strokes if each.role == "garment"])
    shown = union_all([shape.buffer(0) for shape in motifs(garment_view(draft, "front"))])
    assert body.buffer(0.1).contains(shown)
    # about half of what goes round is seen in front, and all of what goes down it
    hem, neck, one_cuff, _, front = (repeat.painted for repeat in draft.adornment.repeats)
    assert shown.area == pytest.approx(hem / 2 + 0.6 * neck + one_cuff + front, rel=0.1)
    assert not motifs(bare)
