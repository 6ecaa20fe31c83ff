"""Gores and side panels: pieces that may widen toward the hem, whole or in halves."""

from __future__ import annotations

import itertools

from ellwand.draft.blank import Blank, Book, Run, climb, walked_back
from ellwand.draft.body import Sides, allowance_for, opposite
from ellwand.draft.plan import Plan
from ellwand.draft.seamline import SeamLine, Segment
from ellwand.geometry.flare import flare
from ellwand.geometry.lines import Line, Point, length
from ellwand.model.draft import EdgeRef
from ellwand.model.piece import EdgeKind, Level
from ellwand.model.wearer import HANDS

Segments = list[Segment]


def draw_gores(plan: Plan, book: Book, sides: Sides) -> None:
    """Set the gores into every line that has them, and sew them to the panels and to each other."""
    for (place, hand), line in plan.lines.items():
        if not line.bases:
            continue
        count = len(line.bases)
        refs = []
        halves = 0
        for i, (base, half) in enumerate(line.bases):
            left_open = line.split if 2 * i == count else 0.0
            right_open = line.split if 2 * (i + 1) == count else 0.0
            part = "-".join(["gore", place, *([hand] if hand else []), *([str(i + 1)] if count > 1 else [])])
            first = half and halves % 2 == 0
            halves += half
            refs.append(_gore(plan, book, part, line, base, half, first, left_open, right_open))
        panels = [sides[place, hand, "left"]["gore"], sides[place, hand, "right"]["gore"]]
        book.sew(panels[0], refs[0][0]["seam"], "gore to panel")
        for before, after in itertools.pairwise(refs):
            if "seam" in before[1]:
                book.sew(before[1]["seam"], after[0]["seam"], "gore to gore")
        book.sew(refs[-1][1]["seam"], panels[1], "gore to panel")


Named = dict[str, EdgeRef]


def _gore(
    plan: Plan,
    book: Book,
    part: str,
    line: SeamLine,
    base: float,
    half: bool,
    first: bool,
    left_open: float,
    right_open: float,
) -> tuple[Named, Named]:
    """Add one gore; returns its edges at the viewer's left and right."""
    left, right = _gore_side(line.start, left_open), _gore_side(line.start, right_open)
    seam = allowance_for(plan, "gore seam")
    if not half:
        blank = _flared("gore", 0.0, line.start, base, left, right, [], plan.choices.sewing.hem, seam)
        book.add(part, blank, where=line.place)
        return _refs(part, "left", left), _refs(part, "right", right)
    # a half is drawn with its straight edge at the left; the viewer's left half is its mirror image
    inner, outer = (right, left) if first else (left, right)
    blank = _half_flared("half gore", 0.0, line.start, base, inner, outer, [], plan.choices.sewing.hem, seam)
    book.add(part, blank, mirrored=first, where=line.place)
    inner_refs, outer_refs = _refs(part, "straight", inner), _refs(part, "slanted", outer)
    return (outer_refs, inner_refs) if first else (inner_refs, outer_refs)


def _gore_side(start: float, open_: float) -> Segments:
    low = min(open_, start)
    out: Segments = [("split", "split", low), ("seam", "gore seam", start - low)]
    return [segment for segment in out if segment[2] > 1e-6]


def _refs(part: str, stem: str, segments: Segments) -> Named:
    return {tag: EdgeRef(part, f"{stem}-{tag}") for tag, _, _ in segments}


def draw_side_panels(plan: Plan, book: Book, sides: Sides, tops: dict[tuple[str, str], EdgeRef]) -> None:
    """Add the side panels, enter their edges on both panel seams, and their tops (``tops[hand, face]``)."""
    size = plan.dimensions
    side = size.length - size.armhole
    base = size.side_panel + plan.choices.body.flare
    sewing = plan.choices.sewing
    for hand in HANDS:
        front, back = plan.lines["side-front", hand], plan.lines["side-back", hand]
        if plan.side_panels == "whole":
            part = f"side-panel-{hand}"
            blank = _flared(
                "side panel",
                size.side_panel,
                side,
                base,
                list(front.segments()),
                list(back.segments()),
                [("top-front", "armhole"), ("top-back", "armhole")],
                sewing.hem,
                sewing.allowance,
            )
            book.add(part, blank, mirrored=hand == "right")
            _enter(sides, front, hand, opposite(hand), part, "left")
            _enter(sides, back, hand, hand, part, "right")
            tops[hand, "front"], tops[hand, "back"] = EdgeRef(part, "top-front"), EdgeRef(part, "top-back")
            continue
        middle = plan.lines["side", hand]
        for face, outer in (("front", front), ("back", back)):
            part = f"side-panel-{face}-{hand}"
            segments = list(middle.segments())
            if plan.arm.gusset:
                segments.append(("gusset", "gusset", plan.arm.gusset))
            blank = _half_flared(
                "half side panel",
                size.side_panel,
                side,
                base / 2,
                segments,
                list(outer.segments()),
                [("top", "armhole")],
                sewing.hem,
                sewing.allowance,
            )
            # drawn with its straight middle edge at the left: so it lies at the viewer's right of the side seam
            viewer = hand if face == "front" else opposite(hand)
            book.add(part, blank, mirrored=viewer == "left")
            sides["side", hand, viewer] = {tag: EdgeRef(part, f"straight-{tag}") for tag, _, _ in segments}
            _enter(sides, outer, hand, opposite(viewer), part, "slanted")
            tops[hand, face] = EdgeRef(part, "top")


def _enter(sides: Sides, line: SeamLine, hand: str, viewer: str, part: str, stem: str) -> None:
    sides[line.place, hand, viewer] = {tag: EdgeRef(part, f"{stem}-{tag}") for tag, _, _ in line.segments()}


# --- the shapes -----------------------------------------------------------------------------------------


def _flared(
    name: str,
    top: float,
    side: float,
    base: float,
    left: Segments,
    right: Segments,
    tops: list[tuple[str, EdgeKind]],
    hem: float,
    allowance: float,
) -> Blank:
    """A whole flared piece (or a rectangle, when base = top) about x = 0 with its hem through (0, 0).

    ``tops``: the names of its top's left and right halves, none for a point.
    """
    if top and base - top < 1e-9:
        corner: Point = (top / 2, side)
        arc_: Line = ((-top / 2, 0.0), (top / 2, 0.0))
        level = Level()
    else:
        shape = flare(top, side, base)
        corner, arc_ = shape.corner(), shape.hem()
        level = Level(centre=shape.point, radius=shape.lower)
    up_right: Line = (arc_[-1], corner)
    up_left: Line = (arc_[0], (-corner[0] if corner[0] else 0.0, corner[1]))
    ring = [Run("hem", "hem", arc_, hem, turned=level.centre is None)]
    ring += climb("right", up_right, right, allowance)
    if tops:
        middle = (0.0, corner[1])
        (left_id, left_kind), (right_id, right_kind) = tops
        ring.append(Run(right_id, right_kind, (corner, middle), allowance))
        ring.append(Run(left_id, left_kind, (middle, up_left[-1]), allowance))
    ring += walked_back(climb("left", up_left, left, allowance))
    return Blank(name, "body", tuple(ring), (), (level,))


def _half_flared(
    name: str,
    top: float,
    side: float,
    half_base: float,
    straight: Segments,
    slanted: Segments,
    tops: list[tuple[str, EdgeKind]],
    hem: float,
    allowance: float,
) -> Blank:
    """The right half of a flared piece: its straight edge along the grain at x = 0.

    With a top, the straight edge is longer than the slanted one by the arc's rise; the seam above the last
    segment takes it, equally on both halves.
    """
    if top and 2 * half_base - top < 1e-9:
        corner: Point = (top / 2, side)
        arc_: Line = ((0.0, 0.0), (top / 2, 0.0))
        level = Level()
    else:
        shape = flare(top, side, 2 * half_base)
        corner, arc_ = shape.corner(), shape.hem(half=True)
        arc_ = ((0.0, 0.0), *arc_[1:])
        level = Level(centre=shape.point, radius=shape.lower)
    ring = [Run("hem", "hem", arc_, hem, turned=level.centre is None)]
    ring += climb("slanted", (arc_[-1], corner), slanted, allowance)
    middle: Line = ((0.0, 0.0), (0.0, corner[1]))
    for name_, kind in tops:
        ring.append(Run(name_, kind, (corner, middle[1]), allowance))
    ring += walked_back(climb("straight", middle, _stretched(straight, length(middle)), allowance))
    return Blank(name, "body", tuple(ring), (), (level,))


def _stretched(segments: Segments, whole: float) -> Segments:
    """The segments with one of them, its seam if it has one, taking up the difference to ``whole``."""
    extra = whole - sum(size for _, _, size in segments)
    tags = [tag for tag, _, _ in segments]
    elastic = tags.index("seam") if "seam" in tags else 0
    return [(tag, kind, size + (extra if i == elastic else 0.0)) for i, (tag, kind, size) in enumerate(segments)]
