"""Stencils, blocks and transfers at full size: as PDF on sheets of paper, and as SVG for a cutting machine."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final
from xml.sax.saxutils import escape

from ellwand.depict.lettering import shortened
from ellwand.depict.pattern.fullsize import FullSize
from ellwand.depict.stencil_view import RING, Tool, card_of, test_lines, tool_sheet, tools
from ellwand.depict.words.painting import sheet_notes
from ellwand.depict.words.repeats import motif_named
from ellwand.geometry.lines import Line, Point, bounds
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.model.names import named
from ellwand.model.stencil import Stencil
from ellwand.publish.pattern.binding import bound
from ellwand.publish.pattern.map_page import JOIN
from ellwand.publish.pattern.sheets import PAPERS, PaperName, on_sheets
from ellwand.publish.text import clean

LONGEST_NAME: Final = 60


def stencils_pdf(garment: Garment, paper: PaperName = "A4") -> bytes:
    """Every stencil, block, shape and transfer once at full size; b'' when the garment needs none.

    What is larger than a sheet runs on over several that are joined; nothing else is cut through.
    """
    pieces = [each for tool in tools(garment.draft.adornment.repeats) for each in tool_sheet(tool, garment.wearer.unit)]
    if not pieces:
        return b""
    return sheets_pdf(pieces, _title(garment), paper, sheet_notes(garment.draft.adornment.repeats))


def sheets_pdf(pieces: Sequence[FullSize], title: str, paper: PaperName = "A4", notes: Sequence[str] = ()) -> bytes:
    """Full-size drawings on sheets, with the lines to measure and the ``notes`` on the first."""
    sheet = PAPERS[paper]
    room = (sheet.room, sheet.height - 2 * sheet.margin)
    layout = on_sheets((test_lines(title, notes), *pieces), room)
    if layout.joins:
        layout = on_sheets((test_lines(title, (*notes, _(JOIN))), *pieces), room)
    return bound(layout, title)


def stencil_svgs(garment: Garment) -> dict[int, str]:
    """For a cutting machine: of each stencil, by its number on the sheets, the card as SVG in mm."""
    cut = [(tool, card_of(tool)) for tool in tools(garment.draft.adornment.repeats) if tool.by == "stencil"]
    return {tool.number: _svg(tool, card) for tool, card in cut if card is not None}


def _svg(tool: Tool, made: Stencil) -> str:
    """Hairlines in three layers: windows and marks, to be cut first, and the card's edge."""
    x0, y0, x1, y1 = bounds(made.card)

    def at(point: Point) -> str:
        return f"{10 * (point[0] - x0):.3f} {10 * (y1 - point[1]):.3f}"

    def path(line: Line) -> str:
        return f'<path d="M{" L".join(map(at, line))}Z"/>'

    wide, high = 10 * (x1 - x0), 10 * (y1 - y0)
    title = _("{motif}: stencil", motif=motif_named(tool.motif.name))
    spots = [at(mark).split() for mark in made.marks]
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:.3f}mm" height="{high:.3f}mm"'
            f' viewBox="0 0 {wide:.3f} {high:.3f}" fill="none" stroke="#000" stroke-width="0.1">',
            f"<title>{escape(clean(f'{tool.number} {title}'))}</title>",
            '<g id="windows">',
            *map(path, made.windows),
            '</g><g id="marks">',
            *(f'<circle cx="{x}" cy="{y}" r="{10 * RING:.3f}"/>' for x, y in spots),
            '</g><g id="card">',
            path(made.card),
            "</g></svg>",
            "",
        ]
    )


def _title(garment: Garment) -> str:
    name = shortened(garment.wearer.name, LONGEST_NAME)
    style = shortened(named(garment.title), LONGEST_NAME)
    what = f"{style[:1].upper()}{style[1:]}"
    if name:
        return _("{garment} for {name}: stencils and transfers", garment=what, name=name)
    return _("{garment}: stencils and transfers", garment=what)
