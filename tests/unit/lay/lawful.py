"""What a cutter would hold against a set of lays, worked out again with complex numbers, folds opened by hand."""

from __future__ import annotations

import cmath
import math
from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from shapely import set_precision
from shapely.affinity import scale
from shapely.geometry import Polygon, box

from ellwand.model.cloth import Cloth
from ellwand.model.draft import Part
from ellwand.model.lay import Lay, Placement
from ellwand.model.piece import Piece

Cut = tuple[str, Piece, Polygon, bool, float]
"""A part, its piece, where it lies on the opened cloth, whether it is flipped there, and its turn."""


def complaints(lays: Sequence[Lay], pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth) -> list[str]:
    """Everything that is wrong, on washed cloth; empty when all is well."""
    known = {piece.id: piece for piece in pieces}
    mirrored = {part.id: part.mirrored for part in parts}
    out: list[str] = []
    laid: Counter[str] = Counter()
    main: list[Cut] = []
    length = sum(lay.length for lay in lays if not lay.remnant)
    for lay in lays:
        cuts = [cut for at in lay.placements for cut in opened(at, known[at.piece], lay)]
        laid.update(cut[0] for cut in cuts)
        if lay.length < lay.lower_bound - 1e-6:
            out.append("shorter than its own bound")
        for part, piece, _, flip, turn in cuts:
            if turn not in turns(piece, cloth):
                out.append(f"{part} turned {turn}")
            if not cloth.reversible and flip != mirrored.get(part, flip) and not even(piece):
                out.append(f"{part} shows its inside")
        if lay.remnant:
            out += on_left_over(lay, cuts, cloth)
        else:
            main += cuts
    out += together(main, cloth.gap) + within(main, cloth, length)
    for hole in (box(f.x, f.y, f.x + f.width, f.y + f.length) for f in cloth.faults):
        out += [f"{cut[0]} has a fault" for cut in main if cut[2].intersection(hole).area > 1e-3]
    counts = Counter(cut[1].id for cut in main)
    counts.update(at.piece for lay in lays if lay.remnant for at in lay.placements)
    wanted = Counter({piece.id: piece.count for piece in pieces})
    if counts != wanted or any(n != 1 for n in laid.values()):
        out.append(f"laid {dict(counts)}, wanted {dict(wanted)}")
    return out + unlike(main, lays, cloth)


def opened(at: Placement, piece: Piece, lay: Lay) -> list[Cut]:
    """The one or two parts cut there, on the opened cloth, counted from its own cut end."""
    spin = cmath.exp(1j * math.radians(at.turn))
    sign = -1 if at.flip else 1
    points = [complex(sign * x, y) * spin + complex(at.x, at.y) for x, y in piece.cut]
    half_width, half_length = lay.width / 2, lay.length / 2
    up = complex(0, lay.start)
    if lay.fold == "flat":
        return [(at.part, piece, polygon([p + up for p in points]), at.flip, at.turn)]
    if lay.fold == "lengthwise":
        near = [p + half_width for p in points]
        far = [complex(half_width - p.real, p.imag) for p in points]
        turned = (360 - at.turn) % 360
    else:
        near = [p + complex(0, half_length) for p in points]
        far = [complex(p.real, half_length - p.imag) for p in points]
        turned = (540 - at.turn) % 360
    out = [(at.part, piece, polygon([p + up for p in near]), at.flip, at.turn)]
    if at.layers == 2:
        out.append((at.partner, piece, polygon([p + up for p in far]), not at.flip, turned))
    return out


def polygon(points: Sequence[complex]) -> Polygon:
    return set_precision(Polygon([(p.real, p.imag) for p in points]), 1e-6)


def turns(piece: Piece, cloth: Cloth) -> tuple[float, ...]:
    if cloth.nap:
        return (0,)
    across = cloth.repeat is None and (cloth.crosswise == "any" or (cloth.crosswise == "small pieces" and piece.small))
    return (0, 90, 180, 270) if across else (0, 180)


def even(piece: Piece) -> bool:
    shape = Polygon(piece.cut, piece.cut_holes)
    return shape.symmetric_difference(scale(shape, -1, 1)).area < 0.05


def together(cuts: Sequence[Cut], gap: float) -> list[str]:
    out = []
    for n, (name, _, shape, _, _) in enumerate(cuts):
        for other, _, theirs, _, _ in cuts[:n]:
            if shape.intersection(theirs).area > 1e-3:
                out.append(f"{name} overlaps {other}")
            elif gap and shape.distance(theirs) < gap - 1e-3:
                out.append(f"{name} is too near to {other}")
    return out


def within(cuts: Sequence[Cut], cloth: Cloth, length: float) -> list[str]:
    out = []
    for name, _, shape, _, _ in cuts:
        left, low, right, high = shape.bounds
        if low < -1e-3 or high > length + 1e-3 or left < -1e-3 or right > cloth.width + 1e-3:
            out.append(f"{name} leaves the cloth")
        for lies_over, side in (
            (left < cloth.selvedge - 1e-3, left),
            (right > cloth.width - cloth.selvedge + 1e-3, right),
        ):
            ring = [*shape.exterior.coords]
            straight = sum(
                abs(a[1] - b[1]) for a, b in pairwise(ring) if abs(a[0] - side) < 1e-3 and abs(b[0] - side) < 1e-3
            )
            if lies_over and not (cloth.selvedge_edges and straight >= (high - low) / 2 - 1e-3):
                out.append(f"{name} lies in a selvedge")
    return out


def on_left_over(lay: Lay, cuts: Sequence[Cut], cloth: Cloth) -> list[str]:
    left = cloth.remnants[lay.remnant - 1]
    room = Polygon(left.outline) if left.outline else box(0, 0, left.width, left.length)
    out = [f"{cut[0]} leaves the left-over" for cut in cuts if cut[2].difference(room).area > 1e-3]
    return out + together(cuts, cloth.gap)


def unlike(cuts: Sequence[Cut], lays: Sequence[Lay], cloth: Cloth) -> list[str]:
    """Parts of a piece whose first corner lies otherwise on the stripes, as seen from the part itself."""
    if cloth.repeat is None:
        return []
    if any(lay.remnant or lay.fold != "flat" for lay in lays):
        return ["stripes on a fold or a left-over"]
    seen: dict[str, tuple[float, float]] = {}
    wide = {cut[1].id: max(x for x, _ in cut[1].cut) - min(x for x, _ in cut[1].cut) for cut in cuts}
    out = []
    for lay in lays:
        for at in lay.placements:
            # the piece's own axes, as they lie on the cloth
            right = (-1 if at.flip else 1) * (-1 if at.turn == 180 else 1)
            up = -1 if at.turn == 180 else 1
            own = (right * (at.x - cloth.repeat.x), up * (at.y + lay.start - cloth.repeat.y))
            first = seen.setdefault(at.piece, own)
            # what leaves less than a repeat of the width free lies where it fits
            free = cloth.width - 2 * cloth.selvedge - wide[at.piece]
            across = cloth.repeat.across if free > cloth.repeat.across else 0
            for a, b, step in zip(own, first, (across, cloth.repeat.along), strict=True):
                if step and min((a - b) % step, (b - a) % step) > 1e-3:
                    out.append(f"{at.part} lies otherwise on the stripes")
    return out
