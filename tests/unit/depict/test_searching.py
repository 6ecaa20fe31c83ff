"""What is told of a search: every engine and every bound has words, in any language."""

from __future__ import annotations

import pytest

from ellwand.depict.words.searching import BOUNDS, FINDERS, by_whom, found_said, reckoned_from
from ellwand.language import speaking
from ellwand.lay import Budget, Found
from ellwand.lay.bounds.best import named_bounds, words
from ellwand.lay.exact.engine import Exact
from ellwand.lay.search.state import NAME
from ellwand.pipeline import lay_garment, prove_sheet, said
from sheets import sheet


def test_every_bound_is_known() -> None:
    assert set(named_bounds((), 100.0)) | {words((), ())} == BOUNDS


def test_engines_of_our_own_are_known() -> None:
    assert {NAME, Exact.engine, "rows", "torn", "left-over", "polished"} == FINDERS


def test_in_english_all_stays_as_the_lay_has_it() -> None:
    made = sheet()
    lays = lay_garment(prove_sheet(made).draft, made.cloths, Budget(effort=1))
    for lay in lays:
        assert by_whom(lay.engine) == lay.engine
        assert reckoned_from(lay.bound) == lay.bound
    assert by_whom("spyrrow, polished") == "spyrrow, polished"


@pytest.mark.parametrize("cloth", ["", "lining"])
def test_a_shorter_lay_is_told_with_its_cloth(cloth: str) -> None:
    told = found_said(1.24, 98.6, "search, polished", cloth, "cm")
    assert told == "1.2 s: 98.6 cm, by search, polished" + (f", for the {cloth} cloth" if cloth else "")


def test_reports_come_twice_a_second_at_most() -> None:
    heard: list[str] = []
    report = said(heard.append, "in")
    for after in (0.0, 0.2, 0.4, 0.6, 0.9, 1.2):
        report(Found((), 254.0, "rows", after))
    assert [line.split(" ")[0] for line in heard] == ["0.0", "0.6", "1.2"]


def test_solvers_of_others_keep_their_names() -> None:
    with speaking("de"):
        assert by_whom("spyrrow") == "spyrrow"
        assert reckoned_from("something else") == "something else"
