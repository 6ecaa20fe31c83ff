"""Short lays for comparing garments, always the same: better than the instant engine, in a tenth of a second."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from ellwand.lay import shapes_of, usable_width
from ellwand.lay.bounds import lower_bound
from ellwand.lay.buy import buy_length
from ellwand.lay.check import faults_in
from ellwand.lay.engines import settled
from ellwand.lay.grounds import flat, how_folded
from ellwand.lay.task import Task, length_of
from ellwand.model.cloth import Cloth, width_on_table
from ellwand.model.draft import Part
from ellwand.model.lay import Lay
from ellwand.model.piece import Piece, cloth_in
from ellwand.units import round_up

TESTS: Final = 3_000_000
"""Of one outline against another: a tenth of a second of one core."""
LARGE: Final = 40
"""Where there are more pieces than this, so much more is tested for each."""


def brief_lay(pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth, tests: int = TESTS) -> Lay | None:
    """A lay on the flat main length, or None where left-overs, folds or stripes need the whole portfolio.

    Raises CannotDraft when a piece is wider than the cloth.
    """
    if cloth.remnants or cloth.repeat is not None or how_folded(cloth) != "flat":
        return None
    from ellwand.lay.search import brief

    bed = flat(cloth)
    shapes = shapes_of(pieces, parts, cloth)
    task = Task(shapes, bed.ground)
    found = brief(task, tests * max(1, len(shapes) // LARGE)) if len(shapes) > 1 else None
    spots = settled(found.spots, task) if found else ()
    if not spots:
        return None
    length = round_up(max(length_of(spots) + bed.corner[1] - cloth.gap / 2, 0.0), 0.1)
    bound, why = lower_bound(pieces, cloth)
    width = width_on_table(cloth)
    lay = Lay(
        cloth=cloth.name,
        width=width,
        usable_width=usable_width(cloth),
        length=length,
        buy_length=buy_length(length, cloth),
        lower_bound=bound,
        bound=why,
        use=cloth_in(pieces) / (width * length),
        fold="flat",
        engine="search",
        placements=tuple(bed.placement(spot) for spot in spots),
    )
    return None if faults_in((lay,), pieces, replace(cloth, length=None), parts) else lay
