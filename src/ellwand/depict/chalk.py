"""The chalk list: every corner, arc and neck by its distance from the cut end and from the left selvedge."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from string import ascii_lowercase
from typing import Literal

from ellwand.depict.chalk_notes import half_on_cloth, lying_note, shared_sides
from ellwand.depict.naming import numbers, part_name, part_said
from ellwand.depict.outline import circle, corners, slits, trace
from ellwand.depict.placed import by_id, in_chalk_order, lie_ring
from ellwand.depict.sizes import beyond_neck, chalked, fold_level, is_traced
from ellwand.geometry.lines import Line, Point, bounds, length, split
from ellwand.language import _
from ellwand.model.lay import Lay, Placement, lie
from ellwand.model.piece import Piece
from ellwand.units import Unit, format_length

What = Literal["corner", "arc", "curve", "slit", "neck", "neck point", "facing"]


@dataclass(frozen=True, slots=True)
class ChalkRow:
    """One thing to chalk (cm). ``along``: from the cut end; ``across``: from the left selvedge.

    On folded cloth one of them counts from the fold, and of a piece on the fold only the half is chalked that lies on
    the cloth; on a left-over they count from its lower end and its left side.

    An arc is swung with ``radius`` about (along, across); a curve passes that point; a slit runs from there to
    (``to_along``, ``to_across``); a neck is cut about its centre, that point, and passes its neck points, numbered
    counter-clockwise; a facing lies about its middle.  ``bundle``: the garment that ``key`` counts in.
    """

    step: int
    key: int
    piece: str
    part: str
    what: What
    letter: str
    along: float
    across: float
    radius: float = 0.0
    to_along: float = 0.0
    to_across: float = 0.0
    note: str = ""
    bundle: str = ""


def chalk_rows(lay: Lay, pieces: Sequence[Piece], unit: Unit) -> tuple[ChalkRow, ...]:
    """Everything to chalk on one cloth, piece by piece from the cut end on.

    The note of a corner says how the piece lies, or which earlier piece has drawn the side that starts there.
    """
    known, key = by_id(pieces), numbers(pieces)
    out: list[ChalkRow] = []
    done: dict[int, Line] = {}
    for step, placement in enumerate(in_chalk_order(lay.placements, pieces), 1):
        piece = known[placement.piece]
        base = (step, key[piece.id], piece.name, part_name(placement.part, piece))
        whole = lie_ring(chalked(piece), placement)
        ring = half_on_cloth(whole, lay) if placement.on_fold else whole
        notes = shared_sides(corner_letters(ring), ring, done)
        done[step] = ring
        lying = lying_note(placement, lay, part_said(part_name(placement.partner, piece)) if placement.partner else "")
        rows = _outline_rows(base, ring, unit) + (_slit_rows(base, whole) if placement.on_fold else [])
        rows = [_noted(row, notes, lying if i == 0 else "") for i, row in enumerate(rows)]
        rows += _inner_rows(base, piece, placement, lay, unit)
        out += [replace(row, bundle=piece.bundle) for row in rows]
    return tuple(out)


def _inner_rows(base: Base, piece: Piece, placement: Placement, lay: Lay, unit: Unit) -> list[ChalkRow]:
    """What is chalked within the outline: what is traced from a pattern, or holes."""
    if is_traced(piece):
        return [_traced_row(base, piece, placement, unit)]
    rows: list[ChalkRow] = []
    for hole in piece.cut_holes:
        if piece.kind == "applied":
            rows += _hole_rows(base, lie_ring(hole, placement), unit)
            continue
        rows += _neck_rows(base, piece, hole, placement, unit)
        lies = lie_ring(hole, placement)[::-1]
        rows += _neck_points(base, half_on_cloth(lies, lay) if placement.on_fold else lies)
    return rows


def _noted(row: ChalkRow, sides: Mapping[str, str], lying: str) -> ChalkRow:
    said = [text for text in (lying, sides.get(row.letter, "")) if text and row.what == "corner"]
    return replace(row, note="; ".join(said)) if said else row


Base = tuple[int, int, str, str]


def corner_letters(ring: Line) -> tuple[tuple[str, Point], ...]:
    """The corners of a ring lying on the cloth with their letters, from the one nearest the cut end on."""
    found = corners(trace(ring))
    if not found:
        return ()
    first = min(range(len(found)), key=lambda i: (round(found[i][1], 1), round(found[i][0], 1)))
    ordered = [*found[first:], *found[:first]]
    return tuple((_letter(i), point) for i, point in enumerate(ordered))


def _letter(i: int) -> str:
    return ascii_lowercase[i] if i < 26 else ascii_lowercase[i // 26 - 1] + ascii_lowercase[i % 26]


def _outline_rows(base: Base, ring: Line, unit: Unit) -> list[ChalkRow]:
    lettered = corner_letters(ring)
    out = [ChalkRow(*base, "corner", letter, point[1], point[0]) for letter, point in lettered]
    names = {point: letter for letter, point in lettered}
    for stretch in trace(ring):
        if stretch.curved:
            ends = "–".join(names.get(end, _("slit")) for end in (stretch.points[0], stretch.points[-1]))
            ends = ends if names else _("all round")
            out += _curve_rows(base, stretch.points, ends, unit)
    return out + _slit_rows(base, ring)


def _hole_rows(base: Base, ring: Line, unit: Unit) -> list[ChalkRow]:
    """A hole in what is sewn on."""
    out = [
        ChalkRow(*base, "corner", _("hole {letter}", letter=letter), at[1], at[0])
        for letter, at in corner_letters(ring)
    ]
    for stretch in trace(ring):
        if stretch.curved:
            out += _curve_rows(base, stretch.points, _("of the hole"), unit)
    return out


def _slit_rows(base: Base, ring: Line) -> list[ChalkRow]:
    return [ChalkRow(*base, "slit", "", s.mouth[1], s.mouth[0], 0.0, s.tip[1], s.tip[0]) for s in slits(trace(ring))]


def _curve_rows(base: Base, points: Line, ends: str, unit: Unit) -> list[ChalkRow]:
    """One row for an arc; for any other curve, as a sleeve's head or a half ellipse, seven points on the way."""
    # between two straight ends, or with its ends drawn out to a corner, a curve is still swung
    round_ = circle(points) or (circle(points[1:-1]) if len(points) > 6 else None)
    if round_ is not None:
        x, y = round_.centre
        said = _("swing {radius} from its point", radius=format_length(round_.radius, unit))
        return [ChalkRow(*base, "arc", ends, y, x, round_.radius, note=said)]
    note = _("a curve through these points")
    return [ChalkRow(*base, "curve", ends, y, x, note=note) for x, y in _on_the_way(points, 8)]


def _on_the_way(points: Line, parts: int) -> list[Point]:
    """The ends of all equal parts of a line but the last."""
    whole = length(points)
    return [part[-1] for part in split(points, [whole * i / parts for i in range(1, parts)])[:-1]]


def _traced_row(base: Base, piece: Piece, placement: Placement, unit: Unit) -> ChalkRow:
    """A shaped facing, which is chalked round the neck that it is for."""
    x0, y0, x1, y1 = bounds(piece.cut)
    (x, y) = lie((((x0 + x1) / 2, (y0 + y1) / 2),), placement)[0]
    far = format_length(beyond_neck(piece), unit)
    note = _(
        "in this rectangle chalk round the cut neck and slit of its body piece, then a line {far} outside the neck",
        far=far,
    )
    return ChalkRow(*base, "facing", "", y, x, note=note)


def _neck_rows(base: Base, piece: Piece, hole: Line, placement: Placement, unit: Unit) -> list[ChalkRow]:
    """The neck hole by its centre on the shoulder fold, and its sizes."""
    found = slits(trace(hole))
    points = [p for p in hole if all(math.dist(p, slit.tip) > 1e-9 for slit in found)]
    x0, y0, x1, y1 = bounds(points)
    fold = fold_level(piece) or (y0 + y1) / 2
    (x, y) = lie((((x0 + x1) / 2, fold),), placement)[0]

    def say(value: float) -> str:
        return format_length(value, unit)

    note = _(
        "neck {width} wide, {front} to the front, {back} to the back of its centre",
        width=say(x1 - x0),
        front=say(fold - y0),
        back=say(y1 - fold),
    )
    out = [ChalkRow(*base, "neck", "", y, x, note=note)]
    for slit in found:
        mouth, tip = lie((slit.mouth, slit.tip), placement)
        out.append(ChalkRow(*base, "slit", "", mouth[1], mouth[0], 0.0, tip[1], tip[0], _("from the neck")))
    return out


def _neck_points(base: Base, ring: Line) -> list[ChalkRow]:
    """The corners of the neck and points on its curves, by which it can be drawn without its sizes."""
    found: list[Point] = []
    stretches = trace(ring)
    tips = {slit.tip for slit in slits(stretches)}
    for stretch in stretches:
        if stretch.points[0] not in tips:
            found.append(stretch.points[0])
        if stretch.curved:
            found += _on_the_way(stretch.points, 16)
    return [ChalkRow(*base, "neck point", str(i), y, x) for i, (x, y) in enumerate(found, 1)]
