"""Putting on: every stage by hand, every way shown, and that it gets no worse when more is opened."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bodies import sample
from ellwand.depict import words
from ellwand.prove.putting_on import OVER_HEAD_EASE, over_head, putting_on, stepped_into
from ellwand.prove.sewn import Sewn, sewn_up
from proving_specimens import RANK, drafted, found, wide_sample
from sheets import JOAN

CLOSE = {"body": {"ease": 0}, "sleeve": {"shape": "none"}}
CHILD = {"sex": "male", "age": 2, "height": 84, "bust_girth": 47, "waist_girth": 46, "hip_girth": 47, "head_girth": 52}
PEOPLE = sample(30, seed=5)


def made(garment: dict[str, object], wearer: dict[str, object] | None = None) -> Sewn:
    return sewn_up(*drafted(garment, wearer))


def test_a_plain_tube_passes_the_bust_at_every_level() -> None:
    sewn = made({"length": "knee", "neck": {"shape": "round"}})
    stages = over_head(sewn)
    assert stages[0].at == "hem"
    assert {stage.at for stage in stages} > {"bust", "waist", "hip", "armhole"}
    for stage in stages:
        assert (stage.opening, stage.body) == (pytest.approx(sewn.draft.dimensions.body_girth), JOAN["bust_girth"])
    finding = putting_on(sewn)
    assert (finding.code, finding.needed) == ("over-head", 96 + OVER_HEAD_EASE)
    assert "over the head, the arms after it" in words.why(finding, "cm")


def test_a_small_childs_head_goes_before_its_chest() -> None:
    """The survey of children: the head of a two-year-old is larger round than the chest."""
    assert {stage.body for stage in over_head(made({}, CHILD))} == {52}


def test_what_is_worn_beneath_goes_in_too() -> None:
    """2π × 10 mm = 6.3 cm (a circle grown by a thickness)."""
    plain, thick = (made({"over": over}) for over in ([], [{"thickness_mm": 10}]))
    for way in (over_head, stepped_into):
        assert way(thick)[0].body - way(plain)[0].body == pytest.approx(2 * math.pi)


@pytest.mark.parametrize("at", ["centre-front", "centre-back"])
def test_opened_to_the_hip_it_is_stepped_into(at: str) -> None:
    sewn = made({**CLOSE, "closures": [{"at": at, "to": "hip"}]})
    (neck,) = stepped_into(sewn)
    edge = next(e for ref, e in sewn.edges.items() if e.id == f"{at}-opening")
    opened = abs(edge.points[-1][1] - edge.points[0][1])
    around = sum(
        math.dist(a, b)
        for e in sewn.edges.values()
        if e.kind in ("neck", "neck slit")
        for a, b in itertools.pairwise(e.points)
    )
    # both lips of the opening, the neck's edge and its slit; the widest of Joan is her hip
    assert (neck.at, neck.opening, neck.body) == ("neck", pytest.approx(2 * opened + around), 104)
    finding = putting_on(sewn)
    assert (finding.code, finding.outcome, finding.values["at"]) == ("stepped-into", "sound", at.replace("-", " "))
    assert f"Opened at the {at.replace('-', ' ')}" in words.why(finding, "cm")


def test_opened_to_the_hem_or_at_the_side_it_need_not_be_pulled_on_closed() -> None:
    for closure, at in (
        ({"at": "centre-front"}, "centre front"),
        ({"at": "centre-back", "to": "hem"}, "centre back"),
        ({"at": "side"}, "side"),
    ):
        finding = found({**CLOSE, "closures": [closure]})["over-head-opens"]
        assert (finding.outcome, finding.values["at"]) == ("sound", at)


def test_a_side_opening_does_not_help_what_is_closed_below_it() -> None:
    """A head of 52 through a hem of 48; opened down the back, the child steps in."""
    garment = {**CLOSE, "gores": []}
    assert found({**garment, "closures": [{"at": "side"}]}, CHILD)["over-head"].outcome == "will not work"
    assert found({**garment, "closures": [{"at": "centre-back"}]}, CHILD)["stepped-into"].outcome == "sound"


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from(PEOPLE),
    st.integers(0, 10),
    st.sampled_from(["wide panels", "shoulder panels"]),
    st.sampled_from(["centre-front", "centre-back"]),
    st.sampled_from(["hip", "knee", "ankle"]),
)
def test_opening_it_further_never_makes_putting_on_worse(
    person: dict[str, object], ease: int, cut: str, at: str, length: str
) -> None:
    garment = {"length": length, "body": {"cut": cut, "ease": ease}}
    ranks = [
        RANK[putting_on(made({**garment, "closures": closures}, person)).outcome]
        for closures in ([], *([{"at": at, "to": to}] for to in ("waist", "hip", "hem")))
    ]
    assert ranks == sorted(ranks, reverse=True)
    assert ranks[-2:] == [0, 0]


def test_the_arm_goes_through_every_sleeve_top_bent() -> None:
    """A bent elbow is 5 cm rounder than a straight one, which is no rounder than the upper arm (common practice)."""
    for draft, wearer in wide_sample():
        if draft.choices.sleeve.shape != "none":
            assert draft.dimensions.sleeve_top >= wearer["upper_arm_girth"] + 5
