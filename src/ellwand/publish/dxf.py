"""The pieces as DXF, in mm: pattern data by the layers of ASTM D6673, and bare cut lines for a cutter."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final

import shapely

from ellwand.depict.lettering import shortened
from ellwand.depict.naming import all_parts, cut_how, numbers, places
from ellwand.depict.outline import trace
from ellwand.depict.placed import by_id
from ellwand.depict.sizes import marks
from ellwand.geometry.lines import Line, Point, backwards, bounds, mirror, shift
from ellwand.language import SOURCE, speaking
from ellwand.model.garment import Garment
from ellwand.model.piece import Piece
from ellwand.publish.dxf_text import Pair, document, insert, point, polyline, straight, text
from ellwand.publish.text import clean

BOUNDARY: Final = "1"
TURN: Final = "2"
CURVE: Final = "3"
NOTCH: Final = "4"
MIRROR: Final = "6"
GRAIN: Final = "7"
INTERNAL: Final = "8"
CUTOUT: Final = "11"
DRILL: Final = "13"
SEW: Final = "14"
ANNOTATION: Final = "15"
LAYERS: Final = (BOUNDARY, TURN, CURVE, NOTCH, MIRROR, GRAIN, INTERNAL, CUTOUT, DRILL, SEW, ANNOTATION)
"""Layers of ASTM D6673.  The mirror line's stays empty: every piece is drawn whole."""
CUT: Final = "CUT"
HIGH: Final = 10.0
SMALLEST: Final = 2.5
"""Height of the lettering (mm), on large pieces and on small ones."""
LINE: Final = 20
"""A piece as wide as so many signs has lettering smaller than the largest."""
APART: Final = 5.0
"""Between two pieces (cm)."""
BED: Final = 300.0
"""A cutter's pieces lie in rows about this wide (cm)."""
LONGEST: Final = 60
"""A person's words are cut to so many signs."""
LONGEST_BLOCK: Final = 31
"""A block's name has no more signs in release 12."""


def pattern_dxf(garment: Garment) -> bytes:
    """Pattern data by the layers of ASTM D6673: a block for each piece, in mm; the same bytes for the same garment."""
    key = numbers(garment.draft.pieces)
    ground = [
        pair
        for i, line in enumerate(_style(garment))
        for pair in text(line, (0.0, -10 * APART - 1.6 * HIGH * i), HIGH, BOUNDARY)
    ]
    blocks = []
    right = 0.0
    for piece in garment.draft.pieces:
        name = f"{key[piece.id]:02d}_{re.sub('[^A-Za-z0-9]', '_', piece.id)}"[:LONGEST_BLOCK].upper()
        blocks.append((name, _block(garment, piece)))
        x0, y0, x1, _ = bounds(piece.cut)
        ground += insert(name, _mm((right - x0, -y0)), BOUNDARY)
        right += x1 - x0 + APART
    return document(LAYERS, blocks, ground)


def _mm(at: Point) -> Point:
    return 10 * at[0], 10 * at[1]


def _line(line: Line, layer: str, *, closed: bool = False) -> list[Pair]:
    return polyline(tuple(map(_mm, line)), layer, closed=closed)


def _size(garment: Garment) -> str:
    return clean(shortened(garment.wearer.name, LONGEST)) or "made to measure"


def _style(garment: Garment) -> list[str]:
    title = clean(shortened(garment.title, LONGEST))
    return [f"STYLE NAME: {title}", f"SAMPLE SIZE: {_size(garment)}", "UNITS: METRIC"]


def _block(garment: Garment, piece: Piece) -> list[Pair]:
    rings = [
        (BOUNDARY, piece.cut),
        *((CUTOUT, hole) for hole in piece.cut_holes),
        (SEW, piece.sewn),
        *((SEW, hole) for hole in piece.sewn_holes),
    ]
    out: list[Pair] = []
    for layer, ring in rings:
        out += _line(ring, layer, closed=True)
        for at, kind in zip(ring, _kinds(ring), strict=True):
            out += point(_mm(at), kind)
    for guide in piece.guides:
        out += _line(guide.points, INTERNAL)
        for at in guide.points:
            out += point(_mm(at), TURN)
    for notch in marks(piece):
        out += point(_mm(notch.at), NOTCH)
    for mark in piece.marks:
        out += point(_mm(mark.at), DRILL)
    low, high = _grain(piece)
    out += straight(_mm(low), _mm(high), GRAIN)
    x0, _, x1, _ = bounds(piece.cut)
    tall = min(HIGH, max(SMALLEST, (x1 - x0) * 10 / LINE))
    inside = shapely.Polygon(piece.cut, piece.cut_holes).representative_point()
    x, y = _mm((max(x0, inside.x - (x1 - x0) / 4), inside.y))
    for i, (layer, line) in enumerate(_texts(garment, piece)):
        out += text(line, (x, y - 1.6 * tall * i), tall, layer)
    return out


def _grain(piece: Piece) -> tuple[Point, Point]:
    """The middle of the longest stretch of cloth along the grain, near the middle of the piece."""
    x0, y0, x1, y1 = bounds(piece.cut)
    whole = shapely.Polygon(piece.cut, piece.cut_holes)
    chords = []
    for share in (0.5, 0.4, 0.6, 0.3, 0.7):
        x = x0 + share * (x1 - x0)
        cut = whole.intersection(shapely.LineString([(x, y0), (x, y1)]))
        chords += [(part.length, x, part.bounds) for part in getattr(cut, "geoms", [cut]) if part.length]
    run, x, (_, low, _, high) = max(chords, key=lambda chord: round(chord[0], 1))
    return (x, low + 0.15 * run), (x, high - 0.15 * run)


def _texts(garment: Garment, piece: Piece) -> Iterator[tuple[str, str]]:
    """What is written in a block, with its layer: keys and values on the boundary's, words on the annotations'."""
    yield BOUNDARY, f"PIECE NAME: {piece.name}"
    yield BOUNDARY, f"QUANTITY: {piece.count}"
    yield BOUNDARY, f"SIZE: {_size(garment)}"
    yield BOUNDARY, f"MATERIAL: {clean(shortened(piece.cloth, LONGEST))}"
    with speaking(SOURCE):
        how = cut_how(garment.draft, piece)
    yield ANNOTATION, f"{piece.name}: {how}"
    if where := places(garment.draft, piece):
        yield ANNOTATION, where


def _kinds(ring: Line) -> list[str]:
    """Whether each point of a ring is a turn or lies on a curve."""
    stretches = trace(ring)
    turns = {stretch.points[0] for stretch in stretches} if len(stretches) > 1 else set()
    curved = {at for stretch in stretches if stretch.curved for at in stretch.points} - turns
    told = [at in turns or at in curved for at in ring]
    return [CURVE if _on_curve(ring, i, told, curved) else TURN for i in range(len(ring))]


def _on_curve(ring: Line, i: int, told: Sequence[bool], curved: set[Point]) -> bool:
    """A point in line with its neighbours is of a curve where both sides of it are."""
    if told[i]:
        return ring[i] in curved
    around = []
    for step in (-1, 1):
        j = i + step
        while not told[j % len(ring)]:
            j += step
        around.append(ring[j % len(ring)] in curved)
    return all(around)


def cutter_dxf(garment: Garment) -> bytes:
    """Bare cut lines in mm, every piece as often as it is cut, mirrored where it must be, all with one grain (y)."""
    known = by_id(garment.draft.pieces)
    ground: list[Pair] = []
    right, down, deepest = 0.0, 0.0, 0.0
    for part in all_parts(garment.draft):
        piece = known[part.piece]
        rings = [backwards(mirror(ring)) if part.mirrored else ring for ring in (piece.cut, *piece.cut_holes)]
        x0, y0, x1, y1 = bounds(rings[0])
        if right and right + x1 - x0 > BED:
            right, down, deepest = 0.0, down + deepest + APART, 0.0
        for ring in rings:
            ground += _line(shift(ring, right - x0, -down - y1), CUT, closed=True)
        right, deepest = right + x1 - x0 + APART, max(deepest, y1 - y0)
    return document((CUT,), (), ground)
