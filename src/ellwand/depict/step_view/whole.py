"""Pictures of steps that are not about one seam or edge: marking, hanging, fastening."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from ellwand.depict.fastenings import NAMES, fastening_signs
from ellwand.depict.guides import guide_role
from ellwand.depict.lettering import shape_of, text_width
from ellwand.depict.naming import all_parts, numbers
from ellwand.depict.pattern.squares import wrapped
from ellwand.depict.spread import drawing_bounds, joined, moved
from ellwand.depict.step_view.joins import edges_shown_once
from ellwand.depict.step_view.lettering import Letters
from ellwand.depict.step_view.motion import REST, Laid, own
from ellwand.depict.step_view.signs import arrow, lines_of
from ellwand.depict.view import garment_view
from ellwand.geometry.lines import Line, Point, area, bounds, turn
from ellwand.language import _
from ellwand.model.draft import Draft, EdgeRef
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.model.names import named
from ellwand.model.piece import Piece
from ellwand.model.step import Step

SIZE: Final = 9.0
BEYOND: Final = 1.2
"""Lettering in a row reaches so far beyond its width (cm) before it is broken into lines."""
MOST: Final = 3
"""More pieces with fastenings are not drawn."""


def scaled(drawing: Drawing, scale: float, corner: Point | None = None) -> Drawing:
    """A drawing of the real thing in cm of paper, its lower left corner (or ``corner``) at (0, 0)."""
    low = bounds([point for stroke in drawing.strokes for point in stroke.points])
    x0, y0 = corner or low[:2]

    def at(point: Point) -> Point:
        return (point[0] - x0) * scale, (point[1] - y0) * scale

    return Drawing(
        tuple(
            replace(s, points=tuple(map(at, s.points)), holes=tuple(tuple(map(at, hole)) for hole in s.holes))
            for s in drawing.strokes
        ),
        tuple(replace(label, at=at(label.at)) for label in drawing.labels),
    )


def shrunk(drawing: Drawing, by: float) -> Drawing:
    """A drawing on paper made smaller about (0, 0), its lettering with it."""
    if by >= 1.0:
        return drawing
    made = scaled(drawing, by, (0.0, 0.0))
    return Drawing(made.strokes, tuple(replace(label, size=label.size * by) for label in made.labels))


def marked(draft: Draft, width: float, height: float) -> Drawing:
    """The piece with the most edges as it is cut: line to cut, line to sew, and where seams meet."""
    from shapely import LineString, Polygon

    piece = max(draft.pieces, key=lambda each: (each.place != "sleeve", len(each.edges), abs(area(each.sewn)), each.id))
    x0, y0, x1, y1 = bounds(piece.cut)
    scale = min((width - 3.2) / (x1 - x0), height / (y1 - y0))
    ticks = _ticks(piece, 0.16 / scale)
    strokes = [
        Stroke("cut", piece.cut, True, piece.cut_holes),
        Stroke("sewn", piece.sewn, True, piece.sewn_holes),
        *(Stroke(guide_role(guide), guide.points) for guide in piece.guides),
        *ticks,
    ]
    made = scaled(Drawing(tuple(strokes), ()), scale, (x0, y0))
    letters = Letters([LineString(stroke.points) for stroke in made.strokes])
    right, top = (x1 - x0) * scale, (y1 - y0) * scale
    told = [(_("cut here"), piece.cut, 0.88), (_("sew here"), piece.sewn, 0.7)]
    last = math.inf
    for text, ring, share in told:
        y = last = min(top * share, last - 0.42)
        tip = max(x for x, _ in _at_height(ring, y0 + y / scale))
        _told(letters, text, (right + 0.7, y), ((tip - x0) * scale, y))
    seen = [t.points[1] for t in made.strokes if t.role == "mark" and t.points[1][0] > right / 2]
    if seen:
        tip_mark = min(seen, key=lambda p: (abs(p[1] - top * 0.45), -p[0]))
        _told(letters, _("mark: seams meet"), (right + 0.7, min(tip_mark[1], top * 0.55, last - 0.42)), tip_mark)
    whole = Polygon(made.strokes[0].points)
    name = f"{numbers(draft.pieces)[piece.id]} {named(piece.name)}"
    if not letters.inside([name], whole, SIZE, 7.0):
        letters.put(Label("number", name, (right / 2, -0.3), size=SIZE))
    return Drawing((*made.strokes, *letters.leaders), tuple(letters.labels))


def _told(letters: Letters, text: str, at: Point, tip: Point) -> None:
    letters.put(Label("note", text, at, "start", SIZE))
    letters.leaders.append(Stroke("link", ((at[0] - 0.08, at[1]), tip)))


def _at_height(ring: Sequence[Point], y: float) -> list[Point]:
    """Where a ring crosses a height."""
    found = []
    for (ax, ay), (bx, by) in zip(ring, [*ring[1:], ring[0]], strict=True):
        if min(ay, by) <= y <= max(ay, by) and ay != by:
            found.append((ax + (bx - ax) * (y - ay) / (by - ay), y))
    return found or [max(ring)]


def _ticks(piece: Piece, out: float) -> list[Stroke]:
    """A short bar across the allowance where one straight edge goes on as another."""
    found = []
    for one in piece.edges:
        for two in piece.edges:
            if one is two or math.dist(one.points[-1], two.points[0]) > 1e-6 or not (one.allowance and two.allowance):
                continue
            (ax, ay), (bx, by), (cx, cy) = one.points[-2], one.points[-1], two.points[1]
            before, after = math.atan2(by - ay, bx - ax), math.atan2(cy - by, cx - bx)
            if abs((after - before + math.pi) % (2 * math.pi) - math.pi) > 0.3:
                continue
            nx, ny = math.sin(before), -math.cos(before)
            long = max(one.allowance, out)
            found.append(Stroke("mark", ((bx, by), (bx + nx * long, by + ny * long))))
    return found


def hanging(draft: Draft, width: float, height: float) -> Drawing:
    """The garment hanging, and the same height above the floor all round."""
    view = garment_view(draft, "front")
    x0, y0, x1, y1 = drawing_bounds(view, 1.0)
    scale = min((width - 1.0) / (x1 - x0), (height - 1.3) / (y1 - y0))
    made = scaled(view, scale)
    wide, high = (x1 - x0) * scale, (y1 - y0) * scale
    drop = 0.7
    floor = Stroke("layer", ((-0.4, -drop), (wide + 0.4, -drop)))
    low = [
        (x, min((q for s in made.strokes for p, q in s.points if abs(p - x) < wide * 0.06), default=0.0))
        for x in (wide * 0.22, wide * 0.5, wide * 0.78)
    ]
    signs = [each for x, y in low for each in arrow(((x, -drop), (x, max(y - 0.04, -drop + 0.3))), both=True)]
    hook = Stroke("way", ((wide / 2, high + 0.45), (wide / 2, high)))
    text = Label("note", _("floor: the same height all round"), (wide / 2, -drop - 0.3), size=SIZE)
    return Drawing((*made.strokes, floor, *signs, hook), (text,))


def viewed(draft: Draft, width: float, height: float) -> Drawing:
    """The garment from the front."""
    view = garment_view(draft, "front")
    x0, y0, x1, y1 = drawing_bounds(view, 1.0)
    return scaled(view, min(width / (x1 - x0), height / (y1 - y0)))


def fastened(draft: Draft, width: float, height: float) -> Drawing | None:
    """The places of the fastenings on the pieces that have them, or None where none has."""
    pieces = {piece.id: piece for piece in draft.pieces}
    refs = [
        EdgeRef(part.id, mark.edge)
        for part in all_parts(draft)
        for mark in pieces[part.piece].marks
        if mark.part in ("", part.id)
    ]
    once, _where = edges_shown_once([ref for ref in refs if ref.part.startswith("sleeve")], False)
    repeated = len(once) < sum(ref.part.startswith("sleeve") for ref in refs)
    shown = [ref for ref in refs if not ref.part.startswith("sleeve")] + once
    names = list(dict.fromkeys(ref.part for ref in shown))[:MOST]
    if not names:
        return None
    laid = [Laid(own(draft, next(p for p in all_parts(draft) if p.id == name)), REST) for name in names]
    room = (width - 0.6 * (len(laid) - 1)) / len(laid)
    out, right = _in_a_row(laid, draft, room, height, math.inf)
    if right > width + BEYOND:
        out, right = _in_a_row(laid, draft, room, height, room)
    labels = [label for each in out for label in each.labels]
    if repeated:
        low = min(shape_of(label, 1.0).bounds[1] for label in labels)
        text = _("and the same on the other sleeve")
        middle = max(right / 2, text_width(text, SIZE) / 2)
        labels.append(Label("note", text, (middle, low - 0.3), size=SIZE))
    return Drawing(tuple(stroke for each in out for stroke in each.strokes), tuple(labels))


def _in_a_row(
    laid: Sequence[Laid], draft: Draft, room: float, height: float, lettering: float
) -> tuple[list[Drawing], float]:
    """The parts beside each other, and how wide they are together (cm); lines of ``lettering`` at most (cm)."""
    out: list[Drawing] = []
    right = 0.0
    for each in laid:
        piece, box, title = _with_marks(each, draft)
        scale = min(room / (box[2] - box[0]), (height - 1.0) / (box[3] - box[1]))
        drawn = _windowed(each, piece, box, scale, title, lettering)
        x0, _low, x1, _top = drawing_bounds(drawn, 1.0)
        out.append(moved(drawn, right - x0, 0.0))
        right += x1 - x0 + 0.5
    return out, right - 0.5


def _with_marks(laid: Laid, draft: Draft) -> tuple[Piece, tuple[float, float, float, float], str]:
    """The part's piece with its own marks where the part has them, what is seen of it, and its name."""
    piece = laid.own.piece
    marks = tuple(replace(mark, at=laid.own.at(mark.at)) for mark in piece.marks if mark.part in ("", laid.own.id))
    whole = bounds(laid.ring)
    x0, y0, x1, y1 = bounds([mark.at for mark in marks])
    pad = max(0.35 * max(x1 - x0, y1 - y0), 6.0)
    box = (max(whole[0], x0 - pad), max(whole[1], y0 - pad), min(whole[2], x1 + pad), min(whole[3], y1 + pad))
    return replace(piece, marks=marks), box, f"{numbers(draft.pieces)[piece.id]} {named(piece.name)}"


def _windowed(
    laid: Laid, piece: Piece, box: tuple[float, float, float, float], scale: float, title: str, lettering: float
) -> Drawing:
    from shapely import box as window

    def paper(points: Sequence[Point]) -> tuple[Point, ...]:
        return tuple(((x - box[0]) * scale, (y - box[1]) * scale) for x, y in points)

    border = laid.shape().boundary.intersection(window(*box).buffer(0.001))
    strokes = [Stroke("piece", paper(run)) for run in lines_of(border)]
    ties = [mark for mark in piece.marks if mark.kind == "tie"]
    signs = fastening_signs(replace(piece, marks=tuple(m for m in piece.marks if m.kind != "tie")), 0.13 / scale)
    strokes += [replace(sign, points=paper(sign.points)) for sign in signs]
    centre = (box[0] + box[2]) / 2
    if ties:
        xs = [mark.at[0] for mark in ties]
        if max(xs) - min(xs) > 0.5:
            centre = sum(xs) / len(xs)
    small = _tie_size([mark.at for mark in ties], scale)
    for mark in ties:
        (x, y), side = paper([mark.at])[0], 1 if mark.at[0] >= centre else -1
        strokes.append(Stroke("opening", tuple((x + side * small * dx, y + small * dy) for dx, dy in _TIE)))
    middle = (box[2] - box[0]) * scale / 2
    kinds = [mark.kind for mark in piece.marks]
    told = ", ".join(f"{kinds.count(kind)} {_(NAMES[kind][kinds.count(kind) > 1])}" for kind in dict.fromkeys(kinds))
    labels = [
        Label("number", line, (middle, -0.3 - 0.4 * n), size=SIZE)
        for n, line in enumerate(wrapped(title, SIZE, lettering))
    ]
    low = -0.7 - 0.4 * (len(labels) - 1)
    labels += [
        Label("note", line, (middle, low - 0.35 * n), size=SIZE - 1)
        for n, line in enumerate(wrapped(told, SIZE - 1, lettering))
    ]
    return Drawing(tuple(strokes), tuple(labels))


def _tie_size(at: Sequence[Point], scale: float) -> float:
    """How large ties are drawn, so that one hangs clear of the next."""
    apart = [math.dist(p, q) * scale for i, p in enumerate(at) for q in at[i + 1 :] if abs(p[0] - q[0]) < 0.5]
    return min([1.0, *(cm / 0.8 for cm in apart)])


_TIE: Final[Line] = ((0.0, 0.0), (0.2, 0.06), (0.36, -0.05), (0.45, -0.25), (0.42, -0.5), (0.48, -0.7))
"""How a tie hangs from its place, on paper (cm)."""


def sewn_on(step: Step, draft: Draft, width: float, height: float) -> Drawing | None:
    """What is sewn on in the step: the first facing, strip or collar of each kind, one above another; or None."""
    of = {part.id: part.piece for part in draft.applied}
    wanted = list(dict.fromkeys(of[part] for part in step.parts if part in of))[:2]
    if not wanted:
        return None
    pieces = {piece.id: piece for piece in draft.pieces}
    key = numbers(draft.pieces)
    strokes: list[Stroke] = []
    labels: list[Label] = []
    top = 0.0
    for name in wanted:
        piece = pieces[name]
        ring = piece.sewn
        x0, y0, x1, y1 = bounds(ring)
        if y1 - y0 > x1 - x0:
            # lying, as a strip lies in the hand
            ring = turn(ring, 90.0)
            x0, y0, x1, y1 = bounds(ring)
        scale = min(width / (x1 - x0), (height / len(wanted) - 0.6) / (y1 - y0), 0.25)
        high = (y1 - y0) * scale
        place = tuple(((x - (x0 + x1) / 2) * scale, top - high + (y - y0) * scale) for x, y in ring)
        strokes.append(Stroke("piece", (*place, place[0])))
        labels.append(Label("number", f"{key[name]} {named(piece.name)}", (0.0, top - high - 0.28), size=SIZE - 1))
        top -= high + 0.75
    return Drawing(tuple(strokes), tuple(labels))


def above(one: Drawing, two: Drawing, gap: float) -> Drawing:
    """Two drawings on paper, the second below the first, their middles in a line."""
    x0, y0, x1, _ = drawing_bounds(one, 1.0)
    a0, _, a1, b1 = drawing_bounds(two, 1.0)
    return joined([one, moved(two, (x0 + x1 - a0 - a1) / 2, y0 - gap - b1)])


def beside(one: Drawing, two: Drawing, gap: float) -> Drawing:
    """Two drawings on paper beside each other, the second's middle as high as the first's."""
    _, y0, x1, y1 = drawing_bounds(one, 1.0)
    a0, b0, _, b1 = drawing_bounds(two, 1.0)
    return joined([one, moved(two, x1 + gap - a0, (y0 + y1 - b0 - b1) / 2)])
