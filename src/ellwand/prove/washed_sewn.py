"""A garment that is cut from unwashed cloth and washed when it is sewn: what is left of it."""

from __future__ import annotations

from collections.abc import Sequence

from ellwand.geometry.lines import bounds
from ellwand.model.cloth import Cloth
from ellwand.model.finding import Finding, Girth
from ellwand.model.piece import Piece


def washed_sewn(pieces: Sequence[Piece], girths: Sequence[Girth], cloths: Sequence[Cloth]) -> tuple[Finding, ...]:
    """Of each cloth that is washed only when it is sewn: how much shorter its longest piece becomes, and whether the
    garment still goes round the body.

    Lengths lose the warp's part, girths the weft's, as the pieces lie along the warp.  ``measured`` is the least ease
    that is left (cm), ``needed`` 0; a garment without girths has none to lose.
    """
    out = []
    for cloth in cloths:
        own = [piece for piece in pieces if piece.cloth == cloth.name]
        if cloth.wash != "after" or cloth.washed or not own or not (cloth.shrink_warp or cloth.shrink_weft):
            continue
        left = {each.at: each.garment * (1 - cloth.shrink_weft) - each.body for each in girths}
        tightest = min(left, key=lambda at: left[at], default="")
        boxes = {piece.id: bounds(piece.sewn) for piece in own}
        longest = max(own, key=lambda piece: boxes[piece.id][3] - boxes[piece.id][1])
        long = boxes[longest.id][3] - boxes[longest.id][1]
        out.append(
            Finding(
                "cloth-washed-sewn",
                cloth.name,
                "will not work" if left and left[tightest] < 0 else "look again",
                left[tightest] if left else None,
                0.0 if left else None,
                values={
                    "warp": cloth.shrink_warp,
                    "weft": cloth.shrink_weft,
                    "piece": longest.name,
                    "shorter": long * cloth.shrink_warp,
                    "at": tightest,
                },
            )
        )
    return tuple(out)
