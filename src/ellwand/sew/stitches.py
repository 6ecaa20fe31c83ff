"""The stitches: what each is called in ISO 4915, how long it is, and where in a garment it is used.

Hand stitches: finds from London have main seams in running stitch of 2 to 4 mm and keep back stitch for stressed
places; raw edges of the Greenland finds are overcast; folded edges of finds are hemmed or felled (Crowfoot, Pritchard
and Staniland, Textiles and Clothing; Østergård, Woven into the Earth).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from ellwand.model.choices import Sewing, SewnBy
from ellwand.model.stitch import StitchName


@dataclass(frozen=True, slots=True)
class Stitch:
    """``iso``: its number in ISO 4915; ``length`` of one stitch along the row, ``width`` across it (cm).

    ``width`` is the bite of a hem or overcast stitch, the depth of a buttonhole's, how wide a bar is; 0 for a straight
    row.  ``own``: it keeps its length whatever the maker's stitch is.
    """

    iso: str
    by: SewnBy
    length: float
    width: float = 0.0
    own: bool = False


STITCHES: Final[Mapping[StitchName, Stitch]] = {
    "running": Stitch("209", "hand", 0.3),
    "back stitch": Stitch("202", "hand", 0.3),
    "hemming": Stitch("", "hand", 0.3, 0.2),
    "overcast": Stitch("", "hand", 0.3, 0.4),
    "buttonhole": Stitch("", "hand", 0.1, 0.3, own=True),
    "bar": Stitch("", "hand", 0.1, 0.2, own=True),
    "lockstitch": Stitch("301", "machine", 0.25),
    "chain": Stitch("101", "machine", 0.25),
    "double chain": Stitch("401", "machine", 0.25),
    "zigzag": Stitch("304", "machine", 0.25, 0.3),
    "overedge": Stitch("504", "machine", 0.25, 0.5),
}
"""Numbers: 101, 301, 401 and 504 as trade handbooks on thread give them; 209, of which a machine's form looks like a
hand's running stitch, from a trade table; 202 and 304 from memory.  3 mm by hand is the middle of London's 2 to 4;
2.5 mm by machine, and every width, are common practice, no source."""

STRESSED: Final = frozenset({"armhole", "gusset", "crotch gusset", "rise"})
"""Kinds of seam sewn in back stitch by hand, as finds do in stressed places; which ones: common practice, no source."""


def stitch_length(name: StitchName, sewing: Sewing) -> float:
    """Of one stitch (cm): as the maker sews, or the usual one."""
    stitch = STITCHES[name]
    asked = sewing.stitch if sewing.by == stitch.by and not stitch.own else None
    return stitch.length if asked is None else asked


def main_stitch(sewing: Sewing, stressed: bool = False) -> StitchName:
    """What a seam is sewn in."""
    if sewing.by == "machine":
        return sewing.machine
    return "back stitch" if stressed else "running"


def edge_stitch(sewing: Sewing) -> StitchName:
    """What a folded edge is sewn down with: a hem, a fell, a facing."""
    return sewing.machine if sewing.by == "machine" else "hemming"


def raw_edge_stitch(sewing: Sewing) -> StitchName:
    """What a raw edge is kept from fraying with."""
    return sewing.neaten if sewing.by == "machine" else "overcast"
