"""Motifs with compass and rule: roundel, lozenge, chevron, key, saltire, pellets, knot."""

from __future__ import annotations

import itertools
import math

from shapely import LineString, Point, Polygon, union_all
from shapely.ops import substring

from ellwand.adorn.motifs.shapes import (
    FINE,
    TURN,
    Shape,
    around,
    bar,
    curve,
    disc,
    petal,
    ring,
    turned,
)


def roundel() -> list[Shape]:
    """A ring about a flower of six petals, as a compass draws it, with pellets between them."""
    middle = (0.0, 0.0)
    flower = around(petal((0.0, 0.075), (0.0, 0.385), 0.155), 6, middle)
    pellets = around(disc((0.0, 0.335), 0.035), 6, middle)
    return [ring(middle, 0.5, 0.435), flower, turned(pellets, 30, middle), disc(middle, 0.062)]


def _lozenge(half_width: float, half_height: float, at: tuple[float, float] = (0.0, 0.0)) -> Shape:
    x, y = at
    return Polygon([(x - half_width, y), (x, y - half_height), (x + half_width, y), (x, y + half_height)])


def lozenge() -> list[Shape]:
    """A lozenge's frame about four small ones."""
    wide, high = 0.5, 0.65
    frame = _lozenge(wide, high).difference(_lozenge(wide * 0.8, high * 0.8))
    small = [
        _lozenge(wide * 0.3, high * 0.3, (dx * wide * 0.365, dy * high * 0.365))
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1))
    ]
    return [frame, *small]


def chevron() -> list[Shape]:
    """Two chevrons over each other, a pellet in the hollow; they join their neighbours into a zigzag."""

    def band(low: float, thick: float) -> Shape:
        rise = 0.42
        return Polygon(
            [(0, low), (0.5, low + rise), (1, low), (1, low + thick), (0.5, low + rise + thick), (0, low + thick)]
        )

    return [band(0.0, 0.2), band(0.29, 0.09), disc((0.5, 0.115), 0.085)]


def key() -> list[Shape]:
    """A square hook that turns inward, on a rail that runs on into the next."""
    rail = bar(0, 0, 7, 1)
    hook = [
        bar(0.5, 0, 1.5, 7),
        bar(0.5, 6, 6.5, 7),
        bar(5.5, 2, 6.5, 7),
        bar(2.5, 2, 6.5, 3),
        bar(2.5, 2, 3.5, 5),
        bar(2.5, 4, 4.5, 5),
    ]
    return [rail, *hook]


def key_corner() -> list[Shape]:
    """Square within square, as high as the key."""
    return [
        bar(0, 0, 7, 7).difference(bar(1, 1, 6, 6)),
        bar(2, 2, 5, 5).difference(bar(3, 3, 4, 4)),
    ]


def saltire() -> list[Shape]:
    """A cross set aslant with arms that spread, a pellet in each angle."""
    arm = Polygon(
        [
            (-0.055, 0.0),
            *curve(lambda t: (-0.055 - 0.09 * t * t, 0.56 * t), 0.15, 1.0, FINE),
            *curve(lambda t: (-0.145 + 0.29 * t, 0.56 + 0.035 * math.sin(math.pi * t)), 0.05, 0.95, FINE),
            *reversed(curve(lambda t: (0.055 + 0.09 * t * t, 0.56 * t), 0.15, 1.0, FINE)),
            (0.055, 0.0),
        ]
    )
    cross = turned(around(arm, 4, (0.0, 0.0)), 45, (0.0, 0.0))
    return [cross, around(disc((0.0, 0.36), 0.06), 4, (0.0, 0.0))]


def pellets() -> list[Shape]:
    """A large pellet between two small ones."""
    return [disc((0.13, 0.2), 0.09), disc((0.5, 0.2), 0.2), disc((0.87, 0.2), 0.09)]


def pellet() -> list[Shape]:
    """A single round spot."""
    return [disc((0.0, 0.0), 0.5)]


def knot() -> list[Shape]:
    """One cord of four loops that crosses itself over and under in turn, round a pellet."""
    half, open_by, near, far = 0.036, 0.022, 0.16, 0.34
    path = curve(
        lambda t: (near * math.cos(t) + far * math.cos(3 * t), near * math.sin(t) - far * math.sin(3 * t)),
        math.pi / 4,
        math.pi / 4 + TURN,
        320,
    )
    cord = LineString(path)
    shape = cord.buffer(half, quad_segs=FINE // 2)
    for over in _overs(cord):
        strand = substring(cord, over - 2.3 * half, over + 2.3 * half)
        shape = shape.difference(strand.buffer(half + open_by, cap_style="flat"))
        shape = union_all([shape, strand.buffer(half, cap_style="flat")])
    return [shape, disc((0.0, 0.0), 0.065)]


def _overs(cord: LineString) -> list[float]:
    """How far along it a cord that crosses itself lies uppermost, so that it goes over and under in turn."""
    points = list(cord.coords)
    walked = [0.0]
    for a, b in itertools.pairwise(points):
        walked.append(walked[-1] + math.dist(a, b))
    legs = [LineString(pair) for pair in itertools.pairwise(points)]
    passes = []
    for i, j in itertools.combinations(range(len(legs)), 2):
        if j - i > 1 and (i, j) != (0, len(legs) - 1) and legs[i].intersects(legs[j]):
            at = legs[i].intersection(legs[j])
            passes += [walked[k] + Point(points[k]).distance(at) for k in (i, j)]
    return sorted(passes)[::2]
