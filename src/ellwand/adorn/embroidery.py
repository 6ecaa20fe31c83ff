"""Embroidery of a motif: how much thread and time its outline or its filling takes, and the hoop that holds it.

Thread is what the needle draws through, along each stitch's own path: what lies on the face, what lies on the back and
what goes through the cloth.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import Final, Literal

import shapely

from ellwand.adorn.stencils.stencil import motif_shape
from ellwand.geometry.lines import length
from ellwand.model.motif import Motif

Range = tuple[float, float]
"""(least, most)."""
OutlineStitch = Literal["stem stitch", "split stitch", "chain stitch"]
FillingStitch = Literal["satin stitch", "laid and couched work"]
EmbroideryStitch = OutlineStitch | FillingStitch
OUTLINES: Final[tuple[OutlineStitch, ...]] = ("stem stitch", "split stitch", "chain stitch")
FILLINGS: Final[tuple[FillingStitch, ...]] = ("satin stitch", "laid and couched work")

CLOTH: Final = 0.06
"""Thickness of one layer of medium cloth (cm): common practice, no source."""
STITCH: Final = (0.25, 0.5)
"""Length of an outline stitch (cm): common practice, no source."""
BACK_STEM: Final = 0.5
"""A stem stitch comes up half a stitch back: common practice, no source."""
BACK_SPLIT: Final = 1 / 3
"""A split stitch comes up through the last third of the one before: common practice, no source."""
LOOP: Final = 0.12
"""Width of a chain's loop (cm): our own figure."""
LAID: Final = (0.06, 0.1)
"""From one filling thread to the next (cm), as thick as the thread: our own figure."""
COUCHED: Final = 0.5
"""From one couching thread to the next (cm): our own figure."""
TIED: Final = 0.4
"""From one tie to the next along a couching thread (cm): our own figure."""
WASTE: Final = (0.10, 0.30)
"""10 to 15 % is the sewing trade's; a needleful of 45 cm loses 5 to 7 cm at either end: common practice, no source."""
STRANDS: Final = (2, 3)
"""Stranded cotton is split, and so many of its SIX strands are sewn with: common practice, no source."""
SIX: Final = 6
SKEIN: Final = 8.0
"""Metres in a skein of stranded cotton: from memory."""
RATE: Final = (5.0, 15.0)
"""Stitches a minute: our own figure, no source.  Plain sewing on fine linen was counted at 23 a minute in 1861."""
LONGEST_FLOAT: Final = 1.0
"""Longer threads of satin stitch catch and wear (cm): common practice, no source."""
HOOPS: Final = (10.0, 13.0, 15.0, 18.0, 20.0, 23.0, 25.0, 30.0)
"""Hoops as they are sold, 4 to 12 in across (cm): common practice, no source."""
IN_HOOP: Final = 2.0
"""Between the motif and the hoop (cm), for the needle and the hand: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Embroidery:
    """One motif in one stitch: what is followed (cm) or filled (cm²), metres of thread with waste, stitches, hours."""

    stitch: EmbroideryStitch
    length: float
    area: float
    thread_m: Range
    stitches: Range
    hours: Range


def skeins(thread_m: Range) -> tuple[int, int]:
    """Skeins of stranded cotton that hold so much thread, from two strands in the needle to three."""
    few, many = (metres * strands / SIX / SKEIN for metres, strands in zip(thread_m, STRANDS, strict=True))
    return math.ceil(few), math.ceil(many)


def outline_length(motif: Motif) -> float:
    """How long the lines of the motif are: the rings of its regions and their holes (cm)."""
    rings = [ring for region in motif.regions for ring in (region.ring, *region.holes)]
    return math.fsum(length((*ring, ring[0])) for ring in rings)


def overlapping(stitch: float, back: float, cloth: float = CLOTH) -> float:
    """Thread over line of a stitch that comes up a share ``back`` of its length behind where it went down.

    On the face s, on the back b·s, through the cloth twice, while the line goes on by (1 − b)·s.
    """
    return ((1 + back) * stitch + 2 * cloth) / ((1 - back) * stitch)


def chain(stitch: float, cloth: float = CLOTH, loop: float = LOOP) -> float:
    """Thread over line of a chain stitch: two limbs that bow out to ``loop`` apart at the middle, one stitch on the
    back, twice through the cloth.  Without a bow it is 3 + 2·t/s, the trade's figure for ISO 4915, 101."""
    return (2 * math.hypot(stitch, loop) + stitch + 2 * cloth) / stitch


def satin(area: float, rows: float, pitch: float, cloth: float = CLOTH) -> float:
    """Thread (cm) to fill ``area`` cm² in satin stitch: across on the face and again on the back, ``pitch`` further on
    at each of ``rows`` rows, twice through the cloth."""
    across = area / pitch / rows
    return rows * (across + math.hypot(across, pitch) + 2 * cloth)


def laid(area: float, rows: float, pitch: float, cloth: float = CLOTH) -> float:
    """Thread (cm) to fill ``area`` cm² in laid and couched work.

    Laid threads cross the face only and turn ``pitch`` further on, on the back; over them lies a thread every COUCHED
    cm, which goes down at either end, with a tie every TIED cm: over the thread, twice through the cloth, on to the
    next on the back.
    """
    laid_over = area / pitch + rows * (pitch + 2 * cloth)
    couched = area / COUCHED * (1 + (pitch + TIED + 2 * cloth) / TIED)
    return laid_over + couched


def embroidery(motif: Motif, stitch: EmbroideryStitch) -> Embroidery:
    """One motif in one stitch, outlined or filled, as ranges from long stitches or thick thread to short or fine."""
    along, shape = outline_length(motif), motif_shape(motif)
    area = float(shape.area)
    if stitch in FILLINGS:
        tall = rows_high(motif)
        each = [_filling(stitch, area, tall / pitch, pitch) for pitch in LAID]
    else:
        each = [_outline(stitch, along, size) for size in STITCH]
    low, high = (end(cm for cm, _ in each) for end in (min, max))
    few, many = (end(count for _, count in each) for end in (min, max))
    return Embroidery(
        stitch=stitch,
        length=0.0 if stitch in FILLINGS else along,
        area=area if stitch in FILLINGS else 0.0,
        thread_m=(low * (1 + WASTE[0]) / 100, high * (1 + WASTE[1]) / 100),
        stitches=(few, many),
        hours=(few / RATE[1] / 60, many / RATE[0] / 60),
    )


def rows_high(motif: Motif) -> float:
    """Over how much height threads lie (cm), each stretch across a region counted: divided by the distance of the
    threads it is how many of them are laid.

    A level line meets the rings twice for each such stretch, so it is half of all that the rings rise and fall.
    """
    rings = [ring for region in motif.regions for ring in (region.ring, *region.holes)]
    return 0.5 * math.fsum(abs(b[1] - a[1]) for ring in rings for a, b in itertools.pairwise((*ring, ring[0])))


def filling_for(motif: Motif) -> FillingStitch:
    """Satin stitch where its threads are short enough, else laid and couched work."""
    widest = max(
        2 * float(shapely.maximum_inscribed_circle(part, 0.01).length) for part in shapely.get_parts(motif_shape(motif))
    )
    return "satin stitch" if widest <= LONGEST_FLOAT else "laid and couched work"


def _outline(stitch: EmbroideryStitch, along: float, size: float) -> Range:
    """Thread (cm) and stitches of an outline with stitches of that size."""
    if stitch == "chain stitch":
        return along * chain(size), along / size
    back = BACK_STEM if stitch == "stem stitch" else BACK_SPLIT
    return along * overlapping(size, back), along / ((1 - back) * size)


def _filling(stitch: EmbroideryStitch, area: float, rows: float, pitch: float) -> Range:
    """Thread (cm) and stitches of a filling with threads so far apart."""
    if stitch == "satin stitch":
        return satin(area, rows, pitch), rows
    return laid(area, rows, pitch), rows + area / COUCHED / TIED


def hoop(motif: Motif) -> float | None:
    """The smallest hoop that holds the whole motif (cm across), or None: then it is moved along as the work grows."""
    across = 2 * float(shapely.minimum_bounding_radius(motif_shape(motif))) + 2 * IN_HOOP
    return next((size for size in HOOPS if size >= across), None)
