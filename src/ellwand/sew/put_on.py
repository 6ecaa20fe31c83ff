"""The stitching that bands, motifs and charges are put on with."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from ellwand.geometry.lines import length
from ellwand.model.adornment import Adornment
from ellwand.model.band import Band
from ellwand.model.choices import Sewing
from ellwand.model.motif import Motif, Region
from ellwand.model.repeat import Repeat
from ellwand.model.stitch import Stitching
from ellwand.sew.rows import applied_rows


def trim_rows(
    code: str, which: Iterable[int], adornment: Adornment, sewing: Sewing, *, thickness: float
) -> Iterator[Stitching]:
    """The rows of a step that puts on those bands, motifs or charges; none for what is painted or embroidered.

    A band is sewn down along both sides, a cord once, and its strips are joined; shapes are sewn down all round.
    ``thickness`` of one layer (cm).
    """
    for i in which:
        if code.startswith("bands"):
            band = adornment.bands[i]
            yield from applied_rows(_joined(band), _sides(band), sewing, thickness=thickness, runs=2)
        elif code.startswith("motifs"):
            yield from applied_rows(0.0, _outlines(adornment.repeats[i]), sewing, thickness=thickness)
        elif code == "charges":
            around = _around(adornment.charges[i].regions)
            yield from applied_rows(0.0, around, sewing, thickness=thickness)


def _sides(band: Band) -> float:
    return band.length if band.make == "cord" else band.longer + band.shorter


def _joined(band: Band) -> float:
    """Across its strips where they meet (cm)."""
    between = len(band.strips) if band.run.closed else len(band.strips) - 1
    return max(0, between) * band.width


def _outlines(repeat: Repeat) -> float:
    """Round all motifs that are sewn on (cm)."""
    if repeat.chosen.by != "appliqué":
        return 0.0
    corners = sum(each.corner and not each.again for each in repeat.placements) if repeat.corner else 0
    own = (repeat.count - corners) * _edge(repeat.motif)
    return own + (corners * _edge(repeat.corner) if repeat.corner else 0.0)


def _edge(motif: Motif) -> float:
    return _around(motif.regions)


def _around(regions: Iterable[Region]) -> float:
    rings = (ring for region in regions for ring in (region.ring, *region.holes))
    return math.fsum(length((*ring, ring[0])) for ring in rings)
