"""Estimates against 6,068 surveyed people (ANSUR II, public rows) and the growth tables of CDC and WHO.

tests/data/ansur2.csv.gz: the survey's public rows.  tests/data/cv_errors.csv: regressions on them.
tests/data/growth_lms.csv: stature from the CDC growth charts of 2000 (Series 11, No. 246, public domain) and
head girth from the WHO standards of 2006 (terms not checked), by way of pygrowthstandards 0.1.3 and
growthcharts 0.2.1
(both MIT).
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from ellwand.measure import estimate, wearer_from
from ellwand.measure.children import usual_height
from ellwand.measure.gaussian import NAMES, PLACE, Array, condition
from ellwand.measure.raw import RawWearer
from ellwand.measure.survey import TRANSLATIONS, translate
from ellwand.model.wearer import Sex
from survey import survey_columns, survey_fields

DATA = Path(__file__).parents[1] / "data"
SEXES: tuple[Sex, ...] = ("female", "male")
GIVEN = ("height", "bust_girth", "waist_girth", "hip_girth")

RESIDUALS = {
    # field: the survey's column for it, and the most allowed for women and men (cm, to one decimal)
    "upper_arm_girth": ("upper_arm_girth_flexed", 1.7, 2.0),
    "thigh_girth": ("thigh_girth", 1.9, 1.9),
    "nape_to_floor": ("cervicale_height", 1.1, 1.1),
    "crotch_to_floor": ("crotch_height", 2.3, 2.3),
    "arm_length": ("shoulder_to_wrist", 1.8, 1.8),
    "neck_base_girth": ("neck_base_girth", 1.4, 1.7),
    "wrist_girth": ("wrist_girth", 0.6, 0.6),
}


@cache
def left_out(sex: Sex) -> tuple[Array, Array]:
    """Error and stated sd (cm) of every measurement, each person estimated by the other four fifths."""
    names, rows = survey_columns(sex)
    fields = survey_fields(sex)
    fold = np.random.default_rng(1).permutation(len(rows)) % 5
    errors, stated = np.zeros_like(fields), np.zeros_like(fields)
    for k in range(5):
        others = rows[fold != k]
        body = translate(names, others.mean(axis=0), np.cov(others.T), sex)
        for person in np.flatnonzero(fold == k):
            reading = condition(body, {name: fields[person, PLACE[name]] for name in GIVEN})
            errors[person], stated[person] = reading.mean - fields[person], reading.sd
    return errors, stated


def test_the_whole_survey_is_there() -> None:
    assert [len(survey_fields(sex)) for sex in SEXES] == [1986, 4082]


@cache
def regression_errors() -> dict[tuple[str, str], float]:
    """Five-fold errors (cm) of plain linear regression on height, chest, waist and hip, done elsewhere."""
    with (DATA / "cv_errors.csv").open(encoding="utf-8") as lines:
        return {
            (row["grp"], row["field"]): float(row["rmse_cv"]) for row in csv.DictReader(lines) if row["given"] == "B"
        }


@pytest.mark.parametrize("field", RESIDUALS)
def test_people_left_out_of_the_fit_are_estimated_closely(field: str) -> None:
    column, women, men = RESIDUALS[field]
    for sex, allowed in zip(SEXES, (women, men), strict=True):
        error = left_out(sex)[0][:, PLACE[field]]
        residual = float(np.sqrt(np.mean(error**2)))
        assert round(residual, 1) <= allowed
        assert residual <= 1.01 * regression_errors()[sex[0], column]
        assert abs(np.mean(error)) < 0.1


@pytest.mark.parametrize("sex", SEXES)
def test_the_stated_spread_covers_nineteen_of_twenty(sex: Sex) -> None:
    errors, stated = left_out(sex)
    # the belly is known from the waist, whose own translation is uncertain
    known = {*GIVEN, "belly_girth"}
    exact = [at for at, name in enumerate(NAMES) if name not in known and TRANSLATIONS[name].spread == 0]
    inside = np.mean(np.abs(errors[:, exact]) <= 1.96 * stated[:, exact], axis=0)
    assert np.all(inside > 0.93)
    assert np.all(inside < 0.98)


@pytest.mark.parametrize("sex", SEXES)
def test_head_girth_is_not_pretended_to_be_known(sex: Sex) -> None:
    errors, stated = left_out(sex)
    head = PLACE["head_girth"]
    assert stated[:, head].min() > 0.98 * np.sqrt(np.mean(errors[:, head] ** 2)) > 1.3


@pytest.mark.parametrize("sex", SEXES)
@pytest.mark.parametrize("sex_is_given", [True, False])
def test_everyone_surveyed_is_estimated_in_the_order_of_the_body(sex: Sex, sex_is_given: bool) -> None:
    for person in survey_fields(sex):
        values = {name: float(person[PLACE[name]]) for name in GIVEN}
        wearer = estimate(RawWearer("anyone", sex if sex_is_given else None, None, "cm", values))
        knee, crotch, hip = (wearer[f"{level}_to_floor"] for level in ("knee", "crotch", "hip"))
        assert 0 < knee < crotch < hip < wearer["waist_to_floor"] < wearer["nape_to_floor"] < wearer["height"]
        assert wearer["scye_depth"] < wearer["nape_to_waist"]
        assert wearer["wrist_girth"] < wearer["hand_girth"]
        assert 46 < wearer["head_girth"] < 66


def growth(source: str, sex: Sex) -> dict[float, float]:
    """Median (cm) by age in years."""
    with (DATA / "growth_lms.csv").open(encoding="utf-8") as lines:
        return {
            float(row["age_months"]) / 12: float(row["M"])
            for row in csv.DictReader(lines)
            if row["source"] == source and row["sex"] == sex[0]
        }


@pytest.mark.parametrize("sex", SEXES)
def test_head_girth_of_small_children_agrees_with_the_who(sex: Sex) -> None:
    heights = growth("CDC2000", sex)
    for age, median in growth("WHO2006", sex).items():
        if age >= 2:
            head = wearer_from({"sex": sex, "age": age, "height": heights[age]}).measures["head_girth"]
            assert head.value == pytest.approx(median, abs=1.2)
            assert head.sd < 2


@pytest.mark.parametrize("sex", SEXES)
def test_the_heights_behind_the_children_agree_with_the_cdc(sex: Sex) -> None:
    for age, median in growth("CDC2000", sex).items():
        if age < 18:
            mean, sd = usual_height(sex, age)
            assert mean == pytest.approx(median, rel=0.025)
            assert 3 < sd < 9
