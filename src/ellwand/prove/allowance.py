"""Whether the seam allowance is enough for the way the seams are finished."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.model.choices import Finish
from ellwand.model.draft import Draft
from ellwand.model.finding import Finding

LEAST: Final[Mapping[Finish, float]] = {
    "plain": 0.6,
    "overcast": 0.6,
    "open and stitched down": 0.6,
    "french": 0.95,
    "run and fell": 1.0,
    "flat-felled": 1.2,
}
"""The least allowance (cm) of each finish.  Plain, overcast: 6 to 7 mm in a gown from Herjolfsnes (no. 45), 1/4 in for
a narrow seam today; French: 3/8 in today (both as sewing teachers give them).  Stitched down: rows 2 to 3 mm from the
seam in finds from London (Crowfoot, Pritchard and Staniland), and as much beyond them; run and fell: half of it is
still to be folded under; flat-felled: folded over the other as well: our own figures."""
_NEARLY: Final = 0.01


def enough_to_finish(draft: Draft) -> tuple[Finding, ...]:
    """A finding where it is too little, or none; a garment without seams to finish needs no allowance."""
    sewing = draft.choices.sewing
    least = LEAST[sewing.finish]
    if sewing.allowance >= least - _NEARLY or not draft.seams:
        return ()
    values = {"finish": sewing.finish, "overcast": LEAST["overcast"]}
    return (Finding("allowance-for-finish", "seams", "look again", sewing.allowance, least, values=values),)
