"""Lays as garment.json tells them: folded, on left-overs, of several cloths; against the second opinion."""

import json
from dataclasses import replace
from typing import Any

import pytest

from ellwand.model.cloth import Cloth, Fault, Remnant, Repeat
from ellwand.pipeline import make
from ellwand.publish.garment_json import garment_json
from independent import faults
from sheets import sheet

SHOULDER_SEAM = {"body": {"shoulder": "seam", "cut": "shoulder panels"}}
TRIANGLE = Remnant(90, 120, ((0.0, 0.0), (90.0, 0.0), (0.0, 120.0)))


def told(garment: dict[str, Any], *others: Cloth, **cloth: Any) -> dict[str, Any]:
    plain = sheet(garment)
    made = make(replace(plain, cloths=(replace(plain.cloth, **cloth), *others)), seconds=0)
    doc: dict[str, Any] = json.loads(garment_json(made))
    return doc


@pytest.mark.parametrize(
    "cloth",
    [
        {"fold": "lengthwise", "reversible": False},
        {"fold": "crosswise", "reversible": False},
        {"fold": "lengthwise", "gap": 0.5, "selvedge_edges": True, "faults": (Fault(40, 20, 5, 4),)},
        {"remnants": (Remnant(70, 75), TRIANGLE), "table": 120},
        {"repeat": Repeat(5, 7), "reversible": False},
        {"nap": True, "selvedge_edges": True, "faults": (Fault(30, 0, 1, 10),)},
    ],
)
@pytest.mark.parametrize("garment", [{}, SHOULDER_SEAM, {"style": "gored gown"}, {"style": "coif"}])
def test_a_second_opinion_on_every_kind_of_lay(garment: dict[str, Any], cloth: dict[str, Any]) -> None:
    assert faults(told(garment, **cloth)) == []


def test_a_second_opinion_on_two_cloths() -> None:
    lining = Cloth("lining", 90, cuts=("gores", "sleeves"), fold="lengthwise", remnants=(Remnant(50, 60),))
    doc = told(SHOULDER_SEAM, lining)
    assert faults(doc) == []
    assert {lay["cloth"] for lay in doc["lays"]} == {"main", "lining"}


def test_parts_cut_double_are_told_on_the_fold() -> None:
    """A coif's two halves, cut at once: x runs from the fold, one placement for both."""
    (lay,) = told({"style": "coif"}, fold="lengthwise")["lays"]
    (one,) = lay["placements"]
    assert (lay["fold"], one["layers"]) == ("lengthwise", 2)
    assert {one["part"], one["partner"]} == {"coif-left", "coif-right"}
    assert one["x"] + 30 < lay["width"] / 2


def test_what_lies_on_the_fold_is_told_opened_out() -> None:
    doc = told(SHOULDER_SEAM, fold="lengthwise", reversible=False)
    lay = doc["lays"][0]
    assert (lay["fold"], lay["laid"]) == ("flat", "on a lengthwise fold")
    assert {one["layers"] for one in lay["placements"]} == {1}
    mirrored = {part["id"]: part["mirrored"] for part in doc["parts"]}
    assert all(one["flip"] == mirrored[one["part"]] for one in lay["placements"] if one["part"] in mirrored)
