"""Sewing steps in words: a sentence or two for someone who has never sewn this garment."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, edge_at
from ellwand.model.step import Step
from ellwand.units import Unit, format_length

Say = Callable[[Step, Draft, Unit], str]

FINISH: Final[Mapping[str, str]] = {
    "plain": "Press the allowances open.",
    "run and fell": "press the allowances to one side, trim the under one by half, fold the other over it and fell.",
    "french": "First wrong sides together, then turn and sew again to enclose the edges.",
    "overcast": "Press the allowances open and overcast each edge.",
}
CLOSERS: Final[Mapping[str, str]] = {
    "ties": "Sew on the ties.",
    "lacing": "Work the eyelets and thread the lace.",
    "buttons": "Work the buttonholes and sew on the buttons.",
    "loops": "Sew on the loops and what they close over.",
    "hooks": "Sew on the hooks and eyes.",
    "pins": "Close it with a pin when it is worn.",
}


def step(step: Step, draft: Draft, unit: Unit) -> str:
    """What to do in this step, in the maker's unit.

    Raises KeyError for a step without words.
    """
    return _WORDS[step.code](step, draft, unit)


def _lengths(step: Step, draft: Draft, unit: Unit) -> str:
    """The lengths of its seams, each once, as in '46 cm each' or '57 and 80 cm'."""
    seams = [seam for seam in draft.seams if seam.id in step.seams]
    each = sorted({round(length(edge_at(draft, seam.a).points), 1) for seam in seams})
    if not each or len(each) > 3:
        return ""
    said = " and ".join(format_length(cm, unit) for cm in each)
    return f" ({said}{' each' if len(each) == 1 and len(seams) > 1 else ''})"


def _mark(step: Step, draft: Draft, unit: Unit) -> str:
    finish = FINISH[draft.choices.sewing.finish]
    return (
        "Chalk the sewing lines, the centre and the shoulder line, and a mark wherever two seams meet or a gore's point"
        f" falls. Finish every seam the same way: {finish[0].lower()}{finish[1:]}"
    )


def _neck_slit(step: Step, draft: Draft, unit: Unit) -> str:
    slit = format_length(draft.dimensions.neck_slit, unit)
    return (
        f"Face the neck slit ({slit}) before you cut it: sew a strip down both sides to its point, right sides"
        " together, then cut between the rows, turn and fell. Work a bar across the point."
    )


def _halves(step: Step, draft: Draft, unit: Unit) -> str:
    return f"Sew the half gores together in pairs along their straight edges{_lengths(step, draft, unit)}."


def _slit_gores(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"Let the gores into their slits{_lengths(step, draft, unit)}: sew from the hem up to the point on each side,"
        " the panel's allowance narrowing to nothing there. Work a bar over the point; it takes all the strain."
    )


def _gores(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"Sew the gores to their panels{_lengths(step, draft, unit)}: start at the hem, stop at the point. Do not pull"
        " the slanting edge; it stretches."
    )


def _centre(step: Step, draft: Draft, unit: Unit) -> str:
    slit = draft.dimensions.neck_slit
    stop = " Leave the neck slit open at the top." if slit and draft.choices.body.centre_seam != "back" else ""
    return f"Close the centre seams above the gores and splits{_lengths(step, draft, unit)}.{stop}"


def _side_panels(step: Step, draft: Draft, unit: Unit) -> str:
    one = any(part in ("side-panel-left", "side-panel-right") for part in step.parts)
    to = "the front" if one else "the front and the back"
    return f"Sew the side panels to {to}, from the armpit down{_lengths(step, draft, unit)}."


def _shoulders(step: Step, draft: Draft, unit: Unit) -> str:
    return f"Sew the shoulder seams{_lengths(step, draft, unit)}."


def _neck(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        "Finish the neck: clip the curve, and face it with a narrow strip cut on the slant from the waste, or turn it"
        " twice and hem."
    )


def _sleeves(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        "Sew each sleeve to its armhole while the body lies flat: the middle of the sleeve top to the shoulder line,"
        f" right sides together{_lengths(step, draft, unit)}."
    )


def _to_back(step: Step, draft: Draft, unit: Unit) -> str:
    return f"Sew the side panels to the back, from the armpit down{_lengths(step, draft, unit)}."


def _to_tops(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        "Sew the rest of each sleeve top along the top of the side panel, its ends meeting in the middle"
        f"{_lengths(step, draft, unit)}."
    )


def _gussets(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        "Set in the gussets: one corner at the front armpit, the next at the back, two sides to the sleeve and two to"
        f" the body{_lengths(step, draft, unit)}. Stop a full allowance short of every corner and work a bar there."
    )


def _run(step: Step, draft: Draft, unit: Unit) -> str:
    kinds = {seam.kind for seam in draft.seams if seam.id in step.seams}
    if "underarm seam" not in kinds:
        return "Close the sides from the armhole to the hem, right sides together."
    opening = draft.dimensions.cuff_opening
    stop = f" Leave the lowest {format_length(opening, unit)} of the sleeve open." if opening else ""
    if kinds == {"underarm seam"}:
        return f"Close each underarm seam, right sides together, from the cuff to the armpit.{stop}"
    return f"Close the underarm and the side in one run, right sides together, from the cuff to the hem.{stop}"


def _armholes(step: Step, draft: Draft, unit: Unit) -> str:
    return "Turn the armhole edges twice and hem them, or bind them."


def _cuffs(step: Step, draft: Draft, unit: Unit) -> str:
    both = "openings and the " if draft.dimensions.cuff_opening else ""
    return f"Turn the {both}cuffs twice and hem them."


def _openings(step: Step, draft: Draft, unit: Unit) -> str:
    return "Face the edges of the opening with a straight strip; work a bar across its end."


def _splits(step: Step, draft: Draft, unit: Unit) -> str:
    return "Turn the edges of the splits twice and hem them; work a bar or sew a small patch across each top."


def _hang(step: Step, draft: Draft, unit: Unit) -> str:
    return "Hang the garment for a day so that the slanting edges settle, then level the hem from the floor."


def _hem(step: Step, draft: Draft, unit: Unit) -> str:
    hem = format_length(draft.choices.sewing.hem, unit)
    return f"Turn up the hem allowance ({hem}), easing in the fullness of the gores, and hem it."


def _closures(step: Step, draft: Draft, unit: Unit) -> str:
    return " ".join(
        f"{'Side' if c.at == 'side' else c.at.capitalize()}: {CLOSERS[c.by][0].lower()}{CLOSERS[c.by][1:]}"
        for c in draft.choices.closures
    )


_WORDS: Final[Mapping[str, Say]] = {
    "mark": _mark,
    "neck slit": _neck_slit,
    "halves": _halves,
    "gores in slits": _slit_gores,
    "gores": _gores,
    "centre seams": _centre,
    "side panels": _side_panels,
    "shoulders": _shoulders,
    "neck": _neck,
    "sleeves": _sleeves,
    "side panels to back": _to_back,
    "sleeves to side panels": _to_tops,
    "gussets": _gussets,
    "underarm and sides": _run,
    "armhole edges": _armholes,
    "cuffs": _cuffs,
    "openings": _openings,
    "splits": _splits,
    "hang": _hang,
    "hem": _hem,
    "closures": _closures,
}
