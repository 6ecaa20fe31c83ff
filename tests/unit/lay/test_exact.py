"""The exact engine: sound, never longer, repeatable, stoppable, and its bounds below every lay."""

from __future__ import annotations

import itertools
import math
import time
from collections.abc import Sequence

from hypothesis import given, settings
from hypothesis import strategies as st
from lay_specimens import cloth, gore, piece, rectangle, sleeve
from shapely.affinity import translate
from shapely.geometry import Polygon

from ellwand.geometry.lines import Line
from ellwand.lay.bounds import bound_of
from ellwand.lay.bounds.kinds import kinds_in
from ellwand.lay.exact import Exact, takes
from ellwand.lay.exact.narrowing import Heard, Narrowing
from ellwand.lay.exact.places import as_json, from_json, numbered, spots_of
from ellwand.lay.portfolio import best
from ellwand.lay.shapes import shapes_of
from ellwand.lay.task import Budget, Ground, Spot, Task, length_of


def task_of(width: float, *pieces: tuple[str, Line, int], blocked: tuple[Line, ...] = ()) -> Task:
    made = [piece(name, cut, count) for name, cut, count in pieces]
    return Task(shapes_of(made, [], cloth(width)), Ground(width, blocked=blocked))


TUNIC = task_of(90.0, ("body", rectangle(61, 118), 2), ("gore", gore(30, 74), 4), ("sleeve", sleeve(54, 28, 58), 2))

SMALL = task_of(90.0, ("body", rectangle(61, 90), 1), ("gore", gore(30, 74), 3), ("sleeve", sleeve(44, 28, 48), 2))


def faults(spots: Sequence[Spot], task: Task) -> list[str]:
    """What shapely finds wrong."""
    laid = [translate(Polygon(s.pose.ring), s.x, s.y) for s in spots]
    out = [] if [s.shape for s in spots] == list(task.shapes) else ["not each part once"]
    for k, (spot, a) in enumerate(zip(spots, laid, strict=True)):
        left, low, right, _ = a.bounds
        if left < -1e-4 or right > task.ground.width + 1e-4 or low < -1e-4:
            out.append("over the edge")
        if spot.pose not in spot.shape.poses:
            out.append("not as it may lie")
        if any(a.intersection(b).area > 1e-3 for b in laid[:k]):
            out.append("overlap")
    return out


def alone(task: Task, budget: Budget, known: Sequence[Spot]) -> tuple[list[Sequence[Spot]], tuple[float, str]]:
    """Every lay that the engine's process tells, and its bound at the end."""
    engine = Exact(task, budget, known)
    engine.keep_going(budget.seconds or math.inf)
    lays = []
    while engine.running:
        time.sleep(0.02)
        if spots := engine.latest():
            lays.append(spots)
    if spots := engine.latest():
        lays.append(spots)
    engine.end()
    return lays, engine.bound


def test_its_lays_are_sound_shorter_and_above_its_bound() -> None:
    rows = best(TUNIC, Budget())
    lays, (bound, why) = alone(TUNIC, Budget(effort=2), rows.spots)
    assert lays
    assert all(faults(spots, TUNIC) == [] for spots in lays)
    lengths = [length_of(spots) for spots in lays]
    assert all(b < a for a, b in itertools.pairwise([rows.length, *lengths]))
    assert 0 < bound <= lengths[-1]
    assert why


def test_it_repeats_to_the_last_digit() -> None:
    rows = best(SMALL, Budget()).spots
    first, again = (alone(SMALL, Budget(effort=1), rows) for _ in range(2))
    assert first[0][-1] == again[0][-1]
    assert first[1] == again[1]


def test_it_tells_nothing_longer_than_what_is_known() -> None:
    """Handed its own last lay, it tells only shorter ones, and no bound above them."""
    lays, _ = alone(SMALL, Budget(effort=1), best(SMALL, Budget()).spots)
    more, (bound, _) = alone(SMALL, Budget(effort=1), lays[-1])
    assert all(length_of(spots) < length_of(lays[-1]) for spots in more)
    assert bound <= length_of((more or lays)[-1])


def test_it_ends_when_lay_and_bound_have_met() -> None:
    """Two panels side by side and one above: proved best long before the time is over."""
    task = task_of(90.0, ("panel", rectangle(40, 100), 3), ("gore", gore(30, 50), 1))
    begun = time.process_time()
    found = best(task, Budget(seconds=60.0))
    assert time.process_time() - begun < 30.0
    assert found.length - found.bound < 0.11


def test_what_it_takes() -> None:
    assert takes(TUNIC)
    assert not takes(task_of(90.0, ("gore", gore(30, 74), 40)))
    assert not takes(task_of(90.0, ("gore", gore(30, 74), 1)))
    assert not takes(Task(TUNIC.shapes, Ground(90.0, blocked=(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)),))))


def test_kinds_come_back_as_they_went() -> None:
    kinds, _ = kinds_in(TUNIC)
    assert from_json(as_json(kinds)) == kinds


def test_a_stopped_proof_answers_at_once() -> None:
    begun = time.process_time()
    bound, why = bound_of(TUNIC, budget=Budget(seconds=60.0), stop=lambda: True)
    assert time.process_time() - begun < 5.0
    assert bound > 0
    assert why


def test_a_lay_in_numbers_and_back() -> None:
    kinds, _ = kinds_in(TUNIC)
    spots = best(TUNIC, Budget()).spots
    back = spots_of(numbered(spots, kinds), TUNIC, kinds)
    assert {(s.shape.piece, s.pose, s.x, s.y) for s in back} == {(s.shape.piece, s.pose, s.x, s.y) for s in spots}


@settings(max_examples=8)
@given(
    st.lists(
        st.tuples(st.sampled_from((10.0, 14.0, 20.0)), st.sampled_from((8.0, 15.0, 21.0)), st.booleans()),
        min_size=2,
        max_size=5,
    )
)
def test_bounds_are_never_above_what_is_found(sizes: list[tuple[float, float, bool]]) -> None:
    """On a few small pieces: the engine's bound against every lay, its own and those of the others."""
    pieces = [(f"p{n}", gore(w, h) if tip else rectangle(w, h), 1) for n, (w, h, tip) in enumerate(sizes)]
    task = task_of(30.0, *pieces)
    rows = best(task, Budget())
    kinds, width = kinds_in(task)
    bounds: list[float] = []
    heard = Heard(rows.length, numbered(rows.spots, kinds))
    Narrowing(
        kinds,
        width,
        Budget(effort=1),
        heard,
        lambda places, length: None,
        lambda bound, why: bounds.append(bound),
    ).run()
    assert all(a <= b for a, b in itertools.pairwise(bounds))
    assert bounds[-1] <= heard.length + 1e-6 <= rows.length + 2e-6
