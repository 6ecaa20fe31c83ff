"""Piecing: one piece cut in two along a straight line, and the two sewn together again.

An edge that the line crosses comes in two; so does the edge it is sewn to, at the same length along the seam, and
so on through every part cut from the same piece, so that alike pieces stay alike.
"""

from __future__ import annotations

import itertools
import math
import re
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from ellwand.draft.cutline import Cut, crossings, lies_on, on_line, side_of, spread
from ellwand.geometry.lines import Line, chain, length, split
from ellwand.geometry.offset import Margin, cut_ring
from ellwand.model.draft import Draft, EdgeRef, Part, Seam
from ellwand.model.outlined import outlined
from ellwand.model.piece import Edge, Guide, Mark, Piece

Fragments = Mapping[tuple[str, str], Sequence[Edge]]
"""(piece, edge) -> the edges it becomes, in the order they are walked."""


def pieced(draft: Draft, piece_id: str, cut: Cut) -> Draft:
    """The same garment with that piece cut in two and sewn together again.

    Raises CannotDraft where the line misses the piece, runs along an edge, through a hole or a slit, or ends beside
    a corner.
    """
    piece = next(each for each in draft.pieces if each.id == piece_id)
    marks = spread(draft, {(piece_id, edge): at for edge, at in crossings(piece, cut).items()})
    fragments = {
        (each.id, edge.id): _fragments(
            edge, marks.get((each.id, edge.id), ()), cut if each is piece else None, [other.id for other in each.edges]
        )
        for each in draft.pieces
        for edge in each.edges
    }
    tag = f"-{cut.called}"
    stem = _without(piece_id, tag)
    new_id = _unused(stem + tag, [each.id for each in draft.pieces])
    suffix = new_id.removeprefix(stem)
    joint = _unused("piecing", [edge.id for edge in piece.edges])
    both = _apart(draft, piece, [part for edge in piece.edges for part in fragments[piece_id, edge.id]], cut, joint)
    stays, comes_off = (
        both[0],
        replace(both[1], id=new_id, name=_without(piece.name, f" {cut.called}") + suffix.replace("-", " ")),
    )
    pieces = [
        new
        for each in draft.pieces
        for new in ((stays, comes_off) if each is piece else (_with_marks(each, fragments),))
    ]
    beside = {part.id: _without(part.id, tag) + suffix for part in draft.parts if part.piece == piece_id}
    parts = [
        new
        for part in draft.parts
        for new in (part, *([Part(beside[part.id], new_id, part.mirrored)] if part.id in beside else []))
    ]
    seams = _seams(draft, fragments, beside, cut)
    finish = draft.choices.sewing.finish
    seams += [
        Seam("", EdgeRef(part, joint), EdgeRef(other, joint), "piecing seam", finish) for part, other in beside.items()
    ]
    return replace(draft, pieces=tuple(pieces), parts=tuple(parts), seams=_numbered(seams))


# --- the pieces -----------------------------------------------------------------------------------------


def _fragments(edge: Edge, at: Sequence[float], cut: Cut | None, taken: Sequence[str]) -> list[Edge]:
    """What an edge becomes; on each piece the first keeps its name."""
    out: list[Edge] = []
    seen: dict[int, int] = defaultdict(int)
    for line in split(edge.points, at):
        side = side_of(line, cut) if cut else 0
        seen[side] += 1
        name = edge.id if seen[side] == 1 else _unused(edge.id, [*taken, *(each.id for each in out)])
        out.append(replace(edge, id=name, points=line))
    return out


def _without(name: str, end: str) -> str:
    """A name without what an earlier piecing of the same kind put at its end."""
    return re.sub(rf"{end}([ -]\d+)?$", "", name)


def _unused(name: str, taken: Sequence[str]) -> str:
    if name not in taken:
        return name
    return next(each for n in itertools.count(2) if (each := f"{name}-{n}") not in taken)


def _with_marks(piece: Piece, fragments: Fragments) -> Piece:
    """A piece that stays whole, some of its edges in two."""
    edges = tuple(new for edge in piece.edges for new in fragments[piece.id, edge.id])
    if len(edges) == len(piece.edges):
        return piece
    outer = [edge for edge in edges if not any(lies_on(edge, hole) for hole in piece.sewn_holes)]
    return replace(piece, edges=edges, sewn=chain([edge.points for edge in outer])[:-1])


def _apart(draft: Draft, piece: Piece, edges: Sequence[Edge], cut: Cut, joint: str) -> tuple[Piece, Piece]:
    """(what stays, what comes off)."""
    holes = [[edge for edge in piece.edges if lies_on(edge, hole)] for hole in piece.sewn_holes]
    in_holes = {edge.id for hole in holes for edge in hole}
    ring = [edge for edge in edges if edge.id not in in_holes]
    sides = [side_of(edge.points, cut) for edge in ring]
    out = []
    for side in (-1, 1):
        start = next(i for i in range(len(ring)) if sides[i] == side and sides[i - 1] != side)
        turned_to = [(ring * 2)[i] for i in range(start, start + len(ring))]
        run = [edge for edge in turned_to if side_of(edge.points, cut) == side]
        closing = (run[-1].points[-1], run[0].points[0])
        run.append(Edge(joint, "piecing seam", closing, draft.choices.sewing.allowance))
        kept = [hole for hole in holes if side_of(hole[0].points, cut) == side]
        inside = replace(piece, guides=_guides(piece, cut, side), marks=_marks(piece, run, kept))
        out.append(outlined(inside, [run, *kept], cut_outline))
    return out[0], out[1]


def cut_outline(ring: Sequence[Edge]) -> Line:
    """The cut outline about a ring of edges."""
    return cut_ring([Margin(edge.points, edge.allowance, edge.turned) for edge in ring])


def _guides(piece: Piece, cut: Cut, side: int) -> tuple[Guide, ...]:
    return tuple(
        replace(guide, points=line)
        for guide in piece.guides
        for line in split(guide.points, on_line(guide.points, cut))
        if side_of(line, cut) == side
    )


def _marks(piece: Piece, ring: Sequence[Edge], holes: Sequence[Sequence[Edge]]) -> tuple[Mark, ...]:
    """The marks that belong to an edge of this outline."""
    names = {edge.id for run in (ring, *holes) for edge in run}
    return tuple(mark for mark in piece.marks if mark.edge in names)


# --- the seams ------------------------------------------------------------------------------------------


def _seams(draft: Draft, fragments: Fragments, beside: Mapping[str, str], cut: Cut) -> list[Seam]:
    """Every seam, in as many as its edges have become."""
    of_part = {part.id: part for part in draft.parts}

    def refs(ref: EdgeRef) -> Iterator[tuple[EdgeRef, float]]:
        for edge in fragments[of_part[ref.part].piece, ref.edge]:
            off = ref.part in beside and side_of(edge.points, cut) > 0
            yield EdgeRef(beside[ref.part] if off else ref.part, edge.id), length(edge.points)

    out = []
    for seam in draft.seams:
        a, b = list(refs(seam.a)), list(refs(seam.b))
        if of_part[seam.a.part].mirrored == of_part[seam.b.part].mirrored:
            b.reverse()
        whole = math.fsum(cm for _, cm in a)
        for i, ((one, cm), (other, _)) in enumerate(zip(a, b, strict=True)):
            ease = seam.ease * cm / whole if len(a) > 1 else seam.ease
            out.append(replace(seam, id="" if i else seam.id, a=one, b=other, ease=ease))
    return out


def _numbered(seams: Sequence[Seam]) -> tuple[Seam, ...]:
    """New seams, which have no name yet, get the next numbers."""
    number = itertools.count(sum(1 for seam in seams if seam.id) + 1)
    return tuple(seam if seam.id else replace(seam, id=f"seam-{next(number)}") for seam in seams)
