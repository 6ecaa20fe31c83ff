"""Ranges: where they are settled, and the curve of cloth against garment."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand.depict.trade_off import trade_off_drawing
from ellwand.model.freedom import TradeOff, TradePoint
from ellwand.pipeline import prove_sheet
from ellwand.plan.trading import envelope, knee, trade_off
from ellwand.publish.svg import svg
from sheets import sheet

SETTLED = {"sleeve": {"pieces": "one"}, "gores": [{"place": "side", "base": [30, 50], "make": "whole"}]}


def point(cloth: float, area: float) -> TradePoint:
    return TradePoint(cloth, area, 0.0, 0.0, (), prove_sheet(sheet({})).choices)


@pytest.fixture(scope="module")
def curve() -> TradeOff:
    found = trade_off(sheet(SETTLED, cloth={"width": 90}))
    assert found is not None
    return found


@pytest.mark.parametrize(("take", "length"), [("least cloth", 95), ("balanced", 105), ("fullest", 115)])
def test_take_settles_a_range(take: str, length: float) -> None:
    assert prove_sheet(sheet({"length": [95, 115], "take": take})).draft.dimensions.length == length


def test_take_settles_the_bases_of_gores() -> None:
    """Both side gores together: 2 × 30, 40 or 50 cm, on the same body."""
    gores = [{"place": "side", "base": [30, 50], "start": 39}]
    least, middle, fullest = (
        _hem(prove_sheet(sheet({"length": 100, "gores": gores, "take": take})))
        for take in ("least cloth", "balanced", "fullest")
    )
    assert middle - least == pytest.approx(20, abs=0.01) and fullest - middle == pytest.approx(20, abs=0.01)


def _hem(garment) -> float:  # type: ignore[no-untyped-def]
    from ellwand.plan.same import sewn

    return sewn(garment).sweep


def test_without_ranges_there_is_nothing_to_trade() -> None:
    assert trade_off(sheet({"gores": [], "length": 100})) is None


def test_more_cloth_is_more_garment_all_along(curve: TradeOff) -> None:
    cloth, area = [p.cloth for p in curve.points], [p.area for p in curve.points]
    assert cloth == sorted(cloth) and area == sorted(area)
    assert len(set(area)) == len(area)


def test_stops_are_named_once_from_the_least_to_the_fullest(curve: TradeOff) -> None:
    at = [i for _, i in curve.stops]
    assert at == sorted(set(at)) and at[-1] == len(curve.points) - 1
    assert curve.stops[-1][0] == "fullest"


def test_every_point_drafts_to_what_it_says(curve: TradeOff) -> None:
    for each in curve.points:
        base = dict(each.settings)["garment.gores[1].base"]
        garment = prove_sheet(sheet({**SETTLED, "gores": [{"place": "side", "base": base, "make": "whole"}]}))
        assert _hem(garment) == pytest.approx(each.sweep, abs=0.01)


@given(st.lists(st.tuples(st.integers(1, 30), st.integers(1, 30)), min_size=1, max_size=20))
def test_the_envelope_leaves_out_only_what_is_beaten(pairs: list[tuple[int, int]]) -> None:
    points = [TradePoint(float(c), float(a), 0.0, 0.0, (), None) for c, a in pairs]  # type: ignore[arg-type]
    kept = envelope(points)
    for p in points:
        assert any(k.cloth <= p.cloth and k.area >= p.area for k in kept)
    for k in kept:
        assert not any(p.cloth <= k.cloth and p.area > k.area for p in points)


def test_the_knee_is_where_the_curve_bends() -> None:
    assert knee([(0, 0), (1, 5), (2, 9), (3, 9.5), (4, 10)]) == 2


def test_the_curve_is_drawn_with_its_stops() -> None:
    choices = prove_sheet(sheet({})).choices
    points = tuple(
        TradePoint(
            200.0 + 9 * i * i, 15000.0 + 900 * i, 200.0 + 10 * i, 95.0, (("garment.gores[1].base", 1.0),), choices
        )
        for i in range(6)
    )
    found = TradeOff(points, (("least cloth", 0), ("best bargain", 3), ("fullest", 5)), 6)
    for unit in ("cm", "in"):
        drawing = trade_off_drawing(found, unit)  # type: ignore[arg-type]
        said = " ".join(label.text for label in drawing.labels)
        assert all(name in said for name, _ in found.stops) and "round the hem" in said
        xs = [x for stroke in drawing.strokes for x, _ in stroke.points]
        assert min(xs) > -0.5 and max(xs) < 15.5
        assert len(re.findall("<path", svg(drawing, 1.0))) >= 8
    one = TradeOff(points[:1], (("fullest", 0),), 1)
    assert "fullest" in svg(trade_off_drawing(one, "cm"), 1.0)
