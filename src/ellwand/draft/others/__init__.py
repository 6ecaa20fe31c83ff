"""Garments of their own cut: hood, cloak, coif, apron, breeches."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from ellwand.draft.blank import Book
from ellwand.draft.others.apron import draw_apron
from ellwand.draft.others.breeches import draw_breeches
from ellwand.draft.others.cloak import draw_cloak
from ellwand.draft.others.coif import draw_coif
from ellwand.draft.others.hood import draw_hood
from ellwand.errors import InternalFault
from ellwand.model.choices import Choices, Sewing
from ellwand.model.draft import Draft
from ellwand.model.others import Apron, Breeches, Cloak, Coif, Hood, Other, OtherSize
from ellwand.model.wearer import Wearer

Draw = Callable[[Any, Sewing, float, Wearer, Book], OtherSize]
_DRAW: Final[Mapping[type[Other], Draw]] = {
    Hood: draw_hood,
    Cloak: draw_cloak,
    Coif: draw_coif,
    Apron: draw_apron,
    Breeches: draw_breeches,
}


def draft_other(choices: Choices, wearer: Wearer, cloth: str) -> Draft:
    """Every piece and seam of a garment that is not cut as a tunic is.

    Raises CannotDraft, naming the choice to change, when no such garment can be cut.
    """
    if choices.other is None:
        raise InternalFault(f"a {choices.style} is cut as a tunic is")
    book = Book(cloth, choices.sewing.finish)
    size = _DRAW[type(choices.other)](choices.other, choices.sewing, choices.beneath_mm, wearer, book)
    return Draft(choices, size, book.pieces(), book.parts(), book.seams())
