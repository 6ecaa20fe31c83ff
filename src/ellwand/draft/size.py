"""Every length of the garment, settled on this wearer and rounded to the chalk grid before anything is drawn."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from ellwand.errors import CannotDraft
from ellwand.language import _
from ellwand.model.choices import Choices, Gore, GoreHem, Span, Take, girth_over
from ellwand.model.draft import Note
from ellwand.model.wearer import Wearer
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
ANKLE_SHARE: Final = 0.045
"""Height of the ankle bone as a share of standing height: from memory (anthropometric body proportions)."""
FLOOR_CLEARANCE: Final = 2.0
"""A floor-length hem clears the floor by this much (cm): common practice, no source."""
WIDEST_SHORT_GORE: Final = 1.4
"""A gore whose base is left open is at most so many times as wide along the hem as it is long: our own figure."""
BELLY_BELOW_WAIST: Final = 4.0
"""How far the belly is below the natural waist (cm): 4.6 for women, 3.5 for men, in the survey between the navel and
the middle of lowest rib and hip bone."""
BUST_SHARE: Final = 0.133
"""Nape to bust level as a share of height: survey means (22.4/162.9 female, 22.6/175.6 male, ANSUR II 2012)."""


NARROWEST_TOP: Final = 2.0
"""A narrower top is a point (cm): common practice, no source."""
WIDEST_TOP: Final = 10.0
"""The side gores of a gown from Herjolfsnes (no. 42) are 10 cm wide at the top."""


@dataclass(frozen=True, slots=True)
class Sized:
    """A gore place with its numbers (cm)."""

    place: str
    start: float
    base: float
    make: str
    top: float = 0.0
    hem: GoreHem = "arc"


def heights_above_floor(wearer: Wearer) -> dict[str, float]:
    """Heights (cm above the floor) of the levels a garment is measured at."""
    ankle = ANKLE_SHARE * wearer["height"]
    knee, crotch = wearer["knee_to_floor"], wearer["crotch_to_floor"]
    return {
        "bust": wearer["nape_to_floor"] - BUST_SHARE * wearer["height"],
        "waist": wearer["waist_to_floor"],
        "belly": wearer["waist_to_floor"] - BELLY_BELOW_WAIST,
        "hip": wearer["hip_to_floor"],
        "crotch": crotch,
        "mid-thigh": (crotch + knee) / 2,
        "knee": knee,
        "mid-calf": (knee + ankle) / 2,
        "ankle": ankle,
        "floor": FLOOR_CLEARANCE,
    }


def length_of(choices: Choices, wearer: Wearer, grid: float) -> float:
    """Finished length (cm) from the shoulder line at the neck to the hem, with what a belt is to draw up."""
    chosen = choices.length
    if isinstance(chosen, Span):
        worn = _taken(chosen, choices.take)
    elif isinstance(chosen, float):
        worn = chosen
    else:
        worn = wearer["nape_to_floor"] - heights_above_floor(wearer)[chosen]
    return round_near(worn + choices.blouse, grid)


def beneath(choices: Choices) -> float:
    """Extra girth (cm) for what is worn beneath: 2π × thickness (a circle grown by that thickness)."""
    return girth_over(choices.beneath_mm)


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


def gore_of(gore: Gore, levels: dict[str, float], grid: float, where: str, take: Take) -> Sized:
    """A gore's numbers: start above the hem and width along the hem (cm); ``take``: where its range is settled."""
    waist = levels["waist"]
    if isinstance(gore.start, float):
        start = round_near(gore.start, grid)
        if start > waist + grid:
            raise CannotDraft(
                f"{where}.start",
                _(
                    "a gore starting {start} above the hem would start above the waist",
                    start=format_length(start),
                ),
                _('start it at "waist" or at {most} or less', most=format_length(math.floor(waist))),
            )
    else:
        start = round_near(levels[gore.start], grid)
        if start < 10:
            raise CannotDraft(
                f"{where}.start",
                _("the hem lies at or above the {level}, so no gore can start there", level=gore.start),
                _("lengthen the garment or leave the gore out"),
            )
    base = round_near(gore.base if isinstance(gore.base, float) else _within(gore.base, start, take), grid)
    if start < 5:
        raise CannotDraft(f"{where}.start", _("a gore {start} long is too short to sew in", start=format_length(start)))
    if base < 2:
        raise CannotDraft(f"{where}.base", _("a gore needs a base of at least 2 cm"), _("give its width at the hem"))
    if base > start * math.pi / 2:
        raise CannotDraft(
            f"{where}.base",
            _(
                "{base} is too wide for a gore {start} long",
                base=format_length(base),
                start=format_length(start),
            ),
            _(
                "make it {most} or less, start it higher, or set gores in more places",
                most=format_length(math.floor(start * math.pi / 2)),
            ),
        )
    top = round_near(gore.top, grid)
    if top and not (NARROWEST_TOP <= top <= WIDEST_TOP and top < base):
        raise CannotDraft(
            f"{where}.top",
            _(
                "{top} is no width for a blunt top of a gore {base} wide",
                top=format_length(top),
                base=format_length(base),
            ),
            _(
                "give {least} to {most}, less than its base, or 0 for a point",
                least=format_length(NARROWEST_TOP),
                most=format_length(WIDEST_TOP),
            ),
        )
    return Sized(gore.place, start, base, gore.make, top, gore.hem)


def _taken(span: Span, take: Take) -> float:
    """The length (cm) at which a range is settled."""
    share = {"least cloth": 0.0, "balanced": 0.5, "fullest": 1.0}[take]
    return span.low + (span.high - span.low) * share


def _within(span: Span, start: float, take: Take) -> float:
    """Where a range of bases is settled (cm), or less where the gore is short, as on a child's garment."""
    return max(span.low, min(_taken(span, take), WIDEST_SHORT_GORE * start))


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
    need = max(wearer["bust_girth"], wearer["waist_girth"], wearer["belly_girth"]) + extra
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
