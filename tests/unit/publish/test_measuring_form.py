"""The measuring form read back with pdfplumber (pdfminer), which shares no code with what wrote it."""

from __future__ import annotations

import csv
import io
import itertools

import pdfplumber
import pytest

from ellwand.depict.figure import number
from ellwand.errors import BadInput
from ellwand.model.measurement import FIELDS, MEASUREMENTS
from ellwand.publish.measuring_form import UNIT_WORDS, measuring_form_csv, measuring_form_pdf
from ellwand.units import Unit

UNITS: tuple[Unit, ...] = ("cm", "in")
POINTS_PER_MM = 72 / 25.4
LONG = "Wilhelmina Bartholomea of the Lower Saltmere Salt-Pans and the Old Ferry House"
HOSTILE = (
    '"; #panic("no") // \\ `$x$`',
    "] #x [ *bold* _low_ @ref <label>",
    "مريم بنت حسن",
    "織工 李" * 30,
    "x" * 400,
    "W" * 60,
    "a\x00b\nc\u202ed\ud800",
)


def read(data: bytes) -> list[pdfplumber.page.Page]:
    return pdfplumber.open(io.BytesIO(data)).pages


def text_of(page: pdfplumber.page.Page) -> str:
    return "".join(c["text"] for c in page.chars).replace("\u00a0", " ").replace(" ", "")


def boxes(page: pdfplumber.page.Page) -> list[dict[str, float]]:
    """The boxes to write in: as wide as each other, and not the box of what is mixed up."""
    return [r for r in page.rects if r["stroke"] and abs(r["width"] - 26 * POINTS_PER_MM) < 0.5]


@pytest.mark.parametrize("unit", UNITS)
def test_a_page_a_person(unit: Unit) -> None:
    people = ["Joan Netmaker", "", LONG]
    pages = read(measuring_form_pdf(people, unit))
    assert len(pages) == 3
    assert "JoanNetmaker" in text_of(pages[0])
    assert LONG.replace(" ", "")[:36] in text_of(pages[2])
    for page in pages:
        assert "Measurements" in text_of(page)
        assert UNIT_WORDS[unit].replace(" ", "") in text_of(page)


@pytest.mark.parametrize(("unit", "size"), [("cm", (595.28, 841.89)), ("in", (612.0, 792.0))])
def test_paper_is_a4_or_letter(unit: Unit, size: tuple[float, float]) -> None:
    # ISO 216 A4 = 210 mm × 297 mm; ANSI Letter = 8.5 in × 11 in; PDF points of 1/72 in
    (page,) = read(measuring_form_pdf(unit=unit))
    assert (float(page.width), float(page.height)) == pytest.approx(size, abs=0.02)


@pytest.mark.parametrize("unit", UNITS)
def test_every_measurement_is_asked_for_and_drawn(unit: Unit) -> None:
    (page,) = read(measuring_form_pdf(unit=unit))
    said = text_of(page)
    for field in FIELDS:
        assert f"{MEASUREMENTS[field].label},".replace(" ", "") in said
    found = [w["text"].rstrip("*") for w in page.extract_words()]
    for field in FIELDS:
        # once in the table, and at least once on the figures
        assert found.count(str(number(field))) >= 2, field


@pytest.mark.parametrize("unit", UNITS)
def test_the_unit_is_the_largest_text(unit: Unit) -> None:
    (page,) = read(measuring_form_pdf(unit=unit))
    largest = max(c["size"] for c in page.chars)
    assert largest >= 18
    assert UNIT_WORDS[unit].replace(" ", "") in "".join(c["text"] for c in page.chars if c["size"] == largest).replace(
        " ", ""
    )


@pytest.mark.parametrize("unit", UNITS)
def test_boxes_are_high_enough_to_write_in_and_hold_only_the_unit(unit: Unit) -> None:
    (page,) = read(measuring_form_pdf(unit=unit))
    found = boxes(page)
    assert len(found) == len(FIELDS) + 2
    for each in found:
        assert each["height"] >= 8.0 * POINTS_PER_MM
        inside = page.within_bbox((each["x0"], each["top"], each["x1"], each["bottom"])).extract_text().strip()
        assert inside == unit
    for a, b in itertools.combinations(found, 2):
        apart = a["x1"] < b["x0"] or b["x1"] < a["x0"] or a["bottom"] < b["top"] or b["bottom"] < a["top"]
        assert apart


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("name", ["", LONG])
def test_nothing_lies_outside_the_margins_or_on_other_words(unit: Unit, name: str) -> None:
    (page,) = read(measuring_form_pdf([name], unit))
    margin = 10 * POINTS_PER_MM
    words = page.extract_words(keep_blank_chars=True, x_tolerance=2)
    for word in words:
        assert word["x0"] >= margin and word["x1"] <= page.width - margin, word["text"]
        assert word["top"] >= margin and word["bottom"] <= page.height - margin, word["text"]
    for a, b in itertools.combinations(words, 2):
        across = min(a["x1"], b["x1"]) - max(a["x0"], b["x0"])
        # the boxes hold ascenders and descenders: two lines set close may share a part of them
        down = min(a["bottom"], b["bottom"]) - max(a["top"], b["top"])
        least = min(a["bottom"] - a["top"], b["bottom"] - b["top"])
        assert across < 1.5 or down < 0.45 * least, (a["text"], b["text"])
    for each in boxes(page):
        assert each["x1"] <= page.width - margin and each["bottom"] <= page.height - margin
        for word in words:
            crosses = word["x0"] < each["x0"] - 0.5 < word["x1"] and each["top"] < word["bottom"] - 3 < each["bottom"]
            assert not crosses, word["text"]


@pytest.mark.parametrize("unit", UNITS)
def test_no_text_is_smaller_than_eight_and_a_half_points(unit: Unit) -> None:
    (page,) = read(measuring_form_pdf(unit=unit))
    assert min(round(c["size"], 2) for c in page.chars) >= 8.5


def starred(data: bytes) -> set[str]:
    (page,) = read(data)
    found = {w["text"] for w in page.extract_words()}
    return {field for field in FIELDS if f"{number(field)}*" in found}


def test_stars_mark_what_is_wanted() -> None:
    assert starred(measuring_form_pdf()) == {"height", "bust_girth", "head_girth"}
    wanted = {"height", "bust_girth", "arm_length", "calf_girth"}
    assert starred(measuring_form_pdf(wanted=wanted)) == wanted
    (page,) = read(measuring_form_pdf(wanted=wanted))
    assert "starred:thisgarmentneedsit;therestcanbeestimated" in text_of(page)


def test_an_unknown_measurement_is_refused() -> None:
    with pytest.raises(BadInput, match="'waist' is not a measurement"):
        measuring_form_pdf(wanted=["waist"])


def test_no_centimetres_stand_on_the_form_in_inches() -> None:
    (page,) = read(measuring_form_pdf(unit="in"))
    assert "cm" not in [w["text"].strip(".;,") for w in page.extract_words()]


@pytest.mark.parametrize("name", HOSTILE)
def test_any_name_can_be_printed_on_its_line(name: str) -> None:
    pages = read(measuring_form_pdf([name, "Wat Lanternboy"]))
    assert len(pages) == 2
    date = next(w for w in pages[0].extract_words() if w["text"] == "Date")
    line = [w for w in pages[0].extract_words() if abs(w["bottom"] - date["bottom"]) < 6 and w["text"] != "Date"]
    assert all(w["x1"] < date["x0"] for w in line)


def test_the_same_people_give_the_same_bytes() -> None:
    assert measuring_form_pdf(["Joan Netmaker"]) == measuring_form_pdf(["Joan Netmaker"])


@pytest.mark.parametrize("unit", UNITS)
def test_the_list_has_a_column_for_each_box_and_a_row_for_each_person(unit: Unit) -> None:
    people = ["Joan Netmaker", 'Piers "Ferry", the elder']
    head, *rows = csv.reader(io.StringIO(measuring_form_csv(unit, people)))
    assert head[:5] == ["name", "age", "sex", f"1 height ({unit})", f"2 bust or chest ({unit})"]
    assert head[-2:] == [f"left arm ({unit})", f"right arm ({unit})"]
    assert len(head) == 3 + len(FIELDS) + 2 == len(set(head))
    assert [row[0] for row in rows] == people
    assert all(len(row) == len(head) and not any(row[1:]) for row in rows)


def test_the_list_without_people_is_its_head() -> None:
    assert len(measuring_form_csv().splitlines()) == 1
