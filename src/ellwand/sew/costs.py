"""The bill: what is bought for a garment and what its work is worth."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from decimal import ROUND_HALF_UP, Decimal
from typing import Final

from ellwand.model.closing import Closing
from ellwand.model.cloth import Cloth
from ellwand.model.cost import CostLine, Costs, Prices
from ellwand.model.purchase import Purchase
from ellwand.model.step import Totals
from ellwand.model.ties import Ties
from ellwand.units import CM_PER

Bought = tuple[str, float]
"""What it is, and how many metres."""
CORDS: Final = "lace or ties"
REEL: Final = 10.0
"""Thread is asked for in whole steps of so many metres: common practice, no source."""


def costs(
    cloths: Iterable[tuple[Cloth, Purchase]],
    closings: Sequence[Closing],
    ties: Ties | None,
    bands: Sequence[Bought],
    totals: Totals,
    prices: Prices,
) -> Costs:
    """Line by line, each total to the hundredth, so that they add up as written."""
    lines = (
        *(_cloth(cloth, asked) for cloth, asked in cloths if asked.laid),
        *(line for closing in closings for line in _closing(closing, prices)),
        *((_line(CORDS, ties.count * ties.each / CM_PER["m"], "m", prices.lace),) if ties is not None else ()),
        *(_line(what, metres, "m", prices.band) for what, metres in bands),
        *((_line("thread", thread_to_buy(totals), "m", prices.thread),) if totals.thread_m[1] else ()),
    )
    low, high = totals.hours
    return Costs(
        lines=lines,
        total=_sum(line.total for line in lines if line.total is not None),
        hours=totals.hours,
        work=None if prices.hour is None else (_money(low * prices.hour), _money(high * prices.hour)),
        currency=prices.currency,
    )


def thread_to_buy(totals: Totals) -> float:
    """Metres to ask for, so that the most that it may take is there."""
    return math.ceil(totals.thread_m[1] / REEL - 1e-9) * REEL


def _cloth(cloth: Cloth, asked: Purchase) -> CostLine:
    by = CM_PER["yd"] if cloth.unit == "in" else CM_PER["m"]
    price = None if cloth.price is None else cloth.price * CM_PER["m"] / by
    what = "cloth" if cloth.name == "main" else f"{cloth.name} cloth"
    return _line(what, asked.length / CM_PER["m"], "m", price)


def _closing(closing: Closing, prices: Prices) -> Iterator[CostLine]:
    pieces, cord = closing.pieces * closing.openings, closing.cord * closing.openings / CM_PER["m"]
    if closing.by == "buttons" and not closing.circle:
        yield _line("buttons", pieces, "", prices.button)
    if closing.by == "loops":
        yield _line("toggles", pieces, "", prices.toggle)
    if closing.by == "hooks":
        yield _line("hooks and eyes", pieces, "", prices.hook)
    if closing.by == "pins":
        yield _line("pins", pieces, "", prices.pin)
    if cord:
        yield _line("cord for loops" if closing.by == "loops" else CORDS, cord, "m", prices.lace)


def _line(what: str, amount: float, unit: str, price: float | None) -> CostLine:
    return CostLine(what, amount, unit, price, None if price is None else _money(amount * price))


def _money(value: float) -> float:
    return float(Decimal(repr(round(value, 9))).quantize(Decimal("0.01"), ROUND_HALF_UP))


def _sum(values: Iterable[float]) -> float:
    return float(sum((Decimal(repr(value)) for value in values), Decimal(0)))
