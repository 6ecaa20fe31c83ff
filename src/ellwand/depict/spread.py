"""All pieces of a garment beside each other at one scale."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from math import inf

from ellwand.depict.lettering import shape_of
from ellwand.depict.naming import cut_how, numbers
from ellwand.depict.pieces import piece_drawing
from ellwand.depict.repeat_marks import motif_strokes
from ellwand.depict.side_by_side import Drawn, Spots, fill, in_columns, in_gaps, in_rows
from ellwand.geometry.lines import bounds, shift
from ellwand.language import language
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.model.piece import Piece
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
FINER = 0.96
"""From one scale that is tried to the next."""
SHARED = 0.03
"""Pieces that would be smaller than this (paper cm per cm) on a shared page get pages of their own."""
READABLE = 0.045
"""On pages of their own they are drawn as large as this, or as large as the largest of them can be."""


Draw = Callable[[float], list[Drawn]]
"""Every piece drawn for a scale."""
Spread = Callable[[list[Drawn], float], list[Spots] | None]
"""The drawings for a scale over one page or more; None where they do not fit."""


def pieces_sheet(draft: Draft, unit: Unit, width: float, height: float) -> Sheet:
    """Every piece at the largest common scale that fits ``width`` × ``height`` (paper cm), in columns or in rows."""
    draw = _drawing(draft, unit)
    found = _largest(draw, lambda drawn, scale: _on_one(drawn, scale, width, height), SMALLEST)
    return found[0] if found else _below_each_other(draw, width)


def pieces_sheets(
    draft: Draft, unit: Unit, width: float, shared: float, height: float, *, large: bool = False
) -> tuple[Sheet, ...]:
    """Every piece at one scale: on one sheet ``width`` × ``shared`` (paper cm) if that leaves them readable, else over
    as few sheets ``width`` × ``height`` as do; ``large``: as large as the largest of them can be.
    """
    draw = _drawing(draft, unit)
    if shared > 0 and not large:
        found = _largest(draw, lambda drawn, scale: _on_one(drawn, scale, width, shared), SHARED)
        if found:
            return found
    alone = 0.95 * min(_alone(each, READABLE, width, height) for each in draw(READABLE))
    least = max(alone if large else min(READABLE, alone), SMALLEST)
    for count in range(1, len(draft.pieces) + 1):

        def within(drawn: list[Drawn], scale: float, most: int = count) -> list[Spots] | None:
            return _over_pages(drawn, scale, width, height, most)

        found = _largest(draw, within, least)
        if found:
            return found
    return (_below_each_other(draw, width),)


def _drawing(draft: Draft, unit: Unit) -> Draw:
    """Draws every piece for a scale, the tallest first; each scale once."""
    key = numbers(draft.pieces)
    told = [(piece, cut_how(draft, piece), tuple(motif_strokes(draft, piece))) for piece in draft.pieces]

    @cache
    def draw(scale: float) -> list[Drawn]:
        out = [_drawn(piece, unit, key[piece.id], how, scale, worn, language()) for piece, how, worn in told]
        return sorted(out, key=lambda each: -each.high)

    return draw


@lru_cache(600)
def _drawn(
    piece: Piece, unit: Unit, number: int, how: str, scale: float, worn: tuple[Stroke, ...], _spoken: str
) -> Drawn:
    """One piece at a scale, its upper left corner at (0, 0): made once for the card and the workbook."""
    drawing = piece_drawing(piece, unit, number=number, how=how, scale=scale, worn=worn)
    x0, y0, x1, y1 = drawing_bounds(drawing, scale)
    a0, b0, a1, b1 = bounds(piece.cut)
    return Drawn(moved(drawing, -x0, -y1), x1 - x0, y1 - y0, a1 - a0, b1 - b0)


def forget() -> None:
    """Drop the pieces that were drawn: the next paper draws its own."""
    _drawn.cache_clear()


def _largest(draw: Draw, spread: Spread, least: float) -> tuple[Sheet, ...]:
    """The sheets at the largest scale of ``least`` at least that fits; none where none does.

    What fits is foreseen from a larger drawing, so that few scales are drawn.
    """
    scale = LARGEST
    while scale >= least:
        drawn = draw(scale)
        if (pages := spread(drawn, scale)) is not None:
            return tuple(_sheet(each, scale) for each in pages)
        other = scale * FINER
        while other >= least and spread([each.foreseen(scale, other) for each in drawn], other) is None:
            other *= FINER
        scale = other
    return ()


def _sheet(spots: Spots, scale: float) -> Sheet:
    drawing = joined([moved(each, right, -down) for each, right, down in spots])
    x0, y0, x1, y1 = drawing_bounds(drawing, scale)
    return Sheet(drawing, scale, (x1 - x0) * scale, (y1 - y0) * scale)


def _below_each_other(draw: Draw, width: float) -> Sheet:
    """At the smallest scale, as far down as need be."""
    return _sheet(in_rows(draw(SMALLEST), GAP / SMALLEST, width / SMALLEST, inf) or [], SMALLEST)


def _alone(each: Drawn, scale: float, width: float, height: float) -> float:
    """The largest scale at which it fits a page of its own."""
    beside, above = (each.wide - each.piece_wide) * scale, (each.high - each.piece_high) * scale
    return min(LARGEST, (width - beside) / each.piece_wide, (height - above) / each.piece_high)


def _on_one(drawn: list[Drawn], scale: float, width: float, height: float) -> list[Spots] | None:
    gap, room, tall = GAP / scale, width / scale, height / scale
    spots = in_columns(drawn, gap, room, tall) or in_rows(drawn, gap, room, tall) or in_gaps(drawn, gap, room, tall)
    return None if spots is None else [spots]


def _over_pages(drawn: list[Drawn], scale: float, width: float, height: float, most: int) -> list[Spots] | None:
    """The drawings over ``most`` pages at most, each filled with what still goes on it."""
    out: list[Spots] = []
    left = list(drawn)
    while left:
        here, left = fill(left, GAP / scale, width / scale, height / scale)
        if not here or len(out) == most:
            return None
        out += _on_one(here, scale, width, height) or []
    return out
