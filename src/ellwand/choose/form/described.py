"""Where each option stands in the sheet: its path, its description and the table it is in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Any, Final, get_args, get_origin

from pydantic.fields import FieldInfo

from ellwand.choose.fields import Takes, takes_of
from ellwand.choose.options.cloth import ClothTable, RemnantTable, SewingTable
from ellwand.choose.options.garment import GarmentTable
from ellwand.choose.options.prices import PricesTable
from ellwand.choose.options.table import Table
from ellwand.choose.styles import STYLES

ROOTS: Final[Mapping[str, type[Table]]] = MappingProxyType(
    {
        "garment": GarmentTable,
        "sewing": SewingTable,
        "cloth.main": ClothTable,
        "cloth.remnants": RemnantTable,
        "prices": PricesTable,
    }
)
"""The tables of a sheet that a form fills in, the wearer's aside."""
PLAIN: Final = Takes("text", "")


@dataclass(frozen=True, slots=True)
class Option:
    """One option: ``path`` without numbers (``garment.gores.base``), ``default`` as the sheet has it."""

    path: str
    takes: Takes
    description: str
    default: Any
    required: bool


@dataclass(frozen=True, slots=True)
class Described:
    """A table: ``several`` of it in a list, or one that may be ``left_out``; its options and the tables within it."""

    path: str
    options: tuple[Option, ...]
    within: tuple[Described, ...]
    several: bool = False
    left_out: bool = False


@cache
def described(root: str) -> Described:
    """The table at that root."""
    return _described(root, ROOTS[root], several=root == "cloth.remnants")


def tables_within(table: Described) -> Iterator[Described]:
    """The table and all within it."""
    yield table
    for inner in table.within:
        yield from tables_within(inner)


@cache
def options() -> Mapping[str, Option]:
    """Every option by its path."""
    found = (each for root in ROOTS for table in tables_within(described(root)) for each in table.options)
    return MappingProxyType({each.path: each for each in found})


@cache
def lists() -> Mapping[str, Described]:
    """Every table that there may be several of, by its path."""
    found = (table for root in ROOTS for table in tables_within(described(root)) if table.several)
    return MappingProxyType({table.path: table for table in found})


def _described(path: str, model: type[Table], *, several: bool = False, left_out: bool = False) -> Described:
    options, within = [], []
    for key, field in model.model_fields.items():
        here = f"{path}.{key}"
        inner = table_in(field)
        if inner is not None:
            listed = get_origin(field.annotation) is tuple
            within.append(_described(here, inner, several=listed, left_out=not listed and field.default is None))
        else:
            options.append(_option(here, field))
    return Described(path, tuple(options), tuple(within), several, left_out)


def table_in(field: FieldInfo) -> type[Table] | None:
    """The table that a key holds, one or a list of them."""
    kinds = [field.annotation, *get_args(field.annotation)]
    return next((k for k in kinds if isinstance(k, type) and issubclass(k, Table)), None)


def _option(path: str, field: FieldInfo) -> Option:
    takes = takes_of(field) or PLAIN
    if path == "garment.style":
        takes = Takes("word", "", tuple(STYLES))
    default = None if field.is_required() else field.default
    return Option(path, takes, field.description or "", default, field.is_required())
