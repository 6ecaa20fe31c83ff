"""A longer back, sloped shoulders, a blouse and a train.

Sources: plane geometry (circle segment, parabola, triangle); Herjolfsnes gowns are longer behind by 8 to 18 cm.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bodies import rows, wearer
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import area, length
from ellwand.model.draft import Draft
from ellwand.prove.assembles import assembles
from ellwand.prove.sewn import hem_height, sewn_up
from proving_specimens import drafted, found

PLAIN: dict[str, Any] = {"sleeve": {"shape": "none"}, "body": {"shoulder": "seam"}}


def with_body(**body: Any) -> Draft:
    return drafted({**PLAIN, "body": {"shoulder": "seam", **body}})[0]


def cloth_in(draft: Draft, name: str) -> float:
    piece = next(piece for piece in draft.pieces if piece.id == name)
    return piece.count * area(piece.sewn)


def edges(draft: Draft, kind: str) -> list[float]:
    return sorted(length(e.points) for piece in draft.pieces for e in piece.edges if e.kind == kind)


@pytest.mark.parametrize("seam", ["none", "both"])
@pytest.mark.parametrize("longer", [4, 10, 14])
def test_a_longer_back_gains_a_circle_segment(longer: float, seam: str) -> None:
    """Area R² (θ − sin θ) / 2 and length R θ of a segment whose chord is the panel."""
    level, dipped = with_body(centre_seam=seam), with_body(centre_seam=seam, back_longer=longer)
    reach = level.dimensions.panel_width / 2
    radius = (reach**2 + longer**2) / (2 * longer)
    turn = 2 * math.asin(reach / radius)
    name = "back" if seam == "none" else "back-half"
    gained = cloth_in(dipped, name) - cloth_in(level, name)
    assert gained == pytest.approx(radius**2 * (turn - math.sin(turn)) / 2, rel=5e-3)
    assert max(edges(dipped, "hem")) == pytest.approx(radius * turn / (1 if seam == "none" else 2), rel=1e-3)
    assert edges(dipped, "side seam") == pytest.approx(edges(level, "side seam"))


def test_a_deep_dip_is_a_parabola() -> None:
    """Two thirds of the rectangle about it."""
    level, dipped = with_body(), with_body(back_longer=40)
    width = level.dimensions.panel_width
    assert cloth_in(dipped, "back") - cloth_in(level, "back") == pytest.approx(2 / 3 * width * 40, rel=2e-3)


def test_a_sloped_shoulder() -> None:
    """The shoulder seam is the slope's hypotenuse; the armhole keeps its depth; each side loses a triangle."""
    level, sloped = with_body(), with_body(shoulder_slope=4)
    along = edges(level, "shoulder")[0]
    assert edges(sloped, "shoulder") == pytest.approx([math.hypot(along, 4)] * 4)
    assert edges(sloped, "armhole") == pytest.approx(edges(level, "armhole"))
    assert edges(sloped, "side seam") == pytest.approx([each - 4 for each in edges(level, "side seam")])
    assert cloth_in(level, "front") - cloth_in(sloped, "front") == pytest.approx(along * 4)


def test_no_slope_on_a_fold() -> None:
    with pytest.raises(CannotDraft, match="no seam to slope"):
        drafted({"body": {"shoulder": "fold", "shoulder_slope": 3}})


def test_a_blouse_is_given_back() -> None:
    """Belted, the hem hangs as high as without; what lies below the belt lies as high above the hem."""
    flat, of = drafted({"length": "knee"})
    bloused, _ = drafted({"length": "knee", "blouse": 8})
    assert bloused.dimensions.length == flat.dimensions.length + 8
    assert hem_height(sewn_up(bloused, of)) == pytest.approx(hem_height(sewn_up(flat, of)))
    for level in ("waist", "hip", "crotch", "knee"):
        assert bloused.dimensions.levels[level] == pytest.approx(flat.dimensions.levels[level])
    assert bloused.dimensions.levels["bust"] == pytest.approx(flat.dimensions.levels["bust"] + 8)
    assert "bloused:body" in found({"blouse": 8}) and "bloused:body" not in found({})


def test_a_train_trails() -> None:
    garment = {"length": "floor", "train": 30, "body": {"back_longer": 5}}
    trailing = found(garment)["trailing:hem"]
    assert (trailing.outcome, trailing.measured) == ("sound", 35)
    with pytest.raises(CannotDraft, match="only a garment down to the floor trails"):
        drafted({"length": "ankle", "train": 30})


def test_a_back_that_reaches_the_floor_is_found() -> None:
    assert found({"length": "ankle", "body": {"back_longer": 20}})["hem-clears:hem"].outcome == "look again"


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(
    row=st.integers(0, len(rows()) - 1),
    cut=st.sampled_from(("wide panels", "shoulder panels")),
    shoulder=st.sampled_from(("fold", "seam")),
    seam=st.sampled_from(("none", "front", "both")),
    longer=st.integers(0, 60),
    slope=st.sampled_from((0, 0, 2, 5.5, 10)),
    blouse=st.integers(0, 30),
    train=st.sampled_from((0, 0, 25, 120)),
    place=st.sampled_from((None, "side", "centre-back", "panel-back")),
    sleeve=st.sampled_from(("none", "tapered", "wide")),
    size=st.sampled_from(("hip", "knee", "floor")),
)
def test_sound_or_refused(
    row: int,
    cut: str,
    shoulder: str,
    seam: str,
    longer: int,
    slope: float,
    blouse: int,
    train: int,
    place: str | None,
    sleeve: str,
    size: str,
) -> None:
    garment = {
        "length": size,
        "blouse": blouse,
        "train": train,
        "body": {
            "cut": cut,
            "shoulder": shoulder,
            "centre_seam": seam,
            "back_longer": longer,
            "shoulder_slope": slope,
        },
        "gores": [{"place": place, "start": "waist", "base": 30}] if place else [],
        "sleeve": {"shape": sleeve},
    }
    try:
        draft, of = drafted(garment, wearer(rows()[row]))
    except CannotDraft as refused:
        assert str(refused).endswith(".") and "\n" not in str(refused)
        return
    assert [f for f in assembles(sewn_up(draft, of)) if f.outcome != "sound"] == []
