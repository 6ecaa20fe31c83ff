"""From pieces and a cloth to the lay."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ellwand.errors import InternalFault
from ellwand.geometry.lines import area
from ellwand.lay.bounds import lower_bound
from ellwand.lay.buy import buy_length
from ellwand.lay.check import faults_of
from ellwand.lay.rows import rows
from ellwand.lay.settle import settle
from ellwand.lay.shapes import placement, shapes_of, usable_width
from ellwand.lay.solver import solve
from ellwand.lay.task import Spot, length_of
from ellwand.model.cloth import Cloth, width_on_table
from ellwand.model.draft import Part
from ellwand.model.lay import Lay
from ellwand.model.piece import Piece
from ellwand.units import round_up


def lay_out(pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth, *, seconds: float, seed: int) -> Lay:
    """All ``pieces`` laid on the one cloth, flat.

    Our own engine answers at once and always the same; with ``seconds`` above 0 the solver searches for about
    that long and the shorter lay is kept (Ctrl-C ends the search, not the job).  The lay may be longer than
    the cloth at hand: the caller compares.
    Raises CannotDraft when a piece is wider than the cloth however it may lie.
    """
    shapes = shapes_of(pieces, parts, cloth)
    width = usable_width(cloth)
    fallen = rows(shapes, width)
    spots = (settle(fallen, width) if shapes else None) or fallen
    lay = _lay("rows", spots, pieces, cloth)
    if seconds > 0 and shapes:
        searched = settle(solve(spots, width, seconds, seed), width)
        if searched and length_of(searched) < length_of(spots):
            shorter = _lay("spyrrow", searched, pieces, cloth)
            lay = lay if faults_of(shorter, pieces, cloth, parts) else shorter
    if faults := faults_of(lay, pieces, cloth, parts):
        raise InternalFault(f"the lay on {cloth.name} is wrong: {'; '.join(faults)}")
    return lay


def _lay(engine: str, spots: Sequence[Spot], pieces: Sequence[Piece], cloth: Cloth) -> Lay:
    width = width_on_table(cloth)
    length = round_up(length_of(spots), 0.1)
    bound, why = lower_bound(pieces, cloth)
    cut = math.fsum(
        piece.count * (abs(area(piece.cut)) - sum(abs(area(hole)) for hole in piece.cut_holes)) for piece in pieces
    )
    return Lay(
        cloth=cloth.name,
        width=width,
        usable_width=usable_width(cloth),
        length=length,
        buy_length=buy_length(length, cloth),
        lower_bound=bound,
        bound=why,
        use=cut / (width * length) if length else 0.0,
        fold="flat",
        engine=engine,
        placements=tuple(placement(spot, cloth) for spot in spots),
    )
