"""Pieces that may widen toward the hem, whole or in halves: the shapes of gores and side panels, and the latter."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ellwand.draft.blank import Blank, Book, Run, climb, walked_back
from ellwand.draft.joins import Sides, allowance_for, opposite
from ellwand.draft.plan import Plan
from ellwand.draft.seamline import SeamLine, Segment
from ellwand.errors import CannotDraft
from ellwand.geometry.flare import flare
from ellwand.geometry.lines import Line, Point, length
from ellwand.language import _
from ellwand.model.choices import GoreHem
from ellwand.model.draft import EdgeRef
from ellwand.model.piece import EdgeKind, Level
from ellwand.model.wearer import HANDS
from ellwand.units import format_length

Tops = Sequence[tuple[str, EdgeKind]]
"""The edges of a straight top from left to right: name and kind; none for a point."""


ELASTIC = ("seam", "opening", "split")
"""What may be a little longer on the straight edge of a half side panel than was planned, equally on both halves."""


def draw_side_panels(plan: Plan, book: Book, sides: Sides, tops: dict[tuple[str, str], EdgeRef]) -> None:
    """Add the side panels, enter their edges on both panel seams, and their tops (``tops[hand, face]``)."""
    size = plan.dimensions
    side = size.length - size.shoulder_slope - size.armhole
    base = size.side_panel + plan.choices.body.flare
    shape, edges = shape_of(size.side_panel, side, base), Allowances.of(plan)
    for hand in HANDS:
        front, back = plan.lines["side-front", hand], plan.lines["side-back", hand]
        if plan.side_panels == "whole":
            part = f"side-panel-{hand}"
            tops_: Tops = [("top-front", "armhole"), ("top-back", "armhole")]
            blank = flared("side panel", shape, front.segments(), back.segments(), tops_, edges)
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
                segments.append(("gusset", "gusset", plan.arm.kite.body))
            blank = half_flared("half side panel", shape, segments, outer.segments(), [("top", "armhole")], edges)
            # drawn with its straight middle edge at the left: so it lies at the viewer's right of the side seam
            viewer = hand if face == "front" else opposite(hand)
            book.add(part, blank, mirrored=viewer == "left")
            sides["side", hand, viewer] = {tag: EdgeRef(part, f"straight-{tag}") for tag, _, _ in segments}
            _enter(sides, outer, hand, opposite(viewer), part, "slanted")
            tops[hand, face] = EdgeRef(part, "top")


def _enter(sides: Sides, line: SeamLine, hand: str, viewer: str, part: str, stem: str) -> None:
    sides[line.place, hand, viewer] = {tag: EdgeRef(part, f"{stem}-{tag}") for tag, _, _ in line.segments()}


# --- the shapes -----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Shape:
    """A piece with two alike sides about x = 0, the middle of its hem at (0, 0).

    ``hem``: from left to right; ``half_hem``: from the middle to the right; ``corner``: the upper right one.
    """

    hem: Line
    half_hem: Line
    corner: Point
    level: Level


@dataclass(frozen=True, slots=True)
class Allowances:
    """Outside the hem and outside every other edge (cm)."""

    hem: float
    seam: float

    @classmethod
    def of(cls, plan: Plan) -> Allowances:
        """Those of this garment."""
        return cls(plan.choices.sewing.hem, allowance_for(plan, "gore seam"))


def shape_of(top: float, side: float, base: float, hem: GoreHem = "arc", dip: float = 0.0) -> Shape:
    """A flared piece, or a rectangle, when base = top (cm).

    With an arc its sides are ``side`` long.  Cut straight below, it is ``side`` long in its middle, so that its sides
    are longer and their lower ends hang.  ``dip``: how far its hem lies below the hem level.
    """
    if top and base - top < 1e-9:
        return Shape(*_level_hem(top), (top / 2, side), Level(dip))
    if hem == "straight":
        high = side * base / (base - top)
        level = Level(centre=(0.0, high), radius=high - dip)
        return Shape(*_level_hem(base), (top / 2, side), level)
    shape = flare(top, side, base)
    level = Level(centre=shape.point, radius=shape.lower - dip)
    return Shape(shape.hem(), ((0.0, 0.0), *shape.hem(half=True)[1:]), shape.corner(), level)


def _level_hem(base: float) -> tuple[Line, Line]:
    return ((-base / 2, 0.0), (base / 2, 0.0)), ((0.0, 0.0), (base / 2, 0.0))


def hanging(side: float, top: float, base: float) -> float:
    """How much longer (cm) the sides of a piece cut straight below are than its middle (Pythagoras)."""
    return math.hypot(side, (base - top) / 2) - side


def flared(
    name: str, shape: Shape, left: Sequence[Segment], right: Sequence[Segment], tops: Tops, edges: Allowances
) -> Blank:
    """A whole piece of that shape; its sides told from the hem up."""
    hem, corner = shape.hem, shape.corner
    up_right: Line = (hem[-1], corner)
    up_left: Line = (hem[0], (-corner[0] if corner[0] else 0.0, corner[1]))
    ring = [Run("hem", "hem", hem, edges.hem, turned=len(hem) == 2)]
    ring += _side("right", up_right, right, edges.seam)
    if tops:
        middle = (0.0, corner[1])
        (left_id, left_kind), (right_id, right_kind) = tops
        ring.append(Run(right_id, right_kind, (corner, middle), edges.seam))
        ring.append(Run(left_id, left_kind, (middle, up_left[-1]), edges.seam))
    ring += walked_back(_side("left", up_left, left, edges.seam))
    return Blank(name, "body", tuple(ring), (), (shape.level,))


def half_flared(
    name: str, shape: Shape, straight: Sequence[Segment], slanted: Sequence[Segment], tops: Tops, edges: Allowances
) -> Blank:
    """The right half of that shape: its straight edge along the grain at x = 0.

    With a top, the straight edge is longer than the slanted one by the arc's rise; the seam above the last
    segment takes it, equally on both halves.
    """
    corner = shape.corner
    ring = [Run("hem", "hem", shape.half_hem, edges.hem, turned=len(shape.half_hem) == 2)]
    ring += _side("slanted", (shape.half_hem[-1], corner), slanted, edges.seam)
    middle: Line = ((0.0, 0.0), (0.0, corner[1]))
    for name_, kind in tops:
        ring.append(Run(name_, kind, (corner, middle[1]), edges.seam))
    ring += walked_back(_side("straight", middle, _stretched(straight, length(middle)), edges.seam))
    return Blank(name, "body", tuple(ring), (), (shape.level,))


def _side(stem: str, line: Line, segments: Sequence[Segment], allowance: float) -> list[Run]:
    """A side from the hem up; what hangs below its seam is hem."""
    return [replace(run, turned=run.kind == "hem") for run in climb(stem, line, segments, allowance)]


def _stretched(segments: Sequence[Segment], whole: float) -> list[Segment]:
    """The segments with one of them taking up the difference to ``whole``: what joins the other half, or is open.

    Raises CannotDraft where none of them can.
    """
    extra = whole - sum(size for _, _, size in segments)
    tags = [tag for tag, _, _ in segments]
    elastic = next((tags.index(tag) for tag in ELASTIC if tag in tags), None)
    if elastic is None and extra > 1e-6:
        raise CannotDraft(
            "garment.gores",
            _(
                "the flare makes the side seam {extra} longer, and a gore up to the armpit leaves no seam to"
                " take that up",
                extra=format_length(extra),
            ),
            _("start the side gore lower, or leave the flare out"),
        )
    return [(tag, kind, size + (extra if i == elastic else 0.0)) for i, (tag, kind, size) in enumerate(segments)]
