"""Does it move: a walker's step within the hem, arms that can be raised."""

from __future__ import annotations

from typing import Final

from ellwand.model.finding import Finding
from ellwand.prove.body import leg_girth_at
from ellwand.prove.reaching import reaching
from ellwand.prove.sewn import Sewn, girth_at, hem_height, opens_through, splits_of

STEP_SHARE: Final = 0.42
"""A walker's step as a share of height: 67 to 73 cm at 160 to 170 cm (stepstomiles.io, walking step tables)."""
SAME: Final = 0.01


def moves(sewn: Sewn) -> tuple[Finding, ...]:
    """Walking where the hem hangs below the crotch; reaching where there are sleeves."""
    out = []
    if hem_height(sewn) < sewn.wearer["crotch_to_floor"]:
        out.append(_walking(sewn))
    return (*out, *reaching(sewn))


def sweep_needed(height: float, crotch: float, step: float, leg: float) -> float:
    """Girth (cm) that a step needs at ``height`` above the floor: a band round two legs, 2 d + one leg's girth.

    ``d`` = step × (crotch − height) / crotch: legs part in proportion to the distance from the crotch (plane
    geometry).
    """
    return 2 * step * (crotch - height) / crotch + leg


def _walking(sewn: Sewn) -> Finding:
    if opens_through(sewn):
        return Finding("walking-open", "hem", "sound", values={"face": opens_through(sewn)})
    split = max(splits_of(sewn).values(), default=0.0)
    # a split to the knee is rounded to the chalk grid
    if split and split >= sewn.draft.dimensions.levels["knee"] - sewn.draft.dimensions.grid / 2 - SAME:
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
