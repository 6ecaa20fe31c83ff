"""The full-size pattern as one SVG in mm, with layers that drawing programs show and hide."""

from __future__ import annotations

from typing import Final
from xml.sax.saxutils import escape, quoteattr

from ellwand.depict.pattern import pattern_pieces
from ellwand.depict.pattern.arrange import arranged, ways_of
from ellwand.geometry.lines import Point
from ellwand.language import _
from ellwand.model.drawing import Stroke
from ellwand.model.garment import Garment
from ellwand.publish.pattern.layers import LAYERS, Layer, layer_of
from ellwand.publish.svg import svg_label, svg_stroke
from ellwand.publish.text import clean

WIDTH: Final = 150.0
"""The pieces lie on a ground this wide (cm), or as wide as the widest needs."""
MARGIN: Final = 1.0


def pattern_svg(garment: Garment) -> str:
    """Every piece once at full size, beside each other: a user unit is a millimetre."""
    pieces = pattern_pieces(garment)
    least = max(min(each.extent[2] - each.extent[0], each.extent[3] - each.extent[1]) for each in pieces)
    (placed,) = arranged(ways_of(pieces), max(WIDTH, least))
    boxes = [each.box for each in placed]
    wide = 10 * (max(box[2] for box in boxes) + 2 * MARGIN)
    high = 10 * (2 * MARGIN - min(box[1] for box in boxes))

    def to_paper(point: Point) -> Point:
        return 10 * (point[0] + MARGIN), 10 * (MARGIN - point[1])

    groups: dict[Layer, list[str]] = {"pieces": [], "allowances": [], "texts": []}
    for each in placed:
        for stroke in each.each.drawing.strokes:
            holes = tuple(each.there(hole) for hole in stroke.holes)
            there = Stroke(stroke.role, each.there(stroke.points), stroke.closed, holes)
            groups[layer_of(stroke.role)].append(svg_stroke(there, to_paper))
        groups["texts"] += [svg_label(each.label(label), to_paper) for label in each.each.drawing.labels]
    title = f"{garment.title} for {garment.wearer.name}: full-size pattern"
    return "\n".join(
        [
            '<svg xmlns="http://www.w3.org/2000/svg" xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape"'
            f' width="{wide:.3f}mm" height="{high:.3f}mm" viewBox="0 0 {wide:.3f} {high:.3f}"'
            ' font-family="Source Sans Pro, Helvetica, Arial, sans-serif">',
            f"<title>{escape(clean(title))}</title>",
            *(line for layer, lines in groups.items() for line in _group(layer, lines)),
            "</svg>",
            "",
        ]
    )


def _group(layer: Layer, lines: list[str]) -> list[str]:
    start = f'<g id="{layer}" inkscape:groupmode="layer" inkscape:label={quoteattr(_(LAYERS[layer]))}>'
    return [start, *lines, "</g>"]
