"""Repeats in words: how many motifs along which line, how wide, how far apart, and where to chalk each one's middle."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from ellwand.model.repeat import Repeat, RepeatBy
from ellwand.units import Unit, format_length

BY: Final[dict[RepeatBy, str]] = {
    "stencil": "stencilled",
    "block": "block-printed",
    "embroidery": "embroidered",
    "appliqué": "sewn on",
}
UPPER_END: Final = frozenset({"neck slit", "splits", "centre-front", "centre-back"})
SAME: Final = 0.05
"""Lengths that a chalk cannot tell apart (cm)."""


def repeat_texts(repeats: Sequence[Repeat], unit: Unit) -> list[tuple[str, str]]:
    """(what it is, how to set it out) of every repeat; lines that are filled alike are told together."""
    groups: list[list[Repeat]] = []
    for repeat in repeats:
        group = next((group for group in groups if _alike(group[0], repeat)), None)
        if group is None:
            groups.append([repeat])
        else:
            group.append(repeat)
    return [(_what(group, unit), _how(group[0], unit)) for group in groups]


def _alike(one: Repeat, other: Repeat) -> bool:
    pairs = zip(one.at, other.at, strict=False)
    return (
        one.chosen == other.chosen
        and len(one.at) == len(other.at)
        and abs(one.run.length - other.run.length) < SAME
        and all(abs(a - b) < SAME for a, b in pairs)
    )


def _what(group: Sequence[Repeat], unit: Unit) -> str:
    """'Roundel, 14 times along the hem, 6.4 cm wide and 6.4 cm high, 3.1 cm apart, stencilled in madder'"""
    repeat = group[0]
    wide, high = (format_length(size, unit) for size in repeat.motif.size)
    names = [each.run.name for each in group]
    line = f"the {_joined_names(names)}"
    times = f"{repeat.count} {'time' if repeat.count == 1 else 'times'}"
    each = " each" if len(group) > 1 else ""
    name = repeat.motif.name
    said = (
        f"{name[:1].upper()}{name[1:]}, {times}{each} along {line}, {wide} wide and {high} high, {_apart(repeat, unit)}"
    )
    if repeat.chosen.colour or repeat.chosen.by != "stencil":
        said += f", {BY[repeat.chosen.by]}" + (f" in {repeat.chosen.colour}" if repeat.chosen.colour else "")
    return said


def _joined_names(names: Sequence[str]) -> str:
    """'cuff, left' and 'cuff, right' as 'left and the right cuff'."""
    if len(names) == 1 and ", " not in names[0]:
        return names[0]
    turned = [" ".join(reversed(name.split(", "))) for name in names]
    places = {name.partition(", ")[0] for name in names}
    if len(places) == 1 and all(", " in name for name in names):
        return " and the ".join([name.partition(", ")[2] for name in names]) + f" {places.pop()}"
    return " and the ".join(turned)


def _apart(repeat: Repeat, unit: Unit) -> str:
    gaps = [row.gap for row in repeat.rows if row.count > 1 or repeat.run.closed] or [row.gap for row in repeat.rows]
    if repeat.joins:
        return "one touching the next"
    low, high = min(gaps), max(gaps)
    if high - low < SAME:
        return f"{format_length(low, unit)} apart"
    return f"{format_length(low, unit)} to {format_length(high, unit)} apart"


def _how(repeat: Repeat, unit: Unit) -> str:
    """Where to chalk the middles, and what lies across seams and bends."""
    said = [_from_edge(repeat, unit), _places(repeat, unit)]
    corners = sum(each.corner and not each.again for each in repeat.placements)
    if corners and repeat.corner is not None:
        where = "each corner" if corners > 1 else "the corner"
        said.append(f"At {where} stands a {repeat.corner.name}, square to both edges.")
    if repeat.chosen.mirrored:
        said.append(_mirrored(repeat))
    across = sum(each.again for each in repeat.placements)
    if across:
        lie = "one lies" if across == 1 else f"{across} lie"
        said.append(f"{lie[:1].upper()}{lie[1:]} across a seam: sew that before you put them on.")
    if repeat.overlap > SAME:
        said.append(
            f"Where the line bends they lie over each other by up to {format_length(repeat.overlap, unit)} on its inner"
            " side: let them, and keep the outer side touching."
        )
    return " ".join(said)


def _from_edge(repeat: Repeat, unit: Unit) -> str:
    if repeat.run.along == "line":
        height = repeat.chosen.height
        if height is None:
            stand = ", upright" if repeat.upright else ""
            return f"Chalk the line; the middle of every motif lies on it{stand}."
        above = {"arm ring": "above the cuff", "upper arm ring": "below the shoulder point"}
        where = above.get(repeat.chosen.along, "above the hem")
        return f"Chalk a line {format_length(height, unit)} {where}; the middle of every motif lies on it."
    inset = repeat.chosen.inset
    foot = f"{format_length(inset, unit)} from the sewn edge" if inset > SAME else "on the sewn edge"
    return f"Every motif's near side lies {foot}; turn each as the edge runs under it."


def _round_body(repeat: Repeat) -> bool:
    return (
        repeat.chosen.along not in ("cuffs", "armholes", "arm ring", "upper arm ring") and ", " not in repeat.run.name
    )


def _places(repeat: Repeat, unit: Unit) -> str:
    """Where the middles lie, each told from where the line begins, so that rounding does not add up."""
    whole, at = repeat.run.length, list(repeat.at)
    half = [each for each in at if each <= whole / 2 + SAME]
    other = sorted(whole - each for each in at if each > whole / 2 + SAME or (repeat.run.closed and each < SAME))
    alike = _same([each for each in half if each > SAME], [each for each in other if each < whole - SAME], whole / 2)
    if repeat.run.closed and _round_body(repeat):
        begin, last = "the centre front", "the middle of the back"
    elif repeat.run.closed:
        begin, last, alike = "the seam", "", False
    else:
        begin, last = "either end", "the middle"
        if repeat.chosen.along in UPPER_END:
            begin, last, alike = "the upper end", "", False
    if alike and begin == "either end":
        begin = "both ends"
    way = f"From {begin} both ways" if alike and repeat.run.closed else f"From {begin}"
    if repeat.run.closed and _round_body(repeat) and not alike:
        way += " toward the wearer's left"
    shown = half if alike else at
    said = f"{way}, lay the tape along the line and chalk the middles at {_list(shown, unit)}"
    if alike and abs(shown[-1] - whole / 2) < SAME:
        said += f", which is {last}"
    return f"{said}{_pitch(repeat, unit)}."


def _same(one: Sequence[float], other: Sequence[float], middle: float) -> bool:
    """Whether both halves bear motifs at the same distances; one in the very middle belongs to both."""
    a, b = ([each for each in side if abs(each - middle) > SAME] for side in (one, other))
    return len(a) == len(b) and all(abs(x - y) < SAME for x, y in zip(a, b, strict=True))


def _list(places: Sequence[float], unit: Unit) -> str:
    said = [format_length(each, unit, mark=False) for each in places]
    return f"{', '.join(said)} {unit}"


def _pitch(repeat: Repeat, unit: Unit) -> str:
    pitches = [row.pitch for row in repeat.rows if row.count > 1]
    if not pitches or max(pitches) - min(pitches) > SAME:
        return ""
    return f"; from one middle to the next it is {format_length(pitches[0], unit)}"


def _mirrored(repeat: Repeat) -> str:
    if repeat.chosen.along in UPPER_END and repeat.run.along == "edge":
        return "Those of the wearer's right edge mirror the left: turn the stencil over, or trace them the other way."
    return "In the second half turn the motif over, so that both halves mirror each other."
