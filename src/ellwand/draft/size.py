"""Every length of the garment, settled on this wearer and rounded to the chalk grid before anything is drawn."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from ellwand.errors import CannotDraft
from ellwand.model.choices import Choices, Gore, Span
from ellwand.model.draft import Note
from ellwand.model.wearer import Wearer, upper
from ellwand.units import format_length, round_near, round_up

EASE: Final = {"skin": 10.0, "middle": 14.0, "outer": 22.0, "armour": 26.0}
"""Body ease by layer (cm): common practice, no source."""
SLEEVE_EASE: Final = {"skin": 8.0, "middle": 10.0, "outer": 14.0, "armour": 18.0}
"""Upper-arm ease by layer (cm): common practice, no source."""
ARMPIT_CLEARANCE: Final = 2.0
"""How far the armhole hangs below the armpit (cm): common practice, no source."""
SLEEVELESS_CLEARANCE: Final = 5.0
"""The same where no sleeve is sewn in (cm): common practice, no source."""
NARROWEST_SIDE_PANEL: Final = 6.0
"""A narrower side panel is not worth its two seams (cm): common practice, no source."""
HAND_EASE: Final = 1.0
"""A closed cuff is this much wider than the hand with the thumb tucked in (cm): common practice."""
ANKLE_SHARE: Final = 0.045
"""Height of the ankle bone as a share of standing height: from memory (anthropometric body proportions)."""
FLOOR_CLEARANCE: Final = 2.0
"""A floor-length hem clears the floor by this much (cm): common practice, no source."""
ARM_SHARES: Final = {"cap": 0.25, "elbow": 0.56, "three-quarter": 0.78, "wrist": 1.0, "over-hand": 1.22}
"""Where a sleeve ends as a share of the arm. Elbow: survey means of shoulder-elbow over
shoulder-elbow-wrist (0.563 female, 0.556 male, ANSUR II 2012); the rest common practice, no source."""
BUST_SHARE: Final = 0.133
"""Nape to bust level as a share of height: survey means (22.4/162.9 female, 22.6/175.6 male, ANSUR II 2012)."""


@dataclass(frozen=True, slots=True)
class Sized:
    """A gore place with its numbers (cm)."""

    place: str
    start: float
    base: float
    make: str


def heights_above_floor(wearer: Wearer) -> dict[str, float]:
    """Heights (cm above the floor) of the levels a garment is measured at."""
    ankle = ANKLE_SHARE * wearer["height"]
    knee, crotch = wearer["knee_to_floor"], wearer["crotch_to_floor"]
    return {
        "bust": wearer["nape_to_floor"] - BUST_SHARE * wearer["height"],
        "waist": wearer["waist_to_floor"],
        "hip": wearer["hip_to_floor"],
        "crotch": crotch,
        "mid-thigh": (crotch + knee) / 2,
        "knee": knee,
        "mid-calf": (knee + ankle) / 2,
        "ankle": ankle,
        "floor": FLOOR_CLEARANCE,
    }


def length_of(choices: Choices, wearer: Wearer, grid: float) -> float:
    """Finished length (cm) from the shoulder line at the neck to the hem."""
    chosen = choices.length
    if isinstance(chosen, Span):
        return round_near((chosen.low + chosen.high) / 2, grid)
    if isinstance(chosen, float):
        return round_near(chosen, grid)
    return round_near(wearer["nape_to_floor"] - heights_above_floor(wearer)[chosen], grid)


def beneath(choices: Choices) -> float:
    """Extra girth (cm) for what is worn beneath: 2π × thickness (a circle grown by that thickness)."""
    return 2 * math.pi * choices.beneath_mm / 10


def armhole_of(choices: Choices, wearer: Wearer, grid: float) -> float:
    """Armhole depth (cm) down from the shoulder line, on each side of it."""
    if choices.sleeve.shape == "none":
        return round_up(wearer["scye_depth"] + SLEEVELESS_CLEARANCE + choices.beneath_mm / 10, grid)
    return round_up(
        max(arm_girth(choices, wearer) / 2, wearer["scye_depth"] + ARMPIT_CLEARANCE + choices.beneath_mm / 10),
        grid,
    )


def arm_girth(choices: Choices, wearer: Wearer) -> float:
    """Upper-arm girth with the layer's ease and what is worn beneath (cm)."""
    return wearer["upper_arm_girth"] + SLEEVE_EASE[choices.layer] + beneath(choices)


def gore_of(gore: Gore, levels: dict[str, float], grid: float, where: str) -> Sized:
    """A gore's numbers: start above the hem and width along the hem (cm)."""
    waist = levels["waist"]
    if isinstance(gore.start, float):
        start = round_near(gore.start, grid)
        if start > waist + grid:
            raise CannotDraft(
                f"{where}.start",
                f"a gore starting {format_length(start)} above the hem would start above the waist",
                f'start it at "waist" or at {format_length(math.floor(waist))} or less',
            )
    else:
        start = round_near(levels[gore.start], grid)
        if start < 10:
            raise CannotDraft(
                f"{where}.start",
                f"the hem lies at or above the {gore.start}, so no gore can start there",
                "lengthen the garment or leave the gore out",
            )
    base = gore.base if isinstance(gore.base, float) else (gore.base.low + gore.base.high) / 2
    base = round_near(base, grid)
    if start < 5:
        raise CannotDraft(f"{where}.start", f"a gore {format_length(start)} long is too short to sew in")
    if base < 2:
        raise CannotDraft(f"{where}.base", "a gore needs a base of at least 2 cm", "give its width at the hem")
    if base > start * math.pi / 2:
        raise CannotDraft(
            f"{where}.base",
            f"{format_length(base)} is too wide for a gore {format_length(start)} long",
            f"make it {format_length(math.floor(start * math.pi / 2))} or less, start it higher,"
            " or set gores in more places",
        )
    return Sized(gore.place, start, base, gore.make)


@dataclass(frozen=True, slots=True)
class Trunk:
    """Widths of the body (cm): a front or back panel, a side panel (0 without), the girth they close to."""

    panel: float
    side_panel: float
    girth: float


def trunk_of(
    choices: Choices,
    wearer: Wearer,
    grid: float,
    widened_at_hip: float,
    hip_counts: bool,
    notes: list[Note],
) -> Trunk:
    """Panel widths from the largest girth the ungored shell must close round.

    ``widened_at_hip``: what gores and flares add at hip level (cm); ``hip_counts`` is False where the shell is
    open there or ends above.
    """
    ease = EASE[choices.layer] if choices.body.ease is None else choices.body.ease
    extra = ease + beneath(choices)
    need = max(wearer["bust_girth"], wearer["waist_girth"]) + extra
    if hip_counts:
        need = max(need, wearer["hip_girth"] + extra - widened_at_hip)
    half = need / 2
    if choices.body.cut == "wide panels":
        panel = round_up(half, grid)
        return Trunk(panel, 0.0, 2 * panel)
    panel = round_near(wearer["across_shoulder"], grid)
    if half - panel < NARROWEST_SIDE_PANEL:
        panel = round_near(half - NARROWEST_SIDE_PANEL, grid)
        notes.append(Note("panel-narrowed", "body", {"panel": panel, "shoulder": wearer["across_shoulder"]}))
    side = round_up(half - panel, grid)
    return Trunk(panel, side, 2 * (panel + side))


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
) -> Arm:
    """The sleeve, its cuff and the gusset, for an armhole ``armhole`` deep with a side panel's top below it.

    ``pieced``: the side panel is in two halves, so that a gusset can sit between them.
    """
    sleeve = choices.sleeve
    if sleeve.shape == "none":
        return NO_ARM
    top = 2 * armhole + side_panel
    full = wearer["arm_length"] - drop
    asked = (
        sleeve.length if isinstance(sleeve.length, float) else ARM_SHARES[sleeve.length] * wearer["arm_length"] - drop
    )
    length = round_near(asked, grid)
    if length < 4:
        raise CannotDraft(
            "garment.sleeve.length",
            f"the body already reaches {format_length(drop)} down the arm, so this sleeve would be"
            f" {format_length(max(length, 0))} long",
            'choose a longer sleeve, shape = "none", or cut = "shoulder panels"',
        )
    gusset = _gusset(choices, wearer, grid, armhole, side_panel > 0 and not pieced)
    reach = min(1.0, max(0.0, (drop + length) / wearer["arm_length"]))
    cuff, passes = _cuff(choices, wearer, grid, top, length / full if full > 0 else 1.0, reach)
    elbow_height = length - (ARM_SHARES["elbow"] * wearer["arm_length"] - drop)
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
