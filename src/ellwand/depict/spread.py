"""All pieces of a garment beside each other at one scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ellwand.depict.lettering import shape_of
from ellwand.depict.naming import cut_how, numbers
from ellwand.depict.pieces import piece_drawing
from ellwand.depict.repeat_marks import motif_strokes
from ellwand.geometry.lines import shift
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.units import Unit

LARGEST = 0.1
"""Not drawn larger than one to ten."""
GAP = 0.35
"""Between drawings, in paper cm."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A drawing with the scale it was made for, and its size on paper (cm)."""

    drawing: Drawing
    scale: float
    width: float
    height: float


def drawing_bounds(drawing: Drawing, scale: float) -> tuple[float, float, float, float]:
    """What strokes and labels cover at that scale, in drawing cm."""
    xs, ys = [], []
    for stroke in drawing.strokes:
        xs += [x for x, _ in stroke.points]
        ys += [y for _, y in stroke.points]
    for label in drawing.labels:
        x0, y0, x1, y1 = shape_of(label, scale).bounds
        xs += [x0, x1]
        ys += [y0, y1]
    return min(xs), min(ys), max(xs), max(ys)


def moved(drawing: Drawing, dx: float, dy: float) -> Drawing:
    """The drawing moved by (dx, dy) cm."""
    return Drawing(
        tuple(
            Stroke(s.role, shift(s.points, dx, dy), s.closed, tuple(shift(hole, dx, dy) for hole in s.holes))
            for s in drawing.strokes
        ),
        tuple(
            Label(lab.role, lab.text, (lab.at[0] + dx, lab.at[1] + dy), lab.anchor, lab.size, lab.turn)
            for lab in drawing.labels
        ),
    )


def joined(drawings: Sequence[Drawing]) -> Drawing:
    """Several drawings as one."""
    return Drawing(
        tuple(s for drawing in drawings for s in drawing.strokes),
        tuple(label for drawing in drawings for label in drawing.labels),
    )


SMALLEST = 0.005
"""Smaller is not tried: no outline would be left to see."""
FINER = 0.92
"""From one scale that is tried to the next."""

Drawn = tuple[Drawing, float, float]
"""A drawing with its upper left corner at (0, 0), its width and its height (drawing cm)."""
Spots = list[tuple[Drawing, float, float]]
"""A drawing, how far it is moved to the right and down (drawing cm)."""


def pieces_sheet(draft: Draft, unit: Unit, width: float, height: float) -> Sheet:
    """Every piece at the largest common scale that fits ``width`` × ``height`` (paper cm), in columns or in rows."""
    scale = LARGEST
    while True:
        drawn = _drawn(draft, unit, scale)
        room, tall = width / scale, height / scale
        gap = GAP / scale
        spots = (
            _in_columns(drawn, gap, room, tall) or _in_rows(drawn, gap, room, tall) or _in_gaps(drawn, gap, room, tall)
        )
        if spots is None and scale <= SMALLEST:
            spots = _in_rows(drawn, GAP / scale, room, float("inf"))
        if spots is not None:
            drawing = joined([moved(each, right, -down) for each, right, down in spots])
            x0, y0, x1, y1 = drawing_bounds(drawing, scale)
            return Sheet(drawing, scale, (x1 - x0) * scale, (y1 - y0) * scale)
        scale *= FINER


def _drawn(draft: Draft, unit: Unit, scale: float) -> list[Drawn]:
    """Every piece, the tallest first."""
    key = numbers(draft.pieces)
    out = []
    for piece in draft.pieces:
        on_it = motif_strokes(draft, piece)
        drawing = piece_drawing(piece, unit, number=key[piece.id], how=cut_how(draft, piece), scale=scale, worn=on_it)
        x0, y0, x1, y1 = drawing_bounds(drawing, scale)
        out.append((moved(drawing, -x0, -y1), x1 - x0, y1 - y0))
    return sorted(out, key=lambda each: -each[2])


def _in_columns(drawn: list[Drawn], gap: float, width: float, height: float) -> Spots | None:
    """Columns from left to right, each filled downward; None when they do not fit."""
    columns: list[list[float]] = []
    placed: list[tuple[Drawing, int, float]] = []
    for drawing, wide, high in drawn:
        if high > height:
            return None
        for i, column in enumerate(columns):
            if column[1] + gap + high <= height and wide <= column[0] * 1.15:
                placed.append((drawing, i, column[1] + gap))
                column[:] = [max(column[0], wide), column[1] + gap + high]
                break
        else:
            placed.append((drawing, len(columns), 0.0))
            columns.append([wide, high])
    total = sum(column[0] for column in columns) + gap * (len(columns) - 1)
    if total > width:
        return None
    spare = _spare(gap, width - total, len(columns))
    starts = [sum(c[0] for c in columns[:i]) + i * (gap + spare) for i in range(len(columns))]
    return [(drawing, starts[i], down) for drawing, i, down in placed]


def _in_rows(drawn: list[Drawn], gap: float, width: float, height: float) -> Spots | None:
    """Rows from above, each filled to the right; None when they do not fit."""
    rows: list[list[Drawn]] = [[]]
    for each in drawn:
        if rows[-1] and sum(wide + gap for _, wide, _ in rows[-1]) + each[1] > width:
            rows.append([])
        rows[-1].append(each)
    out: Spots = []
    down = 0.0
    for row in rows:
        total = sum(wide for _, wide, _ in row) + gap * (len(row) - 1)
        spare = _spare(gap, width - total, len(row))
        if total > width and height < float("inf"):
            return None
        right = 0.0
        for drawing, wide, _ in row:
            out.append((drawing, right, down))
            right += wide + gap + spare
        down += max(high for _, _, high in row) + gap
    return out if down - gap <= height else None


def _in_gaps(drawn: list[Drawn], gap: float, width: float, height: float) -> Spots | None:
    """Each as high up as it goes, then as far left, under those that are there; None when they do not fit."""
    # the lower line of what is placed: from an x on, how far down it reaches
    line: list[tuple[float, float]] = [(0.0, 0.0)]
    out: Spots = []
    for drawing, wide, high in drawn:
        starts = [x for x, _ in line if x + wide <= width + 1e-9]
        if not starts:
            return None
        down, right = min((_reach(line, x, x + wide + gap), x) for x in starts)
        if down + high > height:
            return None
        out.append((drawing, right, down))
        line = _lowered(line, right, right + wide + gap, down + high + gap)
    return out


def _reach(line: list[tuple[float, float]], left: float, right: float) -> float:
    """How far down the line reaches between two x."""
    ends = [*[x for x, _ in line[1:]], float("inf")]
    return max(down for (x, down), end in zip(line, ends, strict=True) if x < right - 1e-9 and end > left + 1e-9)


def _lowered(line: list[tuple[float, float]], left: float, right: float, down: float) -> list[tuple[float, float]]:
    """The line once something reaches ``down`` between ``left`` and ``right``."""
    after = _reach(line, right, right + 2e-9)
    kept = [(x, d) for x, d in line if x < left - 1e-9 or x > right + 1e-9]
    return sorted([*kept, (left, down), (right, after)])


def _spare(gap: float, left_over: float, count: int) -> float:
    """What is added to each gap so that the room is used, within reason."""
    return min(gap * 3, max(0.0, left_over) / (count - 1)) if count > 1 else 0.0
