"""The sheet's reference, generated from the option descriptions."""

from __future__ import annotations

from inspect import cleandoc
from typing import Any, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from ellwand.choose.fields import takes_of
from ellwand.choose.form.described import table_in
from ellwand.choose.options.cloth import ClothTable, RemnantTable, SewingTable
from ellwand.choose.options.garment import GarmentTable
from ellwand.choose.options.prices import PricesTable
from ellwand.choose.options.table import Table
from ellwand.choose.styles import STYLES
from ellwand.model.measurement import MEASUREMENTS
from ellwand.units import format_length


def reference() -> str:
    """docs/sheet.md as text."""
    parts = [
        "# The sheet",
        "A sheet is a text file in TOML. Only `[wearer]` with `height` and `bust_girth` (or `age` and `height` for a"
        " child) and one cloth with its `width` must be given. Plain numbers are in the wearer's or the cloth's own"
        ' `unit`, `"cm"` or `"in"`; a value in quotes may carry its own unit: `"34 1/2 in"`, `"5 ft 6 in"`,'
        ' `"2.5 m"`, `"3 yd"`.',
        "This page is generated: `python -m ellwand.choose.reference > docs/sheet.md`.",
        "## [wearer]",
        "`name`, `sex` (female or male), `age` in years and `unit` describe the person. Measurements, each of which"
        " may be left out and is then estimated:",
        _rows(["measurement", "how it is taken"], [[f"`{name}`", each.how] for name, each in MEASUREMENTS.items()]),
        '`chest_girth` is another name for `bust_girth`; names as people write them, such as `"Chest (in)"`, are'
        " understood. Where one arm is longer, give `left_arm_length` and `right_arm_length`. A measurement that is"
        ' questioned but right is kept with `confirmed = ["waist_girth"]`. `list = "class.csv"` with a `name` takes'
        " the rest from a list of people. More about measuring: [measuring.md](measuring.md).",
    ]
    parts += _table("[garment]", GarmentTable)
    parts += ["Styles to start from: " + ", ".join(f"`{name}`" for name in STYLES) + "."]
    parts += _table("[sewing]", SewingTable) + _table("[cloth.main]", ClothTable)
    parts += _table("[[cloth.remnants]]", RemnantTable) + _table("[prices]", PricesTable)
    return "\n\n".join(parts) + "\n"


def _table(title: str, model: type[Table]) -> list[str]:
    rows, inner = [], []
    for name, field in model.model_fields.items():
        below = table_in(field)
        if below is not None and below.__doc__:
            inner.append((cleandoc(below.__doc__).split(":")[0].rstrip("."), below))
        rows.append([f"`{name}`", field.description or "", _values(field, below), _default(field)])
    out = [f"## {title}", _rows(["key", "meaning", "values", "default"], rows)]
    for heading, below in inner:
        out += _table(heading, below)
    return out


def _values(field: FieldInfo, below: type[BaseModel] | None) -> str:
    if below is not None:
        return "a list of tables" if get_origin(field.annotation) is tuple else "a table"
    takes = takes_of(field)
    return "" if takes is None else takes.said


def _default(field: FieldInfo) -> str:
    if field.is_required():
        return "must be given"
    value: Any = field.default
    if field.default_factory is not None or value in ((), None):
        return ""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, float):
        in_cm = "cm" in _values(field, None)
        return format_length(value) if in_cm else f"{value:g}"
    return f"`{value}`"


def _rows(head: list[str], rows: list[list[str]]) -> str:
    lines = [head, ["---"] * len(head), *rows]
    return "\n".join("| " + " | ".join(cell.replace("|", "\\|") for cell in line) + " |" for line in lines)


if __name__ == "__main__":
    print(reference(), end="")
