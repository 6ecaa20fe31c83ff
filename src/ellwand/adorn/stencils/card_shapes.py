"""Shapes of card and window measured: where they are long, where they turn, and what is near."""

from __future__ import annotations

import math
from typing import Final

import numpy as np
import shapely
from shapely import LineString, Point, get_parts
from shapely.geometry.base import BaseGeometry

HAIR: Final = 1e-3
"""Half a card this much narrower (cm) still counts as wide enough."""
SHARP: Final = math.radians(50)
"""Where a window's edge turns by more than this it has a corner that a bridge would blunt."""


def about(shape: BaseGeometry, lines: np.ndarray, by: float) -> BaseGeometry:
    """What of a shape lies within ``by`` cm of the lines' rectangle."""
    x0, y0, x1, y1 = shapely.total_bounds(lines)
    return shapely.clip_by_rect(shape, x0 - by, y0 - by, x1 + by, y1 + by)


def longer(line: BaseGeometry, end: BaseGeometry, by: float) -> BaseGeometry:
    """The line made longer at the end that lies on ``end``."""
    points = list(line.coords)
    if Point(points[0]).distance(end) < Point(points[-1]).distance(end):
        points.reverse()
    (x0, y0), (x1, y1) = points[0], points[-1]
    run = math.hypot(x1 - x0, y1 - y0)
    if run < HAIR:
        return line
    return LineString([(x0, y0), (x1 + (x1 - x0) / run * by, y1 + (y1 - y0) / run * by)])


def middle_of(card: BaseGeometry) -> BaseGeometry:
    """The middle of the largest circle in a piece of card."""
    return Point(shapely.maximum_inscribed_circle(card, 0.01).coords[0])


def on_middle_lines(edge: BaseGeometry) -> list[BaseGeometry]:
    """Where an edge meets the upright and the level line through its middle."""
    x0, y0, x1, y1 = edge.bounds
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    lines = shapely.MultiLineString([((x, y0 - 1), (x, y1 + 1)), ((x0 - 1, y), (x1 + 1, y))])
    return [part for part in get_parts(edge.intersection(lines)) if part.geom_type == "Point"]


def long_of(card: BaseGeometry) -> float:
    """How long a piece is, corner to corner of its rectangle (cm)."""
    x0, y0, x1, y1 = card.bounds
    return math.hypot(x1 - x0, y1 - y0)


def corners_of(windows: BaseGeometry) -> list[BaseGeometry]:
    """Where the edges of the windows turn sharply."""
    out: list[BaseGeometry] = []
    for part in get_parts(windows.simplify(0.03)):
        for ring in (part.exterior, *part.interiors):
            spots = np.array(ring.coords)[:-1]
            into, on = spots - np.roll(spots, 1, axis=0), np.roll(spots, -1, axis=0) - spots
            cross = into[:, 0] * on[:, 1] - into[:, 1] * on[:, 0]
            turns = np.abs(np.arctan2(cross, (into * on).sum(axis=1)))
            out += list(shapely.points(spots[turns > SHARP]))
    return out
