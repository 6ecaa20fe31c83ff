"""Riding: the band astride against a hull drawn round two circles, what can be ridden in, and that the mend is true."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point, unary_union

from ellwand.choose.styles import STYLES
from ellwand.model.others import KINDS
from ellwand.prove import cautions
from ellwand.prove.riding import BARREL, astride
from proving_specimens import RANK, drafted, found

GORED = [{"place": "side", "start": "hip", "base": 60}]
SPLITS = [{"place": "centre-front", "height": "crotch"}, {"place": "centre-back", "height": "crotch"}]


def cautioned(garment: dict[str, object]) -> set[str]:
    return {each.code for each in cautions(*drafted(garment)) if each.code.startswith("riding")}


@given(st.floats(0, 80), st.floats(20, 70))
def test_the_band_astride_is_the_hull_of_two_circles(parted: float, leg: float) -> None:
    """Drawn with shapely: two legs as circles, the horse between them, and the length of their convex hull."""
    radius = leg / (2 * math.pi)
    legs = [Point(sign * (parted / 2 + radius), 0).buffer(radius, quad_segs=256) for sign in (-1, 1)]
    assert astride(parted, leg) == pytest.approx(unary_union(legs).convex_hull.length, rel=1e-4)


def test_split_up_to_the_crotch_or_open_in_front_it_can_be_ridden_in() -> None:
    assert found({"style": "riding surcote"})["riding-open:hem"].outcome == "sound"
    for opened in ({"closures": [{"at": "centre-front"}]}, {"splits": SPLITS}):
        assert "riding-open:hem" in found({"length": "ankle", **opened})
        assert cautioned({"length": "ankle", **opened}) == set()
    assert "riding-open:hem" not in found({"length": "ankle", "closures": [{"at": "centre-back"}]})


def test_a_wide_hem_passes_a_narrow_one_is_only_cautioned_of() -> None:
    wide = found({"length": "ankle", "gores": GORED})["riding:hem"]
    assert wide.outcome == "sound"
    assert wide.measured >= wide.needed > BARREL  # type: ignore[operator]
    assert cautioned({"length": "ankle", "gores": GORED}) == {"riding-closed"}
    assert not [key for key in found({"length": "ankle"}) if key.startswith("riding")]
    assert cautioned({"length": "ankle"}) == {"riding"}


def test_nothing_is_said_where_the_knees_are_free() -> None:
    for length in ("hip", "mid-thigh", "knee"):
        assert not [key for key in found({"length": length}) if key.startswith("riding")]
        assert cautioned({"length": length}) == set()


def test_meant_for_riding_and_too_narrow_it_is_looked_at_and_split_it_is_sound() -> None:
    """The mend of both (split at both centres up to the crotch) is done in tests/properties/test_true_mends.py."""
    narrow = [
        {"style": "riding surcote", "splits": [], "gores": []},
        {"length": "ankle", "splits": [{"place": "centre-back", "height": 12}]},
    ]
    for garment in narrow:
        assert found(garment)["riding:hem"].outcome == "look again"
        assert cautioned(garment) == {"riding"}
        assert found({**garment, "splits": SPLITS})["riding-open:hem"].outcome == "sound"


@settings(max_examples=30, deadline=None)
@given(st.integers(2, 60), st.integers(0, 30), st.sampled_from(["mid-calf", "ankle", "floor"]))
def test_wider_gores_never_make_riding_worse(base: int, more: int, length: str) -> None:
    def rank(width: int) -> int:
        gores = [{"place": "side", "start": "hip", "base": width, "make": "whole"}]
        splits = [{"place": "centre-front", "height": 10}]
        return RANK[found({"length": length, "gores": gores, "splits": splits})["riding:hem"].outcome]

    assert rank(base + more) <= rank(base)


@pytest.mark.parametrize("style", [style for style in STYLES if style not in KINDS])
def test_no_style_as_it_comes_is_faulted(style: str) -> None:
    assert all(each.outcome == "sound" for key, each in found({"style": style}).items() if key.startswith("riding"))
