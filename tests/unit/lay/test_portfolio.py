"""The portfolio: sound, in time, stoppable, repeatable; settling; the polish."""

from __future__ import annotations

import _thread
import itertools
import math
import threading
import time
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lay_specimens import cloth, gore, piece, rectangle, sleeve
from shapely.affinity import translate
from shapely.geometry import Polygon

from ellwand.geometry.lines import Line
from ellwand.lay.engines import Leader
from ellwand.lay.portfolio import best
from ellwand.lay.settle import settle, sound
from ellwand.lay.shapes import shapes_of
from ellwand.lay.swap import polished
from ellwand.lay.task import Budget, Found, Ground, Spot, Task, length_of


def task_of(width: float, *pieces: tuple[str, Line, int], blocked: tuple[Line, ...] = ()) -> Task:
    made = [piece(name, cut, count) for name, cut, count in pieces]
    return Task(shapes_of(made, [], cloth(width)), Ground(width, blocked=blocked))


TUNIC = task_of(90.0, ("body", rectangle(61, 118), 2), ("gore", gore(30, 74), 4), ("sleeve", sleeve(54, 28, 58), 2))


def faults(spots: tuple[Spot, ...] | list[Spot], task: Task) -> list[str]:
    """What shapely finds wrong."""
    laid = [translate(Polygon(s.pose.ring), s.x, s.y) for s in spots]
    parts = sorted(s.shape.part for s in spots)
    out = [] if parts == sorted(s.part for s in task.shapes) else ["not each part once"]
    for k, a in enumerate(laid):
        left, low, right, _ = a.bounds
        past = spots[k].pose.past
        if left < -past[0] - 1e-4 or right > task.ground.width + past[1] + 1e-4 or low < -1e-4:
            out.append("over the edge")
        if any(a.intersection(b).area > 1e-3 for b in laid[:k]):
            out.append("overlap")
        if any(a.intersection(Polygon(b)).area > 1e-3 for b in task.ground.blocked):
            out.append("on a fault")
    return out


@pytest.fixture(scope="module")
def timed() -> tuple[list[Found], Found]:
    told: list[Found] = []
    return told, best(TUNIC, Budget(seconds=2.0), told.append)


def test_every_lay_told_is_sound_and_shorter(timed: tuple[list[Found], Found]) -> None:
    told, found = timed
    assert told[0].engine == "rows"
    assert told[-1].spots == found.spots
    assert all(faults(f.spots, TUNIC) == [] for f in told)
    assert all(b.length < a.length for a, b in itertools.pairwise(told))
    assert all(f.length == length_of(f.spots) for f in told)


def test_at_once() -> None:
    """With no budget, the instant engine's answer, the same every time."""
    first, again = best(TUNIC, Budget()), best(TUNIC, Budget())
    assert first.engine == "rows"
    assert first.spots == again.spots


def test_nothing_and_one_piece() -> None:
    assert best(Task((), Ground(90.0)), Budget(seconds=5.0)).length == 0
    assert best(task_of(90.0, ("a", rectangle(61, 118), 1)), Budget(seconds=5.0)).length == 118


def test_effort_repeats_to_the_last_digit() -> None:
    first, again = (best(TUNIC, Budget(effort=1, seed=3)) for _ in range(2))
    assert first.spots == again.spots
    assert faults(first.spots, TUNIC) == []
    assert first.length < best(TUNIC, Budget()).length


def test_a_lay_as_short_as_can_be_ends_the_search() -> None:
    """Two boxes fill the width: nothing is shorter than 50, so ten minutes are not spent."""
    task = task_of(80.0, ("a", rectangle(40, 50), 2))
    told: list[Found] = []
    assert best(task, Budget(seconds=600.0), told.append, enough=50.0).length == pytest.approx(50)


def test_stop_is_heard() -> None:
    """The maker's word ends ten minutes' search with the best so far."""
    told: list[Found] = []
    found = best(TUNIC, Budget(seconds=600.0), told.append, lambda: len(told) > 1)
    assert found == told[-1]
    heard = len(told)
    time.sleep(0.3)
    assert len(told) == heard


def test_ctrl_c_ends_the_search_and_not_the_job() -> None:
    timers: list[threading.Timer] = []

    def press_soon(_: Found) -> None:
        if not timers:
            timers.append(threading.Timer(0.5, _thread.interrupt_main))
            timers[0].start()

    found = best(TUNIC, Budget(seconds=600.0), press_soon)
    timers[0].join()
    assert faults(found.spots, TUNIC) == []


def test_no_threads_or_processes_stay() -> None:
    best(TUNIC, Budget(seconds=0.5))
    time.sleep(0.3)
    assert [t for t in threading.enumerate() if t is not threading.main_thread() and not t.daemon] == []


def test_faults_and_selvedge_edges() -> None:
    """What rows does not know goes through our own search from the start."""
    fault: Line = ((10.0, 20.0), (20.0, 20.0), (20.0, 30.0), (10.0, 30.0))
    task = replace(TUNIC, ground=Ground(90.0, blocked=(fault,)))
    found = best(task, Budget(seconds=1.0))
    assert faults(found.spots, task) == []
    shape = TUNIC.shapes[0]
    wide = replace(shape, poses=tuple(replace(p, past=(0.7, 0.7)) for p in shape.poses))
    at_edge = Task((wide, *TUNIC.shapes[1:]), Ground(90.0))
    assert faults(best(at_edge, Budget()).spots, at_edge) == []


sides = st.integers(2, 40).map(float)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(sides, sides, st.sampled_from(["box", "gore", "sleeve"])), min_size=1, max_size=8))
def test_at_once_is_sound_on_any_pieces(sizes: list[tuple[float, float, str]]) -> None:
    pieces = []
    for k, (a, b, kind) in enumerate(sizes):
        cut = {"box": rectangle(a, b), "gore": gore(a, max(a, b)), "sleeve": sleeve(a, a / 2, b)}[kind]
        pieces.append((f"{k}", cut, 1 + k % 2))
    task = task_of(60.0, *pieces)
    found = best(task, Budget())
    assert faults(found.spots, task) == []
    assert sound(found.spots, task.ground)


# --- settling


def spot(task: Task, index: int, x: float, y: float, **pose: object) -> Spot:
    shape = task.shapes[index]
    return Spot(shape, replace(shape.poses[0], **pose), x, y)  # type: ignore[arg-type]


def test_settling_keeps_off_faults() -> None:
    """A box above a fault slides down to it and no further: 12 + 20."""
    fault: Line = ((5.0, 4.0), (15.0, 4.0), (15.0, 12.0), (5.0, 12.0))
    task = task_of(30.0, ("a", rectangle(30, 20), 1), blocked=(fault,))
    settled = settle([spot(task, 0, 0.0, 13.0)], task.ground)
    assert settled is not None
    assert length_of(settled) == pytest.approx(32, abs=1e-6)


def test_settling_keeps_to_fold_pattern_and_selvedge() -> None:
    task = task_of(100.0, ("a", rectangle(30, 20), 2), ("b", rectangle(41, 20), 1))
    folded = spot(task, 0, 0.0, 5.0, on_fold=True)
    marked = spot(task, 1, 30.0, 6.0, mark=(1.0, 1.0))
    edged = spot(task, 2, 60.0, 4.0, past=(0.0, 1.0))
    settled = settle([folded, marked, edged], replace(task.ground, repeat=(5.0, 5.0)))
    assert settled is not None
    assert [(s.x, round(s.y, 6)) for s in settled[:2]] == [(0.0, 0.0), (30.0, 6.0)]
    assert settled[2].x == pytest.approx(60)
    assert settled[2].y == pytest.approx(0)
    beyond = settle([replace(edged, x=61.0)], task.ground)
    assert beyond is not None
    assert beyond[0].x <= 60.0 + 1e-9


def test_sound_sees_what_is_wrong() -> None:
    task = task_of(100.0, ("a", rectangle(50, 20), 2))
    ground = task.ground
    beside = [spot(task, 0, 0.0, 0.0), spot(task, 1, 50.0, 0.0)]
    assert sound(beside, ground)
    assert not sound([beside[0], replace(beside[1], x=49.9)], ground)
    assert not sound([beside[0], replace(beside[1], x=50.1)], ground)
    assert not sound([beside[0], replace(beside[1], y=-0.1)], ground)
    assert not sound(beside, replace(ground, length=19.0))
    assert not sound(beside, replace(ground, blocked=(((1.0, 1.0), (2.0, 1.0), (2.0, 2.0)),)))
    assert not sound([spot(task, 0, 1.0, 0.0, on_fold=True)], ground)


# --- the polish


def test_the_polish_turns_a_gore_over() -> None:
    """Two triangles base down side by side, one above the other: turned and pushed, they interlock."""
    triangle: Line = ((0.0, 0.0), (40.0, 0.0), (20.0, 60.0))
    task = task_of(62.0, ("gore", triangle, 2))
    leader = Leader(lambda _: None, 0.0)
    leader.offer([spot(task, 0, 0.0, 0.0), spot(task, 1, 0.0, 60.0)], "by hand")
    polished(task, leader, lambda: False, seed=1, trials=300)
    assert leader.found.engine == "by hand, polished"
    assert leader.found.length == pytest.approx(60, abs=0.01)
    assert faults(leader.found.spots, task) == []


def test_the_leader_hears_only_what_is_shorter() -> None:
    task = task_of(100.0, ("a", rectangle(50, 20), 1))
    told: list[Found] = []
    leader = Leader(told.append, 20.0)
    for y in (5.0, 5.0, math.nextafter(5.0, 0.0), 3.0, 4.0):
        leader.offer([spot(task, 0, 0.0, y)], "by hand")
    assert [f.length for f in told] == [25.0, 23.0]
    assert leader.wanting
    leader.offer([spot(task, 0, 0.0, 0.0)], "by hand")
    assert not leader.wanting
    leader.close()
    leader.offer([spot(task, 0, 0.0, -1.0)], "too late")
    assert leader.found.length == 20.0
