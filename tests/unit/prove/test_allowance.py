"""Seam allowances against what each finish takes, by figures of finds and sewing teachers."""

from __future__ import annotations

from typing import get_args

import pytest

from ellwand import prove_sheet
from ellwand.depict import words
from ellwand.model.choices import Finish
from ellwand.model.finding import Finding
from mending import mended
from sheets import JOAN, sheet
from sweep import made


def found(allowance: str, finish: str, style: str = "tunic") -> list[Finding]:
    garment = prove_sheet(sheet({"style": style}, sewing={"allowance": allowance, "finish": finish}))
    return [each for each in garment.proof.findings if each.code == "allowance-for-finish"]


@pytest.mark.parametrize(
    ("finish", "enough", "too_little"),
    [
        ("plain", "1/4 in", "0.5 cm"),  # a narrow seam today
        ("overcast", "0.6 cm", "0.5 cm"),  # 6 to 7 mm: a gown from Herjolfsnes (no. 45)
        ("french", "3/8 in", "1/4 in"),  # today's French seam
        ("run and fell", "5/8 in", "0.7 cm"),  # today's usual allowance
        ("flat-felled", "5/8 in", "1 cm"),
        ("open and stitched down", "0.7 cm", "0.5 cm"),  # rows 2 to 3 mm from the seam: London
    ],
)
@pytest.mark.parametrize("style", ["tunic", "hood"])
def test_enough_and_too_little(finish: str, enough: str, too_little: str, style: str) -> None:
    assert found(enough, finish, style) == []
    (finding,) = found(too_little, finish, style)
    assert finding.outcome == "look again" and (finding.measured or 0) < (finding.needed or 0)
    assert finish in words.why(finding, "cm")


@pytest.mark.parametrize("finish", get_args(Finish))
@pytest.mark.parametrize("allowance", ["0.3 cm", "0.7 cm"])
def test_done_as_told_it_is_gone(finish: str, allowance: str) -> None:
    tables = {"garment": {}, "sewing": {"allowance": allowance, "finish": finish}, "cloth": {"width": 150}}
    garment = made(tables, JOAN)
    for finding in garment.proof.findings:
        if finding.code != "allowance-for-finish":
            continue
        ways = list(mended(tables, JOAN, garment, finding))
        assert len(ways) == (2 if allowance == "0.7 cm" else 1)
        for _, mended_tables, person in ways:
            again = made(mended_tables, person)
            assert "allowance-for-finish" not in {each.code for each in again.proof.findings}
