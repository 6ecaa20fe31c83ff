"""The ordinaries: the plain shapes of a coat of arms, drawn on a field of any proportions.

Shares of the field: chief, pale and fess a third; a bend a fifth, or a third where something lies on it; the chevron's
two bars a fifth of the width; a saltire is a bend crossed with a bend sinister (Cussans, The Grammar of Heraldry, 1866,
pp. 13 and 15); the arms of a cross a fifth, a third where charged (Cussans; Encyclopaedia Britannica, heraldry).
A pile a third of the top, a charged chevron or saltire a third: from memory.  A bordure a tenth: our own figure.

A share is of the field's height for chief and fess, of its width for all others; bends, chevrons and saltires are
measured square to their sides.  Diagonals run from corner to corner of the field, as its partition lines do.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Final

from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, Point
from ellwand.language import _
from ellwand.model.heraldry import Field, Ordinary
from ellwand.units import format_length, round_near

if TYPE_CHECKING:
    from shapely.geometry import Polygon

USUAL: Final[Mapping[Ordinary, tuple[float, float]]] = {
    "chief": (1 / 3, 1 / 3),
    "pale": (1 / 3, 1 / 3),
    "fess": (1 / 3, 1 / 3),
    "bend": (1 / 5, 1 / 3),
    "bend sinister": (1 / 5, 1 / 3),
    "chevron": (1 / 5, 1 / 3),
    "cross": (1 / 5, 1 / 3),
    "saltire": (1 / 5, 1 / 3),
    "pile": (1 / 3, 1 / 3),
    "bordure": (1 / 10, 1 / 10),
}
"""The usual share of the field: plain, and where something lies on it."""
BLUNT: Final = 1.5
"""How wide the point of a pile is (cm), so that it can be turned under: our own figure."""


def ordinary_width(ordinary: Ordinary, field: Field, share: float, grid: float) -> float:
    """How wide it is (cm): the share of the field's height for chief and fess, of its width for the others.

    To the nearest of the chalk ``grid``; twice that where it lies about the middle, so that both its edges are on it.
    """
    of = field.top - field.bottom if ordinary in ("chief", "fess") else 2 * field.half
    step = 2 * grid if ordinary in ("pale", "cross", "pile") else grid
    return max(step, round_near(share * of, step))


def ordinary_shapes(ordinary: Ordinary, field: Field, width: float, grid: float) -> list[Polygon]:
    """The ordinary on a plain field seen from the front (cm): one shape, or four for a bordure, mitred at its corners.

    ``grid``: the middle of the field is taken to the nearest of it, so that level edges lie on it.
    """
    from shapely.geometry import box

    within = box(-field.half, field.bottom, field.half, field.top)
    return [shape.intersection(within) for shape in _SHAPES[ordinary](field, width, grid)]


def _level(field: Field, half: float, grid: float) -> float:
    """The middle of the field, moved so that an edge ``half`` below it lies on the grid."""
    return round_near((field.bottom + field.top) / 2 - half - field.bottom, grid) + half + field.bottom


def _box(x0: float, y0: float, x1: float, y1: float) -> Polygon:
    from shapely.geometry import box

    return box(x0, y0, x1, y1)


def _beam(a: Point, b: Point, width: float) -> Polygon:
    """A bar from ``a`` to ``b`` and beyond both, ``width`` square to it."""
    from shapely.geometry import Polygon

    long = math.dist(a, b)
    dx, dy = (b[0] - a[0]) / long, (b[1] - a[1]) / long
    out, side = 2 * width, width / 2
    ends = ((a[0] - dx * out, a[1] - dy * out), (b[0] + dx * out, b[1] + dy * out))
    (ax, ay), (bx, by) = ends
    ring: Line = (
        (ax + dy * side, ay - dx * side),
        (bx + dy * side, by - dx * side),
        (bx - dy * side, by + dx * side),
        (ax - dy * side, ay + dx * side),
    )
    return Polygon(ring)


def _chief(field: Field, width: float, grid: float) -> list[Polygon]:
    return [_box(-field.half, field.top - width, field.half, field.top)]


def _pale(field: Field, width: float, grid: float) -> list[Polygon]:
    return [_box(-width / 2, field.bottom, width / 2, field.top)]


def _fess(field: Field, width: float, grid: float) -> list[Polygon]:
    y = _level(field, width / 2, grid)
    return [_box(-field.half, y - width / 2, field.half, y + width / 2)]


def _bend(field: Field, width: float, grid: float) -> list[Polygon]:
    """From the wearer's right shoulder, at the viewer's left of the front, to the opposite foot."""
    return [_beam((-field.half, field.top), (field.half, field.bottom), width)]


def _bend_sinister(field: Field, width: float, grid: float) -> list[Polygon]:
    return [_beam((field.half, field.top), (-field.half, field.bottom), width)]


def _saltire(field: Field, width: float, grid: float) -> list[Polygon]:
    return [_bend(field, width, grid)[0].union(_bend_sinister(field, width, grid)[0])]


def _cross(field: Field, width: float, grid: float) -> list[Polygon]:
    return [_pale(field, width, grid)[0].union(_fess(field, width, grid)[0])]


def _chevron(field: Field, width: float, grid: float) -> list[Polygon]:
    """Two bars that rise from the corners of the base; their middle lines meet in the middle of the field."""
    from shapely.geometry import Polygon

    high = (field.bottom + field.top) / 2
    # a bar measured square to its sides is longer by 1 / cos when it is measured upright
    rise = width * math.hypot(high - field.bottom, field.half) / field.half / 2
    left, right, foot = -field.half, field.half, field.bottom
    ring: Line = (
        (left, foot - rise),
        (0.0, high - rise),
        (right, foot - rise),
        (right, foot + rise),
        (0.0, high + rise),
        (left, foot + rise),
    )
    return [Polygon(ring)]


def _pile(field: Field, width: float, grid: float) -> list[Polygon]:
    from shapely.geometry import Polygon

    tip, low = BLUNT / 2, field.bottom
    return [Polygon(((-width / 2, field.top), (-tip, low), (tip, low), (width / 2, field.top)))]


def _bordure(field: Field, width: float, grid: float) -> list[Polygon]:
    from shapely.geometry import Polygon

    x, low, high = field.half, field.bottom, field.top
    if 2 * width > min(2 * x, high - low) + 1e-6:
        raise CannotDraft(
            ".width",
            _("a bordure {width} wide leaves nothing of the field within", width=format_length(width)),
            _("make it narrower"),
        )
    outer: Line = ((-x, low), (x, low), (x, high), (-x, high))
    inner: Line = (
        (-x + width, low + width),
        (x - width, low + width),
        (x - width, high - width),
        (-x + width, high - width),
    )
    return [Polygon((outer[i], outer[j], inner[j], inner[i])) for i, j in ((0, 1), (1, 2), (2, 3), (3, 0))]


_SHAPES: Final[Mapping[Ordinary, Callable[[Field, float, float], list[Polygon]]]] = {
    "chief": _chief,
    "pale": _pale,
    "fess": _fess,
    "bend": _bend,
    "bend sinister": _bend_sinister,
    "chevron": _chevron,
    "cross": _cross,
    "saltire": _saltire,
    "pile": _pile,
    "bordure": _bordure,
}
