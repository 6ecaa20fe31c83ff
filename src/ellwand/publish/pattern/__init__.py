"""The full-size pattern as PDF: on sheets to be joined, on a roll, or for a projector."""

from __future__ import annotations

from typing import Final

from ellwand.depict.pattern import FullSize, legend, pattern_pieces
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.model.names import named
from ellwand.publish.letters import cut_short
from ellwand.publish.pattern.binding import bound, bound_apart
from ellwand.publish.pattern.map_page import map_source
from ellwand.publish.pattern.sheets import MARGIN, PAPERS, Layout, PaperName, cropped, on_sheets, tiled

LONGEST: Final = 500.0
"""No page is longer or wider (cm): a PDF page ends at 14 400 points, 508 cm, which some readers hold to."""
NARROWEST_ROLL: Final = 30.0
PROJECTED: Final = 4.0
"""Lines for a projector are so much thicker."""
LONGEST_NAME: Final = 60

__all__ = ["PAPERS", "PaperName", "long_sheet_pdf", "pattern_pdf", "projector_pdf"]


def pattern_pdf(garment: Garment, paper: PaperName = "A4", *, only_curved: bool = False) -> bytes:
    """Every piece once at full size over sheets of paper, with a map page (on A0: test squares among the pieces).

    ``only_curved``: only the curves that chalk and a rule cannot draw, each with some of the piece about it.
    Raises BadInput when there are none.
    """
    pieces = _pieces(garment, only_curved=only_curved)
    title = _title(garment, only_curved=only_curved)
    sheet = PAPERS[paper]
    if paper == "A0":
        room = (sheet.room, sheet.height - 2 * sheet.margin)
        ways = (on_sheets((legend(title), *pieces), room), tiled((legend(title), *pieces), sheet))
        return bound(min(ways, key=lambda way: (len(way.windows), way.joins)), title)
    layout = tiled(pieces, sheet)
    return bound(layout, title, front=map_source(layout, sheet, title))


def long_sheet_pdf(garment: Garment, width_cm: float) -> tuple[bytes, ...]:
    """Every piece once on paper from a roll ``width_cm`` wide: one PDF for each sheet, none longer than 5 m.

    Raises BadInput when the roll is narrower than 30 cm or wider than 5 m.
    """
    if not NARROWEST_ROLL <= width_cm <= LONGEST:
        raise BadInput(
            "width",
            _("a roll of {width:g} cm cannot be used", width=width_cm),
            _("give a width from 30 to 500 cm"),
        )
    return bound_apart(_on_a_roll(garment, width_cm), _title(garment))


def long_sheet_count(garment: Garment, width_cm: float) -> int:
    """How many sheets that makes."""
    return len(_on_a_roll(garment, width_cm).windows)


def _on_a_roll(garment: Garment, width_cm: float) -> Layout:
    """Where every piece lies on a roll so wide."""
    room = (width_cm - 2 * MARGIN, LONGEST - 2 * MARGIN)
    return cropped(on_sheets((legend(_title(garment)), *_pieces(garment)), room), width=False)


def projector_pdf(garment: Garment) -> bytes:
    """Every piece once on one page with thick dark lines; on more than one where 5 m × 5 m are not enough."""
    title = _title(garment)
    pieces = (legend(title), *_pieces(garment))
    tall = LONGEST - 2 * MARGIN
    widths = (150.0, 200.0, 300.0, 400.0, tall)
    layouts = (cropped(on_sheets(pieces, (width, tall)), width=True) for width in widths)
    layout = next((each for each in layouts if len(each.windows) == 1), None)
    return bound(layout or cropped(on_sheets(pieces, (tall, tall)), width=True), title, thick=PROJECTED)


def _pieces(garment: Garment, *, only_curved: bool = False) -> tuple[FullSize, ...]:
    pieces = pattern_pieces(garment, only_curved=only_curved)
    if not pieces:
        raise BadInput("pattern", _("it has no curved edges"), _("chalk it from the card"))
    return pieces


def _title(garment: Garment, *, only_curved: bool = False) -> str:
    name = cut_short(garment.wearer.name, LONGEST_NAME)
    style = cut_short(named(garment.title), LONGEST_NAME)
    style = style[:1].upper() + style[1:]
    if only_curved:
        if name:
            return _("{garment} for {name}: full-size curved edges", garment=style, name=name)
        return _("{garment}: full-size curved edges", garment=style)
    if name:
        return _("{garment} for {name}: full-size pattern", garment=style, name=name)
    return _("{garment}: full-size pattern", garment=style)
