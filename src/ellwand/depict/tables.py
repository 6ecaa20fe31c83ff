"""The tables of one garment: its pieces, what to buy, the order of sewing, what to chalk."""

from __future__ import annotations

import math

from ellwand.depict import words as say
from ellwand.depict.chalk import chalk_rows
from ellwand.depict.naming import cut_how, numbers, places
from ellwand.depict.shopping import shopping_rows
from ellwand.depict.words.lays import lay_name
from ellwand.geometry.lines import bounds
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.table import Table
from ellwand.units import Unit, format_length


def pieces_table(garment: Garment) -> Table:
    """Every piece with its number, how often it is cut, its cloth and its size as cut."""
    unit, key = garment.wearer.unit, numbers(garment.draft.pieces)
    rows = []
    for piece in garment.draft.pieces:
        left, low, right, high = bounds(piece.cut)
        rows.append(
            (
                str(key[piece.id]),
                piece.name,
                places(garment.draft, piece),
                cut_how(garment.draft, piece).removeprefix("cut "),
                piece.cloth,
                format_length(right - left, unit),
                format_length(high - low, unit),
            )
        )
    return Table("Pieces", ("no.", "piece", "where", "cut", "cloth", "width", "length"), tuple(rows))


def shopping_table(garment: Garment) -> Table:
    """What to buy, and how much of it."""
    return Table("To buy", ("what", "how much"), tuple(shopping_rows(garment)))


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
    return Table("Sewing", ("step", "what to do", "after", "seam", "thread", f"by {garment.choices.sewing.by}"), rows)


def chalk_table(garment: Garment, lay: Lay) -> Table:
    """What to chalk on one cloth, in order: each point by its distance from the cut end and from the left selvedge."""
    unit = garment.wearer.unit
    rows = tuple(
        (
            str(row.step),
            str(row.key),
            f"{row.piece} {row.part}".strip(),
            row.what,
            row.letter,
            format_length(row.along, unit),
            format_length(row.across, unit),
            _more(row.radius, (row.to_along, row.to_across), row.what == "slit", row.note, unit),
        )
        for row in chalk_rows(lay, garment.draft.pieces, unit)
    )
    head = ("step", "no.", "piece", "what", "corner", "from the cut end", "from the left selvedge", "note")
    return Table(f"Chalk: {lay_name(lay, garment.lays)}", head, rows)


def _more(radius: float, to: tuple[float, float], slit: bool, note: str, unit: Unit) -> str:
    """What else there is to know of a point."""
    said = [f"radius {format_length(radius, unit)}"] if radius else []
    if slit:
        said.append(f"to {format_length(to[0], unit)} and {format_length(to[1], unit)}")
    return "; ".join([*said, *([note] if note else [])])
