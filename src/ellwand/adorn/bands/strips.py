"""A band in strips: how long each is, and where they join."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from ellwand.adorn.runs.making import words
from ellwand.geometry.lines import SAME
from ellwand.model.band import Corner, Join, JoinPlace
from ellwand.model.draft import Draft, EdgeRef
from ellwand.model.run import Run, Stretch, begun_at, starts

LONGEST: Final = 120.0
"""A longer straight strip is joined from shorter ones, which find room in the gaps of the lay (cm): our own figure."""
LONGEST_BIAS: Final = 60.0
"""The same of strips on the bias (cm): our own figure."""
LEAST_SHARE: Final = 0.5
"""A seam hides a join if the strip that ends there is at least this much of an even one: our own figure."""


def begun_where_it_joins(draft: Draft, run: Run) -> tuple[Run, tuple[Join, ...]]:
    """A closed run begun where the band's ends meet best out of sight, and that join; an open one as it is."""
    if not run.closed:
        return run, ()
    half = run.length / 2
    seams = [Join(at, _place(draft, run, at)) for at in run.seams]
    for wanted in ("underarm seam", "side", "shoulder seam", "back"):
        found = [join for join in seams if join.place == wanted]
        if found:
            # the first of the wearer's left that lies furthest from the front
            best = max(found, key=lambda join: (join.at <= half + SAME, min(join.at, run.length - join.at)))
            return begun_at(run, best.at), (Join(0.0, best.place),)
    if any(stretch.part.startswith("sleeve") for stretch in run.stretches):
        return run, (Join(0.0, "underarm seam"),)
    if seams and not any("body" in stretch.part or "back" in stretch.part for stretch in run.stretches):
        return begun_at(run, seams[0].at), (Join(0.0, "seam"),)
    return begun_at(run, half), (Join(0.0, "back"),)


def in_strips(
    draft: Draft, run: Run, length: float, corners: Sequence[Corner], longest: float, *, parted: bool
) -> tuple[tuple[float, ...], tuple[Join, ...]]:
    """(finished lengths of the strips, joins between them) of a band ``length`` cm long; ``parted``: at its corners."""
    extra = math.fsum(corner.extra for corner in corners)
    stretch = (length - extra) / run.length

    def on_band(at: float) -> float:
        return at * stretch + math.fsum(corner.extra for corner in corners if corner.at <= at + SAME)

    stops = [on_band(corner.at) for corner in corners if SAME < corner.at < run.length - SAME] if parted else []
    seams = [(on_band(at), at) for at in run.seams if SAME < at < run.length - SAME]
    strips: list[float] = []
    joins: list[Join] = []
    begin = 0.0
    for end in [*stops, length]:
        while end - begin > SAME:
            even = (end - begin) / max(1, math.ceil((end - begin) / longest - 1e-9))
            if even > end - begin - SAME:
                cut, hidden = end, None
            else:
                within = [each for each in seams if LEAST_SHARE * even <= each[0] - begin <= longest]
                cut, hidden = min(within, key=lambda each: abs(each[0] - begin - even), default=(begin + even, None))
            strips.append(cut - begin)
            if cut < end - SAME:
                gone = math.fsum(corner.extra for corner in corners if on_band(corner.at) <= cut + SAME)
                at = hidden if hidden is not None else (cut - gone) / stretch
                joins.append(Join(at, _place(draft, run, hidden) if hidden is not None else "between seams"))
            begin = cut
    return tuple(strips), tuple(joins)


def _place(draft: Draft, run: Run, at: float) -> JoinPlace:
    """What the seam is called that the run crosses there."""
    begins = starts(run)
    i = min(range(len(begins)), key=lambda i: abs(begins[i] - at)) % len(run.stretches)
    one, other = run.stretches[i - 1], run.stretches[i]
    named = {*_names(one), *_names(other)}
    if any(each.part.startswith("sleeve") for each in (one, other)):
        return "underarm seam"
    kinds = {seam.kind for seam in draft.seams if {seam.a.part, seam.b.part} == {one.part, other.part}}
    if "shoulder" in kinds and run.along == "edge":
        return "shoulder seam"
    if "side" in named:
        return "side"
    return "back" if all("back" in _names(each) for each in (one, other)) else "seam"


def _names(stretch: Stretch) -> set[str]:
    return set(words(EdgeRef(stretch.part, stretch.edge)))
