"""CP-SAT on rectangles in a process of its own: a problem in on stdin, every better lay out on stdout, as JSON lines.

Run as a script; it imports nothing of the project.  It ends when it is killed, or when stdin is closed.  First it is
asked for a lay that wastes nothing, then for the shortest; lines on stdin after the first tell it how short a lay there
is already.
"""

from __future__ import annotations

import json
import math
import os
import sys
import threading
import time
from typing import Any, Final

FINEST: Final = 1000
"""Parts of a centimetre that sizes are read to."""


class Boxes:
    """The rectangles in whole units, the largest unit that measures them all: (along, across) for each way to lie."""

    def __init__(self, problem: dict[str, Any]) -> None:
        sizes: list[list[tuple[int, int]]] = []
        self.kinds: list[int] = []
        for number, kind in enumerate(problem["kinds"]):
            along, across = (math.ceil(max(p[k] for p in kind["ring"]) * FINEST - 0.01) for k in (0, 1))
            ways = [(across, along) if angle in (90, 270) else (along, across) for angle, _ in kind["poses"]]
            sizes += [ways] * kind["count"]
            self.kinds += [number] * kind["count"]
        step = math.gcd(*(side for ways in sizes for size in ways for side in size))
        self.unit = step / FINEST
        self.sizes = [[(a // step, b // step) for a, b in ways] for ways in sizes]
        self.width = math.floor(problem["width"] / self.unit + 1e-6)
        area = sum(ways[0][0] * ways[0][1] for ways in self.sizes)
        self.least = max(-(-area // self.width), *(min(a for a, _ in ways) for ways in self.sizes))
        self.known = sum(max(a for a, _ in ways) for ways in self.sizes)

    def heard(self, length: float) -> None:
        """There is a lay of this length (cm)."""
        self.known = min(self.known, math.ceil(length / self.unit - 1e-3))


def main() -> None:
    """Read the problem and solve it."""
    sys.path.append(sys.argv[1])
    problem = json.loads(sys.stdin.readline())
    boxes = Boxes(problem)
    threading.Thread(target=_listen, args=(boxes,), daemon=True).start()
    end = time.monotonic() + problem["seconds"]
    if not _solve(boxes, boxes.least, problem, (end - time.monotonic()) / 2) and boxes.known > boxes.least:
        _solve(boxes, boxes.known - 1, problem, end - time.monotonic())


def _solve(boxes: Boxes, longest: int, problem: dict[str, Any], seconds: float) -> bool:
    """The shortest lay no longer than that; whether one was found."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    length = model.new_int_var(boxes.least, longest, "")
    places, chosen, xs, ys, longs, wides = [], [], [], [], [], []
    for ways in boxes.sizes:
        lies = [model.new_bool_var("") for _ in ways]
        model.add_exactly_one(lies)
        long = model.new_int_var(min(a for a, _ in ways), max(a for a, _ in ways), "")
        wide = model.new_int_var(min(b for _, b in ways), max(b for _, b in ways), "")
        model.add(long == sum(a * way for (a, _), way in zip(ways, lies, strict=True)))
        model.add(wide == sum(b * way for (_, b), way in zip(ways, lies, strict=True)))
        x, far = model.new_int_var(0, longest, ""), model.new_int_var(0, longest, "")
        y, high = model.new_int_var(0, boxes.width, ""), model.new_int_var(0, boxes.width, "")
        model.add(far <= length)
        xs.append(model.new_interval_var(x, long, far, ""))
        ys.append(model.new_interval_var(y, wide, high, ""))
        places.append((x, y))
        chosen.append(lies)
        longs.append(long)
        wides.append(wide)
    model.add_no_overlap_2d(xs, ys)
    model.add_cumulative(xs, wides, boxes.width)
    model.add_cumulative(ys, longs, length)
    for k in range(1, len(places)):
        if boxes.kinds[k] == boxes.kinds[k - 1]:
            model.add(places[k - 1][0] <= places[k][0])
    model.minimize(length)

    class Tell(cp_model.CpSolverSolutionCallback):
        def on_solution_callback(self) -> None:
            lies = [[self.value(way) for way in ways].index(1) for ways in chosen]
            corners = [(self.value(x) * boxes.unit, self.value(y) * boxes.unit) for x, y in places]
            lay = [(kind, way, x, y) for kind, way, (x, y) in zip(boxes.kinds, lies, corners, strict=True)]
            print(json.dumps(lay), flush=True)

    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = max(seconds, 0.01)
    solver.parameters.num_workers = problem["threads"]
    solver.parameters.random_seed = problem["seed"]
    solver.parameters.use_timetabling_in_no_overlap_2d = True
    solver.parameters.use_energetic_reasoning_in_no_overlap_2d = True
    return solver.solve(model, Tell()) in (cp_model.OPTIMAL, cp_model.FEASIBLE)


def _listen(boxes: Boxes) -> None:
    for line in sys.stdin:
        boxes.heard(float(line))
    os._exit(0)


if __name__ == "__main__":
    main()
