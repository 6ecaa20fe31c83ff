"""A sheet's text to a wearer's table, choices and a cloth."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final, TypeVar, get_args

from pydantic import BaseModel, ValidationError

from ellwand.choose.fields import nearest, one_of
from ellwand.choose.options.cloth import ClothTable, RemnantTable, SewingTable
from ellwand.choose.options.garment import GarmentTable
from ellwand.choose.options.others import other_of, refuse_strangers
from ellwand.choose.styles import STYLES
from ellwand.errors import BadInput
from ellwand.model.choices import (
    Body,
    Choices,
    Closure,
    Gore,
    Growth,
    Neck,
    Sewing,
    Sleeve,
    Split,
)
from ellwand.model.cloth import Cloth, Fault, Remnant, width_on_table
from ellwand.units import Unit

LARGEST: Final = 1_000_000
"""No honest sheet is longer (bytes)."""
Model = TypeVar("Model", bound=BaseModel)
TABLES: Final = ("wearer", "garment", "sewing", "cloth")


@dataclass(frozen=True, slots=True)
class Sheet:
    """What a sheet says. ``wearer`` is still the raw table; everything else is settled as far as it can be.

    ``beneath``: the sheets of what is worn under it, the innermost first.
    """

    wearer: Mapping[str, object]
    choices: Choices
    cloth: Cloth
    beneath: tuple[Sheet, ...] = ()


Beneath = Callable[[str], float]
"""From the name of a sheet worn beneath to its thickness in mm, all it is worn over included."""


def read_sheet(data: bytes, beneath: Beneath) -> Sheet:
    """Read a sheet (TOML, UTF-8).

    Raises BadInput with one sentence: where, what is wrong, what would do.
    """
    tables = _tables(data)
    wearer = _table(tables, "wearer", "give at least height and bust_girth")
    unit: Unit = "in" if wearer.get("unit") == "in" else "cm"
    garment = _with_style(_table(tables, "garment") if "garment" in tables else {})
    garment = {**garment, "over": _over(garment.get("over", []), beneath)}
    chosen = _validated(GarmentTable, garment, "garment", unit)
    sewing = _validated(SewingTable, _table(tables, "sewing") if "sewing" in tables else {}, "sewing", unit)
    cloth = _cloth(tables)
    choices = replace(
        _choices(chosen, sewing, unit), other=other_of(chosen, width_on_table(cloth) - 2 * cloth.selvedge)
    )
    return Sheet(wearer, choices, cloth)


def _tables(data: bytes) -> dict[str, Any]:
    if len(data) > LARGEST:
        raise BadInput("", "the file is too large for a sheet", "a sheet is a short text of a few tables")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise BadInput("", "this is not a text file in UTF-8", "save the sheet as plain text") from None
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadInput("", f"the sheet cannot be read: {str(error).rstrip('.')}", "mend that line") from None
    except RecursionError:
        raise BadInput("", "the sheet is nested too deeply", "a sheet is a short text of a few tables") from None
    for key in tables:
        if key not in TABLES:
            raise BadInput(key[:60], "no such table", nearest(key, TABLES))
    return tables


def _table(tables: Mapping[str, Any], name: str, mend: str = "") -> dict[str, Any]:
    if name not in tables:
        raise BadInput("", f"the sheet has no [{name}]", mend)
    table = tables[name]
    if not isinstance(table, dict):
        raise BadInput(name, "this should be a table", f"write [{name}] on a line of its own")
    return table


def _with_style(garment: dict[str, Any]) -> dict[str, Any]:
    style = garment.get("style", "tunic")
    if not isinstance(style, str) or style not in STYLES:
        hint = nearest(style, STYLES) if isinstance(style, str) else f"choose one of {one_of(STYLES)}"
        raise BadInput("garment.style", f"{style!r} is not a style", hint)
    refuse_strangers(style, garment)
    out: dict[str, Any] = {**STYLES[style], "style": style}
    if "sleeve" in garment and isinstance(garment["sleeve"], dict) and "closures" not in garment:
        # a style's closures belong to its own sleeve
        out.pop("closures", None)
    for key, value in garment.items():
        base = out.get(key)
        out[key] = {**base, **value} if isinstance(base, dict) and isinstance(value, dict) else value
    return out


def _over(over: Any, beneath: Beneath) -> Any:
    """The list of what is worn beneath, sheets turned into their thickness."""
    if not isinstance(over, list):
        return over
    return [{"thickness_mm": beneath(entry)} if isinstance(entry, str) else entry for entry in over]


def _validated(model: type[Model], table: Any, where: str, unit: Unit) -> Model:
    try:
        return model.model_validate(table, context={"unit": unit})
    except ValidationError as error:
        raise _sentence(model, error, where) from None


def _sentence(model: type[BaseModel], error: ValidationError, where: str) -> BadInput:
    """The first thing that is wrong, in our words."""
    first = error.errors()[0]
    path = where
    for step in first["loc"]:
        path += f"[{step + 1}]" if isinstance(step, int) else f".{str(step)[:60]}"
    cause = first.get("ctx", {}).get("error")
    if isinstance(cause, BadInput):
        return BadInput(path, cause.problem, cause.mend)
    if first["type"] == "extra_forbidden":
        return BadInput(path, "no such key", nearest(str(first["loc"][-1]), _keys_at(model, first["loc"][:-1])))
    if first["type"] == "missing":
        return BadInput(path, "this must be given")
    if first["type"] in ("model_type", "model_attributes_type", "dict_type"):
        return BadInput(path, "this should be a table of its own", f"write [{path}]")
    if first["type"] in ("tuple_type", "list_type"):
        return BadInput(path, "this should be a list of tables", f"write [[{path}]] for each")
    return BadInput(path, str(first["msg"]))


def _keys_at(model: type[BaseModel], loc: tuple[int | str, ...]) -> list[str]:
    """The good keys of the table at this place."""
    for step in loc:
        if isinstance(step, int):
            continue
        kind = model.model_fields[step].annotation
        inner = [each for each in (kind, *get_args(kind)) if isinstance(each, type) and issubclass(each, BaseModel)]
        model = inner[0]
    return list(model.model_fields)


def _choices(table: GarmentTable, sewing: SewingTable, unit: Unit) -> Choices:
    inches = unit == "in"
    usual = (
        {"allowance": 1.5875, "hem": 3.175, "chalk": 0.635} if inches else {"allowance": 1.5, "hem": 3.0, "chalk": 0.5}
    )
    given = {key: value for key, value in sewing.model_dump().items() if value is not None}
    return Choices(
        style=table.style,
        layer=table.layer,  # type: ignore[arg-type]
        length=table.length,  # type: ignore[arg-type]
        blouse=table.blouse,
        train=table.train,
        body=Body(**table.body.model_dump()),
        gores=tuple(Gore(**dict(gore)) for gore in table.gores),
        sleeve=Sleeve(**table.sleeve.model_dump()),
        neck=Neck(**table.neck.model_dump()),
        splits=tuple(Split(**split.model_dump()) for split in table.splits),
        closures=tuple(Closure(**closure.model_dump()) for closure in table.closures),
        growth=None if table.growth is None else Growth(**table.growth.model_dump()),
        sewing=Sewing(**{**usual, **given}),
        beneath_mm=sum(each.thickness_mm for each in table.over),
        date=None if table.date is None else int(table.date),
        region=table.region,
    )


def _cloth(tables: Mapping[str, Any]) -> Cloth:
    table = dict(_table(tables, "cloth", "give [cloth.main] with its width"))
    remnants = table.pop("remnants", [])
    if table and not any(isinstance(value, dict) for value in table.values()):
        name, main = "main", table
        where = "cloth"
    else:
        wrong = [key for key, value in table.items() if not isinstance(value, dict)]
        if wrong:
            raise BadInput(f"cloth.{wrong[0]}", "no such key", "put it under [cloth.main]")
        if not table:
            raise BadInput("cloth", "no cloth is described", "give [cloth.main] with its width")
        if len(table) > 1:
            raise BadInput(
                "cloth", f"{len(table)} cloths are given", "keep one: a garment is cut from one cloth for now"
            )
        name, main = next(iter(table.items()))
        where = f"cloth.{name[:60]}"
    unit: Unit = "in" if main.get("unit") == "in" else "cm"
    read = _validated(ClothTable, main, where, unit)
    if not isinstance(remnants, list):
        raise BadInput("cloth.remnants", "this should be a list of tables", "write [[cloth.remnants]] for each")
    left = [_validated(RemnantTable, each, f"cloth.remnants[{i + 1}]", unit) for i, each in enumerate(remnants)]
    if 2 * read.selvedge >= read.width - 10:
        raise BadInput(f"{where}.selvedge", "the selvedges leave no cloth between them", "give a smaller selvedge")
    values = read.model_dump()
    values.update(
        name=name,
        length=None if read.length == "at need" else read.length,
        faults=tuple(Fault(**fault.model_dump()) for fault in read.faults),
        remnants=tuple(Remnant(**each.model_dump()) for each in left),
    )
    return Cloth(**values)
