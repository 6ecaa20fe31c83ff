"""Facings, strips, collars and underlaps: they fit the edges they are for, and leave the shell alone."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, unary_union

from bodies import sample
from ellwand.adorn import adorn
from ellwand.choose.options.neck import NECKS, OPENINGS, SLITS
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import length
from ellwand.lay import lay_out
from ellwand.model.cloth import Cloth
from ellwand.model.draft import Draft
from ellwand.model.piece import Piece
from ellwand.prove import prove
from proving_specimens import drafted

BODIES = sample(12, 9)
necks = st.fixed_dictionaries(
    {
        "shape": st.sampled_from(NECKS),
        "slit": st.sampled_from(SLITS),
        "opening": st.sampled_from(OPENINGS),
        "facing": st.sampled_from(["strip", "shaped"]),
        "facing_width": st.integers(3, 7),
    }
)
bodies = st.fixed_dictionaries(
    {
        "cut": st.sampled_from(["wide panels", "shoulder panels"]),
        "shoulder": st.sampled_from(["fold", "seam"]),
        "centre_seam": st.sampled_from(["none", "front", "back", "both"]),
    }
)


def put_on(draft: Draft, name: str) -> list[Piece]:
    return [piece for piece in draft.pieces if piece.kind == "applied" and name in piece.name]


def neck_of(draft: Draft, parts: Any) -> float:
    by_id = {piece.id: piece for piece in draft.pieces}
    return math.fsum(length(edge.points) for part in parts for edge in by_id[part.piece].edges if edge.kind == "neck")


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(necks, bodies, st.sampled_from(BODIES))
def test_a_facing_is_as_long_as_the_neck_and_the_shell_stays_as_it_was(
    neck: dict[str, Any], body: dict[str, Any], wearer: dict[str, Any]
) -> None:
    try:
        plain, person = drafted({"neck": neck, "body": body}, wearer)
        faced = adorn(plain)
    except CannotDraft as error:
        assert error.mend
        return
    around = neck_of(plain, plain.parts)
    if neck["facing"] == "shaped":
        assert neck_of(faced, faced.applied) == pytest.approx(around, abs=1e-6)
        for piece in put_on(faced, "neck facing"):
            follows(piece, neck["facing_width"])
    else:
        allowance = plain.choices.sewing.allowance
        (strip,) = put_on(faced, "neck strip")
        ends = [edge for edge in strip.edges if edge.id.startswith("side")]
        assert strip.count * length(ends[0].points) == pytest.approx(around)
        assert all(edge.allowance == allowance for edge in strip.edges if edge.id.startswith("end"))
    for piece in faced.pieces:
        cut, sewn = Polygon(piece.cut, piece.cut_holes), Polygon(piece.sewn, piece.sewn_holes)
        assert cut.is_valid
        assert sewn.is_valid
        assert cut.buffer(1e-6).covers(sewn)
    assert len(faced.applied) == sum(piece.count for piece in faced.pieces if piece.kind == "applied")
    before, after = prove(plain, person), prove(faced, person)
    assert (before.shell, before.girths) == (after.shell, after.girths)
    assert {f.outcome for f in after.findings} == {f.outcome for f in before.findings}


def follows(piece: Piece, width: float) -> None:
    """Every point of the outer edge lies the width from what is faced, or further only in a corner."""
    faced = unary_union(
        [LineString(e.points) for e in piece.edges if e.kind in ("neck", "neck slit", "shoulder opening")]
    )
    for edge in piece.edges:
        if edge.kind == "facing":
            far = [faced.distance(Point(point)) for point in edge.points]
            # a mitre at a right corner reaches √2 as far; a V's point further
            assert min(far) == pytest.approx(width, abs=0.06)
            assert max(far) < 5.1 * width


def test_a_square_facing_has_the_area_of_a_ring() -> None:
    # a square of side s with a ring w wide round it: 4 w (s + w)
    faced = adorn(drafted({"neck": {"shape": "square", "facing": "shaped", "facing_width": 5}})[0])
    (piece,) = put_on(faced, "neck facing")
    side = faced.dimensions.neck_target / 4
    area = Polygon(piece.sewn, piece.sewn_holes).area
    assert area == pytest.approx(4 * 5 * (side + 5), rel=1e-6)


def test_a_collar_is_as_long_as_the_neck_and_its_overlap() -> None:
    draft = adorn(
        drafted(
            {
                "neck": {"collar": 4},
                "closures": [{"at": "neck slit", "by": "buttons", "lap": "overlap", "overlap": 2}],
            }
        )[0]
    )
    (collar,) = put_on(draft, "collar")
    xs, ys = [x for x, _ in collar.sewn], [y for _, y in collar.sewn]
    assert max(ys) - min(ys) == pytest.approx(neck_of(draft, draft.parts) + 2)
    assert max(xs) - min(xs) == pytest.approx(8)
    (underlap,) = put_on(draft, "underlap")
    assert max(x for x, _ in underlap.sewn) - min(x for x, _ in underlap.sewn) == pytest.approx(4)


@pytest.mark.parametrize(
    ("neck", "says"),
    [
        ({"shape": "square", "slit": "none", "collar": 4}, "does not turn the corners"),
        ({"facing": "shaped", "facing_width": 12}, "runs into the"),
        ({"facing": "strip", "facing_width": 2}, "leaves nothing"),
    ],
)
def test_what_cannot_be_sewn_on_is_refused(neck: dict[str, Any], says: str) -> None:
    with pytest.raises(CannotDraft, match=says):
        adorn(drafted({"neck": neck, "body": {"cut": "shoulder panels"}})[0])


def test_split_strips_are_as_long_as_the_splits() -> None:
    splits = [{"place": "side", "height": 20, "facing": "strip"}, {"place": "centre-back", "height": 30}]
    draft = adorn(drafted({"splits": splits})[0])
    (strip,) = put_on(draft, "side split strip")
    assert strip.count == 4
    assert max(y for _, y in strip.sewn) - min(y for _, y in strip.sewn) == pytest.approx(20)
    assert not put_on(draft, "centre back")


def test_what_is_sewn_on_is_laid_too() -> None:
    draft = adorn(drafted({"neck": {"facing": "shaped", "collar": 3}})[0])
    (lay,) = lay_out(draft.pieces, (*draft.parts, *draft.applied), Cloth("main", 150.0))
    assert {part.id for part in draft.applied} <= {placement.part for placement in lay.placements}
