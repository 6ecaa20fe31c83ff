"""Triangles in space seen from one side, in light and shade: a small painter that needs no screen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ellwand.model.mesh import Counts, Reals

Bytes = NDArray[np.uint8]


@dataclass(frozen=True, slots=True)
class Shown:
    """A surface with a colour (red, green, blue; 0 to 1) and a way it faces at each point."""

    points: Reals
    corners: Counts
    colour: Reals
    normal: Reals


def faced(points: Reals, corners: Counts) -> Reals:
    """Which way the surface faces at each point: the mean of its triangles, by their area."""
    a, b, c = points[corners[:, 0]], points[corners[:, 1]], points[corners[:, 2]]
    across = np.cross(b - a, c - a)
    out = np.zeros_like(points)
    for n in range(3):
        np.add.at(out, corners[:, n], across)
    long = np.linalg.norm(out, axis=1, keepdims=True)
    return np.asarray(out / np.maximum(long, 1e-12))


def turned(shown: Shown, degrees: float) -> Shown:
    """Turned about the upright: 0 is seen from before, 90 from the wearer's left, 180 from behind."""
    a = -np.radians(degrees)
    turn = np.array([[np.cos(a), -np.sin(a), 0.0], [np.sin(a), np.cos(a), 0.0], [0.0, 0.0, 1.0]])
    return Shown(shown.points @ turn.T, shown.corners, shown.colour, shown.normal @ turn.T)


def painted(
    surfaces: Sequence[Shown], box: tuple[float, float, float, float], high: int, paper: tuple[float, float, float]
) -> Bytes:
    """What is seen from y = +∞ within a box (left, low, right, top; cm), ``high`` pixels high.

    The picture's right is the wearer's left.  Every pixel is the mean of four.
    """
    left, low, right, top = box
    scale = 2 * high / (top - low)
    wide = round(high * (right - left) / (top - low))
    colour = np.tile(np.array(paper, np.float64), (2 * high, 2 * wide, 1))
    depth = np.full((2 * high, 2 * wide), -np.inf)
    from ellwand.depict.shading import fill

    for shown in surfaces:
        at = np.column_stack(
            [(-shown.points[:, 0] - left) * scale, (top - shown.points[:, 2]) * scale, shown.points[:, 1]]
        )
        fill(at, shown.corners, shown.colour, shown.normal, colour, depth)
    colour = colour.reshape(high, 2, wide, 2, 3).mean((1, 3))
    return np.asarray(np.clip(colour * 255.0 + 0.5, 0, 255), np.uint8)
