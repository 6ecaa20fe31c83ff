"""What the command line is given, read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from ellwand.errors import BadInput
from ellwand.units import Unit


def unit_of(unit: str | None) -> Unit | None:
    """The unit named with --unit.

    Raises BadInput for any other word.
    """
    if unit is None:
        return None
    if unit == "cm":
        return "cm"
    if unit == "in":
        return "in"
    raise BadInput("--unit", f"{unit!r} is not a unit", "choose cm or in")


def pairs_of(given: Sequence[str]) -> dict[str, str]:
    """FIELD=VALUE pairs as a table.

    Raises BadInput for anything else.
    """
    table: dict[str, str] = {}
    for each in given:
        name, equals, value = (part.strip() for part in each.partition("="))
        if not equals:
            raise BadInput(each[:60], "this is not FIELD=VALUE", "write it as in height=164")
        if name in table:
            raise BadInput(name, "this is given twice", "give it once")
        table[name] = value
    return table


@contextmanager
def named(file: Path) -> Iterator[None]:
    """Whatever is wrong inside is wrong in that file: name it."""
    try:
        yield
    except BadInput as error:
        if error.where.startswith((str(file), "--")):
            raise
        raise error.inside(str(file)) from None
