"""The sleeve in numbers: its top, length, cuff, opening and gusset, settled on this wearer."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from ellwand.draft.size import arm_girth, beneath
from ellwand.errors import CannotDraft
from ellwand.model.choices import Choices
from ellwand.model.wearer import Wearer, upper
from ellwand.units import format_length, round_near, round_up

HAND_EASE: Final = 1.0
"""A closed cuff is this much wider than the hand with the thumb tucked in (cm): common practice."""
ARM_SHARES: Final = {"cap": 0.25, "elbow": 0.56, "three-quarter": 0.78, "wrist": 1.0, "over-hand": 1.22}
"""Where a sleeve ends as a share of the arm. Elbow: survey means of shoulder-elbow over
shoulder-elbow-wrist (0.563 female, 0.556 male, ANSUR II 2012); the rest common practice, no source."""


@dataclass(frozen=True, slots=True)
class Arm:
    """A sleeve's numbers (cm): top, own length, elbow width and its height above the cuff, cuff, opening."""

    top: float
    length: float
    elbow: float
    elbow_height: float
    cuff: float
    opening: float
    gusset: float


NO_ARM: Final = Arm(0, 0, 0, 0, 0, 0, 0)


def arm_of(
    choices: Choices,
    wearer: Wearer,
    grid: float,
    armhole: float,
    side_panel: float,
    drop: float,
    pieced: bool,
    arm_length: float,
) -> Arm:
    """The sleeve for an arm of ``arm_length``, its cuff and the gusset.

    ``armhole``: its depth; below it lies a side panel's top ``side_panel`` wide, ``pieced`` when that is in two
    halves, so that a gusset can sit between them.  ``drop``: how far the body reaches down the arm.
    """
    sleeve = choices.sleeve
    if sleeve.shape == "none":
        return NO_ARM
    top = 2 * armhole + side_panel
    full = arm_length - drop
    asked = sleeve.length if isinstance(sleeve.length, float) else ARM_SHARES[sleeve.length] * arm_length - drop
    length = round_near(asked, grid)
    if length < 4:
        raise CannotDraft(
            "garment.sleeve.length",
            f"the body already reaches {format_length(drop)} down the arm, so this sleeve would be"
            f" {format_length(max(length, 0))} long",
            'choose a longer sleeve, shape = "none", or cut = "shoulder panels"',
        )
    gusset = _gusset(choices, wearer, grid, armhole, side_panel > 0 and not pieced)
    reach = min(1.0, max(0.0, (drop + length) / arm_length))
    cuff, passes = _cuff(choices, wearer, grid, top, length / full if full > 0 else 1.0, reach)
    elbow_height = length - (ARM_SHARES["elbow"] * arm_length - drop)
    elbow = 0.0
    if sleeve.shape == "fitted forearm":
        elbow = _elbow(wearer, grid, top, cuff, elbow_height)
    opening = 0.0
    if cuff < passes - 1e-6:
        opening = _opening(grid, top, elbow, elbow_height, cuff, length, gusset, passes)
    underarm = math.hypot(length, (top - cuff) / 2)
    if gusset + opening > underarm - 1:
        raise CannotDraft(
            "garment.sleeve",
            f"a gusset of {format_length(gusset)} and a cuff opening of {format_length(opening)} do not fit on an"
            f" underarm seam of {format_length(underarm)}",
            "choose a longer sleeve, a smaller gusset or a wider cuff",
        )
    return Arm(top, length, elbow, max(elbow_height, 0.0), cuff, opening, gusset)


def _gusset(choices: Choices, wearer: Wearer, grid: float, armhole: float, panel_serves: bool) -> float:
    chosen = choices.sleeve.gusset
    if isinstance(chosen, float):
        return round_up(chosen, grid)
    if chosen == "none" or panel_serves:
        return 0.0
    # left out where the top is wide: depth at least 1.35 × half the upper arm with ease (common practice)
    if armhole >= 1.35 * arm_girth(choices, wearer) / 2:
        return 0.0
    return round_up(max(6.0, wearer["upper_arm_girth"] / 4 + 2), grid)


def _cuff(choices: Choices, wearer: Wearer, grid: float, top: float, share: float, reach: float) -> tuple[float, float]:
    """(cuff, what must pass it): girths in cm; ``share``: how far down a full sleeve this one ends."""
    sleeve = choices.sleeve
    extra = beneath(choices) if reach < 0.9 else 0.0
    passes = upper(wearer.measures["hand_girth"]) + HAND_EASE
    on_arm = wearer["upper_arm_girth"] + (wearer["wrist_girth"] - wearer["upper_arm_girth"]) * reach + extra
    if isinstance(sleeve.cuff, float):
        cuff = round_near(sleeve.cuff, grid)
        if cuff < on_arm:
            raise CannotDraft(
                "garment.sleeve.cuff",
                f"{format_length(cuff)} is closer than the arm, {format_length(on_arm)} where the sleeve ends",
                f"make the cuff at least {format_length(round_up(on_arm + 0.5, grid))}",
            )
        if sleeve.shape == "straight" and abs(cuff - top) > grid:
            raise CannotDraft(
                "garment.sleeve.cuff",
                f"a straight sleeve is as wide at the cuff as at its top, {format_length(top)}",
                'leave cuff out, or choose shape = "tapered" or "wide"',
            )
        if sleeve.shape in ("tapered", "fitted forearm") and cuff > top:
            raise CannotDraft(
                "garment.sleeve.cuff",
                f"{format_length(cuff)} is wider than the sleeve's top, {format_length(top)}",
                'choose shape = "wide" or a closer cuff',
            )
        if sleeve.shape == "wide" and cuff < top:
            raise CannotDraft(
                "garment.sleeve.cuff",
                f"a wide sleeve opens wider than its top, {format_length(top)}",
                'give a larger cuff or choose shape = "tapered"',
            )
        return cuff, passes
    if sleeve.shape == "straight":
        return top, passes
    if sleeve.shape == "wide":
        # three quarters wider at the opening than at the top: common practice, no source
        return round_up(1.75 * top, grid), passes
    close = sleeve.cuff == "close" or (sleeve.cuff == "auto" and sleeve.shape == "fitted forearm")
    if close:
        return min(top, round_up(on_arm + 2.0, grid)), passes
    at_wrist = min(top, passes)
    cuff = at_wrist if share >= 1 else top + (at_wrist - top) * share
    return min(top, round_up(max(cuff, on_arm + 2.0, passes), grid)), passes


def _elbow(wearer: Wearer, grid: float, top: float, cuff: float, elbow_height: float) -> float:
    if elbow_height < 8:
        raise CannotDraft(
            "garment.sleeve.length",
            "a sleeve with a fitted forearm has to reach well below the elbow",
            'choose length = "wrist" or shape = "tapered"',
        )
    # loose above: a bent elbow takes about the upper arm plus 6 cm (common practice, no source)
    return min(top, max(cuff, round_up(wearer["upper_arm_girth"] + 6, grid)))


def _opening(
    grid: float,
    top: float,
    elbow: float,
    elbow_height: float,
    cuff: float,
    length: float,
    gusset: float,
    passes: float,
) -> float:
    """How far up the underarm seam (cm) the sleeve must open so that the girth at its end passes the hand."""
    wide, high = (elbow, elbow_height) if elbow else (top, length)
    if passes > wide:
        wide, high, cuff_at, base = top, length, elbow, elbow_height
    else:
        cuff_at, base = cuff, 0.0
    if passes > top or wide <= cuff_at:
        raise CannotDraft(
            "garment.sleeve.cuff",
            f"the sleeve is nowhere wide enough for the hand, which needs {format_length(passes)}",
            "widen the sleeve",
        )
    share = max(0.0, passes - cuff_at) / (wide - cuff_at)
    rise = share * (high - base)
    along = math.hypot(rise, share * (wide - cuff_at) / 2)
    if base:
        along += math.hypot(base, (elbow - cuff) / 2)
    opening = round_up(along, grid)
    if opening > math.hypot(length, (top - cuff) / 2) - gusset - 1:
        raise CannotDraft(
            "garment.sleeve.cuff",
            "the sleeve would have to open all the way to the gusset for the hand to pass",
            "choose a wider cuff",
        )
    return opening
