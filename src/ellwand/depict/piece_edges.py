"""One piece as a measured drawing: the names of its edges."""

from __future__ import annotations

import math

from shapely import LineString

from ellwand.depict.lettering import CM_PER_POINT, readable, shape_of, text_width
from ellwand.depict.naming import edge_name, line_said
from ellwand.depict.outline import middle
from ellwand.depict.piece_lines import SMALL, PieceLines
from ellwand.depict.sizes import fold_level
from ellwand.geometry.lines import Line, Point, length
from ellwand.language import _
from ellwand.model.drawing import Anchor, Label, Stroke
from ellwand.model.piece import Guide

PLAIN_SEAMS = ("division seam", "piecing seam")
"""Where a part of the garment is only joined up: not named beside a piece, which may have many of them."""


class PieceEdges(PieceLines):
    """The same with its edges named, each where its name finds room."""

    def _named_lines(self) -> list[tuple[str, Line, str]]:
        """Every edge to be named, and its kind; on sleeves and panels, alike neighbours in one line count as one."""
        out: list[tuple[str, Line, str]] = []
        for edge in self.piece.edges:
            name = edge_name(edge)
            if not name or name == "neck":
                continue
            name = line_said(name)
            if out and fold_level(self.piece) is None and out[-1][0] == name and _straight(out[-1][1], edge.points):
                out[-1] = (name, (*out[-1][1], *edge.points[1:]), edge.kind)
            else:
                out.append((name, edge.points, edge.kind))
        return out

    def _is_short(self, name: str, line: Line) -> bool:
        return text_width(name, SMALL) / self.scale > length(line)

    def short_edges(self) -> None:
        """Names of edges too short to be written along go beside them, inside or else outside."""
        for name, line, kind in self._named_lines():
            if kind in PLAIN_SEAMS or not self._is_short(name, line):
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
            outside = (at[0] + out[0] * self.paper(1.2), at[1])
            if self.piece.place == "sleeve" and self.letters.first_free([Label("edge", name, outside, beyond, SMALL)]):
                continue
            x = self.x1 + self.paper(13) if out[0] > 0 else self.x0 - self.paper(20 if self.lopsided else 8)
            way = ((at[0] + out[0] * self.paper(1.0), at[1]), (x - out[0] * self.paper(0.4), at[1]))
            named = Label("edge", name, (x, at[1]), beyond, SMALL)
            if self.letters.free(named) and self._clear_of_words(way):
                self.letters.put(named)
                self.strokes.append(Stroke("leader", (at, way[1])))

    def _clear_of_words(self, line: Line) -> bool:
        """True when the line crosses nothing that is written."""
        way = LineString(line)
        return not any(way.intersects(shape_of(label, self.scale)) for label in self.letters.labels)

    def long_edges(self, *, level: bool) -> None:
        """Names written along their edges: those that run across the page, or the others."""
        if level:
            self._fold_name()
            self._taken_up_names()
            for guide in self.piece.guides:
                if self.piece.kind == "applied":
                    self._along(line_said(guide.name), guide.points)
        for name, line, _kind in self._named_lines():
            if not self._is_short(name, line) and level == (abs(self._outward(line)[1]) > 0.9):
                self._along(name, line)

    def _fold_name(self) -> None:
        fold = next((g for g in self.piece.guides if g.name == "shoulder fold"), None)
        if fold is not None and not self._along(line_said("shoulder fold"), fold.points):
            self._along(line_said("fold"), fold.points)

    def _taken_up_names(self) -> None:
        """Where a child's garment is taken up: how far above the cut edge; a tuck's two lines together."""
        ends = [(LineString(edge.points), edge.allowance) for edge in self.piece.edges if edge.kind in ("hem", "cuff")]
        lines = [guide for guide in self.piece.guides if guide.name in ("turn up", "tuck", "tuck top")]

        if not ends:
            # on a piece without a hem they are chalked with those beside it
            return

        def up(guide: Guide) -> str:
            return self.say(min(LineString(guide.points).distance(edge) + allowance for edge, allowance in ends))

        for guide in lines:
            if not guide.name.startswith("tuck"):
                self._along(_("{line}, {distance} up", line=line_said(guide.name), distance=up(guide)), guide.points)
        low = next((guide for guide in lines if guide.name == "tuck"), None)
        for high in lines:
            if low is not None and high.name == "tuck top":
                self._along(_("tuck, {low} to {high} up", low=up(low), high=up(high)), high.points)

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
