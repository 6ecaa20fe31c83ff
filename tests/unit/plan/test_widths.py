"""The same garment on several widths: each is what the sheet itself would give on that cloth."""

from __future__ import annotations

from typing import Any

import pytest

from ellwand.lay.buy import purchase
from ellwand.pipeline import make, prove_sheet
from ellwand.plan.widths import at_widths
from sheets import sheet


@pytest.mark.parametrize("garment", [{"style": "shift"}, {"style": "cloak"}], ids=lambda g: g["style"])
def test_each_width_is_what_its_own_sheet_gives(garment: dict[str, Any]) -> None:
    """A cloak's strips among it, which depend on the width."""
    read = sheet(garment, cloth={"width": 150, "price": 10})
    for each in at_widths(read, (60, 112)):
        own = make(sheet(garment, cloth={"width": each.width, "price": 10}), seconds=0)
        (lay,) = own.lays
        assert each.laid == lay.length and each.gap == lay.gap and each.use == pytest.approx(lay.use)
        assert each.bought == pytest.approx(lay.buy_length)
        asked = purchase(lay.length, own.cloths[0])
        # a price by area: a metre of it at 150 cm for 10
        assert each.cost == pytest.approx(asked.length / 100 * 10 * each.width / 150)
        strips = {note.values["off"] for note in own.draft.notes if note.code == "pieced"}
        assert strips <= set(each.pieced) <= {piece.name for piece in own.draft.pieces}
        if garment["style"] == "shift":
            whole = {piece.name for piece in prove_sheet(read).draft.pieces}
            assert whole.isdisjoint(each.pieced) and bool(each.pieced) == (each.width == 60)


def test_what_cannot_be_cut_says_why_and_the_rest_goes_on() -> None:
    whole = sheet({"style": "shift", "body": {"pieced": "never"}})
    narrow, wide = at_widths(whole, (40, 150))
    assert "can be used between the selvedges" in narrow.refused and narrow.laid == 0
    assert not wide.refused and wide.laid > 0


def test_the_cloth_at_hand_does_not_bind_other_widths() -> None:
    short = sheet({"style": "shift"}, cloth={"width": 150, "length": 120})
    free = sheet({"style": "shift"}, cloth={"width": 150})
    assert list(at_widths(short, (112,))) == list(at_widths(free, (112,)))
