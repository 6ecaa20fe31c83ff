"""The places of the drawing that are pointed at: within it, large enough, and none hidden under the others.

The least size is that of WCAG 2.2 (2.5.8: 24 CSS pixels each way), for a drawing as wide as the bench shows it.
"""

from __future__ import annotations

from shapely import Point, Polygon, unary_union

from ellwand.choose.form import groups
from ellwand.depict.spread import drawing_bounds
from ellwand.depict.view import garment_view
from ellwand.depict.view_zones import spot, zone_of, zones
from ellwand.errors import CannotDraft
from ellwand.web.pages.bench import GROUP_OF
from sweep import garments, made

SEED, EACH = 11, 40
ROOM = 6.0
"""A finger beside a line may reach so far out of the drawing (cm)."""
ELSEWHERE = {"wearer", "sewing", "cloth", "garment"}


def test_every_place_can_be_pointed_at() -> None:
    seen = 0
    for tables, person in garments(SEED, EACH):
        try:
            garment = made(tables, person)
        except CannotDraft:
            continue
        draft = garment.draft
        names = {group.name for group in groups((("garment.style", draft.choices.style),))} | set(GROUP_OF)
        for face in ("front", "back"):
            x0, y0, x1, y1 = drawing_bounds(garment_view(draft, face, "colours"), 1.0)
            found = zones(draft, face)
            for zone in found:
                shape = Polygon(zone.outline)
                assert shape.is_valid
                a0, b0, a1, b1 = shape.bounds
                assert x0 - ROOM <= a0 <= a1 <= x1 + ROOM
                assert y0 - ROOM <= b0 <= b1 <= y1 + ROOM
                assert zone.name in names
            # whatever lies above, something of each place is left to point at
            for name in {zone.name for zone in found}:
                assert spot(found, name) is not None, (name, face)
            if draft.choices.other is None:
                assert {"body", "hem", "neck"} <= {zone.name for zone in found}
            seen += 1
        for finding in garment.proof.findings:
            zone = zone_of(draft, finding)
            assert GROUP_OF.get(zone, zone) in names | ELSEWHERE
    assert seen > EACH


def test_a_spot_lies_in_its_own_place_and_under_no_other() -> None:
    for tables, person in garments(SEED + 1, 10):
        try:
            draft = made(tables, person).draft
        except CannotDraft:
            continue
        found = zones(draft, "front")
        for name in {zone.name for zone in found}:
            at = spot(found, name)
            assert at is not None

            last = max(i for i, zone in enumerate(found) if zone.name == name)
            mine = unary_union([Polygon(zone.outline) for zone in found if zone.name == name])
            assert mine.covers(Point(at))
            assert not any(Polygon(zone.outline).contains(Point(at)) for zone in found[last + 1 :])
