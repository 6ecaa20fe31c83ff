"""Where the parts of the body lie in its picture: each panel flat, moved rigidly, then turned aside beside gores."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ellwand.adorn.division.frames import Frame, field_of, frame_of, is_panel
from ellwand.depict.setting_in import Face
from ellwand.geometry.lines import Line, Point, bounds
from ellwand.model.draft import Draft, Part, whole_part
from ellwand.model.piece import Edge, Piece, edge_of
from ellwand.model.surface import CUT_APART

FINE = 2.0
"""A line beside gores is bent at steps of this length (cm)."""
NUDGE = 1e-5
"""Points of a panel are taken so much (cm) nearer to its middle, so that its edges turn with it."""


@dataclass(frozen=True, slots=True)
class Panel:
    """A part of the body: its piece, how far that is moved to lie in the whole piece, and how that lies on the body."""

    part: str
    piece: Piece
    moved: Point
    frame: Frame

    def seen(self, point: Point, face: Face) -> Point:
        """Where a point of the piece lies flat on the picture of a face: x from the centre, y from the hem."""
        level = next((level for name, level in self.frame.levels if name == face), self.frame.levels[0][1])
        x = (point[0] + self.moved[0] - self.frame.centre) * self.frame.across
        return (x if face == "front" else -x), (point[1] + self.moved[1] - level.base_y) * level.up

    def faces(self) -> tuple[Face, ...]:
        """Those that it is of."""
        return tuple(name for name, _ in self.frame.levels)

    def lines(self, edge: Edge, face: Face) -> Iterator[Line]:
        """What of an edge lies on the face, flat."""
        points = [self.seen(point, face) for point in edge.points]
        if len(self.frame.levels) == 1:
            yield tuple(points)
            return
        top = self.frame.top
        line: list[Point] = []
        for a, b in itertools.pairwise(points):
            if min(a[1], b[1]) > top - 1e-6 and max(a[1], b[1]) > top + 1e-6:
                continue
            if max(a[1], b[1]) > top + 1e-6:
                share = (top - a[1]) / (b[1] - a[1])
                on = (a[0] + (b[0] - a[0]) * share, top)
                a, b = (on, b) if a[1] > top else (a, on)
            if line and math.dist(line[-1], a) > 1e-6:
                yield tuple(line)
                line = []
            line += [b] if line else [a, b]
        if line:
            yield tuple(line)


def panels(draft: Draft) -> list[Panel]:
    """Every part of front and back, those that were cut apart as they lie in the whole."""
    by_id = {piece.id: piece for piece in draft.pieces}
    groups: dict[str, list[Part]] = {}
    for part in draft.parts:
        if is_panel(part.id):
            groups.setdefault(whole_part(part.id), []).append(part)
    field = field_of(draft)
    out: list[Panel] = []
    for name, group in groups.items():
        moves = moves_of(draft, [part.id for part in group]) if len(group) > 1 else {group[0].id: (0.0, 0.0)}
        pieces = {part.id: by_id[part.piece] for part in group}
        ring = tuple((x + moves[part][0], y + moves[part][1]) for part, piece in pieces.items() for x, y in piece.sewn)
        first = max(group, key=lambda part: any(edge.kind not in CUT_APART for edge in pieces[part.id].edges))
        dy = moves[first.id][1]
        levels = tuple(replace(each, base_y=each.base_y + dy) for each in pieces[first.id].levels)
        whole = replace(pieces[first.id], sewn=ring, levels=levels)
        frame = frame_of(replace(first, id=name), whole, field)
        out += [Panel(part.id, pieces[part.id], moves[part.id], frame) for part in group]
    return out


def moves_of(draft: Draft, parts: Sequence[str]) -> dict[str, Point]:
    """How far each of these parts is moved to lie beside the first as it was before they were cut apart."""
    wanted = set(parts)
    pieces = {piece.id: piece for piece in draft.pieces}
    of = {part.id: pieces[part.piece] for part in draft.parts if part.id in wanted}
    beside: dict[str, list[tuple[str, Point]]] = {part: [] for part in parts}
    for seam in draft.seams:
        if seam.a.part in wanted and seam.b.part in wanted:
            a, b = edge_of(of[seam.a.part], seam.a.edge), edge_of(of[seam.b.part], seam.b.edge)
            if a.kind in CUT_APART:
                (ax, ay), (bx, by) = a.points[0], b.points[-1]
                beside[seam.a.part].append((seam.b.part, (ax - bx, ay - by)))
                beside[seam.b.part].append((seam.a.part, (bx - ax, by - ay)))
    out: dict[str, Point] = {parts[0]: (0.0, 0.0)}
    todo = [parts[0]]
    while todo:
        part = todo.pop()
        for other, (dx, dy) in beside[part]:
            if other not in out:
                out[other] = (out[part][0] + dx, out[part][1] + dy)
                todo.append(other)
    return {part: out.get(part, (0.0, 0.0)) for part in parts}


def nudged(line: Line, panel_middle: float) -> Line:
    """The line a hair nearer to the middle of its panel, so that it turns aside as the panel does."""
    return tuple((x + math.copysign(NUDGE, panel_middle - x), y) for x, y in line)


def middle_of(panel: Panel, face: Face) -> float:
    """The middle of a part as it lies flat on a face."""
    x0, _, x1, _ = bounds([panel.seen(point, face) for point in panel.piece.sewn])
    return (x0 + x1) / 2


def finely(line: Line, heights: Sequence[float]) -> Line:
    """The line with a point more at each of these heights, and many below the highest where it runs aslant there."""
    out = [line[0]]
    high = max(heights, default=-math.inf)
    for a, b in itertools.pairwise(line):
        rise = b[1] - a[1]
        shares = {(y - a[1]) / rise for y in heights if min(a[1], b[1]) + 1e-6 < y < max(a[1], b[1]) - 1e-6}
        if min(a[1], b[1]) < high and abs(a[0] - b[0]) > 0.5:
            steps = max(1, math.ceil(math.dist(a, b) / FINE))
            shares |= {i / steps for i in range(1, steps)}
        out += [(a[0] + (b[0] - a[0]) * t, a[1] + rise * t) for t in sorted(shares)]
        out.append(b)
    return tuple(out)
