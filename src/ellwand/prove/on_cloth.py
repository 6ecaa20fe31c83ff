"""The lay against the cloth at hand."""

from __future__ import annotations

from shapely.geometry import Polygon, box

from ellwand.model.cloth import Cloth, length_on_table
from ellwand.model.finding import Finding
from ellwand.model.lay import Lay, lie
from ellwand.model.piece import Piece


def prove_on_cloth(lay: Lay, pieces: tuple[Piece, ...], cloth: Cloth) -> tuple[Finding, ...]:
    """Is there enough of it, do faults fall into a piece, and was it laid as asked?"""
    out = []
    at_hand = length_on_table(cloth)
    if at_hand is not None:
        out.append(
            Finding(
                "cloth-enough",
                cloth.name,
                "sound" if lay.length <= at_hand + 0.05 else "will not work",
                at_hand,
                lay.length,
                values={"bought": cloth.length or 0.0},
            )
        )
    by_id = {piece.id: piece for piece in pieces}
    for fault in cloth.faults:
        hole = box(fault.x, fault.y, fault.x + fault.width, fault.y + fault.length)
        hit = [p for p in lay.placements if Polygon(lie(by_id[p.piece].cut, p)).intersects(hole)]
        out.append(
            Finding(
                "cloth-fault",
                cloth.name,
                "look again" if hit else "sound",
                values={"x": fault.x, "y": fault.y, "part": hit[0].part if hit else ""},
            )
        )
    if cloth.fold in ("lengthwise", "crosswise"):
        out.append(Finding("cloth-laid-flat", cloth.name, "look again", values={"asked": cloth.fold}))
    if cloth.remnants:
        out.append(
            Finding(
                "cloth-remnants-unused",
                cloth.name,
                "look again",
                values={"count": float(len(cloth.remnants))},
            )
        )
    return tuple(out)
