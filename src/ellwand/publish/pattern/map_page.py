"""The first page of a pattern on many sheets: test squares, how the sheets are joined, and a map of them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

import shapely

from ellwand.depict.lettering import CM_PER_POINT, Lettering
from ellwand.depict.pattern import test_squares
from ellwand.depict.pattern.arrange import Placed
from ellwand.depict.pattern.squares import FULL_SIZE, KEY
from ellwand.geometry.lines import Line, Point, bounds
from ellwand.language import N_, _
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.publish.paper import Paper
from ellwand.publish.pattern.sheets import OVERLAP, Layout, Window, pieces_on, shown_on
from ellwand.publish.typst_text import FONT, PRELUDE, picture, table, words

JOIN: Final = N_(
    "Join: trim a sheet along its dashed lines (left and above), lay that edge on the dotted line of the sheet before"
    " it so that the diamonds are whole, and glue. Sheets that no piece runs across stay apart."
)
LARGEST: Final = 0.06
"""The map is not drawn larger than this (paper cm per cm)."""

BESIDE: Final = 16
"""So many pieces are listed beneath the map; more on a page of their own."""
ROW: Final = 0.75
"""Room for a row of the list, which may take two lines (cm)."""


def map_source(layout: Layout, paper: Paper, title: str) -> str:
    """Typst source of the page; a long list of pieces runs on to a second."""
    squares = test_squares(stacked=True)
    left, gap, high = 10.4, 0.6, 21.2
    room = paper.room - left - gap
    beside = len(layout.placed) <= BESIDE
    scale, drawing = _map(layout, room, high - (ROW * len(layout.placed) + 0.9 if beside else 0.0))
    listed = _list(layout)
    right = f"align(center)[{picture(drawing, scale)}]" + (f" + v(3mm) + [{listed}]" if beside else "")
    return "\n".join(
        [
            f"#set page(width: {paper.width}cm, height: {paper.height}cm, margin: {paper.margin}cm)",
            f'#set text(font: "{FONT}", size: 9.5pt, hyphenate: false)',
            "#set par(leading: 0.45em, spacing: 0.6em)",
            "#set table(align: left + horizon)",
            PRELUDE,
            f"#block(below: 2mm, {words(title, size=15, bold=True)})",
            f"#par({words(_(FULL_SIZE), bold=True)})",
            f"#par({words(_(JOIN))})",
            "#v(1mm)",
            f"#grid(columns: ({left}cm, {room}cm), column-gutter: {gap}cm, [{picture(squares, 1.0)}], {right})",
            "#v(1mm)",
            f"#par({words(_(KEY))})",
            "" if beside else listed,
        ]
    )


def _map(layout: Layout, room: float, high: float) -> tuple[float, Drawing]:
    """Scale and drawing of all sheets with their names and the pieces with their numbers."""
    x0, y0, x1, y1 = bounds(point for window in layout.windows for point in _core(window))
    scale = min(room / (x1 - x0), high / (y1 - y0), LARGEST)
    strokes = [Stroke("cut", placed.there(placed.each.covers), True) for placed in layout.placed]
    strokes += [Stroke("dimension", (*_core(window), _core(window)[0])) for window in layout.windows]
    cell = scale * (layout.windows[0].frame[2] - layout.windows[0].frame[0])
    size = min(9.0, max(4.5, 9.0 * cell))
    letters = Lettering(scale)
    for window in layout.windows:
        left, _, _, top = window.frame
        at = (left + 0.05 / scale, top - (0.05 + 0.6 * size * CM_PER_POINT) / scale)
        letters.put(Label("note", window.name, at, "start", size))
    for placed in layout.placed:
        a, b, c, d = bounds(placed.there(placed.each.covers))
        middle = ((a + c) / 2, (b + d) / 2)
        spots = sorted(_spots(placed, size * CM_PER_POINT / scale), key=lambda spot: math.dist(spot, middle))
        letters.first_free(Label("number", str(placed.each.number), spot, size=1.2 * size) for spot in (middle, *spots))
    return scale, Drawing(tuple(strokes), tuple(letters.labels))


def _spots(placed: Placed, step: float) -> list[Point]:
    """Places within a piece, or beside it."""
    ring = placed.there(placed.each.covers)
    a, b, c, d = bounds(ring)
    paper = shapely.Polygon(ring)
    across, up = ([low + i * step for i in range(int((high - low) / step) + 1)] for low, high in ((a, c), (b, d)))
    return [(x, y) for x in across for y in up if paper.contains(shapely.Point(x, y))]


def _core(window: Window) -> Line:
    """What of a sheet is seen once they are joined."""
    x0, y0, x1, y1 = window.frame
    return ((x0, y0 + OVERLAP), (x1 - OVERLAP, y0 + OVERLAP), (x1 - OVERLAP, y1), (x0, y1))


def _list(layout: Layout) -> str:
    """Every piece, how often it is cut, and the sheets it is on."""
    sheets: dict[int, list[str]] = {}
    for window in layout.windows:
        for each in pieces_on(shown_on(layout, window), window):
            sheets.setdefault(id(each), []).append(window.name)
    rows: list[Sequence[str]] = []
    for each in sorted((placed.each for placed in layout.placed), key=lambda each: each.number):
        on = sheets.get(id(each), [])
        rows.append(
            [
                words(str(each.number), bold=True),
                words(each.name),
                words(each.how.removeprefix(_("cut {how}", how=""))),
                words(on[0] if len(on) == 1 else _("{low} to {high}", low=on[0], high=on[-1]) if on else ""),
            ]
        )
    head = [_("no."), _("piece"), _("cut"), _("sheets")]
    return table(["auto", "1fr", "auto", "auto"], head, rows, 8.5)
