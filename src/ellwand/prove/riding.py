"""Can it be ridden in: astride a horse the hem must open, or pass both legs parted by the horse.

No figure for a riding hem is known; the finds answer with slits at the centre front and back (Moselund, Kragelund).
So it is derived: the band round two legs of girth g whose inner sides are b apart is 2 (b + g/π) + g (plane geometry:
two equal circles, their centres b + g/π apart).  From the crotch, where they meet, the legs part evenly down to the
knees and hang straight below; the horse fills what is between them.  A hem that is open anywhere up to the crotch is
no band.
"""

from __future__ import annotations

import math
from typing import Final

from ellwand.model.finding import Finding
from ellwand.prove.body import leg_girth_at
from ellwand.prove.sewn import Sewn, girth_at, hem_height, opens_through, splits_of

BARREL: Final = 50.0
"""How far a horse with its saddle parts a rider's knees (cm): our own figure, of a horse of about 145 cm."""
BELOW_KNEE: Final = 5.0
"""A hem this far below the knee (cm) closes round a rider's legs: common practice, no source."""
FOR_RIDING: Final = "riding surcote"
"""The style that is made to be ridden in."""
SAME: Final = 0.01


def riding(sewn: Sewn) -> tuple[Finding, ...]:
    """Of a garment that hangs below the knee: that it can be ridden in; that it cannot, only where it is meant to."""
    if not covers_knees(sewn):
        return ()
    if open_astride(sewn):
        return (Finding("riding-open", "hem", "sound"),)
    choices = sewn.draft.choices
    meant = choices.style == FOR_RIDING or any(split.place.startswith("centre") for split in choices.splits)
    wide = wide_astride(sewn)
    if not (wide or meant):
        return ()
    girth, needed, height = _tightest(sewn)
    values = {"height": height, "split": _closed_from(sewn)}
    return (Finding("riding", "hem", "sound" if wide else "look again", girth, needed, values=values),)


def covers_knees(sewn: Sewn) -> bool:
    """Whether the hem hangs so far below the knee that it closes round a rider's legs."""
    return hem_height(sewn) < sewn.wearer["knee_to_floor"] - BELOW_KNEE


def open_astride(sewn: Sewn) -> bool:
    """Whether it opens all the way, or is split up to the crotch (or the chalk mark nearest to it)."""
    size = sewn.draft.dimensions
    return bool(opens_through(sewn)) or _closed_from(sewn) >= size.levels["crotch"] - size.grid / 2 - SAME


def wide_astride(sewn: Sewn) -> bool:
    """Whether what is closed of the skirt passes both legs astride, from thigh to hem."""
    girth, needed, _ = _tightest(sewn)
    return girth >= needed - SAME


def astride(parted: float, leg: float) -> float:
    """Girth (cm) of the band round two legs of girth ``leg`` whose inner sides are ``parted`` cm apart."""
    return 2 * (parted + leg / math.pi) + leg


def _closed_from(sewn: Sewn) -> float:
    """The level (cm above the hem) above which the garment is closed all round: the top of its highest split."""
    return max(splits_of(sewn).values(), default=0.0)


def _tightest(sewn: Sewn) -> tuple[float, float, float]:
    """(girth, girth needed, height above the floor) where the closed skirt has least to spare (cm)."""
    hem, low, levels = hem_height(sewn), _closed_from(sewn), sewn.draft.dimensions.levels
    closed = [low, *(levels[name] for name in ("knee", "mid-thigh") if levels[name] > low)]
    rows = [(girth_at(sewn, level), _needed(sewn, max(0.0, hem + level)), hem + level) for level in closed]
    return min(rows, key=lambda row: row[0] - row[1])


def _needed(sewn: Sewn, height: float) -> float:
    crotch, knee = sewn.wearer["crotch_to_floor"], sewn.wearer["knee_to_floor"]
    share = min(1.0, max(0.0, (crotch - height) / (crotch - knee)))
    return astride(BARREL * share, leg_girth_at(sewn.wearer, height))
