"""Girths of the sewn shell against closed forms (plane geometry) worked out here from the choices."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon

from ellwand.prove import prove
from ellwand.prove.body import body_girth_at
from ellwand.prove.moves import sweep_needed
from ellwand.prove.sewn import girth_at, hem_sweep, sewn_up
from proving_specimens import drafted


@given(st.integers(10, 70), st.sampled_from(["whole", "halves"]), st.floats(1, 105))
def test_panels_and_gores(base: int, make: str, level: float) -> None:
    """A gore is a sector about its point: base × (1 − level / start) wide at a level."""
    draft, wearer = drafted(
        {
            "length": 130,
            "body": {"centre_seam": "both"},
            "gores": [
                {"place": "side", "start": 60, "base": base, "make": make},
                {"place": "centre-back", "start": 70, "base": 20, "make": make},
            ],
        }
    )
    expected = 2 * draft.dimensions.panel_width
    expected += 2 * base * max(0.0, 1 - level / 60) + 20 * max(0.0, 1 - level / 70)
    assert girth_at(sewn_up(draft, wearer), level) == pytest.approx(expected, abs=0.01)


@given(st.integers(0, 60), st.sampled_from(["whole", "halves"]), st.floats(1, 60))
def test_flared_side_panels(flare: int, side_panel: str, level: float) -> None:
    """A flared panel is a ring sector: its width runs straight along its side, from the arc below to the arc above."""
    draft, wearer = drafted(
        {"length": 110, "body": {"cut": "shoulder panels", "side_panel": side_panel, "flare": flare}}
    )
    size = draft.dimensions
    side = size.length - size.armhole
    low = size.side_panel + flare
    # the chord across the top is size.side_panel; the arc through its ends is 2 h r
    half = 0.0
    if flare:
        a, b = 1e-9, math.pi / 2
        for _ in range(100):
            half = (a + b) / 2
            a, b = (half, b) if 2 * half * (size.side_panel / (2 * math.sin(half)) + side) < low else (a, half)
    expected = 2 * size.panel_width + 2 * (low - 2 * half * level)
    assert girth_at(sewn_up(draft, wearer), level) == pytest.approx(expected, abs=0.02)


@pytest.mark.parametrize("shoulder", ["fold", "seam"])
@pytest.mark.parametrize("cut", ["wide panels", "shoulder panels"])
def test_against_shapely(cut: str, shoulder: str) -> None:
    """The same widths by cutting the polygons with lines and circles."""
    draft, wearer = drafted(
        {
            "length": "ankle",
            "body": {"cut": cut, "shoulder": shoulder, "flare": 20 if cut == "shoulder panels" else 0},
            "gores": [{"place": "centre-front", "start": "hip", "base": 30, "make": "whole"}],
        }
    )
    sewn = sewn_up(draft, wearer)
    for height in (2.0, 17.3, 40.0, 61.7, 80.0):
        total = 0.0
        for part in draft.parts:
            piece = sewn.pieces[part.id]
            shape = Polygon(piece.sewn, piece.sewn_holes)
            for level in piece.levels if piece.place == "body" else ():
                if level.centre is None:
                    y = level.base_y + height * level.up
                    total += shape.intersection(LineString([(-500, y), (500, y)])).length
                elif level.radius > height:
                    ring = Point(level.centre).buffer(level.radius - height, quad_segs=4000).exterior
                    total += shape.intersection(ring).length
        assert girth_at(sewn, height) == pytest.approx(total, abs=0.01)


def test_the_hem_is_its_edges() -> None:
    draft, wearer = drafted({"gores": [{"place": "side", "start": "waist", "base": 40, "make": "whole"}]})
    assert hem_sweep(sewn_up(draft, wearer)) == pytest.approx(2 * draft.dimensions.panel_width + 80, abs=0.02)


def test_rows_tell_where_and_how_much() -> None:
    draft, wearer = drafted({"length": "mid-calf"})
    rows = {row.at: row for row in prove(draft, wearer).girths}
    assert list(rows) == ["bust", "waist", "belly", "hip", "hem", "biceps"]
    assert rows["waist"].height == pytest.approx(wearer["waist_to_floor"])
    assert rows["hip"].height == pytest.approx(wearer["hip_to_floor"])
    assert rows["hem"].height == pytest.approx(wearer["nape_to_floor"] - draft.dimensions.length)
    assert all(row.ease == pytest.approx(row.garment - row.body) for row in rows.values())
    assert rows["bust"].garment == pytest.approx(draft.dimensions.body_girth)


def test_the_sleeve_at_the_upper_arm() -> None:
    """A tapered sleeve is a trapezium: straight from its top to its cuff."""
    draft, wearer = drafted({"sleeve": {"shape": "tapered"}})
    size = draft.dimensions
    down = 0.28 * wearer["arm_length"] - size.shoulder_drop
    share = max(0.0, down) / size.sleeve_lengths["left"]
    expected = size.sleeve_top + (size.cuff - size.sleeve_top) * share
    row = next(row for row in prove(draft, wearer).girths if row.at == "biceps")
    assert row.garment == pytest.approx(expected, abs=0.01)


def test_two_legs_and_a_step_are_bands_round_circles() -> None:
    """Perimeter of the convex hull of two circles, by shapely, against the closed forms."""
    _, wearer = drafted({})
    girth = wearer["calf_girth"]
    circle = Point(0, 0).buffer(girth / (2 * math.pi), quad_segs=500)
    together = circle.union(Point(girth / math.pi, 0).buffer(girth / (2 * math.pi), quad_segs=500)).convex_hull
    assert body_girth_at(wearer, 20) == pytest.approx(together.length, abs=0.01)
    # at the floor the feet stand a whole step apart
    apart = circle.union(Point(68, 0).buffer(girth / (2 * math.pi), quad_segs=500)).convex_hull
    assert sweep_needed(0, 76, 68, girth) == pytest.approx(apart.length, abs=0.01)
