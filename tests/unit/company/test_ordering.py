"""One order: the sum of what is cut, washed and straightened once; the crew's hours against every way of sharing."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand.company.ordering import order_of
from ellwand.depict.company import bought_length
from ellwand.model.cloth import Cloth
from ellwand.model.company import Done, Laid, Shared, Work
from ellwand.model.cost import CostLine, Prices

WOOL = Cloth("wool", 150, shrink_warp=0.05, straighten=2.0, spare=30, price=20.0, sold_by=10)


def garment(hours: float = 3.0, length: float = 200.0, colour: str = "", cloth: Cloth = WOOL) -> Done:
    return Done(
        "Ann",
        "tunic",
        colour,
        cloths=(cloth,),
        laid=(Laid("wool", length, 1.0),),
        bought=(CostLine("buttons", 12, "", 0.5, 6.0), CostLine("lace or ties", 1.5, "m", None, None)),
        work=(Work("seams", (hours, 2 * hours)), Work("closures", (0.5, 1.0))),
        thread=33.0,
    )


def test_each_colour_is_one_length_shrunk_straightened_and_rounded_once() -> None:
    done = {1: garment(colour="red"), 2: garment(colour="red"), 3: garment(colour="blue"), 4: garment(colour="blue")}
    lay = Shared(1, "wool", "red", ((1,), (2,)), 350.0, 400.0, pieces=14)
    red, blue, *rest = order_of(done, [lay], Prices(thread=2.0), "cm").needs
    for need, laid in ((red, 350.0), (blue, 400.0)):
        # (laid + both ends + spare) / (1 - s), up to the seller's step: common practice, no source
        asked = math.ceil((laid + 4 + 30) / 0.95 / 10) * 10
        assert need.amount == pytest.approx(asked)
        assert need.cost == pytest.approx(20.0 * asked / 100)
        assert math.fsum(cm for _what, cm in need.parts) == pytest.approx(asked)
    assert (red.colour, red.lays, blue.lays) == ("red", 1, 2)
    told = {need.what: need for need in rest}
    assert (told["buttons"].amount, told["buttons"].cost) == (48, 24.0)
    assert told["lace or ties"].amount == pytest.approx(6.0) and told["lace or ties"].cost is None
    assert told["thread"].amount == 140 and told["thread"].cost == 280.0


def test_layers_are_as_many_lengths() -> None:
    done = {n: garment() for n in (1, 2, 3)}
    lay = Shared(1, "wool", "", ((1, 2, 3),), 190.0, 600.0, pieces=7)
    (cloth, *_rest) = order_of(done, [lay], None, "cm").needs
    assert cloth.parts[0] == ("laid", pytest.approx(570.0))


def test_who_cannot_be_cut_for_needs_nothing() -> None:
    order = order_of({1: garment(), 2: Done("Bo", "tunic", trouble="no")}, [], None, "cm")
    assert order.needs[0].parts[0] == ("laid", 200.0)


@given(st.lists(st.integers(1, 20), min_size=1, max_size=6), st.integers(1, 3))
def test_the_crew_is_done_within_four_thirds_of_the_best_sharing(hours: list[int], crew: int) -> None:
    """Against every way of sharing the garments out; the bound is Graham's, 1969: 4/3 - 1/(3 crew)."""
    order = order_of({n: garment(each) for n, each in enumerate(hours, 1)}, [], None, "cm", crew)
    best = min(
        max(sum(each + 0.5 for each, who in zip(hours, shares, strict=True) if who == hand) for hand in range(crew))
        for shares in itertools.product(range(crew), repeat=len(hours))
    )
    assert best - 1e-9 <= order.days[0] <= (4 / 3 - 1 / (3 * crew)) * best + 1e-9
    total = {each.stage: each.hours for each in order.work}
    assert total["seams"] == (sum(hours), 2 * sum(hours))


def test_lengths_are_asked_for_as_shops_do() -> None:
    assert bought_length(2240.0, "cm") == "22.4\u00a0m"
    # a yard is 91.44 cm: international yard, 1959
    assert bought_length(24.375 * 91.44, "in") == "24 3/8\u00a0yd"
