"""What the [wearer] table may hold.  Source: the tool's own contract; an inch is 2.54 cm exactly."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from ellwand.errors import BadInput
from ellwand.measure import read_raw, wearer_from
from ellwand.measure.limits import LIMITS, ORDER
from ellwand.model.measurement import FIELDS

ADULT: Mapping[str, object] = {"height": 164, "bust_girth": 96}

BAD: list[tuple[Mapping[str, object], str, str]] = [
    ({}, "wearer.height", "is missing"),
    ({"height": 164}, "wearer.bust_girth", "is missing"),
    ({"bust_girth": 96}, "wearer.height", "is missing"),
    ({"age": 7}, "wearer.height", "is missing"),
    ({"age": 40, "height": 164}, "wearer.bust_girth", "is missing"),
    ({**ADULT, "hip_grith": 104}, "wearer.hip_grith", "the nearest is hip_girth"),
    ({**ADULT, "zzz": 1}, "wearer.zzz", "the measurements are height, bust_girth"),
    ({**ADULT, "chest_girth": 96}, "wearer.chest_girth", "same measurement as bust_girth"),
    (
        {**ADULT, "height": 64},
        "wearer.height",
        "64 cm is too small: an adult has between 90 and 250 cm",
    ),
    ({**ADULT, "height": 64}, "wearer.height", 'in inches, write "64 in", or set unit = "in"'),
    ({**ADULT, "height": 1.64}, "wearer.height", 'if it is in metres, write "1.64 m"'),
    ({**ADULT, "height": 1640}, "wearer.height", 'if it is in millimetres, write "1640 mm"'),
    ({**ADULT, "height": 164, "unit": "in"}, "wearer.height", 'in centimetres, write "164 cm", or set unit = "cm"'),
    ({**ADULT, "height": 16.4}, "wearer.height", "a digit may be missing"),
    ({**ADULT, "height": "64 cm"}, "wearer.height", 'kept with confirmed = ["height"]'),
    ({**ADULT, "height": 80}, "wearer.height", "or give the age if the wearer is a child"),
    ({**ADULT, "bust_girth": 45}, "wearer.bust_girth", 'set unit = "in"'),
    ({**ADULT, "head_girth": 22}, "wearer.head_girth", 'set unit = "in"'),
    ({**ADULT, "waist_girth": True}, "wearer.waist_girth", "True is not a length"),
    ({**ADULT, "waist_girth": float("nan")}, "wearer.waist_girth", "not a finite number"),
    ({**ADULT, "waist_girth": float("inf")}, "wearer.waist_girth", "not a finite number"),
    ({**ADULT, "waist_girth": -80}, "wearer.waist_girth", "not above nothing"),
    ({**ADULT, "waist_girth": 0}, "wearer.waist_girth", "not above nothing"),
    ({**ADULT, "waist_girth": "wide"}, "wearer.waist_girth", "'wide' is not a length"),
    ({**ADULT, "waist_girth": ""}, "wearer.waist_girth", "nothing is written"),
    ({**ADULT, "waist_girth": [80]}, "wearer.waist_girth", "not a length"),
    ({**ADULT, "waist_girth": "80 furlongs"}, "wearer.waist_girth", "unknown unit"),
    ({**ADULT, "waist_girth": 10**400}, "wearer.waist_girth", "not a finite number"),
    ({**ADULT, "sex": "woman"}, "wearer.sex", "write female or male"),
    ({**ADULT, "sex": 1}, "wearer.sex", "write female or male"),
    ({**ADULT, "unit": "inches"}, "wearer.unit", 'write "cm" or "in"'),
    ({**ADULT, "age": 0}, "wearer.age", "not between 0 and 120"),
    ({**ADULT, "age": 120}, "wearer.age", "not between 0 and 120"),
    ({**ADULT, "age": float("nan")}, "wearer.age", "not between 0 and 120"),
    ({**ADULT, "age": True}, "wearer.age", "not a number"),
    ({**ADULT, "age": "old"}, "wearer.age", "not a number"),
    ({**ADULT, "age": 1.5}, "wearer.age", "begin at 2 years"),
    ({**ADULT, "name": ""}, "wearer.name", "not a name"),
    ({**ADULT, "name": 7}, "wearer.name", "not a name"),
    ({**ADULT, "name": "x" * 200}, "wearer.name", "200 characters"),
    ({**ADULT, "name": "Joan\nNetmaker"}, "wearer.name", "cannot be printed"),
    ({**ADULT, "crotch_to_floor": 110, "waist_to_floor": 100}, "wearer.crotch_to_floor", "exchanged"),
    ({**ADULT, "nape_to_floor": 170}, "wearer.nape_to_floor", "170 cm is not less than height, 164 cm"),
    ({**ADULT, "wrist_girth": 20, "hand_girth": 16}, "wearer.wrist_girth", "not less than hand_girth"),
]


@pytest.mark.parametrize(("table", "where", "part"), BAD)
def test_bad_input_is_one_sentence_that_names_the_place(table: Mapping[str, object], where: str, part: str) -> None:
    with pytest.raises(BadInput) as caught:
        wearer_from(table)
    sentence = str(caught.value)
    assert caught.value.where == where
    assert part in sentence
    assert caught.value.mend
    assert sentence.endswith(".") and "\n" not in sentence and ".." not in sentence


def test_lengths_are_read_in_the_wearers_unit_or_their_own() -> None:
    raw = read_raw({"height": "5 ft 6 in", "chest_girth": 38, "waist_girth": "86 cm", "unit": "in"})
    assert raw.values == {"height": 167.64, "bust_girth": 96.52, "waist_girth": 86.0}
    assert (raw.unit, raw.name, raw.sex, raw.age) == ("in", "the wearer", None, None)


def test_who_it_is_is_kept() -> None:
    wearer = wearer_from({**ADULT, "name": " Joan Netmaker ", "sex": "female", "age": "34"})
    assert (wearer.name, wearer.sex, wearer.age, wearer.is_child) == ("Joan Netmaker", "female", 34.0, False)


def test_a_fullest_seat_below_the_crotch_is_believed() -> None:
    wearer = wearer_from({**ADULT, "crotch_to_floor": 78, "hip_to_floor": 77})
    assert (wearer["crotch_to_floor"], wearer["hip_to_floor"]) == (78, 77)


def test_every_field_has_limits_and_orders_name_fields_only() -> None:
    assert set(LIMITS) == set(FIELDS)
    assert {name for chain in ORDER for name in chain} <= set(FIELDS)
    assert all(lim.child_least < lim.adult_least < lim.most for lim in LIMITS.values())


def test_a_body_beyond_human_limits_is_kept_once_confirmed() -> None:
    with pytest.raises(BadInput, match="too large"):
        wearer_from({**ADULT, "bust_girth": 230})
    wearer = wearer_from({**ADULT, "bust_girth": 230, "confirmed": ["chest_girth"]})
    assert wearer["bust_girth"] == 230
    with pytest.raises(BadInput, match="too large"):
        wearer_from({**ADULT, "bust_girth": 400, "confirmed": ["bust_girth"]})


def test_keys_are_read_as_people_write_them() -> None:
    raw = read_raw({"Height (m)": "1,68", "Chest (in)": "37 1/2", "Hips": 104, "Left arm": 57})
    assert raw.values == {"height": 168.0, "bust_girth": 95.25, "hip_girth": 104.0, "arm_length": 57.0}
    assert raw.arms == {"left": 57.0}
    with pytest.raises(BadInput, match="same measurement"):
        read_raw({**ADULT, "Chest": 96})


def test_two_arms_stand_for_their_mean() -> None:
    raw = read_raw({**ADULT, "left_arm_length": 54, "right_arm_length": 58})
    assert raw.values["arm_length"] == 56 and raw.arms == {"left": 54.0, "right": 58.0}
    assert wearer_from({**ADULT, "left_arm_length": 54, "right_arm_length": 58}).arm("right") == 58
    with pytest.raises(BadInput, match="left_arm_length"):
        wearer_from({**ADULT, "left_arm_length": 5, "right_arm_length": 58})


@pytest.mark.parametrize(("confirmed", "part"), [("hip", "no measurement"), (7, "not a list"), ([7], "no measurement")])
def test_only_measurements_can_be_confirmed(confirmed: object, part: str) -> None:
    with pytest.raises(BadInput, match=part):
        read_raw({**ADULT, "confirmed": confirmed})
