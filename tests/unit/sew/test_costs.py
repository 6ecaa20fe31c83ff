"""The bill: its lines add up as written, whatever the prices."""

from __future__ import annotations

import math
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand.adorn import adorn
from ellwand.model.closing import Closing
from ellwand.model.cloth import Cloth
from ellwand.model.cost import Prices
from ellwand.model.purchase import Purchase
from ellwand.model.step import Totals
from ellwand.model.ties import Ties
from ellwand.sew.costs import costs, thread_to_buy
from proving_specimens import drafted

CENT = Decimal("0.01")
PRICE = st.none() | st.decimals(0, 500, places=2).map(float)
PRICES = st.builds(
    Prices,
    currency=st.sampled_from(["", "€", "marks"]),
    thread=PRICE,
    band=PRICE,
    lace=PRICE,
    button=PRICE,
    toggle=PRICE,
    hook=PRICE,
    pin=PRICE,
    hour=PRICE,
)
TOTALS = st.tuples(st.floats(0.5, 60), st.floats(0, 60), st.floats(1, 300), st.floats(0, 60)).map(
    lambda n: Totals((n[0], n[0] + n[1]), (n[2], n[2] + n[3]))
)


def closing(by: str, **more: object) -> Closing:
    garment = {"closures": [{"at": "neck slit", "by": by, **more}]}
    return adorn(drafted(garment)[0]).closings[0]


CLOSINGS = {by: closing(by) for by in ("ties", "lacing", "buttons", "loops", "hooks", "pins")}


def bought(length: float, price: float | None) -> Purchase:
    return Purchase(length, 0.0, 0.0, 0.0, 0.0, 10.0, None if price is None else price * length / 100)


@given(
    prices=PRICES,
    whole=TOTALS,
    length=st.integers(10, 900).map(float),
    cloth_price=PRICE,
    metres=st.lists(st.floats(0.1, 20), max_size=3),
    by=st.lists(st.sampled_from(sorted(CLOSINGS)), max_size=3, unique=True),
)
def test_the_bill_adds_up_as_it_is_written(
    prices: Prices,
    whole: Totals,
    length: float,
    cloth_price: float | None,
    metres: list[float],
    by: list[str],
) -> None:
    cloth = Cloth("main", 150, price=cloth_price)
    bill = costs(
        [(cloth, bought(length, cloth_price))],
        [CLOSINGS[each] for each in by],
        None,
        [("band", each) for each in metres],
        whole,
        prices,
    )
    for line in bill.lines:
        assert (line.price is None) == (line.total is None)
        if line.price is not None and line.total is not None:
            exact = Fraction(line.amount) * Fraction(line.price)
            assert abs(Fraction(str(line.total)) - exact) <= Fraction(1, 200) + Fraction(1, 10**8)
            assert Decimal(str(line.total)) == Decimal(str(line.total)).quantize(CENT)
    written = sum((Decimal(str(line.total)) for line in bill.lines if line.total is not None), Decimal(0))
    assert Decimal(str(bill.total)) == written
    assert bill.hours == whole.hours
    assert (bill.work is None) == (prices.hour is None)
    if bill.work is not None and prices.hour is not None:
        assert bill.work == pytest.approx((whole.hours[0] * prices.hour, whole.hours[1] * prices.hour), abs=0.006)


def test_a_bill_by_hand() -> None:
    """2.6 m at 14.00, 5 buttons at 0.35, 60 m of thread at 3.20 for 100 m; 9 to 13 h at 12.50 (arithmetic)."""
    prices = Prices("€", thread=0.032, button=0.35, hour=12.5)
    five = adorn(drafted({"closures": [{"at": "centre-front", "by": "buttons", "spacing": 40}]})[0]).closings[0]
    bill = costs([(Cloth("main", 150, price=14), bought(260, 14))], [five], None, [], Totals((9, 13), (48, 52)), prices)
    assert [(line.what, line.amount, line.total) for line in bill.lines] == [
        ("cloth", 2.6, 36.4),
        ("buttons", five.count, float(Decimal("0.35") * five.count)),
        ("thread", 60.0, 1.92),
    ]
    assert bill.work == (112.5, 162.5)
    assert Decimal(str(bill.total)) == Decimal("36.40") + Decimal("0.35") * five.count + Decimal("1.92")


def test_half_a_cent_is_rounded_up_as_shops_do() -> None:
    (line,) = costs([], [], None, [("band", 0.5)], Totals((1, 1), (0, 0)), Prices(band=0.05)).lines
    assert Decimal(str(line.total)) == (Decimal("0.5") * Decimal("0.05")).quantize(CENT, ROUND_HALF_UP) == CENT * 3


def test_a_yard_of_cloth_costs_less_than_a_metre() -> None:
    inches = Cloth("main", 150, price=10, unit="in")
    line = costs([(inches, bought(91.44, None))], [], None, [], Totals((1, 1), (0, 0)), Prices()).lines[0]
    assert line.total == 10.0


def test_cloth_buttons_cost_nothing_but_their_time() -> None:
    whole = Totals((1, 1), (0, 0))
    made = closing("buttons", buttons="cloth")
    assert costs([], [made], None, [], whole, Prices(button=1)).lines == ()
    assert [line.total for line in costs([], [CLOSINGS["buttons"]], None, [], whole, Prices(button=1)).lines] == [
        float(CLOSINGS["buttons"].count)
    ]


@given(metres=st.floats(0.01, 500))
def test_there_is_always_thread_enough(metres: float) -> None:
    asked = thread_to_buy(Totals((1, 1), (0, metres)))
    assert metres <= asked + 1e-6 and asked - metres < 10
    assert math.isclose(asked % 10, 0) or math.isclose(asked % 10, 10)


def test_what_is_tied_is_billed() -> None:
    """Two ties of 70 cm are 1.4 m at 0.50."""
    line = costs([], [], Ties(2, 70.0), [], Totals((1, 1), (0, 0)), Prices(lace=0.5)).lines[0]
    assert (line.amount, line.total) == (pytest.approx(1.4), 0.7)
