"""Dividing lines moved a little where they would run beside a slit or through its end."""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from ellwand.adorn.division.frames import Frame
from ellwand.geometry.lines import Line, Point
from ellwand.model.piece import Edge, Piece

CLEAR: Final = 1.0
"""So far from the end of a neck slit a line passes it (cm), that both can be sewn: our own figure."""
BESIDE: Final = 1.4
"""Nearer to a slit than this (cm) an upright line is moved on to it; two stripes' lines never both: our own figure."""
_LIP: Final = re.compile(r"(.*)-(viewer|slit)-(left|right|1|2)(-.*)?")


@dataclass(frozen=True, slots=True)
class Slit:
    """A slit in a panel, in the field: its end, and a point of it nearer to its mouth."""

    tip: Point
    mouth: Point
    neck: bool


def lip_of(edge: str) -> tuple[str, str]:
    """(the slit that an edge lies along, which of its lips it is); '' for any other edge."""
    found = _LIP.fullmatch(edge)
    return (found[1], found[3]) if found else ("", "")


def ends_of_slits(piece: Piece) -> Iterator[tuple[Edge, Edge]]:
    """The last of one lip's edges and the first of the other's, for every slit that is cut into a piece."""
    for one, other in itertools.pairwise(piece.edges):
        (slit, side), (same, lip) = lip_of(one.id), lip_of(other.id)
        if slit and slit == same and side != lip and not one.allowance and not other.allowance:
            yield one, other


def slits_of(frames: Mapping[str, Frame], pieces: Mapping[str, Piece]) -> list[Slit]:
    """Every slit of the panels."""
    return [
        Slit(frame.seen(one.points[-1])[1], frame.seen(one.points[0])[1], one.kind == "neck slit")
        for part, frame in frames.items()
        for one, _ in ends_of_slits(pieces[part])
    ]


def moved(lines: Sequence[Line], slits: Sequence[Slit]) -> list[Line]:
    """The field's lines, upright ones beside a slit moved on to it, level ones at the end of a neck slit past it."""
    return [_upright(_level(line, slits), slits) for line in lines]


def _upright(line: Line, slits: Sequence[Slit]) -> Line:
    x = line[0][0]
    if any(abs(at - x) > 1e-9 for at, _ in line):
        return line
    near = min((slit.tip[0] for slit in slits), key=lambda at: abs(at - x), default=math.inf)
    return tuple((near, y) for _, y in line) if abs(near - x) < BESIDE else line


def _level(line: Line, slits: Sequence[Slit]) -> Line:
    y = line[0][1]
    if any(abs(at - y) > 1e-9 for _, at in line):
        return line
    for slit in slits:
        if slit.neck and abs(slit.tip[1] - y) < CLEAR:
            y = slit.tip[1] + math.copysign(CLEAR + 1e-6, slit.tip[1] - slit.mouth[1])
    return tuple((x, y) for x, _ in line)
