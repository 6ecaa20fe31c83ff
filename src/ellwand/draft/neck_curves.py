"""The shapes of a neck opening: half a curve about the shoulder line, its true perimeter solved to the target.

Frame: the shoulder line is y = 0, the front lies at y < 0, the wearer's left at x > 0.  Only the wearer's
left half is described; the right half is its mirror image.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from scipy.optimize import brentq

from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, length
from ellwand.language import _
from ellwand.model.choices import Neck, NeckShape
from ellwand.model.wearer import Wearer
from ellwand.units import format_length

BACK_DROP: Final = 2.5
"""How far the opening reaches behind the shoulder line (cm): common practice 1.5 to 3, no source."""
V_DEPTH: Final = 1.5
"""A V is so many times as deep in front as half its width: common practice, no source."""
LEAST_DROP: Final = 0.5
"""A square with less behind (cm) has its edge on the shoulder line: our own figure."""
STEPS: Final = 48
"""Straight bits in each quarter of a curve; a circle's perimeter is then short by 0.2 ‰ before solving."""

_ANGLES: Final = tuple(math.pi / 2 * i / STEPS for i in range(STEPS))
_QUARTER: Final[Line] = (*((math.sin(a), math.cos(a)) for a in _ANGLES), (1.0, 0.0))
"""A quarter of the circle of radius 1."""

Halves = tuple[Line, Line]
"""From the centre front to the shoulder line, and on to the centre back."""


def curve(target: float, wearer: Wearer, neck: Neck) -> Halves:
    """Half the opening ``target`` cm round, with the drops that were asked for.

    Raises CannotDraft when no such opening can be drawn.
    """
    return _CURVES[neck.shape](target, wearer, neck)


def _round(target: float, wearer: Wearer, neck: Neck) -> Halves:
    """A half circle in front, a shallow half ellipse behind."""
    return _scoop(target, 1.0, neck)


def _oval(target: float, wearer: Wearer, neck: Neck) -> Halves:
    """Wider than deep: in front two thirds as deep as half its width (common practice, no source)."""
    return _scoop(target, 2 / 3, neck)


def _scoop(target: float, depth: float, neck: Neck) -> Halves:
    """Half ellipses that meet on the shoulder line, where the opening is widest.

    ``depth``: front drop over half the width, where no drop is given.
    """

    def halves(half_width: float) -> Halves:
        front = _quarter(half_width, neck.front_drop or half_width * depth)
        return _forward(front), _behind(_quarter(half_width, _back_drop(neck, half_width / 3)))

    return _solve(halves, target, target / 20, target / 2)


def _back_drop(neck: Neck, most: float) -> float:
    """As asked, or the usual one, at most ``most`` (cm)."""
    return neck.back_drop or min(BACK_DROP, most)


def _quarter(half_width: float, depth: float) -> Line:
    """A quarter ellipse from the centre line at ``depth`` to the shoulder line at ``half_width``."""
    return tuple((half_width * x, depth * y) for x, y in _QUARTER)


def _forward(line: Line) -> Line:
    """A line from the centre to the shoulder, in front of the shoulder line."""
    return tuple((x, -y) for x, y in line)


def _behind(line: Line) -> Line:
    """The same behind it, walked from the shoulder to the centre."""
    return tuple(reversed(line))


def _v(target: float, wearer: Wearer, neck: Neck) -> Halves:
    """Straight from the shoulder line to a point in front; behind an arc, or a point too."""

    def halves(half_width: float) -> Halves:
        drop = _back_drop(neck, half_width / 3)
        behind = ((0.0, drop), (half_width, 0.0)) if neck.back == "pointed" else _quarter(half_width, drop)
        return _forward(((0.0, neck.front_drop or V_DEPTH * half_width), (half_width, 0.0))), _behind(behind)

    return _solve(halves, target, target / 20, target / 2)


def _rectangle(target: float, wearer: Wearer, neck: Neck) -> Halves:
    # three parts wide to two deep: common practice, no source
    depth = 0.2 * target
    usual = min(BACK_DROP, depth / 3)
    drop, front = neck.back_drop or usual, neck.front_drop or depth - usual
    return _box((target / 2 - front - drop) / 2, front, drop, target)


def _square(target: float, wearer: Wearer, neck: Neck) -> Halves:
    """As wide as deep, so one drop follows from the other."""
    side = target / 4
    if neck.front_drop and neck.back_drop:
        raise CannotDraft(
            "garment.neck.front_drop",
            _(
                "a square {target} round is {side} deep in all, so only one drop can be chosen",
                target=format_length(target),
                side=format_length(side),
            ),
            _('leave back_drop out, or choose shape = "rectangle"'),
        )
    drop = side - neck.front_drop if neck.front_drop else _back_drop(neck, side / 3)
    return _box(side / 2, side - drop, drop, target)


def _box(half_width: float, front: float, drop: float, target: float) -> Halves:
    if half_width < target / 20 or front < 1 or drop < LEAST_DROP:
        raise _too_deep(target)
    return (
        ((0.0, -front), (half_width, -front), (half_width, 0.0)),
        ((half_width, 0.0), (half_width, drop), (0.0, drop)),
    )


def _boat(target: float, wearer: Wearer, neck: Neck) -> Halves:
    """Two half ellipses meeting in points on the shoulder line, as wide as the shoulders allow."""
    widest = (wearer["across_shoulder"] - 8) / 2
    if neck.front_drop:
        deep = neck.front_drop

        def of_width(half_width: float) -> Halves:
            return _forward(_quarter(half_width, deep)), _behind(_quarter(half_width, _back_drop(neck, half_width / 3)))

        return _solve(of_width, target, target / 20, max(target / 20, widest))
    half_width = min(0.23 * target, widest)
    back = _behind(_quarter(half_width, _back_drop(neck, half_width / 3)))

    def halves(depth: float) -> Halves:
        return _forward(_quarter(half_width, depth)), back

    if length(halves(half_width)[0]) + length(back) < target / 2:
        raise CannotDraft(
            "garment.neck.shape",
            _(
                "a boat neck of {target} is too deep for shoulders of {shoulders}",
                target=format_length(target),
                shoulders=format_length(wearer["across_shoulder"]),
            ),
            _('choose shape = "round" or "keyhole"'),
        )
    return _solve(halves, target, 0.01, half_width)


def _solve(halves: Callable[[float], Halves], target: float, low: float, high: float) -> Halves:
    """The curve whose drawn perimeter is the target, to a hundredth of a millimetre.

    Raises CannotDraft where the least size is too long already, or the greatest too short.
    """

    def excess(size: float) -> float:
        front, back = halves(size)
        return 2 * (length(front) + length(back)) - target

    if excess(low) > 0:
        raise _too_deep(target)
    if excess(high) < 0:
        raise CannotDraft(
            "garment.neck",
            _(
                "an opening {target} round with these drops would be wider than the shoulders",
                target=format_length(target),
            ),
            _('choose larger drops, less ease, or shape = "keyhole"'),
        )
    return halves(float(brentq(excess, low, high, xtol=1e-6)))


def _too_deep(target: float) -> CannotDraft:
    return CannotDraft(
        "garment.neck",
        _("an opening {target} round cannot have these drops in front and behind", target=format_length(target)),
        _("choose smaller ones, or leave them out"),
    )


_CURVES: Final[dict[NeckShape, Callable[[float, Wearer, Neck], Halves]]] = {
    "round": _round,
    "keyhole": _round,
    "oval": _oval,
    "rectangle": _rectangle,
    "square": _square,
    "V": _v,
    "boat": _boat,
}
