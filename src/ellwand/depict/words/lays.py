"""What is said of a lay: how the cloth lies, from where distances count, and how near it comes to the shortest."""

from __future__ import annotations

from collections.abc import Sequence

from ellwand.depict.words.blazon import PLAIN
from ellwand.depict.words.saying import percent
from ellwand.language import _
from ellwand.model.cloth import Cloth
from ellwand.model.lay import Lay
from ellwand.model.names import named
from ellwand.units import Unit, format_length


def cloth_named(name: str) -> str:
    """What a cloth is called; of one that is named by its tincture its plain colour too: 'or (yellow)'."""
    plain = next((word for tincture, word in PLAIN.items() if tincture == name), None)
    return name if plain is None else f"{named(name)} ({_(plain)})"


def lay_name(lay: Lay, lays: Sequence[Lay]) -> str:
    """'the lay', told apart where there are several: by its cloth, its left-over, or how the cloth lies there."""
    if lay.remnant:
        several = len({each.cloth for each in lays}) > 1
        if several:
            return _("left-over {number} of the {cloth} cloth", number=lay.remnant, cloth=cloth_named(lay.cloth))
        return _("left-over {number}", number=lay.remnant)
    main = [each for each in lays if not each.remnant]
    name = (
        _("the lay") if len({each.cloth for each in main}) < 2 else _("the {cloth} cloth", cloth=cloth_named(lay.cloth))
    )
    if sum(each.cloth == lay.cloth for each in main) < 2:
        return name
    return _("{lay}, flat part", lay=name) if lay.fold == "flat" else _("{lay}, folded part", lay=name)


def measured_from(lay: Lay) -> tuple[str, str]:
    """From where distances along and across the cloth count."""
    if lay.fold == "crosswise":
        return _("the fold"), _("the left selvedge")
    if lay.remnant:
        return _("the lower end"), _("the left side")
    return _("the cut end"), _("the fold") if lay.fold == "lengthwise" else _("the left selvedge")


def how_it_lies(lay: Lay, unit: Unit) -> str:
    """One sentence: flat or folded, and how wide and long."""
    size = {"width": format_length(lay.width, unit), "length": format_length(lay.length, unit)}
    if lay.remnant:
        return _("This left-over piece lies flat, {width} wide and {length} long.", **size)
    if lay.fold == "lengthwise":
        size["width"] = format_length(lay.width / 2, unit)
        return _(
            "The cloth is folded lengthwise, selvedge to selvedge: {width} wide and {length} long, two layers."
            " Cut through both; what is marked to lie on the fold opens out to twice its width.",
            **size,
        )
    if lay.fold == "crosswise":
        size["length"] = format_length(lay.length / 2, unit)
        return _(
            "The cloth is folded crosswise, cut end to cut end: {width} wide and {length} long, two layers."
            " Cut through both; what is marked to lie on the fold opens out to twice its length.",
            **size,
        )
    if lay.start:
        start = format_length(lay.start, unit)
        return _(
            "From {start} on the cloth is opened out and lies flat, {width} wide and {length} long.",
            start=start,
            **size,
        )
    return _("The cloth lies flat, {width} wide and {length} long.", **size)


def how_short(lay: Lay, unit: Unit) -> str:
    """How far the lay is from the shortest that could be; '' for a left-over piece, which is not to be shortened."""
    if lay.remnant or not lay.placements or not lay.lower_bound:
        return ""
    if lay.proved_best:
        return _("Proved best: no lay of these pieces on this cloth can be shorter.")
    return _(
        "At most {share} longer than the shortest possible: no lay of these pieces on this cloth can be shorter than"
        " {bound}.",
        share=percent(lay.gap, 1),
        bound=format_length(lay.lower_bound, unit),
    )


def bought(lay_length: float, cloth: Cloth, unit: Unit) -> str:
    """How much cloth how wide, as it is asked for."""
    return _(
        "{length} of cloth {width} wide",
        length=format_length(lay_length, unit),
        width=format_length(cloth.width, unit),
    )
