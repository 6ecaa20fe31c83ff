"""Rosters as people keep them: any garment for anyone; whoever is written wrongly is named, and the rest goes on."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from ellwand.company.columns import changed, meaning
from ellwand.company.roster import Bundle, load_roster
from ellwand.errors import BadInput
from rosters import PAGEANT, bundles_of, spreadsheet

HEAD = "Name,Sex,Height,Chest,Garment,Cloth,Colour,sleeve.shape\n"


def test_each_has_the_garment_that_is_named_or_the_first(tmp_path: Path) -> None:
    people = (
        "Ann,f,164,96,,,,",
        "Bo,m,180,104,gown,,red,",
        "Ci,f,158,90,Riding Surcote,,,",
        "Do,m,170,98,tunic; hood,,,",
    )
    roster = HEAD + "\n".join(people)
    found = bundles_of(tmp_path, roster)
    assert [(each.number, each.name, each.garment) for each in found] == [
        (1, "Ann", "tunic"),
        (2, "Bo", "gored gown"),
        (3, "Ci", "riding surcote"),
        (4, "Do", "tunic"),
        (5, "Do", "hood"),
    ]
    assert [each.colour for each in found] == ["", "red", "", "", ""]
    # the sheet given for tunics, with its length, and not the plain style
    assert found[0].sheet and found[0].sheet.choices.length == "knee"


def test_a_heading_with_a_key_of_the_sheet_changes_it_for_that_one(tmp_path: Path) -> None:
    roster = (
        "Name,Height,Chest,garment.length,Sleeve.Shape,gores.base,cloth.wool.nap,sewing.allowance\n"
        'Ann,164,96,mid-calf,straight,45,yes,"1,2"\nBo,180,104,,,,,\n'
    )
    ann, bo = bundles_of(tmp_path, roster)
    assert ann.sheet and bo.sheet
    assert (ann.sheet.choices.length, ann.sheet.choices.sleeve.shape) == ("mid-calf", "straight")
    assert {gore.base for gore in ann.sheet.choices.gores} == {45.0}
    assert ann.sheet.cloth.nap and not bo.sheet.cloth.nap
    assert ann.sheet.choices.sewing.allowance == 1.2
    assert (bo.sheet.choices.length, bo.sheet.choices.sleeve.shape) == ("knee", "tapered")


def test_the_cloth_is_one_of_those_that_the_sheet_describes(tmp_path: Path) -> None:
    ann, bo, ci = bundles_of(tmp_path, f"{HEAD}Ann,f,164,96,,,,\nBo,m,180,104,,Linen,,\nCi,f,160,90,,silk,,\n")
    assert ann.sheet and ann.sheet.cloth.name == "wool"
    assert bo.sheet and (bo.sheet.cloth.name, bo.sheet.cloth.width) == ("linen", 140)
    assert not ci.sheet and "line 4, Ci" in ci.trouble and "'silk'" in ci.trouble and "[cloth.silk]" in ci.trouble


WRONG = {
    "Ann,f,tall,96,,,,": "line 2, Height",
    "Ann,f,164,96,cowl,,,": "there is no garment 'cowl'",
    "Ann,f,164,96,,,,puffed": "garment.sleeve.shape",
}


@pytest.mark.parametrize("line", WRONG)
def test_whoever_is_wrong_is_named_and_the_rest_goes_on(tmp_path: Path, line: str) -> None:
    ann, bo = bundles_of(tmp_path, f"{HEAD}{line}\nBo,m,180,104,,,,\n")
    assert ann.sheet is None and "Ann" in ann.trouble and WRONG[line] in ann.trouble
    assert bo.sheet is not None and not bo.trouble


def test_the_same_name_twice_is_two_people_and_is_told(tmp_path: Path) -> None:
    bundles_of(tmp_path, "Name,Height,Chest,Notes\nAnn,164,96,x\nBo,180,104,\nann,150,80,\n")
    roster = load_roster(tmp_path / "roster.csv", [tmp_path / "tunic.toml"])
    assert len(roster.bundles) == 3
    assert roster.twice == ("Ann",)
    assert roster.left_alone == ("Notes",)


def test_units_may_be_mixed_and_a_sheet_in_inches_counts_in_inches(tmp_path: Path) -> None:
    roster = "Name,Height,Chest,Garment\nAnn,5'4\",38 in,gown\nBo,1.80 m,104 cm,tunic\nCi,64,38,gown\n"
    ann, bo, ci = bundles_of(tmp_path, roster)
    assert ann.sheet and ann.sheet.wearer["unit"] == "in"
    assert bo.sheet and bo.sheet.wearer["unit"] == "cm"
    assert ci.sheet and ci.sheet.wearer["height"] == "64"


ROWS: list[list[object]] = [
    ["Name", "Height", "Chest", "Garment", "Colour"],
    ["Ann", 164, 96.5, "tunic", "red"],
    ["Bo", "5'10\"", 104, None, None],
    ["Léa & <Cie>", 158, 90, "gown", "blue"],
]


def saved(mark: str, encoding: str) -> bytes:
    """The rows as spreadsheets save them."""

    def cell(each: object) -> str:
        text = "" if each is None else str(each).replace(".", "," if mark == ";" else ".")
        return f'"{text.replace(chr(34), chr(34) * 2)}"'

    return "\r\n".join(mark.join(map(cell, row)) for row in ROWS).encode(encoding)


@pytest.mark.parametrize(
    "data", [saved(",", "utf-8"), saved(";", "utf-8-sig"), saved("\t", "utf-16"), saved(";", "cp1252")]
)
def test_a_spreadsheet_says_the_same_as_any_csv_of_it(tmp_path: Path, data: bytes) -> None:
    """The .xlsx is written by openpyxl."""
    whole = bundles_of(tmp_path, spreadsheet(ROWS), name="roster.xlsx")
    assert [each.name for each in whole] == ["Ann", "Bo", "Léa & <Cie>"]
    other = bundles_of(tmp_path, data)

    def lengths(each: Bundle) -> object:
        wearer = dict(each.sheet.wearer) if each.sheet else {}
        return {**wearer, "bust_girth": float(str(wearer["bust_girth"]).replace(",", "."))}

    assert [(each.garment, each.colour, lengths(each)) for each in other] == [
        (each.garment, each.colour, lengths(each)) for each in whole
    ]


@pytest.mark.parametrize("name", ["roster.csv", "roster.xlsx"])
def test_five_megabytes_of_noise_are_refused_in_a_sentence(tmp_path: Path, name: str) -> None:
    noise = random.Random(7).randbytes(5_000_000)
    for data in (noise, b"PK\x03\x04" + noise, noise.hex()[:5_000_000].encode(), b"Name,Height\n" + noise):
        with pytest.raises(BadInput) as refused:
            bundles_of(tmp_path, data, name=name)
        assert len(str(refused.value)) < 500


def test_without_headings_or_with_nobody_the_list_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="headings"):
        bundles_of(tmp_path, "164,96\n170,98\n")
    with pytest.raises(BadInput, match="nobody"):
        bundles_of(tmp_path, "Name,Height,Chest\n,,\n")


def test_the_pageant_has_twenty_people_in_three_garments_and_two_colours() -> None:
    sheets = [PAGEANT / f"{name}.toml" for name in ("tunic", "gown", "surcote")]
    bundles = load_roster(PAGEANT / "roster.csv", sheets).bundles
    assert len({each.name for each in bundles}) == len(bundles) == 20
    assert len({each.garment for each in bundles}) == 3 and len({each.colour for each in bundles}) == 2
    assert not any(each.trouble for each in bundles)


COLUMNS = {
    "Name": ["Ann", "Bo", "Ci"],
    "Height": ["164", "1.80", "62 in"],
    "Chest": ["96", "104", "35 in"],
    "Garment": ["gown", "", "hood"],
    "Colour": ["red", "", "blue"],
    "garment.length": ["ankle", "knee", ""],
    "Remarks": ["; + . =", "garment", "12"],
}


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.permutations(list(COLUMNS)), st.sampled_from(",;\t"), st.permutations(range(3)))
def test_the_order_of_columns_and_people_does_not_matter(
    tmp_path: Path, order: list[str], mark: str, people: list[int]
) -> None:
    lines = [mark.join(order), *(mark.join(f'"{COLUMNS[name][n]}"' for name in order) for n in people)]
    usual = [",".join(COLUMNS), *(",".join(f'"{COLUMNS[name][n]}"' for name in COLUMNS) for n in range(3))]

    def told(text: str) -> object:
        bundles = bundles_of(tmp_path, text)
        return {each.name: (each.garment, each.colour, not each.trouble, each.sheet) for each in bundles}

    assert told("\n".join(lines)) == told("\n".join(usual))


@given(st.text(max_size=30))
def test_any_label_means_something_or_nothing(label: str) -> None:
    assert meaning(label) is None or isinstance(meaning(label), (str, tuple))


def test_a_change_leaves_the_tables_it_is_made_to_alone() -> None:
    tables = {"garment": {"gores": [{"base": 40}, {"base": 50}]}}
    out = changed(tables, ("garment", "gores", "base"), "60")
    assert out == {"garment": {"gores": [{"base": 60}, {"base": 60}]}}
    assert tables == {"garment": {"gores": [{"base": 40}, {"base": 50}]}}
    with pytest.raises(BadInput, match="no such key"):
        changed({"garment": {"length": "knee"}}, ("garment", "length", "shape"), "60")
