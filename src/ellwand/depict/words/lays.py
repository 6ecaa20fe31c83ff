"""What is said of a lay: how the cloth lies, from where distances count, and how near it comes to the shortest."""

from __future__ import annotations

from collections.abc import Sequence

from ellwand.model.cloth import Cloth
from ellwand.model.lay import Lay
from ellwand.units import Unit, format_length


def lay_name(lay: Lay, lays: Sequence[Lay]) -> str:
    """'the lay', told apart where there are several: by its cloth, its left-over, or how the cloth lies there."""
    if lay.remnant:
        several = len({each.cloth for each in lays}) > 1
        return f"left-over {lay.remnant}" + (f" of the {lay.cloth} cloth" if several else "")
    main = [each for each in lays if not each.remnant]
    name = "the lay" if len({each.cloth for each in main}) < 2 else f"the {lay.cloth} cloth"
    if sum(each.cloth == lay.cloth for each in main) < 2:
        return name
    return f"{name}, {'flat' if lay.fold == 'flat' else 'folded'} part"


def measured_from(lay: Lay) -> tuple[str, str]:
    """From where distances along and across the cloth count."""
    if lay.fold == "crosswise":
        return "the fold", "the left selvedge"
    if lay.remnant:
        return "the lower end", "the left side"
    return "the cut end", "the fold" if lay.fold == "lengthwise" else "the left selvedge"


def how_it_lies(lay: Lay, unit: Unit) -> str:
    """One sentence: flat or folded, and how wide and long."""
    width, length = format_length(lay.width, unit), format_length(lay.length, unit)
    half_width, half_length = format_length(lay.width / 2, unit), format_length(lay.length / 2, unit)
    if lay.remnant:
        return f"This left-over piece lies flat, {width} wide and {length} long."
    if lay.fold == "lengthwise":
        return (
            f"The cloth is folded lengthwise, selvedge to selvedge: {half_width} wide and {length} long, two layers."
            " Cut through both; what is marked to lie on the fold opens out to twice its width."
        )
    if lay.fold == "crosswise":
        return (
            f"The cloth is folded crosswise, cut end to cut end: {width} wide and {half_length} long, two layers."
            " Cut through both; what is marked to lie on the fold opens out to twice its length."
        )
    if lay.start:
        start = format_length(lay.start, unit)
        return f"From {start} on the cloth is opened out and lies flat, {width} wide and {length} long."
    return f"The cloth lies flat, {width} wide and {length} long."


def how_short(lay: Lay, unit: Unit) -> str:
    """How far the lay is from the shortest that could be; '' for a left-over piece, which is not to be shortened."""
    if lay.remnant or not lay.placements or not lay.lower_bound:
        return ""
    if lay.proved_best:
        return "Proved best: no lay of these pieces on this cloth can be shorter."
    return (
        f"At most {lay.gap:.1%} longer than the shortest possible: no lay of these pieces on this cloth can be"
        f" shorter than {format_length(lay.lower_bound, unit)}."
    )


def bought(lay_length: float, cloth: Cloth, unit: Unit) -> str:
    """How much cloth how wide, as it is asked for."""
    return f"{format_length(lay_length, unit)} of cloth {format_length(cloth.width, unit)} wide"
