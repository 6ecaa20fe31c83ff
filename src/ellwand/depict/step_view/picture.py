"""A layout as lines and letters on paper (cm), black on white."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from ellwand.depict.naming import numbers
from ellwand.depict.step_view.frame import Frame, frame, shapes_of
from ellwand.depict.step_view.groups import outward
from ellwand.depict.step_view.joins import Join
from ellwand.depict.step_view.layout import Layout
from ellwand.depict.step_view.lettering import Letters, high
from ellwand.depict.step_view.motion import Laid, Motion
from ellwand.depict.step_view.signs import (
    arrow,
    at_share,
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
from ellwand.depict.words.step_asking import facing, paired
from ellwand.geometry.lines import Line, Point, length
from ellwand.language import _
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.model.names import named
from ellwand.model.step import Step

if TYPE_CHECKING:
    from shapely import Geometry, Polygon

SIZE: Final = 9.0
"""Of the names of pieces, in points."""
LEAST: Final = 7.0
"""They are no smaller than this within a piece; what finds no room stands beside it."""
MOST_BESIDE: Final = 5
"""So many names stand beside the pieces at most; a field divided into many is told by its numbers."""
BESIDE: Final = 1.8
"""Names reach no farther (cm) beyond the sides of what is drawn."""
MOST_LETTERS: Final = 12
"""With more meeting ends than this, letters would tell nothing."""
ARM: Final = 0.26
"""How far an arrow across a seam reaches to each side (cm)."""


@dataclass
class Picture:
    """The picture while it is made."""

    made: Layout
    step: Step
    draft: Draft
    seen: Frame
    strokes: list[Stroke] = field(default_factory=list)
    signs: list[Stroke] = field(default_factory=list)

    def paper(self, shape: Polygon) -> Polygon:
        """A shape of the cloth on paper."""
        from shapely.affinity import affine_transform

        (x0, y0, _, _), s = self.seen.box, self.seen.scale
        return affine_transform(shape, [s, 0, 0, s, -x0 * s, -y0 * s])

    def window(self) -> Polygon:
        """What of the paper is seen."""
        from shapely import box

        return box(0.0, 0.0, *self.seen.size)


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
    _letter_ends(picture, letters)
    _names(picture, shapes, letters)
    _fold_words(picture, letters)
    _below(picture, letters)
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


def _piece(picture: Picture, laid: Laid, shape: Polygon) -> None:
    under = laid.beneath()
    if under is not None:
        for part in _clipped(picture, picture.paper(under)):
            picture.strokes.append(Stroke("beneath", _ring(part), True))
    for part in _clipped(picture, shape):
        picture.strokes.append(
            Stroke("blank", _ring(part), True, tuple(_points(hole.coords) for hole in part.interiors))
        )
    border = shape.boundary.intersection(picture.window().buffer(0.004))
    for shut in picture.made.shut:
        if laid.own.id in (shut.a, shut.b):
            border = border.difference(_line(picture, shut).buffer(0.03))
    fold = _fold_line(picture, laid, shape)
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


def _fold_line(picture: Picture, laid: Laid, shape: Polygon) -> Geometry | None:
    """Where a part is folded, as far as it lies on the edge of what is seen."""
    from shapely import LineString

    if laid.fold is None:
        return None
    (x, y), (nx, ny) = laid.fold.at, laid.fold.keep
    ends = laid.motion.of(((x - ny * 500, y + nx * 500), (x + ny * 500, y - nx * 500)))
    return LineString(picture.seen.line(ends)).intersection(shape.buffer(0.002)).intersection(picture.window())


def _clipped(picture: Picture, shape: Polygon) -> list[Polygon]:
    from shapely import Polygon, get_parts

    return [p for p in get_parts(shape.intersection(picture.window())) if isinstance(p, Polygon) and p.area > 1e-4]


def _ring(shape: Polygon) -> Line:
    return _points(shape.exterior.coords)


def _points(coords: object) -> Line:
    return tuple((float(x), float(y)) for x, y in list(coords)[:-1])  # type: ignore[call-overload]


def _broken(picture: Picture, shape: Polygon) -> None:
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


def _letter_ends(picture: Picture, letters: Letters) -> None:
    """The same small letter where ends meet that do not lie face to face."""
    made = picture.made
    told: list[tuple[str, Point, str]] = []
    meets: list[tuple[Point, Point]] = []
    for i, join in enumerate(made.joins):
        if i in made.facing or i in made.beneath or join.b not in made.laid:
            continue
        a, b = (picture.seen.line(made.line(join, second)) for second in (False, True))
        meets += [(a[0], b[0]), (a[-1], b[-1])]
    for one, two in meets if len(meets) <= MOST_LETTERS else ():
        known = next((name for name, at, _ in told if min(math.dist(at, one), math.dist(at, two)) < 0.12), "")
        name = known or "abcdefghijklmnopqrstuvwxyz"[len({each for each, _, _ in told}) % 26]
        for at in (one, two):
            if not any(each == name and math.dist(at, there) < 0.12 for each, there, _ in told):
                told.append((name, at, ""))
    w, h = picture.seen.size
    for name, at, _text in told:
        if -0.05 <= at[0] <= w + 0.05 and -0.05 <= at[1] <= h + 0.05:
            letters.beside(name, at)


def _names(picture: Picture, shapes: dict[str, Polygon], letters: Letters) -> None:
    """Number and name in every piece, or beside it."""
    from shapely import unary_union

    key = numbers(picture.draft.pieces)
    told: set[str] = set()
    everything = unary_union(list(shapes.values()))
    beside = 0
    w, h = picture.seen.size
    for part in sorted(shapes, key=lambda name: -shapes[name].area):
        piece = picture.made.laid[part].own.piece
        parts = _clipped(picture, shapes[part])
        if not parts:
            continue
        room = max(parts, key=lambda each: each.area)
        number, name = str(key[piece.id]), f"{key[piece.id]} {named(piece.name)}"
        texts = [name, number] if piece.id not in told else [number]
        alone = piece.id in told or len(shapes) > 4
        if letters.inside(texts if alone else [name], room, SIZE, LEAST):
            told.add(piece.id)
            continue
        if piece.id in told or beside >= MOST_BESIDE:
            continue
        beside += 1
        tip = room.representative_point()
        letters.outside(texts, (tip.x, tip.y), SIZE - 0.5, (0.0, 0.0, w, h), everything, BESIDE)
        told.add(piece.id)


def _fold_words(picture: Picture, letters: Letters) -> None:
    """'fold' where a part is folded, and 'wrong side' on what shows it."""
    for part, laid in picture.made.laid.items():
        fold = _fold_line(picture, laid, picture.paper(laid.shape()))
        runs = [] if fold is None else lines_of(fold)
        if not runs or length(runs[0]) < 0.8 or part.startswith("gusset"):
            continue
        at, _way = at_share(runs[0], 0.5)
        letters.beside(_("fold"), at, 8.0)


def _below(picture: Picture, letters: Letters) -> None:
    """What is to be known of the whole picture: the layers, and where it is done again."""
    lines = []
    if picture.made.folded:
        lines.append(_("two layers, {facing}", facing=facing(picture.draft)))
    if picture.made.repeated:
        lines.append(_("and the same {places}", places=paired([_(place) for place in picture.made.repeated])))
    low = min([0.0, *(shape.bounds[1] for shape in letters.taken)])
    for n, text in enumerate(lines):
        at = (picture.seen.size[0] / 2, low - high(9.0) * (0.8 + n))
        letters.put(Label("note", text, at, size=9.0))


def _tone(picture: Picture, shape: Polygon, letters: Letters) -> list[Stroke]:
    """The wrong side's hatching, off the letters."""
    from shapely import unary_union

    spare = unary_union([each.buffer(0.05) for each in letters.taken])
    return [stroke for part in _clipped(picture, shape) for stroke in hatch(part, spare)]
