"""Whether two drafts are the same garment once they are sewn: a saving at the garment's cost is not a saving."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from ellwand.geometry.lines import area, length
from ellwand.model.draft import piece_of
from ellwand.model.garment import Garment

AREA: Final = 1e-3
"""Net areas that differ by a smaller share are the same: slits are drawn 2 mm wide, seams in their place are not."""
LENGTH: Final = 0.1
"""Sweeps, lengths and girths that differ by less (cm) are the same."""


@dataclass(frozen=True, slots=True)
class Sewn:
    """A garment as it is worn: net cloth (cm²) without allowances and facings, hem sweep, length and girths (cm).

    ``length``: from the shoulder line to the hem, 0 for garments without a body; ``girths``: at each level reached.
    """

    area: float
    sweep: float
    length: float
    girths: tuple[tuple[str, float], ...]


def sewn(garment: Garment) -> Sewn:
    """What of the garment does not depend on how it was put together."""
    draft = garment.draft
    net, sweep = [], []
    for part in draft.parts:
        piece = piece_of(draft, part.id)
        net.append(abs(area(piece.sewn)) - sum(abs(area(hole)) for hole in piece.sewn_holes))
        sweep += [length(edge.points) for edge in piece.edges if edge.kind == "hem"]
    has_body = draft.choices.other is None
    return Sewn(
        math.fsum(net),
        math.fsum(sweep),
        draft.dimensions.length if has_body else 0.0,
        tuple((each.at, each.garment) for each in garment.proof.girths),
    )


def same(one: Sewn, other: Sewn) -> bool:
    """Equal net area, hem sweep, length and girths."""
    return (
        abs(one.area - other.area) <= AREA * one.area
        and abs(one.sweep - other.sweep) <= LENGTH
        and abs(one.length - other.length) <= LENGTH
        and [at for at, _ in one.girths] == [at for at, _ in other.girths]
        and all(abs(a - b) <= LENGTH for (_, a), (_, b) in zip(one.girths, other.girths, strict=True))
    )
