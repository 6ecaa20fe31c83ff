"""A drawing as SVG, in mm on paper."""

from __future__ import annotations

from collections.abc import Callable
from xml.sax.saxutils import escape

from ellwand.depict.spread import drawing_bounds
from ellwand.geometry.lines import Line, Point
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.publish.pens import FACES, PENS
from ellwand.publish.text import clean

MM_PER_POINT = 25.4 / 72
MARGIN = 4.0
Place = Callable[[Point], Point]


def svg(drawing: Drawing, scale: float, title: str = "", *, told: str = "") -> str:
    """The drawing at ``scale`` (paper cm per drawing cm) as a whole SVG document; ``told``: what it shows, in words."""
    x0, y0, x1, y1 = drawing_bounds(drawing, scale)
    width, height = (x1 - x0) * scale * 10 + 2 * MARGIN, (y1 - y0) * scale * 10 + 2 * MARGIN

    def to_paper(point: Point) -> Point:
        return (point[0] - x0) * scale * 10 + MARGIN, (y1 - point[1]) * scale * 10 + MARGIN

    body = [svg_stroke(each, to_paper) for each in drawing.strokes]
    body += [svg_label(each, to_paper) for each in drawing.labels]
    role = ' role="img"' if told else ""
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.2f}mm" height="{height:.2f}mm"'
            f' viewBox="0 0 {width:.2f} {height:.2f}"{role}'
            ' font-family="Source Sans Pro, Helvetica, Arial, sans-serif">',
            f"<title>{escape(clean(title))}</title>",
            *([f"<desc>{escape(clean(told))}</desc>"] if told else []),
            f'<rect width="{width:.2f}" height="{height:.2f}" fill="#fff"/>',
            *body,
            "</svg>",
            "",
        ]
    )


def _path(line: Line, to_paper: Place, closed: bool) -> str:
    points = " L".join(f"{x:.3f} {y:.3f}" for x, y in map(to_paper, line))
    return f"M{points}" + ("Z" if closed else "")


def svg_stroke(stroke: Stroke, to_paper: Place) -> str:
    """A line as an SVG path."""
    pen = PENS[stroke.role]
    d = _path(stroke.points, to_paper, stroke.closed) + "".join(_path(hole, to_paper, True) for hole in stroke.holes)
    dash = f' stroke-dasharray="{" ".join(f"{n * MM_PER_POINT:.3f}" for n in pen.dash)}"' if pen.dash else ""
    fill = pen.colour or (_grey(pen.fill) if stroke.closed and pen.fill is not None else "none")
    return (
        f'<path class="{stroke.role}" d="{d}" fill="{fill}" fill-rule="evenodd"'
        f' stroke="{pen.colour or _grey(pen.grey)}"'
        f' stroke-width="{pen.width * MM_PER_POINT:.3f}" stroke-linejoin="round"{dash}/>'
    )


def _grey(level: int) -> str:
    return f"#{level:02x}{level:02x}{level:02x}"


def svg_label(label: Label, to_paper: Place) -> str:
    """A label as SVG text."""
    x, y = to_paper(label.at)
    face = FACES[label.role]
    style = (' font-weight="bold"' if face.bold else "") + (' font-style="italic"' if face.italic else "")
    if face.halo:
        style += ' stroke="#fff" stroke-width="0.7" paint-order="stroke" stroke-linejoin="round"'
    turn = f' transform="rotate({-label.turn:.2f} {x:.3f} {y:.3f})"' if label.turn else ""
    return (
        f'<text x="{x:.3f}" y="{y:.3f}" font-size="{label.size * MM_PER_POINT:.3f}" dy="0.35em"'
        f' text-anchor="{label.anchor}"{style}{turn}>{escape(clean(label.text))}</text>'
    )
