"""The question turned round: from this cloth the longest garment, the fullest, or the most of them.

Every candidate on the chalk grid takes a length of cloth that does not depend on how much is at hand, and the answer
is the largest that takes no more than there is.  So more cloth never gives less, and the same cloth the same answer.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cache
from math import floor, inf, pi
from typing import Final

from ellwand.choose import Sheet
from ellwand.draft.size import FLOOR_CLEARANCE
from ellwand.errors import BadInput, CannotDraft, InternalFault
from ellwand.language import _
from ellwand.model.choices import Choices, Gore, Span
from ellwand.model.cloth import length_on_table
from ellwand.model.freedom import Aim, Limit, Stretched, Way
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.names import named
from ellwand.pipeline import proved, read_wearer
from ellwand.plan.laying import fails, laid, lies_on_cloth, taken, takes_at_least
from ellwand.plan.ranges import LENGTH, base_path, settled
from ellwand.plan.same import sewn
from ellwand.plan.structures import best_structure
from ellwand.units import format_length, round_near, round_up

STRIDE: Final = 4
"""Every fourth candidate is looked at first, then those between."""
WAYS: Final = 2
"""So many of the best structures are laid for each candidate."""
NEAR: Final = 1.1
"""A candidate whose instant lay takes at most so much more than there is, is searched for longer."""
BATCH: Final = 3
"""So many garments are laid together; more of them are laid in such batches, one after another."""
MOST: Final = 60
"""More garments than this are not counted."""
NARROW_GORE: Final = 10.0
"""A gore without a range may be as narrow as this (cm): our own figure."""
SLACK: Final = 0.05
"""The cloth may be short by this (cm)."""


def stretch(sheet: Sheet, aim: Aim, *, effort: int = 0) -> Stretched:
    """What the cloth at hand gives.

    ``longest``: its length, within the range given or up to the floor; ``fullest``: the bases of its gores, within
    their ranges or as wide as gores can be; ``most``: how many of it as the sheet has it.
    Raises BadInput (CannotDraft among it) where no length of cloth is given, nothing can be stretched, or the cloth is
    too short for the least.
    """
    cloth = sheet.cloth
    at_hand = length_on_table(cloth)
    if at_hand is None:
        raise BadInput(
            f"cloth.{cloth.name}.length",
            _("to stretch a cloth its length must be known, and it is to be bought at need"),
            _('write what there is, as in length = "3.5 m"'),
        )
    open_ended = replace(sheet, cloths=tuple(replace(each, length=None) for each in sheet.cloths))
    trials = _Stretching(open_ended, _scale(open_ended, aim), aim == "most", effort)
    found = trials.largest(lambda k: trials.fits(k, at_hand) is not None)
    if found is None:
        raise _too_little(trials, open_ended, at_hand)
    most = trials.largest(lambda k: trials.least(k) <= at_hand + SLACK)
    return _told(trials, aim, at_hand, found, max(found, most or found))


def _told(trials: _Stretching, aim: Aim, at_hand: float, k: int, most: int) -> Stretched:
    on_cloth = trials.fits(k, at_hand)
    if on_cloth is None:
        raise InternalFault("what fitted the cloth no longer does")
    limit: Limit = trials.scale.ends
    next_needs = 0.0
    if k < trials.scale.high:
        limit = "cloth" if trials.candidates(k + 1) else "draft"
        next_needs = trials.needed(k + 1)
    garment = replace(on_cloth.candidate.garment, lays=on_cloth.lays)
    return Stretched(
        aim=aim,
        value=_value(trials, aim, k),
        most=_value(trials, aim, most),
        at_hand=at_hand,
        used=on_cloth.needs,
        left=max(0.0, at_hand - on_cloth.needs),
        limit=limit,
        next_needs=next_needs,
        garment=garment,
        changes=on_cloth.candidate.way.changes,
        bases=tuple((g.place, g.base) for g in garment.choices.gores if isinstance(g.base, float)),
    )


def _value(trials: _Stretching, aim: Aim, k: int) -> float:
    if aim == "fullest":
        return max(sewn(each.garment).sweep for each in trials.candidates(k))
    return round(k * trials.scale.step, 6)


def _too_little(trials: _Stretching, sheet: Sheet, at_hand: float) -> BadInput:
    """Why not even the least can be had."""
    ks = [k for k in range(trials.scale.low, trials.scale.high + 1, STRIDE) if trials.candidates(k)]
    where = f"cloth.{sheet.cloth.name}.length"
    if not ks:
        return CannotDraft(
            where, _("no such garment can be drafted and proved sound"), _("see what ellwand prove says of it")
        )
    least = min(trials.needed(k) for k in ks[:STRIDE])
    unit = sheet.cloth.unit
    return CannotDraft(
        where,
        _(
            "on the table there is {at_hand} of it, and the least of these garments takes {least}",
            at_hand=format_length(at_hand, unit),
            least=format_length(least, unit),
        ),
        _("take more cloth, or a wider one"),
    )


@dataclass(frozen=True, slots=True)
class _Scale:
    """Candidates by number, from ``low`` to ``high``; ``ends``: what keeps the last from being more."""

    low: int
    high: int
    step: float
    choices: Callable[[Choices, int], Choices]
    ends: Limit


@dataclass(frozen=True, slots=True)
class _Candidate:
    """A garment in one structure, sound as far as it is proved."""

    garment: Garment
    way: Way


@dataclass(frozen=True, slots=True)
class _OnCloth:
    """A candidate laid; ``needs`` of the main length (cm)."""

    candidate: _Candidate
    lays: tuple[Lay, ...]
    needs: float


class _Stretching:
    """The candidates of one scale, each drafted, bounded and laid once."""

    def __init__(self, sheet: Sheet, scale: _Scale, copies: bool, effort: int) -> None:
        self.sheet, self.scale, self.copies, self.effort = sheet, scale, copies, effort
        self.wearer, self.questions = read_wearer(sheet)
        self.ways = [tried.way for tried in best_structure(sheet)[:WAYS]] or [Way((), sheet.choices)]
        self.candidates = cache(self._candidates)
        self.least = cache(self._least)
        self.laid = cache(self._laid)
        self.batch = cache(self._batch)

    def _candidates(self, k: int) -> tuple[_Candidate, ...]:
        out = []
        for way in self.ways:
            try:
                garment = proved(self.sheet, self.scale.choices(way.choices, k), self.wearer, self.questions)
            except CannotDraft:
                continue
            if not fails(garment) and lies_on_cloth(garment):
                out.append(_Candidate(garment, way))
        return tuple(out)

    def _least(self, k: int) -> float:
        """No lay of this candidate takes less (cm)."""
        copies, cloth = (k if self.copies else 1), self.sheet.cloth
        return min((takes_at_least(each.garment, cloth, copies) for each in self.candidates(k)), default=inf)

    def _laid(self, k: int, effort: int) -> _OnCloth:
        return min((self._on_cloth(each, k, effort) for each in self.candidates(k)), key=lambda found: found.needs)

    def _on_cloth(self, candidate: _Candidate, k: int, effort: int) -> _OnCloth:
        if self.copies:
            return _OnCloth(candidate, (), self.batch(candidate.way, k, effort))
        lays = laid(candidate.garment, effort)
        return _OnCloth(candidate, lays, taken(lays, self.sheet.cloth.name))

    def _batch(self, way: Way, count: int, effort: int) -> float:
        """So many alike, a few at a time laid together, one batch after another (cm)."""
        apart = min(
            (self.batch(way, i, effort) + self.batch(way, count - i, effort) for i in range(1, count // 2 + 1)),
            default=inf,
        )
        if count > BATCH:
            return apart
        garment = next(each.garment for each in self.candidates(count) if each.way == way)
        return min(apart, taken(laid(garment, effort, copies=count), self.sheet.cloth.name))

    def fits(self, k: int, room: float) -> _OnCloth | None:
        """That candidate on so much cloth (cm), if it can be had."""
        if self.least(k) > room + SLACK:
            return None
        found = self.laid(k, 0)
        if self.effort and room + SLACK < found.needs <= NEAR * room:
            found = self.laid(k, self.effort)
        return found if found.needs <= room + SLACK else None

    def largest(self, does: Callable[[int], bool]) -> int | None:
        """The largest candidate that does: every fourth is looked at first, from the top, then those above it."""
        low, high = self.scale.low, self.scale.high
        coarse = [*range(high, low, -STRIDE), low]
        found = next((k for k in coarse if does(k)), None)
        if found is None:
            return None
        return next(k for k in range(min(found + STRIDE - 1, high), found - 1, -1) if k == found or does(k))

    def needed(self, k: int) -> float:
        """What that candidate took, as far as it was laid (cm); else what it takes at the very least."""
        return self.laid(k, 0).needs if self.candidates(k) else 0.0


# --- what is varied -------------------------------------------------------------------------------------


def _scale(sheet: Sheet, aim: Aim) -> _Scale:
    if aim == "most":
        return _Scale(1, MOST, 1.0, lambda choices, k: choices, "count")
    if sheet.choices.other is not None:
        raise BadInput(
            "garment.style",
            _(
                "only a garment with a body and sleeves can be made longer or fuller, not a {style}",
                style=named(sheet.choices.style),
            ),
            _("ask how many the cloth gives, with --for most"),
        )
    return _lengths(sheet) if aim == "longest" else _bases(sheet)


def _lengths(sheet: Sheet) -> _Scale:
    """From the hip to the floor, or the range given, on the chalk grid."""
    choices, grid = sheet.choices, sheet.choices.sewing.chalk
    wearer, _ = read_wearer(sheet)
    given = choices.length
    ends: Limit = "range" if isinstance(given, Span) else "floor"
    low, high = wearer["nape_to_floor"] - wearer["hip_to_floor"], wearer["nape_to_floor"] - FLOOR_CLEARANCE
    if isinstance(given, Span):
        low, high = given.low, given.high
    first = round(round_up(low, grid) / grid)
    last = max(first, floor(high / grid + 1e-6))
    return _Scale(first, last, grid, lambda c, k: settled(c, {LENGTH: round(k * grid, 6)}), ends)


def _bases(sheet: Sheet) -> _Scale:
    """All gores from the least to the widest together, the one with most room by two steps of the chalk grid."""
    choices, grid = sheet.choices, sheet.choices.sewing.chalk
    if not choices.gores:
        raise BadInput(
            "garment.gores",
            _("without gores there is nothing to make fuller"),
            _("set some, or ask for the longest with --for longest"),
        )
    levels = proved(sheet, choices, *read_wearer(sheet)).draft.dimensions.levels
    spans = [_span(gore, levels) for gore in choices.gores]
    steps = max(1, floor(max(span.high - span.low for span in spans) / (2 * grid)))

    def at(c: Choices, k: int) -> Choices:
        numbers = {
            base_path(i): round_near(span.low + (span.high - span.low) * k / steps, grid)
            for i, span in enumerate(spans)
        }
        return settled(c, numbers)

    is_range = all(isinstance(gore.base, Span) for gore in choices.gores)
    return _Scale(0, steps, 2 * grid, at, "range" if is_range else "draft")


def _span(gore: Gore, levels: Mapping[str, float]) -> Span:
    """Its range; of a gore that has none from a narrow one to a quarter circle."""
    if isinstance(gore.base, Span):
        return gore.base
    start = gore.start if isinstance(gore.start, float) else levels[gore.start]
    return Span(min(gore.base, NARROW_GORE), max(gore.base, start * pi / 2))
