"""Cloths that say their tincture, and the cloths that a divided field is cut from."""

from __future__ import annotations

from typing import Any

import pytest

from ellwand.choose import Sheet, read_sheet
from ellwand.errors import BadInput
from ellwand.model.cloth import cloth_for
from ellwand.model.piece import Piece
from sheets import JOAN, toml

DIVIDED = {"division": {"by": "per pale", "tinctures": ["gules", "or"]}}


def read(cloth: dict[str, Any], garment: dict[str, Any] | None = None) -> Sheet:
    tables = {"wearer": JOAN, "garment": DIVIDED if garment is None else garment, "cloth": cloth}
    return read_sheet(toml(tables).encode(), lambda name: 1.0)


def told(sheet: Sheet) -> list[tuple[str, str, float]]:
    return [(cloth.name, cloth.tincture, cloth.width) for cloth in sheet.cloths]


def test_with_one_cloth_the_first_tincture_is_cut_from_it_and_the_other_from_one_like_it() -> None:
    found = read({"main": {"width": 140, "length": 300, "faults": [{"x": 1, "y": 1, "width": 1, "length": 1}]}})
    assert told(found) == [("main", "gules", 140.0), ("or", "or", 140.0)]
    assert found.cloths[1].length is None and found.cloths[1].faults == ()


def test_cloths_of_the_tinctures_are_taken() -> None:
    found = read({"main": {"width": 150}, "yellow": {"width": 110, "tincture": "or"}})
    assert told(found) == [("main", "gules", 150.0), ("yellow", "or", 110.0)]
    # named by its tincture; where every cloth has one, the first is the main one
    assert told(read({"gules": {"width": 90}, "or": {"width": 80}})) == [("gules", "gules", 90.0), ("or", "or", 80.0)]


def test_the_main_cloth_may_be_of_a_later_tincture() -> None:
    found = read({"main": {"width": 150, "tincture": "or"}})
    assert told(found) == [("main", "or", 150.0), ("gules", "gules", 150.0)]


def test_without_a_division_nothing_is_added() -> None:
    assert told(read({"main": {"width": 150}}, {})) == [("main", "", 150.0)]
    assert [cloth.name for cloth in read({"main": {"width": 150}, "or": {"width": 80}}, {}).cloths] == ["main", "or"]


@pytest.mark.parametrize(
    ("cloth", "problem"),
    [
        (
            {"main": {"width": 150}, "or": {"width": 80}, "b": {"width": 80, "tincture": "or"}},
            "another cloth is or too",
        ),
        ({"main": {"width": 150}, "other": {"width": 80}}, "2 cloths are for all pieces"),
        ({"main": {"width": 150, "tincture": "red"}}, "'red' is not a choice here"),
    ],
)
def test_cloths_that_do_not_go_together_are_refused(cloth: dict[str, Any], problem: str) -> None:
    with pytest.raises(BadInput, match=problem):
        read(cloth)


def test_of_cloths_of_one_tincture_the_one_for_its_kind_is_taken() -> None:
    found = read(
        {
            "main": {"width": 150},
            "or": {"width": 80},
            "fine": {"width": 60, "tincture": "or", "pieces": ["sleeves"]},
            "linen": {"width": 60, "pieces": ["gores"]},
        }
    )

    def cut_from(id_: str, place: str, tincture: str) -> str:
        piece = Piece(id_, id_, "main", 1, place, (), (), (), (), (), tincture=tincture)  # type: ignore[arg-type]
        return cloth_for(piece, found.cloths).name

    assert cut_from("sleeve-or", "sleeve", "or") == "fine"
    assert cut_from("body-or", "body", "or") == "or"
    assert cut_from("gore-or", "body", "or") == "or"
    assert cut_from("gore", "body", "") == "linen"
    assert cut_from("body-gules", "body", "gules") == "main"
