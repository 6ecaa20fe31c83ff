"""Several lays on one card, read back with pdfplumber."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from card_specimens import garment
from test_card import read, text_of

from ellwand.depict.spread import drawing_bounds
from ellwand.depict.words.lays import how_it_lies, how_short
from ellwand.geometry.lines import length
from ellwand.model.drawing import Drawing
from ellwand.pipeline import make
from ellwand.publish import card_pdf
from ellwand.publish.card_lays import lay_parts, scale_for
from ellwand.publish.card_type import PLAIN
from ellwand.publish.paper import paper_for
from sheets import sheet


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
    both = lay_parts(replace(made, lays=(short, lay)), PLAIN)
    alone = lay_parts(replace(made, lays=(lay,)), PLAIN)
    room = paper_for("cm").room
    assert scale_for(both, room, tall) == scale_for(alone, room, tall)


def test_a_long_narrow_cloth_is_drawn_in_lengths_that_show_all_of_it() -> None:
    """Every number and every corner's letter that stands on the whole drawing stands on one of its lengths."""
    made = make(sheet({"style": "gored gown"}, cloth={"width": 45}), seconds=0)
    (part,) = lay_parts(made, PLAIN)
    width, along = part.lay.width, part.lay.length
    shown = part.fit_for(paper_for("cm").room, 9.0)
    assert along > 10 * width
    assert shown.lengths > 1
    scale = scale_for((shown,), paper_for("cm").room, 9.0)
    assert scale > 1.3 * scale_for((part,), paper_for("cm").room, 9.0)
    whole, cut = part.draw(scale, True), shown.draw(scale, True)
    for text, times in Counter(label.text for label in whole.labels).items():
        assert sum(label.text == text for label in cut.labels) >= times
    # what is drawn of the cloth keeps its length: the selvedges of all lengths together are those of the whole
    assert _length(cut, "selvedge") == pytest.approx(_length(whole, "selvedge"))
    assert _length(cut, "bound") == pytest.approx(_length(whole, "bound"))
    x0, _, x1, _ = drawing_bounds(cut, scale)
    assert (x1 - x0) * scale <= paper_for("cm").room


def _length(drawing: Drawing, role: str) -> float:
    return sum(length(stroke.points) for stroke in drawing.strokes if stroke.role == role)
