"""An independent look at a finished lay: it knows the placement rule and nothing of the engines."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Final

from shapely import STRtree, intersection
from shapely.affinity import rotate, scale, translate
from shapely.geometry import Polygon

from ellwand.model.cloth import Cloth, width_on_table
from ellwand.model.draft import Part
from ellwand.model.lay import Lay, Placement
from ellwand.model.piece import Piece

OVERLAP: Final = 1e-3
"""Overlaps up to this area (cm²) are rounding."""

EDGE: Final = 1e-4
"""How far (cm) a piece may pass the usable edge by rounding."""


def faults_of(lay: Lay, pieces: Sequence[Piece], cloth: Cloth, parts: Sequence[Part] = ()) -> list[str]:
    """What is wrong with the lay, one sentence each; empty when it is sound.

    Checked: overlaps, the usable width and the length, turns and faces that the cloth allows, and counts.
    """
    known = {piece.id: piece for piece in pieces}
    faults = [f"the piece {p.piece} is unknown" for p in lay.placements if p.piece not in known]
    if faults:
        return faults
    placed = [(p, _on_cloth(known[p.piece], p)) for p in lay.placements]
    mirrored = {part.id: part.mirrored for part in parts}
    for p, outline in placed:
        faults += _edge_faults(p, outline, lay, cloth)
        faults += _grain_faults(p, known[p.piece], cloth)
        if not cloth.reversible and p.part in mirrored and p.flip != mirrored[p.part]:
            faults.append(f"{p.part} shows the wrong face")
    return faults + _overlap_faults(placed) + _count_faults(lay, pieces)


def _on_cloth(piece: Piece, p: Placement) -> Polygon:
    outline = Polygon(piece.cut)
    if p.flip:
        outline = scale(outline, -1, 1, origin=(0, 0))
    return translate(rotate(outline, p.turn, origin=(0, 0)), p.x, p.y)


def _edge_faults(p: Placement, outline: Polygon, lay: Lay, cloth: Cloth) -> list[str]:
    left, low, right, high = outline.bounds
    faults = []
    if left < cloth.selvedge - EDGE or right > width_on_table(cloth) - cloth.selvedge + EDGE:
        faults.append(f"{p.part} lies over a selvedge")
    if low < -EDGE or high > lay.length + EDGE:
        faults.append(f"{p.part} lies beyond the ends of the cloth")
    return faults


def _grain_faults(p: Placement, piece: Piece, cloth: Cloth) -> list[str]:
    if cloth.nap and p.turn != 0:
        return [f"{p.part} lies against the nap"]
    crosswise = cloth.crosswise == "any" or (cloth.crosswise == "small pieces" and piece.small)
    if p.turn not in ((0, 90, 180, 270) if crosswise else (0, 180)):
        return [f"{p.part} lies off the grain"]
    return []


def _overlap_faults(placed: Sequence[tuple[Placement, Polygon]]) -> list[str]:
    outlines = [outline for _, outline in placed]
    faults: list[str] = []
    if not outlines:
        return faults
    for a, b in STRtree(outlines).query(outlines, predicate="intersects").T:
        # on a grid: without one, edges that agree but for the last digit can be misjudged
        common = intersection(outlines[a], outlines[b], grid_size=1e-6).area if a < b else 0.0
        if common > OVERLAP:
            faults.append(f"{placed[a][0].part} and {placed[b][0].part} overlap by {common:.3f} cm²")
    return faults


def _count_faults(lay: Lay, pieces: Sequence[Piece]) -> list[str]:
    counts = Counter(p.piece for p in lay.placements)
    faults = [
        f"{piece.id} is laid {counts[piece.id]} times, not {piece.count}"
        for piece in pieces
        if counts[piece.id] != piece.count
    ]
    twice = [part for part, n in Counter(p.part for p in lay.placements).items() if n > 1]
    return faults + [f"{part} is laid more than once" for part in twice]
