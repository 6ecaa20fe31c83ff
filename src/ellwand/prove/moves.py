"""Does it move: a walker's step within the hem, arms that can be raised."""

from __future__ import annotations

from typing import Final

from ellwand.model.finding import Finding
from ellwand.prove.body import leg_girth_at
from ellwand.prove.sewn import Sewn, girth_at, hem_height, opens_in_front, splits_of

STEP_SHARE: Final = 0.42
"""A walker's step as a share of height: 67 to 73 cm at 160 to 170 cm (stepstomiles.io, walking step tables)."""
DEEP_ARMHOLE: Final = 1.35
"""An armhole this many times half the sleeve's need frees the arm without a gusset: common practice, no source."""
REACHING_EASE: Final = 8.0
"""Sleeve ease (cm) in that rule: common practice, no source."""
SAME: Final = 0.01


def moves(sewn: Sewn) -> tuple[Finding, ...]:
    """Walking where the hem hangs below the crotch; reaching where there are sleeves."""
    out = []
    if hem_height(sewn) < sewn.wearer["crotch_to_floor"]:
        out.append(_walking(sewn))
    if sewn.draft.choices.sleeve.shape != "none":
        out.append(_reaching(sewn))
    return tuple(out)


def sweep_needed(height: float, crotch: float, step: float, leg: float) -> float:
    """Girth (cm) that a step needs at ``height`` above the floor: a band round two legs, 2 d + one leg's girth.

    ``d`` = step × (crotch − height) / crotch: legs part in proportion to the distance from the crotch (plane
    geometry).
    """
    return 2 * step * (crotch - height) / crotch + leg


def _walking(sewn: Sewn) -> Finding:
    if opens_in_front(sewn):
        return Finding("walking-open", "hem", "sound")
    split = max(splits_of(sewn).values(), default=0.0)
    if split and split >= sewn.draft.dimensions.levels["knee"] - SAME:
        return Finding("walking-split", "hem", "sound", values={"split": split})
    crotch = sewn.wearer["crotch_to_floor"]
    height = max(hem_height(sewn), 0.0) + split
    step, leg = STEP_SHARE * sewn.wearer["height"], leg_girth_at(sewn.wearer, height)
    sweep, needed = girth_at(sewn, split), sweep_needed(height, crotch, step, leg)
    values = {"step": step, "height": height, "split": split, "half": sweep_needed(height, crotch, step / 2, leg)}
    if sweep < values["half"]:
        return Finding("walking", "hem", "will not work", sweep, needed, values=values)
    roomy = sweep >= needed - SAME
    return Finding("walking", "hem", "sound" if roomy else "look again", sweep, needed, values=values)


def _reaching(sewn: Sewn) -> Finding:
    size = sewn.draft.dimensions
    if size.gusset:
        return Finding("reaching-gusset", "arms", "sound", values={"gusset": size.gusset})
    if size.side_panel:
        return Finding("reaching-panel", "arms", "sound", values={"panel": size.side_panel})
    needed = DEEP_ARMHOLE * (sewn.wearer["upper_arm_girth"] + REACHING_EASE) / 2
    roomy = size.armhole >= needed - SAME
    return Finding("reaching", "arms", "sound" if roomy else "look again", size.armhole, needed)
