"""Slips made on purpose in the lists of people surveyed, who had no part in the fit.

People: the public rows of ANSUR II (tests/data/ansur2.csv.gz), under our measurements.  Each fifth is held against
bodies fitted to the other four.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np

from ellwand.measure.doubting import questions
from ellwand.measure.gaussian import NAMES, PLACE, Array, Gaussian
from ellwand.measure.likely import Adults
from ellwand.measure.raw import RawWearer
from ellwand.measure.survey import translate
from ellwand.model.finding import Finding
from ellwand.model.wearer import Sex
from ellwand.units import Unit
from survey import survey_columns, survey_fields

SEXES: Final[tuple[Sex, ...]] = ("female", "male")
FOLDS: Final = 5
TEN: Final = (
    "height",
    "bust_girth",
    "waist_girth",
    "hip_girth",
    "neck_base_girth",
    "head_girth",
    "arm_length",
    "upper_arm_girth",
    "wrist_girth",
    "crotch_to_floor",
)

Values = Mapping[str, float]


@cache
def people(sex: Sex) -> Array:
    """Everyone of one sex under our measurements (cm, to a tenth as a tape gives them), in the order of FIELDS."""
    return np.round(survey_fields(sex), 1)


@cache
def fold_of(sex: Sex) -> Array:
    """Which fifth everyone is in."""
    return (np.random.default_rng(1).permutation(len(people(sex))) % FOLDS).astype(float)


@cache
def fitted_without(sex: Sex, fold: int) -> Gaussian:
    """The body of the other four fifths."""
    names, rows = survey_columns(sex)
    others = rows[fold_of(sex) != fold]
    return translate(names, others.mean(axis=0), np.cov(others.T), sex)


@dataclass(frozen=True)
class Trial:
    """A list (cm) with one slip in it, and what should be asked: the code and the fields named."""

    values: Values
    unit: Unit = "cm"
    code: str = ""
    fields: frozenset[str] = frozenset()

    def named(self, asked: Iterable[Finding]) -> bool:
        """Whether exactly this slip was named."""
        fields = [frozenset({f.subject, *([str(f.values["other"])] if "other" in f.values else [])}) for f in asked]
        return [f.code for f in asked] == [self.code] and fields == [self.fields]


Chance = np.random.Generator
Maker = Callable[[Values, Chance], Iterator[Trial]]


def as_it_is(values: Values, chance: Chance) -> Iterator[Trial]:
    """No slip."""
    yield Trial(values)


def one_in_inches(values: Values, chance: Chance) -> Iterator[Trial]:
    """One value in inches among centimetres: a factor of 1 / 2.54."""
    name = str(chance.choice(list(values)))
    yield Trial({**values, name: round(values[name] / 2.54, 1)}, "cm", "slip-unit", frozenset({name}))


def one_in_centimetres(values: Values, chance: Chance) -> Iterator[Trial]:
    """One value in centimetres among inches: a factor of 2.54."""
    name = str(chance.choice(list(values)))
    yield Trial({**values, name: values[name] * 2.54}, "in", "slip-unit", frozenset({name}))


def one_times(values: Values, chance: Chance) -> Iterator[Trial]:
    """One value among centimetres taken times 2.54, as if marked with inches."""
    name = str(chance.choice(list(values)))
    yield Trial({**values, name: values[name] * 2.54}, "cm", "slip-unit", frozenset({name}))


def list_in_inches(values: Values, chance: Chance) -> Iterator[Trial]:
    """All in inches, taken for centimetres."""
    yield Trial({n: round(cm / 2.54, 1) for n, cm in values.items()}, "cm", "slip-list", frozenset({"unit"}))


def list_in_centimetres(values: Values, chance: Chance) -> Iterator[Trial]:
    """All in centimetres, taken for inches."""
    yield Trial({n: cm * 2.54 for n, cm in values.items()}, "in", "slip-list", frozenset({"unit"}))


def waist_for_hip(values: Values, chance: Chance) -> Iterator[Trial]:
    """Waist and hip exchanged, where they differ by more than 10 cm."""
    if abs(values["waist_girth"] - values["hip_girth"]) > 10:
        yield _exchanged(values, "waist_girth", "hip_girth")


def two_exchanged(values: Values, chance: Chance) -> Iterator[Trial]:
    """Any two exchanged."""
    one, two = chance.choice(list(values), 2, replace=False)
    if values[one] != values[two]:
        yield _exchanged(values, str(one), str(two))


def _exchanged(values: Values, one: str, two: str) -> Trial:
    return Trial({**values, one: values[two], two: values[one]}, "cm", "slip-exchanged", frozenset({one, two}))


def digits_exchanged(values: Values, chance: Chance) -> Iterator[Trial]:
    """Two neighbouring digits before the decimal point exchanged; no one writes a number with 0 in front."""
    name = str(chance.choice(list(values)))
    whole, _, tenths = f"{values[name]:.1f}".partition(".")
    at = int(chance.integers(len(whole) - 1)) if len(whole) > 1 else 0
    turned = whole[:at] + whole[at : at + 2][::-1] + whole[at + 2 :]
    if turned != whole and turned[0] != "0":
        yield Trial({**values, name: float(f"{turned}.{tenths}")}, "cm", "slip-digits", frozenset({name}))


def decimal_slipped(values: Values, chance: Chance) -> Iterator[Trial]:
    """The decimal point one place off, either way."""
    name = str(chance.choice(list(values)))
    scale = float(chance.choice([0.1, 10.0]))
    yield Trial({**values, name: round(values[name] * scale, 2)}, "cm", "slip-decimal", frozenset({name}))


KINDS: Final[Mapping[str, Maker]] = {
    "no slip": as_it_is,
    "one value in inches (÷ 2.54)": one_in_inches,
    "one value in centimetres (× 2.54)": one_in_centimetres,
    "one value marked with inches (× 2.54)": one_times,
    "the whole list in inches": list_in_inches,
    "the whole list in centimetres": list_in_centimetres,
    "waist and hip, over 10 cm apart": waist_for_hip,
    "any two exchanged": two_exchanged,
    "two digits exchanged": digits_exchanged,
    "decimal point one place off": decimal_slipped,
}


@dataclass(frozen=True)
class Tally:
    """How many lists were tried, how many were asked about, and how often exactly the slip made was named."""

    tried: int
    asked: int
    named: int


def trial(maker: Maker, sex: Sex, sex_is_given: bool, fields: Iterable[str] | None = TEN, step: int = 1) -> Tally:
    """Everyone of one sex (or each ``step``-th), with ten fields given: TEN, or ten at random when None."""
    chance = np.random.default_rng(7)
    tried = asked = named = 0
    for person in range(0, len(people(sex)), step):
        bodies = _bodies(sex if sex_is_given else None, int(fold_of(sex)[person]))
        ten = fields or ("height", "bust_girth", *chance.choice(NAMES[2:], 8, replace=False).tolist())
        values = {name: float(people(sex)[person, PLACE[name]]) for name in ten}
        for made in maker(values, chance):
            found = questions(RawWearer("x", sex if sex_is_given else None, None, made.unit, made.values), bodies)
            tried, asked, named = tried + 1, asked + bool(found), named + made.named(found)
    return Tally(tried, asked, named)


@cache
def _bodies(sex: Sex | None, fold: int) -> Adults:
    return Adults(tuple(fitted_without(each, fold) for each in ((sex,) if sex else SEXES)))
