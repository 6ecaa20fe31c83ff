"""What a garment costs: the prices that the maker knows, and the bill (money in the maker's own currency)."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Prices:
    """Of a metre of ``thread``, ``band`` and ``lace`` (lace, cord or tape), of one ``button``, ``toggle``, ``hook``
    with its eye and ``pin``, of an ``hour`` of work; None where it is not known.

    ``currency`` is written behind every sum, '' for nothing.
    """

    currency: str = ""
    thread: float | None = None
    band: float | None = None
    lace: float | None = None
    button: float | None = None
    toggle: float | None = None
    hook: float | None = None
    pin: float | None = None
    hour: float | None = None


@dataclass(frozen=True, slots=True)
class CostLine:
    """So much of something: ``amount`` in metres ('m') or pieces (''), at ``price`` for one; None without a price."""

    what: str
    amount: float
    unit: str
    price: float | None
    total: float | None


@dataclass(frozen=True, slots=True)
class Costs:
    """The bill: what is bought, line by line, ``total`` of the lines with a price; hours of work as (least, most).

    ``work``: what they cost at the price of an hour, None without one.
    """

    lines: tuple[CostLine, ...]
    total: float
    hours: tuple[float, float]
    work: tuple[float, float] | None
    currency: str
