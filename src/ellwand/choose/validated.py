"""A table of the sheet against its description, and the one sentence when it does not match."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ValidationError

from ellwand.choose.fields import nearest
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.units import Unit

Model = TypeVar("Model", bound=BaseModel)


def table_of(tables: Mapping[str, Any], name: str, mend: str = "") -> dict[str, Any]:
    """The table of that name.

    Raises BadInput where there is none.
    """
    if name not in tables:
        raise BadInput("", _("the sheet has no [{name}]", name=name), mend)
    table = tables[name]
    if not isinstance(table, dict):
        raise BadInput(name, _("this should be a table"), _("write [{name}] on a line of its own", name=name))
    return table


def validated(model: type[Model], table: Any, where: str, unit: Unit) -> Model:
    """The table as its model.

    Raises BadInput with where, what is wrong and what would do.
    """
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
        return BadInput(path, _("no such key"), nearest(str(first["loc"][-1]), _keys_at(model, first["loc"][:-1])))
    if first["type"] == "missing":
        return BadInput(path, _("this must be given"))
    if first["type"] in ("model_type", "model_attributes_type", "dict_type"):
        return BadInput(path, _("this should be a table of its own"), _("write [{path}]", path=path))
    if first["type"] in ("tuple_type", "list_type"):
        return BadInput(path, _("this should be a list of tables"), _("write [[{path}]] for each", path=path))
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
