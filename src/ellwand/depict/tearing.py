"""Torn cloth: the drawing with its tears numbered, their table, and what to chalk in each block."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from shapely import LineString, Polygon, box

from ellwand.depict.chalk import ChalkRow, chalk_rows
from ellwand.depict.lay_ground import draw_cloth, draw_margins, draw_over
from ellwand.depict.lay_pieces import draw_outlines
from ellwand.depict.lay_sheet import LaySheet
from ellwand.depict.lettering import shape_of
from ellwand.geometry.lines import Point, arc
from ellwand.language import _
from ellwand.model.cloth import Cloth
from ellwand.model.drawing import Anchor, Drawing, Label, Stroke
from ellwand.model.lay import Placement
from ellwand.model.names import named
from ellwand.model.piece import Piece
from ellwand.model.tearing import LAY, REST, SELVEDGES, WHOLE, Block, Tear, TearPlan
from ellwand.units import Unit, format_length

NUMBER: Final = 11.0
NAME: Final = 10.0
SMALL: Final = 8.0
"""Sizes of lettering (points): tears, blocks, pieces."""


@dataclass(frozen=True, slots=True)
class TearRow:
    """One tear in words; ``distance`` in cm."""

    n: int
    of: str
    way: str
    distance: float
    comes_off: str
    left: str
    words: str


def tear_rows(plan: TearPlan, unit: Unit) -> tuple[TearRow, ...]:
    """The tears in their order, each with a sentence to work by."""
    return tuple(_row(tear, unit) for tear in plan.tears)


def _row(tear: Tear, unit: Unit) -> TearRow:
    off, left = (_called(name) for name in (tear.gives, tear.leaves))
    said = {
        "torn": _("the cloth") if tear.of == WHOLE else _called(tear.of),
        "distance": format_length(tear.distance, unit),
        "off": off,
        "left": left,
    }
    if tear.way == "along":
        words = _("Tear {torn} along, {distance} from its left edge: {off} comes off, {left} is left.", **said)
    elif tear.of in (WHOLE, LAY):
        words = _(
            "Tear {torn} across, from selvedge to selvedge, {distance} from its cut end: {off} comes off, {left} is"
            " left.",
            **said,
        )
    else:
        words = _("Tear {torn} across, {distance} from its lower end: {off} comes off, {left} is left.", **said)
    return TearRow(tear.n, tear.of, tear.way, tear.distance, off, left, words)


def _called(name: str) -> str:
    known = {
        REST: _("the rest of the cloth"),
        LAY: _("the lay"),
        SELVEDGES[0]: _("the left selvedge"),
        SELVEDGES[1]: _("the right selvedge"),
        "": _("waste"),
    }
    return known.get(name, name)


def block_chalk(plan: TearPlan, pieces: Sequence[Piece], unit: Unit) -> tuple[tuple[Block, tuple[ChalkRow, ...]], ...]:
    """What to chalk in each block that scissors go into, measured from the block's own lower end and left edge."""
    out = []
    cut = {each.block for each in plan.cuts}
    by_part = {placement.part: placement for placement in plan.lay.placements}
    for block in plan.blocks:
        if block.name in cut:
            placed = [by_part[part] for part in block.parts]
            inside = tuple(replace(p, x=round(p.x - block.x, 6), y=round(p.y - block.y, 6)) for p in placed)
            lay = replace(plan.lay, width=block.width, length=block.height, placements=inside)
            out.append((block, chalk_rows(lay, pieces, unit)))
    return tuple(out)


def tear_drawing(
    plan: TearPlan,
    pieces: Sequence[Piece],
    unit: Unit,
    *,
    cloth: Cloth | None = None,
    scale: float = 0.05,
    lying: bool = False,
) -> Drawing:
    """The cloth with its tears as heavy lines, numbered in their order, and the blocks and pieces named.

    As ``lay_drawing`` otherwise: ``scale`` in paper cm per cm; ``lying``: a quarter turn clockwise.
    """
    sheet = LaySheet(plan.lay, pieces, cloth, unit, scale, lying)
    draw_cloth(sheet)
    draw_outlines(sheet)
    draw_over(sheet)
    for tear in plan.tears:
        sheet.draw("tear", (tear.start, tear.end))
    draw_margins(sheet)
    for tear in plan.tears:
        _number(sheet, tear)
    for block in plan.blocks:
        _name_block(sheet, block)
    for placement in plan.lay.placements:
        _name_piece(sheet, placement)
    return sheet.drawing()


def _name_piece(sheet: LaySheet, placement: Placement) -> None:
    """Its number and name, or its number alone."""
    piece = sheet.known[placement.piece]
    number = str(sheet.key[piece.id])
    ring = Polygon(sheet.ring(placement))
    page = Polygon(sheet.on_page(sheet.ring(placement))).buffer(sheet.paper(0.3))
    spots = [sheet.point(spot) for spot in _spots(ring)]
    labels = [
        Label("note", text, spot, size=SMALL) for text in (f"{number} {named(piece.name)}", number) for spot in spots
    ]
    _put(sheet, labels, page)


def _put(sheet: LaySheet, labels: Sequence[Label], page: Polygon) -> None:
    """The first that is free and lies within."""
    inside = (each for each in labels if page.contains(shape_of(each, sheet.scale)) and sheet.apart(each))
    sheet.letters.first_free(inside)


def _spots(shape: Polygon) -> Iterator[Point]:
    """Where a name may stand: the middle first, then round about it."""
    middle = shape.representative_point()
    yield middle.x, middle.y
    left, low, right, high = shape.bounds
    for share in (0.5, 0.3, 0.7, 0.15, 0.85):
        y = low + (high - low) * share
        inside = shape.intersection(LineString([(left - 1, y), (right + 1, y)]))
        for part in getattr(inside, "geoms", [inside]):
            if part.length > 0:
                at = part.interpolate(0.5, normalized=True)
                yield at.x, at.y


def _number(sheet: LaySheet, tear: Tear) -> None:
    """In a white ring on its line, where there is room."""
    (ax, ay), (bx, by) = tear.start, tear.end
    half = sheet.paper(2.3)
    tries = []
    for share in sorted((i / 20 for i in range(1, 20)), key=lambda share: round(abs(share - 0.5), 2)):
        at = sheet.point((ax + (bx - ax) * share, ay + (by - ay) * share))
        tries.append(Label("number", str(tear.n), at, size=NUMBER))
    shapes = [(each, shape_of(each, sheet.scale)) for each in tries]
    airy = (each for each, shape in shapes if sheet.letters.clear(shape.buffer(half / 2)))
    close = (each for each, shape in shapes if sheet.letters.clear(shape))
    free = next(itertools.chain(airy, close, tries))
    x, y = free.at
    ring = tuple((x + half * dx, y + half * dy) for dx, dy in arc((0.0, 0.0), 1.0, 0.0, math.tau, 0.3)[:-1])
    sheet.strokes.append(Stroke("fault", ring, closed=True))
    sheet.letters.put(free)


def _name_block(sheet: LaySheet, block: Block) -> None:
    """In one of its corners, or along its edges."""
    (ax, ay), (bx, by) = (
        sheet.point((block.x, block.y)),
        sheet.point((block.x + block.width, block.y + block.height)),
    )
    page = box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))
    gap = sheet.paper(1.2)
    left, low, right, high = (min(ax, bx) + gap, min(ay, by) + gap, max(ax, bx) - gap, max(ay, by) - gap)
    half = sheet.label_height(NAME) / 2
    ends: tuple[tuple[float, Anchor], ...] = ((left, "start"), (right, "end"), ((left + right) / 2, "middle"))
    labels = [
        Label("name", block.name, (x, y), anchor, size=NAME)
        for y in (high - half, low + half, (low + high) / 2)
        for x, anchor in ends
    ]
    _put(sheet, labels, page)
