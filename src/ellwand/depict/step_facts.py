"""What is told beside the picture of a step: its stitches, thread, time, pressing, and what comes before it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from ellwand.depict.stitches import STITCH_NAMES
from ellwand.depict.words.step_asking import FINISH_NAMES, TOWARD, facing, listed
from ellwand.language import N_, _, decimal_mark, plural
from ellwand.model.draft import Draft
from ellwand.model.step import Step
from ellwand.model.stitch import Stitching
from ellwand.sew.rows import merged
from ellwand.units import CM_PER, Unit, decimal, format_length

Fact = tuple[str, str]
"""What it is, and what is told of it."""
SEAM_CLASSES: Final = {
    "1": N_("layers on each other"),
    "2": N_("lapped"),
    "3": N_("bound"),
    "4": N_("flat, edge to edge"),
    "5": N_("decorative"),
    "6": N_("edge finished"),
    "7": N_("sewn on"),
    "8": N_("one piece enclosed"),
}
"""The classes of ISO 4916:1991, in our words."""


FACTS: Final[Mapping[str, str]] = {
    "after": N_("after"),
    "lay": N_("lay"),
    "length": N_("length"),
    "seam": N_("seam"),
    "stitch": N_("stitch"),
    "thread": N_("thread"),
    "time": N_("time"),
    "hold": N_("hold"),
    "press": N_("press"),
}


def step_facts(step: Step, draft: Draft, unit: Unit) -> tuple[Fact, ...]:
    """The facts of a step under their names, in the order of work; what it does not have is left out."""
    return tuple((_named(name), text) for name, text in _facts(step, draft, unit))


def facts_line(step: Step, draft: Draft, unit: Unit) -> str:
    """The facts of a step on one line; '' for none."""
    facts = [(name, text) for name, text in _facts(step, draft, unit) if name not in ("after", "lay")]
    return "; ".join(f"{_named(name)}: {text}" if name else text for name, text in facts)


def _named(name: str) -> str:
    return _(FACTS[name]) if name else ""


def _facts(step: Step, draft: Draft, unit: Unit) -> list[Fact]:
    out: list[Fact] = []
    if step.needs:
        out.append(("after", _steps(step.needs)))
    if step.seams:
        out.append(("lay", facing(draft)))
    if step.length > 0 and step.rows:
        out.append(("length", _("{length} in all", length=format_length(step.length, unit))))
    if step.seam_iso:
        finish = f"{_(FINISH_NAMES[draft.choices.sewing.finish])}; " if step.seams else ""
        kind = _("ISO 4916 class {number} ({kind})", number=step.seam_iso, kind=_(SEAM_CLASSES[step.seam_iso]))
        out.append(("seam", f"{finish}{kind}"))
    out += [("stitch" if i == 0 else "", stitch_said(row, unit)) for i, row in enumerate(merged(step.rows))]
    if step.rows:
        out.append(("thread", thread_said(step.rows, unit)))
    if minutes := _minutes(step, draft):
        out.append(("time", minutes))
    if step.reinforce:
        out.append(("hold", _held(step)))
    if step.press:
        out.append(("press", _pressed(step)))
    return out


PRESSED: Final[Mapping[str, str]] = {
    "press the allowances open": N_("the allowances open"),
    "press from the inside": N_("from the inside"),
    "press the fold": N_("the fold"),
}
"""What the iron does, but for allowances to one side."""


def _pressed(step: Step) -> str:
    if step.press in PRESSED:
        return _(PRESSED[step.press])
    return _("the allowances {toward}", toward=_(TOWARD[step.folds]))


def stitch_said(row: Stitching, unit: Unit) -> str:
    """'running (ISO 4915: 209), 3.3 to the cm, 116 cm'."""
    stitch = _(STITCH_NAMES[row.stitch])
    if row.iso:
        stitch = _("{stitch} (ISO 4915: {number})", stitch=stitch, number=row.iso)
    close = f"{row.per_cm * CM_PER[unit]:.2g}".replace(".", decimal_mark())
    close = _("{count} to the inch", count=close) if unit == "in" else _("{count} to the cm", count=close)
    return f"{stitch}, {close}, {format_length(row.length, unit)}"


def thread_said(rows: Sequence[Stitching], unit: Unit) -> str:
    """Thread with its waste, least and most: in metres, or in yards for who reads inches."""
    per, name = (0.9144, "yd") if unit == "in" else (1.0, "m")
    low, high = (sum(row.thread_m[k] for row in rows) / per for k in (0, 1))
    return f"{_range(low, high, 1)} {name}"


def _minutes(step: Step, draft: Draft) -> str:
    """How long it takes as the maker sews, from a quick hand to a new one; about how long the other way."""
    low, high = (sum(row.minutes[k] for row in step.rows) for k in (0, 1))
    if high <= 0:
        return ""
    time = _time(low, high)
    if draft.choices.sewing.by == "hand":
        other = step.minutes_machine
        if other <= 0 or not step.seams:
            return _("{time} by hand", time=time)
        return _("{time} by hand (about {other} by machine)", time=time, other=_time(other, other))
    other = step.minutes_hand
    if other <= 0 or not step.seams:
        return _("{time} by machine", time=time)
    return _("{time} by machine (about {other} by hand)", time=time, other=_time(other, other))


def _time(low: float, high: float) -> str:
    if high >= 90:
        return f"{_range(low / 60, high / 60, 1)} h"
    return f"{_range(max(1.0, low), max(1.0, high), 0)} min"


def _range(low: float, high: float, places: int) -> str:
    least, most = (decimal(value, places) for value in (low, high))
    return least if least == most else _("{low} to {high}", low=least, high=most)


def _held(step: Step) -> str:
    """How many places take strain, and what holds them."""
    kinds = [place.by for place in step.reinforce]
    return "; ".join(_at_places(kind, kinds.count(kind)) for kind in dict.fromkeys(kinds))


def _at_places(kind: str, count: int) -> str:
    if kind == "bar":
        return plural("a bar at one place", "a bar at {n} places", count)
    return plural("back stitches at one place", "back stitches at {n} places", count)


def _steps(needs: Sequence[int]) -> str:
    return plural("step {numbers}", "steps {numbers}", len(needs), numbers=listed([str(n) for n in needs]))
