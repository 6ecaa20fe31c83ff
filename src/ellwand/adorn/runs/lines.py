"""Runs across the body: rings round the skirt, and the middle of a front or back without a seam."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ellwand.adorn.runs.chords import Chord, End, arcs, beyond, of_chords, point_on, straight, upright
from ellwand.adorn.runs.making import from_centre_front
from ellwand.geometry.lines import length
from ellwand.model.piece import Level, Piece
from ellwand.model.run import Run
from ellwand.model.surface import CUT_APART, Surface

CLEAR = 1e-4
"""A level so near to a corner (cm) is moved a hair, so that it crosses edges on both sides of a seam alike."""
ASIDES = (0.0, 0.02, -0.02, 0.1)
"""Where the middle of a field is a seam of its division, or a corner of it, the line lies so far (cm) beside it."""
NEAR = 0.3
"""How far apart the ends of a line may lie on the two edges of an eased seam (cm)."""


def level_rings(surface: Surface, height: float, name: str) -> list[Run]:
    """The level line ``height`` cm above the hem round the body; in several where splits part it."""
    height = _clear(surface, height)
    left = [
        chord
        for part, piece in surface.pieces.items()
        if piece.place == "body"
        for level in piece.levels
        for chord in _level_chords(surface, part, piece, level, height)
    ]
    out = []
    while left:
        row = [left.pop(0)]
        while (then := _following(surface, row[-1].last, left)) is not None:
            left.remove(then)
            row.append(then)
        closed = _meets(surface, row[-1].last, row[0].first)
        while not closed and (then := _preceding(surface, row[0].first, left)) is not None:
            left.remove(then)
            row.insert(0, then)
        run = of_chords(surface, name, row, closed=closed)
        out.append(from_centre_front(surface, run) if closed else run)
    return out


def centre_line(surface: Surface, face: str) -> Run | None:
    """Down the middle of a front or back that has no seam there, from the neck to the hem or to what is set in."""
    necks: dict[str, list[float]] = {}
    for part, piece in surface.pieces.items():
        if piece.place == "body" and (len(piece.levels) == 2 or face in part.split("-")):
            home, (dx, _) = surface.flat[part]
            xs = [x + dx for edge in piece.edges if edge.kind == "neck" for x, _ in edge.points]
            necks.setdefault(home, []).extend(xs)
    for home, xs in necks.items():
        if not xs:
            continue
        middle = (min(xs) + max(xs)) / 2
        rows = [_down_from_neck(surface, face, home, middle + aside) for aside in ASIDES]
        below = [row for row in rows if row and surface.edges[row[0].first.ref].kind == "neck slit"] or rows
        if row := max(below, key=lambda row: round(math.fsum(length(chord.points) for chord in row))):
            return of_chords(surface, f"centre {face}", row, closed=False)
    return None


def _down_from_neck(surface: Surface, face: str, home: str, x: float) -> list[Chord]:
    """The upright line at ``x`` of what was cut from one, from the neck down; nothing where it does not begin there."""
    for part, (same, (dx, _)) in surface.flat.items():
        piece = surface.pieces[part]
        if same != home or not piece.levels:
            continue
        fold = len(piece.levels) == 2
        level = piece.levels[1 if fold and face == "back" else 0]
        for chord in upright(surface, part, piece, x - dx):
            rise = (chord.points[-1][1] - chord.points[0][1]) * level.up
            y = (chord.points[0][1] + chord.points[-1][1]) / 2
            here = not fold or (y < _fold(piece)) == (face == "front")
            if rise < 0 and here and surface.edges[chord.first.ref].kind in ("neck", "neck slit"):
                row = [_from_its_end(surface, chord, level.up)]
                while (then := _pieced_on(surface, row[-1])) is not None:
                    row.append(then)
                return row
    return []


def _from_its_end(surface: Surface, chord: Chord, up: int) -> Chord:
    """A line that begins on a lip of the neck's slit, from the slit's end on."""
    edge = surface.edges[chord.first.ref]
    if edge.kind != "neck slit":
        return chord
    (x, _), *on = chord.points
    return replace(chord, points=((x, min(y * up for _, y in edge.points) * up), *on))


# --- inside ---------------------------------------------------------------------------------------------


def _level_chords(surface: Surface, part: str, piece: Piece, level: Level, height: float) -> Iterator[Chord]:
    """The level line on one part, walked with its upper side on the left hand as it is worn."""
    if level.centre is None:
        y = level.base_y + height * level.up
        yield from straight(surface, part, piece, y, backward=(level.up < 0) != surface.mirrored[part])
        return
    radius = level.radius - height
    if radius > 0:
        yield from arcs(surface, part, piece, level.centre, radius)


def _meets(surface: Surface, last: End, first: End) -> bool:
    there = beyond(surface, last)
    return there is not None and there.ref == first.ref and abs(there.along - first.along) < NEAR


def _following(surface: Surface, last: End, among: Sequence[Chord]) -> Chord | None:
    found = [chord for chord in among if _meets(surface, last, chord.first)]
    return min(found, key=lambda chord: abs(chord.first.along - _along(surface, last)), default=None)


def _along(surface: Surface, last: End) -> float:
    there = beyond(surface, last)
    return there.along if there else 0.0


def _preceding(surface: Surface, first: End, among: Sequence[Chord]) -> Chord | None:
    return next((chord for chord in among if _meets(surface, chord.last, first)), None)


def _pieced_on(surface: Surface, chord: Chord) -> Chord | None:
    """An upright line's next one, across a piecing seam or one of the divided field."""
    there = beyond(surface, chord.last)
    if there is None or surface.pieces[there.ref.part].place != "body":
        return None
    part = there.ref.part
    piece = surface.pieces[part]
    if surface.edges[there.ref].kind not in CUT_APART:
        return None
    x = point_on(surface, there)[0]
    fall = chord.points[-1][1] - chord.points[0][1]
    return next(
        (
            each
            for each in upright(surface, part, piece, x)
            if each.first.ref == there.ref
            and abs(each.first.along - there.along) < NEAR
            and (each.points[-1][1] - each.points[0][1]) * fall > 0
        ),
        None,
    )


def _clear(surface: Surface, height: float) -> float:
    """The height, or one a hair off where a corner of the body lies just there."""
    corners = sorted(
        (
            (point[1] - level.base_y) * level.up
            if level.centre is None
            else level.radius - math.dist(level.centre, point)
        )
        for piece in surface.pieces.values()
        if piece.place == "body"
        for level in piece.levels
        for edge in piece.edges
        for point in (edge.points[0], edge.points[-1])
    )
    while any(abs(height - corner) < CLEAR for corner in corners):
        height += 2.5 * CLEAR
    return height


def _fold(piece: Piece) -> float:
    return (piece.levels[0].base_y + piece.levels[1].base_y) / 2
