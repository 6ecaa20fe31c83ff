"""From pieces and a cloth to the plan that it is torn by."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from shapely import LineString, MultiLineString, Polygon, box, line_merge

from ellwand.errors import CannotDraft, InternalFault
from ellwand.geometry.lines import Line, Point
from ellwand.language import _
from ellwand.lay.bounds import lower_bound
from ellwand.lay.buy import buy_length
from ellwand.lay.check import faults_of
from ellwand.lay.shapes import HAIR, shapes_of, usable_width
from ellwand.lay.task import Pose, Shape
from ellwand.lay.tear.kinds import Kind, kinds_of, outline_of
from ellwand.lay.tear.parting import parted
from ellwand.lay.tear.search import lengths
from ellwand.lay.tear.sequence import Strip, Tearing, moved, strip_of
from ellwand.model.cloth import Cloth, width_on_table
from ellwand.model.draft import Part
from ellwand.model.lay import Lay, Placement, lie
from ellwand.model.piece import Piece, cloth_in
from ellwand.model.tearing import Block, ScissorCut, TearPlan

EFFORT: Final = 3
BORDER: Final = 0.15
"""An outline's line this near (cm) a block's edge is that edge, torn to the next whole millimetre."""
SHARED: Final = 0.05
"""Lines this near (cm) are cut as one."""
SHORTEST: Final = 0.5
"""Shorter bits (cm) are trimmed in passing."""


def tear_plan(pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth, *, effort: int = EFFORT) -> TearPlan:
    """All ``pieces`` on the one cloth, flat, so that straight tears from edge to edge part it into blocks.

    The same ``effort`` gives the same plan; 1 takes about two seconds of one core.  Nap, face, crosswise pieces and
    selvedges are heeded; the selvedges are torn off.  Where a length of cloth would hold a fault in one of its
    pieces it is torn from beyond the fault, or another length is; left-over pieces are not used, nor is any piece
    cut on a fold.  The plan may be longer than the cloth at hand: the caller compares.
    Raises CannotDraft when a piece is wider than the cloth however it may lie, or a gap between pieces is asked for.
    """
    if cloth.gap or cloth.repeat:
        raise CannotDraft(
            f"cloth.{cloth.name}.cut",
            _("torn pieces lie edge to edge, without room between pieces")
            if cloth.gap
            else _("torn pieces lie edge to edge, without a pattern to match"),
            _('write cut = "free"'),
        )
    flat = replace(cloth, fold="flat", remnants=(), selvedge_edges=False)
    shapes = shapes_of(pieces, parts, flat)
    if not shapes:
        raise CannotDraft(f"cloth.{cloth.name}.cut", _("there is nothing to tear from it"), _('write cut = "free"'))
    kinds = kinds_of(shapes)
    waiting = [list(kind.shapes) for kind in kinds]
    known = {piece.id: piece for piece in pieces}
    cells = lengths(kinds, usable_width(flat), effort)
    strips = _clear_of_faults([strip_of(cell) for cell in cells], kinds, flat)
    tearing = Tearing()
    torn = [parted(moved(strip, cloth.selvedge), kinds) for strip in strips]
    tearing.tear_lay(torn, width_on_table(cloth), cloth.selvedge)
    placements: list[Placement] = []
    blocks: list[Block] = []
    cuts: list[ScissorCut] = []
    for name, strip in tearing.blocks:
        x, y, width, height = (round(v, 6) for v in strip.rect)
        placed = _placed(strip, kinds, waiting)
        placements += placed
        blocks.append(Block(name, x, y, width, height, tuple(p.part for p in placed)))
        cuts += _cuts(blocks[-1], placed, known)
    lay = _lay(placements, round(torn[-1].rect[1] + torn[-1].rect[3], 6), pieces, cloth)
    if faults := faults_of(lay, pieces, flat, parts):
        raise InternalFault(f"the tear plan on {cloth.name} is wrong: {'; '.join(faults)}")
    return TearPlan(lay, tuple(tearing.tears), tuple(blocks), tuple(cuts))


def _full_width(strip: Strip, width: float) -> Strip:
    """A length is as wide as the cloth: what the last strip leaves of a millimetre belongs to it."""
    x, y, _, height = strip.rect
    if strip.way == "along" and strip.parts:
        *before, last = strip.parts
        return replace(strip, rect=(x, y, width, height), parts=(*before, _full_width(last, width + x - last.rect[0])))
    return replace(strip, rect=(x, y, width, height), parts=tuple(_full_width(part, width) for part in strip.parts))


def _clear_of_faults(strips: Sequence[Strip], kinds: Sequence[Kind], cloth: Cloth) -> list[Strip]:
    """The lengths one after the other, waste between them where a fault would lie in a piece of each that is left."""
    width = usable_width(cloth)
    spoiled = [box(*fault.spoils) for fault in cloth.faults]
    left = [moved(_full_width(s, width), 0.0, -s.rect[1]) for s in strips]
    out: list[Strip] = []
    y = 0.0
    while left:
        for i, strip in enumerate(left):
            there = moved(strip, 0.0, y)
            rings = [Polygon(r) for r in _rings(there, kinds, cloth.selvedge)]
            if not any(ring.intersection(fault).area > HAIR for ring in rings for fault in spoiled):
                out.append(there)
                y += there.rect[3]
                del left[i]
                break
        else:
            beyond = min(_up(f.bounds[3]) for f in spoiled if _up(f.bounds[3]) > y + 1e-6)
            out.append(Strip((0.0, y, width, beyond - y)))
            y = beyond
    return out


def _up(value: float) -> float:
    return math.ceil(value * 10 - 1e-6) / 10


def _rings(strip: Strip, kinds: Sequence[Kind], selvedge: float) -> list[Line]:
    """The outlines of the pieces in it, on the cloth."""
    if strip.block is None:
        return [ring for part in strip.parts for ring in _rings(part, kinds, selvedge)]
    x, y, _, _ = strip.rect
    return [
        tuple((px + x + m.x + selvedge, py + y + m.y) for px, py in kinds[m.kind].poses[m.pose].ring)
        for m in strip.block.members
    ]


def _placed(strip: Strip, kinds: Sequence[Kind], waiting: Sequence[list[Shape]]) -> list[Placement]:
    """The block's pieces; of a kind they are taken as they come."""
    assert strip.block is not None
    out = []
    for m in strip.block.members:
        shape = waiting[m.kind].pop(0)
        pose = _alike(kinds[m.kind].poses[m.pose], shape)
        x, y = strip.rect[0] + m.x + pose.origin[0], strip.rect[1] + m.y + pose.origin[1]
        out.append(Placement(shape.piece, shape.part, round(x, 6), round(y, 6), pose.turn, pose.flip))
    return out


def _alike(pose: Pose, shape: Shape) -> Pose:
    """The shape's own pose with that outline."""
    return next(each for each in shape.poses if outline_of(each) == outline_of(pose))


def _cuts(block: Block, placed: Sequence[Placement], known: dict[str, Piece]) -> list[ScissorCut]:
    """The lines of the block's pieces that are not its edges; where two pieces share one it is cut once."""
    done = Polygon()
    out = []
    for p in placed:
        ring = lie(known[p.piece].cut, p)
        sides = [LineString(side) for side in zip(ring, (*ring[1:], ring[0]), strict=True) if not _on_edge(side, block)]
        left = line_merge(MultiLineString(sides)).difference(done)
        for line in getattr(left, "geoms", [left]):
            if line.length > SHORTEST:
                points = tuple((round(x - block.x, 4), round(y - block.y, 4)) for x, y in line.coords)
                out.append(ScissorCut(block.name, points))
        done = done.union(left.buffer(SHARED, cap_style="flat"))
    return out


def _on_edge(side: tuple[Point, Point], block: Block) -> bool:
    (ax, ay), (bx, by) = side
    edges = ((ax, bx, block.x), (ax, bx, block.x + block.width), (ay, by, block.y), (ay, by, block.y + block.height))
    return any(abs(a - at) < BORDER and abs(b - at) < BORDER for a, b, at in edges)


def _lay(placements: Sequence[Placement], length: float, pieces: Sequence[Piece], cloth: Cloth) -> Lay:
    width = width_on_table(cloth)
    bound, why = lower_bound(pieces, cloth)
    return Lay(
        cloth=cloth.name,
        width=width,
        usable_width=usable_width(cloth),
        length=length,
        buy_length=buy_length(length, cloth),
        lower_bound=bound,
        bound=why,
        use=cloth_in(pieces) / (width * length),
        fold="flat",
        engine="torn",
        placements=tuple(placements),
    )
