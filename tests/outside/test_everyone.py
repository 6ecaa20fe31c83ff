"""Everyone surveyed, known by height, chest, head and hand alone, gets a tunic that goes on.

Source of the bodies: ANSUR II 2012, NATICK/TR-15/007 (public release), tests/data/ansur2.csv.gz.  The hand with its
thumb tucked in is 1.07 times the girth that the survey has, as in the package's own translation.
"""

from __future__ import annotations

import pytest

from bodies import rows
from ellwand.draft import draft
from ellwand.measure import wearer_from
from ellwand.prove.goes_on import goes_on
from ellwand.prove.sewn import sewn_up
from sheets import sheet

SHARES = 8


def known(row: dict[str, str]) -> dict[str, object]:
    """What is measured of one of them (cm)."""
    return {
        "sex": "female" if row["sex"] == "f" else "male",
        "height": float(row["stature"]),
        "bust_girth": float(row["chest_girth"]),
        "head_girth": float(row["head_girth"]),
        "hand_girth": round(1.07 * float(row["hand_girth"]), 1),
    }


@pytest.mark.parametrize("share", range(SHARES))
def test_height_chest_head_and_hand_are_enough_to_get_into_it(share: int) -> None:
    choices = sheet({"style": "tunic"}).choices
    people = [known(row) for row in rows()[share::SHARES]]
    assert len(people) > 700
    for person in people:
        wearer = wearer_from(person)
        found = goes_on(sewn_up(draft(choices, wearer), wearer))
        assert {finding.subject for finding in found} == {"neck", "cuffs", ""}
        assert all(finding.outcome == "sound" for finding in found), (person, found)
