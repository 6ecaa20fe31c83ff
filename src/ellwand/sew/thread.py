"""Thread for a length of stitching.

Every formula gives the length of thread for a length of seam.  T is the thickness that is sewn through, S how many
stitches go to the same unit.  Machine stitches as textile trade handbooks have them; hand stitches from the thread's
own path, which is straight between one hole and the next.  Waste of 10 to 15 % is usual in the trade.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Final

from ellwand.model.choices import Sewing
from ellwand.model.stitch import StitchName
from ellwand.sew.stitches import STITCHES, stitch_length

Range = tuple[float, float]
"""Least and most."""

WASTE: Final[Range] = (0.10, 0.15)
"""Trade handbooks on thread."""
OVEREDGE: Final[Range] = (3.0, 5.0)
"""The constant of the three-thread overedge stitch: two trade pages give 3, another 5."""
STRANDS: Final = 3
"""Threads laid beneath the stitches of a bar: common practice, no source."""


def running(thickness: float, per: float) -> float:
    """Hand running stitch, ``per`` needle passes to the unit: 1 + T S (path)."""
    return 1 + thickness * per


def back_stitch(thickness: float, per: float) -> float:
    """Hand back stitch, and single chain stitch (ISO 4915, 101): 3 + 2 T S (path; trade handbooks)."""
    return 3 + 2 * thickness * per


def lockstitch(thickness: float, per: float) -> float:
    """Lockstitch (ISO 4915, 301): 2 + 2 T S, both threads (trade handbooks)."""
    return 2 + 2 * thickness * per


def double_chain(thickness: float, per: float) -> float:
    """Two-thread chain stitch (ISO 4915, 401): 4 + 2 T S (trade handbooks)."""
    return 4 + 2 * thickness * per


def zigzag(thickness: float, per: float, width: float) -> float:
    """Zigzag lockstitch (ISO 4915, 304), each stitch a slant ``width`` wide: 2 √(1 + (W S)²) + 2 T S (path)."""
    return 2 * math.hypot(1, width * per) + 2 * thickness * per


def overedge(thickness: float, per: float, width: float, constant: float) -> float:
    """Three-thread overedge (ISO 4915, 504): constant + 4 S (W + T) (trade handbooks; see OVEREDGE)."""
    return constant + 4 * per * (width + thickness)


def slanting(thickness: float, pitch: float, bite: float) -> float:
    """Hem, fell, whip or overcast stitch: (2 √(b² + (p/2)²) + 2 T) / p (path)."""
    return (2 * math.hypot(bite, pitch / 2) + 2 * thickness) / pitch


def buttonhole(thickness: float, pitch: float, depth: float) -> float:
    """Buttonhole stitch along an edge: down before, through, up behind and over the edge to the next (path):
    1 + 2 (d + T) / p."""
    return 1 + 2 * (depth + thickness) / pitch


def bar(thickness: float, pitch: float, width: float) -> float:
    """A bar through the cloth: strands laid along it, and over them stitches that go across before and slanting to the
    next behind (path): strands + (w + √(w² + p²) + 2 T) / p."""
    return STRANDS + (width + math.hypot(width, pitch) + 2 * thickness) / pitch


def ratio(name: StitchName, thickness: float, sewing: Sewing) -> Range:
    """Thread over seam, least and most, without waste, where ``thickness`` cm are sewn through."""
    pitch, width = stitch_length(name, sewing), STITCHES[name].width
    if name == "overedge":
        chosen = sewing.overedge_constant
        low, high = OVEREDGE if chosen is None else (chosen, chosen)
        return overedge(thickness, 1 / pitch, width, low), overedge(thickness, 1 / pitch, width, high)
    exact = _RATIO[name](thickness, pitch, width)
    return exact, exact


_RATIO: Final[Mapping[StitchName, Callable[[float, float, float], float]]] = {
    "running": lambda thickness, pitch, width: running(thickness, 1 / pitch),
    "back stitch": lambda thickness, pitch, width: back_stitch(thickness, 1 / pitch),
    "overcast": slanting,
    "hemming": slanting,
    "buttonhole": buttonhole,
    "bar": bar,
    "lockstitch": lambda thickness, pitch, width: lockstitch(thickness, 1 / pitch),
    "chain": lambda thickness, pitch, width: back_stitch(thickness, 1 / pitch),
    "double chain": lambda thickness, pitch, width: double_chain(thickness, 1 / pitch),
    "zigzag": lambda thickness, pitch, width: zigzag(thickness, 1 / pitch, width),
}


def with_waste(centimetres: Range) -> Range:
    """Metres to buy for so many centimetres of thread in the seam."""
    return centimetres[0] * (1 + WASTE[0]) / 100, centimetres[1] * (1 + WASTE[1]) / 100
