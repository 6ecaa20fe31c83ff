"""Sheets written in tests."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from ellwand.choose import Sheet, read_sheet

JOAN: dict[str, object] = {
    "name": "Joan Netmaker",
    "sex": "female",
    "height": 164,
    "bust_girth": 96,
    "waist_girth": 82,
    "hip_girth": 104,
    "head_girth": 56,
}


def toml(tables: Mapping[str, Any]) -> str:
    """A sheet's text: every table inline, which TOML allows and tests can write."""
    return "\n".join(f"{key} = {_inline(value)}" for key, value in tables.items()) + "\n"


def _inline(value: Any) -> str:
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{json.dumps(key)} = {_inline(each)}" for key, each in value.items()) + "}"
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(_inline(each) for each in value) + "]"
    return json.dumps(value, ensure_ascii=False)


def sheet(
    garment: Mapping[str, Any] | None = None,
    *,
    wearer: Mapping[str, Any] | None = None,
    cloth: Mapping[str, Any] | None = None,
    sewing: Mapping[str, Any] | None = None,
) -> Sheet:
    """A read sheet; what is left out is Joan's, on 150 cm cloth."""
    tables = {
        "wearer": wearer or JOAN,
        "garment": garment or {},
        "sewing": sewing or {},
        "cloth": {"main": {"width": 150, **(cloth or {})}},
    }
    return read_sheet(toml(tables).encode(), lambda name: 1.0)
