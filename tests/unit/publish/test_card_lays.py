"""Several lays on one card, read back with pdfplumber."""

from __future__ import annotations

from dataclasses import replace

import pytest
from card_specimens import garment
from test_card import read, text_of

from ellwand.depict.words.lays import how_it_lies, how_short
from ellwand.publish import card_pdf
from ellwand.publish.card_lays import lays
from ellwand.publish.paper import paper_for


def test_each_lay_has_its_part_of_the_card() -> None:
    made = garment("tunic")
    (lay,) = made.lays
    left = replace(lay, remnant=1, width=lay.width, length=lay.length)
    several = replace(made, lays=(left, lay))
    pages = read(card_pdf(several))
    said = text_of(pages)
    for words in ("To buy", "Left-over 1", "Chalk list: left-over 1", "The lay", "Chalk list: the lay"):
        assert words in said
    assert how_it_lies(left, "cm") in said and how_it_lies(lay, "cm") in said
    assert said.count(how_short(lay, "cm")) == 1
    assert len(pages) <= 4


def test_the_gap_and_every_step_of_buying_are_on_the_card() -> None:
    made = garment("folded")
    said = text_of(read(card_pdf(made)))
    for words in ("for the lay", "to straighten both ends", "washing takes off (4%)", "sold by 10 cm", "9 a metre"):
        assert words in said
    assert how_short(made.lays[0], "cm") in said
    assert "two layers" in said and "on the fold" in said and "from the fold" in said


@pytest.mark.parametrize("tall", [5.6, 9.0, 12.5])
def test_all_lays_of_a_card_have_one_scale(tall: float) -> None:
    """A strip of the same cloth on its own is drawn as large as beside its long neighbour."""
    made = garment("tunic")
    (lay,) = made.lays
    short = replace(lay, length=lay.length / 2, remnant=1)
    paper = paper_for("cm")
    both = lays(replace(made, lays=(short, lay)), paper, tall)
    alone = lays(replace(made, lays=(lay,)), paper, tall)
    assert alone.split("#align(center)")[1].split("\n")[0] in both
