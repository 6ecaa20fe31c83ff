"""Closures in words: what to make or sew on, how many, how far apart, how much cord."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Final

from ellwand.language import N_, _, plural
from ellwand.model.choices import ClosureBy, ClosurePlace
from ellwand.model.closing import EYELET, Closing
from ellwand.model.names import named
from ellwand.units import Unit, format_length

HEAD: Final[Mapping[ClosurePlace, str]] = {
    "neck slit": N_("Neck slit"),
    "cuffs": N_("Cuffs"),
    "centre-front": N_("Centre front"),
    "centre-back": N_("Centre back"),
    "side": N_("Side"),
    "shoulder": N_("Shoulder"),
}
EACH: Final[Mapping[ClosurePlace, str]] = {"cuffs": N_("Each cuff opening"), "shoulder": N_("Each open shoulder")}
"""Instead, where there are several of them."""

BOUGHT: Final[dict[ClosureBy, str]] = {
    "ties": N_("ties"),
    "lacing": N_("lace"),
    "buttons": N_("buttons"),
    "loops": N_("toggles"),
    "hooks": N_("hooks"),
    "pins": N_("pins"),
}
ALONG: Final[Mapping[str, str]] = {
    "left": N_("the left edge"),
    "right": N_("the right edge"),
    "front": N_("the front edge"),
    "back": N_("the back edge"),
}
"""The edges of an opening, after 'in' or 'inside'."""
ON_TO: Final[Mapping[str, str]] = {
    "left": N_("to the left edge"),
    "right": N_("to the right edge"),
    "front": N_("to the front edge"),
    "back": N_("to the back edge"),
    "underlap": N_("to the underlap"),
}
"""What is sewn on to them."""
VERY_EDGE: Final[Mapping[str, str]] = {
    "left": N_("to the very edge of the left side"),
    "right": N_("to the very edge of the right side"),
    "front": N_("to the very edge of the front side"),
    "back": N_("to the very edge of the back side"),
    "underlap": N_("to the underlap"),
}
FROM: Final[Mapping[str, str]] = {
    "neck": N_("{first} from the neck"),
    "cuff": N_("{first} from the cuff"),
    "armpit": N_("{first} from the armpit"),
}
AT: Final[Mapping[str, str]] = {"neck": N_("at the neck"), "cuff": N_("at the cuff"), "armpit": N_("at the armpit")}
"""Where an opening begins."""


def closing(each: Closing, unit: Unit) -> str:
    """One closure's work: 'Neck slit: work 3 buttonholes ...'."""
    place = EACH[each.at] if each.openings > 1 and each.at in EACH else HEAD[each.at]
    return _("{place}: {work}", place=_(place), work=_WORK[each.by](each, unit))


def to_buy(each: Closing, unit: Unit) -> str:
    """What a closure takes in all its openings, for the shopping list; '' when nothing has to be got."""
    pieces, cord = each.pieces * each.openings, _cord(each.cord * each.openings, unit)
    at, wide = named(each.at.replace("-", " ")), format_length(each.size, unit)
    if each.by == "lacing":
        return _("{laces} for the {place}; {count} eyelets to work.", laces=_laces(each, unit), place=at, count=pieces)
    if each.by == "ties":
        return _("{cord} of cord or tape for ties at the {place}.", cord=cord, place=at)
    if each.by == "loops":
        return plural(
            "{n} toggle {wide} wide and {cord} of cord for loops at the {place}.",
            "{n} toggles {wide} wide and {cord} of cord for loops at the {place}.",
            pieces,
            wide=wide,
            cord=cord,
            place=at,
        )
    if each.by == "buttons" and each.circle:
        return plural(
            "{n} cloth button for the {place}, each of a circle {circle} across, cut from the scraps.",
            "{n} cloth buttons for the {place}, each of a circle {circle} across, cut from the scraps.",
            pieces,
            place=at,
            circle=format_length(each.circle, unit),
        )
    if each.by == "buttons":
        return plural(
            "{n} button {wide} wide for the {place}.",
            "{n} buttons {wide} wide for the {place}.",
            pieces,
            wide=wide,
            place=at,
        )
    if each.by == "hooks":
        return plural(
            "{n} hook and {count} eye for the {place}.",
            "{n} hooks and {count} eyes for the {place}.",
            pieces,
            count=pieces,
            place=at,
        )
    return plural("{n} pin for the {place}.", "{n} pins for the {place}.", pieces, place=at)


def _laces(each: Closing, unit: Unit) -> str:
    cord = _cord(each.cord, unit)
    if each.openings == 1:
        return _("a lace of {cord}", cord=cord)
    return _("{count} laces of {cord}", count=each.openings, cord=cord)


def _cord(cm: float, unit: Unit) -> str:
    """Rounded up to whole centimetres or inches."""
    step = 2.54 if unit == "in" else 1.0
    return format_length(math.ceil(cm / step - 1e-6) * step, unit)


def _row(each: Closing, unit: Unit) -> str:
    """Where they sit: 'the first 1 cm from the neck, then 2.3 cm apart'."""
    first = each.one[0]
    start = _(FROM[each.start], first=format_length(first, unit)) if first > 0.05 else _(AT[each.start])
    if len(each.one) == 1:
        return start
    return _("the first {start}, then {pitch} apart", start=start, pitch=format_length(each.pitch, unit))


def _upon(each: Closing, upon: Mapping[str, str]) -> str:
    side = "underlap" if each.overlap else each.edges[1]
    return _(upon[side])


def _buttons(each: Closing, unit: Unit) -> str:
    told = {
        "holes": plural("{n} buttonhole", "{n} buttonholes", each.count),
        "long": format_length(each.hole, unit),
        "edge": _(ALONG[each.edges[0]]),
        "row": _row(each, unit),
        "upon": _upon(each, VERY_EDGE),
    }
    if not each.circle:
        return _(
            "work {holes} {long} long in {edge}, square to it ({row}); sew as many buttons {upon}, opposite.", **told
        )
    return _(
        "for each button cut a circle {circle} across from the scraps, run a thread round it close to the edge, draw it"
        " up, push the edge inside and sew to and fro until it is hard. Work {holes} {long} long in {edge}, square to"
        " it ({row}); sew as many buttons {upon}, opposite.",
        circle=format_length(each.circle, unit),
        **told,
    )


def _loops(each: Closing, unit: Unit) -> str:
    return _(
        "sew {loops} of cord {edge} ({row}; cut {cord} for each, and try it round its toggle) and as many toggles"
        " {upon}, opposite.",
        loops=plural("{n} loop", "{n} loops", each.count),
        edge=_(ON_TO[each.edges[0]]),
        row=_row(each, unit),
        cord=_cord(each.cord / each.count, unit),
        upon=_upon(each, ON_TO),
    )


def _hooks(each: Closing, unit: Unit) -> str:
    return _(
        "sew {hooks} inside {edge} ({row}) and as many eyes {upon}.",
        hooks=plural("{n} hook", "{n} hooks", each.count),
        edge=_(ALONG[each.edges[0]]),
        row=_row(each, unit),
        upon=_upon(each, ON_TO),
    )


def _ties(each: Closing, unit: Unit) -> str:
    return plural(
        "sew a tie {long} long to each edge ({row}).",
        "sew {n} ties {long} long to each edge ({row}).",
        each.count,
        long=format_length(each.cord / each.count / 2, unit),
        row=_row(each, unit),
    )


def _pins(each: Closing, unit: Unit) -> str:
    return _(
        "close it with {pins} when it is worn ({row}).",
        pins=plural("{n} pin", "{n} pins", each.count),
        row=_row(each, unit),
    )


def _lacing(each: Closing, unit: Unit) -> str:
    told = {
        "count": str(each.count),
        "row": _row(each, unit),
        "hole": format_length(EYELET, unit),
        "cord": _cord(each.cord, unit),
    }
    if each.lacing == "ladder":
        return _(
            "work {count} eyelets in each edge ({row}), each round a hole {hole} wide. Lace in rungs from one end with"
            " a lace of {cord}.",
            **told,
        )
    if each.lacing != "spiral":
        return _(
            "work {count} eyelets in each edge ({row}), each round a hole {hole} wide. Lace crossing its two ends with"
            " a lace of {cord}.",
            **told,
        )
    told |= {"edge": _(ALONG[each.edges[0]]), "many": str(len(each.other)), "other": _(ALONG[each.edges[1]])}
    return _(
        "work {count} eyelets in {edge} ({row}) and {many} in {other} ({unevenly}), each round a hole {hole} wide. Knot"
        " a lace of {cord} {start} and wind it down to the level pair at the end.",
        unevenly=_unevenly(each, unit),
        start=_(AT[each.start]),
        **told,
    )


def _unevenly(each: Closing, unit: Unit) -> str:
    """Where the eyelets of a spiral's other edge sit."""
    places = ", ".join(format_length(at, unit, mark=False) for at in each.other[:2])
    last = format_length(each.other[-1], unit)
    if len(each.other) > 3:
        pitch = format_length(each.pitch, unit)
        return _("at {places}, then {pitch} apart, the last at {last}", places=places, pitch=pitch, last=last)
    return _("at {places} and {last}", places=places, last=last)


_WORK: Final[dict[ClosureBy, Callable[[Closing, Unit], str]]] = {
    "buttons": _buttons,
    "loops": _loops,
    "hooks": _hooks,
    "ties": _ties,
    "pins": _pins,
    "lacing": _lacing,
}
