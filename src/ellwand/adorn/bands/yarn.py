"""What a woven band, a braid or a cord takes of yarn.

Side by side, a yarn that goes round a ruler n times in 1 cm is 1/n cm thick.  On a warp-faced band half of the ends
lie on the side that is seen, so it is ends / 2 yarns wide (plain weave and tablets alike): ends = 2 · width · n.
The strands of a flat braid run aslant at half a right angle: √2 · width · n of them; those of a cord lie in a round
bundle: (width · n)².
Warp = finished length · (1 + take-up) + loom waste: a 5 ft band from 7.5 ft of warp is one with a tenth of take-up and
2 ft of waste (malarkycrafts.com, planning a tablet-woven band; 12 cards of four holes are 48 ends).
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Final

from ellwand.model.band import Band, BandChoice, BandMake, Yarn

TAKE_UP: Final[Mapping[BandMake, float]] = {"tablet woven": 0.1, "inkle woven": 0.1, "braid": 0.5, "cord": 4.0}
"""A tenth of take-up (tygartlakefiberarts.com); strands of a braid 1.5 times its length (hought.com, the art of
string); a plied cord from about five times its length (weavespindye.org)."""
LOOM_WASTE: Final[Mapping[BandMake, float]] = {
    "tablet woven": 60.0,
    "inkle woven": 27.0,
    "braid": 20.0,
    "cord": 10.0,
}
"""In cm: 10.5 in on a small inkle loom (bandloom.loftyfiber.com); 18 in on a table loom and 36 in on one that stands on
the floor (tygartlakefiberarts.com), between which two feet lie; ends of a braid or cord: common practice, no source."""
PICKS: Final = 5.0
"""Of weft in 1 cm: our own figure."""
CARD: Final = 4
"""Threads to a tablet of four holes."""
SPARE: Final = 3.0
"""Woven beyond each band's length to turn its ends under (cm): common practice, no source."""


def yarn_of(number: int, choice: BandChoice, bands: Sequence[Band]) -> Yarn:
    """The yarn for all bands of one choice, made in one length."""
    length = math.fsum(band.length + SPARE for band in bands)
    take_up = TAKE_UP[choice.make] if choice.take_up is None else choice.take_up
    waste = LOOM_WASTE[choice.make] if choice.loom_waste is None else choice.loom_waste
    ends = choice.ends or usual_ends(choice)
    warp = length * (1 + take_up) + waste
    weft = length * PICKS * choice.width / 100 if choice.make in ("tablet woven", "inkle woven") else 0.0
    metres = ends * warp / 100 + weft
    return Yarn(number, choice.make, length, ends, warp, take_up, waste, weft, metres, metres * choice.grams / 100)


def usual_ends(choice: BandChoice) -> int:
    """As many threads as the width takes: whole tablets, or whole pairs; at least three strands, of a cord two."""
    if choice.make == "tablet woven":
        return CARD * max(1, math.ceil(2 * choice.width * choice.wraps / CARD - 1e-9))
    if choice.make == "inkle woven":
        return 2 * math.ceil(choice.width * choice.wraps - 1e-9)
    across = choice.width * choice.wraps
    if choice.make == "braid":
        return max(3, math.ceil(math.sqrt(2) * across - 1e-9))
    return max(2, math.ceil(across**2 - 1e-9))
