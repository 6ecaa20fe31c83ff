"""A layout as lines and letters on paper (cm), black on white."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from ellwand.depict.step_view.canvas import Picture, clipped, fold_line
from ellwand.depict.step_view.frame import Frame, frame, shapes_of
from ellwand.depict.step_view.groups import outward
from ellwand.depict.step_view.joins import Join
from ellwand.depict.step_view.layout import Layout
from ellwand.depict.step_view.lettering import Letters
from ellwand.depict.step_view.motion import Laid, Motion
from ellwand.depict.step_view.signs import (
    arrow,
    at_share,
    back_stitches,
    between,
    cross_bar,
    dot,
    hatch,
    head,
    lines_of,
    square,
    wave,
)
from ellwand.depict.step_view.ways import folds_to, starts_at_end
from ellwand.depict.step_view.written import below, fold_words, letter_ends, names
from ellwand.geometry.lines import Line, Point, length
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing, Stroke
from ellwand.model.step import Step

if TYPE_CHECKING:
    from shapely import Geometry, MultiPolygon, Polygon

ARM: Final = 0.26
"""How far an arrow across a seam reaches to each side (cm)."""


def drawn(made: Layout, step: Step, draft: Draft, width: float, height: float) -> Drawing:
    """The layout within ``width`` × ``height`` cm of paper, and lettering that may reach a little beyond."""
    bold = bold_lines(made)
    seen = window(made, width, height)
    picture = Picture(made, step, draft, seen)
    shapes = {part: picture.paper(each.shape()) for part, each in made.laid.items()}
    for part in made.laid:
        _piece(picture, made.laid[part], shapes[part])
    _shut(picture)
    for line in bold:
        for run in _seen(picture, line):
            picture.signs.append(Stroke("sew here", run))
    _joins(picture)
    _reinforced(picture)
    letters = Letters([_thick(stroke) for stroke in (*picture.strokes, *picture.signs)])
    letter_ends(picture, letters)
    names(picture, shapes, letters)
    fold_words(picture, letters)
    below(picture, letters)
    tones = [tone for part, each in made.laid.items() if each.wrong for tone in _tone(picture, shapes[part], letters)]
    return Drawing((*picture.strokes, *tones, *picture.signs, *letters.leaders), tuple(letters.labels))


def window(made: Layout, width: float, height: float) -> Frame:
    """What is seen of the layout, and how large."""
    whole = [made.laid[part].shape() for part in made.laid if part in made.apart or part.startswith("gusset")]
    return frame(shapes_of(made), whole, bold_lines(made), not made.joins, width, height)


def _thick(stroke: Stroke) -> Geometry:
    from shapely import LineString

    line = LineString([*stroke.points, stroke.points[0]] if stroke.closed else stroke.points)
    return line.buffer(0.06) if stroke.role == "sew here" else line


def bold_lines(made: Layout) -> list[Line]:
    """Every edge that is sewn or finished in this step, where it lies."""
    out = []
    for i, join in enumerate(made.joins):
        out.append(made.line(join))
        if join.b in made.laid and i not in made.beneath:
            out.append(made.line(join, second=True))
    return [*out, *(made.laid[part].motion.of(line) for part, line in made.edges)]


def _seen(picture: Picture, line: Line) -> list[Line]:
    """What of a line is within the window, on paper."""
    from shapely import LineString

    return lines_of(LineString(picture.seen.line(line)).intersection(picture.window().buffer(0.001)))


def _piece(picture: Picture, laid: Laid, shape: Polygon | MultiPolygon) -> None:
    under = laid.beneath()
    if under is not None:
        for part in clipped(picture, picture.paper(under)):
            picture.strokes.append(Stroke("beneath", _ring(part), True))
    for part in clipped(picture, shape):
        picture.strokes.append(
            Stroke("blank", _ring(part), True, tuple(_points(hole.coords) for hole in part.interiors))
        )
    border = shape.boundary.intersection(picture.window().buffer(0.004))
    for shut in picture.made.shut:
        if laid.own.id in (shut.a, shut.b):
            border = border.difference(_line(picture, shut).buffer(0.03))
    fold = fold_line(picture, laid, shape)
    if fold is not None:
        border = border.difference(fold.buffer(0.03))
        picture.strokes += [Stroke("fold", run) for run in lines_of(fold)]
    picture.strokes += [Stroke("piece", run) for run in _merged(border)]
    if picture.seen.cut:
        _broken(picture, shape)


def _merged(border: Geometry) -> list[Line]:
    from shapely import MultiLineString, line_merge

    return lines_of(line_merge(MultiLineString(lines_of(border))))


def _line(picture: Picture, join: Join) -> Geometry:
    from shapely import LineString

    return LineString(picture.seen.line(picture.made.line(join)))


def _ring(shape: Polygon) -> Line:
    return _points(shape.exterior.coords)


def _points(coords: object) -> Line:
    return tuple((float(x), float(y)) for x, y in list(coords)[:-1])  # type: ignore[call-overload]


def _broken(picture: Picture, shape: Polygon | MultiPolygon) -> None:
    """Waves where a piece runs on beyond the window."""
    from shapely import LineString

    w, h = picture.seen.size
    inner = shape.buffer(-0.02)
    for side in (((0.0, 0.0), (w, 0.0)), ((w, 0.0), (w, h)), ((w, h), (0.0, h)), ((0.0, h), (0.0, 0.0))):
        for run in lines_of(LineString(side).intersection(inner)):
            if length(run) > 0.2:
                picture.strokes.append(wave(run[0], run[-1]))


def _shut(picture: Picture) -> None:
    for join in picture.made.shut:
        for run in _seen(picture, picture.made.line(join)):
            picture.strokes.append(Stroke("joined", run))


def _joins(picture: Picture) -> None:
    """Ticks, the way to sew, and where the allowances go."""
    made = picture.made
    longest = max((join.length for join in made.joins), default=0.0)
    for i, join in enumerate(made.joins):
        a = picture.seen.line(made.line(join))
        if i in made.facing:
            b = picture.seen.line(made.line(join, second=True))
            picture.signs += [Stroke("link", (a[k], b[k])) for k in (0, -1)]
            _across(picture, join, a, b)
            along = tuple(((p[0] + q[0]) / 2, (p[1] + q[1]) / 2) for p, q in _pairs(a, b))
        else:
            along = _outside(picture, join, a)
            if i in made.beneath and picture.step.folds == "one side":
                _over(picture, a, along)
        _way(picture, join, along, join.length > 0.25 * longest)
        if join.kind == "band seam" and picture.step.code == "gather":
            _gathers(picture, join)


def _pairs(a: Line, b: Line) -> list[tuple[Point, Point]]:
    """Points at the same shares of two lines."""
    return [(at_share(a, i / 24)[0], at_share(b, i / 24)[0]) for i in range(25)]


def _outside(picture: Picture, join: Join, line: Line) -> Line:
    """A line beside an edge, off the cloth."""
    nx, ny = outward(join.a_line, picture.made.laid[join.a].own)
    ((dx, dy),) = Motion(picture.made.laid[join.a].motion.angle).of(((nx, ny),))
    return tuple((x + 0.2 * dx, y + 0.2 * dy) for x, y in line)


def _way(picture: Picture, join: Join, along: Line, main: bool) -> None:
    back = starts_at_end(picture.step.code, join, picture.made)
    if back is None or not main or length(along) < 1.0:
        return
    line = along[::-1] if back else along
    shaft = between(line, 0.45, 0.9)
    picture.signs += [Stroke("way", shaft), head(shaft[-2], shaft[-1])]
    sleeved = any(each.a.startswith("sleeve") for each in picture.made.joins)
    if picture.step.code != "underarm and sides" or join.a.startswith("sleeve") or not sleeved:
        picture.signs.append(dot(at_share(line, 0.04)[0]))


def _across(picture: Picture, join: Join, a: Line, b: Line) -> None:
    """A small arrow over the seam to where its allowances go."""
    to = folds_to(picture.step.folds, join)
    if not to or length(a) < 0.9:
        return
    p, q = at_share(a, 0.3)[0], at_share(b, 0.3)[0]
    far = math.dist(p, q) or 1.0
    ux, uy = (p[0] - q[0]) / far, (p[1] - q[1]) / far
    into_a, into_b = (p[0] + ux * ARM, p[1] + uy * ARM), (q[0] - ux * ARM, q[1] - uy * ARM)
    picture.signs += arrow((into_a, into_b) if to == "b" else (into_b, into_a), both=to == "open")


def _over(picture: Picture, edge: Line, beside: Line) -> None:
    """A small arrow over an edge that lies on its fellow, to the upper layer: both allowances go to one side."""
    if length(edge) < 0.9:
        return
    p, q = at_share(edge, 0.3)[0], at_share(beside, 0.3)[0]
    far = math.dist(p, q) or 1.0
    picture.signs += arrow((q, (p[0] + (p[0] - q[0]) / far * ARM, p[1] + (p[1] - q[1]) / far * ARM)))


def _gathers(picture: Picture, join: Join) -> None:
    """Two gathering threads inside the edge that is drawn in."""
    long = picture.made.line(join)
    nx, ny = outward(join.a_line, picture.made.laid[join.a].own)
    ((dx, dy),) = Motion(picture.made.laid[join.a].motion.angle).of(((nx, ny),))
    for cm in (0.14, 0.26):
        moved = tuple((x - dx * cm, y - dy * cm) for x, y in picture.seen.line(long))
        picture.signs.append(Stroke("gathers", moved))


def _reinforced(picture: Picture) -> None:
    from shapely import Point as Spot

    for place in picture.step.reinforce:
        laid = picture.made.laid.get(place.part)
        if laid is None:
            continue
        there = laid.motion.of((laid.own.at(place.at),))[0]
        if laid.fold is not None and laid.shape().distance(Spot(there)) > 0.3:
            # on the layer that is folded under
            continue
        at = picture.seen.at(laid.motion.of((laid.own.at(place.at),))[0])
        w, h = picture.seen.size
        if -0.01 <= at[0] <= w + 0.01 and -0.01 <= at[1] <= h + 0.01:
            if place.by == "bar":
                picture.signs += cross_bar(at, _along(picture, laid, place.at))
            elif place.by == "back stitches":
                picture.signs += back_stitches(at)
            elif place.by == "patch":
                picture.signs.append(square(at))


def _along(picture: Picture, laid: Laid, at: Point) -> float:
    """The direction of the edge that ends nearest to a point (radians)."""
    ends = [
        (math.dist(points[k], at), points[k], points[j])
        for edge in laid.own.piece.edges
        for points in (edge.points,)
        for k, j in ((0, 1), (-1, -2))
    ]
    _far, tip, inner = min(ends)
    a, b = laid.motion.of((laid.own.at(tip), laid.own.at(inner)))
    return math.atan2(b[1] - a[1], b[0] - a[0])


def _tone(picture: Picture, shape: Polygon | MultiPolygon, letters: Letters) -> list[Stroke]:
    """The wrong side's hatching, off the letters."""
    from shapely import unary_union

    spare = unary_union([each.buffer(0.05) for each in letters.taken])
    return [stroke for part in clipped(picture, shape) for stroke in hatch(part, spare)]
