"""Our own search: sound by a second computation, never worse than the first lay, repeatable, best on tiny sets."""

from __future__ import annotations

import math
from itertools import combinations, permutations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import translate
from shapely.geometry import Polygon

from ellwand.geometry.lines import Line, bounds, shift, turn
from ellwand.lay.search import brief, fill, first, prepare, ready, search
from ellwand.lay.task import Budget, Found, Ground, Pose, Shape, Spot, Task

NEVER = lambda: False  # noqa: E731

QUICK = Budget(effort=1)

BRIEF = Budget(seconds=0.05)


def unheard(found: Found) -> None:
    """Nobody listens."""


def pose(ring: Line, degrees: float = 0.0, **more: object) -> Pose:
    turned = turn(ring, degrees)
    left, low, right, high = bounds(turned)
    return Pose(degrees, False, shift(turned, -left, -low), (-left, -low), right - left, high - low, **more)  # type: ignore[arg-type]


def shape(name: str, ring: Line, turns: tuple[float, ...] = (0.0,), width: float = math.inf, **more: object) -> Shape:
    poses = [pose(ring, degrees, **more) for degrees in turns]
    return Shape(name, name, tuple(p for p in poses if p.width <= width))


def rectangle(width: float, height: float) -> Line:
    return ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))


def trapezoid(base: float, top: float, height: float, lean: float) -> Line:
    return ((0.0, 0.0), (base, 0.0), (lean + top, height), (lean, height))


def angle(width: float, height: float, arm: float) -> Line:
    """A hollow outline: two arms at a right angle."""
    return ((0.0, 0.0), (width, 0.0), (width, arm), (arm, arm), (arm, height), (0.0, height))


def assert_sound(spots: tuple[Spot, ...], task: Task) -> None:
    ground = task.ground
    laid = [translate(Polygon(s.pose.ring), s.x, s.y) for s in spots]
    for spot in spots:
        assert spot.pose in spot.shape.poses
        assert spot.x >= -spot.pose.past[0] - 1e-6
        assert spot.x + spot.pose.width <= ground.width + spot.pose.past[1] + 1e-6
        assert spot.y >= -1e-6
        assert ground.length is None or spot.y + spot.pose.height <= ground.length + 2e-6
        assert not spot.pose.on_fold or spot.x == 0.0
        if spot.pose.mark is not None:
            for axis, at in enumerate((spot.x, spot.y)):
                if repeat := ground.repeat[axis]:
                    away = (at + spot.pose.mark[axis] - ground.pattern[axis]) / repeat
                    assert abs(away - round(away)) * repeat < 1e-5
    for a, b in combinations([*laid, *map(Polygon, ground.blocked)], 2):
        assert a.intersection(b).area < 1e-3
    assert len({id(s.shape) for s in spots}) == len(spots)


sizes = st.integers(2, 30).map(float)


@st.composite
def shapes(draw: st.DrawFn, width: float, most: int = 6) -> tuple[Shape, ...]:
    out: list[Shape] = []
    for number in range(draw(st.integers(1, most))):
        kind = draw(st.sampled_from(("rectangle", "trapezoid", "triangle", "angle")))
        w, h = draw(sizes), draw(sizes)
        if kind == "rectangle":
            ring = rectangle(w, h)
        elif kind == "angle":
            ring = angle(w, h, min(w, h) / draw(st.sampled_from((2, 3, 4))))
        else:
            top = 0.0 if kind == "triangle" else draw(st.floats(0.5, w))
            ring = trapezoid(w, top, h, draw(st.floats(0.0, w - top)))
            ring = ring[:3] if top == 0.0 else ring
        turns = draw(st.sampled_from(((0.0,), (0.0, 180.0), (0.0, 90.0, 180.0, 270.0))))
        made = shape(f"s{number}", ring, turns, width)
        if made.poses:
            out += [Shape(f"s{number}", f"s{number}-{k}", made.poses) for k in range(draw(st.integers(1, 2)))]
    return tuple(out)


@st.composite
def plain_tasks(draw: st.DrawFn) -> Task:
    width = draw(st.integers(20, 60).map(float))
    return Task(draw(shapes(width)), Ground(width))


@given(plain_tasks())
@settings(max_examples=12, deadline=None)
def test_lays_on_a_strip_are_sound_and_better_than_the_first(task: Task) -> None:
    found = search(task, Budget(effort=0, seconds=0.02), unheard, NEVER)
    start = first(task)
    if not task.shapes:
        assert found is None
        return
    assert found is not None
    assert start is not None
    assert len(found.spots) == len(task.shapes)
    assert_sound(found.spots, task)
    assert_sound(start.spots, task)
    assert found.length <= start.length
    assert found.length == max(s.y + s.pose.height for s in found.spots)


@st.composite
def bound_tasks(draw: st.DrawFn) -> Task:
    """Faults, a fold, selvedges passed, a pattern: some of them."""
    width = draw(st.integers(40, 80).map(float))
    repeat = draw(st.sampled_from(((0.0, 0.0), (0.0, 7.0), (5.0, 0.0), (6.0, 4.0), (0.3, 0.7))))
    past = draw(st.sampled_from(((0.0, 0.0), (1.5, 0.0), (2.0, 2.0))))
    plain = draw(shapes(width - 10))
    made: list[Shape] = []
    for s in plain:
        marked = draw(st.booleans()) and any(repeat)
        poses = tuple(
            Pose(p.turn, p.flip, p.ring, p.origin, p.width, p.height, past, False, (1.25, 0.5) if marked else None)
            for p in s.poses
        )
        made.append(Shape(s.piece, s.part, poses))
    if draw(st.booleans()):
        made.append(Shape("folded", "folded", (pose(rectangle(15, 20), on_fold=True),)))
    x, y = draw(st.floats(0, width - 5)), draw(st.floats(0, 40))
    blocked = draw(st.sampled_from(((), (((x, y), (x + 5, y), (x + 4, y + 6)),))))
    return Task(tuple(made), Ground(width, None, blocked, repeat, (0.4, 0.2)))


@given(bound_tasks())
@settings(max_examples=25, deadline=None)
def test_everything_the_ground_asks_is_heeded(task: Task) -> None:
    found = search(task, Budget(seconds=0.01), unheard, NEVER)
    if not task.shapes:
        assert found is None
        return
    assert found is not None
    assert len(found.spots) == len(task.shapes)
    assert_sound(found.spots, task)


@given(plain_tasks(), st.integers(15, 60).map(float))
@settings(max_examples=12, deadline=None)
def test_a_remnant_takes_what_it_can(task: Task, length: float) -> None:
    """Sound, and never less than the largest shape that fits alone."""
    remnant = Task(task.shapes, Ground(task.ground.width, length))
    spots = fill(remnant, Budget(seconds=0.01), unheard, NEVER)
    assert_sound(spots, remnant)
    fits = [Polygon(s.poses[0].ring).area for s in task.shapes if any(p.height <= length for p in s.poses)]
    assert sum(Polygon(s.pose.ring).area for s in spots) >= max(fits, default=0.0) - 1e-6
    whole = search(remnant, Budget(seconds=0.01), unheard, NEVER)
    assert whole is None or len(whole.spots) == len(task.shapes)


def test_a_remnant_with_room_for_all_takes_all() -> None:
    """Four squares of 10 on 20 by 20, and a fifth that cannot."""
    squares = tuple(shape(f"q{k}", rectangle(10, 10)) for k in range(5))
    few, all_five = Task(squares[:4], Ground(20.0, 20.0)), Task(squares, Ground(20.0, 20.0))
    assert len(fill(few, BRIEF, unheard, NEVER)) == len(fill(all_five, BRIEF, unheard, NEVER)) == 4
    assert search(all_five, BRIEF, unheard, NEVER) is None
    found = search(few, BRIEF, unheard, NEVER)
    assert found is not None
    assert found.length == pytest.approx(20, abs=1e-5)


def lowest_left(order: tuple[tuple[float, float], ...], width: float) -> float:
    """Rectangles laid in turn, each at its lowest then leftmost free corner: the length; all by plain search."""
    laid: list[tuple[float, float, float, float]] = []
    for w, h in order:
        xs = {0.0, width - w, *(x for a in laid for x in (a[2], a[0] - w))}
        ys = {0.0, *(a[3] for a in laid)}
        places = [
            (y, x)
            for x, y in product(xs, ys)
            if -1e-9 <= x <= width - w + 1e-9
            and all(x >= a[2] - 1e-9 or x + w <= a[0] + 1e-9 or y >= a[3] - 1e-9 or y + h <= a[1] + 1e-9 for a in laid)
        ]
        y, x = min(places)
        laid.append((x, y, x + w, y + h))
    return max(a[3] for a in laid)


@given(st.lists(st.tuples(sizes, sizes), min_size=1, max_size=4))
@settings(max_examples=8, deadline=None)
def test_reaches_the_best_of_all_orders_of_four_rectangles(sides: list[tuple[float, float]]) -> None:
    width = 40.0
    best = min(
        lowest_left(tuple(order), width)
        for turned in product(*[((w, h), (h, w)) for w, h in sides])
        for order in permutations(turned)
    )
    task = Task(tuple(shape(f"r{k}", rectangle(*s), (0.0, 90.0)) for k, s in enumerate(sides)), Ground(width))
    found = search(task, Budget(seconds=0.05), unheard, NEVER)
    assert found is not None
    assert found.length <= best + 1e-5


def garment() -> Task:
    """Two panels, four gores, two sleeves and two gussets on 100 cm."""
    bodies = [shape(f"body{k}", rectangle(60, 100)) for k in range(2)]
    gores = [shape(f"gore{k}", trapezoid(35, 1.5, 70, 0), (0.0, 180.0)) for k in range(4)]
    sleeves = [shape(f"sleeve{k}", trapezoid(45, 25, 55, 10), (0.0, 180.0)) for k in range(2)]
    gussets = [shape(f"gusset{k}", rectangle(12, 12)) for k in range(2)]
    return Task((*bodies, *gores, *sleeves, *gussets), Ground(100.0))


def test_effort_gives_the_same_lay_again_and_more_of_it_none_worse() -> None:
    task = garment()
    once, again = (search(task, QUICK, unheard, NEVER) for _ in range(2))
    more = search(task, Budget(effort=2), unheard, NEVER)
    assert once is not None
    assert again is not None
    assert more is not None
    assert once.spots == again.spots
    assert more.length <= once.length
    assert_sound(more.spots, task)


def test_pieces_that_may_not_be_turned_are_begun_from_both_ends() -> None:
    """A triangle that stands on its base, and a rectangle: on 30 cm the lay is the same from either end, 50 cm long."""
    standing = shape("gore", ((0.0, 0.0), (30.0, 0.0), (15.0, 30.0)))
    task = Task((standing, shape("band", rectangle(30, 20))), Ground(30.0))
    found = search(task, BRIEF, unheard, NEVER)
    assert found is not None
    assert_sound(found.spots, task)
    assert found.length == pytest.approx(50, abs=1e-5)
    one_way = Task((*(shape(f"gore{k}", trapezoid(30, 4, 40, 8)) for k in range(5)), standing), Ground(70.0))
    laid = search(one_way, Budget(effort=1), unheard, NEVER)
    assert laid is not None
    assert_sound(laid.spots, one_way)
    assert laid.length <= first(one_way).length  # type: ignore[union-attr]


def test_pieces_of_one_outline_keep_their_own_poses() -> None:
    """Drawn from other origins, and one of them already turned: each spot has a pose of its own shape."""
    one, other = shape("one", rectangle(10, 20), (0.0, 180.0)), shape("other", rectangle(20, 10), (90.0, 270.0))
    assert one.poses[0].origin != other.poses[0].origin
    found = first(Task((one, other), Ground(20.0)))
    assert found is not None
    for spot in found.spots:
        assert any(spot.pose is own for own in spot.shape.poses)


def test_compiled_once_it_is_ready() -> None:
    prepare()
    assert ready()


def test_one_short_cooling_repeats_itself_and_is_no_worse_than_the_first() -> None:
    once, again, start = brief(garment(), 200_000), brief(garment(), 200_000), first(garment())
    assert once is not None
    assert again is not None
    assert start is not None
    assert once.spots == again.spots
    assert once.length <= start.length


def test_improvements_are_told_ever_shorter_and_a_stop_ends_it() -> None:
    told: list[Found] = []
    found = search(garment(), Budget(seconds=60), told.append, lambda: len(told) >= 3)
    assert found is not None
    assert found is told[-1]
    lengths = [f.length for f in told]
    assert lengths == sorted(lengths, reverse=True)
    assert len(set(lengths)) == len(lengths)
    for lay in told:
        assert_sound(lay.spots, garment())


def test_exact_fits_are_found() -> None:
    """Nine squares fill 30 by 30; two halves of a gore make a rectangle of the full width."""
    squares = tuple(shape(f"q{k}", rectangle(10, 10)) for k in range(9))
    found = first(Task(squares, Ground(30.0)))
    assert found is not None
    assert found.length == pytest.approx(30, abs=1e-5)
    halves = tuple(shape(f"h{k}", ((0.0, 0.0), (40.0, 0.0), (0.0, 70.0)), (0.0, 180.0)) for k in range(2))
    pair = search(Task(halves, Ground(40.0)), Budget(seconds=0.05), unheard, NEVER)
    assert pair is not None
    assert pair.length == pytest.approx(70, abs=1e-4)


def test_too_wide_or_too_long_is_not_laid() -> None:
    assert first(Task((shape("wide", rectangle(50, 10)),), Ground(40.0))) is None
    assert first(Task((shape("long", rectangle(30, 50)),), Ground(40.0, 45.0))) is None
    assert fill(Task((shape("long", rectangle(30, 50)),), Ground(40.0, 45.0)), QUICK, unheard, NEVER) == ()
