"""What outlines fill: by either rule of how often they go round, and as bands of some width."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import Any, Final

import numpy as np
from shapely import LineString, STRtree, get_parts, polygonize, union_all

from ellwand.errors import BadInput
from ellwand.geometry.lines import Line
from ellwand.geometry.svg_path import MOST_POINTS, too_fine
from ellwand.language import _

Shape = Any
"""A shapely polygon or several."""
MOST_MEETINGS: Final = 150_000
"""Pairs of segments that lie near each other: what takes longer than a second or two is no motif."""


def filled(rings: Sequence[Line], *, odd: bool) -> Shape:
    """What the rings fill together: where they go round an odd number of times, or any number but none."""
    closed = [LineString([*ring, ring[0]]) for ring in rings]
    closed = [ring for ring in closed if ring.length > 0]
    if not closed:
        return union_all([])
    faces = get_parts(polygonize([union_all(closed)]))
    if not len(faces):
        return union_all([])
    segments = np.vstack([np.hstack([np.asarray(r.coords)[:-1], np.asarray(r.coords)[1:]]) for r in closed])
    kept = []
    for face in faces:
        turns = _turns(segments, face.representative_point())
        if turns % 2 if odd else turns:
            kept.append(face)
    return union_all(kept)


def _turns(segments: Any, point: Any) -> int:
    """How many times the segments go round the point, counter-clockwise."""
    x0, y0, x1, y1 = segments.T
    side = (x1 - x0) * (point.y - y0) - (point.x - x0) * (y1 - y0)
    up = (y0 <= point.y) & (y1 > point.y) & (side > 0)
    down = (y0 > point.y) & (y1 <= point.y) & (side < 0)
    return int(up.sum()) - int(down.sum())


def band(lines: Sequence[tuple[Line, bool]], width: float, cap: str, join: str) -> Shape:
    """A stroke as the band it covers.

    ``cap`` (butt, round, square) and ``join`` (miter, round, bevel) as SVG names them.
    """
    cap, join = {"butt": "flat"}.get(cap, cap), {"miter": "mitre"}.get(join, join)
    bands = []
    for line, closed in lines:
        path = LineString([*line, line[0]] if closed and line[0] != line[-1] else line)
        if path.length > 0:
            around = path.buffer(width / 2, cap_style=cap, join_style=join, mitre_limit=4.0, quad_segs=16)
            bands.append(around)
    return union_all(bands)


def check_meetings(lines: Sequence[Line]) -> None:
    """Refuse what crosses itself so often that it would take long.

    Raises BadInput.
    """
    segments = [
        LineString(pair) for line in lines for pair in itertools.pairwise((*line, *line[:1])) if pair[0] != pair[1]
    ]
    if len(segments) > 4 * MOST_POINTS:
        raise too_fine()
    tree, met = STRtree(segments), 0
    for i in range(0, len(segments), 64):
        met += len(tree.query(segments[i : i + 64])[0])
        if met > MOST_MEETINGS:
            raise BadInput("", _("the drawing's lines cross too often for a motif"), _("draw it plainer"))
