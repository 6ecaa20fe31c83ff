"""Sewing steps of sleeves and gussets in words, and the run that closes underarm and side."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from ellwand.depict.words.step_asking import Say, back_stitch, folds, lengths, opening_at, per_sleeve, said, seams_of
from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, edge_at
from ellwand.model.step import Step
from ellwand.units import Unit, format_length


def _sleeve_halves(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        "Sew the front and the back half of each sleeve together along the top of the arm, from the armhole to the"
        f" cuff{lengths(step, draft, unit)}.{folds(draft, 'the back')}"
    )


def _elbow_gores(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        "Sew one side of each elbow gore to the front edge of its sleeve, from the cuff up to the"
        f" point{lengths(step, draft, unit)}.{folds(draft, 'the sleeve')}"
    )


def _sleeves(step: Step, draft: Draft, unit: Unit) -> str:
    sleeve = draft.choices.sleeve
    mark = "the seam along its top" if sleeve.pieces == "two" else "the middle of the sleeve top"
    if sleeve.seam == "back" and sleeve.pieces != "two":
        behind = said([_behind(step, draft)], unit)
        mark = f"the mark on the sleeve top, counted from its back edge{behind},"
    head = ""
    if sleeve.head == "shaped":
        head = " Match the curves at both armpits first and pin every hand's breadth."
        if sleeve.head_ease:
            more = format_length(sleeve.head_ease, unit)
            head += f" Ease in the {more} by which the head is longer, over the shoulder."
    alongside = ""
    if sleeve.seam == "back" and any("-low" in ref.edge for seam in seams_of(step, draft) for ref in (seam.a, seam.b)):
        alongside = " Go on along the top of the side panel."
    return (
        f"Sew each sleeve to its armhole{back_stitch(draft)} while the body lies flat: {mark} to"
        f" the shoulder line{per_sleeve(step, draft, unit)}.{alongside}{head}{folds(draft, 'the body')}"
    )


def _behind(step: Step, draft: Draft) -> float:
    """From the sleeve's back edge to the shoulder line (cm), along its top."""
    return next(
        length(edge_at(draft, ref).points)
        for seam in seams_of(step, draft)
        for ref in (seam.a, seam.b)
        if ref.part.startswith("sleeve") and ref.edge == "armhole-back"
    )


def _sleeves_behind(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"Sew the rest of each sleeve top{back_stitch(draft)} on round under the arm to the back, up to where its"
        f" edges meet{per_sleeve(step, draft, unit)}.{folds(draft, 'the body')}"
    )


def _sleeve_seams(step: Step, draft: Draft, unit: Unit) -> str:
    gore = ", taking in the open side of the elbow gore" if draft.choices.sleeve.elbow_gore else ""
    cuff = draft.dimensions.cuff_opening
    stop = f" Leave the lowest {format_length(cuff, unit)} open." if cuff else ""
    return (
        f"Close each sleeve behind the arm, from the cuff to the armhole{gore}{per_sleeve(step, draft, unit)}.{stop}"
        f"{folds(draft, 'the back')}"
    )


def _to_tops(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"Sew the rest of each sleeve top{back_stitch(draft)} along the top of the side panel, its ends meeting in the"
        f" middle{per_sleeve(step, draft, unit)}.{folds(draft, 'the side panel')}"
    )


def _gussets(step: Step, draft: Draft, unit: Unit) -> str:
    allowance = format_length(draft.choices.sewing.allowance, unit)
    shape = draft.choices.sleeve.gusset_shape
    if shape == "triangles":
        return (
            f"Set in the half gussets{back_stitch(draft)} while all lies flat: the square corner at the armpit, one of"
            f" the sides beside it to the body, the other to the sleeve{lengths(step, draft, unit)}. Stop {allowance},"
            f" one allowance, short of the armpit and work a bar there.{folds(draft, 'the gusset')}"
        )
    if shape == "diamond":
        return (
            f"Set in the gussets{back_stitch(draft)}: the square corners at the front and the back armpit, the long"
            f" sides to the body, the short ones to the sleeve{lengths(step, draft, unit)}. Stop {allowance}, one"
            f" allowance, short of every corner and work a bar there.{folds(draft, 'the gusset')}"
        )
    return (
        f"Set in the gussets{back_stitch(draft)}: one corner at the front armpit, the opposite at the back, two sides"
        f" to the sleeve and two to the body{lengths(step, draft, unit)}. Stop {allowance}, one allowance, short of"
        f" every corner and work a bar there.{folds(draft, 'the gusset')}"
    )


def _run(step: Step, draft: Draft, unit: Unit) -> str:
    kinds = {seam.kind for seam in seams_of(step, draft)}
    split = any(each.place == "side" for each in draft.choices.splits)
    end = "the top of the split" if split else "the hem"
    gusset = draft.dimensions.gusset > 0
    if "underarm seam" not in kinds:
        run = f"Close the sides from the armhole to {end}."
    elif kinds == {"underarm seam"}:
        run = "Close each underarm seam from the cuff to the armpit."
    elif draft.choices.sleeve.seam == "back":
        run = (
            "Close each sleeve behind the arm from the cuff to the armpit and go on down the back edge of the side"
            f" panel to {end}, in one run."
        )
    elif gusset and draft.choices.sleeve.gusset_shape == "triangles":
        run = (
            "Close the underarm from the cuff, go on along the long edges of the half gussets and down the side to"
            f" {end}, in one run."
        )
    elif gusset:
        run = (
            "Close each underarm from the cuff to the gusset's corner, then go on from its opposite corner down the"
            f" side to {end}."
        )
    else:
        run = f"Close the underarm and the side in one run from the cuff to {end}."
    if "sleeve gore" in kinds:
        run += " Take in the open side of the elbow gore on the way."
    stops = []
    if (cuff := draft.dimensions.cuff_opening) and "underarm seam" in kinds:
        stops.append(f"the lowest {format_length(cuff, unit)} of the sleeve")
    at_side = opening_at(draft, "side")
    if at_side:
        stops.append(f"{format_length(length(at_side[0].points), unit)} at the top of the left side")
    stop = f" Leave {' and '.join(stops)} open." if stops else ""
    return f"{run}{stop}{folds(draft, 'the back')}"


SLEEVE_STEPS: Final[Mapping[str, Say]] = MappingProxyType(
    {
        "sleeve halves": _sleeve_halves,
        "elbow gores": _elbow_gores,
        "sleeves": _sleeves,
        "sleeves behind": _sleeves_behind,
        "sleeve seams": _sleeve_seams,
        "sleeves to side panels": _to_tops,
        "gussets": _gussets,
        "underarm and sides": _run,
    }
)
