"""One piece as a measured drawing: its lines and sizes."""

from __future__ import annotations

import itertools
import math

from shapely import LineString, Polygon, box

from ellwand.depict.fastenings import fastening_signs
from ellwand.depict.guides import guide_role
from ellwand.depict.lettering import CM_PER_POINT, Lettering, readable, shape_of, text_width
from ellwand.depict.outline import Slit
from ellwand.depict.sizes import (
    Extent,
    Mark,
    NeckHole,
    cut_slits,
    extent,
    fold_level,
    marks,
    neck_hole,
    sleeve_stops,
    waists,
)
from ellwand.geometry.lines import Point, bounds
from ellwand.language import _
from ellwand.model.drawing import Anchor, Label, Role, Stroke
from ellwand.model.piece import Piece
from ellwand.units import Unit, format_length

SMALL, PLAIN = 8.0, 9.0
"""Sizes of lettering in points: edge names, and numbers."""


class PieceLines:
    """The drawing of one piece while it is being made: its lines and its sizes.

    Lengths on paper are given in mm and turned into drawing cm by ``paper``.
    """

    def __init__(self, piece: Piece, unit: Unit, scale: float) -> None:
        self.piece, self.unit, self.scale = piece, unit, scale
        self.x0, self.y0, self.x1, self.y1 = bounds(piece.cut)
        self.strokes: list[Stroke] = []
        self.letters = Lettering(scale)
        self.inside = Polygon(piece.sewn, piece.sewn_holes).buffer(-0.03 / scale)
        self.extent: Extent = extent(piece)
        self.hole: NeckHole | None = neck_hole(piece)
        self.marks: tuple[Mark, ...] = marks(piece)
        middle = (self.x0 + self.x1) / 2
        left = {round(m.at[1], 2) for m in self.marks if not m.on_top and m.at[0] < middle}
        self.lopsided = bool(left - {round(m.at[1], 2) for m in self.marks if not m.on_top and m.at[0] > middle})

    def paper(self, mm: float) -> float:
        """So many mm on paper, in drawing cm."""
        return mm / 10 / self.scale

    def beside(self, role: Role, *points: Point) -> None:
        """A line beside the piece, which no name may cross."""
        self.strokes.append(Stroke(role, points))
        self.letters.taken.append(LineString(points).buffer(self.paper(0.25), quad_segs=1))

    def _fits(self, label: Label) -> bool:
        return bool(self.inside.contains(shape_of(label, self.scale))) and self.letters.free(label)

    def _inside(self, candidates: list[Label]) -> bool:
        for label in candidates:
            if self._fits(label):
                self.letters.put(label)
                return True
        return False

    def say(self, value: float) -> str:
        return format_length(value, self.unit, mark=False)

    def outline(self) -> None:
        piece = self.piece
        self.strokes.append(Stroke("cut", piece.cut, True, piece.cut_holes))
        self.strokes.append(Stroke("sewn", piece.sewn, True, piece.sewn_holes))
        for guide in piece.guides:
            role = guide_role(guide)
            self.strokes.append(Stroke(role, guide.points))
            if role == "fold":
                self.letters.taken.append(LineString(guide.points).buffer(self.paper(0.2), quad_segs=1))
        signs = fastening_signs(piece, self.paper(0.7))
        self.strokes += signs
        self.letters.taken += [box(*bounds(sign.points)) for sign in signs]

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
        for i, stop in enumerate(sleeve_stops(self.piece)):
            x = self.x1 + self.paper(17 + 7 * i)
            self.beside("leader", stop, (x, stop[1]))
            self._up(x, self.y0, stop[1])
        self._marks()
        told: list[float] = []
        for left, right in waists(self.piece):
            if any(abs(left[1] - level) < 0.3 for level in told):
                # the corners of both sides tell of the same line
                continue
            told.append(left[1])
            self.strokes.append(Stroke("dimension", (left, right)))
            text = _("{width}, {distance} up", width=self.say(right[0] - left[0]), distance=self.say(left[1] - self.y0))
            at = ((left[0] + right[0]) / 2, left[1] + self.paper(2.2))
            self.letters.put(Label("dimension", text, at, size=SMALL))

    def _at_back_hem(self, slit: Slit) -> bool:
        return fold_level(self.piece) is not None and slit.mouth[1] > self.y1 - 0.05

    def _chain(self, stops: list[float], y: float) -> float:
        """Distances from side to slit, slit to slit, slit to side; returns the room it takes."""
        if not stops:
            return 0.0
        at = [self.x0, *sorted(stops), self.x1]
        if any(text_width(self.say(b - a), PLAIN) / self.scale > b - a for a, b in itertools.pairwise(at)):
            # they would run into each other; the chalk list tells them
            return 0.0
        for a, b in itertools.pairwise(at):
            self._across(a, b, y, (self.y0 + self.y1) / 2)
        return self.paper(5.5)

    def _top_room(self) -> float:
        return self.paper(4.0) if any(mark.on_top for mark in self.marks) else 0.0

    def _across(self, a: float, b: float, y: float, edge: float) -> None:
        text, size = self.say(b - a), PLAIN
        below = y < edge
        lift = self.paper(0.6) + size * CM_PER_POINT / self.scale / 2
        self.beside("dimension", (a, y), (b, y))
        for x in (a, b):
            tick = self.paper(0.9)
            self.strokes.append(Stroke("dimension", ((x, y - tick), (x, y + tick))))
        self.letters.put(Label("dimension", text, ((a + b) / 2, y - lift if below else y + lift), size=size))

    def _up(self, x: float, low: float, high: float) -> None:
        text = self.say(high - low)
        tick = self.paper(0.9)
        self.beside("dimension", (x, low), (x, high))
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
        self.beside("dimension", a, b)
        for p in (a, b):
            t = self.paper(0.9)
            self.strokes.append(
                Stroke(
                    "dimension",
                    ((p[0] - out[0] * t, p[1] - out[1] * t), (p[0] + out[0] * t, p[1] + out[1] * t)),
                )
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
            self.beside("leader", mark.at, (x, y))
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
                text = _("slit {length}", length=self.say(math.dist(slit.mouth, slit.tip)))
                self.letters.put(
                    Label("dimension", text, (slit.mouth[0] - self.paper(2.0), middle_y), size=SMALL, turn=90.0)
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
                        Stroke(
                            "grain",
                            (
                                (x - head * 0.6, tip + way * head),
                                (x, tip),
                                (x + head * 0.6, tip + way * head),
                            ),
                        )
                    )
                return


def _spread(values: list[float], step: float) -> list[float]:
    """The rising values moved apart to at least ``step``."""
    out: list[float] = []
    for value in values:
        out.append(max(value, out[-1] + step) if out else value)
    return out
