"""What is told beside the picture of a step: its stitches, thread, time, pressing, and what comes before it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from ellwand.model.draft import Draft
from ellwand.model.step import Step
from ellwand.model.stitch import Stitching
from ellwand.sew.rows import merged
from ellwand.units import CM_PER, Unit, format_length

Fact = tuple[str, str]
"""What it is, and what is told of it."""
SEAM_CLASSES: Final = {
    "1": "layers on each other",
    "2": "lapped",
    "3": "bound",
    "4": "flat, edge to edge",
    "5": "decorative",
    "6": "edge finished",
    "7": "sewn on",
    "8": "one piece enclosed",
}
"""The classes of ISO 4916:1991, in our words."""


def step_facts(step: Step, draft: Draft, unit: Unit) -> tuple[Fact, ...]:
    """The facts of a step under their names, in the order of work; what it does not have is left out."""
    out: list[Fact] = []
    if step.needs:
        out.append(("after", _steps(step.needs)))
    if step.seams:
        out.append(("lay", f"{_sides(draft)} sides together"))
    if step.length > 0 and step.rows:
        out.append(("length", format_length(step.length, unit) + " in all"))
    if step.seam_iso:
        finish = f"{draft.choices.sewing.finish}; " if step.seams else ""
        out.append(("seam", f"{finish}ISO 4916 class {step.seam_iso} ({SEAM_CLASSES[step.seam_iso]})"))
    out += [("stitch" if i == 0 else "", stitch_said(row, unit)) for i, row in enumerate(merged(step.rows))]
    if step.rows:
        out.append(("thread", thread_said(step.rows, unit)))
    if minutes := _minutes(step, draft):
        out.append(("time", minutes))
    if step.reinforce:
        out.append(("hold", _held(step)))
    if step.press:
        out.append(("press", step.press.removeprefix("press ")))
    return tuple(out)


def facts_line(step: Step, draft: Draft, unit: Unit) -> str:
    """The facts of a step on one line; '' for none."""
    facts = [(name, text) for name, text in step_facts(step, draft, unit) if name not in ("after", "lay")]
    return "; ".join(f"{name}: {text}" if name else text for name, text in facts)


def stitch_said(row: Stitching, unit: Unit) -> str:
    """'running (ISO 4915: 209), 3.3 to the cm, 116 cm'."""
    number = f" (ISO 4915: {row.iso})" if row.iso else ""
    per = "inch" if unit == "in" else "cm"
    return f"{row.stitch}{number}, {row.per_cm * CM_PER[unit]:.2g} to the {per}, {format_length(row.length, unit)}"


def thread_said(rows: Sequence[Stitching], unit: Unit) -> str:
    """Thread with its waste, least and most: in metres, or in yards for who reads inches."""
    per, name = (0.9144, "yd") if unit == "in" else (1.0, "m")
    low, high = (sum(row.thread_m[k] for row in rows) / per for k in (0, 1))
    return f"{_range(low, high, 1)} {name}"


def _minutes(step: Step, draft: Draft) -> str:
    """How long it takes as the maker sews, from a quick hand to a new one; about how long the other way."""
    by = draft.choices.sewing.by
    low, high = (sum(row.minutes[k] for row in step.rows) for k in (0, 1))
    if high <= 0:
        return ""
    other, about = ("machine", step.minutes_machine) if by == "hand" else ("hand", step.minutes_hand)
    said = f"{_time(low, high)} by {by}"
    return f"{said} (about {_time(about, about)} by {other})" if about > 0 and step.seams else said


def _time(low: float, high: float) -> str:
    if high >= 90:
        return f"{_range(low / 60, high / 60, 1)} h"
    return f"{_range(max(1.0, low), max(1.0, high), 0)} min"


def _range(low: float, high: float, places: int) -> str:
    least, most = (f"{value:.{places}f}" for value in (low, high))
    return least if least == most else f"{least} to {most}"


def _held(step: Step) -> str:
    """How many places take strain, and what holds them."""
    kinds = [place.by for place in step.reinforce]
    out = []
    for kind in dict.fromkeys(kinds):
        count = kinds.count(kind)
        places = "one place" if count == 1 else f"{count} places"
        out.append(f"{'a ' if kind in ('bar', 'patch') else ''}{kind} at {places}")
    return "; ".join(out)


def _steps(needs: Sequence[int]) -> str:
    numbers = [str(n) for n in needs]
    listed = numbers[0] if len(numbers) == 1 else f"{', '.join(numbers[:-1])} and {numbers[-1]}"
    return f"step{'s' if len(numbers) > 1 else ''} {listed}"


def _sides(draft: Draft) -> str:
    return "wrong" if draft.choices.sewing.finish == "french" else "right"
