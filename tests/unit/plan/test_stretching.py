"""The question turned round: monotone, reproducible, within its bound, and true."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from ellwand.cli.app import app
from ellwand.depict.words import why
from ellwand.errors import BadInput
from ellwand.lay.check import faults_in
from ellwand.model.cloth import length_on_table
from ellwand.pipeline import prove_sheet
from ellwand.plan.laying import laid, taken
from ellwand.plan.making import make_freely
from ellwand.plan.stretching import stretch
from sheets import JOAN, sheet, toml

SETTLED = {
    "sleeve": {"pieces": "one"},
    "gores": [{"place": "side", "base": 40, "make": "whole"}],
    "length": [80, 110],
}


def cloth(length: float, width: float = 150) -> dict[str, object]:
    return {"width": width, "length": length, "washed": True}


def test_the_longest_lies_on_the_cloth_and_the_next_does_not() -> None:
    on = sheet(SETTLED, cloth=cloth(200))
    found = stretch(on, "longest")
    assert found.limit == "cloth" and found.used <= 200.05 < found.next_needs
    again = prove_sheet(sheet({**SETTLED, "length": found.value}, cloth=cloth(200)))
    assert again.draft.pieces == found.garment.draft.pieces
    assert taken(laid(again), "main") == pytest.approx(found.used)
    parts = (*found.garment.draft.parts, *found.garment.draft.applied)
    assert not faults_in(found.garment.lays, found.garment.draft.pieces, on.cloth, parts)
    assert found.value <= found.most <= 110


def test_more_cloth_never_gives_less() -> None:
    values = [stretch(sheet(SETTLED, cloth=cloth(length)), "longest").value for length in (180, 197, 230)]
    assert values == sorted(values)


def test_the_same_answer_every_time() -> None:
    one, other = (stretch(sheet(SETTLED, cloth=cloth(205)), "longest") for _ in range(2))
    assert (one.value, one.used, one.most) == (other.value, other.used, other.most)


def test_the_range_ends_it() -> None:
    assert stretch(sheet(SETTLED, cloth=cloth(900)), "longest").limit == "range"


def test_the_fullest_grows_its_gores() -> None:
    found = stretch(sheet({**SETTLED, "length": 95}, cloth=cloth(400)), "fullest")
    assert dict(found.bases)["side"] > 40 and found.value <= found.most + 1e-6


def test_the_most_of_them() -> None:
    coif = {"style": "coif"}
    counts = [stretch(sheet(coif, cloth=cloth(length)), "most") for length in (40, 80, 160)]
    assert [c.value for c in counts] == sorted(c.value for c in counts) and counts[-1].value > counts[0].value >= 1
    for each in counts:
        assert each.used <= each.at_hand + 0.05 and each.value <= each.most


def test_a_remnant_stretches_it() -> None:
    from ellwand.choose import read_sheet

    tables = {"wearer": JOAN, "garment": SETTLED}
    plain = toml({**tables, "cloth": {"main": cloth(200)}})
    more = toml({**tables, "cloth": {"main": cloth(200), "remnants": [{"width": 70, "length": 70}]}})
    one, other = (stretch(read_sheet(text.encode(), lambda _: 1.0), "longest") for text in (plain, more))
    assert other.value >= one.value


@pytest.mark.parametrize(
    ("garment", "on", "aim", "said"),
    [
        ({}, {"width": 150}, "longest", "its length must be known"),
        (SETTLED, cloth(60), "longest", "the least of these garments takes"),
        ({"gores": []}, cloth(300), "fullest", "nothing to make fuller"),
        ({"style": "coif"}, cloth(300), "longest", "not a coif"),
    ],
)
def test_what_cannot_be_stretched_is_said(
    garment: dict[str, object], on: dict[str, object], aim: str, said: str
) -> None:
    with pytest.raises(BadInput, match=said):
        stretch(sheet(garment, cloth=on), aim)  # type: ignore[arg-type]


def test_the_fullest_that_fits_is_made() -> None:
    """Of a range the fullest would take more than there is: as much of it as fits."""
    ranged = {**SETTLED, "take": "fullest"}
    garment = make_freely(sheet(ranged, cloth=cloth(200)), seconds=0)
    assert 80 < garment.draft.dimensions.length < 110
    at_hand = length_on_table(garment.cloths[0])
    assert at_hand is not None and taken(garment.lays, "main") <= at_hand + 0.05


def test_made_freely_tells_what_it_saved() -> None:
    garment = make_freely(sheet({}, cloth={"width": 90}), seconds=0)
    found = next(f for f in garment.proof.findings if f.code == "put-together")
    assert found.measured is not None and found.needed is not None and found.measured < found.needed
    assert garment.lays[0].length <= found.needed
    said = why(found, "in")
    assert said.startswith("Put together to save cloth") and "sleeves in two halves" in said and said.endswith(".")


def test_the_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "s.toml"
    file.write_text(toml({"wearer": JOAN, "garment": SETTLED, "cloth": {"main": cloth(200)}}))
    assert app(["stretch", str(file), "--for", "longest"], standalone_mode=False) == 0
    said = capsys.readouterr().out
    assert said.startswith("The longest: ") and "What limits it: " in said
    assert app(["stretch", str(file), "--for", "longest", "--json"], standalone_mode=False) == 0
    (answer,) = json.loads(capsys.readouterr().out)
    assert answer["for"] == "longest" and answer["used"] + answer["left"] == pytest.approx(200)
    with pytest.raises(BadInput, match="--for"):
        app(["stretch", str(file), "--for", "widest"], standalone_mode=False)
