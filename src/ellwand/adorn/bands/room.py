"""Whether bands have room where they lie: on their parts, and beside each other."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from typing import Final

from shapely import LineString, Polygon

from ellwand.errors import CannotDraft
from ellwand.language import _
from ellwand.model.band import Band
from ellwand.model.draft import Dimensions, Draft, EdgeRef
from ellwand.model.names import named
from ellwand.model.run import Stretch, hand_in
from ellwand.model.surface import Surface, surface_of
from ellwand.units import format_length

ENDS: Final = frozenset({"armhole", "gusset"})
"""Seams that no band goes over; over all others it goes on to the next part."""
LOST: Final = 0.25
"""So much of a band's breadth may lie beyond its part, as where it turns a corner or narrows to a seam: our own."""


def check_room(draft: Draft, bands: Sequence[Band]) -> None:
    """Raises CannotDraft where a band is wider than what it lies on, or lies on another."""
    surface = surface_of(draft)
    for band in bands:
        for stretch in band.run.stretches:
            _check_breadth(surface, band, stretch)
    for one, other in itertools.combinations(bands, 2):
        if one.number != other.number and _on_each_other(draft, one, other):
            raise CannotDraft(
                f"garment.bands[{other.number}]",
                _("it would lie on another band at the {place}", place=named(one.at.replace("-", " "))),
                _("move it, make one of them narrower, or leave one out"),
            )


def _check_breadth(surface: Surface, band: Band, stretch: Stretch) -> None:
    """The band's breadth measured square to the middle of a stretch."""
    piece = surface.pieces[stretch.part]
    line = LineString(stretch.points)
    if line.length < band.width:
        return
    inner = line.offset_curve((band.width if band.run.along == "edge" else band.width / 2) * hand_in(stretch))
    if inner.is_empty:
        return
    at = inner.interpolate(0.5, normalized=True)
    if Polygon(piece.sewn, piece.sewn_holes).buffer(LOST * band.width).contains(at):
        return
    over = min(piece.edges, key=lambda edge: LineString(edge.points).distance(at))
    if EdgeRef(stretch.part, over.id) not in surface.across or over.kind in ENDS:
        raise CannotDraft(
            f"garment.bands[{band.number}].width",
            _(
                "a band {width} wide at the {name} runs out over the {kind}",
                width=format_length(band.width),
                name=named(band.run.name),
                kind=named(over.kind),
            ),
            _("make it narrower"),
        )


def _on_each_other(draft: Draft, one: Band, other: Band) -> bool:
    for (line, low, high), (beside, least, most) in itertools.product(_covers(draft, one), _covers(draft, other)):
        if line == beside and min(high, most) - max(low, least) > 1e-6:
            return True
    return False


def _covers(draft: Draft, band: Band) -> Iterator[tuple[str, float, float]]:
    """What a band covers: of which line, from where to where (cm beside it)."""
    height = draft.choices.bands[band.number - 1].height or 0.0
    half = band.width / 2
    hand = next((hand for hand in ("left", "right") if hand in band.run.name), "")
    if band.at == "hem" and isinstance(draft.settled, Dimensions):
        yield "skirt", 0.0, band.width
    elif band.at == "skirt ring":
        yield "skirt", height - half, height + half
    elif band.at == "cuffs":
        yield f"arm {hand}", 0.0, band.width
    elif band.at == "arm ring":
        yield f"arm {hand}", height - half, height + half
    elif band.at == "upper arm ring":
        size = draft.dimensions
        middle = next(long for name, long in size.sleeve_lengths.items() if name == hand) - height
        yield f"arm {hand}", middle - half, middle + half
    else:
        yield f"{band.at}: {band.run.name}", 0.0, band.width
