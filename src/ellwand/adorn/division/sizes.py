"""A division as it lies on this garment, in numbers; and whether it can be sewn."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from ellwand.adorn.division.field import level_of, pieces_of, rows_of
from ellwand.errors import CannotDraft
from ellwand.language import _
from ellwand.model.heraldry import Division, Field
from ellwand.units import format_length

NARROWEST: Final = 3.0
"""A narrower stripe or check is nearly all seam allowance (cm): common practice, no source."""
NEAREST: Final = 5.0
"""A level line lies no nearer to the hem or the shoulder than this (cm): our own figure."""


def settled(division: Division, field: Field, levels: Mapping[str, float]) -> Division:
    """The division with its count and its level in numbers (cm above the hem).

    Raises CannotDraft where its stripes or checks would be too narrow to sew, or its line lies outside the field.
    """
    at = division.at
    if at is not None:
        at = levels[at] if isinstance(at, str) else at
        if not field.bottom + NEAREST <= at <= field.top - NEAREST:
            raise CannotDraft(
                "garment.division.at",
                _(
                    "the line would lie {at} above the hem, and the garment is {top} long",
                    at=format_length(at),
                    top=format_length(field.top),
                ),
                _(
                    "choose {least} to {most} above the hem",
                    least=format_length(NEAREST),
                    most=format_length(field.top - NEAREST),
                ),
            )
    out = replace(division, count=pieces_of(division), at=at)
    if out.by in ("per fess", "quarterly", "per chevron"):
        out = replace(out, at=level_of(out, field))
    narrow = narrowest(out, field)
    if narrow < NARROWEST:
        raise CannotDraft(
            "garment.division.count",
            _(
                "{by} of {count} makes pieces only {narrow} wide",
                by=out.by,
                count=out.count,
                narrow=format_length(narrow),
            ),
            _("choose {most} or fewer", most=_most(out, field)),
        )
    return out


def narrowest(division: Division, field: Field) -> float:
    """The width (cm) of its stripes, checks or lozenges, seams aside; infinite where it has none."""
    wide, high, count = 2 * field.half, field.top - field.bottom, division.count
    match division.by:
        case "paly":
            return wide / count
        case "barry":
            return high / count
        case "bendy":
            return 2 * wide * high / (count * math.hypot(wide, high))
        case "chequy":
            return min(wide / count, high / rows_of(division, field))
        case "lozengy":
            across, down = wide / count, high / rows_of(division, field)
            return across * down / math.hypot(across, down)
        case "gyronny":
            # where its rays come to the sides of the field, about
            return (wide + high) * 2 / count
    return math.inf


def _most(division: Division, field: Field) -> int:
    step = 1 if division.by in ("chequy", "lozengy") else 2
    fewer = range(division.count - step, step, -step)
    return next((n for n in fewer if narrowest(replace(division, count=n), field) >= NARROWEST), step)
