"""What has to be placed on a cloth, and the ways each piece may lie on it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from shapely import box
from shapely.geometry import LineString, Polygon

from ellwand.errors import CannotDraft, InternalFault
from ellwand.geometry.lines import Line, Point, bounds, mirror, shift, turn
from ellwand.language import _
from ellwand.lay.pattern_match import mark_of
from ellwand.lay.sides import on_selvedge
from ellwand.lay.task import Pose, Shape
from ellwand.model.cloth import Cloth, Repeat, width_on_table
from ellwand.model.draft import Part
from ellwand.model.names import named
from ellwand.model.piece import Piece
from ellwand.units import format_length

HAIR: Final = 1e-6
"""Lengths that differ by less than this (cm) are the same."""

HOLLOW: Final = 0.8
"""A hollow curve may be drawn straight this far out (cm): no piece would have used that room."""

NO_MARKS: Final[Mapping[str, Point]] = {}

SLIT: Final = 0.25
"""Gaps in an outline narrower than this (cm) are slits: nothing lies in them."""


def usable_width(cloth: Cloth) -> float:
    """Width on the table (cm) less both selvedges."""
    return width_on_table(cloth) - 2 * cloth.selvedge


def may_lie_crosswise(piece: Piece, cloth: Cloth) -> bool:
    """Whether the piece's grain may run across the cloth; on a stripe or check none may."""
    return (
        not cloth.nap
        and cloth.repeat is None
        and (cloth.crosswise == "any" or (cloth.crosswise == "small pieces" and piece.small))
    )


def allowed_turns(piece: Piece, cloth: Cloth) -> tuple[float, ...]:
    """The turns (degrees) that nap and grain allow."""
    if cloth.nap:
        return (0.0,)
    return (0.0, 180.0, 90.0, 270.0) if may_lie_crosswise(piece, cloth) else (0.0, 180.0)


def copies(piece: Piece, parts: Sequence[Part]) -> Iterator[Part]:
    """The parts cut from a piece; copies beyond its parts are numbered, and not mirrored."""
    known = [part for part in parts if part.piece == piece.id]
    if len(known) > piece.count:
        raise InternalFault(f"{piece.id} has {len(known)} parts but is cut {piece.count} times")
    yield from known
    for number in range(len(known) + 1, piece.count + 1):
        yield Part(f"{piece.id}-{number}", piece.id)


def shapes_of(
    pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth, marks: Mapping[str, Point] = NO_MARKS
) -> tuple[Shape, ...]:
    """Everything to place on the flat cloth, in the order given; ``marks``: what meets its stripes, by piece.

    Raises CannotDraft when a piece is wider than the cloth however it lies.
    """
    past = (cloth.selvedge, cloth.selvedge) if cloth.selvedge_edges else (0.0, 0.0)
    room = usable_width(cloth) + cloth.gap
    shapes: list[Shape] = []
    for piece in pieces:
        known: dict[bool, tuple[Pose, ...]] = {}
        for part in copies(piece, parts):
            if part.mirrored not in known:
                found = poses_of(piece, part.mirrored, cloth, past, marks.get(piece.id))
                known[part.mirrored] = fitting(found, room)
                if not known[part.mirrored]:
                    raise _too_wide(piece, cloth)
            shapes.append(Shape(piece.id, part.id, known[part.mirrored]))
    return tuple(shapes)


def fitting(poses: Sequence[Pose], width: float, length: float = math.inf) -> tuple[Pose, ...]:
    """The poses that have room in a ground this wide and long (cm)."""
    return tuple(p for p in poses if p.width - sum(p.past) <= width + HAIR and p.height <= length + HAIR)


def closed_outline(ring: Line, *, as_cut: bool = False) -> Line:
    """The outline with its slits closed, counter-clockwise; its hollows drawn straight unless ``as_cut``."""
    polygon = Polygon(ring)
    closed = polygon.buffer(SLIT / 2, join_style="mitre").buffer(-SLIT / 2, join_style="mitre")
    # an outline without slits is kept to the last digit
    outline = closed if closed.area > polygon.area + HAIR else polygon
    return ring_of(outline) if as_cut else _notches_straightened(ring_of(outline))


def _notches_straightened(ring: Line) -> Line:
    """The outline with hollow curves drawn as a few straight lines, never further in than they are.

    A chord of a hollow curve lies outside the piece, so nothing that keeps off it can touch the piece.
    """
    n = len(ring)
    hollow = [_turns_right(ring[i - 1], ring[i], ring[(i + 1) % n]) for i in range(n)]
    if not any(hollow) or all(hollow):
        return ring
    start = next(i for i in range(n) if not hollow[i])
    out: list[Point] = []
    run: list[Point] = []
    for k in range(n + 1):
        i = (start + k) % n
        run.append(ring[i])
        if not hollow[i]:
            line = LineString(run).simplify(HOLLOW).coords if len(run) > 2 else run
            out.extend((float(x), float(y)) for x, y in line[1:])
            run = [ring[i]]
    return tuple(out)


def _turns_right(a: Point, b: Point, c: Point) -> bool:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) < 0


def poses_of(
    piece: Piece,
    mirrored: bool,
    cloth: Cloth,
    past: tuple[float, float],
    mark: Point | None = None,
    *,
    as_cut: bool = False,
) -> tuple[Pose, ...]:
    """The poses that grain, nap and face allow, as drawn before the other way up, each outline once."""
    ring = closed_outline(piece.cut, as_cut=as_cut)
    flips = (mirrored, not mirrored) if cloth.reversible else (mirrored,)
    poses: dict[object, Pose] = {}
    for flip in flips:
        face = mirror(ring)[::-1] if flip else ring
        for degrees in allowed_turns(piece, cloth):
            pose = _pose(face, degrees, flip)
            if any(past):
                pose = replace(pose, past=on_selvedge(piece, pose, past))
            if cloth.repeat is not None:
                pose = replace(pose, mark=_carried(mark or mark_of(piece), pose))
            outline = frozenset((round(x, 3), round(y, 3)) for x, y in pose.ring)
            poses.setdefault((outline, pose.past, _rounded(pose.mark)), pose)
    found = list(poses.values()) if cloth.repeat is None else _on_stripes(list(poses.values()), cloth, cloth.repeat)
    return tuple(grown(pose, cloth.gap / 2) if cloth.gap else pose for pose in found)


def _on_stripes(poses: Sequence[Pose], cloth: Cloth, repeat: Repeat) -> list[Pose]:
    """The poses whose mark can lie on a stripe between the selvedges; where none can, all of them in the middle."""
    if not repeat.across:
        return list(poses)
    places = []
    pinned = []
    for pose in poses:
        x, y = pose.mark or (0.0, 0.0)
        room = usable_width(cloth) - pose.width
        beside = (repeat.x - cloth.selvedge - x + pose.past[0]) % repeat.across - pose.past[0]
        if beside <= room + pose.past[1] + HAIR:
            places.append(pose)
        pinned.append(replace(pose, mark=(repeat.x - cloth.selvedge - room / 2, y)))
    return places or pinned


def _too_wide(piece: Piece, cloth: Cloth) -> CannotDraft:
    ring = closed_outline(piece.cut)
    wide, usable = (format_length(x, cloth.unit) for x in (_pose(ring, 0.0, False).width, usable_width(cloth)))
    return CannotDraft(
        f"cloth.{cloth.name}.width",
        _(
            "the piece {name!r} is {wide} wide and {usable} can be used between the selvedges",
            name=named(piece.name),
            wide=wide,
            usable=usable,
        ),
        _mend(piece, cloth),
    )


def grown(pose: Pose, by: float, from_left: bool = False, from_below: bool = False) -> Pose:
    """The pose with its outline moved out by ``by`` cm all round, but not to the left or below where it is halved."""
    polygon = Polygon(pose.ring).buffer(by, join_style="mitre", mitre_limit=20.0)
    far = 1000.0
    least = (0.0 if from_left else -far, 0.0 if from_below else -far)
    outline = ring_of(polygon.intersection(box(*least, pose.width + far, pose.height + far)))
    left, low, right, high = bounds(outline)
    x, y = pose.origin
    mark = None if pose.mark is None else (pose.mark[0] - left, pose.mark[1] - low)
    return replace(
        pose,
        ring=shift(outline, -left, -low),
        origin=(x - left, y - low),
        width=right - left,
        height=high - low,
        mark=mark,
    )


def ring_of(polygon: Polygon) -> Line:
    """Its outer ring, counter-clockwise, not closed."""
    outer = polygon.simplify(0).exterior
    points = tuple((float(x), float(y)) for x, y in outer.coords[:-1])
    return points if outer.is_ccw else points[::-1]


def _carried(point: Point, pose: Pose) -> Point:
    """A point of the piece where it lies in the pose."""
    ((x, y),) = turn(mirror((point,)) if pose.flip else (point,), pose.turn)
    return x + pose.origin[0], y + pose.origin[1]


def _rounded(point: Point | None) -> Point | None:
    return None if point is None else (round(point[0], 3), round(point[1], 3))


def _mend(piece: Piece, cloth: Cloth) -> str:
    ways = {
        "body": _("choose a wider cloth, a centre seam or shoulder panels"),
        "sleeve": _('choose a wider cloth, cut = "wide panels" or a narrower sleeve'),
    }.get(piece.place, _("choose a wider cloth"))
    low, high = bounds(piece.cut)[1::2]
    helps = not cloth.nap and not may_lie_crosswise(piece, cloth) and high - low <= usable_width(cloth)
    return _("{ways}, or allow pieces crosswise", ways=ways) if helps else ways


def _pose(face: Line, degrees: float, flip: bool) -> Pose:
    turned = turn(face, degrees)
    left, low, right, high = bounds(turned)
    return Pose(degrees, flip, shift(turned, -left, -low), (-left, -low), right - left, high - low)
