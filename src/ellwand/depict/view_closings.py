"""What closes an opening, in the picture: fastenings where their pieces are marked, a lace along its real path."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from typing import Final

from ellwand.adorn.closures.openings import Lip, openings_at
from ellwand.depict.setting_in import Face
from ellwand.geometry.lines import Line, Point, arc
from ellwand.model.closing import EYELET, Closing
from ellwand.model.draft import Draft, piece_of
from ellwand.model.drawing import Stroke

Spot = Callable[[str, Point], Point | None]
"""From a part and a point of its piece to where that lies in the picture; None where this face does not show it."""
TAIL: Final = 7.0
"""So much of a tie or of a lace's end is drawn (cm)."""
BROOCH: Final = 1.3
"""Half the width of a pin's ring (cm)."""


def closings_on(draft: Draft, face: Face, spot: Spot) -> list[Stroke]:
    """Every fastening that this face shows."""
    out: list[Stroke] = []
    for closing in draft.closings:
        for opening in openings_at(draft, closing.at):
            one, other = _places(draft, opening.one, spot), _places(draft, opening.other, spot)
            if one and other:
                out += _both_seen(closing, [at for at, _ in one], [at for at, _ in other])
            else:
                out += _one_seen(closing, one or other)
    return out


def _places(draft: Draft, lip: Lip, spot: Spot) -> list[tuple[Point, Point]]:
    """Where each fastening of a lip lies, and the place on the edge beside it."""
    piece = piece_of(draft, lip.ref.part)
    marks = [m for m in piece.marks if m.edge == lip.ref.edge and m.part in ("", lip.ref.part)]
    out = []
    for mark in sorted(marks, key=lambda mark: mark.distance):
        at = spot(lip.ref.part, mark.at)
        if at is not None:
            out.append((at, spot(lip.ref.part, _along(lip.points, mark.distance)) or at))
    return out


def _along(line: Sequence[Point], distance: float) -> Point:
    for a, b in itertools.pairwise(line):
        step = math.dist(a, b)
        if step and distance <= step:
            return a[0] + (b[0] - a[0]) * distance / step, a[1] + (b[1] - a[1]) * distance / step
        distance -= step
    return line[-1]


def _both_seen(closing: Closing, one: Sequence[Point], other: Sequence[Point]) -> Iterator[Stroke]:
    """An opening in the middle of the picture."""
    pairs = list(zip(one, other, strict=False))
    match closing.by:
        case "lacing":
            yield from (Stroke("lace", path) for path in laced(closing, one, other))
            yield from (_ring(at, EYELET / 2) for at in (*one, *other))
        case "buttons":
            # what lies over shows the buttons through its holes
            yield from (_ring(at, closing.size / 2) for at in (one if closing.overlap else other))
            if not closing.overlap:
                yield from (Stroke("lace", _across(a, b, closing.hole)) for a, b in pairs)
        case "ties":
            middle = (one[0][0] + other[0][0]) / 2
            for row in (one, other):
                sign = 1 if math.fsum(x for x, _ in row) / len(row) > middle else -1
                sign = sign if one[0][0] != other[0][0] else (1 if row is one else -1)
                yield from (_tie(at, sign) for at in row)
        case "loops":
            yield from (Stroke("lace", pair) for pair in pairs)
            yield from (_bar(at, closing.size / 2) for at in other)
        case "hooks":
            yield from (Stroke("lace", pair) for pair in pairs)
        case "pins":
            for a, b in pairs:
                middle_of = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
                yield from _pin(middle_of)


def _one_seen(closing: Closing, row: Sequence[tuple[Point, Point]]) -> Iterator[Stroke]:
    """An opening at the edge of the picture: what goes on behind it is not seen."""
    for n, (at, edge) in enumerate(row):
        match closing.by:
            case "ties":
                yield _tie(at, 1 if n % 2 else -1)
            case "pins":
                yield from _pin(edge)
            case "buttons":
                yield _ring(at, closing.size / 2)
            case "loops":
                yield Stroke("lace", (at, edge))
                yield _bar(at, closing.size / 2)
            case _:
                yield Stroke("lace", (at, edge))
                if closing.by == "lacing":
                    yield _ring(at, EYELET / 2)


def laced(closing: Closing, one: Sequence[Point], other: Sequence[Point]) -> Iterator[Line]:
    """The lace from eyelet to eyelet, as its length was reckoned: spiral and ladder with one end, crossed with two."""
    if closing.lacing == "spiral":
        path: list[Point] = [other[0]]
        for a, b in zip(one, other[1:], strict=False):
            path += [a, b]
        yield tuple(path)
    elif closing.lacing == "crossed":
        yield (one[0], other[0])
        yield tuple((one, other)[n % 2][n] for n in range(min(len(one), len(other))))
        yield tuple((other, one)[n % 2][n] for n in range(min(len(one), len(other))))
    else:
        rungs: list[Point] = []
        for n, (a, b) in enumerate(zip(one, other, strict=False)):
            rungs += [b, a] if n % 2 else [a, b]
        yield tuple(rungs)


def _ring(at: Point, radius: float) -> Stroke:
    return Stroke("fastening", arc(at, radius, 0.0, 2 * math.pi, 0.4)[:-1], True)


def _across(hole: Point, button: Point, long: float) -> Line:
    """A buttonhole across the edge, about its place."""
    run = math.dist(hole, button) or 1.0
    dx, dy = (button[0] - hole[0]) / run * long / 2, (button[1] - hole[1]) / run * long / 2
    return (hole[0] - dx, hole[1] - dy), (hole[0] + dx, hole[1] + dy)


def _bar(at: Point, half: float) -> Stroke:
    """A toggle."""
    (x, y), thick = at, 0.35 * half
    return Stroke(
        "fastening", ((x - half, y - thick), (x + half, y - thick), (x + half, y + thick), (x - half, y + thick)), True
    )


def _pin(at: Point) -> Iterator[Stroke]:
    """A ring with its pin across."""
    yield _ring(at, BROOCH)
    yield Stroke("lace", ((at[0] - 1.6 * BROOCH, at[1]), (at[0] + 1.6 * BROOCH, at[1])))


def _tie(at: Point, side: int) -> Stroke:
    """A tie that hangs from its place, a little to one side."""
    (x, y), shares = at, (0.0, 0.2, 0.4, 0.6, 0.8, 1.0)
    return Stroke("lace", tuple((x + side * 0.3 * TAIL * math.sin(1.4 * t), y - TAIL * t) for t in shares))
