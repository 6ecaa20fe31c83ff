"""The blazon, read back by a small reader of its own; the plain words; and where charges are chalked."""

from __future__ import annotations

import random
import re
from typing import Any, get_args

import pytest
from shapely import Polygon, box

from ellwand import prove_sheet
from ellwand.depict import words
from ellwand.depict.words.blazon import COUNTS, PLAIN, arms, blazon, hatching_key, plainly
from ellwand.depict.words.heraldry import placings
from ellwand.model.draft import Draft
from ellwand.model.heraldry import IN_FOUR, USUAL_COUNT, Charge, ChargeChoice, Division, Ordinary, Partition, Tincture
from sheets import sheet

NUMBER = {word: n for n, word in enumerate(COUNTS)}
TINCTURES = get_args(Tincture)


def read_field(text: str) -> Division:
    """A field's blazon as a division."""
    by = max((each for each in get_args(Partition) if text.lower().startswith(each)), key=len)
    rest = text[len(by) :].strip()
    count = 0
    if found := re.match(r"of ([\w-]+) ", rest):
        count, rest = NUMBER[found[1]], rest[found.end() :]
    return Division(by, tuple(re.split(r", | and ", rest)), count)  # type: ignore[arg-type]


def charge(choice: ChargeChoice, name: str = "", on: str = "") -> Charge:
    return Charge(name or choice.ordinary or "", choice.tincture, choice, "front", (), (), (), on_charge=on)


@pytest.mark.parametrize("by", get_args(Partition))
@pytest.mark.parametrize("four", [False, True])
def test_every_partition_is_read_back(by: Partition, four: bool) -> None:
    if four and by not in IN_FOUR:
        by = "quarterly"
    dice = random.Random(by)
    tinctures = tuple(dice.sample(TINCTURES, 4 if four else 2))
    counts = [0, 4, 10, 24] if by in ("gyronny", "paly", "barry", "bendy") else [0]
    for count in counts:
        division = Division(by, tinctures, count)
        said = blazon(division, ())
        assert said[0].isupper()
        assert read_field(said) == division
        plain = plainly(division, ())
        assert all(PLAIN[tincture] in plain.lower() for tincture in tinctures)


def test_the_usual_number_is_not_said() -> None:
    for by, usual in USUAL_COUNT.items():
        assert " of " not in blazon(Division(by, ("or", "vert"), usual), ())


def test_where_the_first_tincture_lies_is_said_as_worn() -> None:
    # dexter is the wearer's right: Fox-Davies, A Complete Guide to Heraldry
    assert plainly(Division("per pale", ("gules", "or")), ()) == "The right half red, the left half yellow, as worn"
    assert "upper right and lower left red" in plainly(Division("quarterly", ("gules", "or")), ())
    assert "from the right shoulder to the left foot" in plainly(Division("per bend", ("gules", "or")), ())


@pytest.mark.parametrize("ordinary", get_args(Ordinary))
@pytest.mark.parametrize("tincture", TINCTURES)
def test_an_ordinary_is_named_with_its_tincture(ordinary: Ordinary, tincture: Tincture) -> None:
    said = blazon(Division("per pale", ("or", "vert")), [charge(ChargeChoice(tincture, ordinary))])
    assert said == f"Per pale or and vert, a {ordinary} {tincture}"


# the arrangements and the order of words: Fox-Davies, A Complete Guide to Heraldry
@pytest.mark.parametrize(
    ("charges", "says"),
    [
        ([("fess", 1, "or"), ("roundel", 3, "argent")], "A fess or between three roundels argent"),
        ([("roundel", 3, "argent"), ("fess", 1, "or")], "Three roundels argent, a fess or"),
        ([("chevron", 1, "or"), ("mullet", 3, "sable")], "A chevron or between three mullets sable"),
        ([("saltire", 1, "or"), ("billet", 4, "sable")], "A saltire or between four billets sable two and two"),
        ([("pale", 1, "or"), ("billet", 4, "sable")], "A pale or, four billets sable two and two"),
        ([("chief", 1, "or"), ("annulet", 1, "vert")], "An annulet vert, a chief or"),
        ([("cross couped", 5, "or")], "Five crosses couped or in saltire"),
        ([("escutcheon", 6, "or")], "Six escutcheons or three, two and one"),
    ],
)
def test_charges_are_told_in_their_order(charges: list[tuple[str, int, Tincture]], says: str) -> None:
    made = [
        charge(ChargeChoice(tincture, name), name)  # type: ignore[arg-type]
        if name in get_args(Ordinary)
        else charge(ChargeChoice(tincture, motif=name, number=number), name)
        for name, number, tincture in charges
    ]
    assert blazon(None, made) == says


def test_what_lies_on_a_charge_is_told_with_it_and_told_once() -> None:
    fess = charge(ChargeChoice("or", "fess"))
    shield = charge(ChargeChoice("gules", motif="escutcheon"), "escutcheon", on="fess")
    star = charge(ChargeChoice("argent", motif="mullet"), "mullet", on="escutcheon")
    said = blazon(None, [fess, shield, star])
    assert said == "On a fess or an escutcheon gules charged with a mullet argent"


def draft(**garment: Any) -> Draft:
    return prove_sheet(sheet(garment)).draft


def test_front_and_back_are_told_apart_where_they_differ() -> None:
    division = {"by": "per pale", "tinctures": ["gules", "or"]}
    one = arms(draft(division=division, charges=[{"ordinary": "fess", "tincture": "sable", "on": "both"}]))
    two = arms(draft(division=division, charges=[{"ordinary": "fess", "tincture": "sable", "on": "front"}]))
    assert [(on, said) for on, said, _ in one] == [("front and back", "Per pale gules and or, a fess sable")]
    assert [(on, said) for on, said, _ in two] == [
        ("front", "Per pale gules and or, a fess sable"),
        ("back", "Per pale gules and or"),
    ]
    assert arms(draft()) == []


def test_the_key_names_just_the_tinctures_that_are_there() -> None:
    found = draft(
        division={"by": "per pale", "tinctures": ["gules", "or"]}, charges=[{"ordinary": "fess", "tincture": "sable"}]
    )
    assert (
        hatching_key(found) == "gules (red): upright lines; or (yellow): dots; sable (black): upright and level lines"
    )
    assert hatching_key(draft()) == ""


def test_a_fess_can_be_chalked_from_its_words() -> None:
    found = draft(charges=[{"ordinary": "fess", "tincture": "or"}])
    (said,) = placings(found, "cm")
    heights = [float(n) for n in re.findall(r"([\d.]+) cm up at both edges", said)]
    half = found.dimensions.panel_width / 2
    (region,) = found.adornment.charges[0].regions
    assert box(-half, heights[1], half, heights[0]).symmetric_difference(Polygon(region.ring)).area < 1e-3


def test_motifs_can_be_chalked_from_their_words_right_and_left_as_worn() -> None:
    (said,) = placings(draft(charges=[{"motif": "heart", "tincture": "or", "place": "dexter chief"}]), "cm")
    assert re.search(r"middle [\d.]+ cm up [\d.]+ cm to the right$", said)
    (behind,) = placings(
        draft(charges=[{"motif": "heart", "tincture": "or", "place": "dexter chief", "on": "back"}]), "cm"
    )
    assert "to the right" in behind
    (inches,) = placings(draft(charges=[{"motif": "heart", "tincture": "or"}]), "in")
    assert " in up on the centre line" in inches


def test_the_step_tells_where_they_go_and_what_is_not_turned_under() -> None:
    garment = prove_sheet(
        sheet({"charges": [{"ordinary": "fess", "tincture": "or"}, {"motif": "annulet", "tincture": "gules"}]})
    )
    (step,) = [each for each in garment.steps if each.code == "charges"]
    said = words.step(step, garment.draft, "cm")
    for part in ("the fess or", "the annulet gules", "not where an end goes into a seam", "clip hollow", "that one"):
        assert part in said
    assert len(said) < 900
