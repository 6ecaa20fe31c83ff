"""Hems and facings in the picture: the lines in which they are sewn down."""

from __future__ import annotations

from collections.abc import Iterator

from ellwand.adorn.applied.facings import SLIT_FACING, edge_allowance
from ellwand.depict.view_seams import opened_at, slit_of
from ellwand.depict.view_trunk import Trunk
from ellwand.geometry.lines import backwards, mirror
from ellwand.model.draft import Draft
from ellwand.model.drawing import Stroke

WITHIN = 0.05
"""Stitching keeps so far (cm) from the outline, which would cover it."""


def stitched(draft: Draft, trunk: Trunk) -> Iterator[Stroke]:
    """The hem's line, and those of the facings of neck, slit and splits; a hem beneath a band is not seen."""
    hem = next((edge.allowance for piece in draft.pieces for edge in piece.edges if edge.kind == "hem"), 0.0)
    if hem and all(band.at != "hem" for band in draft.adornment.bands):
        right = trunk.hem(hem)
        yield Stroke("stitching", (*backwards(mirror(right)), *right[1:]))
    if draft.choices.neck.facing != "none":
        yield from _neck(draft, trunk)
    wide = _strip(draft)
    for split in draft.choices.splits:
        if split.facing == "strip":
            for line in opened_at(trunk, split.place):
                for side in (wide, -wide) if split.place != "side" else (wide if line[0][0] < 0 else -wide,):
                    yield Stroke("stitching", tuple((x + side, y) for x, y in line))


def _strip(draft: Draft) -> float:
    """The finished width of a straight or bias facing (cm)."""
    return max(1.0, draft.choices.neck.facing_width - 2 * edge_allowance(draft))


def _neck(draft: Draft, trunk: Trunk) -> Iterator[Stroke]:
    from shapely import LineString, Polygon, get_parts, unary_union

    shaped = draft.choices.neck.facing == "shaped"
    wide = draft.choices.neck.facing_width if shaped else _strip(draft)
    neck = (*backwards(mirror(p for p in trunk.neck if p[0] > 1e-6)), *trunk.neck)
    grounds = [LineString(neck).buffer(wide, join_style="mitre")]
    if slit := slit_of(trunk):
        grounds.append(LineString(slit).buffer(wide if shaped else SLIT_FACING / 2, join_style="mitre"))
    body = Polygon(trunk.outline()).buffer(0).buffer(-WITHIN)
    for part in get_parts(unary_union(grounds).boundary.intersection(body)):
        if part.geom_type == "LineString":
            yield Stroke("stitching", tuple((float(x), float(y)) for x, y in part.coords))
