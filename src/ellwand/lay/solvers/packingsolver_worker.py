"""packingsolver in a process of its own: a problem in on stdin, every better lay out on stdout, one JSON line each.

Run as a script; it imports nothing of the project.  It ends when it is killed, or when stdin is closed.  Four ways:

- ``anytime``: as packingsolver comes, on all cores.
- ``chase``: in one thread its tree search, ever wider, and between whiles its local search, again and again with the
  pieces in another order, now from its own start, now straight at a strip a little shorter than the best that anyone
  has: lines on stdin after the first tell it that length.
- ``rectangles``: its own solver for them, on all cores.
- ``steady``: the same with a number of runs instead of a clock: the same answer every time.
"""

from __future__ import annotations

import itertools
import json
import math
import os
import random
import sys
import threading
import time
from collections.abc import Callable
from typing import Any, Final

FINEST: Final = 1000
"""Parts of a centimetre that rectangles are read to."""

CLOSER: Final = 0.998
"""The strip that is aimed at, over the best."""

MOVES: Final = ((False, 64), (True, 256), (True, 256), (False, 128), (True, 1024))
"""Runs of the local search in turn: whether at a shorter strip, and how long it tries."""

QUEUES: Final = {
    0: (1, 2, 3, 4, 6, 9, 13, 19, 28, 42, 63),
    3: (94, 141, 211),
    8: (316, 474),
    20: (711, 1066),
    50: (1600, 2400, 3600),
}
"""How wide the tree search is in the runs before these runs of the local search; wider is not always better."""


class Solving:
    """The problem, and the best lay so far."""

    def __init__(self, problem: dict[str, Any]) -> None:
        from packingsolver import irregular

        self._solver = irregular
        self._problem = problem
        self._least = math.inf
        self._aim = math.inf
        self._lock = threading.Lock()
        self._end = time.monotonic() + problem["seconds"]

    def anytime(self) -> None:
        """One run as it comes."""
        self._run(self._solver.OptimizationMode.Anytime, None, None)

    def rectangles(self) -> None:
        """One run of the rectangles' own solver, sizes in whole thousandths of a centimetre."""
        from packingsolver import rectangle

        builder = rectangle.InstanceBuilder()
        builder.set_objective(rectangle.Objective.OpenDimensionX)
        kinds, poses = self._problem["kinds"], []
        for kind in kinds:
            along, across = (math.ceil(max(p[k] for p in kind["ring"]) * FINEST - 0.01) for k in (0, 1))
            lying = {angle in (90, 270): k for k, (angle, _) in reversed(list(enumerate(kind["poses"])))}
            poses.append(lying)
            if False not in lying:
                along, across = across, along
            builder.add_item_type(along, across, copies=kind["count"], oriented=len(lying) == 1 and along != across)
        builder.add_bin_type(
            math.ceil(self._problem["long"] * FINEST), math.floor(self._problem["width"] * FINEST + 0.01)
        )
        parameters = rectangle.OptimizeParameters()
        parameters.verbosity_level = 0
        parameters.messages_to_stdout = False
        parameters.time_limit = self._problem["seconds"]

        def place(item: Any) -> tuple[int, int, float, float]:
            lying = poses[item.item_type_id]
            crosswise = item.rotate != (False not in lying)
            return item.item_type_id, lying.get(crosswise, 0), item.x / FINEST, item.y / FINEST

        def tell(output: Any) -> None:
            self._tell(_value(output.solution), place)

        parameters.new_solution_callback = tell
        tell(rectangle.optimize(builder.build(), parameters))

    def chase(self) -> None:
        """Both searches until the time is over."""
        mode = self._solver.OptimizationMode.NotAnytime  # tells on its way
        for number in itertools.count():
            if time.monotonic() > self._end:
                return
            self._turn(number, mode)

    def steady(self) -> None:
        """Both searches, so many runs."""
        for number in range(self._problem["runs"]):
            self._turn(number, self._solver.OptimizationMode.NotAnytimeDeterministic)

    def heard(self, length: float) -> None:
        """Somebody has a lay of this length."""
        with self._lock:
            self._aim = min(self._aim, length)

    def _turn(self, number: int, mode: Any) -> None:
        for queue in QUEUES.get(number, ()):
            self._run(mode, None, None, use_tree_search=True, not_anytime_tree_search_queue_size=queue)
        shorter, moves = MOVES[number % len(MOVES)]
        self._run(
            mode,
            self._aim * CLOSER if shorter else None,
            random.Random(f"{self._problem['seed']} {number}"),
            use_local_search_direct_trigonometry=True,
            not_anytime_local_search_maximum_number_of_moves_factor=moves,
        )

    def _run(self, mode: Any, long: float | None, order: random.Random | None, **settings: Any) -> None:
        parameters = self._solver.OptimizeParameters()
        parameters.verbosity_level = 0
        parameters.messages_to_stdout = False
        parameters.optimization_mode = mode
        if math.isfinite(self._end):
            parameters.time_limit = max(self._end - time.monotonic(), 0.01)
        for name, value in settings.items():
            setattr(parameters, name, value)
        numbers = list(range(len(self._problem["kinds"])))
        if order is not None:
            order.shuffle(numbers)

        def tell(output: Any) -> None:
            self._tell(_value(output.solution), lambda item: _place(item, numbers, self._problem["kinds"]))

        parameters.new_solution_callback = tell
        tell(self._solver.optimize(self._instance(long or self._problem["long"], numbers), parameters))

    def _instance(self, long: float, numbers: list[int]) -> Any:
        solver, problem = self._solver, self._problem
        builder = solver.InstanceBuilder()
        builder.set_objective(solver.Objective.OpenDimensionX)
        for kind in (problem["kinds"][k] for k in numbers):
            builder.add_item_type(
                solver.build_shape([tuple(p) for p in kind["ring"]]),
                copies=kind["count"],
                allowed_rotations=[(angle, angle, mirror) for angle, mirror in kind["poses"]],
            )
        strip = builder.add_bin_type(solver.build_rectangle(long, problem["width"]))
        for ring in problem["blocked"]:
            shape = solver.build_shape([tuple(p) for p in ring])
            builder.add_defect(strip, 0, solver.ShapeWithHoles(shape))
        return builder.build()

    def _tell(self, solution: Any, place: Callable[[Any], tuple[int, int, float, float]]) -> None:
        with self._lock:
            if not _value(solution.full) or _value(solution.x_max) >= self._least:
                return
            self._least = _value(solution.x_max)
            self._aim = min(self._aim, self._least)
            print(json.dumps([place(item) for item in _value(solution.bin(0).items)]), flush=True)


def _value(found: Any) -> Any:
    """Some releases have properties where others have methods."""
    return found() if callable(found) else found


def _place(item: Any, numbers: list[int], kinds: list[dict[str, Any]]) -> tuple[int, int, float, float]:
    """The kind, its pose, and the least corner of its box: mirrored left to right, turned, then moved."""
    number = numbers[item.item_type_id]
    poses = kinds[number]["poses"]

    def off(k: int) -> float:
        angle, mirror = poses[k]
        return float(abs((angle - item.angle + 180) % 360 - 180) + 1000 * (mirror != item.mirror))

    pose = min(range(len(poses)), key=off)
    angle, mirror = poses[pose]
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    ring = [(-x, y) if mirror else (x, y) for x, y in kinds[number]["ring"]]
    corner = item.bl_corner
    return number, pose, corner.x + min(c * x - s * y for x, y in ring), corner.y + min(s * x + c * y for x, y in ring)


def main() -> None:
    """Read the problem and solve it."""
    sys.path.append(sys.argv[1])
    problem = json.loads(sys.stdin.readline())
    if hasattr(os, "nice"):
        os.nice(problem["nice"])
    solving = Solving(problem)
    threading.Thread(target=_listen, args=(solving,), daemon=True).start()
    getattr(solving, sys.argv[2])()
    sys.stdout.flush()
    os._exit(0)


def _listen(solving: Solving) -> None:
    for line in sys.stdin:
        solving.heard(float(line))
    os._exit(0)


if __name__ == "__main__":
    main()
