"""Stitches, thread and hours in words."""

from __future__ import annotations

import json
import re

import pytest

from ellwand import prove_sheet
from ellwand.depict.stitches import HEAD, stitch_rows
from ellwand.depict.words.pace import hours_said, whose_pace
from ellwand.model.choices import Sewing, Timed
from ellwand.publish.files import sewing_md
from ellwand.publish.garment_json import garment_json
from sheets import JOAN, sheet


@pytest.mark.parametrize(
    ("hours", "sewing", "said"),
    [
        ((9.2, 13.4), Sewing(), "about 9 to 13 h by hand"),
        ((0.4, 3.6), Sewing(by="machine"), "about 1 to 4 h by machine"),
        ((0.5, 0.75), Sewing(), "about 30 to 45 min by hand"),
        ((11.1, 11.3), Sewing(timed=Timed(40, 12)), "about 11 h by hand at your pace"),
    ],
)
def test_hours_are_said_as_a_range(hours: tuple[float, float], sewing: Sewing, said: str) -> None:
    assert hours_said(hours, sewing) == said


def test_who_the_hours_are_of() -> None:
    assert "sewing.timed" in whose_pace(Sewing()) and "sewing.timed" in whose_pace(Sewing(by="machine"))
    assert "you timed" in whose_pace(Sewing(timed=Timed(40, 12)))


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_every_stitch_has_a_row_and_the_rows_are_the_garment(unit: str) -> None:
    person = {**JOAN, "unit": unit, **({"height": "164 cm"} if unit == "in" else {})}
    person = {key: f"{value} cm" if isinstance(value, (int, float)) else value for key, value in person.items()}
    garment = prove_sheet(sheet({"closures": [{"at": "neck slit", "by": "buttons"}]}, wearer=person))
    rows = stitch_rows(garment)
    assert all(len(row) == len(HEAD) for row in rows)
    assert len({row[0] for row in rows}) == len(rows)
    by_name = {row[0]: row for row in rows}
    assert by_name["running"][1:3] == ("209", "3.3 to the cm" if unit == "cm" else "8.5 to the inch")
    total = json.loads(garment_json(garment))["totals"]["thread_m"]
    said = [[float(n) for n in re.findall(r"[\d.]+", row[4])] for row in rows]
    assert sum(each[0] for each in said) == pytest.approx(total[0], abs=0.06 * len(rows))
    assert sum(each[-1] for each in said) == pytest.approx(total[1], abs=0.06 * len(rows))
    text = sewing_md(garment)
    assert all(" | ".join(row) in text for row in rows)
    assert (
        f"## Sewing order ({hours_said(tuple(json.loads(garment_json(garment))['totals']['hours']), Sewing())})" in text
    )
