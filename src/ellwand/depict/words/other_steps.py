"""Sewing steps of hood, cloak, coif, apron and breeches in words; how they go together: common practice, no source."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.step_asking import (
    Say,
    always,
    back_stitch,
    bars,
    faces,
    facing,
    finishing,
    folds,
    joined,
    lengths,
    piecing,
    seams_of,
    selvedges,
)
from ellwand.depict.words.trim_steps import TRIM_STEPS
from ellwand.errors import InternalFault
from ellwand.language import N_, _
from ellwand.model.draft import Draft
from ellwand.model.others import Apron, ApronSize, BreechesSize, Cloak, CloakSize, Coif, Hood
from ellwand.model.step import Step
from ellwand.model.ties import ties_of
from ellwand.units import Unit, format_length


def _mark(step: Step, draft: Draft, unit: Unit) -> str:
    slits = isinstance(draft.choices.other, Hood) and draft.choices.other.gores == "shoulder"
    felled = any(seam.kind not in ("band seam", "tail seam", "tail to hood") for seam in draft.seams)
    return joined(
        _("Chalk the sewing lines and mark where seams meet."),
        _("Before you cut a slit, stitch round its point to hold it.") if slits else "",
        finishing(draft.choices.sewing.finish) if felled else "",
        selvedges(step),
    )


def _sewn(words: str) -> Say:
    """Words that begin with how two edges lie and have the lengths of their seams, and where the allowances go."""

    def said(step: Step, draft: Draft, unit: Unit) -> str:
        sewn = _(words, faces=faces(draft), lengths=lengths(step, draft, unit))
        return joined(sewn, folds(step, draft))

    return said


def _crown(step: Step, draft: Draft, unit: Unit) -> str:
    if isinstance(draft.choices.other, Hood):
        how = N_("{faces}, sew the two sides to each other along the crown{lengths}.")
    elif any(part.id == "band" for part in draft.parts):
        how = N_(
            "{faces}, sew the band between the two sides, from the brow over the head to the nape{lengths}. Ease the"
            " straight edge round the curve."
        )
    else:
        how = N_("{faces}, sew the two halves to each other from the brow over the head to the nape{lengths}.")
    return _sewn(how)(step, draft, unit)


def _front_back(step: Step, draft: Draft, unit: Unit) -> str:
    other = draft.choices.other
    hood = other if isinstance(other, Hood) else None
    in_front = any(ref.edge.startswith("front") for seam in seams_of(step, draft) for ref in (seam.a, seam.b))
    gores = hood is not None and hood.gores == "squares"
    close = N_("Close the back seam{lengths}.")
    if in_front and gores:
        close = N_("Close the back seam and the short seam under the face down to where the gores begin{lengths}.")
    elif in_front:
        close = N_("Close the back seam and the short seam under the face{lengths}.")
    elif gores:
        close = N_("Close the back seam down to where the gores begin{lengths}.")
    folded = hood is not None and hood.cut == "folded"
    lay = N_("Fold the hood over the crown, {facing}.") if folded else N_("Lay the sides on each other, {facing}.")
    return joined(
        _(lay, facing=facing(draft)),
        _(close, lengths=lengths(step, draft, unit)),
        _("Leave the root of the tail open at the top.") if hood is not None and hood.liripipe else "",
        folds(step, draft),
    )


def _squares(step: Step, draft: Draft, unit: Unit) -> str:
    return joined(
        _(
            "{faces}, set in the squares, one corner up, in front and behind{lengths}: sew one side from the hem to the"
            " corner, turn, and sew the other down.",
            faces=faces(draft),
            lengths=lengths(step, draft, unit),
        ),
        bars(step, _("Work a bar over the corner.")),
        folds(step, draft),
    )


def _shoulders(step: Step, draft: Draft, unit: Unit) -> str:
    return joined(
        _(
            "{faces}, sew each shoulder gore into its slit, one side after the other{lengths}: start at the hem, stop"
            " at the point, the hood's allowance narrowing to nothing there.",
            faces=faces(draft),
            lengths=lengths(step, draft, unit),
        ),
        bars(step, _("Work a bar over the point.")),
        folds(step, draft),
    )


def _gather(step: Step, draft: Draft, unit: Unit) -> str:
    size = draft.settled
    if isinstance(size, BreechesSize):
        return _(
            "Run two gathering threads along the waist, draw each leg's {wide} in to {band}, even it out and sew it to"
            " the lower edge of the band, right sides together.",
            wide=format_length(size.leg, unit),
            band=format_length(size.band / 2, unit),
        )
    if not isinstance(size, ApronSize):
        raise InternalFault("nothing is gathered")
    return _(
        "Run two gathering threads along the top of the apron, draw {wide} in to {band}, even it out and sew it to one"
        " long edge of the band, right sides together.",
        wide=format_length(size.width, unit),
        band=format_length(size.band, unit),
    )


def _casing(step: Step, draft: Draft, unit: Unit) -> str:
    size = draft.settled
    if isinstance(size, BreechesSize) and size.band:
        slit = format_length(size.slit, unit)
        return _("Turn the edges of the slit in front ({length}) twice and hem them; bar its end.", length=slit)
    return _("Turn the waist edge down for the casing and hem it, leaving a gap of two fingers at the centre front.")


def _gusset(step: Step, draft: Draft, unit: Unit) -> str:
    return joined(
        _(
            "{faces}, set the square in: one corner at the top of each inside leg, one in front, one behind; two sides"
            " to each leg{lengths}.",
            faces=faces(draft),
            lengths=lengths(step, draft, unit),
        ),
        _(
            "Stop {allowance}, one allowance, short of every corner and work a bar there.",
            allowance=format_length(draft.choices.sewing.allowance, unit),
        ),
        folds(step, draft),
    )


def _outer(step: Step, draft: Draft, unit: Unit) -> str:
    if isinstance(draft.choices.other, Cloak):
        cut = isinstance(draft.settled, CloakSize) and draft.settled.inner > 0
        return joined(
            _("Turn the front edges and the neck twice and hem them."),
            _("Clip the neck's curve first.") if cut else "",
        )
    if isinstance(draft.choices.other, Apron):
        if _gathered(draft):
            return _("Turn the sides twice and hem them.")
        return _("Turn the sides and the top twice and hem them.")
    return _("Turn the front and the lower edge twice, narrow, and hem them.")


def _gathered(draft: Draft) -> bool:
    return isinstance(draft.choices.other, Apron) and draft.choices.other.top == "gathered"


def _hem(step: Step, draft: Draft, unit: Unit) -> str:
    how = N_("Turn up the hem allowance ({hem}) and hem it.")
    if isinstance(draft.choices.other, Cloak) and draft.choices.other.shape != "rectangle":
        how = N_("Turn up the hem allowance ({hem}), easing in the fullness of the curve, and hem it.")
    return joined(
        _(how, hem=format_length(draft.choices.sewing.hem, unit)),
        _("Fold the corners of the squares slantwise.") if _has_squares(draft) else "",
    )


def _has_squares(draft: Draft) -> bool:
    return isinstance(draft.choices.other, Hood) and draft.choices.other.gores == "squares"


def _fasten(step: Step, draft: Draft, unit: Unit) -> str:
    other, size = draft.choices.other, draft.settled
    if isinstance(other, Cloak):
        return _("Close the cloak at the neck or on one shoulder with a pin, or sew on ties.")
    ties = ties_of(other, size)
    if ties is None:
        return _("Sew a hook and eye, a button or two ties to the ends of the band.")
    each = format_length(ties.each, unit)
    if isinstance(other, Coif):
        return _("Sew a tie of {length} to each front lower corner; draw in the nape if it is wide.", length=each)
    if isinstance(other, Apron):
        if _gathered(draft):
            return _("Sew a tie of about {length} to each end of the band.", length=each)
        return _("Sew a tie of about {length} to each upper corner.", length=each)
    return _("Thread a cord of {length} through the casing; its ends come out of the gap in front.", length=each)


def _rise(step: Step, draft: Draft, unit: Unit) -> str:
    return joined(
        _(
            "Put one leg into the other, {facing}, and sew the centre seams in one run{lengths}{stitch}; they take the"
            " strain.",
            facing=facing(draft),
            lengths=lengths(step, draft, unit),
            stitch=back_stitch(draft),
        ),
        folds(step, draft),
    )


OTHER_STEPS: Final[Mapping[str, Say]] = {
    "mark": _mark,
    "piecing": piecing,
    "strips": _sewn(
        N_("{faces}, sew the strips to each other along the grain{lengths}, those next to the neck first.")
    ),
    "shoulder gores": _shoulders,
    "crown": _crown,
    "front and back": _front_back,
    "square gores": _squares,
    "tail": always(
        N_(
            "Fold the tail lengthwise, right sides together; sew it along its side and across its tip, trim and turn"
            " it."
        )
    ),
    "tail on": always(
        N_(
            "Put the root of the tail into the opening at the back of the crown, right sides together, seam to seam,"
            " and sew it in all round."
        )
    ),
    "gather": _gather,
    "inside legs": _sewn(N_("{faces}, close the inside seam of each leg from the hem up{lengths}.")),
    "crotch gusset": _gusset,
    "rise": _rise,
    "let hang": always(
        N_("Hang the cloak for a day so that the slanting parts settle, then level its hem from the floor.")
    ),
    "face edge": always(N_("Turn the edge of the face opening twice and hem it.")),
    "outer edges": _outer,
    "lower edge": _hem,
    "casing": _casing,
    "leg hems": always(N_("Turn up the hem of each leg and hem it.")),
    "band": always(N_("Fold the band over the gathers, turn in its edges and ends, and fell it down inside.")),
    "fasten": _fasten,
    **TRIM_STEPS,
}
"""Every step's words, by its code."""


def other_step(step: Step, draft: Draft, unit: Unit) -> str:
    """What to do in this step, in the maker's unit.

    Raises KeyError for a step without words.
    """
    return OTHER_STEPS[step.code](step, draft, unit)
