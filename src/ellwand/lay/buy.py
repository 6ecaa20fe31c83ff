"""From the length of a lay to the length to ask for in a shop."""

from __future__ import annotations

from typing import Final

from ellwand.model.cloth import Cloth
from ellwand.model.purchase import Purchase
from ellwand.units import CM_PER, round_up

BY_THE_METRE: Final = 10.0
"""A shop that sells by the metre cuts to this (cm): common practice, no source."""
BY_THE_YARD: Final = CM_PER["yd"] / 8
"""A shop that sells by the yard cuts to an eighth of it (cm): common practice, no source."""


def purchase(laid: float, cloth: Cloth) -> Purchase:
    """What to buy of ``cloth`` for lays that take ``laid`` cm of it together, step by step.

    Both ends are straightened and the spare is kept when the cloth is ready to cut; a cloth that is still to be
    washed before that loses the part s of its warp, so that (laid + straightening + spare) / (1 − s) is bought.  An
    eighth of a yard or 10 cm is the least that a shop adds, unless the cloth says what it is sold by.  Nothing is
    bought for nothing laid.
    """
    unit = cloth.sold_by or (BY_THE_YARD if cloth.unit == "in" else BY_THE_METRE)
    if not laid:
        return Purchase(0.0, 0.0, 0.0, 0.0, 0.0, unit, None if cloth.price is None else 0.0)
    straightening, spare = 2 * cloth.straighten, _spare(laid, cloth)
    ready = laid + straightening + spare
    unwashed = ready if cloth.washed or cloth.wash == "after" else ready / (1 - cloth.shrink_warp)
    bought = round_up(unwashed, unit)
    by = CM_PER["yd"] if cloth.unit == "in" else CM_PER["m"]
    return Purchase(
        laid=laid,
        straightening=straightening,
        spare=spare,
        shrinkage=unwashed - ready,
        rounding=bought - unwashed,
        unit=unit,
        cost=None if cloth.price is None else cloth.price * bought / by,
    )


def buy_length(laid: float, cloth: Cloth) -> float:
    """The length (cm) to ask for."""
    return round(purchase(laid, cloth).length, 6)


def _spare(laid: float, cloth: Cloth) -> float:
    """What the maker wants over: a length, or a part of what is laid."""
    return cloth.spare if cloth.spare >= 1 else cloth.spare * laid
