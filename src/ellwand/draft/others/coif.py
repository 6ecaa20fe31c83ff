"""A coif: two halves with a seam over the head, or two sides and a band between them.

How it is shaped (a straight front and lower edge, rounded behind) and its shares of the head: common practice, no
source.
"""

from __future__ import annotations

import math
from typing import Final

from ellwand.draft.blank import Blank, Book
from ellwand.draft.others.shapes import Leg, walk
from ellwand.geometry.lines import Line, arc, length
from ellwand.model.choices import Sewing, girth_over
from ellwand.model.draft import EdgeRef
from ellwand.model.others import Coif, CoifSize
from ellwand.model.wearer import HANDS, Wearer, upper
from ellwand.units import round_near, round_up

OVER_THE_HEAD: Final = 0.31
"""From the ear over half the crown, as a share of the head's girth: from memory (survey means of the arc)."""
BELOW_THE_EAR: Final = 4.0
"""How far a coif reaches below the ear (cm): common practice, no source."""
BACK_TO_FACE: Final = 1 / 3
"""Width of one half as a share of the head's girth: common practice, no source."""
ROUNDED: Final = 0.6
"""Radius behind as a share of that width: common practice, no source."""
BAND: Final = 8.0
"""Width of the band in the middle (cm): common practice, no source."""


def draw_coif(coif: Coif, sewing: Sewing, beneath_mm: float, wearer: Wearer, book: Book) -> CoifSize:
    """Enter the coif's pieces and seams; returns its sizes (cm)."""
    grid, seam = sewing.chalk, sewing.allowance
    head = upper(wearer.measures["head_girth"]) + coif.ease + girth_over(beneath_mm)
    width = round_up(BACK_TO_FACE * head, grid)
    height = round_up(OVER_THE_HEAD * head + BELOW_THE_EAR, grid)
    curve = round_near(ROUNDED * width, grid)
    band = round_near(BAND, 2 * grid) if coif.cut == "band" else 0.0
    w, h, r = width - band / 2, height - band / 2, curve - band / 2
    over = crown_line(w, h, r)
    ring = walk(
        (0.0, 0.0),
        [
            Leg("lower", "edge", ((w, 0.0),), seam),
            Leg("crown", "crown seam", over[1:], seam),
            Leg("face", "edge", ((0.0, 0.0),), seam),
        ],
    )
    name = "coif side" if band else "coif half"
    parts = {
        hand: book.add(f"coif-{hand}", Blank(name, "other", ring, small=True), mirrored=hand == "right")
        for hand in HANDS
    }
    if band:
        long = length(over)
        strip = walk(
            (0.0, 0.0),
            [
                Leg("nape", "edge", ((band, 0.0),), seam),
                Leg("right", "crown seam", ((band, long),), seam),
                Leg("brow", "edge", ((0.0, long),), seam),
                Leg("left", "crown seam", ((0.0, 0.0),), seam),
            ],
        )
        middle = book.add("band", Blank("band", "other", strip, small=True))
        for hand, part in parts.items():
            book.sew(EdgeRef(part, "crown"), EdgeRef(middle, hand), "crown seam")
    else:
        book.sew(EdgeRef(parts["left"], "crown"), EdgeRef(parts["right"], "crown"), "crown seam")
    return CoifSize(grid, width, height, curve, band, length(over))


def crown_line(width: float, height: float, curve: float) -> Line:
    """From the nape up the back, round a quarter circle and forward to the brow (cm)."""
    return (
        (width, 0.0),
        *arc((width - curve, height - curve), curve, 0.0, math.pi / 2),
        (0.0, height),
    )
