"""Closures in words: what to make or sew on, how many, how far apart, how much cord."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from ellwand.model.choices import ClosureBy
from ellwand.model.closing import EYELET, Closing
from ellwand.units import Unit, format_length

WHERE: Final = {"cuffs": "each cuff opening", "shoulder": "each open shoulder"}

BOUGHT: Final[dict[ClosureBy, str]] = {
    "ties": "ties",
    "lacing": "lace",
    "buttons": "buttons",
    "loops": "toggles",
    "hooks": "hooks",
    "pins": "pins",
}


def closing(each: Closing, unit: Unit) -> str:
    """One closure's work: 'Neck slit: work 3 buttonholes ...'."""
    head = (WHERE.get(each.at, each.at) if each.openings > 1 else each.at).replace("-", " ")
    text = _WORK[each.by](each, unit)
    return f"{head.capitalize()}: {text[0].lower()}{text[1:]}"


def to_buy(each: Closing, unit: Unit) -> str:
    """What a closure takes in all its openings, for the shopping list; '' when nothing has to be got."""
    pieces, cord = each.pieces * each.openings, _cord(each.cord * each.openings, unit)
    at = each.at.replace("-", " ")
    if each.by == "lacing":
        return f"{_laces(each, unit)} for the {at}; {pieces} eyelets to work."
    if each.by == "ties":
        return f"{cord} of cord or tape for ties at the {at}."
    if each.by == "loops":
        wide = format_length(each.size, unit)
        return f"{_count(pieces, 'toggle')} {wide} wide and {cord} of cord for loops at the {at}."
    if each.by == "buttons" and each.circle:
        circle = format_length(each.circle, unit)
        return f"{_count(pieces, 'cloth button')} for the {at}, each of a circle {circle} across, cut from the scraps."
    if each.by == "buttons":
        return f"{_count(pieces, 'button')} {format_length(each.size, unit)} wide for the {at}."
    if each.by == "hooks":
        return f"{_count(pieces, 'hook')} and {_count(pieces, 'eye')} for the {at}."
    return f"{_count(pieces, 'pin')} for the {at}."


def _laces(each: Closing, unit: Unit) -> str:
    cord = _cord(each.cord, unit)
    return f"a lace of {cord}" if each.openings == 1 else f"{each.openings} laces of {cord}"


def _cord(cm: float, unit: Unit) -> str:
    """Rounded up to whole centimetres or inches."""
    step = 2.54 if unit == "in" else 1.0
    return format_length(math.ceil(cm / step - 1e-6) * step, unit)


def _count(n: int, what: str) -> str:
    return f"{n} {what}" if n == 1 else f"{n} {what}s"


def _row(each: Closing, unit: Unit) -> str:
    """Where they sit: 'the first 1 cm from the neck, then 2.3 cm apart'."""
    first = each.one[0]
    start = f"{format_length(first, unit)} from the {each.start}" if first > 0.05 else f"at the {each.start}"
    if len(each.one) == 1:
        return start
    return f"the first {start}, then {format_length(each.pitch, unit)} apart"


def _buttons(each: Closing, unit: Unit) -> str:
    one, other = each.edges
    upon = "the underlap" if each.overlap else f"the very edge of the {other} side"
    making = ""
    if each.circle:
        making = (
            f"For each button cut a circle {format_length(each.circle, unit)} across from the scraps, run a thread"
            " round it close to the edge, draw it up, push the edge inside and sew to and fro until it is hard. "
        )
    return (
        f"{making}Work {_count(each.count, 'buttonhole')} {format_length(each.hole, unit)} long in the {one} edge,"
        f" square to it ({_row(each, unit)}); sew as many buttons to {upon}, opposite."
    )


def _loops(each: Closing, unit: Unit) -> str:
    one, other = each.edges
    upon = "the underlap" if each.overlap else f"the {other} edge"
    return (
        f"Sew {_count(each.count, 'loop')} of cord to the {one} edge ({_row(each, unit)}; cut"
        f" {_cord(each.cord / each.count, unit)} for each, and try it round its toggle) and as many toggles to {upon},"
        " opposite."
    )


def _hooks(each: Closing, unit: Unit) -> str:
    one, other = each.edges
    upon = "the underlap" if each.overlap else f"the {other} edge"
    return f"Sew {_count(each.count, 'hook')} inside the {one} edge ({_row(each, unit)}) and as many eyes to {upon}."


def _ties(each: Closing, unit: Unit) -> str:
    pairs = "a tie" if each.count == 1 else f"{each.count} ties"
    long = format_length(each.cord / each.count / 2, unit)
    return f"Sew {pairs} {long} long to each edge ({_row(each, unit)})."


def _pins(each: Closing, unit: Unit) -> str:
    return f"Close it with {_count(each.count, 'pin')} when it is worn ({_row(each, unit)})."


def _lacing(each: Closing, unit: Unit) -> str:
    one, other = each.edges
    cord = _cord(each.cord, unit)
    if each.lacing != "spiral":
        way = "in rungs from one end" if each.lacing == "ladder" else "crossing its two ends"
        return (
            f"Work {each.count} eyelets in each edge ({_row(each, unit)}), {_holes(unit)}. Lace {way} with a lace of"
            f" {cord}."
        )
    places = ", ".join(format_length(at, unit, mark=False) for at in each.other[:2])
    unevenly = f"at {places} and {format_length(each.other[-1], unit)}"
    if len(each.other) > 3:
        then = format_length(each.pitch, unit)
        unevenly = f"at {places}, then {then} apart, the last at {format_length(each.other[-1], unit)}"
    return (
        f"Work {each.count} eyelets in the {one} edge ({_row(each, unit)}) and {len(each.other)} in the {other} edge"
        f" ({unevenly}), {_holes(unit)}. Knot a lace of {cord} at the {each.start} and wind it down to the level pair"
        " at the end."
    )


def _holes(unit: Unit) -> str:
    return f"each round a hole {format_length(EYELET, unit)} wide"


_WORK: Final[dict[ClosureBy, Callable[[Closing, Unit], str]]] = {
    "buttons": _buttons,
    "loops": _loops,
    "hooks": _hooks,
    "ties": _ties,
    "pins": _pins,
    "lacing": _lacing,
}
