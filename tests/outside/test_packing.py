"""Lays against published and project instances (tests/data/packing/SOURCES.md)."""

import pytest
from packing import DENSITIES, RECTANGLES, TUNICS, irregular_task, rectangles_task, tunic_task
from shapely.affinity import translate
from shapely.geometry import Polygon

from ellwand.geometry.lines import Line, turn
from ellwand.lay import Budget, lay_out
from ellwand.lay.bounds import lower_bound
from ellwand.lay.portfolio import best
from ellwand.lay.task import Found
from ellwand.model.cloth import Cloth
from ellwand.model.piece import Piece

GENERAL = {
    "A90": 358.8,
    "A150": 199.9,
    "B112": 332.1,
    "B150": 234.0,
    "C90": 457.8,
    "C150": 239.1,
    "N56": 627.7,
    "N60": 583.7,
    "A150nap": 228.6,
    "B150nap": 263.4,
}
"""The shortest lengths (cm) that two general packers found in 30 s each, on two cores."""


def to_lay(id: str, cut: Line, count: int, small: bool) -> Piece:
    return Piece(id, id, "main", count, "body", cut, (), cut, (), (), small=small)


def tunic(name: str) -> tuple[list[Piece], Cloth]:
    """The case with its grain along y; one-sided: its pieces may be turned, not flipped."""
    case = TUNICS[name]
    pieces = []
    for p in case["pieces"]:
        cut = turn([(x, y) for x, y in p["outline"]], 90)
        pieces.append(to_lay(p["name"], cut, p["count"], 90 in p["turns"]))
    nap = all(p["turns"] == [0] for p in case["pieces"])
    on = Cloth("main", case["cloth_width"], selvedge=0, nap=nap, reversible=False, washed=True)
    return pieces, on


@pytest.mark.parametrize("number", [1, 2, 3])
def test_bound_on_zero_waste_instances(number: int) -> None:
    """Hopper and Turton C1: the optimum is 20, with or without turning, so the bound is 20 (by area)."""
    task, _ = rectangles_task(f"C1_{number}")
    width = task.ground.width
    pieces = [to_lay(shape.part, shape.poses[0].ring, 1, True) for shape in task.shapes]
    for crosswise in ("never", "any"):
        on = Cloth("main", width, selvedge=0, washed=True, crosswise=crosswise)  # type: ignore[arg-type]
        bound, _ = lower_bound(pieces, on)
        assert bound == pytest.approx(20, abs=1e-3)
        assert bound <= 20 + 1e-9
        assert lay_out(pieces, [], on)[0].length <= 1.4 * 20


@pytest.mark.parametrize("name", sorted(TUNICS))
def test_our_engine_is_within_one_and_a_half_of_the_bound(name: str) -> None:
    """No lay is shorter than the bound; ours is at most half as long again, against the nap too."""
    pieces, on = tunic(name)
    (lay,) = lay_out(pieces, [], on)
    assert lay.lower_bound <= lay.length <= 1.5 * lay.lower_bound
    assert lay.engine == "rows"


@pytest.mark.parametrize("name", ["A150", "B150nap"])
def test_the_portfolio_is_as_good_as_general_packers(name: str) -> None:
    """With little effort, repeatable, what they find in half a minute."""
    pieces, on = tunic(name)
    (lay,) = lay_out(pieces, [], on, Budget(effort=1))
    assert lay.lower_bound <= lay.length <= 1.005 * GENERAL[name]


@pytest.mark.parametrize("name", ["C1_1", "C2_1", "C3_1"])
def test_rectangles_without_waste(name: str) -> None:
    """In a second or two no more than a tenth longer than the proved optimum, and never shorter."""
    assert name in RECTANGLES
    task, least = rectangles_task(name)
    found = best(task, Budget(seconds=2), enough=least)
    assert least - 1e-6 <= found.length <= 1.1 * least
    assert_sound(found)


@pytest.mark.parametrize("name", sorted(DENSITIES))
def test_irregular_pieces(name: str) -> None:
    """At once and without overlaps, never denser than what is published as the best of all (92.6 %)."""
    task, area = irregular_task(name)
    found = best(task, Budget())
    assert 0.5 < area / (task.ground.width * found.length) < 0.926
    assert_sound(found)


def test_both_readings_of_a_tunic_agree() -> None:
    task = tunic_task("A90")
    assert len(task.shapes) == sum(piece.count for piece in tunic("A90")[0])


def assert_sound(found: Found) -> None:
    """No two pieces overlap, by shapely."""
    laid = [translate(Polygon(s.pose.ring), s.x, s.y) for s in found.spots]
    assert max(a.intersection(b).area for k, a in enumerate(laid) for b in laid[: k + 1] if a is not b) < 1e-3
