"""What labels mean.  Sources: the terms and labels of MEASUREMENTS (ISO 8559-1:2017 as others print it), and lists
people keep (hand-written here, common practice)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand.measure.heading import LENGTHS, SYNONYMS, Heading, heading
from ellwand.model.measurement import MEASUREMENTS

SPELT = {
    "height": "height, Stature, tall, Height (without shoes), standing height, 1. Height, HEIGHTS",
    "bust_girth": "Chest, bust, Chest/Bust, bust or chest, chest circumference, CHEST GIRTH, chest_girth, Bust-girth,"
    " round the chest, Chest measurement, full bust, Chest girth (men), bust (fullest part)",
    "waist_girth": "waist, Natural Waist, waist circ., waist (natural), around waist, Waist girth, waist size",
    "belly_girth": "belly, tummy, stomach, navel, abdomen, belly round, girth at the navel",
    "hip_girth": "hip, hips, Seat, hip circumference, Hips around, hips'",
    "shoulder_girth": "round the shoulders, shoulder girth, shoulder circumference, shoulders round",
    "across_shoulder": "shoulders, Shoulder, shoulder width, across shoulder, across the shoulders,"
    " across back shoulders, Across-Shoulder",
    "neck_girth": "neck, neck girth, neck circumference, collar size",
    "neck_base_girth": "neck base, base of the neck, base of neck, neckline, neck base girth",
    "head_girth": "head, Hat, hat size, head circumference, around the head",
    "arm_length": "arm, arm length, sleeve, Sleeve Length, outer arm, outer arm length, armLength",
    "left_arm_length": "left arm, arm (left), left_arm_length, Left sleeve length, arm length left",
    "right_arm_length": "right arm, sleeve right, Right-arm-length",
    "upper_arm_girth": "upper arm, upper-arm girth, bicep, biceps, Biceps circumference, arm girth",
    "wrist_girth": "wrist, wrists, 12. Wrist, wrist circumference",
    "hand_girth": "hand, knuckles, fist, hand round, round the knuckles",
    "nape_to_waist": "back length, back waist, nape to waist, nape-waist, back neck to waist, centre back,"
    " center back, back neck point to waist",
    "scye_depth": "scye depth, armscye depth, nape to armpit",
    "nape_to_floor": "nape to floor, back neck to floor, cervicale height, back neck height (cervicale)",
    "waist_to_floor": "waist to floor, waist height",
    "hip_to_floor": "hip to floor, hip height, hips to floor",
    "crotch_to_floor": "inside leg, inseam, crotch to floor, crotch height, inside-leg length, inside leg height",
    "knee_to_floor": "knee to floor, knee height",
    "thigh_girth": "thigh, thighs, thigh circumference",
    "calf_girth": "calf, calves, calf girth",
    "foot_girth": "foot, ball of foot, round the ball of the foot, feet",
    "name": "name, Wearer, person, pupil, student, Participant, Pupil's name, full name, wearer name, player’s name",
    "first_name": "first name, First_Name, forename, given name",
    "last_name": "last name, surname, family name, Last-Name",
    "sex": "sex, gender, Sex/Gender, M/F, Sex (M/F)",
    "age": "age, Age, years, Years",
    "unit": "unit, units, unit of measurement, cm/in",
    "confirmed": "confirmed, Confirm",
}
CASES = [(text, field) for field, texts in SPELT.items() for text in texts.split(", ")]


@pytest.mark.parametrize(("text", "field"), CASES)
def test_every_spelling_is_known(text: str, field: str) -> None:
    assert heading(text) == Heading(field)


def test_every_measurement_is_spelt_above() -> None:
    assert set(LENGTHS) == {field for field in SPELT if field in LENGTHS}


@pytest.mark.parametrize("field", MEASUREMENTS)
def test_fields_labels_and_terms_are_known(field: str) -> None:
    said = MEASUREMENTS[field]
    for text in (field, said.label, said.term, *said.term.split(", ")):
        if text:
            assert heading(text) == Heading(field), text


def test_no_spelling_means_two_things() -> None:
    for field, written in SYNONYMS.items():
        for text in written.split(", "):
            assert heading(text) == Heading(field), text


@pytest.mark.parametrize(
    ("text", "field", "unit"),
    [
        ("Chest (in)", "bust_girth", "in"),
        ("bust cm", "bust_girth", "cm"),
        ("Height/m", "height", "m"),
        ("waist, inches", "waist_girth", "in"),
        ('hip ["]', "hip_girth", "in"),
        ('Chest (")', "bust_girth", "in"),
        ("Chest (″)", "bust_girth", "in"),
        ("chest ''", "bust_girth", "in"),
        ("1 height (cm)", "height", "cm"),
        ("height_cm", "height", "cm"),
        ("HeightCm", "height", "cm"),
        ("Height (ft/in)", "height", "ft"),
        ("Height in feet and inches", "height", "ft"),
        ("inseam in inches", "crotch_to_floor", "in"),
        ("foot in", "foot_girth", "in"),
        ("Foot (cm)", "foot_girth", "cm"),
        ("Wrist (mm) round", "wrist_girth", "mm"),
        ("Height (without shoes), centimeters", "height", "cm"),
        ("Age (years)", "age", "years"),
        ("age in years", "age", "years"),
        ("Age, months", "age", "months"),
        ("\xa0Chest\xa0(in)\xa0", "bust_girth", "in"),
    ],
)
def test_units_in_headings(text: str, field: str, unit: str) -> None:
    assert heading(text) == Heading(field, unit)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "text",
    [
        *(
            "",
            " ",
            "bust_girt",
            "hieght",
            "Notes",
            "E-mail",
            "Year",
            "shoe size",
            "dress size",
            "weight (kg)",
            "chest (stone)",
        ),
        *("cm", "in", '"', "F", "M", "9 years", "18 months", "168", "34 1/2", "5 ft 6 in", "girth", "measurement"),
        *("chest width", "hip (height of chair)", "height girth", "neck length", "left thigh", "left", "under bust"),
        *("name (cm)", "age (cm)", "height (years)", "high hip", "head height", "chest cm or in", "x" * 5000),
    ],
)
def test_what_is_not_known_is_no_heading(text: str) -> None:
    assert heading(text) is None


@given(st.text(max_size=40))
def test_any_text_has_an_answer(text: str) -> None:
    known = heading(text)
    assert known is None or known.field in SPELT
