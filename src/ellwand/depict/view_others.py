"""Hood, cloak, coif, apron and breeches lying flat, drawn from their own sizes (cm)."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Mapping
from typing import Any, Final, Literal

from ellwand.geometry.lines import Line, Point, arc, backwards, mirror
from ellwand.language import N_
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing, Role, Stroke
from ellwand.model.others import ApronSize, BreechesSize, CloakSize, CoifSize, Hood, HoodSize

Face = Literal["front", "back"]
TIE: Final = 22.0
"""How much of a tie is drawn (cm)."""
CASING: Final = 4.0
"""How deep a casing is drawn (cm)."""


def other_view(draft: Draft, face: Face) -> Drawing:
    """The garment laid flat, seen from the front or from behind."""
    drawn = _VIEWS[type(draft.settled)](draft, draft.settled, face)
    heavier = [Stroke("outline", (*s.points, s.points[0])) for s in drawn if s.role == "garment" and s.closed]
    return Drawing((*drawn, *heavier), ())


def view_names(draft: Draft) -> tuple[str, str]:
    """What the two views are called, in English; the catalogue has them."""
    if isinstance(draft.settled, CloakSize):
        return (N_("closed in front"), N_("spread out"))
    return (N_("from the side"), N_("from behind")) if isinstance(draft.settled, CoifSize) else ("front", "back")


def _both(role: Role, line: Line) -> list[Stroke]:
    """A line and its mirror image."""
    return [Stroke(role, line), Stroke(role, mirror(line))]


def _whole(right: Line) -> Line:
    """A closed outline from its right half, which runs from the lowest point on the middle line to the highest."""
    return (*right, *backwards(mirror(p for p in right if p[0] > 1e-6)))


def _hood(draft: Draft, size: HoodSize, face: Face) -> list[Stroke]:
    hood = draft.choices.other
    gores = hood.gores if isinstance(hood, Hood) else "none"
    half, neck = size.width / 2, size.cape
    side = size.gore * math.sqrt(0.5)
    feet: dict[str, Line] = {
        "squares": ((0.0, neck - 2 * side), (side, neck - side), (side + half, neck - side)),
        "shoulder": ((0.0, 0.0), (half, 0.0), (half + size.gore / 2, 0.0)),
        "none": ((0.0, 0.0), (half, 0.0)),
    }
    top = size.height - half
    crown = arc((0.0, top), half, 0.0, math.pi / 2)
    out = [Stroke("garment", _whole((*feet[gores], (half, neck), *crown)), True)]
    if gores == "squares":
        out += _both("seam", ((0.0, neck), (side, neck - side)))
    if gores == "shoulder":
        out += _both("seam", ((half, neck), (half, 0.0)))
    low = neck if gores == "squares" else 0.0
    if face == "front":
        mid, tall, wide = size.height - size.face / 2 - 1.5, size.face / 2, 0.6 * half
        oval = tuple((wide * math.cos(a), mid + tall * math.sin(a)) for a in _round(48))
        out += [Stroke("garment back", oval, True), Stroke("seam", ((0.0, mid - tall), (0.0, low)))]
        return out
    out.append(Stroke("seam", ((0.0, size.height), (0.0, low))))
    if isinstance(hood, Hood) and hood.liripipe:
        w, end = hood.liripipe_width / 2, size.height - hood.liripipe
        out.append(Stroke("garment", ((-w, end), (w, end), (w, size.height), (-w, size.height)), True))
    return out


def _round(count: int) -> list[float]:
    return [2 * math.pi * i / count for i in range(count)]


def _cloak(draft: Draft, size: CloakSize, face: Face) -> list[Stroke]:
    if not size.angle:
        return _rectangle(draft, size, face)
    # closed: each front lies on its half of the back
    turn = math.radians(size.angle) / (4 if face == "front" else 2)
    down = -math.pi / 2
    hem = arc((0.0, size.outer), size.outer, down, down + turn)
    neck: Line = ((0.0, size.outer),)
    if size.inner:
        neck = backwards(arc((0.0, size.outer), size.inner, down, down + turn))
    out = [Stroke("garment", _whole((*hem, *neck)), True)]
    if face == "front":
        return [*out, Stroke("opening", ((0.0, neck[-1][1]), (0.0, 0.0)))]
    for deep in list(itertools.accumulate(size.strips))[:-1]:
        out += _across(size, size.outer - deep)
    if size.angle > 180 and len(draft.pieces) > 1:
        out += _across(size, size.outer)
    return out


def _across(size: CloakSize, y: float) -> list[Stroke]:
    """A seam straight across the spread cloak, broken by the neck."""
    down = size.outer - y
    far = math.sqrt(max(0.0, size.outer**2 - down**2))
    near = math.sqrt(max(0.0, size.inner**2 - down**2))
    if near < 1e-6:
        return [Stroke("seam", ((-far, y), (far, y)))]
    return _both("seam", ((near, y), (far, y)))


def _rectangle(draft: Draft, size: CloakSize, face: Face) -> list[Stroke]:
    half = size.width / (4 if face == "front" else 2)
    out = [Stroke("garment", ((-half, 0.0), (half, 0.0), (half, size.length), (-half, size.length)), True)]
    if face == "front":
        return [*out, Stroke("opening", ((0.0, size.length), (0.0, 0.0)))]
    for deep in list(itertools.accumulate(size.strips))[:-1]:
        out.append(Stroke("seam", ((-half, size.length - deep), (half, size.length - deep))))
    return out


def _coif(draft: Draft, size: CoifSize, face: Face) -> list[Stroke]:
    w, h, r = size.width, size.height, size.curve
    if face == "front":
        side = ((0.0, 0.0), (w, 0.0), *arc((w - r, h - r), r, 0.0, math.pi / 2), (0.0, h))
        out = [Stroke("garment", side, True), Stroke("opening", ((0.0, 0.0), (2.0, -0.6 * TIE)))]
        if size.band:
            b = size.band / 2
            inner = ((w - b, 0.0), *arc((w - r, h - r), r - b, 0.0, math.pi / 2), (0.0, h - b))
            out.append(Stroke("seam", inner))
        return out
    half = 0.42 * w
    out = [Stroke("garment", _whole(((0.0, 0.0), (half, 0.0), *arc((0.0, h - half), half, 0.0, math.pi / 2))), True)]
    if size.band:
        b = size.band / 2
        return out + _both("seam", ((b, 0.0), (b, h - half + math.sqrt(half**2 - b**2))))
    return [*out, Stroke("seam", ((0.0, 0.0), (0.0, h)))]


def _apron(draft: Draft, size: ApronSize, face: Face) -> list[Stroke]:
    top: Point = ((size.band or size.width) / 2, size.length)
    foot = size.width / 2 * (0.85 if size.band else 1.0)
    out = [Stroke("garment", ((-foot, 0.0), (foot, 0.0), top, (-top[0], top[1])), True)]
    if size.band:
        high = size.length + 4.0
        out.append(Stroke("garment", ((-top[0], size.length), top, (top[0], high), (-top[0], high)), True))
        step = size.band / 8
        for i in range(1, 8):
            x = -top[0] + i * step
            out.append(Stroke("seam", ((x, size.length), (x * 1.15, size.length * 0.85))))
        return out + _both("opening", ((top[0], high - 2.0), (top[0] + TIE, high - 6.0)))
    return out + _both("opening", (top, (top[0] + TIE, top[1] - 4.0)))


def _breeches(draft: Draft, size: BreechesSize, face: Face) -> list[Stroke]:
    half, low = size.leg / 2, size.hem / 2
    spread = 0.18 * size.inside
    foot, g = size.length - size.rise, size.gusset
    inner: Point = (0.5 * g, foot - 0.8 * g)
    # each leg lies flat, half its girth wide; its inner edge ends at the hem
    right = (
        (0.0, foot - 0.6 * g),
        inner,
        (inner[0] + spread, 0.0),
        (inner[0] + spread + low, 0.0),
        ((size.band / 4) or half, size.length),
        (0.0, size.length),
    )
    out = [Stroke("garment", _whole(right), True), Stroke("seam", ((0.0, size.length), (0.0, foot)))]
    if g:
        out += _both("seam", ((0.0, foot), inner))
    if size.band:
        wide, high = size.band / 4, size.length + 4.0
        top = ((-wide, size.length), (wide, size.length), (wide, high), (-wide, high))
        out.append(Stroke("garment", top, True))
        if face == "front":
            out.append(Stroke("opening", ((0.0, high), (0.0, size.length - size.slit))))
        return out
    out.append(Stroke("stitching", ((-half, size.length - CASING), (half, size.length - CASING))))
    if face == "front":
        # the cord comes out of the casing in the middle
        out += _both(
            "lace", ((0.8, size.length - CASING / 2), (2.4, size.length - 8.0), (2.0, size.length - TIE * 0.7))
        )
    return out


_VIEWS: Final[Mapping[type[Any], Callable[[Draft, Any, Face], list[Stroke]]]] = {
    HoodSize: _hood,
    CloakSize: _cloak,
    CoifSize: _coif,
    ApronSize: _apron,
    BreechesSize: _breeches,
}
