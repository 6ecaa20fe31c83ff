"""What has to be placed on a cloth, and the ways each piece may lie on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from shapely.geometry import LineString, Polygon

from ellwand.errors import CannotDraft, InternalFault
from ellwand.geometry.lines import Line, Point, bounds, mirror, shift, turn
from ellwand.lay.task import Pose, Shape, Spot
from ellwand.model.cloth import Cloth, width_on_table
from ellwand.model.draft import Part
from ellwand.model.lay import Placement
from ellwand.model.piece import Piece
from ellwand.units import format_length

HAIR: Final = 1e-6
"""Lengths that differ by less than this (cm) are the same."""

HOLLOW: Final = 0.8
"""A hollow curve may be drawn straight this far out (cm): no piece would have used that room."""

SLIT: Final = 0.25
"""Gaps in an outline narrower than this (cm) are slits: nothing lies in them."""


def usable_width(cloth: Cloth) -> float:
    """Width on the table (cm) less both selvedges."""
    return width_on_table(cloth) - 2 * cloth.selvedge


def may_lie_crosswise(piece: Piece, cloth: Cloth) -> bool:
    """Whether the piece's grain may run across the cloth."""
    return not cloth.nap and (cloth.crosswise == "any" or (cloth.crosswise == "small pieces" and piece.small))


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


def shapes_of(pieces: Sequence[Piece], parts: Sequence[Part], cloth: Cloth) -> tuple[Shape, ...]:
    """Everything to place, in the order given.

    Raises CannotDraft when a piece is wider than the cloth however it lies.
    """
    shapes: list[Shape] = []
    for piece in pieces:
        known: dict[bool, tuple[Pose, ...]] = {}
        for part in copies(piece, parts):
            if part.mirrored not in known:
                known[part.mirrored] = _poses(piece, part.mirrored, cloth)
            shapes.append(Shape(piece.id, part.id, known[part.mirrored]))
    return tuple(shapes)


def placement(spot: Spot, cloth: Cloth) -> Placement:
    """The spot as the lay writes it."""
    return Placement(
        piece=spot.shape.piece,
        part=spot.shape.part,
        x=round(spot.x + spot.pose.origin[0] + cloth.selvedge, 6),
        y=round(spot.y + spot.pose.origin[1], 6),
        turn=spot.pose.turn,
        flip=spot.pose.flip,
    )


def closed_outline(ring: Line) -> Line:
    """The outline with its slits closed, counter-clockwise."""
    polygon = Polygon(ring)
    closed = polygon.buffer(SLIT / 2, join_style="mitre").buffer(-SLIT / 2, join_style="mitre")
    # an outline without slits is kept to the last digit
    outline = closed if closed.area > polygon.area + HAIR else polygon
    outer = outline.simplify(0).exterior
    points = tuple((float(x), float(y)) for x, y in outer.coords[:-1])
    return _notches_straightened(points if outer.is_ccw else points[::-1])


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


def _poses(piece: Piece, mirrored: bool, cloth: Cloth) -> tuple[Pose, ...]:
    """The poses that fit, as drawn before the other way up, each outline once."""
    ring = closed_outline(piece.cut)
    room = usable_width(cloth)
    flips = (mirrored, not mirrored) if cloth.reversible else (mirrored,)
    poses: dict[frozenset[Point], Pose] = {}
    for flip in flips:
        face = mirror(ring)[::-1] if flip else ring
        for degrees in allowed_turns(piece, cloth):
            pose = _pose(face, degrees, flip)
            if pose.width <= room + HAIR:
                poses.setdefault(frozenset((round(x, 3), round(y, 3)) for x, y in pose.ring), pose)
    if not poses:
        wide, usable = (format_length(x, cloth.unit) for x in (_pose(ring, 0.0, False).width, room))
        raise CannotDraft(
            f"cloth.{cloth.name}.width",
            f"the piece {piece.name!r} is {wide} wide and {usable} can be used between the selvedges",
            _mend(piece, cloth),
        )
    return tuple(poses.values())


def _mend(piece: Piece, cloth: Cloth) -> str:
    ways = {
        "body": "choose a wider cloth, a centre seam or shoulder panels",
        "sleeve": 'choose a wider cloth, cut = "wide panels" or a narrower sleeve',
    }.get(piece.place, "choose a wider cloth")
    _, low, _, high = bounds(piece.cut)
    helps = not cloth.nap and not may_lie_crosswise(piece, cloth) and high - low <= usable_width(cloth)
    return f"{ways}, or allow pieces crosswise" if helps else ways


def _pose(face: Line, degrees: float, flip: bool) -> Pose:
    turned = turn(face, degrees)
    left, low, right, high = bounds(turned)
    return Pose(degrees, flip, shift(turned, -left, -low), (-left, -low), right - left, high - low)
