"""The bands on the view of the garment: each as wide as it is, along the lines of the picture."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from ellwand.depict.setting_in import Face
from ellwand.depict.tinctures import polygons_of, ring_of
from ellwand.geometry.lines import Line, Point, backwards, mirror
from ellwand.model.band import Band
from ellwand.model.draft import Draft
from ellwand.model.drawing import Stroke
from ellwand.model.wearer import Hand

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

FAR: Final = 60.0
"""A hem is lengthened by so much (cm) at both ends, so that what lies level with it goes up to the sides."""


@dataclass(frozen=True, slots=True)
class SleeveSeen:
    """A sleeve in the picture: its outline, and from (cm down the arm, cm below its top) to where that lies."""

    outline: Line
    at: Callable[[float, float], Point]
    long: float
    cuff: Line


@dataclass(frozen=True, slots=True)
class BodySeen:
    """The body in the picture: its outline, its hem, and the lines of every other place that bands follow."""

    outline: Line
    hem: Line
    lines: Mapping[str, Sequence[Line]]


ON_SLEEVES: Final = ("cuffs", "arm ring", "upper arm ring")


def bands_on_body(draft: Draft, body: BodySeen) -> list[Stroke]:
    """Every band that does not go round a sleeve."""
    return [
        stroke
        for band in draft.adornment.bands
        if band.at not in ON_SLEEVES
        for stroke in shown(_ground(band, _height(draft, band), body), body.outline)
    ]


def bands_on_sleeve(draft: Draft, hand: Hand, sleeve: SleeveSeen) -> list[Stroke]:
    """Every band round that sleeve."""
    return [
        stroke
        for band in draft.adornment.bands
        if band.at in ON_SLEEVES and hand in band.run.name
        for stroke in _arm(band, _height(draft, band), sleeve)
    ]


def _height(draft: Draft, band: Band) -> float:
    return draft.choices.bands[band.number - 1].height or 0.0


def body_seen(
    draft: Draft, face: Face, outline: Line, hem: Line, neck: Line, edge: Line, drawn: Sequence[Stroke]
) -> BodySeen:
    """The body's lines, from the right half of its hem (from the centre), its neck (from the centre) and its outer edge
    (from the armpit), and from the seams and openings that are drawn on it."""
    size = draft.dimensions
    half, top = size.panel_width / 2, size.length
    arm = top - size.armhole
    openings = [stroke.points for stroke in drawn if stroke.role == "opening"]
    low = [line for line in openings if max(y for _, y in line) < arm]
    slit = [line for line in openings if line[0][0] == line[-1][0] and line not in low and abs(line[0][0]) < half]
    seams = [stroke.points for stroke in drawn if stroke.role == "seam"]
    middle_top = min(y for x, y in neck if x < 1e-6) - (size.neck_slit if slit and slit[0][0][0] == 0 else 0.0)
    down = [band.run.length for band in draft.adornment.bands if band.at == f"centre-{face}"]
    down += [each.run.length for each in draft.adornment.repeats if each.chosen.along == f"centre-{face}"]
    tops = [(half, top), (half, arm)]
    side = edge[: 2 if any(gore.place == "side" for gore in draft.choices.gores) else 3]
    return BodySeen(
        outline,
        (*backwards(mirror(point for point in hem if point[0] > 1e-6)), *hem),
        {
            "neck": [(*backwards(mirror(point for point in neck if point[0] > 1e-6)), *neck)],
            "neck slit": slit,
            "splits": low,
            f"centre-{face}": [((0.0, middle_top), (0.0, middle_top - down[0]))] if down else [],
            "side seams": _both(side),
            "shoulder seams": _both(((max(x for x, _ in neck), top), (half, top))),
            "armholes": _both(tuple(tops)),
            "gore seams": [line for line in seams if line[0][1] < arm - 1e-6 and line[-1][1] < 0.25 * top],
        },
    )


def _both(line: Line) -> list[Line]:
    return [tuple(line), mirror(line)]


def _ground(band: Band, height: float, body: BodySeen) -> BaseGeometry:
    """What a band covers, as far as it goes beyond the body."""
    from shapely import LineString, unary_union

    if band.at in ("hem", "skirt ring"):
        hem = LineString(_lengthened(body.hem))
        low, high = (0.0, band.width) if band.at == "hem" else (height - band.width / 2, height + band.width / 2)
        above = hem.buffer(high, join_style="mitre")
        return above.difference(hem.buffer(low, join_style="mitre")) if low > 0 else above
    reach = band.width if band.run.along == "edge" else band.width / 2
    lines = [LineString(line) for line in body.lines.get(band.at, ())]
    return unary_union([line.buffer(reach, cap_style="flat", join_style="mitre") for line in lines])


def _arm(band: Band, height: float, sleeve: SleeveSeen) -> Iterator[Stroke]:
    from shapely import LineString, Polygon

    ground: BaseGeometry
    if band.at == "cuffs":
        ground = LineString(_lengthened(sleeve.cuff)).buffer(band.width, cap_style="flat")
    else:
        middle = height if band.at == "upper arm ring" else sleeve.long - height
        low, high = middle - band.width / 2, middle + band.width / 2
        ground = Polygon([sleeve.at(low, -FAR), sleeve.at(high, -FAR), sleeve.at(high, FAR), sleeve.at(low, FAR)])
    yield from shown(ground, sleeve.outline)


def shown(ground: BaseGeometry, outline: Line) -> Iterator[Stroke]:
    from shapely import Polygon

    for part in polygons_of(ground.intersection(Polygon(outline).buffer(0))):
        ring, holes = ring_of(part)
        yield Stroke("band", ring, True, holes)


def _lengthened(line: Line) -> Line:
    """The line drawn on straight at both ends."""
    return (_beyond(line[1], line[0]), *line, _beyond(line[-2], line[-1]))


def _beyond(a: Point, b: Point) -> Point:
    step = math.dist(a, b) or 1.0
    return b[0] + (b[0] - a[0]) / step * FAR, b[1] + (b[1] - a[1]) / step * FAR
