"""A bound from what can lie beside the widest pieces.

Pieces that are everywhere wider than half the cloth never share a height, so together they take the sum of their
lengths.  Beside them a strip is left.  A piece that is somewhere wider than the strip can only reach into it with a
tail, past an end of a wide piece, and there the chords of all that reach in add up to no more than the strip.  What
does not lie beside the wide pieces needs length of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ellwand.lay.bounds.kinds import Kind
from ellwand.lay.bounds.sections import Chords, as_fractions, chords_of, integral, thinned
from ellwand.lay.shapes import HAIR


@dataclass(frozen=True, slots=True)
class _Others:
    """What may lie beside: pieces that fit the strip whole, tails through one end, tails of all (cm²)."""

    whole: float
    through: float
    tails: float


def beside_the_widest(kinds: Sequence[Kind], width: float) -> float:
    """The bound in cm; 0 where no piece is everywhere wider than half the cloth."""
    chords = {kind: [chords_of(way) for way in kind.ways] for kind in kinds}
    narrowest = {kind: min(float(np.min(c[:, 1:])) for c in chords[kind]) for kind in kinds}
    best = 0.0
    for least in sorted({w for w in narrowest.values() if w > width / 2 + HAIR}):
        wide = [kind for kind in kinds if narrowest[kind] >= least]
        rest = {kind: chords[kind] for kind in kinds if narrowest[kind] < least}
        taken = sum(kind.count * min(float(c[:, 0].sum()) for c in chords[kind]) for kind in wide)
        ends = 2 * sum(kind.count for kind in wide)
        found = _beside(rest, width - least + HAIR)
        beside = found.whole + min(found.tails, ends * found.through)
        best = max(best, taken + _needed(rest, width) - beside / width)
    return best


def _needed(rest: dict[Kind, list[Chords]], width: float) -> float:
    """The length (cm) that these need by themselves: by area, or with those too wide to lie side by side."""
    fractions = {kind: [as_fractions(each, width) for each in ways] for kind, ways in rest.items()}
    values = {round(float(c), 9) for ways in fractions.values() for each in ways for c in each[:, 1:].flat}
    return max(
        sum(kind.count * min(integral(each, e) for each in ways) for kind, ways in fractions.items())
        for e in (0.0, *thinned({min(c, 1 - c) for c in values}))
    )


def _beside(rest: dict[Kind, list[Chords]], strip: float) -> _Others:
    whole = through = tails = 0.0
    for kind, ways in rest.items():
        narrow = max(_narrow(each, strip) for each in ways)
        fits = any(float(np.max(each[:, 1:])) <= strip for each in ways)
        if fits or not all(_swells_once(each) for each in ways):
            whole += kind.count * narrow
        else:
            tails += kind.count * narrow
            both = [end for each in ways for end in (each, _about(each))]
            through = max(through, *(_most_of_a_tail(end, strip) for end in both))
    return _Others(whole, through, tails)


def _about(chords: Chords) -> Chords:
    return np.asarray(chords[::-1, [0, 2, 1]], dtype=np.float64)


def _swells_once(chords: Chords) -> bool:
    """Whether it grows wider, then narrower, and never wider again."""
    change = np.diff(chords[:, 1:].ravel())
    falls = np.flatnonzero(change < -HAIR)
    return not len(falls) or not bool(np.any(change[falls[0] :] > HAIR))


def _narrow(chords: Chords, strip: float) -> float:
    """The area (cm²) of what is no wider than the strip."""
    step, start, end = chords.T
    low, high = np.minimum(start, end), np.maximum(start, end)
    share = np.where(high > low, (np.clip(strip, low, high) - low) / np.maximum(high - low, 1e-12), low <= strip)
    return float((step * share * (low + np.minimum(high, strip)) / 2).sum())


def _most_of_a_tail(chords: Chords, strip: float) -> float:
    """The most area (cm²) through one end of the strip by the first tails of such pieces: their chords there fill it.

    The area of a tail over its chord is greatest at a corner, or where the tail is as wide as the strip.
    """
    most = area = 0.0
    for step, start, end in chords:
        if start > strip:
            break
        share = 1.0 if end <= strip else (strip - start) / (end - start)
        chord = min(end, strip)
        area += step * share * (start + chord) / 2
        if chord > HAIR:
            most = max(most, area / chord)
        if share < 1:
            break
    return most * strip
