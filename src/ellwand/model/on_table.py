"""A lay that is longer than the table it is cut on."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from ellwand.geometry.lines import bounds
from ellwand.model.lay import Lay, lie
from ellwand.model.piece import Piece

LEAST: Final = 0.25
"""A stretch is no shorter than this part of the table."""


def moved_along(lay: Lay, pieces: Sequence[Piece], table: float) -> tuple[tuple[float, ...], tuple[str, ...]]:
    """Where on the lay the table's lower end lies after each move (cm), and the parts that lie across such a place.

    Each stretch is as long as the table allows without a part lying across its end; where that would be a small part
    of the table, the stretch is the whole of it and the part is cut as far as it lies there, the rest after the move.
    On a crosswise fold the distances count from the fold.
    """
    by_id = {piece.id: piece for piece in pieces}
    rings = [(placed.part, lie(by_id[placed.piece].cut, placed)) for placed in lay.placements]
    spans = [(part, low, high) for part, ring in rings for _, low, _, high in (bounds(ring),)]
    end = lay.length / 2 if lay.fold == "crosswise" else lay.length
    moves: list[float] = []
    across: list[str] = []
    start = 0.0
    while end - start > table + 0.05:
        # a stretch may end where a part begins or ends
        ends = sorted({round(at, 6) for _, low, high in spans for at in (low, high) if start < at <= start + table})
        clear = [at for at in ends if not any(low < at - 0.01 and high > at + 0.01 for _, low, high in spans)]
        cut = start + table
        if clear and clear[-1] >= start + LEAST * table:
            cut = clear[-1]
        else:
            across += [part for part, low, high in spans if low < cut - 0.01 and high > cut + 0.01]
        moves.append(round(cut, 6))
        start = cut
    return tuple(moves), tuple(dict.fromkeys(across))
