"""What to buy."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ellwand.depict.words.closings import BOUGHT, to_buy
from ellwand.depict.words.lays import bought
from ellwand.lay.buy import purchase
from ellwand.model.cloth import Cloth, width_on_table
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.purchase import Purchase
from ellwand.units import Unit, format_length

YARD = 91.44


def shopping_rows(garment: Garment) -> tuple[tuple[str, str], ...]:
    """What to buy and how much of it, one row each: every cloth with its steps, width and shrinkage, its price,
    what closes it, thread."""
    unit = garment.wearer.unit
    out: list[tuple[str, str]] = []
    several = len(garment.cloths) > 1
    for cloth, asked in purchases(garment.lays, garment.cloths):
        name = f"{cloth.name} cloth" if several else "cloth"
        used = [lay for lay in garment.lays if lay.cloth == cloth.name and lay.remnant]
        if used:
            out.append((f"{name} left over", _left_over(used, unit)))
        if not asked.laid:
            continue
        out.append((name, _cloth(asked, cloth, unit)))
        if asked.cost is not None:
            by = "a yard" if cloth.unit == "in" else "a metre"
            out.append((f"price of {cloth.name}" if several else "price", f"{asked.cost:.2f} ({cloth.price:g} {by})."))
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


def purchases(lays: Sequence[Lay], cloths: Sequence[Cloth]) -> Iterator[tuple[Cloth, Purchase]]:
    """Every cloth that something is cut from, and what to buy of it for all its lays; nothing for left-overs."""
    for cloth in cloths:
        own = [lay for lay in lays if lay.cloth == cloth.name]
        if own:
            yield cloth, purchase(math.fsum(lay.length for lay in own if not lay.remnant), cloth)


def purchase_steps(asked: Purchase, cloth: Cloth, unit: Unit) -> tuple[tuple[str, float], ...]:
    """What makes up the length to buy, in the order it is reckoned (cm); steps that add nothing are left out."""
    steps = (
        ("for the lay", asked.laid),
        ("to straighten both ends", asked.straightening),
        ("to spare", asked.spare),
        (f"that washing takes off ({cloth.shrink_warp:.0%})", asked.shrinkage),
        (f"because it is sold by {format_length(asked.unit, unit)}", asked.rounding),
    )
    return tuple((what, cm) for what, cm in steps if cm >= 0.05)


def _cloth(asked: Purchase, cloth: Cloth, unit: Unit) -> str:
    text = bought(asked.length, cloth, unit)
    if cloth.length is not None:
        # nothing is asked for in a shop, so nothing is rounded
        asked = replace(asked, rounding=0.0)
        width = format_length(cloth.width, unit)
        text = f"{format_length(asked.length, unit)} of the {format_length(cloth.length, unit)} at hand, {width} wide"
    steps = purchase_steps(asked, cloth, unit)
    text += ": " + ", ".join(f"{format_length(cm, unit)} {what}" for what, cm in steps)
    if cloth.washed:
        return f"{text}. It is washed already."
    if cloth.wash == "after":
        return f"{text}. It is cut unwashed."
    width_then = format_length(width_on_table(cloth), unit)
    return (
        f"{text}. Wash it first: it may shrink by {cloth.shrink_warp:.0%} in length and {cloth.shrink_weft:.0%} in"
        f" width, to {width_then} wide."
    )


def _left_over(lays: Sequence[Lay], unit: Unit) -> str:
    """The left-over pieces that something is cut from."""
    each = [f"no. {lay.remnant} ({format_length(lay.width, unit)} × {format_length(lay.length, unit)})" for lay in lays]
    return f"take {', '.join(each)}; nothing to buy."
