"""A sheet's tables as the text of a sheet."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from ellwand.choose.sheet import TABLES


def sheet_text(tables: Mapping[str, Any]) -> str:
    """The sheet (TOML), its tables in their usual order; what is None is left out."""
    import tomli_w

    order: Final = ("language", *TABLES)
    return tomli_w.dumps({key: _without_none(tables[key]) for key in order if key in tables})


def _without_none(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {key: _without_none(each) for key, each in value.items() if each is not None}
    if isinstance(value, (list, tuple)):
        return [_without_none(each) for each in value]
    return value
