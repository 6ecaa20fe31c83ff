"""How well slips are caught and named, and how closely one measurement tells another: prints docs/accuracy.md.

    python benchmarks/accuracy.py > docs/accuracy.md

Takes some minutes on two cores.  Everyone is held against bodies fitted to the other four fifths of the survey; the
trials are those of tests/slip_trials.py.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import Final

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from ellwand.measure.gaussian import NAMES, PLACE, Array, condition
from ellwand.measure.survey import TRANSLATIONS
from ellwand.model.wearer import Sex
from slip_trials import FOLDS, KINDS, SEXES, TEN, Tally, fitted_without, fold_of, people, trial
from survey import survey_columns

GIVEN: Final = {
    "height, bust": ("height", "bust_girth"),
    "and waist, hip": ("height", "bust_girth", "waist_girth", "hip_girth"),
}
ASKED: Final = {
    "upper_arm_girth": "1.7 / 2.0",
    "thigh_girth": "1.9 / 1.9",
    "nape_to_floor": "1.1 / 1.1",
    "crotch_to_floor": "2.3 / 2.3",
    "arm_length": "1.8 / 1.8",
    "neck_base_girth": "1.4 / 1.7",
    "wrist_girth": "0.6 / 0.6",
}
"""The most allowed (cm, women / men) with height, bust, waist and hip given."""

EVERY: Final = 5
"""Slips are made in the list of each so-manyth person."""

Job = tuple[str, bool, bool, Sex]


def run(job: Job) -> Tally:
    """One kind of slip among one sex."""
    kind, usual_ten, sex_is_given, sex = job
    step = 1 if kind == "no slip" else EVERY
    return trial(KINDS[kind], sex, sex_is_given, TEN if usual_ten else None, step)


def slips() -> Iterator[str]:
    """The table of slips."""
    rows = [
        (kind, usual, given)
        for usual in (True, False)
        for kind in KINDS
        if usual or not kind.startswith("waist")
        for given in (True, False)
    ]
    with ProcessPoolExecutor() as pool:
        tallies = list(pool.map(run, [(*row, sex) for row in rows for sex in SEXES]))
    yield "| slip made | ten fields | sex | women: lists | asked about | named rightly | men: lists | asked | named |"
    yield "|---|---|---|---:|---:|---:|---:|---:|---:|"
    for (kind, usual, given), women, men in zip(rows, tallies[::2], tallies[1::2], strict=True):
        ten, known = "usual" if usual else "at random", "given" if given else "not given"
        yield f"| {kind} | {ten} | {known} | {_cells(women, kind)} | {_cells(men, kind)} |"


def _cells(tally: Tally, kind: str) -> str:
    named = "" if kind == "no slip" else f"{100 * tally.named / max(tally.asked, 1):.1f} %"
    return f"{tally.tried} | {100 * tally.asked / tally.tried:.2f} % | {named}"


def left_out(sex: Sex, given: Sequence[str]) -> Array:
    """The residual sd (cm) of every measurement, each person estimated by the other four fifths."""
    errors = np.zeros_like(people(sex))
    for fold in range(FOLDS):
        body = fitted_without(sex, fold)
        for person in np.flatnonzero(fold_of(sex) == fold):
            values = {name: float(people(sex)[person, PLACE[name]]) for name in given}
            errors[person] = condition(body, values).mean - people(sex)[person]
    return np.asarray(np.sqrt(np.mean(errors**2, axis=0)), dtype=float)


def residuals() -> Iterator[str]:
    """The table of residuals."""
    cells = {(sex, title): left_out(sex, given) for title, given in GIVEN.items() for sex in SEXES}
    heads = [f"{title}: {'women' if sex == 'female' else 'men'}" for sex, title in cells]
    yield f"| measurement | {' | '.join(heads)} | most allowed | further spread |"
    yield f"|---|{'---:|' * (len(heads) + 2)}"
    for name in NAMES:
        numbers = [
            "given" if name in GIVEN[title] else f"{table[PLACE[name]]:.2f}" for (_, title), table in cells.items()
        ]
        further = TRANSLATIONS[name].spread
        yield f"| {name} | {' | '.join(numbers)} | {ASKED.get(name, '')} | {further or ''} |"


def main() -> None:
    """Print the page."""
    women, men = (len(survey_columns(sex)[1]) for sex in SEXES)
    print(f"""# Accuracy

Printed by `python benchmarks/accuracy.py > docs/accuracy.md`. People: the {women} women and {men} men of ANSUR II's
public rows, under our measurements, to a tenth of a centimetre. Everyone is held against bodies fitted to the other
four fifths.

## Slips

One slip is made in a list of ten measurements. The usual ten are {", ".join(TEN)}; ten at random are height,
bust_girth and eight others. Named rightly, of those asked about, means: one question, with the right cause, about the
right field, or both fields of an exchange. Without a slip everyone's list is tried, otherwise each fifth person's. A
waist and hip are exchanged only where they differ by more than 10 cm; digits only where the number does not begin
with 0 afterwards.
""")
    print("\n".join(slips()))
    print("""
## One measurement from others

Residual standard deviation (cm), five-fold, with the sex given. These are the survey's own columns as translated:
the further spread (cm) that we add where our measurement is not the survey's is in the last column and not in the
others.
""")
    print("\n".join(residuals()))


if __name__ == "__main__":
    main()
