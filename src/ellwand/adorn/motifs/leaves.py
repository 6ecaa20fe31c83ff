"""Motifs that grow: vine-scroll and fleuron."""

from __future__ import annotations

import math
from typing import Final

from shapely import Polygon, affinity, box

from ellwand.adorn.motifs.shapes import (
    TURN,
    Shape,
    bar,
    cubic,
    curve,
    disc,
    flipped,
    moved,
    petal,
    stroke,
    tapered,
    turned,
)
from ellwand.geometry.lines import Point

RISE: Final = 0.215
"""Of the vine's stem above its middle."""


def _leaf(size: float) -> list[Shape]:
    """A leaf of three lobes, its stalk's end at (0, 0), pointing up."""
    foot = (0.0, 0.08 * size)
    return [
        petal((0.0, 0.0), (0.0, size), 0.5 * size, fullest=0.45),
        petal(foot, (0.62 * size, 0.62 * size), 0.36 * size),
        petal(foot, (-0.62 * size, 0.62 * size), 0.36 * size),
    ]


def _stem(x: float) -> Point:
    """A wave that dips, then rises, and is level at both ends."""
    return (x, -RISE * 1.12 * math.sin(TURN * x) * abs(math.sin(math.pi * x)) ** 0.6)


def _curl(start: Point, centre: Point) -> list[Shape]:
    """What fills a dip of the stem: a branch out of ``start`` that curls inward to a leaf, a small leaf outside it."""
    reach, begin = math.dist(start, centre), math.atan2(start[1] - centre[1], start[0] - centre[0])

    def branch(t: float) -> Point:
        r, angle = reach * (1 - 0.66 * t**1.2), begin + t * math.radians(320)
        return (centre[0] + r * math.cos(angle), centre[1] + r * math.sin(angle))

    path = curve(branch, 0.0, 1.0, 72)
    (ax, ay), (bx, by) = path[-3], path[-1]
    heading = math.degrees(math.atan2(by - ay, bx - ax)) + 30
    leaf = [moved(turned(each, heading - 90, (0.0, 0.0)), bx, by) for each in _leaf(0.16)]
    side = branch(0.36)
    return [tapered(path, 0.046, 0.026), *leaf, petal(side, (side[0] + 0.1, side[1] + 0.07), 0.055)]


def vine_scroll() -> list[Shape]:
    """A stem in one wave, a leaf curled into each hollow; it runs on into the next.

    The stem is level at both ends, so that the motif also meets its own mirror image without a kink.
    """
    stem = stroke(curve(_stem, -0.05, 1.05, 160), 0.05).intersection(box(0, -1, 1, 1))
    x, y = _stem(0.81)
    upper = _curl((x - 0.5, -y), (0.25, 0.015))
    below = [affinity.translate(affinity.scale(each, 1.0, -1.0, origin=(0, 0)), 0.5, 0.0) for each in upper]
    return [stem, *_curl(_stem(0.385), (0.262, 0.025)), *below]


def leaf_corner() -> list[Shape]:
    """Four leaves set crosswise round a pellet, in a square as high as the vine."""
    leaves = [turned(moved(each, 0.0, 0.15), 45 + 90 * i, (0.0, 0.0)) for i in range(4) for each in _leaf(0.36)]
    return [*leaves, disc((0.0, 0.0), 0.075)]


def fleuron() -> list[Shape]:
    """A flower of three petals, the outer ones rolled back, two stamens between them, bound over a foot of three."""
    half: list[Shape] = []
    rolled = Polygon(
        [
            *cubic((0.47, 0.3), (0.42, 0.74), (0.1, 0.94), (0.0, 0.6)),
            *cubic((0.0, 0.6), (-0.01, 0.52), (0.1, 0.5), (0.12, 0.59)),
            *cubic((0.12, 0.59), (0.17, 0.72), (0.33, 0.55), (0.41, 0.3)),
        ]
    ).buffer(0)
    half.append(rolled)
    stamen = cubic((0.475, 0.34), (0.44, 0.6), (0.37, 0.74), (0.3, 0.86))
    half += [tapered(stamen, 0.02, 0.03), disc(stamen[-1], 0.042)]
    foot = Polygon(
        [
            *cubic((0.48, 0.2), (0.44, 0.06), (0.32, 0.0), (0.24, 0.08)),
            *cubic((0.24, 0.08), (0.31, 0.07), (0.37, 0.1), (0.41, 0.2)),
        ]
    ).buffer(0)
    half.append(foot)
    return [
        petal((0.5, 0.28), (0.5, 1.08), 0.22, fullest=0.58),
        *half,
        *(flipped(each, 0.5) for each in half),
        bar(0.32, 0.215, 0.68, 0.285),
        petal((0.5, 0.2), (0.5, -0.06), 0.11, fullest=0.5),
    ]
