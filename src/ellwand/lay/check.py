"""An independent look at finished lays: it knows the placement rule and the cloth, and nothing of the engines."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from shapely import STRtree, intersection
from shapely.affinity import affine_transform, rotate, scale, translate
from shapely.geometry import Polygon, box

from ellwand.model.cloth import Cloth, remnant_on_table, width_on_table
from ellwand.model.draft import Part
from ellwand.model.lay import Lay, Placement
from ellwand.model.piece import Piece

OVERLAP: Final = 1e-3
"""Overlaps up to this area (cm²) are rounding."""

EDGE: Final = 1e-4
"""How far (cm) a piece may pass the usable edge by rounding."""

HALF: Final = 0.5
"""A side that lies in a selvedge is straight for this part of the piece's length."""

STEP: Final = 1e-3
"""How far (cm) the stripes on two parts of a piece may differ."""

LEAST_FAULT: Final = 0.1
"""A fault is at least this wide and long (cm)."""


@dataclass(frozen=True, slots=True)
class _Cut:
    """One part as it is cut from the opened cloth, outside up."""

    part: str
    piece: Piece
    outline: Polygon
    flip: bool
    turn: float
    placement: Placement


def faults_of(lay: Lay, pieces: Sequence[Piece], cloth: Cloth, parts: Sequence[Part] = ()) -> list[str]:
    """What is wrong with the one lay of all the pieces, one sentence each; empty when it is sound."""
    return faults_in((lay,), pieces, cloth, parts)


def faults_in(lays: Sequence[Lay], pieces: Sequence[Piece], cloth: Cloth, parts: Sequence[Part] = ()) -> list[str]:
    """What is wrong with the lays of one cloth, which hold all the pieces between them.

    Checked, with folds opened: overlaps and gaps, the usable width, what lies in a selvedge, ends and outlines of
    left-overs, turns and faces that the cloth allows, folds, faults, stripes, and counts.
    """
    known = {piece.id: piece for piece in pieces}
    faults = [f"the piece {p.piece} is unknown" for lay in lays for p in lay.placements if p.piece not in known]
    if faults:
        return faults
    mirrored = {part.id: part.mirrored for part in parts}
    on: dict[int, list[_Cut]] = {}
    for lay in lays:
        for cut in (cut for p in lay.placements for cut in _opened(p, known[p.piece], lay)):
            # the lays of the main length follow each other on one cloth
            on.setdefault(lay.remnant, []).append(replace(cut, outline=translate(cut.outline, 0, lay.start)))
            faults += _edge_faults(cut, lay, cloth) + _grain_faults(cut, cloth) + _hole_faults(cut, lay, cloth)
            if not cloth.reversible and cut.flip != mirrored.get(cut.part, cut.flip) and not _is_even(cut):
                faults.append(f"{cut.part} shows the wrong face")
    for cuts in on.values():
        faults += _overlap_faults(cuts, cloth.gap)
    every = [cut for cuts in on.values() for cut in cuts]
    return faults + _stripe_faults(lays, known, cloth) + _start_faults(lays) + _count_faults(every, pieces)


def _opened(p: Placement, piece: Piece, lay: Lay) -> Iterator[_Cut]:
    """The parts that a placement stands for, where they lie when any fold is opened."""
    outline = Polygon(piece.cut)
    if p.flip:
        outline = scale(outline, -1, 1, origin=(0, 0))
    outline = translate(rotate(outline, p.turn, origin=(0, 0)), p.x, p.y)
    if lay.fold == "lengthwise":
        move, image, turned = (lay.width / 2, 0.0), (-1, 0, 0, 1), -p.turn % 360
    elif lay.fold == "crosswise":
        move, image, turned = (0.0, lay.length / 2), (1, 0, 0, -1), (180 - p.turn) % 360
    else:
        move, image, turned = (0.0, 0.0), (1, 0, 0, 1), p.turn
    yield _Cut(p.part, piece, translate(outline, *move), p.flip, p.turn, p)
    if p.layers == 2:
        other = affine_transform(outline, (*image, *move))
        yield _Cut(p.partner, piece, other, not p.flip, turned, p)


def _edge_faults(cut: _Cut, lay: Lay, cloth: Cloth) -> list[str]:
    faults = []
    left, low, right, high = cut.outline.bounds
    if lay.remnant:
        remnant = remnant_on_table(cloth.remnants[lay.remnant - 1], cloth)
        whole = Polygon(remnant.outline) if remnant.outline else box(0, 0, remnant.width, remnant.length)
        if cut.outline.difference(whole).area > OVERLAP:
            return [f"{cut.part} leaves the left-over {lay.remnant}"]
    else:
        if abs(lay.width - width_on_table(cloth)) > EDGE:
            faults.append(f"the cloth is {width_on_table(cloth):.2f} wide, not {lay.width:.2f}")
        over = (left < cloth.selvedge - EDGE, right > lay.width - cloth.selvedge + EDGE)
        if any(over) and (left < -EDGE or right > lay.width + EDGE or not _may_pass(cut, over, cloth)):
            faults.append(f"{cut.part} lies over a selvedge")
    if low < -EDGE or high > lay.length + EDGE:
        faults.append(f"{cut.part} lies beyond the ends of the cloth")
    return faults


def _may_pass(cut: _Cut, over: tuple[bool, bool], cloth: Cloth) -> bool:
    """Whether the sides that lie over a selvedge are straight seam edges there."""
    if not cloth.selvedge_edges:
        return False
    left, low, right, high = cut.outline.bounds
    for side, passes in zip((left, right), over, strict=True):
        ring = cut.outline.exterior.coords
        straight = sum(
            abs(a[1] - b[1]) for a, b in itertools.pairwise(ring) if max(abs(a[0] - side), abs(b[0] - side)) < EDGE
        )
        if passes and straight < HALF * (high - low) - EDGE:
            return False
    return True


def _grain_faults(cut: _Cut, cloth: Cloth) -> list[str]:
    if cloth.nap and cut.turn != 0:
        return [f"{cut.part} lies against the nap"]
    crosswise = cloth.crosswise == "any" or (cloth.crosswise == "small pieces" and cut.piece.small)
    crosswise = crosswise and cloth.repeat is None
    if cut.turn not in ((0, 90, 180, 270) if crosswise else (0, 180)):
        return [f"{cut.part} lies off the grain"]
    return []


def _hole_faults(cut: _Cut, lay: Lay, cloth: Cloth) -> list[str]:
    """Faults of the cloth that fall into the part; a crosswise fold and left-overs have none."""
    faults = []
    for fault in cloth.faults if not lay.remnant else ():
        wide, long = max(fault.width, LEAST_FAULT), max(fault.length, LEAST_FAULT)
        hole = translate(box(fault.x, fault.y, fault.x + wide, fault.y + long), 0, -lay.start)
        if cut.outline.intersection(hole).area > OVERLAP:
            faults.append(f"a fault falls into {cut.part}")
    return faults


def _is_even(cut: _Cut) -> bool:
    """Whether the piece is its own mirror image, so that it has no wrong face."""
    piece = Polygon(cut.piece.cut, cut.piece.cut_holes)
    other = scale(piece, -1, 1, origin="center")
    return bool(piece.symmetric_difference(other).area <= 2e-4 * piece.length)


def _stripe_faults(lays: Sequence[Lay], known: Mapping[str, Piece], cloth: Cloth) -> list[str]:
    """Parts of one piece that do not lie alike on the stripes, as these look to both sides of their middle.

    Across, a piece that leaves less than a repeat of the width free cannot be asked to.
    """
    repeat = cloth.repeat
    if repeat is None:
        return []
    faults: list[str] = []
    first: dict[str, tuple[float, float]] = {}
    for lay in lays:
        if lay.fold != "flat" or lay.remnant:
            faults.append("the stripes cannot be matched on folded cloth or a left-over")
        for p in lay.placements:
            upside_down = p.turn == 180
            x = (p.x - repeat.x) * (-1 if p.flip != upside_down else 1)
            y = (p.y + lay.start - repeat.y) * (-1 if upside_down else 1)
            least, _, most, _ = Polygon(known[p.piece].cut).bounds
            across = repeat.across if width_on_table(cloth) - 2 * cloth.selvedge - (most - least) > repeat.across else 0
            its_own = first.setdefault(p.piece, (x, y))
            beside = [
                abs((at - its + step / 2) % step - step / 2)
                for at, its, step in ((x, its_own[0], across), (y, its_own[1], repeat.along))
                if step
            ]
            if any(far > STEP for far in beside):
                faults.append(f"{p.part} lies unlike the other {p.piece} on the stripes")
    return faults


def _overlap_faults(cuts: Sequence[_Cut], gap: float) -> list[str]:
    outlines = [cut.outline for cut in cuts]
    faults: list[str] = []
    if not outlines:
        return faults
    for a, b in STRtree(outlines).query(outlines, predicate="dwithin", distance=gap).T:
        if a >= b:
            continue
        names = f"{cuts[a].part} and {cuts[b].part}"
        # on a grid: without one, edges that agree but for the last digit can be misjudged
        common = intersection(outlines[a], outlines[b], grid_size=1e-6).area
        if common > OVERLAP:
            faults.append(f"{names} overlap by {common:.3f} cm²")
        elif gap and outlines[a].distance(outlines[b]) < gap - EDGE:
            faults.append(f"{names} lie nearer than {gap:g} cm")
    return faults


def _start_faults(lays: Sequence[Lay]) -> list[str]:
    """A cloth's lays follow each other without a gap, and each left-over is used once."""
    end, faults = 0.0, []
    for lay in lays:
        if not lay.remnant:
            if abs(lay.start - end) > EDGE:
                faults.append(f"a lay begins {lay.start:.2f} from the cut end, where {end:.2f} is free")
            end = lay.start + lay.length
    used = [lay.remnant for lay in lays if lay.remnant]
    return faults + ["a left-over is used twice"] * (len(set(used)) < len(used))


def _count_faults(cuts: Sequence[_Cut], pieces: Sequence[Piece]) -> list[str]:
    counts = Counter(cut.piece.id for cut in cuts)
    faults = [
        f"{piece.id} is laid {counts[piece.id]} times, not {piece.count}"
        for piece in pieces
        if counts[piece.id] != piece.count
    ]
    twice = [part for part, n in Counter(cut.part for cut in cuts).items() if n > 1]
    return faults + [f"{part} is laid more than once" for part in twice]
