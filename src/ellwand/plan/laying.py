"""How much cloth a garment takes, and the least that any lay of it could take."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from ellwand.geometry.lines import area, bounds, length
from ellwand.lay import Budget, usable_width
from ellwand.lay.bounds import lower_bound
from ellwand.lay.shapes import HAIR, may_lie_crosswise
from ellwand.model.cloth import Cloth, width_on_table
from ellwand.model.draft import Draft, EdgeRef, Part, edge_at
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.piece import cloth_in
from ellwand.pipeline import lay_garment
from ellwand.plan.brief import TESTS, brief_lay


def laid(garment: Garment, effort: int = 0, *, copies: int = 1, longer: int = 1) -> tuple[Lay, ...]:
    """So many of the garment laid on its cloths as if there were no end of them, always the same way.

    Without ``effort`` a short search, so many times ``longer``, or the instant engine where that does not know the
    cloth.
    Raises CannotDraft when a piece is wider than its cloth.
    """
    draft = several(garment.draft, copies)
    endless = tuple(replace(cloth, length=None) for cloth in garment.cloths)
    if effort:
        return lay_garment(draft, endless, Budget(effort=effort))
    lays: tuple[Lay, ...] = ()
    for cloth in endless:
        pieces = [piece for piece in draft.pieces if piece.cloth == cloth.name]
        parts = [part for part in (*draft.parts, *draft.applied) if part.piece in {piece.id for piece in pieces}]
        if pieces:
            brief = brief_lay(pieces, parts, cloth, TESTS * longer)
            lays += (brief,) if brief else lay_garment(replace(draft, pieces=tuple(pieces)), (cloth,))
    return lays


def taken(lays: Sequence[Lay], cloth: str) -> float:
    """What the lays take of a cloth's main length (cm), left-overs apart."""
    return max((lay.start + lay.length for lay in lays if lay.cloth == cloth and not lay.remnant), default=0.0)


def needs(garment: Garment, *, longer: int = 1) -> float:
    """The lengths (cm) that a short search's lay takes of all the garment's cloths.

    Raises CannotDraft when a piece is wider than its cloth.
    """
    lays = laid(garment, longer=longer)
    return math.fsum(taken(lays, cloth.name) for cloth in garment.cloths)


def needs_at_least(garment: Garment) -> float:
    """What no lay of the garment can undercut, of all its cloths (cm); every piece must lie on its cloth."""
    return math.fsum(takes_at_least(garment, cloth) for cloth in garment.cloths)


def takes_at_least(garment: Garment, cloth: Cloth, copies: int = 1) -> float:
    """A length (cm) of this cloth that no lay of so many of the garment can undercut.

    Of one garment the lay's own bound; of several, or beside left-overs, their area over the width.
    """
    pieces = [piece for piece in garment.draft.pieces if piece.cloth == cloth.name]
    bound = lower_bound(pieces, cloth)[0] if pieces and not cloth.remnants else 0.0
    if copies == 1 and not cloth.remnants:
        return bound
    spare = sum(abs(area(left.outline)) if left.outline else left.width * left.length for left in cloth.remnants)
    width = width_on_table(cloth) if cloth.selvedge_edges else usable_width(cloth)
    return max(bound, (copies * cloth_in(pieces) - spare) / width)


def lies_on_cloth(garment: Garment) -> bool:
    """Whether every piece is narrow enough for its cloth, in some allowed turn."""
    cloths = {cloth.name: cloth for cloth in garment.cloths}
    for piece in garment.draft.pieces:
        cloth = cloths[piece.cloth]
        room = usable_width(cloth) + HAIR
        left, low, right, high = bounds(piece.cut)
        if right - left > room and not (may_lie_crosswise(piece, cloth) and high - low <= room):
            return False
    return True


def several(draft: Draft, copies: int) -> Draft:
    """The pieces, parts and seams of so many garments alike."""
    if copies == 1:
        return draft

    def mine(part: str, n: int) -> str:
        return f"{part} ({n + 1})" if n else part

    def also(parts: Sequence[Part]) -> tuple[Part, ...]:
        return tuple(replace(part, id=mine(part.id, n)) for n in range(copies) for part in parts)

    def edge(ref: EdgeRef, n: int) -> EdgeRef:
        return replace(ref, part=mine(ref.part, n))

    return replace(
        draft,
        pieces=tuple(replace(piece, count=piece.count * copies) for piece in draft.pieces),
        parts=also(draft.parts),
        applied=also(draft.applied),
        seams=tuple(replace(s, a=edge(s.a, n), b=edge(s.b, n)) for n in range(copies) for s in draft.seams),
    )


def seam_length(garment: Garment) -> float:
    """All that is sewn together (cm), without hems and facings."""
    return math.fsum(length(edge_at(garment.draft, seam.a).points) for seam in garment.draft.seams)


def fails(garment: Garment) -> int:
    """How many checks say that it will not work."""
    return sum(each.outcome == "will not work" for each in garment.proof.findings)
