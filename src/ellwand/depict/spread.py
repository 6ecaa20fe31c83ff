"""All pieces of a garment beside each other at one scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ellwand.depict.lettering import shape_of
from ellwand.depict.naming import cut_how, numbers
from ellwand.depict.pieces import piece_drawing
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


def pieces_sheet(draft: Draft, unit: Unit, width: float, height: float) -> Sheet:
    """Every piece at the largest common scale that fits ``width`` × ``height`` (paper cm)."""
    low, high = 0.005, LARGEST
    best = _packed(draft, unit, high, width, height)
    if best is None:
        for _ in range(9):
            mid = (low + high) / 2
            found = _packed(draft, unit, mid, width, height)
            if found is None:
                high = mid
            else:
                best, low = found, mid
    if best is None:
        return _packed(draft, unit, low, 1e6, 1e6) or Sheet(Drawing((), ()), low, width, height)
    return best


def _packed(draft: Draft, unit: Unit, scale: float, width: float, height: float) -> Sheet | None:
    """Columns from left to right, the tallest piece first, each column filled downward."""
    key = numbers(draft.pieces)
    drawn = []
    for piece in draft.pieces:
        drawing = piece_drawing(piece, unit, number=key[piece.id], how=cut_how(draft, piece), scale=scale)
        x0, y0, x1, y1 = drawing_bounds(drawing, scale)
        drawn.append((moved(drawing, -x0, -y1), x1 - x0, y1 - y0))
    gap, tall = GAP / scale, height / scale
    columns: list[list[float]] = []
    out: list[tuple[Drawing, int, float]] = []
    for drawing, wide, high in sorted(drawn, key=lambda d: -d[2]):
        if high > tall:
            return None
        for i, column in enumerate(columns):
            if column[1] + gap + high <= tall and wide <= column[0] * 1.15:
                out.append((drawing, i, column[1] + gap))
                column[:] = [max(column[0], wide), column[1] + gap + high]
                break
        else:
            out.append((drawing, len(columns), 0.0))
            columns.append([wide, high])
    total = sum(column[0] for column in columns) + gap * (len(columns) - 1)
    if total * scale > width:
        return None
    spare = min(gap * 3, (width / scale - total) / max(1, len(columns) - 1)) if len(columns) > 1 else 0.0
    starts, x = [], 0.0
    for column in columns:
        starts.append(x)
        x += column[0] + gap + spare
    drawing = joined([moved(each, starts[i], -down) for each, i, down in out])
    used = max(column[1] for column in columns)
    return Sheet(drawing, scale, (x - gap - spare) * scale, used * scale)
