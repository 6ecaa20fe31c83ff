"""The whole job with the maker's freedom in it: of the structures left open the one that saves most cloth."""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Final

from ellwand.choose import Sheet
from ellwand.depict.words import why
from ellwand.depict.words.freedom import changes_said, put_together
from ellwand.errors import CannotDraft
from ellwand.language import _
from ellwand.lay import Stop
from ellwand.model.cloth import length_on_table
from ellwand.model.finding import Finding
from ellwand.model.freedom import Tried
from ellwand.model.garment import Garment
from ellwand.pipeline import make, proved, read_wearer
from ellwand.plan.laying import fails, lies_on_cloth, needs, taken
from ellwand.plan.ranges import ranges_of, settled
from ellwand.plan.structures import WORTH_A_SEAM, best_structure
from ellwand.units import Unit

FINALISTS: Final = 2
"""So many structures share the search."""
SHARE: Final = 0.3
"""Of the seconds, for telling the structures apart."""
SECOND_LOOK: Final = 4
NEAR: Final = 1.05
"""Before that so many are laid again, of those that take at most so many times the best one's cloth."""
BY_THEN: Final = 0.45
"""Of the seconds, when that ends too."""
LONGER: Final = 4
"""So many times longer."""
SHARES: Final = 24
"""Steps of the ranges that are tried where the fullest that fits is asked for."""


def make_freely(
    sheet: Sheet,
    *,
    seconds: float = 5.0,
    effort: int = 0,
    seed: int = 1,
    unit: Unit | None = None,
    progress: Callable[[str], None] = lambda text: None,
    stop: Stop = lambda: False,
) -> Garment:
    """The whole job for one garment as pipeline.make does it, put together as saves most cloth where that is open.

    What is taken is the same garment when sewn, proves no worse, and saves 5 cm of cloth for each metre of seam more;
    a finding tells of it.  ``take = "fullest"`` on a length of cloth: the fullest within the ranges that fits it.
    Raises BadInput (CannotDraft among it) with one sentence.
    """
    start = time.monotonic()
    sheet = _fullest_that_fits(sheet)

    def over(share: float) -> bool:
        """Whether the structures have had their share of the time."""
        return stop() or (0 < seconds * share < time.monotonic() - start and not effort)

    tried = best_structure(sheet, stop=lambda: over(SHARE))
    finalists = _finalists(tried, lambda: over(BY_THEN)) if seconds or effort else list(tried[:1])
    plain = next((each for each in tried if not each.way.changes), None)
    left = max(seconds - (time.monotonic() - start), seconds / 3) if seconds else 0.0
    if len(tried) < 2:
        return make(sheet, seconds=left, effort=effort, seed=seed, unit=unit, progress=progress, stop=stop)
    made = []
    for each in finalists:
        if each.way.changes:
            shown = unit or each.garment.wearer.unit
            progress(_("trying it with {changes}", changes=changes_said(each.way.changes, shown)))
        garment = make(
            replace(sheet, choices=each.way.choices),
            seconds=left / len(finalists),
            effort=math.ceil(effort / len(finalists)),
            seed=seed,
            unit=unit,
            progress=progress,
            stop=stop,
        )
        made.append((_length(garment) + WORTH_A_SEAM * each.seams, each, garment))
    chosen, garment = min(made, key=lambda one: one[0])[1:]
    if chosen.way.changes and plain:
        found = _saving(chosen, plain)
        progress(why(found, garment.wearer.unit))
        return replace(garment, proof=replace(garment.proof, findings=(*garment.proof.findings, found)))
    return garment


def _length(garment: Garment) -> float:
    return math.fsum(taken(garment.lays, cloth.name) for cloth in garment.cloths)


def _finalists(tried: Sequence[Tried], over: Stop) -> list[Tried]:
    """The best of those that a second, longer look, as far as there is time for it, leaves near the best."""
    near = [each for each in tried if each.length <= NEAR * tried[0].length][:SECOND_LOOK] if len(tried) > 1 else []
    again = [
        each if over() else replace(each, length=min(each.length, needs(each.garment, longer=LONGER))) for each in near
    ]
    again.sort(key=lambda each: each.length + WORTH_A_SEAM * each.seams)
    return again[:FINALISTS]


def _saving(chosen: Tried, plain: Tried) -> Finding:
    """What was put together another way, and how much cloth that takes beside the plainest, both laid briefly."""
    values = {"changes": put_together(chosen.way.changes)}
    return Finding("put-together", "garment", "sound", chosen.length, plain.length, values=values)


def _fullest_that_fits(sheet: Sheet) -> Sheet:
    """Where the fullest is asked for and the cloth's length is known: its ranges settled as far up as that allows."""
    at_hand, ranges = length_on_table(sheet.cloth), ranges_of(sheet.choices)
    if sheet.choices.take != "fullest" or at_hand is None or not ranges:
        return sheet
    wearer, questions = read_wearer(sheet)
    for step in range(SHARES, -1, -1):
        numbers = {each.path: each.at(step / SHARES, sheet.choices.sewing.chalk) for each in ranges}
        choices = settled(sheet.choices, numbers)
        try:
            garment = proved(sheet, choices, wearer, questions)
            if not fails(garment) and lies_on_cloth(garment) and needs(garment) <= at_hand:
                return replace(sheet, choices=choices)
        except CannotDraft:
            continue
    return sheet
