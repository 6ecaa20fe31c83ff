"""What the points of a garment's structure share."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from ellwand.model.draft import Draft
from ellwand.model.piece import Piece
from ellwand.units import Unit, format_length


@dataclass(frozen=True, slots=True)
class Point:
    """One part of the structure: its name, what it is and why, and the pieces by their ids.

    In ``text`` the name of a place in the book may stand between the signs 2 and 3 for its page.
    """

    term: str
    text: str
    pieces: tuple[str, ...] = ()


def ids(draft: Draft, fits: Callable[[Piece], bool]) -> tuple[str, ...]:
    """The pieces of which that is true."""
    return tuple(piece.id for piece in draft.pieces if fits(piece))


def say(cm: float, unit: Unit) -> str:
    """A length with its unit."""
    return format_length(cm, unit)
