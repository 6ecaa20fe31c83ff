"""Whether stripes and checks meet at the seams."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from ellwand.geometry.lines import Line, Point
from ellwand.model.cloth import Cloth, Repeat
from ellwand.model.draft import Draft, EdgeRef, Seam
from ellwand.model.finding import Finding
from ellwand.model.lay import Lay, lie
from ellwand.model.piece import edge_of

ALIKE: Final = 0.1
"""Stripes that miss each other by no more than this at a seam (cm) meet."""

SAMPLES: Final = 5


def on_stripes(draft: Draft, lays: Sequence[Lay], cloth: Cloth) -> tuple[Finding, ...]:
    """How many of the seams that run straight along the grain join parts that show the same pattern there.

    A slanting or curved seam cannot meet the pattern along its length and is not asked.
    """
    repeat = cloth.repeat
    if repeat is None:
        return ()
    asked, missed = 0, []
    lying = {placed.part: (lay, placed) for lay in lays for placed in lay.placements}
    mirrored = {part.id: part.mirrored for part in draft.parts}
    by_id = {piece.id: piece for piece in draft.pieces}

    def lies(ref: EdgeRef) -> Line | None:
        """The edge on the cloth, where it runs along the grain of a piece of this cloth."""
        if ref.part not in lying:
            return None
        lay, placed = lying[ref.part]
        points = edge_of(by_id[placed.piece], ref.edge).points
        if max(x for x, _ in points) - min(x for x, _ in points) > 1e-6:
            return None
        return tuple((x, y + lay.start) for x, y in lie(points, placed))

    for seam in draft.seams:
        a, b = lies(seam.a), lies(seam.b)
        if a is not None and b is not None:
            asked += 1
            opposite = mirrored[seam.a.part] == mirrored[seam.b.part]
            if any(_off(p, q, repeat) > ALIKE for p, q in _facing(a, b[::-1] if opposite else b)):
                missed.append(seam)
    if not asked:
        return ()
    values: dict[str, float | str] = {"asked": float(asked), "met": float(asked - len(missed)), "seam": _name(missed)}
    return (Finding("cloth-stripes", cloth.name, "look again" if missed else "sound", values=values),)


def _name(missed: Sequence[Seam]) -> str:
    return f"{missed[0].a.part} and {missed[0].b.part}" if missed else ""


def _facing(a: Line, b: Line) -> Iterator[tuple[Point, Point]]:
    """Points that are sewn onto each other; both lines are straight."""
    for k in range(SAMPLES):
        t = k / (SAMPLES - 1)
        yield (
            (a[0][0] + (a[-1][0] - a[0][0]) * t, a[0][1] + (a[-1][1] - a[0][1]) * t),
            (b[0][0] + (b[-1][0] - b[0][0]) * t, b[0][1] + (b[-1][1] - b[0][1]) * t),
        )


def _off(p: Point, q: Point, repeat: Repeat) -> float:
    """How much further one point lies from the middle of its stripe than the other (cm)."""

    def beside(at: float, first: float, step: float) -> float:
        return abs((at - first + step / 2) % step - step / 2) if step else 0.0

    return max(
        abs(beside(p[0], repeat.x, repeat.across) - beside(q[0], repeat.x, repeat.across)),
        abs(beside(p[1], repeat.y, repeat.along) - beside(q[1], repeat.y, repeat.along)),
    )
