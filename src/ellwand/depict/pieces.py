"""One piece as a measured drawing."""

from __future__ import annotations

import math
from dataclasses import replace

from shapely import LineString, Polygon, box

from ellwand.depict.lettering import CM_PER_POINT, Lettering, shape_of, readable, text_width
from ellwand.depict.naming import edge_name, mirrors_itself
from ellwand.depict.outline import Slit, middle
from ellwand.depict.sizes import Extent, Mark, NeckHole, cut_slits, extent, fold_level, marks, neck_hole
from ellwand.geometry.lines import Line, Point, bounds, length
from ellwand.model.drawing import Anchor, Drawing, Label, Stroke
from ellwand.model.piece import Piece
from ellwand.units import Unit, format_length

SMALL, PLAIN = 8.0, 9.0
"""Sizes of lettering in points: edge names, and numbers."""


def piece_drawing(
    piece: Piece, unit: Unit, *, number: int | None = None, how: str = "", scale: float = 0.1
) -> Drawing:
    """The piece with its sizes, to be drawn at ``scale`` (paper cm per cm), its cut outline starting at (0, 0).

    ``number`` and ``how`` ('cut 2') are written inside where there is room.
    """
    drawn = _Sheet(piece, unit, scale)
    drawn.outline()
    drawn.sizes()
    drawn.slits()
    drawn.long_edges(level=True)
    drawn.short_edges()
    drawn.faces()
    drawn.neck()
    drawn.long_edges(level=False)
    drawn.heading(number, how)
    drawn.grain()
    return Drawing(tuple(drawn.strokes), tuple(drawn.letters.labels))


class _Sheet:
    """The drawing of one piece while it is being made."""

    def __init__(self, piece: Piece, unit: Unit, scale: float) -> None:
        self.piece, self.unit, self.scale = piece, unit, scale
        self.x0, self.y0, self.x1, self.y1 = bounds(piece.cut)
        self.strokes: list[Stroke] = []
        self.letters = Lettering(scale)
        self.inside = Polygon(piece.sewn, piece.sewn_holes).buffer(-0.03 / scale)
        self.extent: Extent = extent(piece)
        self.hole: NeckHole | None = neck_hole(piece)
        self.marks: tuple[Mark, ...] = marks(piece)
        left = [m for m in self.marks if not m.on_top and m.at[0] < (self.x0 + self.x1) / 2]
        self.lopsided = bool(left) and not mirrors_itself(piece)

    def paper(self, mm: float) -> float:
        """So many mm on paper, in drawing cm."""
        return mm / 10 / self.scale

    def say(self, value: float) -> str:
        return format_length(value, self.unit, mark=False)

    # --- lines ---------------------------------------------------------------------------------------------

    def outline(self) -> None:
        piece = self.piece
        self.strokes.append(Stroke("cut", piece.cut, True, piece.cut_holes))
        self.strokes.append(Stroke("sewn", piece.sewn, True, piece.sewn_holes))
        for guide in piece.guides:
            self.strokes.append(Stroke("fold", guide.points))

    def sizes(self) -> None:
        size = self.extent
        gap = self.paper(3.0)
        lower = self._chain([s.mouth[0] for s in cut_slits(self.piece) if s.mouth[1] < self.y0 + 0.05], self.y0 - gap)
        self._chain([s.mouth[0] for s in cut_slits(self.piece) if self._at_back_hem(s)], self.y1 + gap)
        self._across(size.bottom[0][0], size.bottom[1][0], self.y0 - gap - lower, size.bottom[0][1])
        if size.top_width > 0.05 and abs(size.top_width - size.bottom_width) > 0.05:
            self._across(size.top[0][0], size.top[1][0], self.y1 + gap + self._top_room(), size.top[0][1])
        self._up(self.x0 - (self.paper(14) if self.lopsided else gap), self.y0, self.y1)
        if size.side:
            self._aslant(size.bottom[1], size.top[1])
        self._marks()

    def _at_back_hem(self, slit: Slit) -> bool:
        return fold_level(self.piece) is not None and slit.mouth[1] > self.y1 - 0.05

    def _chain(self, stops: list[float], y: float) -> float:
        """Distances from side to slit, slit to slit, slit to side; returns the room it takes."""
        if not stops:
            return 0.0
        at = [self.x0, *sorted(stops), self.x1]
        for a, b in zip(at, at[1:], strict=False):
            self._across(a, b, y, (self.y0 + self.y1) / 2)
        return self.paper(5.5)

    def _top_room(self) -> float:
        return self.paper(4.0) if any(mark.on_top for mark in self.marks) else 0.0

    def _across(self, a: float, b: float, y: float, edge: float) -> None:
        text, size = self.say(b - a), PLAIN
        below = y < edge
        lift = self.paper(0.6) + size * CM_PER_POINT / self.scale / 2
        self.strokes.append(Stroke("dimension", ((a, y), (b, y))))
        for x in (a, b):
            tick = self.paper(0.9)
            self.strokes.append(Stroke("dimension", ((x, y - tick), (x, y + tick))))
        self.letters.put(Label("dimension", text, ((a + b) / 2, y - lift if below else y + lift), size=size))

    def _up(self, x: float, low: float, high: float) -> None:
        text = self.say(high - low)
        tick = self.paper(0.9)
        self.strokes.append(Stroke("dimension", ((x, low), (x, high))))
        for y in (low, high):
            self.strokes.append(Stroke("dimension", ((x - tick, y), (x + tick, y))))
        lift = self.paper(0.6) + PLAIN * CM_PER_POINT / self.scale / 2
        self.letters.put(Label("dimension", text, (x - lift, (low + high) / 2), size=PLAIN, turn=90.0))

    def _aslant(self, low: Point, high: Point) -> None:
        """A slanted side: its length along the side, outside."""
        dx, dy = high[0] - low[0], high[1] - low[1]
        run = math.hypot(dx, dy)
        out = (dy / run, -dx / run)
        gap = self.paper(2.2)
        a = (low[0] + out[0] * gap, low[1] + out[1] * gap)
        b = (high[0] + out[0] * gap, high[1] + out[1] * gap)
        self.strokes.append(Stroke("dimension", (a, b)))
        for p in (a, b):
            t = self.paper(0.9)
            self.strokes.append(
                Stroke("dimension", ((p[0] - out[0] * t, p[1] - out[1] * t), (p[0] + out[0] * t, p[1] + out[1] * t)))
            )
        lift = self.paper(0.6) + PLAIN * CM_PER_POINT / self.scale / 2
        at = ((a[0] + b[0]) / 2 + out[0] * lift, (a[1] + b[1]) / 2 + out[1] * lift)
        turn = readable(math.degrees(math.atan2(dy, dx)))
        self.letters.put(Label("dimension", self.say(run), at, size=PLAIN, turn=turn))

    def _marks(self) -> None:
        for mark in self.marks:
            self.strokes.append(Stroke("mark", (mark.at, mark.inner)))
            if mark.on_top:
                self._top_mark(mark)
        self._side_marks(1)
        if self.lopsided:
            self._side_marks(-1)

    def _side_marks(self, sign: int) -> None:
        """The distances of the marks on the right (1) or left (−1) side, outside."""
        mid = (self.x0 + self.x1) / 2
        side = sorted((m for m in self.marks if not m.on_top and (m.at[0] - mid) * sign > 0), key=lambda m: m.at[1])
        aslant = self.extent.side > 0 and sign > 0
        edge = self.x1 if sign > 0 else self.x0
        anchor: Anchor = "start" if sign > 0 else "end"
        heights = _spread([m.at[1] for m in side], self.paper(3.6))
        for mark, y in zip(side, heights, strict=True):
            x = mark.at[0] + self.paper(7.7) if aslant else edge + sign * self.paper(2.2)
            self.strokes.append(Stroke("leader", (mark.at, (x, y))))
            text = self.say(mark.distance)
            self.letters.put(Label("dimension", text, (x + sign * self.paper(0.5), y), anchor, SMALL))

    def _top_mark(self, mark: Mark) -> None:
        y = self.y1 + self.paper(2.2)
        self.letters.first_free([Label("dimension", self.say(mark.distance), (mark.at[0], y), size=SMALL)])

    def slits(self) -> None:
        """Cuts up from a hem: how long."""
        for slit in cut_slits(self.piece):
            if slit.mouth[1] < self.y0 + 0.05 or self._at_back_hem(slit):
                middle_y = (slit.mouth[1] + slit.tip[1]) / 2
                text = f"slit {self.say(math.dist(slit.mouth, slit.tip))}"
                self.letters.put(Label("dimension", text, (slit.mouth[0] - self.paper(2.0), middle_y), size=SMALL, turn=90.0))

    # --- lettering -----------------------------------------------------------------------------------------

    def heading(self, number: int | None, how: str) -> None:
        """Number, name and count in the middle, as far as they fit."""
        fold = fold_level(self.piece)
        lines = [(str(number), 15.0)] if number is not None else []
        lines += [(self.piece.name, PLAIN)] + ([(how, SMALL)] if how else [])
        heights = [0.45, 0.4, 0.35, 0.3, 0.25, 0.5, 0.2] if fold is None else [0.36, 0.3, 0.4, 0.25]
        for count in range(len(lines), 0, -1):
            for share in heights:
                top = self.y0 + (self.y1 - self.y0) * share
                block = self._block(lines[:count], top)
                if all(self._fits(label) for label in block):
                    self._write(block)
                    return
        middle_y = (self.y0 + self.y1) / 2
        self.letters.put(Label("name", lines[0][0], (self._middle_x(middle_y), middle_y), size=10.0))

    def faces(self) -> None:
        """Which end is the front."""
        for y, text in self._faces(fold_level(self.piece)):
            self._inside([Label("note", text, (self._middle_x(y), y), size=PLAIN + 1)])

    def _faces(self, fold: float | None) -> list[tuple[float, str]]:
        if fold is None:
            return []
        return [(self.y0 + (fold - self.y0) * 0.16, "front"), (self.y1 - (self.y1 - fold) * 0.16, "back")]

    def _block(self, lines: list[tuple[str, float]], top: float) -> list[Label]:
        out, y = [], top
        for i, (text, size) in enumerate(lines):
            y -= size * 0.6 * CM_PER_POINT / self.scale
            out.append(Label("name" if i < 2 else "note", text, (self._middle_x(y), y), size=size))
            y -= size * 0.6 * CM_PER_POINT / self.scale
        return out

    def _middle_x(self, y: float) -> float:
        """The middle of the widest stretch of cloth at this height."""
        return self._middles(y)[0]

    def _middles(self, y: float) -> list[float]:
        """The middles of the stretches of cloth at this height, the widest first."""
        cut = self.inside.intersection(LineString([(self.x0 - 1, y), (self.x1 + 1, y)]))
        spans = [g.bounds for g in getattr(cut, "geoms", [cut]) if not g.is_empty]
        spans.sort(key=lambda b: (-round(b[2] - b[0], 2), b[0]))
        return [float(b[0] + b[2]) / 2 for b in spans] or [(self.x0 + self.x1) / 2]

    def _fits(self, label: Label) -> bool:
        return bool(self.inside.contains(shape_of(label, self.scale))) and self.letters.free(label)

    def _inside(self, candidates: list[Label]) -> bool:
        for label in candidates:
            if self._fits(label):
                self.letters.put(label)
                return True
        return False

    def neck(self) -> None:
        """The sizes of the neck hole, as one block below it."""
        if self.hole is None:
            return
        lines = self._neck_lines(self.hole)
        high = (fold_level(self.piece) or self.y1) - self.hole.front - self.hole.slit
        for down in range(0, 70, 2):
            top = high - self.paper(1.0 + down)
            for x in self._middles(top - self.paper(2.0)):
                block = [replace(label, role="dimension", at=(x, label.at[1])) for label in self._block([(t, SMALL) for t in lines], top)]
                if all(self._fits(label) for label in block):
                    self._write(block)
                    return
        for down in range(0, 60, 2):
            top = high - self.paper(down)
            at = self.x1 + self.paper(13)
            block = [replace(label, role="dimension", at=(at, label.at[1]), anchor="start") for label in self._block([(t, SMALL) for t in lines], top)]
            if all(self.letters.free(label) for label in block):
                self._write(block)
                return

    def _write(self, block: list[Label]) -> None:
        for label in block:
            self.letters.put(label)

    def _neck_lines(self, hole: NeckHole) -> list[str]:
        lines = [f"neck {'half ' if hole.half else ''}{self.say(hole.width)} wide"]
        lines.append(f"{self.say(hole.front)} {'in front' if hole.back else 'deep'}")
        if hole.back:
            lines.append(f"{self.say(hole.back)} behind")
        if hole.slit:
            aside = f", {self.say(hole.aside)} off centre" if hole.aside > 0.05 else ""
            lines.append(f"slit {self.say(hole.slit)}{aside}")
        return lines

    def _named_lines(self) -> list[tuple[str, Line]]:
        """Every edge to be named; on sleeves and panels, alike neighbours in one line count as one."""
        out: list[tuple[str, Line]] = []
        for edge in self.piece.edges:
            name = edge_name(edge)
            if not name or name == "neck":
                continue
            if out and fold_level(self.piece) is None and out[-1][0] == name and _straight(out[-1][1], edge.points):
                out[-1] = (name, (*out[-1][1], *edge.points[1:]))
            else:
                out.append((name, edge.points))
        return out

    def _is_short(self, name: str, line: Line) -> bool:
        return text_width(name, SMALL) / self.scale > length(line)

    def short_edges(self) -> None:
        """Names of edges too short to be written along go beside them, inside or else outside."""
        for name, line in self._named_lines():
            if not self._is_short(name, line):
                continue
            at, out = middle(line), self._outward(line)
            if abs(out[0]) < 0.7 or self.piece.place == "gusset":
                continue
            anchor: Anchor = "end" if out[0] > 0 else "start"
            x = at[0] - out[0] * self.paper(1.2)
            if self._inside([Label("edge", name, (x, at[1] + self.paper(dy)), anchor, SMALL) for dy in (0, 1.5, -1.5, -3.2, 3.2)]):
                continue
            beyond: Anchor = "start" if out[0] > 0 else "end"
            x = self.x1 + self.paper(13) if out[0] > 0 else self.x0 - self.paper(20 if self.lopsided else 8)
            if self.piece.place == "body" and self.letters.first_free([Label("edge", name, (x, at[1]), beyond, SMALL)]):
                self.strokes.append(Stroke("leader", (at, (x - out[0] * self.paper(0.4), at[1]))))

    def long_edges(self, *, level: bool) -> None:
        """Names written along their edges: those that run across the page, or the others."""
        if level:
            self._fold_name()
        for name, line in self._named_lines():
            if not self._is_short(name, line) and level == (abs(self._outward(line)[1]) > 0.9):
                self._along(name, line)

    def _fold_name(self) -> None:
        fold = next((g for g in self.piece.guides if g.name == "shoulder fold"), None)
        if fold is not None and not self._along("shoulder fold", fold.points):
            self._along("fold", fold.points)

    def _outward(self, line: Line) -> Point:
        (ax, ay), (bx, by) = line[0], line[-1]
        run = math.hypot(bx - ax, by - ay) or 1.0
        return ((by - ay) / run, -(bx - ax) / run)

    def _along(self, name: str, line: Line) -> bool:
        """Along an edge, just inside the sewn line."""
        run = length(line)
        wide = text_width(name, SMALL) / self.scale
        if wide > run:
            return False
        out = self._outward(line)
        at = middle(line)
        turn = readable(math.degrees(math.atan2(line[-1][1] - line[0][1], line[-1][0] - line[0][0])))
        lift = self.paper(0.7) + SMALL * CM_PER_POINT / self.scale / 2
        room = (run - wide) / 2
        steps = [0.0, 0.5, -0.5, 0.95, -0.95]
        direction = (-out[1], out[0])
        return self._inside(
            [
                Label(
                    "edge",
                    name,
                    (
                        at[0] - out[0] * lift * deep + direction[0] * room * step,
                        at[1] - out[1] * lift * deep + direction[1] * room * step,
                    ),
                    size=SMALL,
                    turn=turn,
                )
                for deep in (1.0, 1.6)
                for step in steps
            ]
        )

    def grain(self) -> None:
        """An arrow along the grain where there is room."""
        tall = min(self.paper(14), (self.y1 - self.y0) * 0.4)
        head = self.paper(1.2)
        for share in (0.22, 0.78, 0.3, 0.7, 0.4, 0.6, 0.5):
            x = self.x0 + (self.x1 - self.x0) * share
            for up in (0.55, 0.3, 0.7, 0.2):
                low = self.y0 + (self.y1 - self.y0) * up - tall / 2
                area = box(x - head, low, x + head, low + tall)
                if not self.inside.contains(area) or not self.letters.clear(area):
                    continue
                top = low + tall
                self.strokes.append(Stroke("grain", ((x, low), (x, top))))
                for tip, way in ((top, -1), (low, 1)):
                    self.strokes.append(
                        Stroke("grain", ((x - head * 0.6, tip + way * head), (x, tip), (x + head * 0.6, tip + way * head)))
                    )
                return


def _straight(before: Line, after: Line) -> bool:
    (ax, ay), (bx, by), (cx, cy) = before[0], after[0], after[-1]
    run = math.dist(before[0], after[-1])
    return abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) < 0.01 * run


def _spread(values: list[float], step: float) -> list[float]:
    """The rising values moved apart to at least ``step``."""
    out: list[float] = []
    for value in values:
        out.append(max(value, out[-1] + step) if out else value)
    return out
