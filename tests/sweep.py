"""Garments from the whole legal choice space, on real bodies and on children: the same for the same seed.

The options are read off choose/options: words from what each reader says it takes, numbers from RANGES.  A new option
needs one line in sweep_table.RANGES when it takes a number, and one in APPLIES when it means nothing without another.
"""

from __future__ import annotations

import csv
import random
import re
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any, Final, get_args

from pydantic.fields import FieldInfo

from bodies import rows, wearer
from ellwand import prove_sheet
from ellwand.choose import Sheet
from ellwand.choose.fields import takes_of
from ellwand.choose.form.described import table_in
from ellwand.choose.options.cloth import ClothTable, SewingTable
from ellwand.choose.options.garment import GarmentTable
from ellwand.choose.options.table import Table
from ellwand.errors import CannotDraft
from ellwand.model.garment import Garment
from ellwand.model.others import KINDS
from sheets import sheet
from sweep_table import LEFT_OUT, RANGES, SEVERAL, STYLE_WORDS, make_sense, of_two_tinctures

Tables = dict[str, Any]
ROOTS: Final[Mapping[str, type[Table]]] = {"garment": GarmentTable, "sewing": SewingTable, "cloth": ClothTable}


def garments(seed: int, count: int, first: int = 0) -> Iterator[tuple[Tables, Tables]]:
    """Sheets' tables (garment, sewing, cloth) and wearers' tables, from the ``first`` on."""
    return (garment_at(seed, i) for i in range(first, first + count))


def garment_at(seed: int, i: int) -> tuple[Tables, Tables]:
    """The i-th of them."""
    dice = random.Random(f"{seed} {i}")
    person = _person(dice)
    tall = float(person["height"]) / 170
    tables = {name: _table(dice, root, name, tall) for name, root in ROOTS.items()}
    garment = tables["garment"]
    style = garment.get("style", "tunic")
    if style in KINDS:
        keep = {"style", "layer", "over", "date", style}
        own = _table(dice, _fields_at("garment")[style], f"garment.{style}", tall, often=0.7)
        tables["garment"] = {key: value for key, value in {**garment, style: own}.items() if key in keep}
    else:
        for kind in KINDS:
            garment.pop(kind, None)
        if "age" not in person:
            garment.pop("growth", None)
        if dice.random() < 0.6:
            garment.pop("division", None)
        if "division" in garment:
            of_two_tinctures(garment["division"])
        if dice.random() < 0.9:
            make_sense(garment, float(person["height"]))
    return tables, _in_inches(person) if dice.random() < 0.15 else person


def read(tables: Tables, person: Tables) -> Sheet:
    """The sheet as it is read."""
    return sheet(tables["garment"], wearer=person, sewing=tables["sewing"], cloth=tables["cloth"])


def made(tables: Tables, person: Tables) -> Garment:
    """Drafted and proved.

    Raises CannotDraft where the choices do not go together.
    """
    return prove_sheet(read(tables, person))


def reason(refused: CannotDraft) -> str:
    """A refusal without its numbers and names, to be counted."""
    where = re.sub(r"\[\d+\]", "", refused.where)
    return f"{where}: {re.sub(r'[−-]?[0-9]+([.][0-9]+)?( cm)?( [0-9/]+)?( in)?', '…', refused.problem)}"


def options() -> Iterator[tuple[str, FieldInfo]]:
    """Every option of the sheet that is no table itself, with its path."""
    for name, root in ROOTS.items():
        yield from _options(root, name)


def unknown() -> list[str]:
    """Options that the sweep cannot draw: each needs a line above."""
    missing = [path for path, field in options() if _takes_number(field) and path not in RANGES]
    missing += [path for path, field in options() if not (path in RANGES or _words(path, field))]
    missing += [path for path, field in _lists() if path not in SEVERAL]
    return [path for path in missing if not any(path.startswith(out) for out in LEFT_OUT)]


def words_of(path: str) -> tuple[str, ...]:
    """The words that the option takes."""
    return _words(path, dict(options())[path])


# --- inside ---------------------------------------------------------------------------------------------


def _options(model: type[Table], path: str) -> Iterator[tuple[str, FieldInfo]]:
    for name, field in model.model_fields.items():
        below = table_in(field)
        if below is None:
            yield f"{path}.{name}", field
        else:
            yield from _options(below, f"{path}.{name}")


def _lists() -> Iterator[tuple[str, FieldInfo]]:
    for name, root in ROOTS.items():
        for key, field in root.model_fields.items():
            if table_in(field) is not None and field.default == ():
                yield f"{name}.{key}", field


@cache
def _fields_at(root: str) -> dict[str, type[Table]]:
    found = {key: table_in(field) for key, field in ROOTS[root].model_fields.items()}
    return {key: below for key, below in found.items() if below is not None}


def _says(field: FieldInfo) -> str:
    takes = takes_of(field)
    return "" if takes is None else takes.said


def _takes_number(field: FieldInfo) -> bool:
    return " to " in re.sub(r"`[^`]+`", "", _says(field))


@cache
def _words(path: str, field: FieldInfo) -> tuple[Any, ...]:
    if path == "garment.style":
        return STYLE_WORDS
    if _says(field) == "true, false":
        return (True, False)
    return tuple(word for word in re.findall(r"`([^`]+)`", _says(field)) if not word.startswith("["))


def _table(dice: random.Random, model: type[Table], path: str, tall: float, often: float = 0.4) -> Tables:
    out: Tables = {}
    for name, field in model.model_fields.items():
        here, below = f"{path}.{name}", table_in(field)
        if here in LEFT_OUT:
            continue
        if below is not None and here in SEVERAL:
            out[name] = [_table(dice, below, here, tall) for _ in range(dice.randint(*SEVERAL[here]))]
        elif below is not None and dice.random() < 0.7:
            out[name] = _table(dice, below, here, tall)
        elif below is None and (field.is_required() or dice.random() < often):
            out[name] = _value(dice, here, field, tall)
    return {key: value for key, value in out.items() if value is not None and value != []}


def _value(dice: random.Random, path: str, field: FieldInfo, tall: float) -> Any:
    words = _words(path, field)
    if path not in RANGES or (words and dice.random() < 0.6):
        return dice.choice(words)
    if "range" in _says(field) and dice.random() < 0.3:
        return [_number(dice, path, field, tall, 0.0, 0.5), _number(dice, path, field, tall, 0.5, 1.0)]
    return _number(dice, path, field, tall)


def _number(dice: random.Random, path: str, field: FieldInfo, tall: float, low: float = 0, high: float = 1) -> Any:
    """A number of the range between the shares ``low`` and ``high``; lengths with their unit."""
    least, most = RANGES[path]
    value = least + (most - least) * dice.uniform(low, high)
    is_length = " cm" in _says(field)
    if is_length and path.startswith("garment."):
        bounds = re.search(r"([\d.]+)(?: cm)? to ([\d.]+)", _says(field))
        assert bounds
        value = min(max(value * tall, float(bounds[1])), float(bounds[2]))
    if int in (field.annotation, *get_args(field.annotation)):
        return int(value)
    return f"{value:.1f} cm" if is_length else round(value, 2)


def _person(dice: random.Random) -> Tables:
    """Three of four are of the survey, with some of their measurements; the others children of some age and height."""
    if dice.random() < 0.75:
        whole = wearer(dice.choice(rows()))
        return {key: value for key, value in whole.items() if key in ("height", "bust_girth") or dice.random() < 0.75}
    sex, age = dice.choice(["female", "male"]), dice.randint(3, 15)
    return {"sex": sex, "age": age, "height": round(_stature()[sex[0], age] * dice.gauss(1, 0.03), 1)}


@cache
def _stature() -> dict[tuple[str, int], float]:
    """Median height (cm) by sex and age: CDC growth charts 2000, tests/data/growth_lms.csv."""
    with (Path(__file__).parent / "data" / "growth_lms.csv").open(newline="") as file:
        table = [row for row in csv.DictReader(file) if row["field"] == "stature"]
    near = {}
    for sex in "fm":
        mine = [(float(row["age_months"]) / 12, float(row["M"])) for row in table if row["sex"] == sex]
        for age in range(2, 19):
            near[sex, age] = min(mine, key=lambda each: abs(each[0] - age))[1]
    return near


def _in_inches(person: Tables) -> Tables:
    numbers = {
        key: round(value / 2.54, 2) for key, value in person.items() if key != "age" and not isinstance(value, str)
    }
    return {**person, **numbers, "unit": "in"}
