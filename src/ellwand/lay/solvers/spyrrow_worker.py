"""spyrrow in a process of its own: a problem in on stdin, every better lay out on stdout, one JSON line each.

Run as a script; it imports nothing of the project.  It ends when it is killed, or when stdin is closed.
"""

from __future__ import annotations

import json
import math
import os
import sys
import threading
import time
from datetime import timedelta
from typing import Any, Final

INFLATION: Final = 1.0001
"""The strip's height over the usable width: spyrrow cannot fit exactly."""


def main() -> None:
    """Read the problem, solve it, and tell every feasible lay that is shorter than the one before."""
    sys.path.append(sys.argv[1])
    import spyrrow

    problem = json.loads(sys.stdin.readline())
    if hasattr(os, "nice"):
        os.nice(problem["nice"])
    threading.Thread(target=_end_with_stdin, daemon=True).start()
    kinds = problem["kinds"]
    items = [
        spyrrow.Item(str(k), [tuple(p) for p in kind["ring"]], kind["count"], [angle for angle, _ in kind["poses"]])
        for k, kind in enumerate(kinds)
    ]
    strip = spyrrow.StripPackingInstance("", problem["width"] * INFLATION, items)
    seconds = problem["seconds"]
    config = spyrrow.StripPackingConfig(
        early_termination=True,
        total_computation_time=max(1, math.ceil(seconds)),
        num_workers=problem["threads"],
        seed=problem["seed"],
    )
    config.exploration_time = timedelta(seconds=0.8 * seconds)
    config.compression_time = timedelta(seconds=0.2 * seconds)
    told = spyrrow.ProgressQueue()
    solving = threading.Thread(target=strip.solve, args=(config, told), daemon=True)
    solving.start()
    good = (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas, spyrrow.ReportType.Final)
    least = math.inf
    while True:
        over = not solving.is_alive()
        for kind, solution in told.drain():
            if kind in good and solution.width < least:
                least = solution.width
                print(json.dumps([_place(item, kinds) for item in solution.placed_items]), flush=True)
        if over:
            return
        time.sleep(0.01)


def _place(item: Any, kinds: list[dict[str, Any]]) -> tuple[int, int, float, float]:
    """The kind, its pose, and the least corner of its box."""
    number = int(item.id)
    angles = [angle for angle, _ in kinds[number]["poses"]]
    pose = min(range(len(angles)), key=lambda k: abs((angles[k] - item.rotation + 180) % 360 - 180))
    c, s = math.cos(math.radians(angles[pose])), math.sin(math.radians(angles[pose]))
    ring = kinds[number]["ring"]
    along, across = item.translation
    return number, pose, along + min(c * x - s * y for x, y in ring), across + min(s * x + c * y for x, y in ring)


def _end_with_stdin() -> None:
    sys.stdin.read()
    os._exit(0)


if __name__ == "__main__":
    main()
