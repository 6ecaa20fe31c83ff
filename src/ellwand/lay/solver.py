"""The strip packer spyrrow, asked in our terms.

Its strip is as high as our cloth is wide and grows along its x, so pieces go in turned by −90 degrees and
come out turned back; never mirrored.  It cannot fit exactly, so its strip is a hair wider, and its answer has
to be settled.  It stops by the clock: the same seed gives the same lay only when it has converged.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import timedelta
from typing import Final

from shapely.geometry import Polygon, box

from ellwand.geometry.lines import Line, bounds, turn
from ellwand.lay.hulls import fewer_corners, hull, is_convex
from ellwand.lay.task import Pose, Shape, Spot

INFLATION: Final = 1.0001
"""The strip's height over the usable width."""

SLACK: Final = 0.02
"""How far (cm) an arc may be taken outside itself to save corners."""


def solve(spots: Sequence[Spot], width: float, seconds: float, seed: int) -> list[Spot]:
    """The spots' shapes laid afresh, each on the face it has now, in about ``seconds``.

    The answer may overlap, or leave the width, by hundredths of a centimetre.  Ctrl-C ends the
    search early and the best lay so far is answered.
    """
    import spyrrow

    groups: dict[tuple[str, bool], list[Spot]] = {}
    for spot in spots:
        groups.setdefault((spot.shape.piece, spot.pose.flip), []).append(spot)
    poses: dict[str, dict[float, Pose]] = {}
    waiting: dict[str, list[Shape]] = {}
    items = []
    for number, ((_, flip), group) in enumerate(groups.items()):
        name = str(number)
        poses[name] = {p.turn: p for p in group[0].shape.poses if p.flip == flip}
        waiting[name] = [spot.shape for spot in group]
        # one pose stands for all: the others are it, turned
        base = next(iter(poses[name].values()))
        ring = turn(eased(base.ring), -90)
        turns = [(degrees - base.turn) % 360 for degrees in poses[name]]
        items.append(spyrrow.Item(name, ring, len(group), turns))
    strip = spyrrow.StripPackingInstance("", width * INFLATION, items)
    config = spyrrow.StripPackingConfig(
        early_termination=True, total_computation_time=max(1, math.ceil(seconds)), num_workers=1, seed=seed
    )
    config.exploration_time = timedelta(seconds=0.8 * seconds)
    config.compression_time = timedelta(seconds=0.2 * seconds)

    laid = []
    for item in strip.solve(config).placed_items:
        base = next(iter(poses[item.id].values()))
        pose = poses[item.id][(round(item.rotation) + base.turn) % 360]
        along, across = item.translation
        left, low, _, _ = bounds(turn(base.ring, pose.turn - base.turn))
        laid.append(Spot(waiting[item.id].pop(0), pose, width - across + left, along + low))
    return laid


def eased(ring: Line) -> Line:
    """An outline around ``ring``, nowhere further out than about ``SLACK``, with fewer corners."""
    if is_convex(ring):
        return fewer_corners(hull(ring), SLACK)
    plain = Polygon(ring)
    fewer = plain.simplify(SLACK)
    if len(fewer.exterior.coords) < len(plain.exterior.coords):
        fewer = fewer.buffer(SLACK, join_style="mitre").intersection(box(*plain.bounds))
    return tuple((float(x), float(y)) for x, y in fewer.exterior.coords[:-1])
