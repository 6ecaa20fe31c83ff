"""What is filled in an SVG drawing, as plain rings: only what a motif needs is read, everything else is refused.

Read are paths, rectangles, circles, ellipses, polygons, polylines and lines, in groups and with transforms; fills by
both rules, strokes as the bands they are, later shapes over earlier ones.  White takes away what lies beneath it.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final
from xml.parsers import expat

from shapely import affinity, box, get_parts, union_all
from shapely.geometry.polygon import orient

from ellwand.errors import BadInput
from ellwand.geometry.filling import Shape, band, check_meetings, filled
from ellwand.geometry.lines import Line, Point
from ellwand.geometry.svg_path import (
    MOST_POINTS,
    PLAIN,
    Matrix,
    arc_points,
    finite,
    numbers,
    parse_length,
    parse_path,
    parse_transform,
    times,
    too_fine,
)
from ellwand.language import N_, _

Rings = tuple[tuple[Line, tuple[Line, ...]], ...]
"""(ring counter-clockwise, holes clockwise), y upward."""
SVG: Final = "http://www.w3.org/2000/svg"
LARGEST_FILE: Final = 1_000_000
"""Bytes."""
MOST_ELEMENTS: Final = 3_000
DEEPEST: Final = 60
DRAWN: Final = frozenset({"path", "rect", "circle", "ellipse", "polygon", "polyline", "line"})
SKIPPED: Final = frozenset(
    {
        *("title", "desc", "metadata", "defs", "symbol", "marker", "pattern", "linearGradient", "radialGradient"),
        *("clipPath", "mask", "filter"),
    }
)
"""What is not drawn where it stands."""
MENDS: Final = {
    "text": N_("turn the lettering into paths"),
    "use": N_("unlink the copies, so that each is a shape of its own"),
    "style": N_("save it as plain SVG, with its fills written at each shape"),
    "image": N_("draw it as shapes: a picture of dots has no outline"),
}
INHERITED: Final = {
    "fill": "black",
    "fill-rule": "nonzero",
    "stroke": "none",
    "stroke-width": "1",
    "stroke-linecap": "butt",
    "stroke-linejoin": "miter",
    "visibility": "visible",
}
WHITE: Final = frozenset({"white", "#fff", "#ffffff", "rgb(255,255,255)"})
PLAIN_SVG: Final = N_("save it as plain SVG")


@dataclass(frozen=True, slots=True)
class _State:
    matrix: Matrix
    style: Mapping[str, str]
    drawn: bool = True


def svg_shapes(text: str) -> Rings:
    """What is filled in an SVG drawing, y upward, in its own units.

    Raises BadInput with one sentence where it is no SVG, holds what is refused, or has nothing filled.
    """
    if len(text) > LARGEST_FILE:
        raise BadInput(
            "", _("the file is too large for a motif"), _("simplify the drawing, or leave pictures out of it")
        )
    reader = _Reader()
    try:
        reader.read(text)
    except expat.ExpatError as error:
        raise BadInput("", _("this is no SVG drawing: {error}", error=error), _(PLAIN_SVG)) from None
    whole = reader.whole()
    if whole.is_empty or whole.area <= 0:
        raise BadInput("", _("nothing in the drawing is filled"), _("draw closed shapes and fill them"))
    parts = [orient(part) for part in get_parts(affinity.scale(whole, 1, -1, origin=(0, 0)))]
    largest = max(part.area for part in parts)
    parts = sorted((part for part in parts if part.area > 1e-6 * largest), key=lambda part: part.bounds)
    return tuple((_open(part.exterior), tuple(_open(hole) for hole in part.interiors)) for part in parts)


class _Reader:
    """The shapes of a drawing in the order they are painted."""

    def __init__(self) -> None:
        self.states: list[_State] = [_State(PLAIN, INHERITED)]
        self.painted: list[tuple[Shape, bool]] = []
        self.page: Shape | None = None
        self.elements = self.points = 0

    def read(self, text: str) -> None:
        parser = expat.ParserCreate("UTF-8", namespace_separator=" ")
        parser.StartDoctypeDeclHandler = self._refuse_doctype
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end
        parser.ProcessingInstructionHandler = self._refuse_instruction
        parser.Parse(text.encode("utf-8", "replace"), True)

    def _refuse_doctype(self, *given: object) -> None:
        raise BadInput(
            "",
            _("the drawing declares a document type, which is not read"),
            _("take out the line that begins <!DOCTYPE"),
        )

    def _refuse_instruction(self, target: str, data: str) -> None:
        raise BadInput(
            "", _("the drawing calls for something outside itself (<?{target} …?>)", target=target[:30]), _(PLAIN_SVG)
        )

    def _end(self, tag: str) -> None:
        self.states.pop()

    def _start(self, tag: str, given: dict[str, str]) -> None:
        space, name = tag.rpartition(" ")[::2]
        above = self.states[-1]
        self.elements += 1
        if self.elements > MOST_ELEMENTS:
            raise BadInput("", _("the drawing has too many shapes for a motif"), _("draw it plainer"))
        if len(self.states) > DEEPEST:
            raise BadInput("", _("the drawing's groups lie too deep in each other"), _("ungroup its shapes"))
        if len(self.states) == 1:
            if name != "svg" or space not in ("", SVG):
                raise BadInput("", _("this is no SVG drawing"), _(PLAIN_SVG))
            self.page = _page(given)
        if not above.drawn or space not in ("", SVG) or name in SKIPPED:
            if name == "script":
                raise BadInput("", _("the drawing holds a script"), _(PLAIN_SVG))
            self.states.append(_State(above.matrix, above.style, drawn=False))
            return
        if name not in DRAWN and name != "g" and (name != "svg" or len(self.states) > 1):
            mend = MENDS.get(name, PLAIN_SVG)
            raise BadInput("", _("the drawing holds <{name}>, which is not read", name=name[:30]), _(mend))
        state = _state(above, given)
        self.states.append(state)
        if name in DRAWN and state.drawn and state.style["visibility"] == "visible":
            self._paint(name, given, state)

    def _paint(self, name: str, given: Mapping[str, str], state: _State) -> None:
        lines = _outlines(name, given)
        fill, stroke = (state.style[key].strip().lower() for key in ("fill", "stroke"))
        self.points += sum(len(line) for line, _ in lines)
        if self.points > MOST_POINTS:
            raise too_fine()
        if fill not in ("none", "transparent") and name != "line":
            rings = [line for line, _ in lines if len(line) > 2]
            check_meetings(rings)
            self._add(filled(rings, odd=state.style["fill-rule"] == "evenodd"), state.matrix, fill)
        width = parse_length(state.style["stroke-width"])
        if stroke not in ("none", "transparent") and width > 0:
            check_meetings([line for line, _ in lines])
            caps, joins = ("butt", "round", "square"), ("miter", "round", "bevel")
            cap, join = (state.style[f"stroke-{key}"] for key in ("linecap", "linejoin"))
            cap, join = (cap if cap in caps else "butt"), (join if join in joins else "miter")
            self._add(band(lines, width, cap, join), state.matrix, stroke)

    def _add(self, shape: Shape, matrix: Matrix, colour: str) -> None:
        a, b, c, d, e, f = matrix
        moved = affinity.affine_transform(shape, (a, c, b, d, e, f)).buffer(0)
        for limit in moved.bounds:
            if limit == limit:
                finite(limit)
        self.painted.append((moved, colour.replace(" ", "") in WHITE))

    def whole(self) -> Shape:
        """All that is painted and not white, as far as it lies on the page."""
        check_meetings(
            [
                _open(ring)
                for shape, _ in self.painted
                for part in get_parts(shape)
                for ring in (part.exterior, *part.interiors)
            ]
        )
        whole: Shape = union_all([])
        for white, group in itertools.groupby(self.painted, key=lambda each: each[1]):
            batch = union_all([shape for shape, _ in group])
            whole = whole.difference(batch) if white else whole.union(batch)
        return whole if self.page is None else whole.intersection(self.page)


def _page(given: Mapping[str, str]) -> Shape | None:
    """What is seen of the drawing, in its units; None for all of it."""
    if "viewBox" in given:
        found = numbers(given["viewBox"])
        if len(found) != 4 or found[2] <= 0 or found[3] <= 0:
            raise BadInput("", _("the drawing's viewBox cannot be read"), _(PLAIN_SVG))
        x, y, width, height = found
        return box(x, y, x + width, y + height)
    if "%" in given.get("width", "%") or "%" in given.get("height", "%"):
        return None
    return box(0, 0, parse_length(given["width"]), parse_length(given["height"]))


def _state(above: _State, given: Mapping[str, str]) -> _State:
    """What holds inside an element."""
    written: dict[str, str] = {}
    for key, value in given.items():
        name = key.rpartition(" ")[2]
        if name == "href" or name.startswith("on"):
            raise BadInput("", _("the drawing holds a link or an action ({name})", name=name[:20]), _(PLAIN_SVG))
        written[name] = value
    for entry in written.get("style", "").split(";"):
        key, colon, value = entry.partition(":")
        if colon:
            written[key.strip()] = value.strip()
    for key in ("clip-path", "mask", "filter"):
        if written.get(key, "none") != "none":
            raise BadInput(
                "",
                _("the drawing uses a {key}, which is not read", key=key),
                _("cut its shapes to their outline first"),
            )
    matrix = times(above.matrix, parse_transform(written["transform"])) if "transform" in written else above.matrix
    style = {key: written.get(key, "inherit") for key in INHERITED}
    style = {key: above.style[key] if value == "inherit" else value for key, value in style.items()}
    return _State(matrix, style, drawn=written.get("display") != "none")


def _outlines(name: str, given: Mapping[str, str]) -> list[tuple[Line, bool]]:
    """The element's lines before its transform, and whether each is closed."""

    def at(key: str, other: float = 0.0) -> float:
        return parse_length(given[key]) if key in given else other

    if name == "path":
        return parse_path(given.get("d", ""))
    if name == "line":
        return [(((at("x1"), at("y1")), (at("x2"), at("y2"))), False)]
    if name in ("polygon", "polyline"):
        found = numbers(given.get("points", ""))
        pairs = tuple(zip(found[::2], found[1::2], strict=False))
        return [(pairs, name == "polygon")] if len(pairs) > 1 else []
    if name == "rect":
        return _rectangle((at("x"), at("y")), (at("width"), at("height")), at("rx", -1.0), at("ry", -1.0))
    rx, ry = (at("r"), at("r")) if name == "circle" else (at("rx"), at("ry"))
    x, y = at("cx"), at("cy")
    if rx <= 0 or ry <= 0:
        return []
    left, right = (x - rx, y), (x + rx, y)
    half = arc_points(right, (rx, ry), 0.0, False, True, left)
    return [((right, *half, *arc_points(left, (rx, ry), 0.0, False, True, right)[:-1]), True)]


def _rectangle(corner: Point, size: Point, rx: float, ry: float) -> list[tuple[Line, bool]]:
    """A rectangle, its corners round where it has radii; one radius stands for both (SVG 1.1, 9.2)."""
    (x, y), (width, height) = corner, size
    if width <= 0 or height <= 0:
        return []
    rx, ry = (ry if rx < 0 else rx), (rx if ry < 0 else ry)
    rx, ry = min(max(rx, 0.0), width / 2), min(max(ry, 0.0), height / 2)
    if not rx or not ry:
        return [(((x, y), (x + width, y), (x + width, y + height), (x, y + height)), True)]
    out: list[Point] = []
    for (ax, ay), (bx, by) in (
        ((x + width - rx, y), (x + width, y + ry)),
        ((x + width, y + height - ry), (x + width - rx, y + height)),
        ((x + rx, y + height), (x, y + height - ry)),
        ((x, y + ry), (x + rx, y)),
    ):
        out += [(ax, ay), *arc_points((ax, ay), (rx, ry), 0.0, False, True, (bx, by))]
    return [(tuple(out), True)]


def _open(closed: Any) -> Line:
    return tuple((float(x), float(y)) for x, y in closed.coords[:-1])
