"""How shapes are arranged on paper and how paper is tiled: worked examples and properties."""

from __future__ import annotations

import io
import math
from itertools import combinations

import pdfplumber
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box, unary_union

from ellwand.depict.lettering import text_width
from ellwand.depict.pattern.arrange import arranged, ways_of
from ellwand.depict.pattern.fullsize import FullSize, full_sized
from ellwand.depict.pattern.squares import wrapped
from ellwand.geometry.lines import Line, area
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.publish.paper import Paper
from ellwand.publish.pattern.binding import bound
from ellwand.publish.pattern.ink import number
from ellwand.publish.pattern.map_page import map_source
from ellwand.publish.pattern.sheets import PAPERS, cropped, on_sheets, row_name, tiled


def shape(ring: Line, number: int = 1) -> FullSize:
    middle = (sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring))
    label = Label("name", str(number), middle, size=7.5)
    return full_sized(number, f"piece {number}", "cut 2", Drawing((Stroke("cut", ring, True),), (label,)), ring)


def block(wide: float, high: float, number: int = 1) -> FullSize:
    return shape(((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)), number)


def test_60_by_120_takes_20_sheets_of_a4():
    # 19.0 × 27.7 cm are shown, 18.0 × 26.7 from sheet to sheet: 4 across, 5 down
    layout = tiled([block(60, 120)], PAPERS["A4"])
    assert len(layout.windows) == 20
    assert [window.name for window in layout.windows][:5] == ["A1", "A2", "A3", "A4", "B1"]


def test_what_fills_a_sheet_takes_one():
    assert len(tiled([block(19.0, 27.7)], PAPERS["A4"]).windows) == 1
    assert len(tiled([block(19.1, 27.7)], PAPERS["A4"]).windows) == 2


def test_joined_sides_are_joined_from_both_sides():
    layout = tiled([block(60, 120)], PAPERS["A4"])
    inner = {window.name: window.joined for window in layout.windows}
    assert inner["A1"] == {"right", "down"}
    assert inner["B2"] == {"left", "right", "up", "down"}
    assert inner["E4"] == {"left", "up"}


def test_what_is_longer_than_a_roll_sheet_is_spread_over_two():
    layout = cropped(on_sheets([block(40, 600), block(30, 30, 2)], (88.0, 498.0)), width=False)
    assert [window.name for window in layout.windows] == ["A1", "B1", "C1"]
    _, upper, lower = layout.windows
    assert upper.joined == {"down"}
    assert lower.joined == {"up"}
    assert upper.frame[1] + 1.0 == pytest.approx(lower.frame[3])


def test_two_wedges_lie_head_to_tail():
    wedge: Line = ((0.0, 0.0), (40.0, 0.0), (20.0, 100.0))
    (placed,) = arranged(ways_of([shape(wedge), shape(wedge, 2)]), 66.0)
    deepest = -min(y for each in placed for _, y in each.there(wedge))
    assert deepest < 102


@st.composite
def rings(draw):
    count = draw(st.integers(3, 7))
    turns = sorted(draw(st.lists(st.floats(0, 6.2), min_size=count, max_size=count, unique=True)))
    radius = draw(st.floats(4, 40))
    ring = tuple((radius * math.cos(a), radius * math.sin(a)) for a in turns)
    return ring if area(ring) > 5 else ((0.0, 0.0), (radius, 0.0), (0.0, radius))


@settings(max_examples=60)
@given(st.lists(rings(), min_size=1, max_size=9), st.floats(85, 200))
def test_shapes_stay_on_the_sheet_and_off_each_other(found, width):
    pieces = [shape(ring, i) for i, ring in enumerate(found, 1)]
    sheets = arranged(ways_of(pieces), width, 120.0)
    assert sorted(each.each.number for sheet in sheets for each in sheet) == list(range(1, len(found) + 1))
    for sheet in sheets:
        there = [Polygon(each.there(each.each.covers)) for each in sheet]
        for one, two in combinations(there, 2):
            assert one.distance(two) > 0.2
        for each in there:
            assert box(-1e-6, -120 - 1e-6, width + 1e-6, 1e-6).contains(each)


@settings(max_examples=30)
@given(st.lists(rings(), min_size=1, max_size=6))
def test_sheets_show_all_of_every_shape(found):
    layout = tiled([shape(ring, i) for i, ring in enumerate(found, 1)], Paper(21.0, 29.7, 1.0))
    seen = unary_union([box(*window.seen) for window in layout.windows])
    for each in layout.placed:
        assert Polygon(each.there(each.each.covers)).difference(seen.buffer(1e-6)).area < 1e-6
    # and no sheet is blank
    for window in layout.windows:
        assert any(Polygon(each.there(each.each.covers)).intersects(box(*window.seen)) for each in layout.placed)


@given(st.integers(0, 2000))
def test_row_names_count_as_letters_do(row):
    name, value = row_name(row), 0
    for letter in name:
        value = 26 * value + ord(letter) - 64
    assert value == row + 1


@given(st.floats(-20000, 20000))
def test_numbers_of_the_page_are_plain_and_near(value):
    text = number(value)
    assert "e" not in text and text != "-0"
    assert abs(float(text) - value) <= 5.0001e-5


@given(st.text(min_size=0, max_size=200), st.floats(3, 20))
def test_wrapped_lines_fit_and_lose_no_word(text, wide):
    lines = wrapped(text, 10.0, wide)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(text_width(line, 10.8) <= wide for line in lines)


def test_sixty_pieces_and_their_list_fit():
    pieces = [block(8 + i % 7, 10 + i % 11, i) for i in range(1, 61)]
    layout = tiled(pieces, PAPERS["A4"])
    pdf = bound(layout, "Sixty pieces", front=map_source(layout, PAPERS["A4"], "Sixty pieces"))
    with pdfplumber.open(io.BytesIO(pdf)) as book:
        front = book.pages[: len(book.pages) - len(layout.windows)]
        listed = "\n".join(page.extract_text() for page in front)
        for page in book.pages:
            assert all(each["x0"] > 0 and each["x1"] < page.width for each in page.chars)
            assert all(each["top"] > 0 and each["bottom"] < page.height for each in page.chars)
    for i in range(1, 61):
        assert f"piece {i}\n" in listed or f"piece {i} " in listed
