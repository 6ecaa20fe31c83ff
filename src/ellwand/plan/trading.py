"""Cloth against garment: what each cm of cloth buys within the maker's ranges."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from math import inf
from typing import Final

from ellwand.choose import Sheet
from ellwand.errors import CannotDraft
from ellwand.model.freedom import StopName, TradeOff, TradePoint
from ellwand.pipeline import proved, read_wearer
from ellwand.plan.laying import fails, lies_on_cloth, needs, needs_at_least
from ellwand.plan.ranges import LENGTH, Range, ranges_of, settled
from ellwand.plan.same import sewn
from ellwand.plan.structures import best_structure

STEPS: Final = 13
"""Points along one range."""
BOTH_STEPS: Final = 5
"""Points along each, where both the length and the gores are open."""
WAYS: Final = 2
"""So many of the best structures are laid at each point."""
CM: Final = 0.05
"""Less cloth than this (cm) is no cloth."""


def trade_off(sheet: Sheet) -> TradeOff | None:
    """The garments within the sheet's ranges of which no other gives as much for as little; None without ranges.

    What counts as more garment is its net area: with its length, its hem grows, or both.
    Raises BadInput (CannotDraft among it) where not even the middle of the ranges can be drafted.
    """
    ranges = ranges_of(sheet.choices)
    if not ranges:
        return None
    ways = [tried.way.choices for tried in best_structure(sheet)[:WAYS]] or [sheet.choices]
    wearer, questions = read_wearer(sheet)
    grid = sheet.choices.sewing.chalk
    tried: list[TradePoint] = []
    middle: TradePoint | None = None
    for shares in _shares(ranges):
        numbers = {each.path: each.at(shares[each.path == LENGTH], grid) for each in ranges}
        best: TradePoint | None = None
        for choices in ways:
            try:
                garment = proved(sheet, settled(choices, numbers), wearer, questions)
                least = best.cloth if best else inf
                if fails(garment) or not lies_on_cloth(garment) or needs_at_least(garment) >= least:
                    continue
                cloth = needs(garment)
            except CannotDraft:
                continue
            if cloth < least:
                worn = sewn(garment)
                settings = tuple(numbers.items())
                best = TradePoint(cloth, worn.area, worn.sweep, worn.length, settings, settled(choices, numbers))
        if best:
            tried.append(best)
            middle = best if all(share == 0.5 for share in shares) else middle
    points = envelope(tried)
    return TradeOff(points, _stops(points, middle), len(tried))


def _shares(ranges: Sequence[Range]) -> Iterator[tuple[float, float]]:
    """Shares of the gores' ranges and of the length's."""
    long, wide = (any((each.path == LENGTH) == is_length for each in ranges) for is_length in (True, False))
    if long and wide:
        steps = [i / (BOTH_STEPS - 1) for i in range(BOTH_STEPS)]
        yield from product(steps, steps)
    else:
        yield from ((i / (STEPS - 1), i / (STEPS - 1)) for i in range(STEPS))


def envelope(points: Sequence[TradePoint]) -> tuple[TradePoint, ...]:
    """Those that no other beats: every further one is more garment and takes more cloth."""
    out: list[TradePoint] = []
    for point in sorted(points, key=lambda p: (round(p.cloth, 3), -p.area)):
        if not out or point.area > out[-1].area * (1 + 1e-9):
            if out and point.cloth <= out[-1].cloth + CM:
                out.pop()
            out.append(point)
    return tuple(out)


def _stops(points: Sequence[TradePoint], middle: TradePoint | None) -> tuple[tuple[StopName, int], ...]:
    """The least cloth; as much garment as the middle of the ranges; where cloth buys most; the fullest."""
    if not points:
        return ()
    last = len(points) - 1
    if not last:
        return (("fullest", 0),)
    named: dict[int, StopName] = {0: "least cloth"}
    if middle is not None:
        named.setdefault(next(i for i, p in enumerate(points) if p.area >= middle.area * (1 - 1e-9)), "balanced")
    if last > 1:
        named.setdefault(knee([(p.cloth, p.area) for p in points]), "best bargain")
    named.setdefault(last, "fullest")
    return tuple((named[i], i) for i in sorted(named))


def knee(points: Sequence[tuple[float, float]]) -> int:
    """The point furthest above the straight line from the first to the last, both scales alike: beyond it a cm of
    cloth buys less than it does on the whole."""
    (x0, y0), (x1, y1) = points[0], points[-1]
    above = [(y - y0) / (y1 - y0) - (x - x0) / (x1 - x0) for x, y in points]
    return max(range(len(points)), key=lambda i: round(above[i], 9))
