"""Bands on the view of a hood, cloak, coif, apron or breeches: along the lines of its picture."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final

from ellwand.depict.setting_in import Face
from ellwand.depict.view_bands import shown
from ellwand.geometry.lines import Line, Point
from ellwand.model.band import BandPlace
from ellwand.model.draft import Draft
from ellwand.model.drawing import Stroke
from ellwand.model.others import ApronSize, CloakSize, CoifSize

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

WITHIN: Final = 0.05
"""Stitching keeps so far (cm) from the outline, which would cover it."""
LOWER: Final = 0.4
"""A hem lies in so much of the picture's height from below."""
Step = tuple[Point, Point]


def bands_on_other(draft: Draft, face: Face, drawn: Sequence[Stroke]) -> list[Stroke]:
    """What is sewn on, as far as this face shows it: along hems, faces, edges and waists."""
    from shapely import MultiLineString, Polygon, line_merge

    shapes = [stroke.points for stroke in drawn if stroke.role == "garment" and stroke.closed]
    inside = [stroke.points for stroke in drawn if stroke.role == "garment back"]
    out: list[Stroke] = []
    for band in draft.adornment.bands:
        ground: BaseGeometry
        if band.at == "face" and inside:
            hole = Polygon(inside[0])
            ground = hole.buffer(band.width).difference(hole)
        else:
            steps = [step for shape in shapes for step in _steps(draft, band.at, face, shape, drawn)]
            # neighbours are joined first, so that the band turns with them
            line = line_merge(MultiLineString(steps))
            ground = line.buffer(band.width, join_style="mitre", cap_style="flat")
        out += [stroke for shape in shapes[:1] for stroke in shown(ground, shape)]
    return out


def _steps(draft: Draft, at: BandPlace, face: Face, shape: Line, drawn: Sequence[Stroke]) -> list[Step]:
    """The sides of an outline, or the lines drawn on it, along which that place lies."""
    low, high = min(y for _, y in shape), max(y for _, y in shape)
    around = list(itertools.pairwise((*shape, shape[0])))
    size = draft.settled
    if at == "hem":
        if isinstance(size, CloakSize) and size.angle:
            return [step for step in around if all(_far(size, point) for point in step)]
        return [step for step in around if _faces(step, -0.3) and max(y for _, y in step) < low + LOWER * (high - low)]
    if at == "waist":
        return [step for step in around if _faces(step, 0.9) and min(y for _, y in step) > high - 1e-6]
    if at == "edges" and isinstance(size, CloakSize) and face == "front":
        return [(line.points[0], line.points[-1]) for line in drawn if line.role == "opening"]
    if at == "edges" and isinstance(size, ApronSize):
        return [step for step in around if not _faces(step, -0.3)]
    if at == "edges" and isinstance(size, CoifSize):
        return [step for step in around if max(y for _, y in step) < low + 1e-6 or all(x < 1e-6 for x, _ in step)]
    return []


def hem_stitched(draft: Draft, face: Face, drawn: Sequence[Stroke]) -> Iterator[Stroke]:
    """The line in which the hem is sewn down; beneath a band it is not seen."""
    from shapely import MultiLineString, Polygon, get_parts, line_merge

    hem = next((edge.allowance for piece in draft.pieces for edge in piece.edges if edge.kind == "hem"), 0.0)
    if not hem or any(band.at == "hem" for band in draft.adornment.bands):
        return
    for shape in [stroke.points for stroke in drawn if stroke.role == "garment" and stroke.closed][:1]:
        steps = _steps(draft, "hem", face, shape, drawn)
        if not steps:
            continue
        ground = line_merge(MultiLineString(steps)).buffer(hem, join_style="mitre")
        for part in get_parts(ground.boundary.intersection(Polygon(shape).buffer(0).buffer(-WITHIN))):
            if part.geom_type == "LineString":
                yield Stroke("stitching", tuple((float(x), float(y)) for x, y in part.coords))


def _far(size: CloakSize, point: Point) -> bool:
    return math.isclose(math.dist(point, (0.0, size.outer)), size.outer, abs_tol=1e-6)


def _faces(step: Step, least: float) -> bool:
    """Whether a side of a counter-clockwise outline faces up at least so much, or down where that is negative."""
    (ax, _), (bx, _) = step
    run = math.dist(*step) or 1.0
    up = (ax - bx) / run
    return up >= least if least > 0 else up <= least
