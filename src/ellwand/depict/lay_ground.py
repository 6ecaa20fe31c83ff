"""The cloth of a lay as it is drawn: waste, faults, stripes, selvedges, fold, nap, the shortest length, distances."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from shapely import LineString, MultiLineString, Polygon, box
from shapely.ops import unary_union

from ellwand.depict.chalk import corner_letters
from ellwand.depict.lay_sheet import LaySheet
from ellwand.depict.lettering import shape_of
from ellwand.depict.placed import lie_ring
from ellwand.geometry.lines import Line, Point
from ellwand.language import _
from ellwand.model.drawing import Anchor, Label, Role
from ellwand.model.on_table import moved_along

SMALL: Final = 8.0
"""Lettering of distances (points)."""
EDGE: Final = 9.0
"""Lettering of the cloth's edges (points)."""
HATCH: Final = 2.2
"""Between the lines of waste, in mm on paper."""
FAULT_HATCH: Final = 1.0
"""Between the lines of a fault, in mm on paper."""
NEAR: Final = 0.5
"""A bound this near to the lay's length (cm) is not drawn apart from it."""


def draw_cloth(sheet: LaySheet) -> None:
    """The cloth with its waste hatched lightly, below everything else."""
    ground = sheet.ground()
    if sheet.lay.fold == "flat":
        sheet.draw("cloth", _ring(ground), closed=True)
    else:
        sheet.draw("blank", _ring(ground), closed=True)
        sheet.draw("cloth", _without_fold(sheet))
    cut = [Polygon(sheet.ring(p), _holes(sheet, i)) for i, p in enumerate(sheet.lay.placements)]
    for line in _hatched(ground.difference(unary_union(cut)), sheet.paper(HATCH), 1):
        sheet.draw("waste", line)
    if sheet.lay.remnant:
        return
    sides = (sheet.width,) if sheet.lay.fold == "lengthwise" else (0.0, sheet.width)
    for x in sides:
        sheet.draw("selvedge", ((x, 0.0), (x, sheet.length)))


def draw_over(sheet: LaySheet) -> None:
    """What runs over the pieces: stripes, faults, the fold, and the length that no lay can undercut."""
    _stripes(sheet)
    _faults(sheet)
    if sheet.lay.fold == "lengthwise":
        sheet.draw("fold", ((0.0, 0.0), (0.0, sheet.length)))
    elif sheet.lay.fold == "crosswise":
        sheet.draw("fold", ((0.0, 0.0), (sheet.width, 0.0)))
    for move in _moves(sheet):
        sheet.draw("leader", ((-sheet.paper(5.0), move), (sheet.width + sheet.paper(3.0), move)))
    if (at := bound_at(sheet)) is not None:
        sheet.draw("bound", ((0.0, at), (sheet.width + sheet.paper(3.0), at)))


def _moves(sheet: LaySheet) -> tuple[float, ...]:
    """Where the end of a table that is shorter than the lay comes to lie, each time the cloth is moved along."""
    table = sheet.cloth.table if sheet.cloth else None
    return () if table is None or sheet.lay.remnant else moved_along(sheet.lay, sheet.pieces, table)[0]


def bound_at(sheet: LaySheet) -> float | None:
    """Where the shortest possible lay would end; None where it is this one, or nothing is known of it."""
    lay = sheet.lay
    at = lay.lower_bound / 2 if lay.fold == "crosswise" else lay.lower_bound
    return at if not lay.remnant and not lay.start and 0 < at < sheet.length - NEAR else None


def draw_margins(sheet: LaySheet) -> None:
    """Distances along the left and the lower edge, what each edge of the cloth is, nap, and the bound's words."""
    points = [at for placed in sheet.lay.placements for _, at in corner_letters(sheet.chalked(placed))]
    ys, xs = {round(y, 1) for _, y in points}, {round(x, 1) for x, _ in points}
    tick = sheet.paper(1.6)
    for y in [0.0, sheet.length, *sorted(ys)]:
        _distance(sheet, y, ((0.0, y), (-tick, y)), upright=not sheet.lying)
    for x in [0.0, sheet.width, *sorted(xs)]:
        _distance(sheet, x, ((x, 0.0), (x, -tick)), upright=sheet.lying)
    _edge_names(sheet)
    _nap(sheet)
    if (at := bound_at(sheet)) is not None:
        _beside(sheet, _("no lay of these pieces can be shorter than this"), at)
    for move in _moves(sheet):
        _beside(sheet, _("move the cloth along to here"), move)


# --- inside ---------------------------------------------------------------------------------------------


def _ring(shape: Polygon) -> Line:
    return tuple((float(x), float(y)) for x, y in shape.exterior.coords[:-1])


def _without_fold(sheet: LaySheet) -> Line:
    """The three edges of folded cloth that are no fold."""
    around: Line = ((0.0, 0.0), (sheet.width, 0.0), (sheet.width, sheet.length), (0.0, sheet.length))
    return around if sheet.lay.fold == "lengthwise" else (*around[1:], around[0])


def _holes(sheet: LaySheet, i: int) -> list[Line]:
    placement = sheet.lay.placements[i]
    return [lie_ring(hole, placement) for hole in sheet.known[placement.piece].cut_holes]


def straight_lines(shape: object) -> list[Line]:
    """The lines of a shapely result."""
    parts = getattr(shape, "geoms", [shape])
    return [
        tuple((float(x), float(y)) for x, y in p.coords) for p in parts if isinstance(p, LineString) and p.length > 0
    ]


def _hatched(shape: object, step: float, slope: int) -> Iterator[Line]:
    """Slanting lines over a shape, ``step`` cm apart; ``slope`` 1 rises to the right, −1 falls."""
    if not isinstance(shape, Polygon) and not getattr(shape, "geoms", ()):
        return
    x0, y0, x1, y1 = shape.bounds  # type: ignore[attr-defined]
    tall, gap = y1 - y0, step * 2**0.5
    if not tall:
        return
    starts = [x0 - tall + gap * i for i in range(1, int((x1 - x0 + tall) / gap) + 1)]
    ends = (y0, y1) if slope > 0 else (y1, y0)
    lines = MultiLineString([((x, ends[0]), (x + tall, ends[1])) for x in starts])
    yield from straight_lines(lines.intersection(shape))


def _stripes(sheet: LaySheet) -> None:
    """The pattern's stripes in their places, light."""
    repeat = sheet.cloth.repeat if sheet.cloth else None
    if repeat is None or sheet.lay.remnant:
        return
    across, along = sheet.lay.width, sheet.lay.length
    if repeat.across:
        middle = across / 2 if sheet.lay.fold == "lengthwise" else 0.0
        for x in _steps(repeat.x, repeat.across, across):
            at = abs(x - middle)
            sheet.draw("stripe", ((at, 0.0), (at, sheet.length)))
    if repeat.along:
        middle = along / 2 if sheet.lay.fold == "crosswise" else 0.0
        for y in _steps(repeat.y - sheet.lay.start, repeat.along, along):
            at = abs(y - middle)
            sheet.draw("stripe", ((0.0, at), (sheet.width, at)))


def _steps(first: float, step: float, end: float) -> Iterator[float]:
    at = first % step
    while at < end:
        yield at
        at += step


def _faults(sheet: LaySheet) -> None:
    """Every hole and stain, cross-hatched and named."""
    lay, cloth = sheet.lay, sheet.cloth
    if cloth is None or lay.remnant:
        return
    ground = sheet.ground()
    for fault in cloth.faults:
        low, high = fault.y - lay.start, fault.y + fault.length - lay.start
        left, right = fault.x, fault.x + fault.width
        if lay.fold == "lengthwise":
            left, right = _folded(left, right, lay.width / 2)
        elif lay.fold == "crosswise":
            low, high = _folded(low, high, lay.length / 2)
        shape = box(left, low, right, high).intersection(ground)
        if not isinstance(shape, Polygon) or shape.is_empty:
            continue
        sheet.draw("fault", _ring(shape), closed=True)
        for slope in (1, -1):
            for line in _hatched(shape, sheet.paper(FAULT_HATCH), slope):
                sheet.draw("fault", line)
        _name_fault(sheet, shape)


def _name_fault(sheet: LaySheet, shape: Polygon) -> None:
    """The word beside it on the page, above, below, right or left of it, on the cloth and clear of other words."""
    x0, y0, x1, y1 = Polygon(sheet.on_page(_ring(shape))).bounds
    off, half = sheet.paper(0.8), sheet.label_height(SMALL) / 2 + sheet.paper(0.4)
    room = Polygon(sheet.on_page(_ring(sheet.ground())))
    word = _("fault")
    tries = [
        Label("chalk", word, ((x0 + x1) / 2, y1 + half), "middle", SMALL),
        Label("chalk", word, ((x0 + x1) / 2, y0 - half), "middle", SMALL),
        Label("chalk", word, (x1 + off, (y0 + y1) / 2), "start", SMALL),
        Label("chalk", word, (x0 - off, (y0 + y1) / 2), "end", SMALL),
    ]
    sheet.letters.first_free(label for label in tries if room.contains(shape_of(label, sheet.scale)))


def _folded(low: float, high: float, middle: float) -> tuple[float, float]:
    """A stretch of the cloth as it lies when that is folded in its middle, from the fold."""
    far = max(abs(low - middle), abs(high - middle))
    return (0.0 if low < middle < high else min(abs(low - middle), abs(high - middle))), far


def _distance(sheet: LaySheet, value: float, line: Line, *, upright: bool) -> None:
    a, b = sheet.on_page(line)
    gap = sheet.paper(0.6)
    if upright:
        label = Label("chalk", sheet.say(value), (b[0] - gap, b[1]), "end", SMALL)
    else:
        down = -1 if b[1] < a[1] else 1
        half = sheet.label_height(SMALL) / 2
        label = Label("chalk", sheet.say(value), (b[0], b[1] + down * (gap + half)), "middle", SMALL)
    if sheet.apart(label) and sheet.letters.first_free([label]):
        sheet.draw("dimension", line)


def edge_names(sheet: LaySheet) -> tuple[str, str, str, str]:
    """What the lower, upper, left and right edge of the drawn cloth are."""
    if sheet.lay.remnant:
        return _("lower end"), _("upper end"), _("left side"), _("right side")
    if sheet.lay.fold == "lengthwise":
        return _("cut end"), _("cut off here"), _("fold"), _("both selvedges")
    if sheet.lay.fold == "crosswise":
        return _("fold"), _("both cut ends"), _("left selvedge"), _("right selvedge")
    first = _("the folded part ends here") if sheet.lay.start else _("cut end")
    return first, _("cut off here"), _("left selvedge"), _("right selvedge")


def _edge_names(sheet: LaySheet) -> None:
    far, near = sheet.paper(15.0), sheet.paper(8.0)
    side, below = (near, far) if sheet.lying else (far, near)
    right = sheet.paper(3.0)
    width, length = sheet.width, sheet.length
    places = ((width / 2, -below), (width / 2, length + right), (-side, length / 2), (width + right, length / 2))
    for i, (text, at) in enumerate(zip(edge_names(sheet), places, strict=True)):
        upright = sheet.lying == (i < 2)
        turn = 90.0 if upright else 0.0
        away = ((0, -1), (0, 1), (-1, 0), (1, 0))[i]
        tries = [
            Label("edge", text, sheet.point((at[0] + away[0] * step, at[1] + away[1] * step)), size=EDGE, turn=turn)
            for step in map(sheet.paper, (0.0, 4.0, 8.0, 12.0))
        ]
        if not sheet.letters.first_free(tries):
            sheet.letters.put(tries[0])


def _nap(sheet: LaySheet) -> None:
    """One arrow beside the cloth, the way that every piece's upper end points."""
    if sheet.cloth is None or not sheet.cloth.nap:
        return
    y = sheet.paper(9.0)
    for out in (3.0, 7.0, 11.0):
        x = sheet.width + sheet.paper(out)
        at, tip = sheet.point((x, y - sheet.paper(4.0))), (x, y + sheet.paper(12.0))
        label = Label("edge", _("nap"), at, size=EDGE, turn=0.0 if sheet.lying else 90.0)
        shaft = LineString(sheet.on_page(((x, y), tip))).buffer(sheet.paper(1.0))
        if sheet.letters.clear(shaft) and sheet.letters.first_free([label]):
            arrow(sheet, (x, y), tip)
            sheet.letters.taken.append(shaft)
            return


def arrow(sheet: LaySheet, tail: Point, tip: Point, *, both: bool = False, role: Role = "grain") -> None:
    """A line with a head at its tip, or at both ends."""
    sheet.draw(role, (tail, tip))
    for a, b in ((tail, tip), (tip, tail)) if both else ((tail, tip),):
        far = ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 or 1.0
        ux, uy = (a[0] - b[0]) / far * sheet.paper(1.8), (a[1] - b[1]) / far * sheet.paper(1.8)
        sides = ((b[0] + ux - uy * 0.4, b[1] + uy + ux * 0.4), (b[0] + ux + uy * 0.4, b[1] + uy - ux * 0.4))
        sheet.draw(role, (sides[0], b, sides[1]))


def _beside(sheet: LaySheet, text: str, y: float) -> None:
    """Words at the right of the cloth that end at ``y``, or begin there where the cloth is too short below."""
    x = sheet.width + sheet.paper(3.0)
    turn = 0.0 if sheet.lying else 90.0
    sides: tuple[tuple[Anchor, float], ...] = (("end", y - sheet.paper(1.0)), ("start", y + sheet.paper(1.0)))
    tries = [
        Label("note", text, sheet.point((x + sheet.paper(step), at)), anchor, SMALL, turn)
        for anchor, at in sides
        for step in (0.0, 4.0, 8.0)
    ]
    # first those that do not run over the ends of the cloth
    sheet.letters.first_free(sorted(tries, key=lambda label: round(_over_ends(sheet, label), 3)))


def _over_ends(sheet: LaySheet, label: Label) -> float:
    """How far words run over the ends of the cloth (cm)."""
    x0, y0, x1, y1 = shape_of(label, sheet.scale).bounds
    low, high = (x0, x1) if sheet.lying else (y0, y1)
    return float(max(0.0, -low) + max(0.0, high - sheet.length))
