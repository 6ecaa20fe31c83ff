"""What a picture of a step shows: its seams as joins between parts, of one hand where both are alike."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from ellwand.depict.step_view.motion import Own
from ellwand.geometry.lines import Line, area, length
from ellwand.language import N_
from ellwand.model.draft import EdgeRef, Seam

MEET: Final = 0.3
"""Ends nearer than this (cm) are one: the width of a slit and a little more."""
SHARP: Final = 45.0
"""A join ends where its edge turns by more than this (degrees)."""
MANY: Final = 12
"""Of more parts than this only one of each kind is drawn."""
_HANDS: Final = {"left": "right", "right": "left"}
_FACES: Final = {"front": "back", "back": "front"}


@dataclass(frozen=True, slots=True)
class Join:
    """Edges of two parts that are sewn together, in the parts' own places: ``b`` walked as it meets ``a``.

    ``a_edges`` and ``b_edges`` are their names.
    """

    a: str
    b: str
    kind: str
    a_line: Line
    b_line: Line
    a_edges: tuple[str, ...]
    b_edges: tuple[str, ...]

    @property
    def length(self) -> float:
        """Centimetres along ``a``."""
        return length(self.a_line)

    def line(self, part: str) -> Line:
        """The edge on one of the two parts; on ``a`` where both are the same part."""
        return self.a_line if part == self.a else self.b_line

    def turned(self) -> Join:
        """Seen from the other part."""
        return Join(self.b, self.a, self.kind, self.b_line, self.a_line, self.b_edges, self.a_edges)


def other_hand(name: str) -> str:
    """The name of the same part or edge on the wearer's other hand."""
    return _swapped(name, _HANDS)


def other_face(name: str) -> str:
    """The name of the same part or edge in front of or behind."""
    return _swapped(name, _FACES)


def _swapped(name: str, words: Mapping[str, str]) -> str:
    return "-".join(words.get(word, word) for word in name.split("-"))


def shown_once(seams: Sequence[Seam], owns: Mapping[str, Own]) -> tuple[list[Seam], tuple[str, ...]]:
    """The seams without those that the other hand repeats, or the back what the front has; and where they are.

    Where a part in the middle is sewn to both hands (a gore between two halves), all its seams are kept.
    """
    kept, repeated = list(seams), []
    for where, word, other in ((N_("on the right"), "right", other_hand), (N_("behind"), "back", other_face)):
        keys = {_parts(seam) for seam in kept}
        left = []
        for seam in kept:
            small = _smaller(seam, owns)
            twin = frozenset(other(part) for part in _parts(seam))
            repeats = word in small.split("-") and twin != _parts(seam) and twin in keys
            if word == "right" and small.startswith("gusset") and small == other(small):
                # one gusset between both legs
                big = seam.a.part if seam.b.part == small else seam.b.part
                repeats = word in big.split("-")
            if word == "right" and seam.a.part == seam.b.part:
                # a body in one piece, closed along both of its sides
                repeats = repeats or all("right" in ref.edge.split("-") for ref in (seam.a, seam.b))
            if not repeats:
                left.append(seam)
        whole = word == "back" and any(word in part.split("-") for seam in left for part in _parts(seam))
        if len(left) < len(kept) and not whole:
            kept = left
            repeated.append(where)
    return kept, tuple(repeated)


def in_front(seams: Sequence[Seam], repeated: tuple[str, ...]) -> tuple[list[Seam], tuple[str, ...]]:
    """The seams without those at the back armpit, where they are the same at the front one."""

    def behind(ref: EdgeRef) -> bool:
        return "gusset" in ref.part and "back" in ref.edge.split("-")

    there = {EdgeRef(ref.part, ref.edge) for seam in seams for ref in (seam.a, seam.b)}
    left = [
        seam
        for seam in seams
        if not any(behind(ref) and EdgeRef(ref.part, other_face(ref.edge)) in there for ref in (seam.a, seam.b))
    ]
    return left, (*repeated, N_("at the back armpit")) if len(left) < len(seams) else repeated


def one_of_each(
    seams: Sequence[Seam], owns: Mapping[str, Own], repeated: tuple[str, ...]
) -> tuple[list[Seam], tuple[str, ...]]:
    """Where more than MANY parts are joined, the seams of one part of each kind that is set in."""
    if len({part for seam in seams for part in (seam.a.part, seam.b.part)}) <= MANY:
        return list(seams), repeated
    at: dict[str, list[Seam]] = {}
    for seam in seams:
        at.setdefault(_smaller(seam, owns), []).append(seam)
    kinds: dict[frozenset[str], str] = {}
    for part, its in at.items():
        kinds.setdefault(frozenset(owns[ref.part].piece.id for seam in its for ref in (seam.a, seam.b)), part)
    left = [seam for part in kinds.values() for seam in at[part]]
    return left, (*repeated, N_("at all like seams")) if len(left) < len(seams) else repeated


def edges_shown_once(refs: Sequence[EdgeRef], once_a_face: bool) -> tuple[list[EdgeRef], tuple[str, ...]]:
    """The edges without those of parts that the other hand repeats, or the back; and where they are.

    ``once_a_face``: whether the back may go without as well.
    """
    kept, repeated = list(refs), []
    faces = (("behind", "back", other_face),) if once_a_face else ()
    for where, word, other in (("on the right", "right", other_hand), *faces):
        parts = {_plain(ref.part) for ref in kept}
        left = [
            ref
            for ref in kept
            if not (word in ref.part.split("-") and other(_plain(ref.part)) in parts)
            and not (word == "back" and word in ref.edge.split("-") and _has_front(ref, kept))
        ]
        if len(left) < len(kept):
            kept = left
            repeated.append(where)
    return kept, tuple(repeated)


def _has_front(ref: EdgeRef, refs: Sequence[EdgeRef]) -> bool:
    return any(each.part == ref.part and "front" in each.edge.split("-") for each in refs)


def _smaller(seam: Seam, owns: Mapping[str, Own]) -> str:
    return min((seam.a.part, seam.b.part), key=lambda part: (abs(area(owns[part].piece.sewn)), part))


def _parts(seam: Seam) -> frozenset[str]:
    return frozenset({_plain(seam.a.part), _plain(seam.b.part)})


def _plain(part: str) -> str:
    """A part's name without the number it has among gores side by side, which counts the other way on the right."""
    return re.sub(r"-\d+(?=-|$)", "", part)


def joins(seams: Iterable[Seam], owns: Mapping[str, Own]) -> list[Join]:
    """The seams as joins, those that run on into each other between the same two parts as one."""
    out: list[Join] = []
    for seam in seams:
        out.append(_join(seam, owns))
    merged = True
    while merged:
        merged = False
        for i, one in enumerate(out):
            for k, two in enumerate(out):
                if i != k and (long := _end_to_end(one, two)) is not None:
                    out = [each for n, each in enumerate(out) if n not in (i, k)] + [long]
                    merged = True
                    break
            if merged:
                break
    return sorted(out, key=lambda each: (-round(each.length, 1), _behind(each), each.a, each.b, each.a_edges))


def _behind(join: Join) -> bool:
    return any("back" in name.split("-") for name in (join.a, join.b, *join.a_edges, *join.b_edges))


def _join(seam: Seam, owns: Mapping[str, Own]) -> Join:
    a, b = owns[seam.a.part], owns[seam.b.part]
    a_line, b_line = a.edge(seam.a.edge), b.edge(seam.b.edge)
    if a.mirrored == b.mirrored:
        b_line = b_line[::-1]
    made = Join(a.id, b.id, seam.kind, a_line, b_line, (seam.a.edge,), (seam.b.edge,))
    if a.id == b.id:
        return made.turned() if "back" in seam.a.edge.split("-") and "front" in seam.b.edge.split("-") else made
    swap = (abs(area(b.piece.sewn)), a.id) > (abs(area(a.piece.sewn)), b.id)
    return made.turned() if swap else made


def _end_to_end(one: Join, two: Join) -> Join | None:
    """Two joins of the same parts as one where the second goes on from the first; None where it does not."""
    if (one.a, one.b) != (two.a, two.b):
        return None
    for first, second in ((one, two), (one, _backward(two)), (_backward(one), two)):
        near = max(math.dist(first.a_line[-1], second.a_line[0]), math.dist(first.b_line[-1], second.b_line[0]))
        if near < 1e-4 and max(_corner(first.a_line, second.a_line), _corner(first.b_line, second.b_line)) < SHARP:
            return Join(
                one.a,
                one.b,
                one.kind,
                first.a_line + second.a_line[1:],
                first.b_line + second.b_line[1:],
                first.a_edges + second.a_edges,
                first.b_edges + second.b_edges,
            )
    return None


def _corner(first: Line, second: Line) -> float:
    """By how much (degrees) a line turns where a second goes on from it."""
    (ax, ay), (bx, by), (cx, cy) = first[-2], first[-1], second[1]
    turn = math.atan2(cy - by, cx - bx) - math.atan2(by - ay, bx - ax)
    return abs(math.degrees((turn + math.pi) % (2 * math.pi) - math.pi))


def _backward(join: Join) -> Join:
    return Join(join.a, join.b, join.kind, join.a_line[::-1], join.b_line[::-1], join.a_edges[::-1], join.b_edges[::-1])
