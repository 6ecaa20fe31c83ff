"""Questions about improbable measurements, each with its likeliest cause.

Every slip that people make is tried on the list, alone and together with others; the list as it was written is
asked about only if it is so much likelier with some slip put right that this outweighs how rare the slip is.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Final

import numpy as np

from ellwand.measure.gaussian import Array
from ellwand.measure.likely import Bodies, Names, bodies_of
from ellwand.measure.limits import LIMITS, MAY_SWAP, ORDER
from ellwand.measure.raw import RawWearer
from ellwand.measure.slips import COST, Slip, kept, list_slips, slips
from ellwand.model.finding import Finding
from ellwand.model.wearer import ARM_FIELDS, HANDS

ARMS_DIFFER: Final = 3.0
"""So much (cm) may two arms differ before we ask (our own figure)."""

NOT_HUMAN: Final = 40.0
"""What each value beyond human limits, and each pair of levels in an order no body has, takes off the log density:
more than any slip costs, so that there is always a question."""

FAR: Final = 5.0
"""A value nothing explains is measured in the wrong place or misread, which takes it some way off, not to twice the
usual: what it costs more for each factor of e (our own figure)."""

ODD: Final = 60.0
"""The squared distance beyond which a list is looked at for several slips, though one makes little difference."""

AT_ONCE: Final = 6
"""So many readings of the list are followed while several slips are looked for."""

BEHIND: Final = 45.0
"""A reading so much less likely (log) than the best of them is not followed."""

MAY_BE_CHILD: Final = 140.0
"""A height (cm) below which we ask whether the age was left out."""


def doubts(raw: RawWearer) -> tuple[Finding, ...]:
    """Questions about the measurements of a wearer, the furthest off first.

    ``subject`` is the field ('unit' when the whole list is in another unit: then nothing else is asked), ``measured``
    what was given and ``needed`` what was meant or to be expected (cm).  Fields in ``raw.confirmed`` are never asked
    about; they count as evidence, but for those which are improbable themselves.
    """
    return questions(raw, bodies_of(raw))


def questions(raw: RawWearer, bodies: Bodies) -> tuple[Finding, ...]:
    """``doubts`` for a wearer who has one of these ``bodies``."""
    arms = _arms(raw)
    values = {name: cm for name, cm in raw.values.items() if not (arms and name == "arm_length")}
    if not values or _clear(values, raw, bodies):
        return tuple(arms)
    reading = _likeliest(values, raw, bodies)
    if _of_another_age(values, raw, bodies) - COST["age"] > reading.score:
        return tuple(arms if "height" in raw.confirmed else [*arms, _age(raw, bodies)])
    whole = [slip for slip in reading.slips if slip.code == "slip-list"]
    asked = whole or [slip for slip in reading.slips if slip.subject not in raw.confirmed]
    found = arms + [_finding(slip, reading, raw, bodies) for slip in asked]
    return tuple(sorted(found, key=_far_off, reverse=True))


@dataclass(frozen=True, slots=True)
class _Reading:
    """One way to read the list: ``values`` (cm) with some ``slips`` put right, and how likely that is (log).

    ``spent``: what the slips took off the score.
    """

    values: Mapping[str, float]
    slips: tuple[Slip, ...] = ()
    score: float = -math.inf
    spent: float = 0.0

    @property
    def touched(self) -> set[str]:
        return {name for slip in self.slips if slip.code != "slip-list" for name in slip.meant}


def _clear(values: Mapping[str, float], raw: RawWearer, bodies: Bodies) -> bool:
    """Whether no slip could make the list likelier by as much as it costs: true of nearly everyone."""
    names, row = tuple(values), np.array(list(values.values()))
    if _not_human(names, row[None], raw)[0] or bodies.distance(names, row) > ODD:
        return False
    one, two = bodies.most_to_gain(names, row)
    return one < COST["unit"] and two < COST["exchanged"]


def _likeliest(values: Mapping[str, float], raw: RawWearer, bodies: Bodies) -> _Reading:
    given = _Reading(values)
    best = replace(given, score=_scores(tuple(values), np.array([list(values.values())]), raw, bodies)[0])
    front = [best]
    for _ in values:
        further = [longer for reading in front for longer in _further(reading, values, raw, bodies)]
        front = heapq.nlargest(AT_ONCE, further, key=lambda r: r.score)
        front = [reading for reading in front if reading.score > front[0].score - BEHIND]
        if front and front[0].score > best.score:
            best = front[0]
        elif not best.values or bodies.distance(tuple(best.values), np.array(list(best.values.values()))) < ODD:
            break
    return best


def _further(reading: _Reading, given: Mapping[str, float], raw: RawWearer, bodies: Bodies) -> list[_Reading]:
    """The likeliest readings with one more slip put right."""
    names, values = tuple(reading.values), reading.values
    known: list[Slip] = []
    unknown: list[Slip] = []
    for slip in _open_slips(reading, given, raw):
        (unknown if None in slip.meant.values() else known).append(slip)
    rows = np.tile(np.array(list(values.values())), (len(known), 1))
    for i, slip in enumerate(known):
        for name, cm in slip.meant.items():
            rows[i, names.index(name)] = cm
    found = [
        (float(s) - slip.cost, 0.0, slip) for s, slip in zip(_scores(names, rows, raw, bodies), known, strict=True)
    ]
    for slip in unknown:
        rest = {name: cm for name, cm in values.items() if name != slip.subject}
        far = abs(math.log(values[slip.subject] / bodies.expected(slip.subject, {})))
        broad = math.log(LIMITS[slip.subject].most) + FAR * far
        score = _scores(tuple(rest), np.array([list(rest.values())]), raw, bodies)[0]
        found.append((float(score) - slip.cost - broad, broad, slip))
    spent = reading.spent
    return [
        _Reading(_mended(values, slip), (*reading.slips, slip), score - spent, spent + slip.cost + broad)
        for score, broad, slip in heapq.nlargest(AT_ONCE, found, key=lambda f: f[0])
    ]


def _mended(values: Mapping[str, float], slip: Slip) -> dict[str, float]:
    """The values with the slip put right, without what nothing is known of."""
    mended = {name: slip.meant.get(name, cm) for name, cm in values.items()}
    return {name: cm for name, cm in mended.items() if cm is not None}


def _open_slips(reading: _Reading, given: Mapping[str, float], raw: RawWearer) -> Iterator[Slip]:
    """Slips in fields that were not put right yet; of what is confirmed, that it is not to be relied on."""
    touched = reading.touched
    whole = any(slip.code == "slip-list" for slip in reading.slips)
    free = {name: cm for name, cm in reading.values.items() if name not in touched | raw.confirmed}
    yield from slips(free, raw.unit)
    for name in reading.values:
        if name in raw.confirmed:
            yield Slip("slip-unlike", name, {name: None}, COST["unlike"])
    if not reading.slips:
        yield from list_slips(free, raw.unit)
    if whole and sum(slip.code == "kept" for slip in reading.slips) < (len(free) - 1) // 2:
        for name in free:
            yield kept(name, given[name])


def _scores(names: Names, rows: Array, raw: RawWearer, bodies: Bodies) -> Array:
    if not names:
        return np.zeros(len(rows))
    density: Array = bodies.log_density(names, rows) - NOT_HUMAN * _not_human(names, rows, raw)
    return density


def _not_human(names: Names, rows: Array, raw: RawWearer) -> Array:
    """How many values of each row are beyond human limits, or in an order no body has."""
    free = np.array([name not in raw.confirmed for name in names])
    least = np.array([LIMITS[name].least(raw.minor) for name in names])
    most = np.array([LIMITS[name].most for name in names])
    count: Array = (((rows < least) | (rows > most)) & free).sum(axis=1).astype(np.float64)
    for small, large in _ordered(names):
        if not {small, large} <= raw.confirmed:
            count += rows[:, names.index(small)] >= rows[:, names.index(large)]
    return count


def _ordered(names: Names) -> Iterator[tuple[str, str]]:
    for chain in ORDER:
        for pair in combinations([name for name in chain if name in names], 2):
            if pair != MAY_SWAP:
                yield pair


def _finding(slip: Slip, reading: _Reading, raw: RawWearer, bodies: Bodies) -> Finding:
    name = slip.subject
    if name == "unit":
        return Finding(slip.code, name, "look again", values=slip.values)
    measured, meant = raw.values[name], slip.meant[name]
    if meant is not None:
        return Finding(slip.code, name, "look again", measured, meant, values=slip.values)
    expected = bodies.expected(name, {k: v for k, v in reading.values.items() if k != name})
    if raw.minor and name == "height":
        return _age(raw, bodies)
    for small, large in _ordered(tuple(raw.values)):
        if name in (small, large) and raw.values[small] >= raw.values[large]:
            return _disorder(name, small, large, expected, raw)
    child = "yes" if name == "height" and raw.age is None and measured < MAY_BE_CHILD else ""
    return Finding(slip.code, name, "look again", measured, expected, values={"child": child})


def _disorder(name: str, small: str, large: str, expected: float, raw: RawWearer) -> Finding:
    about: dict[str, float | str] = {
        "other": large if name == small else small,
        "small": small,
        "large": large,
        "small_cm": raw.values[small],
        "large_cm": raw.values[large],
    }
    return Finding("slip-order", name, "look again", raw.values[name], expected, values=about)


def _of_another_age(values: Mapping[str, float], raw: RawWearer, bodies: Bodies) -> float:
    """The best score of a child's list, as it was written, at any other age."""
    names, row = tuple(values), np.array([list(values.values())])
    scores = [float(_scores(names, row, raw, other)[0]) for other in bodies.at_other_ages()]
    return max(scores, default=-math.inf)


def _age(raw: RawWearer, bodies: Bodies) -> Finding:
    usual = bodies.expected("height", {})
    return Finding("slip-age", "height", "look again", raw.values["height"], usual, values={"age": raw.age or 0.0})


def _arms(raw: RawWearer) -> list[Finding]:
    """Whether two arms differ more than arms do."""
    keys = {"arm_length", *ARM_FIELDS.values()}
    if not raw.arms or keys & raw.confirmed:
        return []
    left, right = (raw.arms.get(hand, raw.values["arm_length"]) for hand in HANDS)
    if abs(left - right) <= ARMS_DIFFER:
        return []
    return [Finding("slip-arms", "arm_length", "look again", left, right, values={"left": left, "right": right})]


def _far_off(finding: Finding) -> float:
    if not finding.measured or not finding.needed or finding.needed < 0:
        return math.inf
    return abs(math.log(finding.measured / finding.needed))
