"""One piece as a measured drawing: its lettering."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import replace

from shapely import LineString

from ellwand.depict.fastenings import fastening_rows
from ellwand.depict.lettering import CM_PER_POINT
from ellwand.depict.naming import view_said
from ellwand.depict.piece_edges import PieceEdges
from ellwand.depict.piece_lines import PLAIN, SMALL
from ellwand.depict.sizes import NeckHole, fold_level
from ellwand.geometry.lines import Point
from ellwand.language import _
from ellwand.model.drawing import Anchor, Drawing, Label, Stroke
from ellwand.model.names import named
from ellwand.model.piece import Piece
from ellwand.units import Unit

BIT = 1.0
"""Where less of a neck than this (cm) falls on a piece, it is chalked by its points alone."""
BESIDE = (3, 13, 22, 30)
"""How far to the right of a piece its notes may stand, best first (mm on paper)."""


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
    if drawn.small:
        drawn.heading(number, how)
    drawn.long_edges(level=True)
    drawn.faces()
    drawn.neck()
    drawn.fastenings()
    if not drawn.small:
        drawn.heading(number, how)
    drawn.short_edges()
    drawn.long_edges(level=False)
    drawn.grain()
    return Drawing(tuple(drawn.strokes), tuple(drawn.letters.labels))


class _Sheet(PieceEdges):
    """The same with names on it, each where it finds room."""

    @property
    def small(self) -> bool:
        """Whether number and edge names hardly find room in it together; then the number goes first."""
        return min(self.x1 - self.x0, self.y1 - self.y0) < self.paper(14)

    def heading(self, number: int | None, how: str) -> None:
        """Number, name and count in the middle, as far as they fit."""
        fold = fold_level(self.piece)
        lines = [(str(number), 15.0)] if number is not None else []
        lines += [(named(self.piece.name), PLAIN)] + ([(how, SMALL)] if how else [])
        heights = [0.45, 0.4, 0.35, 0.3, 0.25, 0.5, 0.2] if fold is None else [0.36, 0.3, 0.4, 0.25]
        for count in range(len(lines), 0, -1):
            for share in heights:
                top = self.y0 + (self.y1 - self.y0) * share
                block = self._block(lines[:count], top)
                if all(self._fits(label) for label in block):
                    self._write(block)
                    return
        text = lines[0][0]
        levels = [self.y0 + (self.y1 - self.y0) * share for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)]
        spots = [(x, y) for y in levels for x in self._middles(y)]
        if self._inside([Label("name", text, at, size=size) for size in (12.0, 10.0, 9.0, 8.0) for at in spots]):
            return
        aside = [(self.x1 + self.paper(off), y) for off in BESIDE for y in levels]
        if not self.letters.first_free([Label("name", text, at, "start", 12.0) for at in aside]):
            self.letters.put(Label("name", text, (self._middle_x(levels[0]), levels[0]), size=10.0))

    def faces(self) -> None:
        """Which end is the front."""
        for y, text in self._faces(fold_level(self.piece)):
            self._inside([Label("note", text, (self._middle_x(y), y), size=PLAIN + 1)])

    def _faces(self, fold: float | None) -> list[tuple[float, str]]:
        if fold is None:
            return []
        return [
            (self.y0 + (fold - self.y0) * 0.16, view_said("front")),
            (self.y1 - (self.y1 - fold) * 0.16, view_said("back")),
        ]

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

    def neck(self) -> None:
        """The sizes of the neck hole, as one block below it."""
        if self.hole is None or self.hole.width < BIT:
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
        for off, down in itertools.product(BESIDE, range(0, 60, 2)):
            block = [
                replace(label, role="dimension", at=(self.x1 + self.paper(off), label.at[1]), anchor="start")
                for label in self._block([(t, SMALL) for t in lines], high - self.paper(down))
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
                outside = (
                    self._rows(lines, (self.x1 + self.paper(off), y - dy), "start") for off in BESIDE for dy in downs
                )
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
        wide, front = self.say(hole.width), self.say(hole.front)
        lines = [_("neck half {width} wide", width=wide) if hole.half else _("neck {width} wide", width=wide)]
        lines.append(_("{depth} in front", depth=front) if hole.back else _("{depth} deep", depth=front))
        if hole.back:
            lines.append(_("{depth} behind", depth=self.say(hole.back)))
        if hole.slit:
            slit = self.say(hole.slit)
            if hole.behind:
                lines.append(_("slit {length} behind", length=slit))
            elif hole.aside > 0.05:
                lines.append(_("slit {length}, {aside} off centre", length=slit, aside=self.say(hole.aside)))
            else:
                lines.append(_("slit {length}", length=slit))
        return lines
