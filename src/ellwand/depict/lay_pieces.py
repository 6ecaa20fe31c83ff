"""The pieces of a lay: outlines, number and name, corners with their distances, grain, what lies on the fold."""

from __future__ import annotations

import itertools
import math
from typing import Final

from shapely import LineString, MultiLineString, Polygon, line_merge

from ellwand.depict.chalk import corner_letters
from ellwand.depict.lay_ground import arrow, straight_lines
from ellwand.depict.lay_sheet import LaySheet
from ellwand.depict.lettering import CM_PER_POINT, shape_of
from ellwand.depict.naming import key_said, part_name, part_said
from ellwand.depict.placed import in_chalk_order, lie_ring
from ellwand.geometry.lines import Line, Point
from ellwand.language import N_, _
from ellwand.model.drawing import Anchor, Label, Stroke
from ellwand.model.lay import Placement
from ellwand.model.names import named
from ellwand.model.piece import Piece

SMALL: Final = 8.0
"""Lettering of corners and notes (points)."""
SIZES: Final = (14.0, 11.0, 9.5, SMALL)
"""Sizes that a number may have where there is no room for the name (points), the best first."""
GRAIN: Final = (14.0, 9.0, 6.0)
"""Lengths that a grain arrow may have (mm on paper), the best first."""
ON_FOLD: Final = N_("on the fold")


def draw_outlines(sheet: LaySheet) -> None:
    """Every piece's cut outline on white, and the sewing line of its holes."""
    for placement in sheet.lay.placements:
        piece = sheet.known[placement.piece]
        if placement.on_fold:
            _half(sheet, placement, piece)
            continue
        holes = [lie_ring(hole, placement) for hole in piece.cut_holes]
        sheet.draw("cut", lie_ring(piece.cut, placement), closed=True, holes=holes)
        for hole in piece.sewn_holes:
            sheet.draw("sewn", _closed(lie_ring(hole, placement)))


def draw_names(sheet: LaySheet) -> None:
    """In every piece its number and name, its lettered corners, and an arrow along its grain where there is room."""
    for placement in in_chalk_order(sheet.lay.placements, sheet.pieces):
        piece = sheet.known[placement.piece]
        inside = _inside(sheet, placement, piece)
        page = Polygon(sheet.on_page(_coords(inside.exterior)), [sheet.on_page(_coords(h)) for h in inside.interiors])
        if placement.on_fold:
            _fold_sign(sheet, inside)
        _heading(sheet, piece, placement, page)
        _letters(sheet, placement, page)
        _grain(sheet, placement, inside)


# --- outlines ---------------------------------------------------------------------------------------------


def _inside(sheet: LaySheet, placement: Placement, piece: Piece) -> Polygon:
    """The placed piece, of one on the fold the half that lies there."""
    shape = Polygon(lie_ring(piece.cut, placement), [lie_ring(hole, placement) for hole in piece.cut_holes])
    if not placement.on_fold:
        return shape
    half = shape.intersection(sheet.ground())
    parts = [part for part in getattr(half, "geoms", [half]) if isinstance(part, Polygon)]
    return max(parts, key=lambda part: part.area)


def _half(sheet: LaySheet, placement: Placement, piece: Piece) -> None:
    """A piece on the fold: what lies on the cloth, its edge along the fold left open."""
    inside = _inside(sheet, placement, piece)
    sheet.draw("blank", _coords(inside.exterior), closed=True, holes=[_coords(hole) for hole in inside.interiors])
    fold = _fold_line(sheet).buffer(1e-3)
    for ring in (inside.exterior, *inside.interiors):
        left = LineString(ring.coords).difference(fold)
        for line in straight_lines(line_merge(left) if isinstance(left, MultiLineString) else left):
            sheet.draw("cut", line)


def _fold_line(sheet: LaySheet) -> LineString:
    end = (0.0, sheet.length) if sheet.lay.fold == "lengthwise" else (sheet.width, 0.0)
    return LineString([(0.0, 0.0), end])


def _fold_sign(sheet: LaySheet, inside: Polygon) -> None:
    """The maker's sign for 'place on the fold': a line beside it whose two ends point at it, and the words."""
    x0, y0, x1, y1 = inside.bounds
    lengthwise = sheet.lay.fold == "lengthwise"
    start, end = (y0, y1) if lengthwise else (x0, x1)
    out, near, off = sheet.paper(3.0), sheet.paper(0.3), sheet.paper(3.0) + sheet.label_height(SMALL) * 0.6
    upright = lengthwise != sheet.lying
    room = Polygon(sheet.on_page(_coords(inside.exterior)))

    def beside(along: float, away: float) -> Point:
        return (away, along) if lengthwise else (along, away)

    for low_share, high_share in ((0.25, 0.75), (0.1, 0.5), (0.5, 0.9), (0.05, 0.4), (0.6, 0.95)):
        low, high = (start + (end - start) * share for share in (low_share, high_share))
        at = sheet.point(beside((low + high) / 2, off))
        label = Label("note", _(ON_FOLD), at, size=SMALL, turn=90.0 if upright else 0.0)
        if room.contains(shape_of(label, sheet.scale)):
            sheet.letters.put(label)
            break
    else:
        low, high = start + (end - start) * 0.25, start + (end - start) * 0.75
    sign = (beside(low, near), beside(low, out), beside(high, out), beside(high, near))
    sheet.letters.taken.append(LineString(sheet.on_page(sign)).buffer(sheet.paper(0.4)))
    sheet.draw("grain", (beside(low, out), beside(high, out)))
    for along in (low, high):
        arrow(sheet, beside(along, out), beside(along, near))


# --- lettering ---------------------------------------------------------------------------------------------


def _heading(sheet: LaySheet, piece: Piece, placement: Placement, inside: Polygon) -> None:
    number = key_said(piece, sheet.key[piece.id])
    head, notes = [(number, 14.0), (named(piece.name), 9.0)], _notes(placement, piece)
    tries = [[*head, *((text, SMALL) for text in said)] for said in (notes, [text.split(":")[0] for text in notes[:1]])]
    room = inside.buffer(-0.05 / sheet.scale)
    spots = _spots(inside)
    for lines in (*tries, head, *([(number, size)] for size in SIZES)):
        for at in spots:
            block = _block(sheet, lines, at)
            if all(room.contains(shape_of(lab, sheet.scale)) and sheet.letters.free(lab) for lab in block):
                for label in block:
                    sheet.letters.put(label)
                return
    # over an outline, but clear of other words; or beside the piece, with a line to it
    over = [Label("name", number, at, size=size) for size in (10.0, SMALL) for at in spots]
    if sheet.letters.first_free(over):
        return
    middle = inside.representative_point()
    for mm, turn in itertools.product((5.0, 7.5, 10.0, 13.0), range(0, 360, 30)):
        away = sheet.paper(mm)
        at = (middle.x + away * math.cos(math.radians(turn)), middle.y + away * math.sin(math.radians(turn)))
        if sheet.letters.first_free([Label("name", number, at, size=SMALL)]):
            sheet.strokes.append(Stroke("leader", (at, (middle.x, middle.y))))
            return


def _notes(placement: Placement, piece: Piece) -> list[str]:
    """Which part it is; of folded cloth, which two; what else to heed."""
    parts = [part_said(part_name(part, piece)) for part in (placement.part, placement.partner) if part]
    told = [part for part in parts if part]
    both = _("{one} and {other}", one=told[0], other=told[1]) if len(told) > 1 else "".join(told)
    if placement.layers == 2 and placement.partner:
        out = [_("cut 2: {parts}", parts=both) if both else _("cut 2")]
    else:
        out = [both] if both else []
    if placement.selvedge:
        out.append(_("edge in the selvedge"))
    return out


def _block(sheet: LaySheet, lines: list[tuple[str, float]], at: Point) -> list[Label]:
    tall = sum(size for _, size in lines) * 1.2 * CM_PER_POINT / sheet.scale
    y = at[1] + tall / 2
    out = []
    for i, (text, size) in enumerate(lines):
        half = size * 0.6 * CM_PER_POINT / sheet.scale
        out.append(Label("name" if i < 2 else "note", text, (at[0], y - half), size=size))
        y -= 2 * half
    return out


def _letters(sheet: LaySheet, placement: Placement, inside: Polygon) -> None:
    """A letter in each corner, with its two distances where there is room."""
    middle = inside.representative_point()
    room = inside.buffer(0.02 / sheet.scale)
    for letter, cloth in corner_letters(sheet.chalked(placement)):
        page = sheet.point(cloth)
        dx, dy = (1 if middle.x > page[0] else -1), (1 if middle.y > page[1] else -1)
        anchor: Anchor = "start" if dx > 0 else "end"
        pair = f"{letter} {sheet.say(cloth[1])} / {sheet.say(cloth[0])}"
        spots = [
            (page[0] + dx * sheet.paper(a), page[1] + dy * sheet.paper(b))
            for a, b in ((1.0, 2.2), (1.0, 5.0), (3.0, 2.2), (2.0, 8.0))
        ]
        inward = [_toward(sheet, page, (middle.x, middle.y), mm) for mm in (4.0, 5.5, 7.0)]
        tries = [Label("chalk", text, at, anchor, SMALL) for text in (pair, letter) for at in spots]
        tries += [Label("chalk", letter, at, "middle", SMALL) for at in inward]
        sheet.letters.first_free(t for t in tries if room.contains(shape_of(t, sheet.scale)) and sheet.apart(t))


def _toward(sheet: LaySheet, start: Point, end: Point, mm: float) -> Point:
    """So many mm on paper from one point toward another."""
    share = min(0.5, sheet.paper(mm) / (math.dist(start, end) or 1.0))
    return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)


def _grain(sheet: LaySheet, placement: Placement, inside: Polygon) -> None:
    """An arrow along the piece's own grain: two heads, or one where the nap says which way is up."""
    angle = math.radians(placement.turn)
    ux, uy = -math.sin(angle), math.cos(angle)
    room = inside.buffer(-sheet.paper(1.0))
    napped = sheet.cloth is not None and sheet.cloth.nap
    for mm in GRAIN:
        half = sheet.paper(mm) / 2
        for x, y in _spots(inside):
            tail, tip = (x - ux * half, y - uy * half), (x + ux * half, y + uy * half)
            line = LineString([tail, tip])
            broad = LineString(sheet.on_page((tail, tip))).buffer(sheet.paper(1.0))
            if room.contains(line) and sheet.letters.clear(broad):
                sheet.letters.taken.append(broad)
                arrow(sheet, tail, tip, both=not napped)
                return


def _closed(ring: Line) -> Line:
    return (*ring, ring[0])


def _coords(ring: object) -> Line:
    return tuple((float(x), float(y)) for x, y in list(ring.coords)[:-1])  # type: ignore[attr-defined]


def _spots(shape: Polygon) -> list[Point]:
    """Where something may stand: the middle first, then round about it."""
    x0, y0, x1, y1 = shape.bounds
    at = shape.centroid
    out = [(at.x, at.y)]
    for share in (0.5, 0.35, 0.65, 0.25, 0.75):
        y = y0 + (y1 - y0) * share
        for part in straight_lines(shape.intersection(LineString([(x0 - 1, y), (x1 + 1, y)]))):
            out.append(((part[0][0] + part[-1][0]) / 2, y))
            out.append((part[0][0] * 0.7 + part[-1][0] * 0.3, y))
            out.append((part[0][0] * 0.3 + part[-1][0] * 0.7, y))
    return out
