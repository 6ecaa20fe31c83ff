"""Sewing steps of sleeves and gussets in words, and the run that closes underarm and side."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from ellwand.depict.words.gusset_steps import along_gusset, gusset_side, gussets
from ellwand.depict.words.step_asking import (
    Say,
    armpits,
    back_stitch,
    bars,
    faces,
    folds,
    gusset_corners,
    lengths,
    opening_at,
    per_sleeve,
    said,
    seams_of,
    taken_in,
)
from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, edge_at
from ellwand.model.step import Step
from ellwand.units import Unit, format_length


def _sleeve_halves(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"{faces(draft)}, sew the front and the back half of each sleeve to each other along the top of the arm, from"
        f" the armhole to the cuff{lengths(step, draft, unit)}.{folds(step, draft)}"
    )


def _elbow_gores(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"{faces(draft)}, sew one side of each elbow gore to the front edge of its sleeve, from the cuff up to the"
        f" point{lengths(step, draft, unit)}.{bars(step, 'the point')}{folds(step, draft)}"
    )


def _sleeves(step: Step, draft: Draft, unit: Unit) -> str:
    sleeve = draft.choices.sleeve
    flat = draft.choices.sewing.sleeves == "flat"
    mark = "the seam along its top" if sleeve.pieces == "two" else "the middle of its top edge"
    if sleeve.seam == "back" and sleeve.pieces != "two":
        behind = said([_behind(step, draft)], unit)
        mark = f"the mark on its top edge, counted from its back edge{behind},"
    head = ""
    if sleeve.head == "shaped":
        head = " Match the curves at both armpits first and pin every hand's breadth."
        if sleeve.head_ease:
            more = format_length(sleeve.head_ease, unit)
            head += f" Ease in the {more} by which the head is longer, over the shoulder."
    alongside = ""
    low = any("-low" in ref.edge for seam in seams_of(step, draft) for ref in (seam.a, seam.b))
    if flat and sleeve.seam == "back" and low:
        alongside = " Go on along the top of the side panel."
    if gusset_side(draft):
        alongside += along_gusset(step, draft)
    elif draft.dimensions.gusset and not flat:
        alongside = " The gap for the gusset stays open."
    cm, end = per_sleeve(step, draft, unit), f"{armpits(step)}{folds(step, draft)}"
    if flat:
        return (
            f"Sew each sleeve to its armhole{back_stitch(draft)} while the body lies flat and all is within reach{cm}:"
            f" {faces(draft).lower()}, {mark} to the shoulder line.{alongside}{head}{end}"
        )
    meets = "" if sleeve.seam == "back" or draft.dimensions.gusset else ", its seam to the side seam"
    if low:
        meets = ", its seam to the middle of the side panel's top" if sleeve.seam == "under" else ""
    turned = ("inside out", "right side out")
    body, arm = turned if draft.choices.sewing.finish != "french" else turned[::-1]
    return (
        f"With the body {body}, put each sleeve {arm} into its armhole, {mark} to the shoulder line{meets}; pin it,"
        f" turn it until it hangs well, as only this way allows, and sew round{back_stitch(draft)}{cm}."
        f"{alongside}{head}{end}"
    )


def _behind(step: Step, draft: Draft) -> float:
    """From the sleeve's back edge to the shoulder line (cm), along its top, in however many stretches it is sewn."""
    refs = [ref for seam in seams_of(step, draft) for ref in (seam.a, seam.b) if ref.part.startswith("sleeve")]
    behind = [ref for ref in refs if re.fullmatch(r"armhole-back(-\d+)*", ref.edge)]
    return sum(length(edge_at(draft, ref).points) for ref in behind if ref.part == behind[0].part)


def _sleeves_behind(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"Sew the rest of each sleeve top{back_stitch(draft)} on round under the arm to the back, up to where its"
        f" edges meet{per_sleeve(step, draft, unit)}.{armpits(step)}{folds(step, draft)}"
    )


def _sleeve_seams(step: Step, draft: Draft, unit: Unit) -> str:
    gore = ", taking in the open side of the elbow gore" if draft.choices.sleeve.elbow_gore else ""
    cuff = draft.dimensions.cuff_opening
    stop = f" Leave the lowest {format_length(cuff, unit)} open." if cuff else ""
    where = "behind the arm" if draft.choices.sleeve.seam == "back" else "under the arm"
    end, way = "the armhole", draft.choices.sewing.gussets
    if draft.dimensions.gusset and where == "under the arm":
        triangles = draft.choices.sleeve.gusset_shape == "triangles"
        end = "the mark where the gusset begins"
        if way == "on the sleeve":
            end = f"the gusset, and on along {'the long edges of its halves' if triangles else 'its free side'}"
    return (
        f"{faces(draft)}, close each sleeve {where}, from the cuff to {end}{gore}{per_sleeve(step, draft, unit)}.{stop}"
        f"{bars(step, 'the point of the gore')}{gusset_corners(step)}{armpits(step)}{folds(step, draft)}"
    )


def _to_tops(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"Sew the rest of each sleeve top{back_stitch(draft)} along the top of the side panel, its ends meeting in the"
        f" middle{per_sleeve(step, draft, unit)}.{folds(step, draft)}"
    )


def _run(step: Step, draft: Draft, unit: Unit) -> str:
    kinds = {seam.kind for seam in seams_of(step, draft)}
    split = any(each.place == "side" for each in draft.choices.splits)
    end = "the top of the split" if split else "the hem"
    sleeve, way = draft.choices.sleeve, draft.choices.sewing.gussets
    gusset = draft.dimensions.gusset > 0
    if "underarm seam" not in kinds:
        begin = "the armhole"
        if kinds & {"gusset", "gusset seam"}:
            sides = (
                "the long edges of the half gussets" if sleeve.gusset_shape == "triangles" else "the gusset's free side"
            )
            begin = f"the armhole, along {sides},"
        elif gusset:
            begin = "the mark below the armhole where the gusset ends"
        run = f"close the sides from {begin} to {end}."
    elif kinds == {"underarm seam"}:
        run = "close each underarm seam from the cuff to the armpit."
    elif sleeve.seam == "back":
        run = (
            "close each sleeve behind the arm from the cuff to the armpit and go on down the back edge of the side"
            f" panel to {end}, in one run."
        )
    elif gusset and sleeve.gusset_shape == "triangles":
        run = (
            "close the underarm from the cuff, go on along the long edges of the half gussets and down the side to"
            f" {end}, in one run."
        )
    elif gusset and way != "in the corner":
        run = (
            "close each underarm from the cuff to the gusset, go on along its two free sides, turning at the front"
            f" armpit, and down the side to {end}, in one run."
        )
    elif gusset:
        run = (
            "close each underarm from the cuff to the gusset's corner, then go on from its opposite corner down the"
            f" side to {end}."
        )
    else:
        run = f"close the underarm and the side in one run from the cuff to {end}."
    run += taken_in(step, draft)
    if "sleeve gore" in kinds:
        run += " Take in the open side of the elbow gore on the way."
    stops = []
    if (cuff := draft.dimensions.cuff_opening) and "underarm seam" in kinds:
        stops.append(f"the lowest {format_length(cuff, unit)} of the sleeve")
    at_side = opening_at(draft, "side")
    if at_side:
        stops.append(f"{format_length(length(at_side[0].points), unit)} at the top of the left side")
    stop = f" Leave {' and '.join(stops)} open." if stops else ""
    corners = gusset_corners(step)
    return (
        f"{faces(draft)}, {run}{stop}{corners}{armpits(step)}{bars(step, 'the point of each gore')}{folds(step, draft)}"
    )


SLEEVE_STEPS: Final[Mapping[str, Say]] = MappingProxyType(
    {
        "sleeve halves": _sleeve_halves,
        "elbow gores": _elbow_gores,
        "sleeves": _sleeves,
        "sleeves behind": _sleeves_behind,
        "sleeve seams": _sleeve_seams,
        "sleeves to side panels": _to_tops,
        "gussets": gussets,
        "underarm and sides": _run,
    }
)
