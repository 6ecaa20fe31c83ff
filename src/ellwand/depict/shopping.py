"""What to buy."""

from __future__ import annotations

import math

from ellwand.depict.words.closings import BOUGHT, to_buy
from ellwand.model.cloth import Cloth, width_on_table
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.units import Unit, format_length

YARD = 91.44


def shopping_rows(garment: Garment) -> tuple[tuple[str, str], ...]:
    """What to buy and how much of it, one row each: cloth with its width and shrinkage, price,
    what closes it, thread."""
    unit = garment.wearer.unit
    out: list[tuple[str, str]] = []
    cloths = {cloth.name: cloth for cloth in garment.cloths}
    for lay in garment.lays:
        cloth = cloths[lay.cloth]
        out.append(("cloth", _cloth(lay, cloth, unit)))
        if cloth.price is not None:
            out.append(("price", f"{cloth.price * lay.buy_length / 100:.2f} ({cloth.price:g} a metre)."))
    out += [(BOUGHT[each.by], to_buy(each, unit)) for each in garment.closings]
    thread = math.fsum(step.thread_m for step in garment.steps)
    if thread:
        metres = math.ceil(thread / 10) * 10
        out.append(
            (
                "thread",
                f"{metres}\u00a0m." if unit == "cm" else f"{metres}\u00a0m ({math.ceil(metres * 100 / YARD)} yd).",
            )
        )
    return tuple(out)


def _cloth(lay: Lay, cloth: Cloth, unit: Unit) -> str:
    width = format_length(cloth.width, unit)
    text = f"{format_length(lay.buy_length, unit)} of cloth {width} wide"
    if cloth.length is not None:
        text = f"{format_length(lay.buy_length, unit)} of the {format_length(cloth.length, unit)} at hand, {width} wide"
    if cloth.washed:
        return f"{text}, washed already."
    width_then = format_length(width_on_table(cloth), unit)
    return (
        f"{text}. Wash it first: it may shrink by {cloth.shrink_warp:.0%} in length and {cloth.shrink_weft:.0%} in"
        f" width, to {width_then} wide."
    )
