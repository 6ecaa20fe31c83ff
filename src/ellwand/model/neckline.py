"""The neck of a face as it is seen, whatever pieces the body is cut in."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Final

from ellwand.geometry.lines import Line, Point
from ellwand.model.draft import Draft, EdgeRef
from ellwand.model.heraldry import Face
from ellwand.model.piece import Piece
from ellwand.model.surface import Surface, rims, surface_of, walked

FACES: Final[tuple[Face, ...]] = ("front", "back")
LEVEL: Final = 1e-3
"""Points whose heights differ by less (cm) are on one level."""
CORNERED: Final = ("rectangle", "square")
ONE: Final = 5
"""Points alike to so many decimals (cm) are one."""
Placed = tuple[Face, Point]


def necklines(draft: Draft) -> Mapping[Face, Line]:
    """The right half of the neck of each face: x from the centre line, y from the hem (cm), from the centre out."""
    surface = surface_of(draft)
    top = draft.dimensions.length
    found: dict[Face, set[Point]] = {face: set() for face in FACES}
    for group in _groups(surface, top):
        middle = _centre(group)
        for face, (x, y) in group:
            # front and back meet on the shoulders
            for each in FACES if y > top - LEVEL else (face,):
                found[each].add((round(abs(x - middle), ONE), round(y, ONE)))
    return {
        face: tuple(sorted({*points, (0.0, min(y for _, y in points))})) for face, points in found.items() if points
    }


def slit_span(draft: Draft, half: float) -> tuple[float, float]:
    """(least, greatest x) of the neck's slit as the front is seen (cm); ``half``: half the neck's width.

    At a side of a rectangle it lies within the neck's allowance, elsewhere well inside the curve.
    """
    neck = draft.choices.neck
    sign = {"left": 1.0, "right": -1.0}.get(neck.slit, 0.0)
    low, high = (
        (half - 2 * draft.choices.sewing.allowance, half) if neck.shape in CORNERED else (0.6 * half, 0.6 * half)
    )
    return min(sign * low, sign * high), max(sign * low, sign * high)


def _groups(surface: Surface, top: float) -> Iterator[list[Placed]]:
    """Neck edges that follow each other, moved so that each begins where the one before ends."""
    for rim in rims(surface):
        necks = [ref for ref in _from_a_break(surface, rim) if _kind(surface, ref) in ("neck", "neck slit")]
        group: list[Placed] = []
        sort, end = "", (0.0, 0.0)
        for ref in necks:
            if _kind(surface, ref) != "neck":
                continue
            own = _sort(surface.pieces[ref.part], ref)
            line = [((-x if surface.mirrored[ref.part] else x), y) for x, y in walked(surface, ref)]
            placed = [(face, y) for face, y in (_level(surface.pieces[ref.part], own, y, top) for _, y in line)]
            joins = bool(group) and own == sort and abs(placed[0][1] - end[1]) < 1.0
            if not joins and group:
                yield group
                group = []
            dx = end[0] - line[0][0] if joins else 0.0
            group += [(face, (x + dx, y)) for (face, y), (x, _) in zip(placed, line, strict=True)]
            sort, end = own, (line[-1][0] + dx, placed[-1][1])
        if group:
            yield group


def _kind(surface: Surface, ref: EdgeRef) -> str:
    return surface.edges[ref].kind


def _from_a_break(surface: Surface, rim: list[EdgeRef]) -> list[EdgeRef]:
    """The rim from where its neck begins, or where it passes from one face's pieces to the other's."""

    def breaks(i: int) -> bool:
        before, here = rim[i - 1], rim[i]
        apart = _sort(surface.pieces[before.part], before) != _sort(surface.pieces[here.part], here)
        return apart or _kind(surface, before) not in ("neck", "neck slit")

    start = next((i for i in range(len(rim)) if breaks(i)), 0)
    return [*rim[start:], *rim[:start]]


def _sort(piece: Piece, ref: EdgeRef) -> str:
    """'front' or 'back', or 'both' for a piece that goes over the shoulder."""
    if len(piece.levels) > 1 or (piece.levels and piece.levels[0].up < 0):
        return "both"
    return "back" if "back" in ref.part.split("-") else "front"


def _level(piece: Piece, sort: str, y: float, top: float) -> tuple[Face, float]:
    """The face that a height of the piece lies on, and how high above the hem."""
    for level in piece.levels:
        high = (y - level.base_y) * level.up
        if high <= top + LEVEL:
            face: Face = "back" if level.up < 0 or sort == "back" else "front"
            return face, high
    return "front", y


def _centre(group: list[Placed]) -> float:
    """The middle of a whole neck; of half a neck, which meets the shoulder on one side only, its other end."""
    xs = [x for _, (x, _) in group]
    high = max(y for _, (_, y) in group)
    shoulders = [x for _, (x, y) in group if high - y < LEVEL]
    low, most = min(xs), max(xs)
    if max(shoulders) - min(shoulders) > 0.5 * (most - low):
        return (low + most) / 2
    return low if math.fsum(shoulders) / len(shoulders) > (low + most) / 2 else most
