"""The lay: the cloth with every piece on it, and the distances to chalk them by."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from shapely import LineString, Polygon, box
from shapely.ops import unary_union

from ellwand.depict.chalk import corner_letters
from ellwand.depict.lettering import CM_PER_POINT, Lettering, shape_of
from ellwand.depict.naming import numbers, part_name
from ellwand.depict.placed import by_id, in_chalk_order, lie_ring
from ellwand.depict.sizes import chalked
from ellwand.geometry.lines import Line, Point
from ellwand.model.drawing import Anchor, Drawing, Label, Stroke
from ellwand.model.lay import Lay
from ellwand.model.piece import Piece
from ellwand.units import Unit, format_length

SMALL = 8.0
HATCH = 0.22
"""Between the lines of waste, in paper cm."""


def lay_drawing(lay: Lay, pieces: Sequence[Piece], unit: Unit, *, scale: float = 0.05, lying: bool = False) -> Drawing:
    """The lay in cloth coordinates, for ``scale`` (paper cm per cm); ``lying``: a quarter turn clockwise.

    Upright the cut end is below and the left selvedge at the left; lying, the cut end is at the left and the
    left selvedge above.
    """
    drawn = _Cloth(lay, pieces, unit, scale, lying)
    drawn.cloth()
    drawn.pieces()
    drawn.margins()
    return Drawing(tuple(drawn.strokes), tuple(drawn.letters.labels))


class _Cloth:
    """The drawing of one lay while it is being made."""

    def __init__(self, lay: Lay, pieces: Sequence[Piece], unit: Unit, scale: float, lying: bool) -> None:
        self.lay, self.unit, self.scale, self.lying = lay, unit, scale, lying
        self.list, self.known, self.key = pieces, by_id(pieces), numbers(pieces)
        self.strokes: list[Stroke] = []
        self.letters = Lettering(scale)
        self.rings = [lie_ring(chalked(self.known[p.piece]), p) for p in lay.placements]

    def paper(self, mm: float) -> float:
        return mm / 10 / self.scale

    def say(self, value: float) -> str:
        return format_length(value, self.unit, mark=False)

    def on_page(self, line: Iterable[Point]) -> Line:
        return tuple((y, -x) for x, y in line) if self.lying else tuple(line)

    def draw(self, stroke: Stroke) -> None:
        holes = tuple(self.on_page(hole) for hole in stroke.holes)
        self.strokes.append(Stroke(stroke.role, self.on_page(stroke.points), stroke.closed, holes))

    # --- cloth and waste -----------------------------------------------------------------------------------

    def cloth(self) -> None:
        width, length = self.lay.width, self.lay.length
        self.draw(Stroke("cloth", ((0, 0), (width, 0), (width, length), (0, length)), True))
        cut = [Polygon(lie_ring(self.known[p.piece].cut, p)) for p in self.lay.placements]
        waste = box(0, 0, width, length).difference(unary_union(cut))
        step = HATCH / self.scale * 2**0.5
        at = -length
        while at < width:
            line = LineString([(at, 0), (at + length, length)])
            for part in _lines(waste.intersection(line)):
                self.draw(Stroke("waste", part))
            at += step
        for x in (0.0, width):
            self.draw(Stroke("selvedge", ((x, 0.0), (x, length))))

    # --- pieces --------------------------------------------------------------------------------------------

    def pieces(self) -> None:
        for placement in self.lay.placements:
            piece = self.known[placement.piece]
            holes = tuple(lie_ring(hole, placement) for hole in piece.cut_holes)
            self.draw(Stroke("cut", lie_ring(piece.cut, placement), True, holes))
            for hole in piece.sewn_holes:
                self.draw(Stroke("sewn", _closed(lie_ring(hole, placement))))
        for placement in in_chalk_order(self.lay.placements, self.list):
            piece = self.known[placement.piece]
            ring = self.on_page(lie_ring(piece.cut, placement))
            inside = Polygon(ring, [self.on_page(lie_ring(h, placement)) for h in piece.cut_holes])
            self._heading(piece, part_name(placement.part, piece), inside)
            self._letters(self.on_page_letters(lie_ring(chalked(piece), placement)), inside)

    def on_page_letters(self, ring: Line) -> list[tuple[str, Point, Point]]:
        return [(letter, self.on_page((point,))[0], point) for letter, point in corner_letters(ring)]

    def _heading(self, piece: Piece, part: str, inside: Polygon) -> None:
        lines = [(str(self.key[piece.id]), 14.0), (piece.name, 9.0)] + ([(part, SMALL)] if part else [])
        room = inside.buffer(-0.05 / self.scale)
        for count in range(len(lines), 0, -1):
            for at in _spots(inside):
                block = self._block(lines[:count], at)
                if all(room.contains(shape_of(lab, self.scale)) and self.letters.free(lab) for lab in block):
                    for label in block:
                        self.letters.put(label)
                    return
        at = inside.representative_point()
        self.letters.put(Label("name", lines[0][0], (at.x, at.y), size=10.0))

    def _block(self, lines: list[tuple[str, float]], at: Point) -> list[Label]:
        tall = sum(size for _, size in lines) * 1.2 * CM_PER_POINT / self.scale
        y = at[1] + tall / 2
        out = []
        for i, (text, size) in enumerate(lines):
            half = size * 0.6 * CM_PER_POINT / self.scale
            out.append(Label("name" if i < 2 else "note", text, (at[0], y - half), size=size))
            y -= 2 * half
        return out

    def _letters(self, corners: list[tuple[str, Point, Point]], inside: Polygon) -> None:
        """A letter in each corner, with its two distances where there is room."""
        middle = inside.representative_point()
        room = inside.buffer(0.02 / self.scale)
        for letter, page, cloth in corners:
            dx, dy = (1 if middle.x > page[0] else -1), (1 if middle.y > page[1] else -1)
            anchor: Anchor = "start" if dx > 0 else "end"
            pair = f"{letter} {self.say(cloth[1])} / {self.say(cloth[0])}"
            spots = [
                (page[0] + dx * self.paper(a), page[1] + dy * self.paper(b))
                for a, b in ((1.0, 2.2), (1.0, 5.0), (3.0, 2.2), (2.0, 8.0))
            ]
            inward = [self._toward(page, (middle.x, middle.y), mm) for mm in (4.0, 5.5, 7.0)]
            tries = [Label("chalk", text, at, anchor, SMALL) for text in (pair, letter) for at in spots]
            tries += [Label("chalk", letter, at, "middle", SMALL) for at in inward]
            self.letters.first_free(t for t in tries if room.contains(shape_of(t, self.scale)) and self._apart(t))

    def _toward(self, start: Point, end: Point, mm: float) -> Point:
        """So many mm on paper from one point toward another."""
        share = min(0.5, self.paper(mm) / (math.dist(start, end) or 1.0))
        return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)

    def _apart(self, label: Label) -> bool:
        """Far enough from its neighbours not to be read as one with them."""
        return self.letters.clear(shape_of(label, self.scale).buffer(self.paper(0.4)))

    # --- margins -------------------------------------------------------------------------------------------

    def margins(self) -> None:
        """Along the left selvedge the distances from the cut end, along the cut end those from the selvedge."""
        ys = {round(y, 1) for ring in self.rings for _, y in corner_points(ring)}
        xs = {round(x, 1) for ring in self.rings for x, _ in corner_points(ring)}
        width, length = self.lay.width, self.lay.length
        tick = self.paper(1.6)
        for y in [0.0, length, *sorted(ys)]:
            self._margin_label(y, ((0.0, y), (-tick, y)), upright=not self.lying)
        for x in [0.0, width, *sorted(xs)]:
            self._margin_label(x, ((x, 0.0), (x, -tick)), upright=self.lying)
        out = self.paper(15.0), self.paper(8.0)
        side, below = (out[1], out[0]) if self.lying else out
        for text, at in (("cut end", (width / 2, -below)), ("left selvedge", (-side, length / 2))):
            upright = self.lying == (text == "cut end")
            self.letters.put(Label("edge", text, self.on_page((at,))[0], size=9.0, turn=90.0 if upright else 0.0))

    def _margin_label(self, value: float, line: Line, *, upright: bool) -> None:
        a, b = self.on_page(line)
        text = self.say(value)
        gap = self.paper(0.6)
        if upright:
            label = Label("chalk", text, (b[0] - gap, b[1]), "end", SMALL)
        else:
            down = -1 if b[1] < a[1] else 1
            half = SMALL * CM_PER_POINT / self.scale / 2
            label = Label("chalk", text, (b[0], b[1] + down * (gap + half)), "middle", SMALL)
        if self._apart(label) and self.letters.first_free([label]):
            self.strokes.append(Stroke("dimension", (a, b)))


def _closed(ring: Line) -> Line:
    return (*ring, ring[0])


def corner_points(ring: Line) -> list[Point]:
    """The corners of a ring on the cloth."""
    return [point for _, point in corner_letters(ring)]


def _lines(shape: object) -> list[Line]:
    parts = getattr(shape, "geoms", [shape])
    return [
        tuple((float(x), float(y)) for x, y in p.coords) for p in parts if isinstance(p, LineString) and p.length > 0
    ]


def _spots(shape: Polygon) -> list[Point]:
    """Where a heading may stand: the middle first, then round about it."""
    x0, y0, x1, y1 = shape.bounds
    at = shape.centroid
    out = [(at.x, at.y)]
    for share in (0.5, 0.35, 0.65, 0.25, 0.75):
        y = y0 + (y1 - y0) * share
        for part in _lines(shape.intersection(LineString([(x0 - 1, y), (x1 + 1, y)]))):
            out.append(((part[0][0] + part[-1][0]) / 2, y))
            out.append((part[0][0] * 0.7 + part[-1][0] * 0.3, y))
            out.append((part[0][0] * 0.3 + part[-1][0] * 0.7, y))
    return out
