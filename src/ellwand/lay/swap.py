"""The polish: small changes to a finished lay, each settled again.

A piece is turned the other way up, two change places, or one is put beside another; the linear program of ``settle``
then makes room or finds that it cannot.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Final

from ellwand.lay.engines import Leader
from ellwand.lay.settle import settle, sound
from ellwand.lay.task import Ground, Pose, Spot, Task, length_of

WORSE: Final = 0.004
"""How much longer a lay may be, as a share, and still be built on."""

TIRED: Final = 60
"""Trials without a shorter lay before it is begun again from the best."""

TOP: Final = 0.05
"""Pieces that end so near the end of the lay (cm) set its length."""


def polished(task: Task, leader: Leader, over: Callable[[], bool], *, seed: int, trials: int = sys.maxsize) -> None:
    """Offer every shorter lay found by at most so many small changes to the leading one, until ``over``."""
    draw = random.Random(seed)
    best = current = list(leader.found.spots)
    least, since, engine = length_of(best), 0, leader.found.engine
    for _ in range(trials):
        if over():
            return
        since += 1
        if since > TIRED:
            current, since = best, 0
        lay = settle(_changed(current, task.ground, draw), task.ground)
        if lay is None or length_of(lay) > least * (1 + WORSE) or not sound(lay, task.ground):
            continue
        current = lay
        if length_of(lay) < least - 1e-6:
            best, least, since = lay, length_of(lay), 0
            leader.offer(lay, f"{engine}, polished")


def _changed(spots: Sequence[Spot], ground: Ground, draw: random.Random) -> list[Spot]:
    """One small change, most often to a piece that sets the length; overlaps and all."""
    out = list(spots)
    length = length_of(spots)
    top = [k for k, s in enumerate(spots) if s.y + s.pose.height > length - TOP]
    one = draw.choice(top) if draw.random() < 0.5 else draw.randrange(len(spots))
    kind = draw.random()
    if kind < 0.25 and len(spots[one].shape.poses) > 1:
        out[one] = _put(spots[one], draw.choice(spots[one].shape.poses), _middle(spots[one]), ground)
        return out
    other = draw.randrange(len(spots))
    first, second = spots[one], spots[other]
    if kind < 0.75:
        out[one] = _put(first, draw.choice(first.shape.poses), _middle(second), ground)
        out[other] = _put(second, draw.choice(second.shape.poses), _middle(first), ground)
    else:
        x, y = _middle(second)
        aside = draw.choice((-0.5, 0.5)) * (first.pose.width + second.pose.width)
        out[one] = _put(first, draw.choice(first.shape.poses), (x + aside, y), ground)
    return out


def _middle(spot: Spot) -> tuple[float, float]:
    return spot.x + spot.pose.width / 2, spot.y + spot.pose.height / 2


def _put(spot: Spot, pose: Pose, middle: tuple[float, float], ground: Ground) -> Spot:
    """The shape in that pose, its box's middle there or as near as the ground allows."""
    x = min(max(middle[0] - pose.width / 2, 0.0), max(ground.width - pose.width, 0.0))
    return replace(spot, pose=pose, x=x, y=max(middle[1] - pose.height / 2, 0.0))
