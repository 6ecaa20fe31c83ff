"""What is said of a piece as it is chalked: folds, selvedges, and lines that are there already."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from shapely import LineString, Polygon, box
from shapely.ops import unary_union

from ellwand.depict.outline import slits, trace
from ellwand.geometry.lines import Line, Point
from ellwand.language import _
from ellwand.model.lay import Lay, Placement

NEAR: Final = 0.06
"""Lines no further apart (cm) are one chalk line."""
MOST: Final = 0.8
"""The part of a side that lies on another piece's line when it is said to."""
FAR: Final = 1e5


def half_on_cloth(ring: Line, lay: Lay) -> Line:
    """What lies on the cloth of a ring whose middle is on the fold, slits closed; empty when nothing does.

    A slit along the fold is no part of the half's outline; it is told by itself.
    """
    tips = {slit.tip for slit in slits(trace(ring))}
    closed = Polygon([p for p in ring if p not in tips])
    here = box(0, -FAR, FAR, FAR) if lay.fold == "lengthwise" else box(-FAR, 0, FAR, FAR)
    half = closed.intersection(here)
    if not isinstance(half, Polygon) or half.is_empty:
        return ()
    points = tuple((float(x), float(y)) for x, y in half.exterior.coords[:-1])
    return points if half.exterior.is_ccw else points[::-1]


def lying_note(placement: Placement, lay: Lay, partner: str) -> str:
    """How it lies on folded cloth or in a selvedge; '' where there is nothing to say."""
    said = []
    if placement.on_fold:
        if lay.fold == "lengthwise":
            said.append(_("half of it, its middle on the lengthwise fold: cut once"))
        else:
            said.append(_("half of it, its middle on the crosswise fold: cut once"))
    elif placement.layers == 2:
        if partner:
            said.append(_("cut through both layers: {partner} too", partner=partner))
        else:
            said.append(_("cut through both layers"))
    if placement.selvedge:
        if placement.selvedge == "left":
            said.append(_("its straight edge in the left selvedge"))
        else:
            said.append(_("its straight edge in the right selvedge"))
    return "; ".join(said)


def shared_sides(corners: Sequence[tuple[str, Point]], ring: Line, done: Mapping[int, Line]) -> dict[str, str]:
    """For the letter a side starts at: 'a–b on the line of step 2', where an earlier piece drew that line."""
    out: dict[str, str] = {}
    edge = LineString([*ring, ring[0]]).buffer(NEAR)
    for (a, start), (b, end) in zip(corners, [*corners[1:], *corners[:1]], strict=True):
        side = LineString([start, end])
        if not edge.contains(side):
            continue
        near = {n: LineString([*other, other[0]]).buffer(NEAR) for n, other in done.items()}
        on = [n for n, line in near.items() if side.intersection(line).length > 4 * NEAR]
        if on and side.intersection(unary_union([near[n] for n in on])).length > MOST * side.length:
            side_named = f"{a}–{b}"
            if len(on) == 1:
                out[a] = _("{side} on the line of step {step}", side=side_named, step=on[0])
            else:
                out[a] = _(
                    "{side} on the line of steps {first} and {second}", side=side_named, first=on[0], second=on[1]
                )
    return out
