"""Gores of any height beside each other, blunt, pieced or cut straight below.

Sources: plane geometry of triangle, circle sector and ring sector; the proof's own shell.
"""

from __future__ import annotations

import itertools
import math
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bodies import rows, wearer
from ellwand.draft.flared import hanging
from ellwand.errors import CannotDraft
from ellwand.geometry.flare import flare
from ellwand.geometry.lines import area, bounds, length
from ellwand.model.draft import Draft
from ellwand.model.piece import Piece
from ellwand.prove.assembles import assembles
from ellwand.prove.sewn import girth_at, hem_sweep, sewn_up
from proving_specimens import drafted, found

SEAMS = {"centre_seam": "both", "shoulder": "seam"}


def gores_of(draft: Draft) -> list[Piece]:
    return [piece for piece in draft.pieces if "gore" in piece.id]


def long(**garment: Any) -> dict[str, Any]:
    return {"length": "ankle", **garment}


def sound(garment: dict[str, Any], person: dict[str, object] | None = None) -> Draft:
    draft, of = drafted(garment, person)
    assert [f for f in assembles(sewn_up(draft, of)) if f.outcome != "sound"] == []
    return draft


@pytest.mark.parametrize("starts", sorted(set(itertools.permutations((40, 40, 55, 60), 3))))
@pytest.mark.parametrize("place", ["side", "centre-back"])
def test_gores_of_any_height_in_one_row(starts: tuple[int, ...], place: str) -> None:
    """The girth between their points: the panels, and of each gore what its sector is wide there."""
    gores = [{"place": place, "start": start, "base": 20, "make": "whole"} for start in starts]
    garment = long(gores=gores, body={"centre_seam": "both"}, sleeve={"shape": "none"})
    draft = sound(garment)
    sewn = sewn_up(*drafted(garment))
    sides = 2 if place == "side" else 1
    for level in (10.0, 45.0, 57.0):
        added = sides * sum(20 * max(0.0, start - level) / start for start in starts)
        assert girth_at(sewn, level) == pytest.approx(draft.dimensions.body_girth + added, abs=0.05)


@pytest.mark.parametrize(
    ("starts", "height"),
    [((40, 55), 30), ((40, 55), 40), ((55, 55), 50), ((30, 55, 55, 40), 45), ((40, 50, 45, 35), 20)],
)
def test_a_split_between_them(starts: tuple[int, ...], height: int) -> None:
    gores = [{"place": "side", "start": start, "base": 20, "make": "whole"} for start in starts]
    draft = sound(long(gores=gores, splits=[{"place": "side", "height": height}], sleeve={"shape": "none"}))
    lips = [edge for piece in gores_of(draft) for edge in piece.edges if edge.kind == "split"]
    assert max(sum(length(e.points) for e in lips if e.id.startswith(side)) for side in ("left", "right")) >= height


def test_a_split_between_gore_and_panel_is_refused() -> None:
    gores = [{"place": "side", "start": start, "base": 20, "make": "whole"} for start in (30, 60)]
    with pytest.raises(CannotDraft, match="between a gore and its panel"):
        drafted(long(gores=gores, splits=[{"place": "side", "height": 45}]))


@pytest.mark.parametrize("make", ["whole", "halves"])
@pytest.mark.parametrize(("place", "body"), [("side", {}), ("centre-front", SEAMS), ("centre-back", SEAMS)])
def test_a_blunt_top(make: str, place: str, body: dict[str, Any]) -> None:
    """A ring sector with a straight top: half angle · R² − r² sin h cos h; the hem gains base − top."""
    gore = {"place": place, "start": 60, "base": 50, "make": make}
    plain, blunt = (sound(long(gores=[gore | more], body=body)) for more in ({}, {"top": 8}))
    shape = flare(8, 60, 50)
    exact = shape.half_angle * shape.lower**2 - shape.upper**2 * math.sin(shape.half_angle) * math.cos(shape.half_angle)
    times = 2 if place == "side" else 1
    cloth = math.fsum(piece.count * area(piece.sewn) for piece in gores_of(blunt))
    assert cloth == pytest.approx(times * exact, rel=5e-4)
    sweeps = [hem_sweep(sewn_up(draft, drafted({})[1])) for draft in (plain, blunt)]
    assert sweeps[0] - sweeps[1] == pytest.approx(times * 8, abs=0.02)


@pytest.mark.parametrize(
    ("gores", "body", "said"),
    [
        ([{"place": "side", "start": 60, "base": 50, "top": 1}], {}, "no width for a blunt top"),
        ([{"place": "side", "start": 60, "base": 50, "top": 12}], {}, "no width for a blunt top"),
        ([{"place": "centre-front", "start": 60, "base": 50, "top": 6}], {}, "wants a slot"),
        ([{"place": "side", "start": 60, "base": 50, "top": 6}], {"cut": "shoulder panels"}, "wants a slot"),
        ([{"place": "side", "start": 60, "base": 50, "top": 6}] * 2, {}, "come to points"),
    ],
)
def test_no_blunt_top(gores: list[dict[str, Any]], body: dict[str, Any], said: str) -> None:
    with pytest.raises(CannotDraft, match=said):
        drafted(long(gores=gores, body=body))


@pytest.mark.parametrize("make", ["whole", "halves"])
def test_cut_straight_below(make: str) -> None:
    """A triangle of half base times height; its sides are longer by r − √(r² − (base/2)²)."""
    garment = long(gores=[{"place": "side", "start": 60, "base": 50, "make": make, "hem": "straight"}])
    draft = sound(garment)
    assert math.fsum(piece.count * area(piece.sewn) for piece in gores_of(draft)) == pytest.approx(2 * 60 * 50 / 2)
    side = math.hypot(60, 25)
    trim = side - math.sqrt(side**2 - 25**2)
    assert hanging(60, 0, 50) == pytest.approx(trim)
    assert found(garment)["corners-hang:side"].measured == pytest.approx(trim)
    assert "corners-hang:side" not in found(long(gores=[{"place": "side", "start": 60, "base": 50}]))


def test_a_pieced_gore_is_the_same_gore() -> None:
    """Its tip is a third of its height, to the chalk grid."""
    whole, apart = (
        sound(long(gores=[{"place": "side", "start": 60, "base": 50, "make": make}])) for make in ("whole", "pieced")
    )
    cloth = [math.fsum(piece.count * area(piece.sewn) for piece in gores_of(draft)) for draft in (whole, apart)]
    assert cloth[1] == pytest.approx(cloth[0], rel=1e-9)
    tip = next(piece for piece in apart.pieces if piece.id == "pieced-gore-tip")
    _, low, _, high = bounds(tip.sewn)
    assert high - low == pytest.approx(20, abs=0.25)
    assert tip.count == 2


gores = st.fixed_dictionaries(
    {
        "place": st.sampled_from(("side", "centre-front", "centre-back", "side-back", "panel-back")),
        "start": st.one_of(st.sampled_from(("hip", "waist")), st.integers(20, 60)),
        "base": st.integers(6, 60),
        "make": st.sampled_from(("whole", "halves", "either", "pieced")),
    },
    optional={"top": st.sampled_from((2, 4.5, 10)), "hem": st.just("straight")},
)


@settings(max_examples=80, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(
    row=st.integers(0, len(rows()) - 1),
    sets=st.lists(gores, min_size=1, max_size=4),
    one_place=st.booleans(),
    cut=st.sampled_from(("wide panels", "shoulder panels")),
    seam=st.sampled_from(("none", "both")),
    back_longer=st.sampled_from((0, 6)),
    split=st.sampled_from((None, "side", "centre-back")),
)
def test_sound_or_refused(
    row: int, sets: list[dict[str, Any]], one_place: bool, cut: str, seam: str, back_longer: int, split: str | None
) -> None:
    garment = {
        "length": "ankle",
        "gores": [gore | {"place": sets[0]["place"]} for gore in sets] if one_place else sets,
        "body": {"cut": cut, "centre_seam": seam, "back_longer": back_longer},
        "splits": [{"place": split, "height": "knee"}] if split else [],
    }
    try:
        sound(garment, wearer(rows()[row]))
    except CannotDraft as refused:
        assert str(refused).endswith(".") and "\n" not in str(refused)
