"""[prices]: what things cost, as the bill reckons with it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from ellwand.choose.options.prices import PricesTable
from ellwand.choose.validated import table_of, validated
from ellwand.model.cost import Prices
from ellwand.units import CM_PER, Unit

REEL: Final = 100
"""Metres, or yards, of thread that its price is for."""


def read_prices(tables: Mapping[str, Any], unit: Unit) -> Prices | None:
    """The prices of a sheet, None where it has none.

    Raises BadInput with one sentence.
    """
    if "prices" not in tables:
        return None
    table = validated(PricesTable, table_of(tables, "prices"), "prices", unit)
    metres = CM_PER["yd"] / CM_PER["m"] if unit == "in" else 1.0

    def by_length(price: float | None, lengths: int = 1) -> float | None:
        return None if price is None else price / lengths / metres

    return Prices(
        currency=table.currency or "",
        thread=by_length(table.thread, REEL),
        band=by_length(table.band),
        lace=by_length(table.lace),
        button=table.button,
        toggle=table.toggle,
        hook=table.hook,
        pin=table.pin,
        hour=table.hour,
    )
