"""What of a piece chalk and a rule cannot draw: its curves, each with some cloth about it."""

from __future__ import annotations

from typing import Final

from shapely import LineString, MultiLineString, Polygon, box, line_merge
from shapely.geometry.base import BaseGeometry

from ellwand.depict.naming import edge_name, line_said
from ellwand.depict.outline import trace
from ellwand.depict.pattern.fullsize import FullSize, full_size, full_sized, heading, inner_lines, names
from ellwand.depict.pattern.writing import Writing
from ellwand.geometry.lines import Line, bounds
from ellwand.model.drawing import Drawing, Role, Stroke
from ellwand.model.garment import Garment
from ellwand.model.piece import Piece

ABOUT: Final = 5.0
"""How much of the piece is drawn about a curve (cm), so that it can be laid to its corners."""
WHOLE: Final = 0.6
"""A piece whose curves take up this share of its rectangle is drawn whole."""

Frame = tuple[float, float, float, float]


def curved_parts(garment: Garment, piece: Piece) -> tuple[FullSize, ...]:
    """The parts of the piece that hold its curves; the whole piece where they are most of it; none when straight."""
    frames = _frames(piece)
    x0, y0, x1, y1 = bounds(piece.cut)
    if sum((c - a) * (d - b) for a, b, c, d in frames) > WHOLE * (x1 - x0) * (y1 - y0):
        return full_size(garment, piece)
    return tuple(_part(garment, piece, frame) for frame in frames)


def _frames(piece: Piece) -> list[Frame]:
    """Rectangles about the curves, those that touch made one, kept to the piece's own."""
    x0, y0, x1, y1 = bounds(piece.cut)
    curves = [stretch for ring in (piece.cut, *piece.cut_holes) for stretch in trace(ring) if stretch.curved]
    frames: list[Frame] = []
    for curve in curves:
        a, b, c, d = bounds(curve.points)
        new = (max(x0, a - ABOUT), max(y0, b - ABOUT), min(x1, c + ABOUT), min(y1, d + ABOUT))
        while touching := [each for each in frames if _touch(each, new)]:
            frames = [each for each in frames if each not in touching]
            both = [new, *touching]
            new = (
                min(f[0] for f in both),
                min(f[1] for f in both),
                max(f[2] for f in both),
                max(f[3] for f in both),
            )
        frames.append(new)
    return frames


def _touch(one: Frame, two: Frame) -> bool:
    return one[0] <= two[2] and two[0] <= one[2] and one[1] <= two[3] and two[1] <= one[3]


def _part(garment: Garment, piece: Piece, frame: Frame) -> FullSize:
    window = box(*frame)
    number, name, lines = heading(garment, piece)
    whole = Polygon(piece.cut, piece.cut_holes)
    paper = _largest(whole.intersection(window))
    write = Writing(_largest(Polygon(piece.sewn, piece.sewn_holes).intersection(window)), paper)
    rings: list[tuple[Role, Line]] = [
        *(("cut", (*ring, ring[0])) for ring in (piece.cut, *piece.cut_holes)),
        *(("sewn", (*ring, ring[0])) for ring in (piece.sewn, *piece.sewn_holes)),
        *((stroke.role, stroke.points) for stroke in inner_lines(piece)),
    ]
    strokes = [Stroke(role, part) for role, line in rings for part in _within(line, window)]
    torn = LineString(paper.exterior.coords).difference(whole.boundary.buffer(1e-6))
    strokes += [Stroke("waste", part) for part in _lines(torn)]
    write.keep_off(stroke for stroke in strokes if stroke.role in ("fold", "mark"))
    curved = [edge for edge in piece.edges if len(edge.points) > 2 and _within(edge.points, window)]
    what = ", ".join(dict.fromkeys(line_said(name) for name in map(edge_name, curved) if name))
    write.heading([f"{lines[0]}: {what}" if what else lines[0], *lines[1:]])
    edges = [(edge_name(edge), part) for edge in piece.edges for part in _within(edge.points, window)]
    names(write, edges, piece)
    strokes += write.grain()
    drawing = Drawing((*strokes, *write.leaders), tuple(write.letters.labels))
    return full_sized(number, ", ".join(filter(None, (name, what))), lines[1], drawing, _points(paper.exterior))


def _within(line: Line, window: Polygon) -> list[Line]:
    """What of a line lies within the window, in the line's own direction."""
    return _lines(LineString(line).intersection(window))


def _lines(shape: BaseGeometry) -> list[Line]:
    parts = [part for part in getattr(shape, "geoms", [shape]) if part.geom_type == "LineString" and part.length > 0]
    merged = line_merge(MultiLineString(parts), directed=True)
    return [_points(part) for part in getattr(merged, "geoms", [merged]) if not part.is_empty]


def _largest(shape: BaseGeometry) -> Polygon:
    parts = [part for part in getattr(shape, "geoms", [shape]) if part.geom_type == "Polygon"]
    return max(parts, key=lambda part: part.area)


def _points(line: BaseGeometry) -> Line:
    return tuple((float(x), float(y)) for x, y in line.coords)
