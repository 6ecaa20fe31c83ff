"""One order for all: each cloth in one length, everything else that is bought, and the work shared out to a crew."""

from __future__ import annotations

import heapq
import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from ellwand.company.sharing import length_alone
from ellwand.lay.buy import purchase
from ellwand.model.cloth import Cloth
from ellwand.model.company import Done, Need, Order, Shared, Stage, Work
from ellwand.model.cost import Prices
from ellwand.model.purchase import Purchase
from ellwand.sew.costs import REEL
from ellwand.units import Unit


def order_of(
    done: Mapping[int, Done], shared: Sequence[Shared], prices: Prices | None, unit: Unit, crew: int = 1
) -> Order:
    """What all garments need together.

    ``shared``: the lengths that they are cut from; what is torn is cut for each.  ``prices``: of thread and what has no
    price of its own; ``crew``: so many sew.
    """
    prices = prices or Prices()
    garments = [each for each in done.values() if not each.trouble]
    work = [_hours(each) for each in garments]
    return Order(
        needs=(*_cloths(done, shared), *_bought(garments), *_thread(garments, prices)),
        work=tuple(_stages(garments)),
        crew=crew,
        days=(_until_done([low for low, _ in work], crew), _until_done([high for _, high in work], crew)),
        currency=prices.currency,
        unit=unit,
    )


def lengths_by_cloth(done: Mapping[int, Done], shared: Sequence[Shared]) -> dict[tuple[Cloth, str], list[float]]:
    """Every cloth in its colour, and the lengths (cm) that are cut from it one after the other."""
    out: defaultdict[tuple[Cloth, str], list[float]] = defaultdict(list)
    in_lays = {(each.cloth, number): each for each in shared for stack in each.stacks for number in stack}
    told = set()
    for number, each in done.items():
        for k, cloth in enumerate(each.cloths):
            key = (cloth, each.colour if k == 0 else "")
            lay = in_lays.get((cloth.name, number))
            if lay is not None and lay.pieces:
                if lay.number not in told:
                    out[key] += [lay.length] * lay.layers
                    told.add(lay.number)
            elif length := length_alone(each, cloth.name):
                out[key].append(length)
    return dict(out)


def _cloths(done: Mapping[int, Done], shared: Sequence[Shared]) -> Iterator[Need]:
    """Each cloth as one length, washed and straightened as one."""
    for (cloth, colour), lengths in lengths_by_cloth(done, shared).items():
        asked = purchase(math.fsum(lengths), cloth)
        if asked.laid:
            yield Need("cloth", asked.length, "cm", asked.cost, cloth, colour, _steps(asked), len(lengths))


def _steps(asked: Purchase) -> tuple[tuple[str, float], ...]:
    steps = (
        ("laid", asked.laid),
        ("straightening", asked.straightening),
        ("spare", asked.spare),
        ("shrinkage", asked.shrinkage),
        ("rounding", asked.rounding),
    )
    return tuple((what, cm) for what, cm in steps if cm)


def _bought(garments: Sequence[Done]) -> Iterator[Need]:
    """What closes and trims them, each thing once."""
    amounts: defaultdict[tuple[str, str], float] = defaultdict(float)
    costs: dict[tuple[str, str], float | None] = {}
    for garment in garments:
        for line in garment.bought:
            key = (line.what, line.unit)
            amounts[key] += line.amount
            so_far = costs.get(key, 0.0)
            costs[key] = None if so_far is None or line.total is None else so_far + line.total
    for (what, unit), amount in amounts.items():
        yield Need(what, amount, "m" if unit else "", costs[what, unit])


def _thread(garments: Sequence[Done], prices: Prices) -> Iterator[Need]:
    metres = math.fsum(each.thread for each in garments)
    if metres:
        amount = math.ceil(metres / REEL) * REEL
        yield Need("thread", amount, "m", None if prices.thread is None else amount * prices.thread)


def _hours(done: Done) -> tuple[float, float]:
    return math.fsum(each.hours[0] for each in done.work), math.fsum(each.hours[1] for each in done.work)


def _stages(garments: Sequence[Done]) -> Iterator[Work]:
    stages: dict[Stage, list[tuple[float, float]]] = {"seams": [], "adornment": [], "edges": [], "closures": []}
    for garment in garments:
        for each in garment.work:
            stages[each.stage].append(each.hours)
    for stage, hours in stages.items():
        if hours:
            yield Work(stage, (math.fsum(low for low, _ in hours), math.fsum(high for _, high in hours)))


def _until_done(hours: Sequence[float], crew: int) -> float:
    """How long until the last is done, the longest garment begun first by whoever is free.

    That is at most 4/3 of the shortest possible (Graham, Bounds on multiprocessing timing anomalies, 1969).
    """
    hands = [0.0] * crew
    for each in sorted(hours, reverse=True):
        heapq.heappush(hands, heapq.heappop(hands) + each)
    return max(hands)
