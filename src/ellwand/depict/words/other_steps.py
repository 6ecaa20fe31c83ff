"""Sewing steps of hood, cloak, coif, apron and breeches in words; how they go together: common practice, no source."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.step_asking import (
    FINISH,
    Say,
    always,
    back_stitch,
    bars,
    faces,
    folds,
    lengths,
    seams_of,
    selvedges,
)
from ellwand.depict.words.trim_steps import TRIM_STEPS
from ellwand.errors import InternalFault
from ellwand.model.draft import Draft, piece_of
from ellwand.model.others import Apron, ApronSize, BreechesSize, Cloak, CloakSize, Coif, Hood
from ellwand.model.step import Step
from ellwand.model.ties import ties_of
from ellwand.units import Unit, format_length


def _mark(step: Step, draft: Draft, unit: Unit) -> str:
    slits = isinstance(draft.choices.other, Hood) and draft.choices.other.gores == "shoulder"
    stay = " Before you cut a slit, stitch round its point to hold it." if slits else ""
    felled = any(seam.kind not in ("band seam", "tail seam", "tail to hood") for seam in draft.seams)
    finish = f" {FINISH[draft.choices.sewing.finish]}" if felled else ""
    return f"Chalk the sewing lines and mark where seams meet.{stay}{finish}{selvedges(step)}"


def _piecing(step: Step, draft: Draft, unit: Unit) -> str:
    names = dict.fromkeys(piece_of(draft, seam.b.part).name for seam in seams_of(step, draft))
    return (
        f"{faces(draft)}, sew what was pieced to its own piece{lengths(step, draft, unit)}: {'; '.join(names)}. From"
        f" here on each is handled as one.{folds(step, draft)}"
    )


def _crown(step: Step, draft: Draft, unit: Unit) -> str:
    if isinstance(draft.choices.other, Hood):
        cm, end = lengths(step, draft, unit), folds(step, draft)
        return f"{faces(draft)}, sew the two sides to each other along the crown{cm}.{end}"
    if any(part.id == "band" for part in draft.parts):
        return (
            f"{faces(draft)}, sew the band between the two sides, from the brow over the head to the nape"
            f"{lengths(step, draft, unit)}. Ease the straight edge round the curve.{folds(step, draft)}"
        )
    return (
        f"{faces(draft)}, sew the two halves to each other from the brow over the head to the nape"
        f"{lengths(step, draft, unit)}.{folds(step, draft)}"
    )


def _front_back(step: Step, draft: Draft, unit: Unit) -> str:
    other = draft.choices.other
    tail = " Leave the root of the tail open at the top." if isinstance(other, Hood) and other.liripipe else ""
    end = " down to where the gores begin" if isinstance(other, Hood) and other.gores == "squares" else ""
    fold = (
        "Fold the hood over the crown"
        if isinstance(other, Hood) and other.cut == "folded"
        else "Lay the sides on each other"
    )
    in_front = any(ref.edge.startswith("front") for seam in seams_of(step, draft) for ref in (seam.a, seam.b))
    front = " and the short seam under the face" if in_front else ""
    return (
        f"{fold}, {faces(draft).lower()}. Close the back seam{front}{end}"
        f"{lengths(step, draft, unit)}.{tail}{folds(step, draft)}"
    )


def _squares(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"{faces(draft)}, set in the squares, one corner up, in front and behind{lengths(step, draft, unit)}: sew one"
        f" side from the hem to the corner, turn, and sew the other down.{bars(step, 'the corner')}{folds(step, draft)}"
    )


def _shoulders(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"{faces(draft)}, sew each shoulder gore into its slit, one side after the other{lengths(step, draft, unit)}:"
        " start at the hem, stop at the point, the hood's allowance narrowing to nothing there."
        f"{bars(step, 'the point')}{folds(step, draft)}"
    )


def _gather(step: Step, draft: Draft, unit: Unit) -> str:
    size = draft.settled
    if isinstance(size, BreechesSize):
        return (
            f"Run two gathering threads along the waist, draw each leg's {format_length(size.leg, unit)} in to"
            f" {format_length(size.band / 2, unit)}, even it out and sew it to the lower edge of the band,"
            " right sides together."
        )
    if not isinstance(size, ApronSize):
        raise InternalFault("nothing is gathered")
    return (
        f"Run two gathering threads along the top of the apron, draw {format_length(size.width, unit)}"
        f" in to {format_length(size.band, unit)}, even it out and sew it to one long edge of the"
        " band, right sides together."
    )


def _casing(step: Step, draft: Draft, unit: Unit) -> str:
    size = draft.settled
    if isinstance(size, BreechesSize) and size.band:
        return (
            f"Turn the edges of the slit in front ({format_length(size.slit, unit)}) twice and hem them; bar its end."
        )
    return "Turn the waist edge down for the casing and hem it, leaving a gap of two fingers at the centre front."


def _gusset(step: Step, draft: Draft, unit: Unit) -> str:
    allowance = format_length(draft.choices.sewing.allowance, unit)
    return (
        f"{faces(draft)}, set the square in: one corner at the top of each inside leg, one in front, one behind; two"
        f" sides to each leg{lengths(step, draft, unit)}. Stop {allowance}, one allowance, short of every corner and"
        f" work a bar there.{folds(step, draft)}"
    )


def _outer(step: Step, draft: Draft, unit: Unit) -> str:
    if isinstance(draft.choices.other, Cloak):
        cut = isinstance(draft.settled, CloakSize) and draft.settled.inner > 0
        clip = " Clip the neck's curve first." if cut else ""
        return f"Turn the front edges and the neck twice and hem them.{clip}"
    if isinstance(draft.choices.other, Apron):
        return (
            "Turn the sides twice and hem them."
            if _gathered(draft)
            else "Turn the sides and the top twice and hem them."
        )
    return "Turn the front and the lower edge twice, narrow, and hem them."


def _gathered(draft: Draft) -> bool:
    return isinstance(draft.choices.other, Apron) and draft.choices.other.top == "gathered"


def _hem(step: Step, draft: Draft, unit: Unit) -> str:
    hem = format_length(draft.choices.sewing.hem, unit)
    corners = " Fold the corners of the squares slantwise." if _has_squares(draft) else ""
    rounded = isinstance(draft.choices.other, Cloak) and draft.choices.other.shape != "rectangle"
    ease = ", easing in the fullness of the curve," if rounded else ""
    return f"Turn up the hem allowance ({hem}){ease} and hem it.{corners}"


def _has_squares(draft: Draft) -> bool:
    return isinstance(draft.choices.other, Hood) and draft.choices.other.gores == "squares"


def _fasten(step: Step, draft: Draft, unit: Unit) -> str:
    other, size = draft.choices.other, draft.settled
    if isinstance(other, Cloak):
        return "Close the cloak at the neck or on one shoulder with a pin, or sew on ties."
    ties = ties_of(other, size)
    if ties is None:
        return "Sew a hook and eye, a button or two ties to the ends of the band."
    each = format_length(ties.each, unit)
    if isinstance(other, Coif):
        return f"Sew a tie of {each} to each front lower corner; draw in the nape if it is wide."
    if isinstance(other, Apron):
        where = "each end of the band" if _gathered(draft) else "each upper corner"
        return f"Sew a tie of about {each} to {where}."
    return f"Thread a cord of {each} through the casing; its ends come out of the gap in front."


OTHER_STEPS: Final[Mapping[str, Say]] = {
    "mark": _mark,
    "piecing": _piecing,
    "strips": lambda step, draft, unit: (
        f"{faces(draft)}, sew the strips to each other along the grain{lengths(step, draft, unit)}, those next to the"
        f" neck first.{folds(step, draft)}"
    ),
    "shoulder gores": _shoulders,
    "crown": _crown,
    "front and back": _front_back,
    "square gores": _squares,
    "tail": always(
        "Fold the tail lengthwise, right sides together; sew it along its side and across its tip, trim and turn it."
    ),
    "tail on": always(
        "Put the root of the tail into the opening at the back of the crown, right sides together, seam to seam, and"
        " sew it in all round."
    ),
    "gather": _gather,
    "inside legs": lambda step, draft, unit: (
        f"{faces(draft)}, close the inside seam of each leg from the hem up{lengths(step, draft, unit)}."
        f"{folds(step, draft)}"
    ),
    "crotch gusset": _gusset,
    "rise": lambda step, draft, unit: (
        f"Put one leg into the other, {faces(draft).lower()}, and sew the centre seams in one run"
        f"{lengths(step, draft, unit)}{back_stitch(draft)}; they take the strain.{folds(step, draft)}"
    ),
    "let hang": always(
        "Hang the cloak for a day so that the slanting parts settle, then level its hem from the floor."
    ),
    "face edge": always("Turn the edge of the face opening twice and hem it."),
    "outer edges": _outer,
    "lower edge": _hem,
    "casing": _casing,
    "leg hems": always("Turn up the hem of each leg and hem it."),
    "band": always("Fold the band over the gathers, turn in its edges and ends, and fell it down inside."),
    "fasten": _fasten,
    **TRIM_STEPS,
}
"""Every step's words, by its code."""


def other_step(step: Step, draft: Draft, unit: Unit) -> str:
    """What to do in this step, in the maker's unit.

    Raises KeyError for a step without words.
    """
    return OTHER_STEPS[step.code](step, draft, unit)
