"""What to buy."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ellwand.depict.words.bands import PLACED, band_title
from ellwand.depict.words.bands import to_buy as band_to_buy
from ellwand.depict.words.closings import BOUGHT, to_buy
from ellwand.depict.words.lays import bought
from ellwand.depict.words.pace import hours_said
from ellwand.lay.buy import purchase
from ellwand.model.band import Band
from ellwand.model.choices import Sewing
from ellwand.model.cloth import Cloth, width_on_table
from ellwand.model.cost import Costs, Prices
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.purchase import Purchase
from ellwand.model.ties import ties_of
from ellwand.sew.costs import costs, thread_to_buy
from ellwand.sew.pace import totals
from ellwand.units import Unit, format_length

YARD = 91.44


def shopping_rows(garment: Garment) -> tuple[tuple[str, str], ...]:
    """What to buy and how much of it, one row each: every cloth with its steps, width and shrinkage, its price,
    what closes it, thread; with the sheet's prices the whole bill instead of the cloth's price alone."""
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
        if asked.cost is not None and garment.prices is None:
            by = "a yard" if cloth.unit == "in" else "a metre"
            out.append((f"price of {cloth.name}" if several else "price", f"{asked.cost:.2f} ({cloth.price:g} {by})."))
    out += [(BOUGHT[each.by], to_buy(each, unit)) for each in garment.closings]
    if (ties := ties_of(garment.choices.other, garment.draft.settled)) is not None:
        of = "cord for the casing" if ties.threaded else "tape or cord for ties"
        out.append(("cord" if ties.threaded else "ties", f"{format_length(ties.count * ties.each, unit)} of {of}."))
    out += _trims(garment)
    whole = totals(garment.steps)
    if whole.thread_m[1]:
        out.append(("thread", f"{_metres(thread_to_buy(whole), unit)}."))
    if garment.prices is not None:
        out += _bill(bill(garment), garment.choices.sewing)
    return tuple(out)


def bill(garment: Garment) -> Costs:
    """What the garment costs, by the prices that are known."""
    unit = garment.wearer.unit
    return costs(
        purchases(garment.lays, garment.cloths),
        garment.closings,
        ties_of(garment.choices.other, garment.draft.settled),
        [(band_title(each).lower(), band_to_buy(each, unit) / 100) for each in _bought_bands(garment)],
        totals(garment.steps),
        garment.prices or Prices(),
    )


def _trims(garment: Garment) -> Iterator[tuple[str, str]]:
    """Bands that are bought, and yarn for those that are made of it."""
    unit, adornment = garment.wearer.unit, garment.draft.adornment
    for each in _bought_bands(garment):
        band, asked_for = each[0], format_length(band_to_buy(each, unit), unit)
        coloured = f"{band.colour} band" if band.colour else "band"
        yield "band", f"{asked_for} of {coloured} {format_length(band.width, unit)} wide, {PLACED[band.at]}."
    for yarn in adornment.yarns:
        band = next(band for band in adornment.bands if band.number == yarn.number)
        what = f"for the {band_title([band]).lower()}, {PLACED[band.at]}"
        yield "yarn", f"{_metres(math.ceil(yarn.metres), unit)}, {math.ceil(yarn.grams)}\u00a0g, {what}."


def _metres(metres: float, unit: Unit) -> str:
    yards = "" if unit == "cm" else f" ({math.ceil(metres * 100 / YARD)} yd)"
    return f"{metres:.0f}\u00a0m{yards}"


def _bought_bands(garment: Garment) -> list[list[Band]]:
    """The bands that are bought, those of one number together."""
    out: dict[int, list[Band]] = {}
    for band in garment.draft.adornment.bands:
        if band.make == "bought":
            out.setdefault(band.number, []).append(band)
    return list(out.values())


def _bill(costs: Costs, sewing: Sewing) -> list[tuple[str, str]]:
    """What is paid and what the work is worth; what has no price is named."""
    behind = f" {costs.currency}" if costs.currency else ""
    priced = [f"{line.what} {line.total:.2f}" for line in costs.lines if line.total is not None]
    unpriced = [line.what for line in costs.lines if line.total is None]
    said = f"{costs.total:.2f}{behind}" + (f": {', '.join(priced)}." if len(priced) > 1 else ".")
    if unpriced:
        said += f" Without a price: {', '.join(dict.fromkeys(unpriced))}."
    out = [("cost", said)] if priced else []
    if costs.work is not None:
        low, high = (f"{each:.0f}" for each in costs.work)
        worth = low if low == high else f"{low} to {high}"
        out.append(("work", f"worth {worth}{behind}, at {hours_said(costs.hours, sewing)}."))
    return out


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
    least = 0.05 if unit == "cm" else 0.16
    return tuple((what, cm) for what, cm in steps if cm >= least)


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
