"""What to buy."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ellwand.depict.words.bands import PLACED, band_title
from ellwand.depict.words.bands import to_buy as band_to_buy
from ellwand.depict.words.closings import BOUGHT, to_buy
from ellwand.depict.words.lays import bought, cloth_named
from ellwand.depict.words.pace import hours_said
from ellwand.depict.words.saying import percent
from ellwand.language import N_, SOURCE, _, decimal_mark, language, pgettext
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
from ellwand.units import Unit, decimal, format_length

YARD = 91.44
COSTING = (
    N_("lace or ties"),
    N_("thread"),
    N_("cloth"),
    N_("buttons"),
    N_("toggles"),
    N_("hooks and eyes"),
    N_("pins"),
    N_("cord for loops"),
)
"""What the lines of the bill are called; bands and several cloths come with their own names."""


def shopping_rows(garment: Garment) -> tuple[tuple[str, str], ...]:
    """What to buy and how much of it, one row each: every cloth with its steps, width and shrinkage, its price,
    what closes it, thread; with the sheet's prices the whole bill instead of the cloth's price alone."""
    unit = garment.wearer.unit
    out: list[tuple[str, str]] = []
    several = len(garment.cloths) > 1
    for cloth, asked in purchases(garment.lays, garment.cloths):
        name = _("{cloth} cloth", cloth=cloth_named(cloth.name)) if several else _("cloth")
        used = [lay for lay in garment.lays if lay.cloth == cloth.name and lay.remnant]
        if used:
            out.append((_("{cloth} left over", cloth=name), _left_over(used, unit)))
        if not asked.laid:
            continue
        out.append((name, _cloth(asked, cloth, unit)))
        if asked.cost is not None and garment.prices is None:
            what = _("price of {cloth}", cloth=cloth_named(cloth.name)) if several else _("price")
            out.append((what, _priced(asked.cost, cloth)))
    out += [(_(BOUGHT[each.by]), to_buy(each, unit)) for each in garment.closings]
    if (ties := ties_of(garment.choices.other, garment.draft.settled)) is not None:
        long = format_length(ties.count * ties.each, unit)
        if ties.threaded:
            out.append((_("cord"), _("{length} of cord for the casing.", length=long)))
        else:
            out.append((_("ties"), _("{length} of tape or cord for ties.", length=long)))
    out += _trims(garment)
    whole = totals(garment.steps)
    if whole.thread_m[1]:
        out.append((_("thread"), f"{_metres(thread_to_buy(whole), unit)}."))
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
        sizes = {"length": asked_for, "width": format_length(band.width, unit), "place": _(PLACED[band.at])}
        if band.colour:
            yield (
                pgettext("bought", "band"),
                _("{length} of {colour} band {width} wide, {place}.", colour=band.colour, **sizes),
            )
        else:
            yield pgettext("bought", "band"), _("{length} of band {width} wide, {place}.", **sizes)
    for yarn in adornment.yarns:
        band = next(band for band in adornment.bands if band.number == yarn.number)
        yield (
            _("yarn"),
            _(
                "{length}, {grams}\u00a0g, for the {band}, {place}.",
                length=_metres(math.ceil(yarn.metres), unit),
                grams=math.ceil(yarn.grams),
                band=_inside(band_title([band])),
                place=_(PLACED[band.at]),
            ),
        )


def _inside(title: str) -> str:
    """A title within a sentence."""
    return title.lower() if language() == SOURCE else title


def _priced(cost: float, cloth: Cloth) -> str:
    """The cost, and in brackets the price it comes of."""
    said = {"cost": decimal(cost, 2), "price": f"{cloth.price:g}".replace(".", decimal_mark())}
    if cloth.unit == "in":
        return _("{cost} ({price} a yard).", **said)
    return _("{cost} ({price} a metre).", **said)


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


def _billed(what: str) -> str:
    """What a line of the bill is for; a cloth goes by its name."""
    cloth = what.removesuffix(" cloth")
    return _("{cloth} cloth", cloth=cloth_named(cloth)) if cloth != what else _(what)


def _bill(costs: Costs, sewing: Sewing) -> list[tuple[str, str]]:
    """What is paid and what the work is worth; what has no price is named."""
    behind = f" {costs.currency}" if costs.currency else ""
    priced = [f"{_billed(line.what)} {decimal(line.total, 2)}" for line in costs.lines if line.total is not None]
    unpriced = [_billed(line.what) for line in costs.lines if line.total is None]
    said = f"{decimal(costs.total, 2)}{behind}" + (f": {', '.join(priced)}." if len(priced) > 1 else ".")
    if unpriced:
        said += " " + _("Without a price: {what}.", what=", ".join(dict.fromkeys(unpriced)))
    out = [(_("cost"), said)] if priced else []
    if costs.work is not None:
        low, high = (f"{each:.0f}" for each in costs.work)
        worth = low if low == high else _("{low} to {high}", low=low, high=high)
        hours = hours_said(costs.hours, sewing)
        out.append((_("work"), _("worth {worth}, at {hours}.", worth=f"{worth}{behind}", hours=hours)))
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
        (_("for the lay"), asked.laid),
        (_("to straighten both ends"), asked.straightening),
        (_("to spare"), asked.spare),
        (_("that washing takes off ({share})", share=percent(cloth.shrink_warp)), asked.shrinkage),
        (_("because it is sold by {unit}", unit=format_length(asked.unit, unit)), asked.rounding),
    )
    least = 0.05 if unit == "cm" else 0.16
    return tuple((what, cm) for what, cm in steps if cm >= least)


def _cloth(asked: Purchase, cloth: Cloth, unit: Unit) -> str:
    text = bought(asked.length, cloth, unit)
    if cloth.length is not None:
        # nothing is asked for in a shop, so nothing is rounded
        asked = replace(asked, rounding=0.0)
        width = format_length(cloth.width, unit)
        text = _(
            "{length} of the {whole} at hand, {width} wide",
            length=format_length(asked.length, unit),
            whole=format_length(cloth.length, unit),
            width=width,
        )
    steps = purchase_steps(asked, cloth, unit)
    text += ": " + ", ".join(f"{format_length(cm, unit)} {what}" for what, cm in steps)
    if cloth.washed:
        return _("{text}. It is washed already.", text=text)
    if cloth.wash == "after":
        return _("{text}. It is cut unwashed.", text=text)
    width_then = format_length(width_on_table(cloth), unit)
    return _(
        "{text}. Wash it first: it may shrink by {warp} in length and {weft} in width, to {width} wide.",
        text=text,
        warp=percent(cloth.shrink_warp),
        weft=percent(cloth.shrink_weft),
        width=width_then,
    )


def _left_over(lays: Sequence[Lay], unit: Unit) -> str:
    """The left-over pieces that something is cut from."""
    sizes = [(lay.remnant, f"{format_length(lay.width, unit)} × {format_length(lay.length, unit)}") for lay in lays]
    each = [_("no. {number} ({size})", number=number, size=size) for number, size in sizes]
    return _("take {pieces}; nothing to buy.", pieces=", ".join(each))
