"""Lists of people as people keep them.

Sources: hand-written lists (common practice); the standard csv module as an independent writer of every dialect;
an inch is 2.54 cm exactly (international yard and pound agreement, 1959).
"""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand.errors import BadInput
from ellwand.measure import read_raw
from ellwand.measure.listing import MOST_BYTES, MOST_PEOPLE
from ellwand.measure.people import People, read_people


def read(text: str, encoding: str = "utf-8") -> People:
    return read_people(text.encode(encoding))


def in_cm(table: Mapping[str, object]) -> dict[str, float]:
    raw = read_raw(table)
    return {**raw.values, **{f"{hand}_arm_length": cm for hand, cm in raw.arms.items()}}


JOAN = {"height": 167.64, "bust_girth": 97.79}
LISTS = {
    "commas": "Name,Height (in),Chest (in)\nJoan,66,38 1/2\n",
    "semicolons and decimal commas": "Name;Height (m);Chest (cm)\nJoan;1,6764;97,79\n",
    "quoted decimal commas": 'Name, Height, Chest\nJoan, "167,64", "97,79"\n',
    "tabs and Windows line ends": "Name\tHeight\tChest\r\nJoan\t167.64\t97.79\r\n",
    "old Macintosh line ends": "Name,Height,Chest\rJoan,167.64,97.79\r",
    "trailing and hard spaces": "Name ,\xa0Height , Chest\nJoan ,\xa0167.64\xa0cm, 97.79 \n",
    "vulgar fraction": "Name,Height,Chest\nJoan,5′6″,38½ in\n",
    "typed fraction": "Name,Height,Chest in\nJoan,5 ft 6,38-1/2\n",
    "inch marks": 'Name,Height,Chest\nJoan,5\'6",38.5"\n',
    "quoted inch marks": 'Name,Height,Chest\n"Joan","5\'6""","38 1/2"""\n',
    "cell before heading": "Name,Height (in),Chest (in)\nJoan,167.64 cm,38.5\n",
    "bare metres in a list in cm": "Name,Height (cm),Chest (cm)\nJoan,1.6764,97.79\n",
    "millimetres": "Name,Height (mm),Chest [mm]\nJoan,1676.4,977.9\n",
    "column of units": "Name,Unit,Height,Chest\nJoan,inches,66,38.5\n",
    "row of units": "Name,Height,Chest\n,in,cm\nJoan,66,97.79\n",
    "row of unit marks": 'Name;Height;Chest\n;"""";cm\nJoan;66;97.79\n',
    "title lines": "Saltmere players\nmeasured in July, all in inches\n\nName,Height,Chest\nJoan,66,38.5\n",
    "spreadsheet's own first line": "sep=;\nName;Height;Chest\nJoan;167,64;97,79\n",
    "blank rows and columns": "Name,,Height,Chest,,\n,,,,,\nJoan,,167.64,97.79,,\n,,,,,\n",
    "data frame with its index": ",name,height,bust_girth\n0,Joan,167.64,97.79\n",
    "data frame with gaps": ",name,height,bust_girth,hip_girth\n0,Joan,167.64,97.79,NaN\n",
    "two columns of one meaning": "Name,Height,Chest,Bust\nJoan,167.64,,97.79\n",
    "on its side": "Name,Joan\nHeight (in),66\nChest (in),38.5\n",
    "on its side with names above": "Measurement,Joan\nHeight (in),66\nChest (in),38.5\n",
    "on its side with units": "Measurement,Unit,Joan\nHeight,in,66\nChest,cm,97.79\n",
    "on its side by semicolons": "Name;Joan\nHeight, m;1,6764\nChest, cm;97,79\n",
    "first and last name": "Last name,First name,Height,Chest\n,Joan,167.64,97.79\n",
    "with a byte order mark": "\ufeffName,Height,Chest\nJoan,167.64,97.79\n",
}


@pytest.mark.parametrize("text", LISTS.values(), ids=LISTS)
def test_one_woman_written_in_many_ways(text: str) -> None:
    people = read(text)
    (table,) = people.tables
    assert table["name"] == "Joan"
    assert in_cm(table) == pytest.approx(JOAN)
    assert people.left_out == ()


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"])
def test_encodings(encoding: str) -> None:
    (table,) = read("Name,Height,Chest\nZoë,167.64,38½ in\n", encoding).tables
    assert (table["name"], table["bust_girth"]) == ("Zoë", "38½ in")


def test_one_person_under_a_unit() -> None:
    (table,) = read("Measurement,inches\nHeight,66\nChest,38.5\n").tables
    assert (table["name"], table["unit"]) == ("person 1", "in")
    assert in_cm(table) == pytest.approx(JOAN)


def test_about_the_wearer() -> None:
    people = read(
        "Name,Gender,Age,Height,Chest,Notes,E-mail,Shoe size\n"
        "Joan,F,30,164,96,likes red,j@saltmere.example,5\n"
        "Tom,boy,9 y,132,70!,,,\n"
        ",male,9 years 6 months,1.35,128 cm !,,,\n"
        "Ann,,adult,n/a,?,,,\n"
        "Sib,other,18 months,-,–,,,\n"
    )
    assert people.left_out == ("Notes", "E-mail", "Shoe size")
    assert people.tables == (
        {"name": "Joan", "sex": "female", "age": 30, "height": "164", "bust_girth": "96"},
        {"name": "Tom", "sex": "male", "age": 9, "height": "132", "bust_girth": "70", "confirmed": ["bust_girth"]},
        {"name": "person 3", "sex": "male", "age": 9.5, "height": "1.35 m"}
        | {"bust_girth": "128 cm", "confirmed": ["bust_girth"]},
        {"name": "Ann"},
        {"name": "Sib", "age": 1.5},
    )


@pytest.mark.parametrize(
    ("heading", "cell", "years"),
    [
        *(("Age", "9", 9), ("Age", "9,5", 9.5), ("Age", "9½", 9.5), ("Age", "9 1/2", 9.5), ("Age", "9 years old", 9)),
        *(("Age", "9 yrs. 6 mths", 9.5), ("Age", "9y6m", 9.5), ("Age", "9 years and 6 months", 9.5)),
        *(("Age", "18 months", 1.5), ("Age (months)", "30", 2.5), ("Age (months)", "3 years", 3)),
    ],
)
def test_ages(heading: str, cell: str, years: float) -> None:
    (table,) = read(f"Name;Height;{heading}\nTom;110;{cell}\n").tables
    assert table["age"] == pytest.approx(years)


@pytest.mark.parametrize(
    ("cell", "fields"),
    [
        ("hip girth; Chest", ["hip_girth", "bust_girth"]),
        ("hip_girth bust_girth", ["hip_girth", "bust_girth"]),
        ("nape to waist, hips", ["nape_to_waist", "hip_girth"]),
        ("yes", ["height", "bust_girth"]),
        ("left arm", ["left_arm_length"]),
    ],
)
def test_confirmed(cell: str, fields: list[str]) -> None:
    (table,) = read(f'Name,Height,Chest,Confirmed\nJoan,164,96,"{cell}"\n').tables
    assert table["confirmed"] == fields
    assert read_raw(table).confirmed == set(fields)


def test_nothing_confirmed() -> None:
    (table,) = read("Name,Height,Chest,Confirmed\nJoan,164,96,no\n").tables
    assert "confirmed" not in table


def test_both_arms() -> None:
    (table,) = read("Name,Height,Chest,Left arm (in),Right arm\nJoan,164,96,23,59\n").tables
    assert read_raw(table).arms == pytest.approx({"left": 58.42, "right": 59})


BAD = {
    "Name,Height,Chest (in)\n\n\nJoan,164,wide\n": "line 4, Chest (in), Joan: 'wide' is not a length",
    "Name,Height,Chest\n,164,0\n": "line 2, Chest: '0' is not above nothing; leave the cell blank",
    "Name,Joan,Tom\nHeight,164,170\nChest,96,-3\n": "line 3, Chest, Tom: '-3' is below nothing",
    'Name,Height,Chest\n"Joan\nNetmaker",164,96\nTom,17O,96\n': "line 4, Height, Tom: '17O'",
    "Name,Height,Chest,Bust\nJoan,164,96,97\n": "line 2, Bust, Joan: 'Chest' and 'Bust' mean the same; leave one",
    "Name,Unit,Height\nJoan,ells,164\n": "line 2, Unit, Joan: 'ells' is not a unit; write cm or in",
    "Name,Age,Height\nJoan,old,164\n": "line 2, Age, Joan: 'old' is not an age; write 9, 9 years 6 months",
    "Name,Height (ft)\nJoan,5.6\n": "line 2, Height (ft), Joan: '5.6' feet can be read in two ways; write 5'6\"",
    "Name,Height,Confirmed\nJoan,164,sideways\n": "line 2, Confirmed, Joan: 'sideways' is not a measurement",
    "Name,Height,Chest\nJoan,1,68,96\n": "line 2: has more cells than there are headings; give every column",
    ",Joan\nHeight,1,68\nChest,87,5\n": "line 2: has more cells than there are headings",
    'Name,Height\n"Joan,164\nTom,170\n': "line 2: the quotation marks do not come out even",
    "a,b\n1,2\n": "no headings of measurements are found in the list; begin with a row of headings, such as Name",
    "Name,Height,Chest\n": "nobody is in the list",
    "": "the list is empty",
    " \n \n": "the list is empty",
    "PK\x03\x04\0\0": "the spreadsheet cannot be read; save the list as CSV",
}


@pytest.mark.parametrize("text", BAD)
def test_bad_lists_are_refused_in_one_sentence(text: str) -> None:
    with pytest.raises(BadInput) as refused:
        read(text)
    assert str(refused.value).startswith(BAD[text])


def test_too_much_is_refused() -> None:
    with pytest.raises(BadInput, match="more than 10 MB"):
        read_people(b" " * (MOST_BYTES + 1))
    with pytest.raises(BadInput, match="10001 people"):
        read("Name,Height\n" + "Joan,164\n" * (MOST_PEOPLE + 1))
    with pytest.raises(BadInput, match="too long"):
        read("Name,Height\n" + "Joan,164\n" * (MOST_PEOPLE + 1000))
    assert len(read("Name,Height\n" + "Joan,164\n" * MOST_PEOPLE).tables) == MOST_PEOPLE


# --- any list, written by the standard library's csv module

SPELLINGS = {
    "height": ["Height", "stature", "TALL"],
    "bust_girth": ["Chest", "bust", "bust_girth", "Chest circumference"],
    "waist_girth": ["Waist", "natural waist", "Waist measurement"],
    "belly_girth": ["Belly", "tummy", "stomach round"],
    "hip_girth": ["Hips", "seat", "Hip-girth"],
    "across_shoulder": ["Shoulders", "across the shoulders"],
    "neck_girth": ["Neck", "neck circ."],
    "head_girth": ["Head", "hat size"],
    "left_arm_length": ["Left arm", "arm length (left)"],
    "right_arm_length": ["Right sleeve"],
    "upper_arm_girth": ["Biceps", "upper arm"],
    "wrist_girth": ["Wrist", "3. wrists"],
    "hand_girth": ["Hand", "knuckles"],
    "nape_to_waist": ["Back length", "nape to waist"],
    "crotch_to_floor": ["Inside leg", "inseam"],
    "thigh_girth": ["Thigh", "thighs"],
    "foot_girth": ["Foot", "ball of foot"],
}
UNIT_WORDS = {"cm": ["cm", "centimetres"], "mm": ["mm"], "m": ["m", "metres"], "in": ["in", "inches", '"']}
PER_CM = {"cm": 1.0, "mm": 10.0, "m": 0.01, "in": 1 / 2.54}
PLACES = {"cm": 1, "mm": 0, "m": 3, "in": 2}
FORMS = ["{0} ({1})", "{0}, {1}", "{0}/{1}", "{0} {1}", "{0} [{1}]"]


@dataclass(frozen=True)
class Written:
    """One list in bytes, and what was meant by it: names and cm by field, a person each."""

    data: bytes
    names: list[str | None]
    people: list[dict[str, float]]


@st.composite
def lists(draw: st.DrawFn) -> Written:
    wanted = draw(st.lists(st.sampled_from(sorted(SPELLINGS)), unique=True))
    fields = draw(st.permutations(sorted({"height", "bust_girth", *wanted})))
    delimiter, mark = draw(st.sampled_from(",;\t")), draw(st.sampled_from(".,"))
    said = {field: draw(st.sampled_from(["heading", "row", "cell", "nowhere"])) for field in fields}
    units = {field: "cm" if said[field] == "nowhere" else draw(st.sampled_from(sorted(PER_CM))) for field in fields}

    def label(field: str) -> str:
        known = draw(st.sampled_from(SPELLINGS[field]))
        spelling = draw(st.sampled_from([known, known.upper(), known.lower()]))
        if said[field] != "heading":
            return spelling
        form, unit = draw(st.sampled_from(FORMS)), draw(st.sampled_from(UNIT_WORDS[units[field]]))
        return form.format(spelling, unit)

    def cell(field: str, cm: float) -> str:
        unit = units[field]
        eighths = round(cm / 2.54 * 8)
        if unit == "in" and abs(eighths / 8 * 2.54 - cm) < 0.01:
            whole, rest = divmod(eighths, 8)
            text = f"{whole} {rest}/8" if rest else f"{whole}"
        else:
            text = f"{cm * PER_CM[unit]:.{PLACES[unit]}f}".replace(".", mark)
        return f"{text} {draw(st.sampled_from(UNIT_WORDS[unit]))}" if said[field] == "cell" else text

    count = draw(st.integers(1, 4))
    lengths = {"height": st.floats(80, 220)}
    people = [{field: draw(lengths.get(field, st.floats(10, 200))) for field in fields} for _ in range(count)]
    names = [draw(st.sampled_from(["Joan Netmaker", "Zoë", "Netmaker, Tom", None])) for _ in range(count)]
    blank = draw(st.sampled_from(["", "-", "n/a"]))
    gaps = {field for field in wanted if field not in ("height", "bust_girth") and draw(st.booleans())}
    people[0] = {field: cm for field, cm in people[0].items() if field not in gaps}

    rows = [["Name", *(label(field) for field in fields)]]
    if "row" in said.values():
        rows.append(["", *(units[field] if said[field] == "row" else "" for field in fields)])
    for name, person in zip(names, people, strict=True):
        rows.append([name or "", *(cell(f, person[f]) if f in person else blank for f in fields)])
    if draw(st.booleans()):
        rows = [list(column) for column in zip(*rows, strict=True)]
    text = io.StringIO(newline="")
    if draw(st.booleans()):
        text.write("Saltmere players\r\n\r\n")
    quoted, ends = draw(st.booleans()), draw(st.sampled_from(["\n", "\r\n"]))
    if quoted:
        csv.writer(text, delimiter=delimiter, quoting=csv.QUOTE_ALL, lineterminator=ends).writerows(rows)
    else:
        csv.writer(text, delimiter=delimiter, lineterminator=ends).writerows(rows)
    encoding = draw(st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "cp1252"]))
    return Written(text.getvalue().encode(encoding), names, people)


@given(lists())
def test_any_list_is_read_as_it_was_meant(written: Written) -> None:
    people = read_people(written.data)
    assert people.left_out == ()
    for n, (table, name, person) in enumerate(zip(people.tables, written.names, written.people, strict=True), 1):
        assert table["name"] == (name or f"person {n}")
        cm = in_cm(table)
        assert {field: cm[field] for field in person} == pytest.approx(person, abs=0.0501)
        assert set(cm) - {"arm_length"} == set(person)


@given(st.one_of(st.binary(max_size=200), st.text("Namehigtcs,;\t\n\"'1 68½!()", max_size=200).map(str.encode)))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    for head in (b"", b"Name,Height,Chest\n"):
        try:
            people = read_people(head + data)
        except BadInput as refused:
            assert str(refused).endswith(".")
        else:
            assert people.tables
