"""Motifs that repeat along the garment's lines: how many, where each one lies, and that each lies well."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from ellwand.adorn.repeats.faults import MENDS, OnCloth
from ellwand.adorn.repeats.places import LIPS, joins_usually, laid, motif_in, stands_upright
from ellwand.adorn.repeats.rows import TURNS, Limits, Way, fills
from ellwand.adorn.runs.edges import hand_of
from ellwand.adorn.runs.places import runs_at
from ellwand.errors import CannotDraft
from ellwand.language import _
from ellwand.model.draft import Draft
from ellwand.model.names import named
from ellwand.model.repeat import Repeat, RepeatChoice
from ellwand.model.run import Run
from ellwand.model.wearer import HANDS
from ellwand.units import format_length

ROUND_ARM: Final = frozenset({"cuffs", "armholes", "arm ring", "upper arm ring"})
"""Closed lines that begin at a seam: a gap lies there."""
USUAL_GAP: Final = (0.25, 1.0)
"""Shares of a motif's width between two that do not join: our own figure."""
TRIES: Final = 60
"""Ways to fill a line that are looked at on the pieces before it is given up."""
FEWER: Final = 5
"""The same, to find what would do."""
OTHERS: Final = (1.0, 1.01, 0.88, 1.12, 0.78, 1.25, 0.68, 1.4, 0.6, 0.53, 0.46, 0.4, 0.35)
"""Sizes that are tried for the mend, as shares of the least or the most that was asked."""
WIDER: Final = (1.5, 2.5)
"""And how much wider the gap."""


def repeated(draft: Draft) -> Draft:
    """The draft with every repeat that is chosen in its adornment.

    Raises CannotDraft where one cannot go where it was asked, with the nearest that would do.
    """
    if not draft.choices.repeats:
        return draft
    made: list[Repeat] = []
    for i, choice in enumerate(draft.choices.repeats):
        try:
            made += repeats_along(draft, choice)
        except CannotDraft as error:
            where = f"garment.repeats[{i + 1}]"
            key = {"at": "along"}.get(error.where, error.where)
            raise CannotDraft(f"{where}.{key}" if key else where, error.problem, error.mend) from None
    return replace(draft, adornment=replace(draft.adornment, repeats=tuple(made)))


def repeats_along(draft: Draft, choice: RepeatChoice) -> tuple[Repeat, ...]:
    """One choice on every line of its place, with motifs of one size.

    Raises CannotDraft.
    """
    runs = runs_at(draft, choice.along, choice.height)
    if any(run.along == "seam" for run in runs):
        raise CannotDraft(
            "along",
            _("the {place} is a seam, and motifs would lie across it", place=named(choice.along.replace("-", " "))),
            _("choose another line"),
        )
    limits = limits_of(choice, upright=stands_upright(choice, runs[0]))
    cloth = OnCloth(draft)
    found, fault = _good(cloth, runs, choice, limits, TRIES)
    if found is None:
        raise CannotDraft("", *_cannot(cloth, runs, choice, limits, fault))
    _seen_while_turned_up(draft, choice, found[0])
    return found


def _seen_while_turned_up(draft: Draft, choice: RepeatChoice, repeat: Repeat) -> None:
    """Refuse motifs on what a child's deep hem hides until it is let down.

    Raises CannotDraft.
    """
    if draft.taken_up is None or draft.taken_up.by != "deep hem":
        return
    body, sleeves = draft.taken_up.body, max(draft.taken_up.sleeves.values(), default=0.0)
    up = {"hem": body, "skirt ring": body, "cuffs": sleeves, "arm ring": sleeves}.get(choice.along, 0.0)
    ring = choice.height is not None
    low = choice.height - repeat.motif.size[1] / 2 if choice.height is not None else choice.inset
    if low < up:
        least = format_length(up + (repeat.motif.size[1] / 2 if ring else 0.0) + 0.5)
        raise CannotDraft(
            "height" if ring else "inset",
            _("{up} are turned up until the child has grown, and would hide the motifs", up=format_length(up)),
            _("give {least}, and they are seen from the first day", least=least),
        )


def _good(
    cloth: OnCloth, runs: Sequence[Run], choice: RepeatChoice, limits: Limits, tries: int
) -> tuple[tuple[Repeat, ...] | None, str]:
    """The nearest to the wish that lies well on the pieces, or what is wrong with the nearest that does not."""
    ways, fault = [_way(run, choice) for run in runs], ""
    for fill in itertools.islice(fills(ways, limits), tries):
        tried = tuple(laid(run, rows, choice, fill.size, limits) for run, rows in zip(runs, fill.rows, strict=True))
        wrong = next((each for each in map(cloth.fault, tried) if each), "")
        if not wrong:
            return tried, ""
        fault = fault or wrong
    return None, fault


def limits_of(choice: RepeatChoice, *, upright: bool = False) -> Limits:
    """Within what the motifs may vary (cm)."""
    joins = joins_usually(choice)
    wish = math.fsum(choice.size) / 2
    usual = (0.0, 0.0) if joins else (USUAL_GAP[0] * wish, USUAL_GAP[1] * wish)
    wide, high = motif_in(choice, 1.0).size
    across = wide / high if upright else high / wide
    return Limits(choice.size, choice.gap or usual, across, choice.inset, choice.corners, upright)


def _way(run: Run, choice: RepeatChoice) -> Way:
    around_body = run.closed and choice.along not in ROUND_ARM and hand_of(run) not in HANDS
    axes: tuple[float, ...] = ()
    if choice.mirrored and not (choice.along in LIPS and run.along == "edge"):
        axes = (0.0, run.length / 2) if run.closed else (run.length / 2,)
    return Way(
        run.length,
        run.closed,
        tuple(zip(run.corners, run.turns, strict=True)),
        axes,
        run.seams if choice.clear_of_seams else (),
        around_body,
    )


def _cannot(cloth: OnCloth, runs: Sequence[Run], choice: RepeatChoice, limits: Limits, fault: str) -> tuple[str, str]:
    """What is wrong, and the nearest that would do."""
    size, gap = (_span(each) for each in (limits.size, limits.gap))
    told = {"size": size, "gap": gap, "place": named(runs[0].name), "length": format_length(runs[0].length)}
    if fault:
        what = _(
            "with {motif} {size} wide along the {place}, {length} long, {fault}",
            motif=choice.motif,
            fault=_(fault),
            **told,
        )
    elif choice.clear_of_seams:
        what = _(
            "no whole number of motifs {size} wide and {gap} apart goes along the {place}, {length} long and clear of"
            " its seams",
            **told,
        )
    else:
        what = _("no whole number of motifs {size} wide and {gap} apart goes along the {place}, {length} long", **told)
    for share in OTHERS:
        low, high = limits.size
        near = (0.88 * share * low, share * low) if share <= 1 else (share * high, 1.12 * share * high)
        found = _good(cloth, runs, choice, replace(limits, size=near), FEWER)[0]
        if found is not None:
            return what, _("a size of {size} would do", size=format_length(found[0].size))
    for share in WIDER:
        found = _good(cloth, runs, choice, replace(limits, gap=(limits.gap[0], limits.gap[1] * share + 1.0)), FEWER)[0]
        if found is not None:
            gaps = [row.gap for each in found for row in each.rows]
            return what, _("a gap of {gap} would do", gap=_span((min(gaps), max(gaps))))
    if choice.along == "hem" and any(abs(turn) >= TURNS for run in runs for turn in run.turns):
        return _("{what}, which has corners", what=what), _('level it first: choose hem = "arc" for the gores')
    if fault in MENDS:
        return what, _(MENDS[fault])
    if choice.clear_of_seams:
        return what, _("give size or gap a wider range, or leave clear_of_seams out")
    return what, _("give size or gap a wider range")


def _span(limits: tuple[float, float]) -> str:
    low, high = (format_length(each) for each in limits)
    return low if low == high else _("{low} to {high}", low=low, high=high)
