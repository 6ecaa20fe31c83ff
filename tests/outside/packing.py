"""The packing instances of tests/data/packing as tasks."""

from __future__ import annotations

import csv
import json
from pathlib import Path
from typing import Final

from ellwand.geometry.lines import Line, area, bounds, shift, turn
from ellwand.lay.task import Ground, Pose, Shape, Task

DATA: Final = Path(__file__).resolve().parents[1] / "data" / "packing"

TUNICS: Final = {case["name"]: case for case in json.loads((DATA / "tunics.json").read_text("utf-8"))["cases"]}

RECTANGLES: Final = tuple(f"C{group}_{number}" for group in (1, 2, 3, 4) for number in (1, 2, 3))

DENSITIES: Final = {"shirts": 0.8966, "trousers": 0.9173, "marques": 0.9093, "albano": 0.8947, "swim": 0.7826}
"""The irregular instances and their published mean densities."""

WIDE: Final = 150.0
"""The irregular instances have units of their own and are drawn to this width (cm)."""


def tunic_task(name: str) -> Task:
    """The case with its grain along y; one-sided: its pieces may be turned, not flipped."""
    case = TUNICS[name]
    shapes = []
    for p in case["pieces"]:
        poses = poses_of(turn([(x, y) for x, y in p["outline"]], 90), p["turns"])
        shapes += [Shape(p["name"], f"{p['name']}-{n}", poses) for n in range(p["count"])]
    return Task(tuple(shapes), Ground(float(case["cloth_width"])))


def rectangles_task(name: str) -> tuple[Task, float]:
    """An instance of Hopper and Turton, its rectangles free to turn, and the shortest length."""
    with (DATA / "hopper2001a" / f"{name}_items.csv").open(encoding="utf-8") as file:
        sides = [(float(r["WIDTH"]), float(r["HEIGHT"])) for r in csv.DictReader(file)]
    with (DATA / "hopper2001a" / f"{name}_bins.csv").open(encoding="utf-8") as file:
        width = float(next(csv.DictReader(file))["WIDTH"])
    shapes = [
        Shape(f"r{n}", f"r{n}", poses_of(((0.0, 0.0), (w, 0.0), (w, h), (0.0, h)), [0, 90]))
        for n, (w, h) in enumerate(sides)
    ]
    return Task(tuple(shapes), Ground(width)), sum(w * h for w, h in sides) / width


def irregular_task(name: str) -> tuple[Task, float]:
    """An ESICUP instance, and the area of its pieces (cm²)."""
    case = json.loads((DATA / "irregular" / f"{name}.json").read_text("utf-8"))
    scale = WIDE / case["strip_height"]
    shapes, total = [], 0.0
    for item in case["items"]:
        ring = [(x * scale, y * scale) for x, y in item["shape"]["data"]]
        ring = ring[:-1] if ring[0] == ring[-1] else ring
        ring = ring if area(ring) > 0 else ring[::-1]
        total += item["demand"] * area(ring)
        # their strip grows along x
        poses = poses_of(turn(ring, 90), item["allowed_orientations"])
        shapes += [Shape(f"{item['id']}", f"{item['id']}-{n}", poses) for n in range(item["demand"])]
    return Task(tuple(shapes), Ground(WIDE)), total


def poses_of(ring: Line, turns: list[float]) -> tuple[Pose, ...]:
    """The outline in each turn, alike ones once."""
    poses: dict[frozenset[tuple[float, float]], Pose] = {}
    for degrees in turns:
        turned = turn(ring, degrees)
        left, low, right, high = bounds(turned)
        moved = shift(turned, -left, -low)
        pose = Pose(float(degrees), False, moved, (-left, -low), right - left, high - low)
        poses.setdefault(frozenset((round(x, 3), round(y, 3)) for x, y in moved), pose)
    return tuple(poses.values())
