"""Parts folded in two so that edges of one part meet, as a sleeve is folded for its seam."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from ellwand.depict.step_view.joins import Join, other_face, other_hand
from ellwand.depict.step_view.motion import Fold, Own
from ellwand.geometry.lines import Line, Point

UNLIKE: Final = 4.0
"""A part is folded when its two halves' edges meet within this (cm): a back may hang lower than the front."""


def fold_of(own: Own, joins: Sequence[Join]) -> Fold | None:
    """The line along which a part is folded for these joins, or None where it is not.

    It is folded where two of its own edges are sewn to each other, or where edges in front have fellows behind.  The
    fold is the mirror line of the pairs: square to what leads from an edge's ends to its fellow's.
    """
    return _mirror([(join.a_line, join.b_line) for join in joins if join.a == join.b == own.id]) or _mirror(
        _by_name(own)
    )


def _by_name(own: Own) -> list[tuple[Line, Line]]:
    """Edges in front and their fellows behind, walked alike."""
    names = {edge.id for edge in own.piece.edges}
    front = [name for name in sorted(names) if "front" in name.split("-") and "back" not in name.split("-")]
    if not front or any(other_face(name) not in names for name in front):
        return []
    pairs = []
    for name in front:
        a, b = own.edge(name), own.edge(other_face(name))
        pairs.append((a, b[::-1]))
    return pairs


def _mirror(pairs: Sequence[tuple[Line, Line]]) -> Fold | None:
    ends = [(a[i], b[i]) for a, b in pairs for i in (0, -1)]
    if not ends:
        return None
    apart = [(p[0] - q[0], p[1] - q[1]) for p, q in ends]
    # the direction that all of them share, whichever way each is walked: the principal axis of the vectors
    xx, yy = sum(x * x for x, _ in apart), sum(y * y for _, y in apart)
    xy = sum(x * y for x, y in apart)
    if xx + yy < 1e-6:
        return None
    angle = 0.5 * math.atan2(2 * xy, xx - yy)
    n = (math.cos(angle), math.sin(angle))
    at = (
        sum(p[0] + q[0] for p, q in ends) / 2 / len(ends),
        sum(p[1] + q[1] for p, q in ends) / 2 / len(ends),
    )
    for p, q in ends:
        k = 2 * ((p[0] - at[0]) * n[0] + (p[1] - at[1]) * n[1])
        if math.dist((p[0] - k * n[0], p[1] - k * n[1]), q) > UNLIKE:
            return None
    side = sum((p[0] - at[0]) * n[0] + (p[1] - at[1]) * n[1] for p, _ in ends)
    return Fold(at, n if side >= 0 else (-n[0], -n[1]))


def on_top(fold: Fold | None, line: Line) -> bool:
    """Whether an edge lies on what is seen of a part."""
    if fold is None:
        return True
    middle = line[len(line) // 2] if len(line) > 2 else _half_way(line)
    return _side(middle, fold) > -1e-6


def _half_way(line: Line) -> Point:
    return (line[0][0] + line[-1][0]) / 2, (line[0][1] + line[-1][1]) / 2


def _side(point: Point, fold: Fold) -> float:
    return (point[0] - fold.at[0]) * fold.keep[0] + (point[1] - fold.at[1]) * fold.keep[1]


def is_under(part: str, parts: Sequence[str]) -> bool:
    """Whether a part lies beneath its fellow: the back under the front, the right one on the left one."""
    return other_face(part) != part and "back" in part.split("-") and other_face(part) in parts


def lies_on_fellow(a: str, b: str) -> bool:
    """Whether two parts are left and right of one kind, which are laid on each other to be sewn."""
    return a != b and other_hand(a) == b
