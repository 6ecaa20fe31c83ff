"""The page that says how to measure is generated, whole and up to date."""

from __future__ import annotations

from pathlib import Path

import pytest

from ellwand.depict.figure import number
from ellwand.depict.measuring import in_unit, mixed_up, reference
from ellwand.model.measurement import FIELDS, MEASUREMENTS
from ellwand.publish.figures import figures_svg

DOCS = Path(__file__).parents[3] / "docs"


def test_the_page_is_the_generated_one() -> None:
    assert (DOCS / "measuring.md").read_text(encoding="utf-8") == reference()


def test_its_picture_is_the_generated_one() -> None:
    assert (DOCS / "measuring.svg").read_text(encoding="utf-8") == figures_svg()


@pytest.mark.parametrize("field", FIELDS)
def test_it_says_all_that_is_known_of_a_measurement(field: str) -> None:
    measurement = MEASUREMENTS[field]
    start = reference().index(f"\n## {number(field)} {measurement.label}\n")
    entry = reference()[start:].split("\n## ")[1]
    known = (measurement.how, measurement.mind, measurement.term, measurement.clause)
    for text in (f"`{field}`", *known, *(MEASUREMENTS[other].label for other in measurement.mistaken_for)):
        assert text in entry


def test_it_says_that_the_standard_was_not_seen() -> None:
    assert "We have not seen the standard's own text" in reference()


def test_each_pair_stands_once() -> None:
    pairs = [frozenset((field, other)) for field, other, _ in mixed_up()]
    assert len(pairs) == len(set(pairs))
    assert set(pairs) == {frozenset((f, other)) for f, m in MEASUREMENTS.items() for other in m.mistaken_for}
    assert all(tell for *_, tell in mixed_up())


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        # 4 / 2.54 = 1.57, 3 / 2.54 = 1.18, 6 / 2.54 = 2.36, to the nearest half
        ("lower by about 4 cm; always", "lower by about 1 1/2 in; always"),
        ("by 3 to 6 cm", "by 1 to 2 1/2 in"),
        ("level, feet together", "level, feet together"),
    ],
)
def test_centimetres_in_words_are_told_in_inches(text: str, inches: str) -> None:
    assert in_unit(text, "in").replace("\u00a0", " ") == inches
    assert in_unit(text, "cm") == text
