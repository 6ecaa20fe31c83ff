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
    facing,
    folds,
    gusset_corners,
    joined,
    lengths,
    opening_at,
    paired,
    per_sleeve,
    said,
    seams_of,
    taken_in,
)
from ellwand.geometry.lines import length
from ellwand.language import N_, _
from ellwand.model.draft import Draft, edge_at
from ellwand.model.step import Step
from ellwand.units import Unit, format_length


def _sleeve_halves(step: Step, draft: Draft, unit: Unit) -> str:
    return joined(
        _(
            "{faces}, sew the front and the back half of each sleeve to each other along the top of the arm, from the"
            " armhole to the cuff{lengths}.",
            faces=faces(draft),
            lengths=lengths(step, draft, unit),
        ),
        folds(step, draft),
    )


def _elbow_gores(step: Step, draft: Draft, unit: Unit) -> str:
    return joined(
        _(
            "{faces}, sew one side of each elbow gore to the front edge of its sleeve, from the cuff up to the"
            " point{lengths}.",
            faces=faces(draft),
            lengths=lengths(step, draft, unit),
        ),
        bars(step, _("Work a bar over the point.")),
        folds(step, draft),
    )


def _sleeves(step: Step, draft: Draft, unit: Unit) -> str:
    flat = draft.choices.sewing.sleeves == "flat"
    low = any("-low" in ref.edge for seam in seams_of(step, draft) for ref in (seam.a, seam.b))
    alongside = ""
    if flat and draft.choices.sleeve.seam == "back" and low:
        alongside = _("Go on along the top of the side panel.")
    if gusset_side(draft):
        alongside = joined(alongside, along_gusset(step, draft))
    elif draft.dimensions.gusset and not flat:
        alongside = _("The gap for the gusset stays open.")
    how = _set_flat(step, draft, unit) if flat else _set_round(step, draft, unit, low)
    return joined(how, alongside, _head(draft, unit), armpits(step), folds(step, draft))


def _mark(step: Step, draft: Draft, unit: Unit) -> str:
    """What of a sleeve lies on the shoulder line."""
    sleeve = draft.choices.sleeve
    if sleeve.pieces == "two":
        return _("the seam along its top")
    if sleeve.seam == "back":
        behind = said([_behind(step, draft)], unit)
        return _("the mark on its top edge, counted from its back edge{lengths},", lengths=behind)
    return _("the middle of its top edge")


def _head(draft: Draft, unit: Unit) -> str:
    """How the curve of a shaped sleeve is pinned and eased in; '' for a straight one."""
    sleeve = draft.choices.sleeve
    if sleeve.head != "shaped":
        return ""
    match = _("Match the curves at both armpits first and pin every hand's breadth.")
    if not sleeve.head_ease:
        return match
    more = format_length(sleeve.head_ease, unit)
    return joined(match, _("Ease in the {length} by which the head is longer, over the shoulder.", length=more))


def _set_flat(step: Step, draft: Draft, unit: Unit) -> str:
    return _(
        "Sew each sleeve to its armhole{stitch} while the body lies flat and all is within reach{lengths}: {facing},"
        " {mark} to the shoulder line.",
        stitch=back_stitch(draft),
        lengths=per_sleeve(step, draft, unit),
        facing=facing(draft),
        mark=_mark(step, draft, unit),
    )


def _set_round(step: Step, draft: Draft, unit: Unit, low: bool) -> str:
    """``low``: whether the sleeve is also sewn to the top of a side panel."""
    seam, meets = draft.choices.sleeve.seam, ""
    if low and seam == "under":
        meets = _(", its seam to the middle of the side panel's top")
    elif not low and seam != "back" and not draft.dimensions.gusset:
        meets = _(", its seam to the side seam")
    if draft.choices.sewing.finish == "french":
        how = N_(
            "With the body right side out, put each sleeve inside out into its armhole, {mark} to the shoulder"
            " line{meets}; pin it, turn it until it hangs well, as only this way allows, and sew"
            " round{stitch}{lengths}."
        )
    else:
        how = N_(
            "With the body inside out, put each sleeve right side out into its armhole, {mark} to the shoulder"
            " line{meets}; pin it, turn it until it hangs well, as only this way allows, and sew"
            " round{stitch}{lengths}."
        )
    return _(
        how,
        mark=_mark(step, draft, unit),
        meets=meets,
        stitch=back_stitch(draft),
        lengths=per_sleeve(step, draft, unit),
    )


def _behind(step: Step, draft: Draft) -> float:
    """From the sleeve's back edge to the shoulder line (cm), along its top, in however many stretches it is sewn."""
    refs = [ref for seam in seams_of(step, draft) for ref in (seam.a, seam.b) if ref.part.startswith("sleeve")]
    behind = [ref for ref in refs if re.fullmatch(r"armhole-back(-\d+)*", ref.edge)]
    return sum(length(edge_at(draft, ref).points) for ref in behind if ref.part == behind[0].part)


def _sleeves_behind(step: Step, draft: Draft, unit: Unit) -> str:
    return joined(
        _(
            "Sew the rest of each sleeve top{stitch} on round under the arm to the back, up to where its edges"
            " meet{lengths}.",
            stitch=back_stitch(draft),
            lengths=per_sleeve(step, draft, unit),
        ),
        armpits(step),
        folds(step, draft),
    )


def _sleeve_seams(step: Step, draft: Draft, unit: Unit) -> str:
    gore = _(", taking in the open side of the elbow gore") if draft.choices.sleeve.elbow_gore else ""
    cuff, behind = draft.dimensions.cuff_opening, draft.choices.sleeve.seam == "back"
    to = _("to the armhole")
    if draft.dimensions.gusset and not behind:
        to = _("to the mark where the gusset begins")
        if draft.choices.sewing.gussets == "on the sleeve":
            to = _("to the gusset, and on along its free side")
            if draft.choices.sleeve.gusset_shape == "triangles":
                to = _("to the gusset, and on along the long edges of its halves")
    how = N_("{faces}, close each sleeve under the arm, from the cuff {to}{gore}{lengths}.")
    if behind:
        how = N_("{faces}, close each sleeve behind the arm, from the cuff {to}{gore}{lengths}.")
    return joined(
        _(how, faces=faces(draft), to=to, gore=gore, lengths=per_sleeve(step, draft, unit)),
        _("Leave the lowest {length} open.", length=format_length(cuff, unit)) if cuff else "",
        bars(step, _("Work a bar over the point of the gore.")),
        gusset_corners(step),
        armpits(step),
        folds(step, draft),
    )


def _to_tops(step: Step, draft: Draft, unit: Unit) -> str:
    return joined(
        _(
            "Sew the rest of each sleeve top{stitch} along the top of the side panel, its ends meeting in the"
            " middle{lengths}.",
            stitch=back_stitch(draft),
            lengths=per_sleeve(step, draft, unit),
        ),
        folds(step, draft),
    )


def _run(step: Step, draft: Draft, unit: Unit) -> str:
    kinds = {seam.kind for seam in seams_of(step, draft)}
    split = any(each.place == "side" for each in draft.choices.splits)
    to = _("to the top of the split") if split else _("to the hem")
    said_ = _run_alone(kinds, draft, to) if "underarm seam" not in kinds else _run_through(kinds, draft, to)
    opened = []
    if (cuff := draft.dimensions.cuff_opening) and "underarm seam" in kinds:
        opened.append(_("the lowest {length} of the sleeve", length=format_length(cuff, unit)))
    if at_side := opening_at(draft, "side"):
        long = format_length(length(at_side[0].points), unit)
        opened.append(_("{length} at the top of the left side", length=long))
    return joined(
        said_,
        taken_in(step, draft),
        _("Take in the open side of the elbow gore on the way.") if "sleeve gore" in kinds else "",
        _("Leave {places} open.", places=paired(opened)) if opened else "",
        gusset_corners(step),
        armpits(step),
        bars(step, _("Work a bar over the point of each gore.")),
        folds(step, draft),
    )


def _run_alone(kinds: set[str], draft: Draft, to: str) -> str:
    """The sides without the sleeves."""
    begin = _("from the armhole")
    if kinds & {"gusset", "gusset seam"}:
        begin = _("from the armhole, along the gusset's free side,")
        if draft.choices.sleeve.gusset_shape == "triangles":
            begin = _("from the armhole, along the long edges of the half gussets,")
    elif draft.dimensions.gusset:
        begin = _("from the mark below the armhole where the gusset ends")
    return _("{faces}, close the sides {begin} {to}.", faces=faces(draft), begin=begin, to=to)


def _run_through(kinds: set[str], draft: Draft, to: str) -> str:
    """The sleeves, and the sides with them."""
    sleeve, gusset = draft.choices.sleeve, draft.dimensions.gusset > 0
    if kinds == {"underarm seam"}:
        return _("{faces}, close each underarm seam from the cuff to the armpit.", faces=faces(draft))
    if sleeve.seam == "back":
        how = N_(
            "{faces}, close each sleeve behind the arm from the cuff to the armpit and go on down the back edge of the"
            " side panel {to}, in one run."
        )
    elif gusset and sleeve.gusset_shape == "triangles":
        how = N_(
            "{faces}, close the underarm from the cuff, go on along the long edges of the half gussets and down the"
            " side {to}, in one run."
        )
    elif gusset and draft.choices.sewing.gussets != "in the corner":
        how = N_(
            "{faces}, close each underarm from the cuff to the gusset, go on along its two free sides, turning at the"
            " front armpit, and down the side {to}, in one run."
        )
    elif gusset:
        how = N_(
            "{faces}, close each underarm from the cuff to the gusset's corner, then go on from its opposite corner"
            " down the side {to}."
        )
    else:
        how = N_("{faces}, close the underarm and the side in one run from the cuff {to}.")
    return _(how, faces=faces(draft), to=to)


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
