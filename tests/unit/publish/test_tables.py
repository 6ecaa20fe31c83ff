"""Tables read back by other readers: the csv module of the standard library, and a browser's rules for Markdown."""

from __future__ import annotations

import csv
import io
import re

import pytest

from ellwand import make
from ellwand.depict.tables import chalk_table, pieces_table, shopping_table, steps_table
from ellwand.geometry.lines import bounds
from ellwand.model.garment import Garment
from ellwand.model.table import Table
from ellwand.publish.tables import table_csv, tables_md
from ellwand.units import parse_length
from sheets import sheet

NASTY = 'a | b, "c"\n*d* <b>'


@pytest.fixture(scope="module", params=["cm", "in"])
def garment(request: pytest.FixtureRequest) -> Garment:
    return make(sheet({"gores": [{"place": "side"}]}), seconds=0, unit=request.param)


def test_csv_comes_back_as_it_was() -> None:
    table = Table("T", ("one", "two"), (("x", NASTY), ("", "ü")))
    assert list(csv.reader(io.StringIO(table_csv(table)))) == [
        ["one", "two"],
        ["x", NASTY.replace("\n", " ")],
        ["", "ü"],
    ]


def test_markdown_keeps_its_cells_apart() -> None:
    """Only bars without a backslash part cells (GitHub Flavored Markdown, section 4.10)."""
    text = tables_md("Title", [Table("T", ("one", "two"), (("x", NASTY),))])
    head, rule, row = text.splitlines()[4:7]
    assert [len(re.findall(r"(?<!\\)\|", line)) for line in (head, rule, row)] == [3, 3, 3]
    assert "<b>" not in row


def test_every_piece_has_its_size(garment: Garment) -> None:
    rows = pieces_table(garment).rows
    assert len(rows) == len(garment.draft.pieces)
    for row, piece in zip(rows, garment.draft.pieces, strict=True):
        left, low, right, high = bounds(piece.cut)
        assert parse_length(row[5]) == pytest.approx(right - left, abs=0.17)
        assert parse_length(row[6]) == pytest.approx(high - low, abs=0.17)


def test_tables_are_square_and_full(garment: Garment) -> None:
    tables = [pieces_table(garment), shopping_table(garment), steps_table(garment)]
    for table in (*tables, *(chalk_table(garment, lay) for lay in garment.lays)):
        assert table.rows
        assert {len(row) for row in table.rows} == {len(table.head)}


def test_steps_come_after_what_they_need(garment: Garment) -> None:
    for row in steps_table(garment).rows:
        assert all(int(need) < int(row[0]) for need in row[2].split(", ") if need)
