"""Does it fit: the girth of the sewn shell against the body and what is worn beneath, level by level."""

from __future__ import annotations

from typing import Final

from ellwand.model.finding import Finding
from ellwand.model.wearer import Measure, upper
from ellwand.prove.body import body_girth_at
from ellwand.prove.sewn import (
    Sewn,
    body_top,
    girth_at,
    girth_beneath,
    hem_height,
    rounding,
    sleeve_girth,
    sleeve_levels,
    sleeves_of,
    splits_of,
)

LEVELS: Final = ("bust", "waist", "belly", "hip")
LEAST_EASE: Final = {"skin": 4.0, "middle": 6.0, "outer": 8.0, "armour": 10.0}
"""Less ease than this (cm) over the body and what is beneath binds: common practice, no source."""
LEAST_ARM_EASE: Final = 4.0
"""The same round the upper arm (cm): common practice, no source."""
HALF_UPPER_ARM: Final = 0.28
"""Half way from shoulder to elbow as a share of the arm: half of 0.56, where survey means put the elbow
(shoulder-elbow over shoulder-elbow-wrist, ANSUR II 2012)."""
SAME: Final = 0.01


def reached(sewn: Sewn, at: str) -> float | None:
    """The level (cm above the hem) at which a girth is judged; None where the shell ends above it.

    Where the armhole is deeper than the level, the shell closes only beneath the armhole.
    """
    level = sewn.draft.dimensions.levels[at]
    return min(level, body_top(sewn)) if level > 0 else None


def biceps(sewn: Sewn) -> tuple[float, float] | None:
    """(distance down the arm from the shoulder point, girth of the sleeve there), cm; None without sleeves.

    Half way down the upper arm, or at the nearer end of a sleeve that does not cover it; the closer of the two
    sleeves.  A gusset is left out.
    """
    size = sewn.draft.dimensions
    found = []
    for hand, sleeve in sleeves_of(sewn).items():
        underarm, cuff = sleeve_levels(sleeve)
        down = HALF_UPPER_ARM * sewn.wearer.arm(hand)
        along = min(max(down - size.shoulder_drop, underarm), cuff)
        # a hair inside the piece, so that its straight top and cuff count as cloth
        found.append((size.shoulder_drop + along, sleeve_girth(sleeve, min(max(along, 1e-6), cuff - 1e-6))))
    return min(found, key=lambda each: each[1], default=None)


def fits(sewn: Sewn) -> tuple[Finding, ...]:
    """Bust, waist, belly, hip, the hem where it hangs above the crotch, and the upper arm."""
    out = []
    least = LEAST_EASE[sewn.draft.choices.layer]
    for at in LEVELS:
        level = reached(sewn, at)
        if level is None:
            continue
        garment, body = girth_at(sewn, level), sewn.wearer.measures[f"{at}_girth"]
        open_to = max(splits_of(sewn).values(), default=0.0)
        if at == "hip" and open_to >= level - SAME:
            out.append(Finding("fits-open", at, "sound", garment, values={"body": body.value, "split": open_to}))
        else:
            out.append(_judged(sewn, at, garment, body, least))
    low = hem_height(sewn)
    if low >= sewn.wearer["crotch_to_floor"] and not splits_of(sewn):
        out.append(_judged(sewn, "hem", girth_at(sewn, 0.0), Measure(body_girth_at(sewn.wearer, low)), least))
    arm = biceps(sewn)
    if arm is not None:
        out.append(_judged(sewn, "biceps", arm[1], sewn.wearer.measures["upper_arm_girth"], LEAST_ARM_EASE))
    return tuple(out)


def _judged(sewn: Sewn, at: str, garment: float, body: Measure, least: float) -> Finding:
    beneath = girth_beneath(sewn)
    inside = body.value + beneath
    values = {
        "body": body.value,
        "beneath": beneath,
        "ease": garment - inside,
        "least": least,
        "sd": body.sd,
        "rounding": rounding(sewn),
    }
    if garment < inside - SAME:
        return Finding("fits", at, "will not work", garment, inside + least, values=values)
    if garment < inside + least - SAME:
        return Finding("fits", at, "look again", garment, inside + least, values=values)
    if garment < upper(body) + beneath - SAME:
        return Finding("fits-by-estimate", at, "look again", garment, upper(body) + beneath, values=values)
    return Finding("fits", at, "sound", garment, inside + least, values=values)
