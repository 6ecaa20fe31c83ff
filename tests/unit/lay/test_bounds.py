"""Bounds: closed forms, exhaustive search on small sets, and never above a lay; each one by itself."""

from __future__ import annotations

import math
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lay_specimens import cloth, gore, half_gore, piece, rectangle, sleeve, slit_panel
from shapely.geometry import LineString, Polygon

from ellwand.geometry.lines import Line, shift
from ellwand.lay.bounds import better_bound, bound_of, lower_bound
from ellwand.lay.bounds.best import named_bounds
from ellwand.lay.bounds.cores import cores, steps
from ellwand.lay.bounds.kinds import Way, kinds_of
from ellwand.lay.bounds.proof import fits_within
from ellwand.lay.bounds.sections import chords_of
from ellwand.lay.rows import rows
from ellwand.lay.shapes import shapes_of, usable_width
from ellwand.lay.task import Budget, Ground, Pose, Shape, Task, length_of
from ellwand.model.cloth import Cloth
from ellwand.model.piece import Piece

Sides = tuple[int, int]
LITTLE = Budget(effort=1)
ELL: Line = ((0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (10.0, 10.0), (10.0, 30.0), (0.0, 30.0))


def better(pieces: list[Piece], on: Cloth, known: float | None = None, effort: int = 4) -> tuple[float, str]:
    return better_bound(pieces, on, parts=(), budget=Budget(effort=effort), known=known)


def test_two_half_gores_and_a_panel_are_proved_exactly() -> None:
    """A panel 70 leaves 30 of 100; a half gore is 40 at its foot and 30 wide 20 above it: the foot stands out."""
    pieces = [piece("panel", rectangle(70, 100)), piece("gore", half_gore(40, 80))]
    bound, why = better(pieces, cloth(100.0))
    assert bound == pytest.approx(120, abs=0.1)
    assert bound <= 120
    assert why == "every arrangement of the pieces tried"
    assert lower_bound(pieces, cloth(100.0))[0] < 115


def test_what_the_largest_prove_holds_for_all() -> None:
    pieces = [piece("a", rectangle(70, 100)), piece("b", half_gore(40, 80)), piece("c", rectangle(2, 3), 30)]
    bound, why = better(pieces, cloth(100.0))
    assert bound == pytest.approx(120, abs=0.4)
    assert why == "every arrangement of the 2 largest pieces tried"


def test_nothing_fits_beside_the_widest() -> None:
    """Strip 30: gores 40 at the foot reach in with tails 60 long at most, one through each end of the panel."""
    pieces = [piece("panel", rectangle(70, 100)), piece("gore", half_gore(40, 80), 6)]
    kinds, width = kinds_of(pieces, (), cloth(100.0))
    expected = 100 + (6 * 1600 - 2 * 30 * 60 / 2) / 100
    assert named_bounds(kinds, width)["what fits beside the widest pieces"] == pytest.approx(expected, abs=1e-3)


def test_a_small_piece_may_lie_in_a_hole_and_a_large_one_not() -> None:
    hole = ((20.0, 40.0), (20.0, 60.0), (40.0, 60.0), (40.0, 40.0))
    body = piece("body", rectangle(60, 100), holes=(hole,))
    assert better([body, piece("gusset", rectangle(20, 20))], cloth(60.0))[0] == pytest.approx(100, abs=0.1)
    assert better([body, piece("gusset", rectangle(22, 22))], cloth(60.0))[0] == pytest.approx(122, abs=0.1)


def test_slits_hold_nothing() -> None:
    """A slit panel is a rectangle: two of 60 on cloth 119 lie one above the other."""
    assert better([piece("a", slit_panel(60, 100, 90), 2)], cloth(119.0))[0] == pytest.approx(200, abs=0.1)


def test_hollow_pieces_may_interlock() -> None:
    """Two Ls make a rectangle of 30 by 30 when one is turned about: no bound may be above that."""
    pieces, on = [piece("ell", ELL, 2)], cloth(30.0, reversible=False)
    assert better(pieces, on)[0] <= 30 + 1e-9
    assert better([piece("ell", ELL, 2)], cloth(29.0, reversible=False))[0] > 31


def test_with_nap_gores_do_not_interlock() -> None:
    """Triangles of foot 40: on cloth 61 two lie in 80 when one is turned about."""
    pieces = [piece("gore", ((0.0, 0.0), (40.0, 0.0), (20.0, 80.0)), 2)]
    assert better(pieces, cloth(61.0))[0] == pytest.approx(80, abs=0.1)
    # else the second lies 21 aside at most, and slides up along the first's side, which climbs 4 for each 1
    assert better(pieces, cloth(61.0, nap=True))[0] == pytest.approx(80 + (40 - 21) * 4, abs=0.1)


def test_a_task_is_widened_by_what_may_lie_in_the_selvedge() -> None:
    pose = Pose(0.0, False, rectangle(51, 80), (0.0, 0.0), 51, 80)
    beyond = Pose(0.0, False, rectangle(51, 80), (0.0, 0.0), 51, 80, past=(1.0, 1.0))

    def bound(each: Pose) -> float:
        shapes = tuple(Shape("a", f"a-{n}", (each,)) for n in range(2))
        return bound_of(Task(shapes, Ground(100.0)), budget=LITTLE)[0]

    assert bound(pose) == pytest.approx(160, abs=0.1)
    assert bound(beyond) == pytest.approx(80, abs=0.1)


def test_what_lies_on_the_fold_shares_it() -> None:
    """Two of 30 on a fold 100 wide lie end to end, however much room is beside them."""
    pose = Pose(0.0, False, rectangle(30, 80), (0.0, 0.0), 30, 80, on_fold=True)
    task = Task(tuple(Shape("a", f"a-{n}", (pose,), 2) for n in range(2)), Ground(100.0))
    assert bound_of(task, budget=LITTLE)[0] == pytest.approx(160, abs=0.1)


def test_the_same_bound_for_the_same_effort() -> None:
    pieces = [piece("a", rectangle(61, 118), 2), piece("b", half_gore(31, 74), 4), piece("c", sleeve(53, 28, 58), 2)]
    first, second = (better(pieces, cloth(90.0), 380.0, effort=1) for _ in range(2))
    assert first == second
    assert first[0] > lower_bound(pieces, cloth(90.0))[0] + 5


def test_nothing_to_lay() -> None:
    assert better([], cloth())[0] == 0


@pytest.mark.parametrize("ring", [ELL, gore(45, 75), sleeve(50, 25, 55), slit_panel(40, 60, 20)])
def test_cores_and_steps_lie_within(ring: Line) -> None:
    ring = shift(ring, -min(x for x, _ in ring), -min(y for _, y in ring))
    whole = Polygon(ring)
    for part in map(Polygon, cores(ring, ())):
        assert part.difference(whole).area < 1e-6
        assert part.area == pytest.approx(part.convex_hull.area)
    for low, high, chord in steps(chords_of(Way(ring))):
        for y in (low + (high - low) * k / 8 for k in range(1, 8)):
            across = LineString([(-1, y), (99, y)]).intersection(whole)
            assert across.length >= chord - 1e-6


outlines = st.one_of(
    st.builds(rectangle, st.integers(3, 70), st.integers(3, 90)),
    st.builds(half_gore, st.integers(5, 70), st.integers(20, 90)),
    st.builds(sleeve, st.integers(30, 60), st.integers(15, 30), st.integers(20, 70)),
    st.builds(gore, st.integers(10, 45), st.integers(30, 80)),
    st.just(ELL),
)
sets = st.lists(st.tuples(outlines, st.integers(1, 3), st.booleans()), min_size=1, max_size=4)
cloths = st.builds(
    lambda width, nap, reversible: cloth(float(width), nap=nap, reversible=reversible),
    st.integers(70, 150),
    st.booleans(),
    st.booleans(),
)


def laid(pieces: list[Piece], on: Cloth) -> float:
    return length_of(rows(shapes_of(pieces, [], on), usable_width(on)))


@settings(max_examples=100, deadline=None)
@given(sets, cloths)
def test_no_named_bound_is_above_a_lay(drawn: list[tuple[Line, int, bool]], on: Cloth) -> None:
    pieces = [piece(f"p{n}", ring, count, small=small) for n, (ring, count, small) in enumerate(drawn)]
    kinds, width = kinds_of(pieces, (), on)
    length = laid(pieces, on)
    assert {name for name, bound in named_bounds(kinds, width).items() if bound > length + 1e-6} == set()


@settings(max_examples=8, deadline=None)
@given(sets, cloths)
def test_what_has_a_lay_is_never_proved_impossible(drawn: list[tuple[Line, int, bool]], on: Cloth) -> None:
    """Asked at the very length of a lay, and of its mirror images, the answer is never no."""
    pieces = [piece(f"p{n}", ring, count, small=small) for n, (ring, count, small) in enumerate(drawn)]
    kinds, width = kinds_of(pieces, (), on)
    length = laid(pieces, on)
    assert fits_within(kinds, width, length + 1e-6, effort=0.1, seconds=9.0).fits is not False
    assert bound_of(Task(shapes_of(pieces, [], on), Ground(width)), budget=LITTLE, known=length)[0] <= length + 1e-6


@settings(max_examples=24, deadline=None)
@given(st.lists(st.tuples(st.integers(1, 5), st.integers(1, 5)), min_size=1, max_size=5), st.integers(5, 7))
def test_small_rectangles_against_exhaustive_search(sides: list[Sides], width: int) -> None:
    """Every lay of whole numbers tried: the bound is that length (to the millimetre), and each named one below it."""
    pieces = [piece(f"r{n}", rectangle(w, h)) for n, (w, h) in enumerate(sides)]
    kinds, across = kinds_of(pieces, (), cloth(float(width)))
    best = shortest(sides, width)
    assert all(bound <= best + 1e-9 for bound in named_bounds(kinds, across).values())
    bound, _ = better(pieces, cloth(float(width)), effort=2)
    assert best - 0.1 <= bound <= best + 1e-9


def shortest(sides: list[Sides], width: int) -> int:
    """Exhaustive: the lowest free unit (then leftmost) takes some rectangle, or stays empty."""
    least = max(math.ceil(sum(w * h for w, h in sides) / width), *(h for _, h in sides))
    return next(length for length in _from(least) if _fills([0] * length, sorted(sides), width))


def _from(least: int) -> Iterator[int]:
    while True:
        yield least
        least += 1


def _fills(taken: list[int], left: list[Sides], width: int) -> bool:
    """``taken``: for each unit of length a bit for each unit of width."""
    if not left:
        return True
    full = (1 << width) - 1
    free = next(((y, x) for y, row in enumerate(taken) if row != full for x in range(width) if not row >> x & 1), None)
    if free is None or sum(w * h for w, h in left) > sum(width - row.bit_count() for row in taken):
        return False
    y, x = free
    for w, h in dict.fromkeys(left):
        bits = ((1 << w) - 1) << x
        if x + w <= width and y + h <= len(taken) and not any(row & bits for row in taken[y : y + h]):
            rest = list(left)
            rest.remove((w, h))
            if _fills([row | bits if y <= k < y + h else row for k, row in enumerate(taken)], rest, width):
                return True
    return _fills([row | 1 << x if k == y else row for k, row in enumerate(taken)], left, width)
