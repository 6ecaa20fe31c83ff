"""Typst source made of our drawings and words, and its run; people's text only ever goes in as escaped strings."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import cache
from itertools import count, groupby
from typing import TYPE_CHECKING, Final, Literal

from ellwand.depict.spread import drawing_bounds
from ellwand.geometry.lines import Point
from ellwand.model.drawing import Drawing, Label, Role, Stroke
from ellwand.publish.letters import fonts_folder, spelled
from ellwand.publish.pens import FACES, PENS
from ellwand.publish.text import clean

if TYPE_CHECKING:
    from typst import Fonts

FONT: Final = "Source Sans Pro"
PRELUDE: Final = """
#let put(x, y, o, t, body) = {
  let back = if o == left { 0cm } else if o == center { 20cm } else { 40cm }
  place(top + left, dx: x - back, dy: y,
    box(width: 40cm, height: 0pt, place(o + horizon, rotate(t, origin: o + horizon, body))))
}
#let halo(body) = box(fill: white, outset: (x: 0.6pt, y: -0.6pt), body)
"""


LAST_PAGE: Final = "#context [#metadata(here().page()) <last>]"
"""Stands at the end of a source whose pages are to be counted."""


def quoted(text: str) -> str:
    """A Typst string literal; what of it is set in our fonts is to be spelled first."""
    return '"' + "".join(_ESCAPES.get(c, c) for c in clean(text)) + '"'


_ESCAPES: Final = {"\\": "\\\\", '"': '\\"'}


def words(text: str, *, size: float | None = None, bold: bool = False, italic: bool = False) -> str:
    """A run of text as a Typst expression (without '#')."""
    style = ""
    if size is not None:
        style += f"size: {size:g}pt, "
    if bold:
        style += 'weight: "bold", '
    if italic:
        style += 'style: "italic", '
    return f"text({style}{quoted(spelled(text))})"


def table(
    columns: Sequence[str], head: Sequence[str], rows: Iterable[Sequence[str]], size: float = 9.0, *, air: float = 2.4
) -> str:
    """A ruled table; cells are Typst expressions, ``columns`` Typst widths; ``air`` above and below a row (points)."""
    out = [
        f"#text(size: {size:g}pt, table(columns: ({', '.join(columns)},), stroke: none,"
        f" inset: (x: 2.5pt, y: {air:g}pt),"
    ]
    if head:
        out.append("table.header(" + ", ".join(f'text(weight: "bold", {quoted(h)})' for h in head) + "),")
        out.append("table.hline(stroke: 0.7pt),")
    for row in rows:
        out.append(", ".join(row) + ", table.hline(stroke: 0.5pt + luma(60)),")
    out.append("))")
    return "\n".join(out)


def picture(drawing: Drawing, scale: float, *, enlarged: float = 1.0) -> str:
    """A drawing as a box of native shapes and text, exact at ``scale`` (paper cm per drawing cm).

    ``enlarged``: all of it, lettering and lines too, so many times as large again.
    """
    x0, y0, x1, y1 = drawing_bounds(drawing, scale)
    mm = 10 * scale * enlarged

    def at(point: Point) -> tuple[str, str]:
        return f"{(point[0] - x0) * mm:.4f}mm", f"{(y1 - point[1]) * mm:.4f}mm"

    out = [f"#box(width: {(x1 - x0) * mm:.4f}mm, height: {(y1 - y0) * mm:.4f}mm)["]
    out += [_shape(list(run), at, enlarged) for _alike, run in groupby(drawing.strokes, key=_alike())]
    out += [_letters(label, at, enlarged) for label in drawing.labels]
    out.append("]")
    return "\n".join(out)


Place = Callable[[Point], tuple[str, str]]


def _alike() -> Callable[[Stroke], tuple[Role, int]]:
    """The same for strokes that follow each other and may be drawn as one: open lines of a role, and dots."""
    alone = count(1)

    def key(stroke: Stroke) -> tuple[Role, int]:
        joins = not stroke.holes and (not stroke.closed or stroke.role == "hatch dot")
        return stroke.role, 0 if joins else next(alone)

    return key


def _shape(run: Sequence[Stroke], place: Place, enlarged: float) -> str:
    """Strokes that are alike as one curve."""
    pen = PENS[run[0].role]
    dash = f", dash: ({', '.join(f'{n * enlarged:g}pt' for n in pen.dash)})" if pen.dash else ""
    colour = f'rgb("{pen.colour}")' if pen.colour else ""
    style = f'(paint: {colour or f"luma({pen.grey})"}, thickness: {pen.width * enlarged:g}pt, join: "round"{dash})'
    fill = colour or (f"luma({pen.fill})" if run[0].closed and pen.fill is not None else "none")
    parts = []
    for stroke in run:
        for line in (stroke.points, *stroke.holes):
            moves = [place(p) for p in line]
            parts.append(f"curve.move(({moves[0][0]}, {moves[0][1]}))")
            parts += [f"curve.line(({x}, {y}))" for x, y in moves[1:]]
            if stroke.closed:
                parts.append('curve.close(mode: "straight")')
    return f'#place(top + left, curve(fill: {fill}, fill-rule: "even-odd", stroke: {style}, ' + ", ".join(parts) + "))"


def _letters(label: Label, place: Place, enlarged: float) -> str:
    x, y = place(label.at)
    face = FACES[label.role]
    body = words(label.text, size=label.size * enlarged, bold=face.bold, italic=face.italic)
    if face.halo:
        body = f"halo({body})"
    side = {"start": "left", "middle": "center", "end": "right"}[label.anchor]
    return f"#put({x}, {y}, {side}, {-label.turn:.3f}deg, {body})"


def compile_pdf(source: str, *, tags: bool = True, standards: Sequence[Literal["ua-1"]] = ()) -> bytes:
    """The source as PDF bytes, the same bytes for the same source; ``tags``: what is what, for who reads by ear.

    ``standards``: those that the PDF keeps to, as Typst names them ('ua-1').
    """
    import typst

    return typst.compile(
        source.encode(),
        format="pdf",
        font_paths=_fonts(),
        timestamp=0,
        pdf_tags=tags,
        pdf_standards=list(standards),
    )


def heights(setting: str, blocks: Sequence[str], width: float) -> list[float]:
    """How high (cm) each of the blocks of content is, set ``width`` cm wide; all are measured in one run."""
    import json

    import typst

    several = "".join(f"[{block}\n], " for block in blocks)
    run = f"#context [#metadata(({several}).map(each => measure(width: {width}cm, each).height / 1cm)) <heights>]"
    source = f"{setting}\n{run}"
    found = typst.query(source.encode(), "<heights>", field="value", one=True, font_paths=_fonts())
    return [float(each) for each in json.loads(found)]


def page_count(source: str) -> int:
    """How many pages the source fills, read at its LAST_PAGE."""
    import typst

    return int(typst.query(source.encode(), "<last>", field="value", one=True, font_paths=_fonts()))


@cache
def _fonts() -> Fonts:
    """Our sans and the faces that Typst brings along, never the machine's own: output is the same everywhere."""
    import typst

    return typst.Fonts(include_system_fonts=False, font_paths=[fonts_folder()])
