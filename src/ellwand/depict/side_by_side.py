"""Drawings side by side on a page: in columns, in rows, or wherever there is a gap."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf

from ellwand.model.drawing import Drawing


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing with its upper left corner at (0, 0), its size and that of the piece in it (drawing cm)."""

    drawing: Drawing
    wide: float
    high: float
    piece_wide: float
    piece_high: float

    def foreseen(self, scale: float, other: float) -> Drawn:
        """About its size if it were drawn at another scale: what stands round the piece stays as large on paper."""
        share = scale / other
        return replace(
            self,
            wide=self.piece_wide + (self.wide - self.piece_wide) * share,
            high=self.piece_high + (self.high - self.piece_high) * share,
        )


Spots = list[tuple[Drawing, float, float]]
"""A drawing, how far it is moved to the right and down (drawing cm)."""


def in_columns(drawn: list[Drawn], gap: float, width: float, height: float) -> Spots | None:
    """Columns from left to right, each filled downward; None when they do not fit."""
    columns: list[list[float]] = []
    placed: list[tuple[Drawing, int, float]] = []
    for each in drawn:
        if each.high > height:
            return None
        for i, column in enumerate(columns):
            if column[1] + gap + each.high <= height and each.wide <= column[0] * 1.15:
                placed.append((each.drawing, i, column[1] + gap))
                column[:] = [max(column[0], each.wide), column[1] + gap + each.high]
                break
        else:
            placed.append((each.drawing, len(columns), 0.0))
            columns.append([each.wide, each.high])
    total = sum(column[0] for column in columns) + gap * (len(columns) - 1)
    if total > width:
        return None
    spare = _spare(gap, width - total, len(columns))
    starts = [sum(c[0] for c in columns[:i]) + i * (gap + spare) for i in range(len(columns))]
    return [(drawing, starts[i], down) for drawing, i, down in placed]


def in_rows(drawn: list[Drawn], gap: float, width: float, height: float) -> Spots | None:
    """Rows from above, each filled to the right; None when they do not fit."""
    rows: list[list[Drawn]] = [[]]
    for each in drawn:
        if rows[-1] and sum(one.wide + gap for one in rows[-1]) + each.wide > width:
            rows.append([])
        rows[-1].append(each)
    out: Spots = []
    down = 0.0
    for row in rows:
        total = sum(each.wide for each in row) + gap * (len(row) - 1)
        spare = _spare(gap, width - total, len(row))
        if total > width and height < inf:
            return None
        right = 0.0
        for each in row:
            out.append((each.drawing, right, down))
            right += each.wide + gap + spare
        down += max(each.high for each in row) + gap
    return out if down - gap <= height else None


def in_gaps(drawn: list[Drawn], gap: float, width: float, height: float) -> Spots | None:
    """Each as high up as it goes, then as far left, under those that are there; None when they do not fit."""
    spots, left = _stacked(drawn, gap, width, height)
    return None if left else spots


def fill(drawn: list[Drawn], gap: float, width: float, height: float) -> tuple[list[Drawn], list[Drawn]]:
    """Those that go on one page, and those that are left."""
    _, left = _stacked(drawn, gap, width, height)
    over = {id(each) for each in left}
    return [each for each in drawn if id(each) not in over], left


def _stacked(drawn: list[Drawn], gap: float, width: float, height: float) -> tuple[Spots, list[Drawn]]:
    """Each as high up as it goes, then as far left, under those that are there; and those that find no room."""
    # the lower line of what is placed: from an x on, how far down it reaches
    line: list[tuple[float, float]] = [(0.0, 0.0)]
    out: Spots = []
    left: list[Drawn] = []
    for each in drawn:
        starts = [x for x, _ in line if x + each.wide <= width + 1e-9]
        down, right = min(((_reach(line, x, x + each.wide + gap), x) for x in starts), default=(inf, 0.0))
        if down + each.high > height:
            left.append(each)
            continue
        out.append((each.drawing, right, down))
        line = _lowered(line, right, right + each.wide + gap, down + each.high + gap)
    return out, left


def _reach(line: list[tuple[float, float]], left: float, right: float) -> float:
    """How far down the line reaches between two x."""
    ends = [*[x for x, _ in line[1:]], inf]
    return max(down for (x, down), end in zip(line, ends, strict=True) if x < right - 1e-9 and end > left + 1e-9)


def _lowered(line: list[tuple[float, float]], left: float, right: float, down: float) -> list[tuple[float, float]]:
    """The line once something reaches ``down`` between ``left`` and ``right``."""
    after = _reach(line, right, right + 2e-9)
    kept = [(x, d) for x, d in line if x < left - 1e-9 or x > right + 1e-9]
    return sorted([*kept, (left, down), (right, after)])


def _spare(gap: float, left_over: float, count: int) -> float:
    """What is added to each gap so that the room is used, within reason."""
    return min(gap * 3, max(0.0, left_over) / (count - 1)) if count > 1 else 0.0
