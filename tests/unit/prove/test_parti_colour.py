"""When divided garments were worn: hints with their sources, the debated ones among them."""

from __future__ import annotations

from typing import Any

import pytest

from ellwand import prove_sheet
from ellwand.depict import words
from ellwand.model.finding import Finding
from sheets import sheet


def told(by: str, date: int, region: str | None = None) -> Finding:
    garment: dict[str, Any] = {"division": {"by": by, "tinctures": ["gules", "or"]}, "date": date}
    if region:
        garment["region"] = region
    found = prove_sheet(sheet(garment)).proof.findings
    (finding,) = [each for each in found if each.values.get("choice") == "division"]
    return finding


# Lewandowski 2011, as fashionhistory.fitnyc.edu reports it: late 12th to end of the 15th century.  The kirtle of
# Söderköping, blue and red, is dated 1242 by one compiler.  Thursfield 2001: a surcote in two halves, mid 14th century.
@pytest.mark.parametrize(
    ("date", "region", "source"),
    [
        (1200, None, "Lewandowski"),
        (1350, None, ""),
        (1480, None, "Lewandowski"),
        (1242, "Sweden", ""),
        (1350, "England", ""),
    ],
)
def test_halves_are_usual_from_the_late_twelfth_to_the_fifteenth_century(
    date: int, region: str | None, source: str
) -> None:
    finding = told("per pale", date, region)
    assert finding.outcome == "sound"
    assert source in words.why(finding, "cm")


def test_before_it_there_is_little_and_long_before_it_nothing() -> None:
    # Meyers 1908: coats of two colours from the 11th century
    assert told("per pale", 1050, "Germany").values["standing"] == "known"
    assert "Meyers 1908" in words.why(told("per pale", 1050, "Germany"), "cm")
    assert told("per pale", 850).outcome == "look again"


# Thursfield 2001 knows coats halved upright, not quartered; Meyers 1908: divided across, quartered, in many parts too
@pytest.mark.parametrize("by", ["quarterly", "per fess", "barry", "per bend", "chequy"])
def test_what_two_books_disagree_on_is_rare_or_debated_and_never_forbidden(by: str) -> None:
    finding = told(by, 1320)
    assert (finding.outcome, finding.values["standing"]) == ("look again", "rare or debated")
    said = words.why(finding, "cm")
    assert "Meyers 1908" in said and "upright" in said and said.endswith("A hint only.")
    assert words.mend(finding, "cm") == "To suit its time, leave it out."


def test_nothing_is_said_without_a_date_or_a_division() -> None:
    dated = prove_sheet(sheet({"date": 1320})).proof.findings
    assert not any(each.values.get("choice") == "division" for each in dated)
