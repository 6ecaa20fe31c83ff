"""Does it let the wearer sit: the seat spreads, and the knees part as wide as the seat.

Figures from the 6,068 people of ANSUR II (2012): hip girth 102.01 cm and hip breadth 34.84 cm standing, hip breadth
38.57 cm seated (this one from a public summary of the survey).
"""

from __future__ import annotations

import math
from typing import Final

from ellwand.model.finding import Finding
from ellwand.prove.body import leg_girth_at
from ellwand.prove.fits import reached
from ellwand.prove.sewn import Sewn, girth_at, girth_beneath, opens_through, rounding, splits_of

SEAT_GROWS: Final = 0.06
"""How much a seat grows in girth when it sits, as a share: an ellipse of the survey's girth and breadth, as deep and
as much broader as it sits (102.0 to 108.2 cm).  Modern ease at the hip, 5 to 7 cm, is the same."""
SEAT_BREADTH: Final = 0.378
"""Breadth of the seat when it sits, as a share of the hip girth standing (survey means)."""
SAME: Final = 0.01


def seated_girth(hip: float) -> float:
    """Girth (cm) of a seat that is ``hip`` cm round when it stands."""
    return hip * (1 + SEAT_GROWS)


def knees_apart(hip: float, leg: float) -> float:
    """Girth (cm) round two legs of girth ``leg`` whose outer sides are as far apart as the seat is broad.

    The band round two equal circles at distance d is 2 d + one girth (plane geometry).
    """
    return 2 * max(SEAT_BREADTH * hip - leg / math.pi, leg / math.pi) + leg


def sitting(sewn: Sewn) -> tuple[Finding, ...]:
    """The seat, where the garment covers it; the knees, where it covers them too."""
    wearer = sewn.wearer
    hip = wearer["hip_girth"]
    out = []
    seat, knees = reached(sewn, "hip"), reached(sewn, "knee")
    if seat is not None:
        out.append(_judged(sewn, "seat", seat, hip, seated_girth(hip)))
    if knees is not None:
        leg = leg_girth_at(wearer, wearer["knee_to_floor"])
        out.append(_judged(sewn, "knees", knees, leg, knees_apart(hip, leg)))
    return tuple(out)


def _judged(sewn: Sewn, at: str, level: float, body: float, spread: float) -> Finding:
    """A garment that is too close rides up or binds; one sits down in it all the same, so it is never worse."""
    open_to = max(splits_of(sewn).values(), default=0.0)
    # a split up to a landmark ends at the chalk mark nearest to it
    if opens_through(sewn) or open_to >= level - sewn.draft.dimensions.grid / 2 - SAME:
        return Finding("sitting-open", at, "sound")
    beneath = girth_beneath(sewn)
    girth, needed = girth_at(sewn, level), spread + beneath
    values = {"body": body, "beneath": beneath, "rounding": rounding(sewn)}
    roomy = girth >= needed - SAME
    return Finding("sitting", at, "sound" if roomy else "look again", girth, needed, values=values)
