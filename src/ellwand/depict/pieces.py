"""One piece as a measured drawing: its lettering."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from shapely import LineString

from ellwand.depict.fastenings import fastening_rows
from ellwand.depict.lettering import CM_PER_POINT, readable, shape_of, text_width
from ellwand.depict.naming import edge_name
from ellwand.depict.outline import middle
from ellwand.depict.piece_lines import PLAIN, SMALL, PieceLines
from ellwand.depict.sizes import NeckHole, fold_level
from ellwand.geometry.lines import Line, Point, length
from ellwand.model.drawing import Anchor, Drawing, Label, Stroke
from ellwand.model.piece import Guide, Piece
from ellwand.units import Unit


def piece_drawing(
    piece: Piece,
    unit: Unit,
    *,
    number: int | None = None,
    how: str = "",
    scale: float = 0.1,
    worn: Sequence[Stroke] = (),
) -> Drawing:
    """The piece with its sizes, to be drawn at ``scale`` (paper cm per cm), its cut outline starting at (0, 0).

    ``number`` and ``how`` ('cut 2') are written inside where there is room; ``worn`` is what lies on it.
    """
    drawn = _Sheet(piece, unit, scale)
    drawn.outline()
    drawn.strokes += worn
    drawn.sizes()
    drawn.slits()
    drawn.long_edges(level=True)
    drawn.faces()
    drawn.neck()
    drawn.fastenings()
    drawn.heading(number, how)
    drawn.short_edges()
    drawn.long_edges(level=False)
    drawn.grain()
    return Drawing(tuple(drawn.strokes), tuple(drawn.letters.labels))


class _Sheet(PieceLines):
    """The same with names on it, each where it finds room."""

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
        spots = [(x, y) for share in heights for y in [self.y0 + (self.y1 - self.y0) * share] for x in self._middles(y)]
        if self._inside([Label("name", lines[0][0], at, size=size) for size in (12.0, 9.0) for at in spots]):
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
                block = [
                    replace(label, role="dimension", at=(x, label.at[1]))
                    for label in self._block([(t, SMALL) for t in lines], top)
                ]
                if all(self._fits(label) for label in block):
                    self._write(block)
                    return
        for down in range(0, 60, 2):
            top = high - self.paper(down)
            at = self.x1 + self.paper(13)
            block = [
                replace(label, role="dimension", at=(at, label.at[1]), anchor="start")
                for label in self._block([(t, SMALL) for t in lines], top)
            ]
            if all(self.letters.free(label) for label in block):
                self._write(block)
                return

    def fastenings(self) -> None:
        """How many eyelets, buttons and so on, and how far apart, as a block beside each row of them."""
        for (x, y), lines in fastening_rows(self.piece, self.say):
            beside = [side * self.paper(off) for off in (12, 16, 20, 26) for side in (1, -1)]
            downs = [self.paper(down) for down in (0, 4, -4, 8, 12, 18, 26, 36)]
            blocks = (self._rows(lines, (x + dx, y - dy)) for dy in downs for dx in beside)
            block = next((block for block in blocks if all(self._fits(label) for label in block)), None)
            if block is None:
                outside = (self._rows(lines, (self.x1 + self.paper(14), y - dy), "start") for dy in downs)
                block = next((each for each in outside if all(self.letters.free(label) for label in each)), None)
            if block is not None:
                self._write(block)

    def _rows(self, lines: list[str], at: Point, anchor: Anchor = "middle") -> list[Label]:
        """Small lines of text below each other, the first at the point."""
        step = SMALL * 1.2 * CM_PER_POINT / self.scale
        return [Label("dimension", text, (at[0], at[1] - i * step), anchor, SMALL) for i, text in enumerate(lines)]

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
            lines.append(f"slit {self.say(hole.slit)}{' behind' if hole.behind else aside}")
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
            if self._inside(
                [Label("edge", name, (x, at[1] + self.paper(dy)), anchor, SMALL) for dy in (0, 1.5, -1.5, -3.2, 3.2)]
            ):
                continue
            beyond: Anchor = "start" if out[0] > 0 else "end"
            if self.piece.place == "sleeve":
                outside = (at[0] + out[0] * self.paper(1.2), at[1])
                self.letters.first_free([Label("edge", name, outside, beyond, SMALL)])
                continue
            x = self.x1 + self.paper(13) if out[0] > 0 else self.x0 - self.paper(20 if self.lopsided else 8)
            if self.letters.first_free([Label("edge", name, (x, at[1]), beyond, SMALL)]):
                self.strokes.append(Stroke("leader", (at, (x - out[0] * self.paper(0.4), at[1]))))

    def long_edges(self, *, level: bool) -> None:
        """Names written along their edges: those that run across the page, or the others."""
        if level:
            self._fold_name()
            self._taken_up_names()
            for guide in self.piece.guides:
                if self.piece.kind == "applied":
                    self._along(guide.name, guide.points)
        for name, line in self._named_lines():
            if not self._is_short(name, line) and level == (abs(self._outward(line)[1]) > 0.9):
                self._along(name, line)

    def _fold_name(self) -> None:
        fold = next((g for g in self.piece.guides if g.name == "shoulder fold"), None)
        if fold is not None and not self._along("shoulder fold", fold.points):
            self._along("fold", fold.points)

    def _taken_up_names(self) -> None:
        """Where a child's garment is taken up: how far above the cut edge; a tuck's two lines together."""
        ends = [(LineString(edge.points), edge.allowance) for edge in self.piece.edges if edge.kind in ("hem", "cuff")]
        lines = [guide for guide in self.piece.guides if guide.name in ("turn up", "tuck", "tuck top")]

        def up(guide: Guide) -> str:
            return self.say(min(LineString(guide.points).distance(edge) + allowance for edge, allowance in ends))

        for guide in lines:
            if not guide.name.startswith("tuck"):
                self._along(f"{guide.name}, {up(guide)} up", guide.points)
        low = next((guide for guide in lines if guide.name == "tuck"), None)
        for high in lines:
            if low is not None and high.name == "tuck top":
                self._along(f"tuck, {up(low)} to {up(high)} up", high.points)

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


def _straight(before: Line, after: Line) -> bool:
    (ax, ay), (bx, by), (cx, cy) = before[0], after[0], after[-1]
    run = math.dist(before[0], after[-1])
    return abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) < 0.01 * run
