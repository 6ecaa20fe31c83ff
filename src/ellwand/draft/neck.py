"""The neck opening as a curve about the shoulder line: its true perimeter solved to the target.

Frame: the shoulder line is y = 0, the front lies at y < 0, the wearer's left at x > 0.  Only the wearer's
left half is described; the right half is its mirror image.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from scipy.optimize import brentq

from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, Point, length
from ellwand.model.choices import Choices, Neck
from ellwand.model.draft import Note
from ellwand.model.wearer import Wearer, upper
from ellwand.units import format_length, round_up

BACK_DROP: Final = 2.5
"""How far the opening reaches behind the shoulder line (cm): common practice 1.5 to 3, no source."""
CLOSE_EASE: Final = 2.0
"""Over the neck base girth, for an opening close to the neck (cm): common practice, no source."""
PULL_ON_EASE: Final = 2.0
"""Over the head girth, for an opening pulled on without a slit (cm): common practice, no source."""
SLIT_EASE: Final = 1.0
"""A slit neck passes the head with this much to spare (cm): common practice, no source."""
SHORTEST_SLIT: Final = 4.0
"""A shorter slit is not worth its facing (cm): common practice, no source."""
STEPS: Final = 48
"""Straight bits in each quarter of a curve; a circle's perimeter is then short by 0.2 ‰ before solving."""


@dataclass(frozen=True, slots=True)
class NeckLine:
    """Half the opening: ``front`` from the centre front to the shoulder line, ``back`` on to the centre back."""

    front: Line
    back: Line
    target: float
    slit: float
    slit_x: float

    @property
    def front_drop(self) -> float:
        """Depth below the shoulder line at the centre front (cm)."""
        return -self.front[0][1]

    @property
    def back_drop(self) -> float:
        """Depth below the shoulder line at the centre back (cm)."""
        return self.back[-1][1]

    @property
    def at_shoulder(self) -> float:
        """Half the width on the shoulder line (cm)."""
        return self.front[-1][0]

    @property
    def half_width(self) -> float:
        """Half the greatest width (cm)."""
        return max(x for x, _ in (*self.front, *self.back))


def slit_of(neck: Neck) -> str:
    """Where the slit is cut: none, centre, left or right; a keyhole's is at the centre unless told otherwise."""
    if neck.slit != "auto":
        return neck.slit
    return "centre" if neck.shape == "keyhole" else "none"


def neck_of(choices: Choices, wearer: Wearer, grid: float, notes: list[Note]) -> NeckLine:
    """The neck opening for these choices on this wearer.

    Raises CannotDraft when the opening would be wider than the shoulders.
    """
    neck = choices.neck
    slit_side = slit_of(neck)
    closed = neck.shape == "keyhole" or slit_side != "none"
    if neck.shape == "keyhole" and slit_side == "none":
        raise CannotDraft(
            "garment.neck.slit",
            "a keyhole neck is a round neck with a slit",
            'choose slit = "centre", or shape = "round"',
        )
    head = upper(wearer.measures["head_girth"])
    if closed:
        base = upper(wearer.measures["neck_base_girth"])
        target = base + (CLOSE_EASE if neck.ease is None else neck.ease)
    else:
        target = head + (PULL_ON_EASE if neck.ease is None else neck.ease)
    if wearer.measures["head_girth"].source == "estimated":
        notes.append(Note("head-estimated", "neck", {"head": wearer["head_girth"], "used": head}))
    slit = max(SHORTEST_SLIT, round_up((head + SLIT_EASE - target) / 2, grid)) if closed else 0.0
    front, back = _CURVES[neck.shape](target, wearer)
    line = NeckLine(front, back, target, slit, 0.0)
    if 2 * line.half_width >= wearer["across_shoulder"]:
        raise CannotDraft(
            "garment.neck",
            f"the opening would be {format_length(2 * line.half_width)} wide, wider than the shoulders"
            f" ({format_length(wearer['across_shoulder'])})",
            'choose less ease, or shape = "keyhole"',
        )
    side = {"centre": 0.0, "none": 0.0, "left": 1.0, "right": -1.0}[slit_side]
    return NeckLine(front, back, target, slit, side * 0.6 * line.half_width)


def _round(target: float, wearer: Wearer) -> tuple[Line, Line]:
    """A half circle in front, a shallow half ellipse behind."""
    return _scoop(target, 1.0)


def _oval(target: float, wearer: Wearer) -> tuple[Line, Line]:
    """Wider than deep: in front two thirds as deep as half its width (common practice, no source)."""
    return _scoop(target, 2 / 3)


def _scoop(target: float, depth: float) -> tuple[Line, Line]:
    """Half ellipses that meet on the shoulder line, where the opening is widest.

    ``depth``: front drop over half the width.
    """

    def halves(half_width: float) -> tuple[Line, Line]:
        front = [(x, -y) for x, y in _quarter(half_width, half_width * depth)]
        return tuple(front), tuple(reversed(_quarter(half_width, min(BACK_DROP, half_width / 3))))

    return _solve(halves, target, target / 20, target / 2)


def _quarter(half_width: float, depth: float) -> list[Point]:
    """A quarter ellipse from the centre line at ``depth`` to the shoulder line at ``half_width``."""
    angles = [math.pi / 2 * i / STEPS for i in range(STEPS + 1)]
    out = [(half_width * math.sin(a), depth * math.cos(a)) for a in angles]
    out[-1] = (half_width, 0.0)
    return out


def _rectangle(target: float, wearer: Wearer) -> tuple[Line, Line]:
    # three parts wide to two deep: common practice, no source
    half_width, depth = 0.15 * target, 0.2 * target
    drop = min(BACK_DROP, depth / 3)
    return (
        ((0.0, drop - depth), (half_width, drop - depth), (half_width, 0.0)),
        ((half_width, 0.0), (half_width, drop), (0.0, drop)),
    )


def _boat(target: float, wearer: Wearer) -> tuple[Line, Line]:
    """Two half ellipses meeting in points on the shoulder line, as wide as the shoulders allow."""
    half_width = min(0.23 * target, (wearer["across_shoulder"] - 8) / 2)
    drop = min(BACK_DROP, half_width / 3)

    back = tuple(reversed(_quarter(half_width, drop)))

    def halves(depth: float) -> tuple[Line, Line]:
        return tuple((x, -y) for x, y in _quarter(half_width, depth)), back

    if length(halves(half_width)[0]) + length(back) < target / 2:
        raise CannotDraft(
            "garment.neck.shape",
            f"a boat neck of {format_length(target)} is too deep for shoulders of"
            f" {format_length(wearer['across_shoulder'])}",
            'choose shape = "round" or "keyhole"',
        )
    return _solve(halves, target, 0.01, half_width)


def _solve(halves: Callable[[float], tuple[Line, Line]], target: float, low: float, high: float) -> tuple[Line, Line]:
    """The curve whose drawn perimeter is the target, to a hundredth of a millimetre."""

    def excess(size: float) -> float:
        front, back = halves(size)
        return 2 * (length(front) + length(back)) - target

    return halves(float(brentq(excess, low, high, xtol=1e-6)))


_CURVES: Final[dict[str, Callable[[float, Wearer], tuple[Line, Line]]]] = {
    "round": _round,
    "keyhole": _round,
    "oval": _oval,
    "rectangle": _rectangle,
    "boat": _boat,
}
