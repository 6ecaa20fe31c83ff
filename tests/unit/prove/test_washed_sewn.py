"""A garment washed only when it is sewn: reckoned from the sizes of its pieces and girths."""

from __future__ import annotations

from dataclasses import replace

import pytest

from ellwand.depict import words
from ellwand.model.cloth import width_on_table
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.pipeline import prove_sheet
from sheets import sheet


def made(**cloth: object) -> Garment:
    return prove_sheet(sheet({"style": "tunic"}, cloth=cloth))


def told(garment: Garment) -> list[Finding]:
    return [finding for finding in garment.proof.findings if finding.code == "cloth-washed-sewn"]


def test_what_is_left_of_it() -> None:
    garment = made(wash="after", shrink_warp=0.1, shrink_weft=0.05)
    (finding,) = told(garment)
    tallest = max(max(y for _, y in p.sewn) - min(y for _, y in p.sewn) for p in garment.draft.pieces)
    assert finding.values["shorter"] == pytest.approx(0.1 * tallest)
    least = min(girth.garment * 0.95 - girth.body for girth in garment.proof.girths)
    assert finding.measured == pytest.approx(least)
    assert finding.outcome == ("look again" if least >= 0 else "will not work")
    assert "10% in length and 5% in width" in words.why(finding, "cm")
    assert "before it is cut" in words.mend(finding, "cm")


def test_what_would_not_close_round_the_body_will_not_work() -> None:
    (finding,) = told(made(wash="after", shrink_weft=0.4))
    assert finding.outcome == "will not work" and "too narrow for the body" in words.why(finding, "cm")


@pytest.mark.parametrize(
    "cloth", [{}, {"wash": "after", "washed": True}, {"wash": "after", "shrink_warp": 0, "shrink_weft": 0}]
)
def test_otherwise_nothing_is_said(cloth: dict[str, object]) -> None:
    assert told(made(**cloth)) == []


def test_it_is_laid_as_wide_as_it_comes_from_the_shop() -> None:
    cloth = made(wash="after").cloths[0]
    assert width_on_table(cloth) == 150
    assert width_on_table(replace(cloth, wash="before")) == pytest.approx(147)
