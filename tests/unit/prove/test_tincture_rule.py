"""The rule of tincture for every pair, against a table written out by hand, and its words."""

from __future__ import annotations

from typing import Any

import pytest

from ellwand import prove_sheet
from ellwand.depict import words
from ellwand.model.finding import Finding
from sheets import sheet

# One row for what lies on top, one letter for each field in the same order: o may lie there, - offends, = is the same.
# Metals (or, argent) go on colours and colours on metals (Fox-Davies, A Complete Guide to Heraldry).
ORDER = ["or", "argent", "gules", "azure", "sable", "vert", "purpure", "tenné", "sanguine"]
TABLE = {
    "or": "=-ooooooo",
    "argent": "-=ooooooo",
    "gules": "oo=------",
    "azure": "oo-=-----",
    "sable": "oo--=----",
    "vert": "oo---=---",
    "purpure": "oo----=--",
    "tenné": "oo-----=-",
    "sanguine": "oo------=",
}


def findings(charges: list[dict[str, Any]], *, cloth: str = "", **garment: Any) -> list[Finding]:
    main = {"tincture": cloth} if cloth else {}
    proof = prove_sheet(sheet({"charges": charges, **garment}, cloth=main)).proof
    return [each for each in proof.findings if each.code.startswith("tincture")]


@pytest.mark.parametrize("field", ORDER)
def test_every_tincture_on_every_field(field: str) -> None:
    """All nine on one plain field at once, each a small roundel at one of the nine points."""
    points = [f"{hand} {row}" for row in ("chief", "base") for hand in ("dexter", "middle", "sinister")]
    points += ["honour point", "fess point", "nombril point"]
    # a keyhole's slit leaves the middle chief no room: the neck is wide and shallow
    charges = [
        {"motif": "roundel", "tincture": name, "place": point, "size": 0.06}
        for name, point in zip(ORDER, points, strict=True)
    ]
    found = findings(charges, cloth=field, neck={"shape": "boat", "slit": "none"})
    assert len(found) == len(ORDER)
    for name, finding in zip(ORDER, found, strict=True):
        sign = TABLE[name][ORDER.index(field)]
        assert (finding.values["tincture"], finding.values["upon"]) == (name, field)
        assert finding.outcome == ("sound" if sign == "o" else "look again")
        assert (finding.code == "tincture-lost") == (sign == "=")
        said, mend = words.why(finding, "cm"), words.mend(finding, "cm")
        assert name in said and field in said
        assert bool(mend) == (sign != "o")


def test_no_tincture_is_left_to_judge_on_cloth_whose_colour_is_not_said() -> None:
    assert findings([{"ordinary": "fess", "tincture": "or"}]) == []


def test_partitions_lie_side_by_side_and_are_exempt() -> None:
    assert findings([], division={"by": "per pale", "tinctures": ["gules", "azure"]}) == []


def test_what_lies_on_metal_and_colour_at_once_offends_against_neither() -> None:
    division = {"by": "per pale", "tinctures": ["or", "azure"]}
    (found,) = findings([{"ordinary": "fess", "tincture": "gules", "on": "both"}], division=division)
    assert found.outcome == "sound"
    assert "metal and colour at once" in words.why(found, "cm")


def test_what_is_in_part_of_its_grounds_own_tincture_is_lost_there() -> None:
    division = {"by": "per pale", "tinctures": ["or", "azure"]}
    (found,) = findings([{"ordinary": "fess", "tincture": "azure"}], division=division)
    assert (found.code, found.outcome) == ("tincture-lost", "look again")
    assert "where both are alike" in words.why(found, "cm")


def test_a_charge_on_a_charge_is_judged_by_that_charge() -> None:
    fess = {"ordinary": "fess", "tincture": "or"}
    bad, good = (
        findings([fess, {"motif": "roundel", "tincture": name, "size": 0.1}], cloth="gules")[1]
        for name in ("argent", "sable")
    )
    assert (bad.outcome, bad.values["on"]) == ("look again", "fess")
    assert good.outcome == "sound"
    assert "lies on the fess or: colour on metal" in words.why(good, "cm")


@pytest.mark.parametrize("field", ["gules", "argent"])
def test_the_mend_names_tinctures_that_mend_it(field: str) -> None:
    charge = "azure" if field == "gules" else "or"
    (found,) = findings([{"ordinary": "fess", "tincture": charge}], cloth=field)
    assert found.outcome == "look again"
    named = [name for name in ORDER if f'"{name}"' in words.mend(found, "cm")]
    assert named
    for name in named:
        (mended,) = findings([{"ordinary": "fess", "tincture": name}], cloth=field)
        assert mended.outcome == "sound"


def test_front_and_back_alike_are_judged_once() -> None:
    assert len(findings([{"ordinary": "fess", "tincture": "or", "on": "both"}], cloth="gules")) == 1
