"""Properties of the estimates: what is given stays, and more given is never less known.

Source: the algebra of the conditional Gaussian.  People: rows of ANSUR II (public).
"""

from __future__ import annotations

import csv
import gzip
import itertools
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand.measure import estimate, wearer_from
from ellwand.measure.gaussian import NAMES, TAPE_SD, Gaussian, condition
from ellwand.measure.limits import LIMITS
from ellwand.measure.raw import RawWearer
from ellwand.measure.survey import TRANSLATIONS, adult
from ellwand.model.measurement import FIELDS
from ellwand.model.wearer import Measure, Sex, upper

DATA = Path(__file__).parents[2] / "data"
SEXES: tuple[Sex, ...] = ("female", "male")
REQUIRED = ("height", "bust_girth")


@cache
def people() -> list[tuple[Sex, dict[str, float]]]:
    """Every fiftieth person surveyed, under our measurements (cm)."""
    found: list[tuple[Sex, dict[str, float]]] = []
    with gzip.open(DATA / "ansur2.csv.gz", "rt", encoding="utf-8") as lines:
        for row in itertools.islice(csv.DictReader(lines), 0, None, 50):
            sex: Sex = "female" if row["sex"] == "f" else "male"
            values = {
                name: sum(w * float(row[c]) for c, w in t.columns.items()) + (t.female if sex == "female" else t.male)
                for name, t in TRANSLATIONS.items()
            }
            found.append((sex, values))
    return found


PEOPLE = st.deferred(lambda: st.sampled_from(people()))
SOME_FIELDS = st.sets(st.sampled_from(NAMES))


@given(person=PEOPLE, fields=SOME_FIELDS, sex_is_given=st.booleans())
def test_any_subset_of_any_person_is_enough(
    person: tuple[Sex, dict[str, float]], fields: set[str], sex_is_given: bool
) -> None:
    sex, whole = person
    values = {name: whole[name] for name in NAMES if name in fields or name in REQUIRED}
    wearer = estimate(RawWearer("anyone", sex if sex_is_given else None, None, "cm", values))
    assert list(wearer.measures) == list(FIELDS)
    for name, measure in wearer.measures.items():
        if name in values:
            assert measure == Measure(values[name], "measured", 0.0)
        else:
            assert measure.source == "estimated"
            assert measure.sd > 0
            assert LIMITS[name].adult_least - 1 <= measure.value <= LIMITS[name].most
            assert abs(measure.value - whole[name]) < 8 * measure.sd


@given(sex=st.sampled_from(SEXES), person=PEOPLE, fewer=SOME_FIELDS, more=SOME_FIELDS)
def test_more_given_never_widens_the_spread(
    sex: Sex, person: tuple[Sex, dict[str, float]], fewer: set[str], more: set[str]
) -> None:
    whole = person[1]
    little = condition(adult(sex), {name: whole[name] for name in {*REQUIRED, *fewer}})
    much = condition(adult(sex), {name: whole[name] for name in {*REQUIRED, *fewer, *more}})
    assert np.all(much.sd <= little.sd + 1e-9)


@given(person=PEOPLE, fields=SOME_FIELDS)
def test_without_a_sex_the_estimate_lies_between(person: tuple[Sex, dict[str, float]], fields: set[str]) -> None:
    values = {name: person[1][name] for name in {*REQUIRED, *fields}}
    her, him, either = (estimate(RawWearer("x", sex, None, "cm", values)) for sex in (*SEXES, None))
    for name in NAMES:
        low, high = sorted((her[name], him[name]))
        assert low - 1e-9 <= either[name] <= high + 1e-9
        assert either.measures[name].sd >= min(her.measures[name].sd, him.measures[name].sd) - 1e-9


@given(height=st.floats(90, 250), bust=st.floats(58, 220), sex=st.sampled_from([*SEXES, None]), data=st.data())
def test_bodies_outside_the_survey_stay_bodies(
    height: float, bust: float, sex: Sex | None, data: st.DataObject
) -> None:
    values = {"height": height, "bust_girth": bust}
    for name in data.draw(st.sets(st.sampled_from(["waist_girth", "hip_girth", "neck_base_girth"]))):
        values[name] = data.draw(st.floats(LIMITS[name].adult_least, LIMITS[name].most))
    wearer = estimate(RawWearer("x", sex, None, "cm", values))
    levels = [wearer[f"{level}_to_floor"] for level in ("knee", "crotch", "hip", "waist", "nape")]
    assert all(a < b for a, b in itertools.pairwise([0.0, *levels, height]))
    assert wearer["wrist_girth"] < wearer["hand_girth"]
    assert wearer["scye_depth"] < wearer["nape_to_waist"]
    assert all(m.value > 0 and np.isfinite(m.value) and np.isfinite(m.sd) for m in wearer.measures.values())


@pytest.mark.parametrize("sex", SEXES)
def test_the_gaussians_are_sound(sex: Sex) -> None:
    covariance = adult(sex).covariance
    assert np.allclose(covariance, covariance.T)
    assert np.linalg.eigvalsh(covariance).min() > 0


def test_two_measurements_follow_the_closed_form() -> None:
    """Of two, the other's mean is m + ρ·s₂/s₁·d and its variance s₂²(1 − ρ²), the tape's spread apart."""
    body = Gaussian(np.arange(22.0), np.eye(22))
    body.covariance[0, 1] = body.covariance[1, 0] = 0.6
    reading = condition(body, {"height": 2.0})
    pull = 0.6 / (1 + TAPE_SD**2)
    assert reading.mean[1] == pytest.approx(1 + pull * 2)
    assert reading.sd[1] == pytest.approx(np.sqrt(1 - 0.6 * pull))
    assert reading.mean[2] == 2.0
    assert (reading.mean[0], reading.sd[0]) == (2.0, 0.0)


def test_upper_is_the_ninety_fifth_percentile_of_an_estimate() -> None:
    assert upper(Measure(20.0)) == 20.0
    assert upper(Measure(20.0, "estimated", 2.0)) == pytest.approx(23.29)


def test_known_answers_for_a_woman_of_the_mean() -> None:
    """At the survey's own mean height and chest every estimate is the survey's mean (survey.json)."""
    wearer = wearer_from({"sex": "female", "height": 162.85, "bust_girth": 94.69})
    assert wearer["nape_to_floor"] == pytest.approx(139.57)
    assert wearer["arm_length"] == pytest.approx(55.36)
    assert wearer["hand_girth"] == pytest.approx(1.07 * 18.66)
    assert wearer["waist_to_floor"] == pytest.approx(98.01 + 4.6)


def test_far_from_the_survey_the_spread_grows() -> None:
    """The conditional multivariate t: (ν + D) / (ν + n) on the variance, for D the squared distance of n given."""
    usual = wearer_from({"sex": "female", "height": 162.85, "bust_girth": 94.69})
    shape = {"sex": "female", "height": 120, "bust_girth": 160}
    odd = wearer_from({**shape, "confirmed": ["height", "bust_girth"]})
    for name in ("waist_girth", "arm_length", "head_girth"):
        assert odd.measures[name].sd > 1.2 * usual.measures[name].sd


@pytest.mark.parametrize("sex", SEXES)
def test_the_spread_is_honest_for_odd_bodies(sex: Sex) -> None:
    """Of the tenth of the people surveyed who are oddest in what is given, 90 to 99 in 100 lie within two spreads."""
    fields = ("height", "bust_girth", "waist_girth", "hip_girth")
    bodies = [values for who, values in people() if who == sex]
    readings = sorted((condition(adult(sex), {f: v[f] for f in fields}).distance, i) for i, v in enumerate(bodies))
    odd = [bodies[i] for _, i in readings[-len(readings) // 5 :]]
    inside = []
    for values in odd:
        wearer = estimate(RawWearer("x", sex, None, "cm", {f: values[f] for f in fields}))
        measures = [(m, values[name]) for name, m in wearer.measures.items() if m.source == "estimated"]
        inside += [abs(m.value - true) < 2 * m.sd for m, true in measures]
    assert 0.9 < np.mean(inside) <= 1
