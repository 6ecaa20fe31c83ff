"""Repeats in words: how many motifs along which line, how wide, how far apart, and where to chalk each one's middle."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from ellwand.language import N_, _, plural
from ellwand.model.names import NAMES, named
from ellwand.model.repeat import Repeat, RepeatBy
from ellwand.units import Unit, format_length

BY: Final[dict[RepeatBy, str]] = {
    "stencil": N_("stencilled"),
    "block": N_("block-printed"),
    "embroidery": N_("embroidered"),
    "appliqué": N_("sewn on"),
}
BY_IN: Final[dict[RepeatBy, str]] = {
    "stencil": N_("stencilled in {colour}"),
    "block": N_("block-printed in {colour}"),
    "embroidery": N_("embroidered in {colour}"),
    "appliqué": N_("sewn on in {colour}"),
}
UPPER_END: Final = frozenset({"neck slit", "splits", "centre-front", "centre-back"})
SAME: Final = 0.05
"""Lengths that a chalk cannot tell apart (cm)."""


def motif_named(name: str) -> str:
    """A motif's or charge's name in the language spoken; one that the maker drew keeps its own."""
    return _(name) if name in NAMES else name


def line_named(name: str) -> str:
    """'cuff, left' as 'left cuff'."""
    place, comma, side = name.partition(", ")
    return _("{side} {place}", side=named(side), place=named(place)) if comma else named(name)


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
    if len(group) > 1:
        often = plural("{n} time each", "{n} times each", repeat.count)
    else:
        often = plural("{n} time", "{n} times", repeat.count)
    name = motif_named(repeat.motif.name)
    said = _(
        "{motif}, {times} along the {lines}, {width} wide and {height} high, {apart}",
        motif=f"{name[:1].upper()}{name[1:]}",
        times=often,
        lines=_joined_names([each.run.name for each in group]),
        width=wide,
        height=high,
        apart=_apart(repeat, unit),
    )
    if repeat.chosen.colour:
        said += f", {_(BY_IN[repeat.chosen.by], colour=repeat.chosen.colour)}"
    elif repeat.chosen.by != "stencil":
        said += f", {_(BY[repeat.chosen.by])}"
    return said


def _joined_names(names: Sequence[str]) -> str:
    """'cuff, left' and 'cuff, right' as 'left and the right cuff'."""
    places = {name.partition(", ")[0] for name in names}
    if len(names) > 1 and len(places) == 1 and all(", " in name for name in names):
        sides = _and_the([named(name.partition(", ")[2]) for name in names])
        return _("{side} {place}", side=sides, place=named(places.pop()))
    return _and_the([line_named(name) for name in names])


def _and_the(words: Sequence[str]) -> str:
    out = words[0]
    for other in words[1:]:
        out = _("{one} and the {other}", one=out, other=other)
    return out


def _apart(repeat: Repeat, unit: Unit) -> str:
    gaps = [row.gap for row in repeat.rows if row.count > 1 or repeat.run.closed] or [row.gap for row in repeat.rows]
    if repeat.joins:
        return _("one touching the next")
    low, high = min(gaps), max(gaps)
    if high - low < SAME:
        return _("{gap} apart", gap=format_length(low, unit))
    return _("{least} to {most} apart", least=format_length(low, unit), most=format_length(high, unit))


def _how(repeat: Repeat, unit: Unit) -> str:
    """Where to chalk the middles, and what lies across seams and bends."""
    said = [_from_edge(repeat, unit), _places(repeat, unit)]
    corners = sum(each.corner and not each.again for each in repeat.placements)
    if corners and repeat.corner is not None:
        at = N_("At the corner stands a {motif}, square to both edges.")
        if corners > 1:
            at = N_("At each corner stands a {motif}, square to both edges.")
        said.append(_(at, motif=motif_named(repeat.corner.name)))
    if repeat.chosen.mirrored:
        said.append(_mirrored(repeat))
    across = sum(each.again for each in repeat.placements)
    if across:
        said.append(
            plural(
                "One lies across a seam: sew that before you put them on.",
                "{n} lie across a seam: sew that before you put them on.",
                across,
            )
        )
    if repeat.overlap > SAME:
        said.append(
            _(
                "Where the line bends they lie over each other by up to {length} on its inner side: let them, and keep"
                " the outer side touching.",
                length=format_length(repeat.overlap, unit),
            )
        )
    return " ".join(said)


ABOVE: Final = {
    "arm ring": N_("Chalk a line {height} above the cuff; the middle of every motif lies on it."),
    "upper arm ring": N_("Chalk a line {height} below the shoulder point; the middle of every motif lies on it."),
}


def _from_edge(repeat: Repeat, unit: Unit) -> str:
    if repeat.run.along == "line":
        if repeat.chosen.height is not None:
            above = N_("Chalk a line {height} above the hem; the middle of every motif lies on it.")
            height = format_length(repeat.chosen.height, unit)
            return _(ABOVE.get(repeat.chosen.along, above), height=height)
        if repeat.upright:
            return _("Chalk the line; the middle of every motif lies on it, upright.")
        return _("Chalk the line; the middle of every motif lies on it.")
    if repeat.chosen.inset > SAME:
        return _(
            "Every motif's near side lies {length} from the sewn edge; turn each as the edge runs under it.",
            length=format_length(repeat.chosen.inset, unit),
        )
    return _("Every motif's near side lies on the sewn edge; turn each as the edge runs under it.")


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
    last = ""
    if repeat.run.closed and _round_body(repeat):
        last = _(", which is the middle of the back")
        start = _("From the centre front both ways") if alike else _("From the centre front toward the wearer's left")
    elif repeat.run.closed:
        start, alike = _("From the seam"), False
    elif repeat.chosen.along in UPPER_END:
        start, alike = _("From the upper end"), False
    else:
        last = _(", which is the middle")
        start = _("From both ends") if alike else _("From either end")
    shown = half if alike else at
    return _(
        "{start}, lay the tape along the line and chalk the middles at {places}{last}{pitch}.",
        start=start,
        places=_list(shown, unit),
        last=last if alike and abs(shown[-1] - whole / 2) < SAME else "",
        pitch=_pitch(repeat, unit),
    )


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
    return _("; from one middle to the next it is {length}", length=format_length(pitches[0], unit))


def _mirrored(repeat: Repeat) -> str:
    if repeat.chosen.along in UPPER_END and repeat.run.along == "edge":
        return _(
            "Those of the wearer's right edge mirror the left: turn the stencil over, or trace them the other way."
        )
    return _("In the second half turn the motif over, so that both halves mirror each other.")
