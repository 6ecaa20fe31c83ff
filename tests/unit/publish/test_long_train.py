"""A pageant's gown with a train of six metres: every paper holds it, and it is proved and laid like any other."""

from __future__ import annotations

from functools import cache

import pytest

from ellwand import make
from ellwand.model.garment import Garment
from ellwand.publish import card_pdf, sewing_pdf
from ellwand.publish.handout import handout_pdf
from ellwand.publish.workbook import workbook_pdf
from printed import letters, on_each_other, outside, pages
from sheets import sheet

TRAIN = 600


@cache
def gown() -> Garment:
    return make(sheet({"style": "gored gown", "length": "floor", "train": TRAIN}), seconds=0)


def test_it_trails_by_so_much_and_the_cautions_say_so() -> None:
    garment = gown()
    assert all(each.outcome == "sound" for each in garment.proof.findings)
    assert "trailing-hem" in {caution.code for caution in garment.cautions}
    longest = max(max(y for _x, y in piece.cut) for piece in garment.draft.pieces)
    assert longest > TRAIN + 100
    assert all(lay.length >= longest for lay in garment.lays)


@pytest.mark.parametrize("paper", [card_pdf, sewing_pdf, handout_pdf, workbook_pdf], ids=lambda paper: paper.__name__)
def test_nothing_runs_over_an_edge_or_into_anything(paper) -> None:
    for page in pages(paper(gown())):
        found = letters(page)
        assert not list(on_each_other(found)) and not outside(page, found)
