"""The outside solvers' workers: their answers against shapely, faces, faults and rectangles."""

from __future__ import annotations

import sys
import time

import pytest
from lay_specimens import cloth, gore, piece, rectangle, sleeve
from shapely.affinity import translate
from shapely.geometry import Polygon

from ellwand.geometry.lines import Line
from ellwand.lay.settle import settle, sound
from ellwand.lay.shapes import shapes_of
from ellwand.lay.solvers import Worker, ask, available, only_boxes
from ellwand.lay.task import Ground, Spot, Task, length_of
from ellwand.model.draft import Part

LAME: Line = ((0.0, 0.0), (40.0, 0.0), (40.0, 12.0), (14.0, 30.0), (0.0, 30.0))
"""No two of its turned and mirrored outlines are alike."""

SOLVERS = [name for name in ("spyrrow", "packingsolver") if available(name)]


def asked_of(
    solver: str, task: Task, seconds: float, way: str = "anytime", faces: tuple[Spot, ...] = (), **more: int
) -> list[tuple[Spot, ...]]:
    """Every lay that the solver tells."""
    asked = ask(task, faces)
    assert asked is not None
    lines: list[str] = []
    worker = Worker(solver, asked.problem(seconds=seconds, **more), lines.append, way)
    end = time.monotonic() + 20 * seconds + 20
    while worker.running and time.monotonic() < end:
        time.sleep(0.02)
    worker.end()
    return [asked.spots(line) for line in lines]


def overlap(spots: list[Spot] | tuple[Spot, ...]) -> float:
    """The largest area (cm²) that two pieces share, by shapely."""
    laid = [translate(Polygon(s.pose.ring), s.x, s.y) for s in spots]
    return max((a.intersection(b).area for k, a in enumerate(laid) for b in laid[:k]), default=0.0)


def test_packingsolver_where_there_are_wheels() -> None:
    """On Python 3.11 the portfolio does without it; everywhere else it is there."""
    assert available("packingsolver") == (sys.version_info >= (3, 12))
    assert available("spyrrow")
    assert available("ortools")


@pytest.mark.parametrize("solver", SOLVERS)
def test_answers_mean_what_they_say(solver: str) -> None:
    """Lame pieces in every pose: each lay told holds all parts in their order, apart but for a hair."""
    on = cloth(90.0, reversible=False)
    pieces = [piece("lame", LAME, 4), piece("gore", gore(30, 60), 4), piece("band", rectangle(8, 46), 2, small=True)]
    parts = [Part(f"lame-{n}", "lame", mirrored=n > 2) for n in (1, 2, 3, 4)]
    task = Task(shapes_of(pieces, parts, on), Ground(90.0))
    told = asked_of(solver, task, 1.0)
    assert told
    for spots in told:
        assert [s.shape for s in spots] == list(task.shapes)
        assert all(s.pose in s.shape.poses for s in spots)
    last = settle(told[-1], task.ground)
    assert last is not None
    assert sound(last, task.ground)
    assert overlap(last) < 1e-3
    assert length_of(last) <= length_of(told[-1]) + 0.05


@pytest.mark.parametrize("solver", SOLVERS)
def test_faces(solver: str) -> None:
    """Reversible cloth: packingsolver may turn pieces over, spyrrow lays each on the face that it is given."""
    task = Task(shapes_of([piece("lame", LAME, 6)], [], cloth(70.0, reversible=True)), Ground(70.0))
    assert {p.flip for p in task.shapes[0].poses} == {False, True}
    faces = tuple(Spot(s, s.poses[-1], 0.0, 0.0) for s in task.shapes)
    told = asked_of(solver, task, 1.0, faces=faces if solver == "spyrrow" else ())
    if solver == "spyrrow":
        assert all(s.pose.flip == faces[0].pose.flip for s in told[-1])
    settled = settle(told[-1], task.ground)
    assert settled is not None
    assert overlap(settled) < 1e-3


@pytest.mark.parametrize("solver", [name for name in SOLVERS if name == "packingsolver"])
def test_faults_are_kept_off(solver: str) -> None:
    """Two boxes of 40 on cloth 80 wide with a fault in the first 10 cm of one half."""
    task = Task(
        shapes_of([piece("a", rectangle(40, 50), 2)], [], cloth(80.0)),
        Ground(80.0, blocked=(((50.0, 2.0), (60.0, 2.0), (60.0, 10.0), (50.0, 10.0)),)),
    )
    settled = settle(asked_of(solver, task, 1.0, "chase")[-1], task.ground)
    assert settled is not None
    assert sound(settled, task.ground)
    assert length_of(settled) == pytest.approx(60, abs=1e-3)


@pytest.mark.parametrize("solver", [name for name in SOLVERS if name == "packingsolver"])
def test_steady_runs_repeat(solver: str) -> None:
    """A number of runs instead of a clock: the last lay is the same to the last digit."""
    pieces = [piece("sleeve", sleeve(50, 25, 55), 4), piece("gore", gore(30, 60), 4)]
    task = Task(shapes_of(pieces, [], cloth(112.0)), Ground(112.0))
    first, second = (asked_of(solver, task, float("inf"), "steady", runs=2)[-1] for _ in range(2))
    assert first == second


@pytest.mark.parametrize("solver", [*(name for name in SOLVERS if name == "packingsolver"), "ortools"])
def test_rectangles(solver: str) -> None:
    """Five boxes, one of them not to be turned: two solvers that share nothing find the same length."""
    pieces = [
        piece("a", rectangle(2.5, 6), 2, small=True),
        piece("b", rectangle(4, 2.5), 1, small=True),
        piece("c", rectangle(2.5, 3.5)),
        piece("d", rectangle(1.5, 3.5), 1, small=True),
    ]
    task = Task(shapes_of(pieces, [], cloth(10.0)), Ground(10.0))
    assert only_boxes(task)
    told = asked_of(solver, task, 3.0, "rectangles", threads=2)
    settled = settle(told[-1], task.ground)
    assert settled is not None
    assert overlap(settled) < 1e-6
    assert length_of(settled) == pytest.approx(6.0, abs=1e-6)


def test_an_end_is_an_end() -> None:
    """A worker that is ended tells nothing more, and its process is gone at once."""
    task = Task(shapes_of([piece("gore", gore(30, 60), 20)], [], cloth(90.0)), Ground(90.0))
    asked = ask(task)
    assert asked is not None
    lines: list[str] = []
    worker = Worker("spyrrow", asked.problem(seconds=60.0), lines.append)
    time.sleep(0.5)
    start = time.process_time()
    worker.end()
    told = len(lines)
    assert not worker.running
    assert time.process_time() - start < 0.2
    worker.say("1.0")  # nobody hears it
    time.sleep(0.2)
    assert len(lines) == told


def test_pieces_that_only_fit_on_the_selvedge_are_not_asked() -> None:
    shape = shapes_of([piece("a", rectangle(80, 50))], [], cloth(80.0))[0]
    assert ask(Task((shape,), Ground(79.0))) is None
