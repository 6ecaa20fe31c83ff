"""An apron: a rectangle tied round the waist, plain or gathered to a band. Its shares: common practice, no source."""

from __future__ import annotations

from typing import Final

from ellwand.draft.blank import Blank, Book
from ellwand.draft.others.shapes import Leg, down_to, walk
from ellwand.errors import CannotDraft
from ellwand.language import _
from ellwand.model.choices import Sewing, girth_over
from ellwand.model.draft import EdgeRef
from ellwand.model.others import Apron, ApronSize
from ellwand.model.wearer import Wearer
from ellwand.units import format_length, round_near

BAND: Final = 0.5
"""Length of the band as a share of the waist's girth: common practice, no source."""
BAND_WIDTH: Final = 4.0
"""Width of the band when it is folded (cm): common practice, no source."""
FULLNESS: Final = 2.0
"""A gathered apron is so many times as wide as its band: common practice, no source."""
PLAIN: Final = 0.6
"""Width of a plain apron as a share of the hip's girth: common practice, no source."""


def draw_apron(apron: Apron, sewing: Sewing, beneath_mm: float, wearer: Wearer, book: Book) -> ApronSize:
    """Enter the apron's pieces and seam; returns its sizes (cm).

    Raises CannotDraft where a gathered apron would be narrower than its band.
    """
    grid, seam = sewing.chalk, sewing.allowance
    gathered = apron.top == "gathered"
    around = wearer["waist_girth"] + girth_over(beneath_mm)
    band = round_near(BAND * around, grid) if gathered else 0.0
    usual = FULLNESS * band if gathered else PLAIN * (wearer["hip_girth"] + girth_over(beneath_mm))
    width = round_near(usual if apron.width is None else apron.width, grid)
    long = down_to(wearer, "waist_to_floor", apron.length, grid) - (BAND_WIDTH if gathered else 0.0)
    if gathered and width < band:
        raise CannotDraft(
            "garment.apron.width",
            _(
                "{width} cannot be gathered to a band of {band}",
                width=format_length(width),
                band=format_length(band),
            ),
            _('make it wider, or choose top = "plain"'),
        )
    ring = walk(
        (0.0, 0.0),
        [
            Leg("hem", "hem", ((width, 0.0),), sewing.hem, True),
            Leg("right-side", "edge", ((width, long),), seam),
            Leg("top", "band seam" if gathered else "edge", ((0.0, long),), seam),
            Leg("left-side", "edge", ((0.0, 0.0),), seam),
        ],
    )
    book.add("apron", Blank("apron", "other", ring))
    if gathered:
        strip = walk(
            (0.0, 0.0),
            [
                Leg("lower", "band seam", ((band, 0.0),), seam),
                Leg("right-end", "edge", ((band, 2 * BAND_WIDTH),), seam),
                Leg("upper", "edge", ((0.0, 2 * BAND_WIDTH),), seam),
                Leg("left-end", "edge", ((0.0, 0.0),), seam),
            ],
        )
        book.add("band", Blank("band", "other", strip, small=True))
        book.sew(EdgeRef("apron", "top"), EdgeRef("band", "lower"), "band seam", ease=width - band)
    return ApronSize(grid, width, long, band)
