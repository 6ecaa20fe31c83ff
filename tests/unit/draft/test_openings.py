"""A centre that opens from the neck down: its rims, lengths and levels, on real bodies and by a checker of its own."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bodies import sample
from ellwand import garment_json, make
from ellwand.depict import words
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, piece_of
from ellwand.prove.sewn import opened_down, opens_through, sewn_up
from ellwand.prove.shell import shell_of
from ellwand.sew import sew
from independent import faults
from proving_specimens import drafted
from sheets import sheet

PEOPLE = sample(40, seed=9)
CENTRES = ("centre-front", "centre-back")


def lips(draft: Draft, at: str) -> list[tuple[str, float]]:
    """(part, length) of both edges of an opening."""
    return [
        (part.id, length(edge.points))
        for part in draft.parts
        for edge in piece_of(draft, part.id).edges
        if edge.id == f"{at}-opening"
    ]


def rims(draft: Draft) -> list[tuple[str, ...]]:
    return sorted(rim.opens_to for rim in shell_of(draft).rims)


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from(PEOPLE),
    st.sampled_from(CENTRES),
    st.sampled_from(["auto", "hem", "hip", "waist"]),
    st.sampled_from(["wide panels", "shoulder panels"]),
    st.sampled_from(["fold", "seam"]),
    st.sampled_from(["none", "front", "back", "both"]),
    st.sampled_from(["hip", "knee", "ankle"]),
    st.sampled_from([None, "knee", "hip"]),
    st.sampled_from([None, "hip", "waist"]),
    st.sampled_from([0, 8]),
)
def test_every_opened_garment_assembles_by_the_outside_checker(
    person: dict[str, object],
    at: str,
    to: str,
    cut: str,
    shoulder: str,
    seam: str,
    long: str,
    split: str | None,
    gore: str | None,
    longer: int,
) -> None:
    """tests/independent.py reads garment.json and sews it together in another way."""
    garment = {
        "length": long,
        "body": {"cut": cut, "shoulder": shoulder, "centre_seam": seam, "back_longer": longer},
        "gores": [{"place": at, "start": gore, "base": 30, "make": "halves"}] if gore else [],
        "splits": [{"place": at, "height": split}] if split else [],
        "closures": [{"at": at, "to": to, "by": "buttons", "lap": "overlap"}],
    }
    try:
        done = make(sheet(garment, wearer=person), seconds=0)
    except CannotDraft:
        assert long != "ankle"
        return
    assert faults(json.loads(garment_json(done))) == []
    findings = {finding.code: finding for finding in done.proof.findings}
    assert findings["openings"].outcome == findings["surface"].outcome == "sound"
    (closing,) = done.closings
    assert closing.start == "neck"
    assert closing.edges == ("left", "right")
    if opened := lips(done.draft, at):
        assert [each for _, each in opened] == pytest.approx([closing.length] * 2, abs=1e-6)


def test_a_back_opens_from_the_neck_to_the_hip_and_is_closed_below() -> None:
    draft, wearer = drafted({"length": "ankle", "closures": [{"at": "centre-back"}]})
    sewn = sewn_up(draft, wearer)
    hip = draft.dimensions.levels["hip"]
    assert opened_down(sewn)["back"] == pytest.approx(hip, abs=draft.dimensions.grid / 2 + 1e-6)
    assert not opens_through(sewn)
    assert rims(draft) == [("cuff-left",), ("cuff-right",), ("hem",), ("neck",)]
    assert {part for part, _ in lips(draft, "centre-back")} == {"back-left", "back-right"}
    note = next(note for note in draft.notes if note.code == "centre-seam-for-closure")
    assert note.values["face"] == "back"


def test_down_to_a_split_or_the_hem_neck_and_hem_are_one() -> None:
    for garment in (
        {"closures": [{"at": "centre-back", "to": "hem"}]},
        {"closures": [{"at": "centre-back"}], "splits": [{"place": "centre-back", "height": "hip"}]},
        {"closures": [{"at": "centre-back"}], "length": "hip"},
    ):
        draft, wearer = drafted({"length": "ankle", **garment})
        assert rims(draft) == [("cuff-left",), ("cuff-right",), ("hem", "neck")]
        assert opens_through(sewn_up(draft, wearer)) == "back"


def test_above_gores_it_ends_at_their_points() -> None:
    gores = [{"place": "centre-back", "start": "waist", "base": 40, "make": "whole"}]
    draft, wearer = drafted({"length": "ankle", "gores": gores, "closures": [{"at": "centre-back"}]})
    waist = draft.dimensions.levels["waist"]
    assert opened_down(sewn_up(draft, wearer))["back"] == pytest.approx(waist, abs=draft.dimensions.grid)


def test_a_front_opens_to_the_hem_unless_told_otherwise() -> None:
    usual, told = (drafted({"closures": [{"at": "centre-front", **to}]})[0] for to in ({}, {"to": "hem"}))
    assert usual.pieces == told.pieces
    waist, wearer = drafted({"closures": [{"at": "centre-front", "to": "waist"}]})
    levels = waist.dimensions.levels
    assert opened_down(sewn_up(waist, wearer))["front"] == pytest.approx(levels["waist"], abs=waist.dimensions.grid)


def test_only_a_centre_opens_down_to_a_level() -> None:
    with pytest.raises(CannotDraft, match="only a centre"):
        drafted({"closures": [{"at": "side", "to": "hip"}]})


@pytest.mark.parametrize(
    "garment",
    [
        {"closures": [{"at": "centre-front"}, {"at": "centre-back", "to": "hem"}]},
        {
            "closures": [{"at": "centre-front"}, {"at": "centre-back"}],
            "splits": [{"place": "centre-back", "height": "hip"}],
        },
    ],
)
def test_open_to_the_hem_in_front_and_behind_it_would_fall_apart(garment: dict[str, object]) -> None:
    with pytest.raises(CannotDraft, match="two halves"):
        drafted({"length": "ankle", **garment})


def test_open_to_the_hip_on_both_sides_it_is_one_opening_at_the_neck() -> None:
    draft, _ = drafted({"length": "ankle", "closures": [{"at": at, "to": "hip"} for at in CENTRES]})
    assert rims(draft) == [("cuff-left",), ("cuff-right",), ("hem",), ("neck",)]


def test_the_steps_leave_it_open_and_finish_its_edges_before_the_neck() -> None:
    draft, _ = drafted({"length": "ankle", "closures": [{"at": "centre-back"}]})
    said = {step.code: words.step(step, draft, "cm") for step in sew(draft)}
    (_, opened), _ = lips(draft, "centre-back")
    assert f"Leave {opened:g} cm of the centre back open below the neck." in said["centre seams"]
    assert said["neck"].startswith("Turn the edges of the opening at the centre back twice and hem them")
    assert "openings" not in said
