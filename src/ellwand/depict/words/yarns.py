"""What a band of yarn takes, in words: threads, their length, yarn and its weight."""

from __future__ import annotations

import math

from ellwand.depict.words.saying import percent
from ellwand.language import N_, _, decimal_mark
from ellwand.model.band import Yarn
from ellwand.units import Unit, format_length


def yarn_words(yarn: Yarn, unit: Unit) -> str:
    """What a band of yarn takes: 'Warp 48 threads (12 tablets of 4 holes), each 120 cm long ...'."""
    metres = _metres(yarn.metres, unit)
    grams = f"{math.ceil(yarn.grams)}\u00a0g"
    long, warp, waste = _up(yarn.length, unit), _up(yarn.warp, unit), format_length(yarn.loom_waste, unit)
    if yarn.make in ("tablet woven", "inkle woven"):
        is_tablets = yarn.make == "tablet woven" and not yarn.ends % 4
        return _(
            "Weave {length} in one: warp {count} threads{tablets}, each {warp} long ({share} is taken up in weaving,"
            " and {waste} stays unwoven). Yarn with the weft: {metres}, {grams}.",
            length=long,
            count=yarn.ends,
            tablets=_(" ({count} tablets of 4 holes)", count=yarn.ends // 4) if is_tablets else "",
            warp=warp,
            share=percent(yarn.take_up),
            waste=waste,
            metres=metres,
            grams=grams,
        )
    work = N_(
        "Twist {length} in one from {count} strands, each {warp} long ({times} times the cord and {waste} for the"
        " ends). Yarn: {metres}, {grams}. Try a hand's length first, and measure what it takes."
    )
    if yarn.make == "braid":
        work = N_(
            "Braid {length} in one from {count} strands, each {warp} long ({times} times the braid and {waste} for the"
            " ends). Yarn: {metres}, {grams}. Try a hand's length first, and measure what it takes."
        )
    return _(
        work,
        length=long,
        count=yarn.ends,
        warp=warp,
        times=f"{1 + yarn.take_up:g}".replace(".", decimal_mark()),
        waste=waste,
        metres=metres,
        grams=grams,
    )


def _up(value: float, unit: Unit) -> str:
    """Rounded up to whole centimetres or inches."""
    step = 2.54 if unit == "in" else 1.0
    return format_length(math.ceil(value / step - 1e-6) * step, unit)


def _metres(metres: float, unit: Unit) -> str:
    if unit == "in":
        return f"{math.ceil(metres / 0.9144)}\u00a0yd"
    return f"{math.ceil(metres)}\u00a0m"
