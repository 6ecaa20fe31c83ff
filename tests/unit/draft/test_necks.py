"""Neck openings of every shape, on real bodies."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bodies import sample
from ellwand.choose.options.neck import NECKS, OPENINGS, SLITS
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, piece_of
from ellwand.prove import prove
from proving_specimens import drafted, found

BODIES = sample(24, 5)

necks = st.fixed_dictionaries(
    {"shape": st.sampled_from(NECKS), "slit": st.sampled_from(SLITS), "opening": st.sampled_from(OPENINGS)},
    optional={
        "ease": st.integers(0, 30),
        "front_drop": st.integers(3, 20),
        "back_drop": st.integers(1, 8),
        "back": st.sampled_from(["round", "pointed"]),
    },
)
bodies = st.fixed_dictionaries(
    {
        "cut": st.sampled_from(["wide panels", "shoulder panels"]),
        "shoulder": st.sampled_from(["fold", "seam"]),
        "centre_seam": st.sampled_from(["none", "front", "back", "both"]),
    }
)


def drawn(draft: Draft, *kinds: str) -> float:
    """The length of all edges of these kinds, all parts counted."""
    return math.fsum(
        length(edge.points) for part in draft.parts for edge in piece_of(draft, part.id).edges if edge.kind in kinds
    )


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(necks, bodies, st.sampled_from(BODIES))
def test_every_neck_is_sized_true_and_passes_the_head_or_is_refused(
    neck: dict[str, Any], body: dict[str, Any], wearer: dict[str, Any]
) -> None:
    try:
        draft, person = drafted({"neck": neck, "body": body}, wearer)
    except CannotDraft as error:
        assert str(error).startswith("garment.")
        assert error.mend
        return
    slit = draft.dimensions.neck_slit
    # a slit's mouth, 0.2 cm wide as drawn, is missing from the neck's own edge; one cut slanting is 0.3 at most
    missing = 0.35 if slit and drawn(draft, "neck slit") and not in_seam(draft) else 0.0
    assert draft.dimensions.neck_target - missing - 0.1 < drawn(draft, "neck") < draft.dimensions.neck_target + 0.1
    proof = prove(draft, person)
    assert not [f for f in proof.findings if f.code in NOT_SOUND_NECKS and f.outcome == "will not work"]
    # judged here from the edges alone: the rim with both lips of what opens it, against the head
    rim = drawn(draft, "neck", "neck slit", "shoulder opening")
    outcome = next(f.outcome for f in proof.findings if f.subject == "neck" and f.code.startswith("neck-"))
    assert (outcome == "will not work") == (rim < person["head_girth"] - 0.01)
    if neck.get("ease", 2) >= 0:
        assert rim >= person["head_girth"] - 0.35


NOT_SOUND_NECKS = {"surface", "one-piece", "two-sided", "openings", "seam-length", "edge-unsewn", "outline-crosses"}


def in_seam(draft: Draft) -> bool:
    return any(edge.allowance for piece in draft.pieces for edge in piece.edges if edge.kind == "neck slit")


def test_a_square_is_as_wide_as_deep() -> None:
    draft, _ = drafted({"neck": {"shape": "square"}})
    ring = piece_of(draft, "body").sewn_holes[0]
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    assert max(xs) - min(xs) == pytest.approx(max(ys) - min(ys)) == pytest.approx(draft.dimensions.neck_target / 4)


def test_a_pointed_v_is_four_straight_lines() -> None:
    draft, _ = drafted({"neck": {"shape": "V", "back": "pointed"}})
    assert len(piece_of(draft, "body").sewn_holes[0]) == 4


@pytest.mark.parametrize("shape", ["round", "oval", "boat", "V", "rectangle", "keyhole"])
def test_drops_that_are_asked_for_are_had(shape: str) -> None:
    draft, _ = drafted({"neck": {"shape": shape, "front_drop": 9, "back_drop": 1.5}, "body": {"shoulder": "seam"}})
    front, back = piece_of(draft, "front"), piece_of(draft, "back")
    for piece, drop in ((front, 9), (back, 1.5)):
        ys = [y for edge in piece.edges if edge.kind == "neck" for _, y in edge.points]
        # a slit's mouth takes a hair of the lowest point away
        assert max(ys) - min(ys) == pytest.approx(drop, abs=0.02)


def test_a_rectangles_slit_runs_on_from_its_side() -> None:
    draft, _ = drafted({"neck": {"shape": "rectangle", "slit": "left"}})
    body = piece_of(draft, "body")
    lips = [edge for edge in body.edges if edge.kind == "neck slit"]
    # as cut, one lip goes straight on from the side; the wearer's left is at the greater x
    widest = max(x for x, _ in body.cut_holes[0])
    assert max(x for lip in lips for x, _ in lip.points) == pytest.approx(widest, abs=0.02)
    assert min(y for _, y in body.cut_holes[0]) == min(y for lip in lips for _, y in lip.points)


@pytest.mark.parametrize("body", [{}, {"shoulder": "seam"}, {"centre_seam": "both"}])
def test_a_slit_behind_is_behind(body: dict[str, Any]) -> None:
    draft, _ = drafted({"neck": {"shape": "round", "slit": "back"}, "body": body})
    lips = [
        (part.id, edge) for part in draft.parts for edge in piece_of(draft, part.id).edges if edge.kind == "neck slit"
    ]
    assert len(lips) == 2
    for part, lip in lips:
        level = piece_of(draft, part).levels[-1]
        # how far below the shoulder line: the lip ends lower than the front neck is deep
        lowest = min((y - level.base_y) * level.up for _, y in lip.points)
        assert draft.dimensions.length - lowest == pytest.approx(2.5 + draft.dimensions.neck_slit, abs=0.1)
        if part.startswith("body") and not body:
            assert level.up == -1


@pytest.mark.parametrize(("opening", "count"), [("shoulder left", 2), ("shoulder right", 2), ("both shoulders", 4)])
def test_open_shoulders_open_where_they_were_asked(opening: str, count: int) -> None:
    draft, _ = drafted({"neck": {"shape": "round", "opening": opening}, "body": {"shoulder": "seam"}})
    edges = [edge for piece in draft.pieces for edge in piece.edges if edge.kind == "shoulder opening"]
    assert len(edges) == count
    if count == 2:
        assert all(opening.removeprefix("shoulder ") in edge.id.split("-") for edge in edges)


def test_a_fold_gives_way_to_an_open_shoulder_and_says_so() -> None:
    findings = found({"neck": {"shape": "round", "opening": "shoulder left"}})
    assert findings["fold-with-open-shoulder:body"].outcome == "look again"
    assert findings["openings"].outcome == "sound"


@pytest.mark.parametrize(
    ("neck", "says"),
    [
        ({"shape": "keyhole", "opening": "shoulder left"}, "has a slit already"),
        ({"shape": "round", "back": "pointed"}, "only a V"),
        ({"shape": "square", "front_drop": 9, "back_drop": 4}, "only one drop"),
        ({"shape": "rectangle", "front_drop": 40}, "cannot have these drops"),
        ({"shape": "boat", "front_drop": 1, "ease": 30}, "wider than the shoulders"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(neck: dict[str, Any], says: str) -> None:
    with pytest.raises(CannotDraft, match=says):
        drafted({"neck": neck})
