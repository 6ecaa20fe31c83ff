"""The whole survey as arrays, in its own columns and under our measurements.

Source: ANSUR II 2012, NATICK/TR-15/007 (public release), tests/data/ansur2.csv.gz.
"""

from __future__ import annotations

from functools import cache

import numpy as np

from bodies import rows
from ellwand.measure.gaussian import NAMES, Array
from ellwand.measure.survey import TRANSLATIONS
from ellwand.model.wearer import Sex


@cache
def survey_columns(sex: Sex) -> tuple[tuple[str, ...], Array]:
    """Names and rows (cm) of one sex in the survey."""
    of_sex = [row for row in rows() if row["sex"] == sex[0]]
    names = tuple(name for name in of_sex[0] if name not in ("sex", "age"))
    return names, np.array([[float(row[name]) for name in names] for row in of_sex])


@cache
def survey_fields(sex: Sex) -> Array:
    """The same people under our measurements (cm), in the order of FIELDS."""
    names, people = survey_columns(sex)
    fields = np.zeros((len(people), len(NAMES)))
    for at, name in enumerate(NAMES):
        translation = TRANSLATIONS[name]
        fields[:, at] = translation.female if sex == "female" else translation.male
        for column, weight in translation.columns.items():
            fields[:, at] += weight * people[:, names.index(column)]
    return fields
