"""Any drawing makes a card of one piece, and its bridges are as wide as was asked: found by shapely's erosion."""

from __future__ import annotations

import math

import shapely
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely import Point, Polygon, affinity, box, get_parts
from shapely.geometry.base import BaseGeometry

from ellwand.adorn.stencils.stencil import motif_shape, stencil
from ellwand.errors import CannotDraft
from ellwand.model.motif import Motif, Region

SPECK = 0.011
"""Bits of card and window smaller than a square of 1 mm are not cut (cm²)."""
NEAR = 0.004
"""Half a bridge less so much is found by the erosion (cm)."""

SPREAD = st.floats(0.35, 1.0)


def as_motif(shape: BaseGeometry) -> Motif:
    """A shape as a motif."""
    x0, y0, _, _ = shape.bounds
    regions = []
    for part in get_parts(shapely.orient_polygons(affinity.translate(shape, -x0, -y0))):
        rings = [tuple((float(x), float(y)) for x, y in ring.coords[:-1]) for ring in (part.exterior, *part.interiors)]
        regions.append(Region(rings[0], tuple(rings[1:])))
    return Motif("drawing", tuple(regions))


@st.composite
def blots(draw: st.DrawFn) -> BaseGeometry:
    """A star-shaped polygon with uneven rays."""
    rays = draw(st.lists(SPREAD, min_size=3, max_size=14))
    size = draw(st.floats(0.3, 5.0))
    turn = draw(st.floats(0, math.tau))
    spots = [
        (size * ray * math.cos(turn + math.tau * i / len(rays)), size * ray * math.sin(turn + math.tau * i / len(rays)))
        for i, ray in enumerate(rays)
    ]
    return affinity.translate(Polygon(spots).buffer(0), draw(st.floats(-4, 4)), draw(st.floats(-4, 4)))


@st.composite
def nested(draw: st.DrawFn) -> BaseGeometry:
    """A blot with a blot cut out of it, one laid in that, and so on inward."""
    shape = whole = draw(blots())
    for level in range(draw(st.integers(1, 4))):
        share = draw(st.floats(0.45, 0.9))
        whole = affinity.scale(whole, share, share, origin=whole.representative_point())
        shape = shape.difference(whole) if level % 2 == 0 else shape.union(whole)
    return shape


@st.composite
def lattices(draw: st.DrawFn) -> BaseGeometry:
    """Squares or discs on a grid, apart, touching or lapping over each other."""
    pitch, side = draw(st.floats(0.6, 2.0)), draw(st.floats(0.4, 2.4))
    across, up = draw(st.integers(1, 4)), draw(st.integers(1, 4))
    round_ = draw(st.booleans())
    spots = [(i * pitch, j * pitch) for i in range(across) for j in range(up) if (i + j) % 2 == 0]
    cells = [Point(x, y).buffer(side / 2, quad_segs=6) if round_ else box(x, y, x + side, y + side) for x, y in spots]
    ring = shapely.union_all(cells)
    return ring.difference(affinity.scale(ring, 0.5, 0.5)) if draw(st.booleans()) else ring


DRAWINGS = st.lists(st.one_of(nested(), lattices(), blots()), min_size=1, max_size=3).map(shapely.union_all)
"""Drawings that lie over each other."""


@settings(max_examples=160, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
@given(shape=DRAWINGS.filter(lambda shape: shape.area > 0.1), width=st.sampled_from([0.3, 0.35, 0.5]))
def test_the_card_is_one_piece_and_holds_every_island(shape: BaseGeometry, width: float) -> None:
    motif = as_motif(shape)
    asked = motif_shape(motif)
    try:
        made = stencil(motif, width)
    except CannotDraft:
        # refused only where nothing of it is four times as wide as a bridge
        assert asked.buffer(-2 * width).is_empty
        return
    sheet, cut = Polygon(made.card), shapely.union_all([Polygon(ring) for ring in made.windows])
    card = sheet.difference(cut)
    assert len([part for part in get_parts(card) if part.area > 1e-6]) == 1
    # windows are of the motif, but for specks of card within it that no knife can leave
    specks = [part for part in get_parts(sheet.difference(asked)) if part.area < SPECK]
    assert cut.difference(shapely.union_all([asked, *specks])).area < SPECK
    assert math.isclose(made.taken, max(0.0, asked.area - cut.area), abs_tol=1e-6)
    # eroded by half a bridge, what was wide enough before and every island hang together
    eroded = card.buffer(NEAR - width / 2, quad_segs=32)
    pieces = list(get_parts(eroded))
    wide = [part for part in get_parts(sheet.difference(asked).buffer(-width / 2 - NEAR)) if not part.is_empty]
    homes = {i for part in wide for i, piece in enumerate(pieces) if piece.intersects(part)}
    assert len(homes) == 1
    for island in get_parts(sheet.difference(asked)):
        if island.area > SPECK:
            assert pieces[next(iter(homes))].intersects(island)
    assert all(bridge.width >= width for bridge in made.bridges)
