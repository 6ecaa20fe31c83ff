"""What every kind of run is made with: stretches of edges, where they turn, cross seams, and begin."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Final

from ellwand.geometry.lines import SAME, Line, Point
from ellwand.model.draft import EdgeRef
from ellwand.model.piece import Piece
from ellwand.model.run import Along, Run, Stretch, begun_at, hand_in, starts
from ellwand.model.surface import Surface, turn_after, turning, walked

SHARP: Final = 30.0
"""Where a run turns by more than this (degrees) it has a corner: curves are drawn in turns of a few degrees, the
corners of necks, splits and points turn by more (our own figure).  Round an arm or along a level there is none: what
turns there at a seam is the taper of the parts, which lies smoothly when it is worn."""


NEVER: Final = 360.0
"""More than any turn (degrees)."""
LITTLE: Final = 0.01
"""A turn that is smaller (degrees) is none."""


def words(ref: EdgeRef) -> list[str]:
    """The words of a part's and edge's names."""
    return f"{ref.part}-{ref.edge}".split("-")


def edge_stretch(surface: Surface, ref: EdgeRef) -> Stretch:
    """An edge of one part, walked with the cloth on the left hand as it is worn."""
    mirrored = surface.mirrored[ref.part]
    return Stretch(ref.part, ref.edge, walked(surface, ref), "right" if mirrored else "left", mirrored)


def edge_run(surface: Surface, name: str, refs: Sequence[EdgeRef], *, closed: bool) -> Run:
    """Open edges that follow each other round an opening."""
    joints = [turn_after(surface, ref) for ref in (refs if closed else refs[:-1])]
    stretches = [edge_stretch(surface, ref) for ref in refs]
    sharp = NEVER if all(surface.edges[ref].kind in ("cuff", "leg") for ref in refs) else SHARP
    return made(name, stretches, joints, closed=closed, along="edge", sharp=sharp)


def made(
    name: str,
    stretches: Sequence[Stretch],
    joints: Sequence[float],
    *,
    closed: bool,
    along: Along,
    sharp: float = SHARP,
) -> Run:
    """A run of stretches; ``joints``: by how many degrees it turns where one ends, of a closed run after the last as
    well; ``sharp``: from how many on that is a corner."""
    plain = Run(name, tuple(stretches), closed, along=along)
    begins = starts(plain)
    turns: dict[float, float] = {}
    for stretch, begin in zip(stretches, begins, strict=False):
        turns |= dict(_turns_within(stretch, begin))
    ends = [*begins[1:-1], 0.0] if closed else begins[1:-1]
    at_joints = list(zip(ends, joints, strict=True))
    turns |= {at: turn for at, turn in at_joints if abs(turn) > sharp}
    crossed = [
        at
        for at, (one, other) in zip(ends, itertools.pairwise((*stretches, stretches[0])), strict=False)
        if one.part != other.part or (closed and len(stretches) == 1 and one.points[0] != one.points[-1])
    ]
    return replace(
        plain,
        corners=tuple(sorted(turns)),
        turns=tuple(turns[at] for at in sorted(turns)),
        seams=tuple(sorted(crossed)),
        bends=tuple(sorted((at, turn) for at, turn in at_joints if LITTLE < abs(turn) <= sharp)),
    )


def _turns_within(stretch: Stretch, begin: float) -> Iterable[tuple[float, float]]:
    """Where a stretch's own points turn sharply, and by how much: toward the cloth, or to the left inside it."""
    hand, at = hand_in(stretch), begin
    for a, b, c in zip(stretch.points, stretch.points[1:], stretch.points[2:], strict=False):
        at += math.dist(a, b)
        if abs(turn := turning(a, b, c)) > SHARP:
            yield at, hand * turn


def in_rows(rim: Sequence[EdgeRef], belongs: Sequence[bool]) -> list[tuple[list[EdgeRef], bool]]:
    """The stretches of an opening whose edges belong to what is asked for; whether one goes all the way round."""
    if all(belongs):
        return [(list(rim), True)]
    if not any(belongs):
        return []
    # begin behind an edge that does not belong, so that no row is cut in two
    first = belongs.index(False) + 1
    order = [*range(first, len(rim)), *range(first)]
    return [
        ([rim[i] for i in group], False)
        for wanted, group in itertools.groupby(order, key=lambda i: belongs[i])
        if wanted
    ]


def height_in(piece: Piece, point: Point) -> float:
    """How high above the hem (cm) a point of a body piece hangs; of front and back in one, on the half it lies in."""
    return min(
        (point[1] - level.base_y) * level.up if level.centre is None else level.radius - math.dist(level.centre, point)
        for level in piece.levels
    )


# --- where a run round the body begins --------------------------------------------------------------------


def front_of(piece: Piece, ref: EdgeRef, line: Line) -> list[tuple[Line, bool | None]]:
    """A line of one part in stretches of the front (True), the back (False) or neither (None)."""
    if len(piece.levels) == 2:
        fold = (piece.levels[0].base_y + piece.levels[1].base_y) / 2
        out: list[tuple[Line, bool | None]] = []
        steps = list(itertools.pairwise(line))
        for front, group in itertools.groupby(steps, key=lambda step: (step[0][1] + step[1][1]) / 2 < fold):
            bits = list(group)
            out.append(((bits[0][0], *(b for _, b in bits)), front))
        return out
    named = words(ref)
    return [(line, True if "front" in named else False if "back" in named else None)]


def from_centre_front(surface: Surface, run: Run) -> Run:
    """A closed run begun at the middle of its front; as it is where it has none, or is all front."""
    marks: list[tuple[float, float, bool | None]] = []
    at = 0.0
    for stretch in run.stretches:
        for line, front in front_of(surface.pieces[stretch.part], EdgeRef(stretch.part, stretch.edge), stretch.points):
            size = math.fsum(math.dist(a, b) for a, b in itertools.pairwise(line))
            marks.append((at, at + size, front))
            at += size
    fronts = [front is True for _, _, front in marks]
    if all(fronts) or not any(fronts):
        return run
    first = fronts.index(False) + 1
    order = [marks[i] for i in (*range(first, len(marks)), *range(first))]
    rows = [list(group) for front, group in itertools.groupby(order, key=lambda mark: mark[2] is True) if front]
    longest = max(rows, key=lambda row: sum(high - low for low, high, _ in row))
    size = math.fsum(high - low for low, high, _ in longest)
    return on_a_corner(begun_at(run, longest[0][0] + size / 2))


def on_a_corner(run: Run) -> Run:
    """The run begun exactly where a stretch does, if it begins within a hair of that."""
    begins = starts(run)
    for at in begins[1:-1]:
        if min(at, begins[-1] - at) < 100 * SAME:
            return begun_at(run, at)
    return run
