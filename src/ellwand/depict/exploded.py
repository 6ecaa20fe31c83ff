"""The garment taken apart: its flat pieces where they belong, leaders from edge to edge, and the sewn garment small."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from ellwand.depict.exploded_applied import Room, with_applied
from ellwand.depict.exploded_leaders import leaders
from ellwand.depict.exploded_places import all_joins, spread_apart
from ellwand.depict.naming import numbers
from ellwand.depict.spread import Sheet, drawing_bounds, joined, moved
from ellwand.depict.step_view.joins import Join
from ellwand.depict.step_view.lettering import Letters
from ellwand.depict.step_view.motion import Laid, own
from ellwand.depict.step_view.signs import dot
from ellwand.depict.step_view.whole import scaled
from ellwand.depict.view import garment_view
from ellwand.geometry.lines import Line, Point, bounds
from ellwand.language import _
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.model.names import named
from ellwand.units import Unit

if TYPE_CHECKING:
    from shapely import Polygon

SCALE: Final = 1 / 20
LARGEST: Final = 1 / 6
FINER: Final = 0.94
SMALLEST: Final = 1 / 200
GAP: Final = 5.0
BETWEEN: Final = 8.0
"""How far apart (cm of the cloth) pieces lie at least and, where there is a choice, usually."""
CLEAR: Final = 0.26
"""Pieces lie at least so far apart on paper (cm)."""
STEP: Final = 0.42
"""A piece is first tried so far (cm on paper) from the edge that it is sewn to."""
SIZE: Final = 9.0
LEAST: Final = 7.0
"""Names within pieces are so large (points), or smaller down to this."""
FACES_AT: Final = (0.7, 0.5, 0.85, 0.35)
"""Front and back are written so far from the shoulders to the hem."""
CAPTION: Final = 0.5
"""Below the sewn garment (cm on paper)."""
MOST_SEWN: Final = 0.6
LEAST_SEWN: Final = 0.22
"""The sewn garment is drawn at so much of the pieces' scale."""


@dataclass(frozen=True, slots=True)
class Exploded:
    """The parts where they lie, by their ids, and the leader of each seam that has one (cm of the cloth)."""

    laid: Mapping[str, Laid]
    leaders: Sequence[tuple[Join, Line]]


def exploded(draft: Draft, gap: float = GAP, between: float = BETWEEN) -> Exploded:
    """The shell's parts spread apart, at least ``gap`` cm from each other and ``between`` where there is a choice."""
    laid = spread_apart(draft, gap, between)
    owns = {part.id: own(draft, part) for part in draft.parts}
    return Exploded(laid, leaders(all_joins(draft.seams, owns), laid, 0.5 * gap))


def exploded_view(draft: Draft, unit: Unit, scale: float = SCALE, *, sewn: bool = True) -> Drawing:
    """The pieces round the sewn garment, in cm of the cloth, lettered for ``scale`` (paper cm per cm).

    Pieces are numbered as on the card and drawn as they are sewn, without allowances.  ``sewn``: whether the sewn
    garment stands beside them.
    """
    made = exploded(draft, CLEAR / scale, STEP / scale)
    paper = _on_paper(draft, made, scale, sewn)
    return scaled(paper, 1 / scale, (0.0, 0.0))


def fitting_scale(draft: Draft, width: float, height: float) -> float:
    """The scale at which the pieces alone fit ``width`` × ``height`` (paper cm)."""
    scale = LARGEST
    while scale > SMALLEST:
        laid = spread_apart(draft, CLEAR / scale, STEP / scale).values()
        x0, y0, x1, y1 = bounds([point for each in laid for point in each.ring])
        share = min(width / (x1 - x0), height / (y1 - y0)) / scale
        if share >= 1.0:
            break
        scale *= min(FINER, share)
    return scale


def exploded_sheet(draft: Draft, unit: Unit, width: float, height: float, *, sewn: bool = True) -> Sheet:
    """The view at the largest scale at which it fits ``width`` × ``height`` (paper cm)."""
    scale = fitting_scale(draft, width, height)
    while True:
        drawing = exploded_view(draft, unit, scale, sewn=sewn)
        x0, y0, x1, y1 = drawing_bounds(drawing, scale)
        wide, high = (x1 - x0) * scale, (y1 - y0) * scale
        if (wide <= width and high <= height) or scale <= SMALLEST:
            return Sheet(drawing, scale, wide, high)
        scale *= min(FINER, max(0.5, min(width / wide, height / high)))


def _on_paper(draft: Draft, made: Exploded, scale: float, sewn: bool) -> Drawing:
    """Everything in cm of paper."""
    from shapely import LineString
    from shapely.affinity import scale as sized

    shapes = {part: sized(laid.shape(), scale, scale, origin=(0, 0)) for part, laid in made.laid.items()}
    outlines = [_outline(laid, scale) for laid in made.laid.values()]
    folds = [
        Stroke("fold", _paper(laid.motion.of(laid.own.at(point) for point in guide.points), scale))
        for laid in made.laid.values()
        for guide in laid.own.piece.guides
        if guide.name == "shoulder fold"
    ]
    links = [Stroke("link", _paper(line, scale)) for _, line in made.leaders]
    dots = [dot(at, 0.055) for link in links for at in (link.points[0], link.points[-1])]
    borders = [shape.boundary for shape in shapes.values()]
    letters = Letters([*borders, *(LineString(each.points) for each in (*links, *folds))])
    _lettered(draft, made, shapes, letters, scale)
    strokes = (*outlines, *folds, *links, *dots, *letters.leaders)
    whole = Drawing(strokes, tuple(letters.labels))
    return with_applied(draft, _with_garment(draft, whole, scale) if sewn else whole, scale)


def _paper(line: Sequence[Point] | Line, scale: float) -> Line:
    return tuple((x * scale, y * scale) for x, y in line)


def _outline(laid: Laid, scale: float) -> Stroke:
    holes = tuple(_paper(laid.motion.of(hole), scale) for hole in laid.own.holes)
    return Stroke("piece", _paper(laid.ring, scale), True, holes)


def _lettered(draft: Draft, made: Exploded, shapes: Mapping[str, Polygon], letters: Letters, scale: float) -> None:
    from shapely import unary_union

    key = numbers(draft.pieces)
    whole = unary_union(list(shapes.values()))
    beside = []
    for part, laid in sorted(made.laid.items(), key=lambda each: -shapes[each[0]].area):
        number, name = str(key[laid.own.piece.id]), named(laid.own.piece.name)
        shape = shapes[part]
        if not (
            letters.inside([f"{number} {name}"], shape, SIZE, SIZE)
            or letters.inside([number], shape, SIZE, SIZE)
            or letters.inside([number], shape, SIZE, LEAST)
        ):
            beside.append((number, shape))
    for laid in made.laid.values():
        for text, spots in _faces(laid):
            labels = (Label("edge", text, (x * scale, y * scale), size=SIZE) for x, y in spots)
            if label := next((each for each in labels if letters.clear(each)), None):
                letters.put(label)
    for number, shape in beside:
        spot = shape.representative_point()
        letters.outside([number], (float(spot.x), float(spot.y)), SIZE, whole.bounds, whole)


def _faces(laid: Laid) -> list[tuple[str, list[Point]]]:
    """Front and back of a body cut in one, and where that may be written, best first."""
    fold = next((guide.points for guide in laid.own.piece.guides if guide.name == "shoulder fold"), None)
    if fold is None:
        return []
    x0, y0, x1, y1 = bounds(laid.ring)
    y = laid.motion.of(fold)[0][1]
    middle = (x0 + x1) / 2
    down, up = ([(middle, y + share * (end - y)) for share in FACES_AT] for end in (y0, y1))
    return [(_("front"), down), (_("back"), up)]


def _with_garment(draft: Draft, pieces: Drawing, scale: float) -> Drawing:
    """The sewn garment where there is room for it, or at the left."""
    view = garment_view(draft, "front")
    corner = drawing_bounds(view, 1.0)
    size = corner[2] - corner[0], corner[3] - corner[1]
    share = MOST_SEWN
    ground = Room(pieces)
    while share >= LEAST_SEWN:
        wide, high = (side * scale * share for side in size)
        if spot := ground.spot(wide, high + CAPTION):
            break
        share *= FINER
    else:
        share = 0.45
        wide, high = (side * scale * share for side in size)
        x0, y0, _x1, y1 = ground.box
        spot = x0 - 0.8 - wide, (y0 + y1 - high) / 2
    x, y = spot
    small = moved(scaled(view, scale * share, corner[:2]), x, y + CAPTION)
    caption = Label("note", _("sewn"), (x + wide / 2, y + CAPTION / 2 - 0.05), size=SIZE)
    return joined([pieces, replace(small, labels=(*small.labels, caption))])
