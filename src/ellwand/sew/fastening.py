"""The stitching that fastenings take: buttonholes, eyelets, and what is sewn on.  It is hand work on any garment."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Final

from ellwand.model.choices import ClosureBy, Sewing
from ellwand.model.closing import EYELET, Closing
from ellwand.model.stitch import Stitching, StitchName
from ellwand.sew.rows import LAYER, merged, stitching
from ellwand.sew.thread import Range


@dataclass(frozen=True, slots=True)
class Fastening:
    """Of one: minutes in all, and how many places of it are sewn to the cloth."""

    minutes: Range
    sewn: int


FASTENINGS: Final[Mapping[ClosureBy, Fastening]] = {
    "buttons": Fastening((8.0, 20.0), 1),
    "hooks": Fastening((3.0, 8.0), 4),
    "lacing": Fastening((4.0, 12.0), 0),
    "loops": Fastening((4.0, 9.0), 3),
    "pins": Fastening((0.0, 0.0), 0),
    "ties": Fastening((2.0, 6.0), 2),
}
"""A button with its hole; a hook with its eye; one eyelet; a toggle with its loop; a pair of ties: common practice, no
source."""
MAKING: Final[Range] = (2.0, 5.0)
"""Minutes to form a cloth button: under two for a practised hand (a maker's report); five for another is our own
figure."""
SEWN: Final = 0.5
"""Each place is sewn as a bar this long is (cm): common practice, no source."""
END: Final = 0.2
"""Across each end of a buttonhole (cm): common practice, no source."""


def closing_rows(closing: Closing, sewing: Sewing, *, thickness: float = LAYER) -> tuple[Stitching, ...]:
    """The rows that all fastenings of a closure take, in all its openings; ``thickness`` of one layer (cm)."""
    return merged(_each(closing, sewing, 2 * thickness))


def _each(closing: Closing, sewing: Sewing, thickness: float) -> Iterator[Stitching]:
    count, kind = closing.pieces * closing.openings, FASTENINGS[closing.by]
    worked = {
        "buttons": 2 * (closing.hole + END),
        "lacing": math.pi * EYELET,
    }.get(closing.by, 0.0)
    sewn = kind.sewn * SEWN
    own: tuple[tuple[StitchName, float], ...] = (("buttonhole", worked), ("bar", sewn))
    rows = [(name, length, _part(kind.minutes, length / (worked + sewn))) for name, length in own if length]
    if closing.circle:
        # gathered round its edge, and drawn together
        rows.append(("running", math.pi * closing.circle, MAKING))
    for name, length, (low, high) in rows:
        yield replace(stitching(name, count * length, thickness, sewing), minutes=(count * low, count * high))


def _part(minutes: Range, share: float) -> Range:
    return share * minutes[0], share * minutes[1]
