"""How long a child's garment lasts: until something binds, and until it is too short."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Final

from ellwand.model.draft import Draft
from ellwand.model.finding import Finding, Outcome
from ellwand.model.wearer import HANDS, Hand, Wearer
from ellwand.prove.fits import fits
from ellwand.prove.goes_on import goes_on
from ellwand.prove.sewn import sewn_up

LONGEST: Final = 36
"""No one asks further ahead (months)."""
TOO_SHORT: Final = 5.0
"""A hem this much higher on the body than it was chosen (cm) looks outgrown: common practice, no source."""
SLEEVE_TOO_SHORT: Final = 3.0
"""The same for a sleeve (cm): common practice, no source."""
SOON: Final = 6
"""Less than this (months) is soon: common practice, no source."""


def lasts(draft: Draft, now: Wearer, in_months: Callable[[int], Wearer]) -> Finding:
    """Months until the garment, let down, no longer goes on or fits, or has become too short; at most LONGEST.

    ``now`` is whom it is cut for, ``in_months`` the same child later.  The hem is judged by its share of the way
    from nape to floor.
    """
    sewn = sewn_up(draft, now)
    worn = draft.dimensions.length - (draft.taken_up.body if draft.taken_up else 0.0)

    def binds(later: Wearer) -> bool:
        there = replace(sewn, wearer=later)
        return any(f.outcome == "will not work" for f in (*goes_on(there), *fits(there)))

    def short(later: Wearer) -> bool:
        wanted = worn * later["nape_to_floor"] / now["nape_to_floor"]
        return wanted - draft.dimensions.length > TOO_SHORT or any(
            _sleeve(draft, now, later, hand) > SLEEVE_TOO_SHORT for hand in HANDS
        )

    later = [in_months(month) for month in range(LONGEST + 1)]

    def first(gone: Callable[[Wearer], bool]) -> int:
        return next((month for month, there in enumerate(later) if gone(there)), LONGEST)

    wide, long = first(binds), first(short)
    outcome: Outcome = "look again" if min(wide, long) < SOON else "sound"
    return Finding(
        "lasts",
        "",
        outcome,
        float(min(wide, long)),
        float(SOON),
        unit="months",
        values={"wide": wide, "long": long, "most": LONGEST, "taken": draft.taken_up.body if draft.taken_up else 0.0},
    )


def _sleeve(draft: Draft, now: Wearer, later: Wearer, hand: Hand) -> float:
    """By how much (cm) a sleeve, let down, has become shorter on the arm than it was chosen."""
    size = draft.dimensions
    if not size.sleeve_lengths[hand]:
        return 0.0
    reach = size.shoulder_drop + size.sleeve_lengths[hand]
    taken = draft.taken_up.sleeves[hand] if draft.taken_up else 0.0
    return (reach - taken) * later.arm(hand) / now.arm(hand) - reach
