"""Painting, printing and embroidery in words."""

from __future__ import annotations

import re

import pytest

from ellwand.adorn.motifs import motif
from ellwand.adorn.printing import PrintPlan, paint
from ellwand.adorn.stencils.stencil import stencil
from ellwand.depict.stencil_view import Tool, tools
from ellwand.depict.words.painting import (
    card_line,
    embroidery_line,
    order_line,
    paint_line,
    painting_rows,
    sheet_notes,
    tool_row,
)
from ellwand.model.motif import motif_area
from ellwand.pipeline import prove_sheet
from sheets import sheet


def test_a_plain_garment_has_nothing_to_say():
    assert painting_rows(prove_sheet(sheet())) == ()


def said(repeat: dict[str, object]) -> str:
    """All rows of a tunic with one repeat."""
    return "\n".join(": ".join(row) for row in painting_rows(prove_sheet(sheet({"repeats": [repeat]}))))


def test_cautions_come_with_what_they_are_for():
    painted = said({"motif": "pellets", "along": "hem"})
    for told in ("test patch", "24 to 72 hours", "no steam", "dust mask", "Open a window", "open fire"):
        assert told in painted
    sewn = said({"motif": "pellets", "along": "hem", "by": "embroidery"})
    assert "needles" in sewn
    assert "Paint" not in sewn
    assert "needles" in said({"motif": "pellets", "along": "hem", "by": "appliqué"})


def test_the_sheets_tell_how_to_cut_and_to_print():
    garment = prove_sheet(sheet({"repeats": [{"motif": "pellets", "along": "hem", "by": "block"}]}))
    notes = "\n".join(sheet_notes(garment.draft.adornment.repeats))
    assert "Block: " in notes
    assert "Stencil: " not in notes
    assert "push a gouge away from you" in notes
    assert sheet_notes(()) == ()


def test_every_tool_is_told_once_and_rows_that_are_alike_together():
    garment = prove_sheet(sheet({"repeats": [{"motif": "lozenge", "along": "cuffs", "size": 4}]}))
    rows = painting_rows(garment)
    (tool,) = tools(garment.draft.adornment.repeats)
    assert tool.along == ("cuff, left", "cuff, right")
    assert [title for title, _ in rows] == ["Stencil 1, lozenge", "Paint", "Painting"]
    assert rows[0][1].count("work along the row") + rows[0][1].count("So that nothing lies on wet paint") == 1
    assert rows[0][1].endswith("stencils.pdf.")


@pytest.mark.parametrize(
    ("rounds", "told"),
    [
        (((1, 3, 5, 7, 9), (2, 4, 6, 8)), "print 1, 3, 5 … 9 along the row first; let them dry; then 2, 4, 6, 8."),
        (((1, 3), (2,), (4,)), "print 1, 3 along the row first; let them dry; then 2; let them dry; then 4."),
        (((1, 2, 3),), "Each print keeps clear of its neighbours: work along the row."),
    ],
)
def test_the_order_of_prints(rounds: tuple[tuple[int, ...], ...], told: str):
    assert order_line(PrintPlan(rounds, 0.0, 5.0, 4.0)).endswith(told)


def test_bridges_are_counted_with_their_width():
    text = card_line(stencil(motif("lozenge", 6.0)), "cm")
    assert "leave the 2 bridges standing, 0.4 cm wide" in text
    assert "6 windows" in text
    assert "one window to cut out." in card_line(stencil(motif("pellet", 3.0)), "in")


def test_paint_in_both_units():
    garment = prove_sheet(sheet({"repeats": [{"motif": "pellet", "along": "hem", "size": 4, "gap": [2, 4]}]}))
    (repeat,) = garment.draft.adornment.repeats
    low, high = paint(repeat.count * motif_area(repeat.motif))
    told = [float(each) for each in re.findall(r"([\d.]+) to ([\d.]+) ml", paint_line([repeat], "cm"))[0]]
    assert told == pytest.approx([low, high], rel=0.06)
    assert "fl oz" in paint_line([repeat], "in")


def test_embroidery_tells_every_stitch_and_says_what_is_a_guess():
    tool = Tool(1, "embroidery", motif("roundel", 6.0), 10, ("hem",), 8.0)
    text = embroidery_line(tool, "cm")
    for stitch in ("stem stitch", "split stitch", "chain stitch", "filled in", "our own estimate", "hoop of 13 cm"):
        assert stitch in text
    assert re.search(r"stem stitch \d+ to \d+ yd", embroidery_line(tool, "in"))
    assert "hoop of 5 in" in embroidery_line(tool, "in")
    large = Tool(1, "embroidery", motif("roundel", 40.0), 1, ("hem",), None)
    assert "move the hoop along" in embroidery_line(large, "cm")
    assert tool_row(tool, [], "cm") == ("Transfer 1, roundel", text)
