"""The tables of one garment: its pieces, what to buy, the order of sewing, what to chalk."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from ellwand.depict import words as say
from ellwand.depict.chalk import What, chalk_rows
from ellwand.depict.naming import count_how, numbers, part_said, places, places_said
from ellwand.depict.shopping import shopping_rows
from ellwand.depict.words.lays import cloth_named, lay_name
from ellwand.geometry.lines import bounds
from ellwand.language import N_, _
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.names import named
from ellwand.model.table import Table
from ellwand.units import Unit, format_length

WHAT: Final[Mapping[What, str]] = {
    "corner": N_("corner"),
    "arc": N_("arc"),
    "curve": N_("curve"),
    "slit": N_("slit"),
    "neck": N_("neck"),
    "neck point": N_("neck point"),
    "facing": N_("facing"),
}
"""What can be chalked."""
HEADS: Final = (
    N_("no."),
    N_("piece"),
    N_("where"),
    N_("cut"),
    N_("cloth"),
    N_("width"),
    N_("length"),
    N_("what"),
    N_("how much"),
    N_("step"),
    N_("what to do"),
    N_("after"),
    N_("seam"),
    N_("thread"),
    N_("by hand"),
    N_("by machine"),
    N_("corner"),
    N_("from the cut end"),
    N_("from the left selvedge"),
    N_("note"),
)
"""What stands over columns."""


def _heads(*words: str) -> tuple[str, ...]:
    return tuple(_(word) for word in words)


def pieces_table(garment: Garment) -> Table:
    """Every piece with its number, how often it is cut, its cloth and its size as cut."""
    unit, key = garment.wearer.unit, numbers(garment.draft.pieces)
    rows = []
    for piece in garment.draft.pieces:
        left, low, right, high = bounds(piece.cut)
        rows.append(
            (
                str(key[piece.id]),
                named(piece.name),
                places_said(places(garment.draft, piece)),
                count_how(garment.draft, piece),
                cloth_named(piece.cloth),
                format_length(right - left, unit),
                format_length(high - low, unit),
            )
        )
    return Table(_("Pieces"), _heads("no.", "piece", "where", "cut", "cloth", "width", "length"), tuple(rows))


def shopping_table(garment: Garment) -> Table:
    """What to buy, and how much of it."""
    return Table(_("To buy"), _heads("what", "how much"), tuple(shopping_rows(garment)))


def steps_table(garment: Garment) -> Table:
    """The order of sewing: what to do, after which steps, how long a seam, thread and time."""
    unit = garment.wearer.unit
    by_hand = garment.choices.sewing.by == "hand"
    rows = tuple(
        (
            str(step.n),
            say.step(step, garment.draft, unit),
            ", ".join(map(str, step.needs)),
            format_length(step.length, unit) if step.length else "",
            f"{math.ceil(step.thread_m)} m" if step.thread_m else "",
            f"{round(step.minutes_hand if by_hand else step.minutes_machine)} min",
        )
        for step in garment.steps
    )
    head = _heads("step", "what to do", "after", "seam", "thread", "by hand" if by_hand else "by machine")
    return Table(_("Sewing"), head, rows)


def chalk_table(garment: Garment, lay: Lay) -> Table:
    """What to chalk on one cloth, in order: each point by its distance from the cut end and from the left selvedge."""
    unit = garment.wearer.unit
    rows = tuple(
        (
            str(row.step),
            str(row.key),
            f"{named(row.piece)} {part_said(row.part)}".strip(),
            _(WHAT[row.what]),
            row.letter,
            format_length(row.along, unit),
            format_length(row.across, unit),
            _more(row.radius, (row.to_along, row.to_across), row.what == "slit", row.note, unit),
        )
        for row in chalk_rows(lay, garment.draft.pieces, unit)
    )
    head = _heads("step", "no.", "piece", "what", "corner", "from the cut end", "from the left selvedge", "note")
    return Table(_("Chalk: {lay}", lay=lay_name(lay, garment.lays)), head, rows)


def _more(radius: float, to: tuple[float, float], slit: bool, note: str, unit: Unit) -> str:
    """What else there is to know of a point."""
    said = [_("radius {radius}", radius=format_length(radius, unit))] if radius else []
    if slit:
        said.append(_("to {along} and {across}", along=format_length(to[0], unit), across=format_length(to[1], unit)))
    return "; ".join([*said, *([note] if note else [])])
