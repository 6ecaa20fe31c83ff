"""Straight pieces that are sewn on: the collar, and underlaps beneath openings that overlap."""

from __future__ import annotations

from ellwand.adorn.applied.cutting import Applied, strip
from ellwand.adorn.applied.facings import STRAIGHT_NECKS, edge_allowance, neck_length
from ellwand.errors import CannotDraft
from ellwand.language import _
from ellwand.model.closing import Closing
from ellwand.model.draft import Draft

AT_NECK = frozenset({"neck slit", "centre-front", "centre-back", "shoulder"})
"""Openings that a collar closes with."""


def collar(draft: Draft, closings: tuple[Closing, ...]) -> list[Applied]:
    """A straight band as long as the neck, doubled along its upper edge; longer by the overlap where it closes.

    Raises CannotDraft on a neck with corners, which a straight band cannot follow.
    """
    neck = draft.choices.neck
    if not neck.collar:
        return []
    if neck.shape in STRAIGHT_NECKS:
        raise CannotDraft(
            "garment.neck.collar",
            _("a straight band does not turn the corners of a {shape} neck", shape=neck.shape),
            _('choose shape = "round", or leave the collar out'),
        )
    overlap = max((each.overlap for each in closings if each.at in AT_NECK), default=0.0)
    size = (neck_length(draft) + overlap, 2 * neck.collar)
    cloth, edge = draft.pieces[0].cloth, edge_allowance(draft)
    return [strip("collar", cloth, "body", ["collar"], size, (edge, edge), middle="fold")]


def underlaps(draft: Draft, closings: tuple[Closing, ...]) -> list[Applied]:
    """A doubled strip for each opening that overlaps: as long as what is closed, as wide as the overlap."""
    cloth, edge = draft.pieces[0].cloth, edge_allowance(draft)
    out = []
    for each in closings:
        if not each.overlap:
            continue
        name = f"{each.at.replace('-', ' ')} underlap"
        names = [f"{name}-{i + 1}".replace(" ", "-") for i in range(each.openings)]
        size = (each.length, 2 * each.overlap)
        out.append(strip(name, cloth, "body", names, size, (edge, edge), middle="fold"))
    return out
