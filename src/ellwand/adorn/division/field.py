"""A divided field as plain geometry: its dividing lines, its patches, and the tincture of any point of it.

Seen from the front the wearer's right, dexter, is the viewer's left.  The back is the front's mirror image as it is
seen, so that a tincture stays on its side of the wearer and every line goes on across the side seams.

The partition lines: Fox-Davies, A Complete Guide to Heraldry, p. 97; gyronny of eight, chequy of three rows or more,
lines of an odd number so that stripes are even: Eve, Heraldry as Art, pp. 26 and 28, and Cussans, The Handbook of
Heraldry (1866), p. 25; where a gyronny field's first tincture lies is from memory.  Shields have a point and garments a
hem, so the diagonals here join the corners of the field.
"""

from __future__ import annotations

import math
from typing import Final

from shapely import LineString, box, polygonize
from shapely.ops import unary_union

from ellwand.geometry.lines import SAME, Line, Point, area, backwards
from ellwand.model.heraldry import USUAL_COUNT, Division, Field, Patch, Tincture

CHEVRON_POINT, CHEVRON_FEET = 2 / 3, 1 / 6
"""A chevron's point and its feet, as shares of the field's height from its base: our own figures."""
LOZENGE: Final = 1.5
"""A lozenge is about so many times as high as it is wide: our own figure; a fusil is steeper still."""


def pieces_of(division: Division) -> int:
    """How many stripes, gyrons or columns there are: as chosen, or as is usual; 0 where the division has none."""
    return division.count or USUAL_COUNT.get(division.by, 0)


def rows_of(division: Division, field: Field) -> int:
    """How many rows of checks or lozenges lie one below another: as many as leave them square, or of LOZENGE's shape.

    Three at least: fewer would be compony or counter-compony.
    """
    wide = 2 * field.half / pieces_of(division)
    high = wide * (LOZENGE if division.by == "lozengy" else 1.0)
    return max(3, round((field.top - field.bottom) / high))


def level_of(division: Division, field: Field) -> float:
    """The height (cm) of a division's level line, its crossing or its point: ``at``, or what is usual."""
    if isinstance(division.at, float):
        return division.at
    share = CHEVRON_POINT if division.by == "per chevron" else 0.5
    return field.bottom + (field.top - field.bottom) * share


def lines(division: Division, field: Field) -> tuple[Line, ...]:
    """The dividing lines within the field (cm), each from edge to edge."""
    half, low, high = field.half, field.bottom, field.top
    middle, count = level_of(division, field), pieces_of(division)
    pale: Line = ((0.0, high), (0.0, low))
    fess: Line = ((-half, middle), (half, middle))
    bend: Line = ((-half, high), (half, low))
    sinister: Line = ((half, high), (-half, low))
    match division.by:
        case "per pale":
            return (pale,)
        case "per fess":
            return (fess,)
        case "quarterly":
            return pale, fess
        case "per bend":
            return (bend,)
        case "per bend sinister":
            return (sinister,)
        case "per saltire":
            return bend, sinister
        case "per chevron":
            foot = low + (middle - low) * CHEVRON_FEET / CHEVRON_POINT
            return (((-half, foot), (0.0, middle), (half, foot)),)
        case "gyronny":
            return tuple(_through_the_middle(field, 2 * math.pi * n / count) for n in range(count // 2))
        case "paly":
            return tuple(_upright(field, n / count) for n in range(1, count))
        case "barry":
            return tuple(_level(field, n / count) for n in range(1, count))
        case "bendy":
            return tuple(_slanted(field, 1, -1, 2 * n / count - 1) for n in range(1, count))
        case "chequy":
            rows = rows_of(division, field)
            return (
                *(_upright(field, n / count) for n in range(1, count)),
                *(_level(field, n / rows) for n in range(1, rows)),
            )
        case "lozengy":
            rows = rows_of(division, field)
            return (
                *(_slanted(field, count, -rows, n) for n in range(1 - rows, count)),
                *(_slanted(field, count, rows, n) for n in range(1, count + rows)),
            )


def tincture_at(division: Division, field: Field, at: Point) -> Tincture:
    """The tincture of a point of the field, by its place; on a line, that of one of its sides.

    A point beside or below the field has what would go on there, as on a back that is longer than the front.
    """
    across = (at[0] + field.half) / (2 * field.half)
    down = (field.top - at[1]) / (field.top - field.bottom)
    middle = level_of(division, field)
    count = pieces_of(division)
    base, sinister = at[1] < middle, at[0] > 0
    below_bend, below_sinister = down > across, across + down > 1
    match division.by:
        case "per pale":
            index = int(sinister)
        case "per fess":
            index = int(base)
        case "quarterly":
            index = _quarter(division, 2 * base + sinister)
        case "per bend":
            index = int(below_bend)
        case "per bend sinister":
            index = int(below_sinister)
        case "per saltire":
            # chief, dexter flank, sinister flank, base
            index = _quarter(division, 2 * below_sinister + below_bend if below_bend != below_sinister else 3 * base)
        case "per chevron":
            foot = field.bottom + (middle - field.bottom) * CHEVRON_FEET / CHEVRON_POINT
            index = int(at[1] < middle - (middle - foot) * abs(at[0]) / field.half)
        case "gyronny":
            turned = math.atan2(0.5 - across, 0.5 - down) % (2 * math.pi)
            index = math.floor(turned / (2 * math.pi) * count)
        case "paly":
            index = _step(across * count, count)
        case "barry":
            index = _step(down * count, count)
        case "bendy":
            index = _step((1 - across + down) / 2 * count, count)
        case "chequy":
            index = _step(across * count, count) + _step(down * (rows := rows_of(division, field)), rows)
        case "lozengy":
            rows = rows_of(division, field)
            right, fall = across * count, down * rows
            index = _step(right + fall, count + rows) + _step(right - fall + rows, count + rows) - rows
    return division.tinctures[index % len(division.tinctures)]


def patches(division: Division, field: Field) -> tuple[Patch, ...]:
    """The field in its patches, each of one tincture; together they cover it once."""
    around = box(-field.half, field.bottom, field.half, field.top).exterior
    drawn = unary_union([around, *(LineString(line) for line in lines(division, field))])
    out = []
    for shape in polygonize(list(drawn.geoms) if hasattr(drawn, "geoms") else [drawn]).geoms:
        ring: Line = tuple((float(x), float(y)) for x, y in shape.exterior.coords[:-1])
        within = shape.representative_point()
        out.append(
            Patch(tincture_at(division, field, (within.x, within.y)), ring if area(ring) > 0 else backwards(ring))
        )
    return tuple(sorted(out, key=lambda patch: (-max(y for _, y in patch.ring), min(x for x, _ in patch.ring))))


def _step(place: float, count: int) -> int:
    """The stripe of a place; what hangs out of the field belongs to the stripe beside it."""
    return min(count - 1, max(0, math.floor(place)))


def _quarter(division: Division, index: int) -> int:
    """Of four places, first and last across from each other: with two tinctures those are alike, as are the others."""
    return index if len(division.tinctures) == 4 else int(index in (1, 2))


def _upright(field: Field, share: float) -> Line:
    x = field.half * (2 * share - 1)
    return (x, field.top), (x, field.bottom)


def _level(field: Field, share: float) -> Line:
    y = field.top - (field.top - field.bottom) * share
    return (-field.half, y), (field.half, y)


def _through_the_middle(field: Field, turned: float) -> Line:
    """From edge to edge, ``turned`` (radians) from upright toward dexter as if the field were square."""
    dx, dy = -math.sin(turned), math.cos(turned)
    reach = 1 / max(abs(dx), abs(dy))
    dx, dy = dx * reach * field.half, dy * reach * (field.top - field.bottom) / 2
    middle = (field.bottom + field.top) / 2
    return (dx, middle + dy), (-dx, middle - dy)


def _slanted(field: Field, a: float, b: float, value: float) -> Line:
    """The line a · across + b · down = value, within the field; across and down run from 0 to 1."""
    found = []
    for side in (0.0, 1.0):
        found += [(side, (value - a * side) / b), ((value - b * side) / a, side)]
    within = sorted({(round(s, 12), round(t, 12)) for s, t in found if -SAME < s < 1 + SAME and -SAME < t < 1 + SAME})
    (s, t), (u, v) = within[0], within[-1]
    return _placed(field, s, t), _placed(field, u, v)


def _placed(field: Field, across: float, down: float) -> Point:
    return field.half * (2 * across - 1), field.top - (field.top - field.bottom) * down
