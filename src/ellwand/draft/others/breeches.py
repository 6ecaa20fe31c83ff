"""Simple breeches: two straight legs, a square gusset between them, a casing for a cord or a band at the waist.

Each inner edge of a leg is, from the waist down: centre seam, one side of the gusset, inside leg.  The gusset's four
corners lie at the foot of the centre front, at the top of one inside leg, at the foot of the centre back and at the
top of the other.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from ellwand.draft.blank import Blank, Book, Run, climb, walked_back
from ellwand.draft.others.shapes import Leg, down_to, walk
from ellwand.draft.seamline import Segment
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, mirror
from ellwand.language import _
from ellwand.model.choices import Sewing, girth_over
from ellwand.model.draft import EdgeRef
from ellwand.model.others import Breeches, BreechesSize, crotch_path
from ellwand.model.piece import EdgeKind
from ellwand.model.wearer import HANDS, Hand, Wearer
from ellwand.units import format_length, round_near, round_up

SITTING_EASE: Final = 6.0
"""Over the way from front to back waist between the legs (cm): common practice, no source."""
THIGH_EASE: Final = 6.0
"""Least ease round the thigh (cm): common practice, no source."""
CASING: Final = 4.0
"""Cloth turned down at the waist for the cord (cm): common practice, no source."""
BAND_EASE: Final = 6.0
"""The band over the waist's girth, its ends lapping (cm): common practice, no source."""
BAND_WIDTH: Final = 4.0
"""Width of the band when it is folded (cm): common practice, no source."""
SLIT: Final = 18.0
"""Opening below the band in front (cm): common practice, no source."""
LEAST_INSIDE: Final = 3.0
"""A shorter inside leg cannot be sewn (cm): common practice, no source."""


def draw_breeches(breeches: Breeches, sewing: Sewing, beneath_mm: float, wearer: Wearer, book: Book) -> BreechesSize:
    """Enter the breeches' pieces and seams; returns their sizes (cm).

    Raises CannotDraft where they end above the gusset.
    """
    size = _sized(breeches, sewing.chalk, girth_over(beneath_mm), wearer)
    ring = _leg(size, sewing)
    parts: dict[Hand, str] = {
        hand: book.add(f"leg-{hand}", Blank("leg", "other", ring), mirrored=hand == "right", where=hand)
        for hand in HANDS
    }
    if size.gusset:
        g, seam = size.gusset, sewing.allowance
        corners = [(g, 0.0), (g, g), (0.0, g), (0.0, 0.0)]
        # seen from below, round from the foot of the centre front: the wearer's right, the centre back, the left
        names = ["front-right", "back-right", "back-left", "front-left"]
        legs = [Leg(name, "gusset", (to,), seam) for name, to in zip(names, corners, strict=True)]
        book.add("gusset", Blank("gusset", "gusset", walk((0.0, 0.0), legs), small=True))
        for hand, part in parts.items():
            for face in ("front", "back"):
                book.sew(EdgeRef(part, f"gusset-{face}"), EdgeRef("gusset", f"{face}-{hand}"), "crotch gusset")
    for part in parts.values():
        book.sew(EdgeRef(part, "inside-front"), EdgeRef(part, "inside-back"), "inside leg seam")
    for face in ("front", "back"):
        book.sew(EdgeRef(parts["left"], f"centre-{face}"), EdgeRef(parts["right"], f"centre-{face}"), "rise")
    if size.band:
        _band(size, sewing, book, parts)
    return size


def _band(size: BreechesSize, sewing: Sewing, book: Book, parts: Mapping[Hand, str]) -> None:
    """The band seen from behind: the wearer's left at the left, its ends meeting in front."""
    long, tall, seam = size.band, 2 * round_near(BAND_WIDTH, size.grid), sewing.allowance
    ring = walk(
        (0.0, 0.0),
        [
            Leg("lower-left", "band seam", ((long / 2, 0.0),), seam),
            Leg("lower-right", "band seam", ((long, 0.0),), seam),
            Leg("right-end", "waist", ((long, tall),), seam),
            Leg("upper", "waist", ((0.0, tall),), seam),
            Leg("left-end", "waist", ((0.0, 0.0),), seam),
        ],
    )
    book.add("band", Blank("band", "other", ring, small=True))
    for hand, part in parts.items():
        book.sew(EdgeRef(part, "waist"), EdgeRef("band", f"lower-{hand}"), "band seam", ease=size.leg - long / 2)


def _sized(breeches: Breeches, grid: float, under: float, wearer: Wearer) -> BreechesSize:
    leg = round_up(
        max((wearer["hip_girth"] + breeches.ease + under) / 2, wearer["thigh_girth"] + THIGH_EASE + under), grid
    )
    gusset = round_near(breeches.gusset, grid)
    path = crotch_path(wearer) + SITTING_EASE + under / math.pi
    banded = breeches.waist == "band"
    above = round_near(BAND_WIDTH, grid) if banded else 0.0
    rise = round_up((path - gusset * math.sqrt(2)) / 2 - above, grid)
    long = down_to(wearer, "waist_to_floor", breeches.length, grid) - above
    hem = leg if breeches.hem is None else round_near(breeches.hem, grid)
    below = long - rise - gusset
    if below < LEAST_INSIDE:
        least = math.ceil(rise + gusset + LEAST_INSIDE)
        raise CannotDraft(
            "garment.breeches.length",
            _(
                "{long} from the waist ends above the legs, which part {down} down",
                long=format_length(long),
                down=format_length(rise + gusset),
            ),
            _("make it at least {least}, or the gusset smaller", least=format_length(least)),
        )
    if hem > leg:
        raise CannotDraft(
            "garment.breeches.hem",
            _("{hem} is wider than the leg, {leg}", hem=format_length(hem), leg=format_length(leg)),
            _("make it narrower, or give more ease"),
        )
    band = round_up(wearer["waist_girth"] + BAND_EASE + under, 2 * grid) if banded else 0.0
    if band > 2 * leg:
        raise CannotDraft(
            "garment.breeches.waist",
            _(
                "a band of {band} is longer than the breeches are wide, {wide}",
                band=format_length(band),
                wide=format_length(2 * leg),
            ),
            _('give more ease, or choose waist = "casing"'),
        )
    inside = math.hypot(below, (leg - hem) / 2)
    return BreechesSize(
        grid, leg, hem, long, rise, gusset, inside, band, min(SLIT, round_near(rise / 2, grid)) if banded else 0.0
    )


def _leg(size: BreechesSize, sewing: Sewing) -> tuple[Run, ...]:
    """The wearer's left leg, its front edge at the viewer's left."""
    half, low, seam = size.leg / 2, size.hem / 2, sewing.allowance
    edge: Line = ((low, 0.0), (half, size.length - size.rise - size.gusset), (half, size.length))
    tags: list[Segment] = [
        ("inside", "inside leg seam", size.inside),
        ("gusset", "gusset", size.gusset),
        ("centre", "centre seam", size.rise),
    ]
    back = climb("", edge, [tag for tag in tags if tag[2]], seam)
    tags[2:] = [("centre", "centre seam", size.rise - size.slit), ("slit", "waist", size.slit)]
    front = walked_back(climb("", mirror(edge), [tag for tag in tags if tag[2]], seam))
    kind: EdgeKind = "band seam" if size.band else "waist"
    down = seam if size.band else CASING
    top = Run("waist", kind, ((half, size.length), (-half, size.length)), down, turned=not size.band)
    hem = Run("hem", "leg", ((-low, 0.0), (low, 0.0)), sewing.hem, turned=True)
    return (
        hem,
        *(replace(run, id=f"{run.id.strip('-')}-back") for run in back),
        top,
        *(replace(run, id=f"{run.id.strip('-')}-front") for run in front),
    )
