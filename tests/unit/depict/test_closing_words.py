"""Closures on paper: what is told, what is bought, what is drawn."""

from __future__ import annotations

import itertools
from typing import Any

import pytest

from ellwand.adorn import adorn
from ellwand.adorn.closures.closings import KINDS
from ellwand.depict.fastenings import fastening_rows, fastening_signs
from ellwand.depict.pieces import piece_drawing
from ellwand.depict.words.closings import closing, to_buy
from ellwand.model.draft import Draft, piece_of
from ellwand.units import format_length
from proving_specimens import drafted


def closed(**closure: Any) -> Draft:
    garment = {"body": {"shoulder": "seam"}, "sleeve": {"shape": "fitted forearm"}, "closures": [closure]}
    return adorn(drafted(garment)[0])


@pytest.mark.parametrize("by", list(KINDS))
@pytest.mark.parametrize("at", ["neck slit", "cuffs", "centre-front", "centre-back", "side"])
@pytest.mark.parametrize("unit", ["cm", "in"])
def test_every_closure_is_told_and_bought(by: str, at: str, unit: Any) -> None:
    (each,) = closed(at=at, by=by).closings
    said, bought = closing(each, unit), to_buy(each, unit)
    assert said[0].isupper()
    assert said.endswith(".")
    assert bought.endswith(".")
    assert len(said) < 420
    assert "-" not in bought
    if each.count > 1:
        assert format_length(each.pitch, unit) in said
        assert str(each.pieces * each.openings) in bought or by == "ties"


@pytest.mark.parametrize("by", list(KINDS))
def test_every_fastening_has_its_sign_and_its_row_a_note(by: str) -> None:
    draft = closed(at="side", by=by)
    piece = piece_of(draft, "back")
    (each,) = draft.closings
    signs = fastening_signs(piece, 0.5)
    assert len(signs) >= len(each.other)
    ((_, lines),) = fastening_rows(piece, lambda cm: format_length(cm, mark=False))
    assert lines[0].startswith(str(len(each.other)))
    assert "armpit" in " ".join(lines)
    written = [label.text for label in piece_drawing(piece, "cm").labels]
    assert all(line in written for line in lines)


def test_halves_laced_in_a_spiral_are_told_apart() -> None:
    garment = {"body": {"centre_seam": "both"}, "closures": [{"at": "neck slit", "by": "lacing"}]}
    draft = adorn(drafted(garment)[0])
    rows = fastening_rows(piece_of(draft, "body-left"), lambda cm: f"{cm:g}")
    first = [lines[0] for _, lines in rows]
    assert [line.split(" on the ")[1] for line in first] == ["left", "right"]


def test_signs_that_sit_close_do_not_touch() -> None:
    draft = closed(at="side", by="lacing", spacing=0.8)
    signs = fastening_signs(piece_of(draft, "back"), 0.7)
    tops = sorted((max(y for _, y in s.points), min(y for _, y in s.points)) for s in signs)
    assert all(low > high for (high, _), (_, low) in itertools.pairwise(tops))
