"""Can the arms be lifted: how far before the hem rises, how far it rises overhead, and whether the elbow can bend."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from ellwand.geometry.lines import length
from ellwand.geometry.reach import (
    ELBOW_SHARE,
    LEVEL,
    OVERHEAD,
    RIDES_UP,
    RISES,
    Reach,
    angle_reached,
    hem_lift,
    reach_of,
)
from ellwand.model.finding import Finding
from ellwand.model.wearer import Hand
from ellwand.prove.sewn import Sewn, edges_of, girth_beneath, hem_height, sleeve_girth, sleeve_levels, sleeves_of

BENT: Final = 5.0
"""A bent elbow is so much (cm) rounder than a straight one: common practice, 2 to 5, no source."""
SAME: Final = 0.01
SPARE: Final = 2.0
"""A gusset is only named as the mend if the best one does by so much more than is wanted (degrees)."""
NEARLY: Final = 0.5
"""Degrees."""


@dataclass(frozen=True, slots=True)
class _Cloth:
    """Under one arm (cm): with the gusset as cut, with none, with those makers cut, and the elbow."""

    cut: Reach
    bare: Reach
    usual: tuple[Reach, ...]
    elbow_girth: float | None


def reaching(sewn: Sewn) -> tuple[Finding, ...]:
    """Of the arm that lifts less; nothing without sleeves."""
    cloths = [_cloth(sewn, hand) for hand in sleeves_of(sewn)]
    if not cloths:
        return ()
    worst = min(cloths, key=lambda each: angle_reached(each.cut, RISES))
    elbows = [each.elbow_girth for each in cloths if each.elbow_girth is not None]
    return (_level(sewn, worst), _overhead(sewn, worst), *([_elbow(sewn, min(elbows))] if elbows else []))


def gusset_sides(sewn: Sewn) -> tuple[float, float]:
    """(along the body, along the sleeve) in cm, from the gusset's own edges; zeros without one."""
    sides = {
        "body" if edge.id.startswith("body") else "sleeve": length(edge.points)
        for ref, edge in edges_of(sewn, "gusset")
        if sewn.pieces[ref.part].place == "gusset"
    }
    return sides.get("body", 0.0), sides.get("sleeve", 0.0)


def _cloth(sewn: Sewn, hand: Hand) -> _Cloth:
    size, sleeve = sewn.draft.dimensions, sleeves_of(sewn)[hand]
    underarm, cuff = sleeve_levels(sleeve)
    elbow = ELBOW_SHARE * sewn.wearer.arm(hand) - size.shoulder_drop
    anchored = elbow >= RIDES_UP and cuff - elbow >= RIDES_UP
    at_elbow = sleeve_girth(sleeve, min(max(elbow, underarm + SAME), cuff))
    down = math.hypot(max(elbow - underarm, 0.0), (size.sleeve_top - at_elbow) / 2)

    def with_gusset(sides: tuple[float, float]) -> Reach:
        return reach_of(
            armhole=size.armhole,
            side_panel=size.side_panel,
            gusset=sides,
            waist=sewn.wearer["nape_to_floor"] - sewn.wearer["waist_to_floor"],
            spare=sewn.draft.choices.blouse,
            arm=sewn.wearer["upper_arm_girth"] + girth_beneath(sewn),
            underarm=down if anchored else None,
            elbow=max(elbow, 0.0),
            elbow_half=at_elbow / 2,
        )

    usual = tuple(with_gusset((side, side)) for side in _usual(sewn))
    return _Cloth(with_gusset(gusset_sides(sewn)), with_gusset((0.0, 0.0)), usual, at_elbow if anchored else None)


def _usual(sewn: Sewn) -> list[float]:
    """Sides of gussets (cm) as makers cut them: 6 up to two fifths of the upper arm."""
    return [6.0 + i for i in range(max(1, int(0.4 * sewn.wearer["upper_arm_girth"]) - 5))]


def _level(sewn: Sewn, cloth: _Cloth) -> Finding:
    """The angle (degrees from the hanging arm) up to which the hem rises by no more than RISES."""
    size, choice = sewn.draft.dimensions, sewn.draft.choices.sleeve
    angle = angle_reached(cloth.cut, RISES)
    values: dict[str, float | str] = {
        "rises": RISES,
        "gusset": size.gusset,
        "panel": size.side_panel,
        "level": hem_lift(cloth.cut, LEVEL),
        "bare_level": hem_lift(cloth.bare, LEVEL),
        "bare": angle_reached(cloth.bare, RISES),
        "chosen": choice.gusset if isinstance(choice.gusset, str) else "given",
        "seam": choice.seam,
        "best": max(angle_reached(each, RISES) for each in cloth.usual) - SPARE,
        "cut": sewn.draft.choices.body.cut,
    }
    outcome = "sound" if angle >= LEVEL - NEARLY else "look again"
    return Finding("reaching", "arms", outcome, angle, LEVEL, unit="degrees", values=values)  # type: ignore[arg-type]


def _overhead(sewn: Sewn, cloth: _Cloth) -> Finding:
    """How far the hem rises at the sides with both arms overhead, against how far it hangs below the waist."""
    lift, waist = hem_lift(cloth.cut, OVERHEAD), sewn.draft.dimensions.levels["waist"]
    if math.isinf(lift):
        return Finding("overhead-held", "arms", "look again", values={"head": sewn.draft.choices.sleeve.head})
    values = {"hem": hem_height(sewn) + lift, "bare": hem_lift(cloth.bare, OVERHEAD), "waist": waist}
    values["rounding"] = sewn.draft.dimensions.grid
    return Finding("overhead", "arms", "sound" if lift <= waist + SAME else "look again", lift, waist, values=values)


def _elbow(sewn: Sewn, girth: float) -> Finding:
    upper, wrist = sewn.wearer["upper_arm_girth"], sewn.wearer["wrist_girth"]
    straight = upper + (wrist - upper) * ELBOW_SHARE
    needed = straight + BENT + girth_beneath(sewn)
    values = {"straight": straight, "bent": BENT, "beneath": girth_beneath(sewn)}
    return Finding(
        "elbow-room", "elbows", "sound" if girth >= needed - SAME else "look again", girth, needed, values=values
    )
