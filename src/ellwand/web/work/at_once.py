"""A sheet's tables to the garment on its cloth, as quickly as that can be told."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from ellwand.choose import Sheet, read_tables
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.model.garment import Garment


def sheet_of(tables: Mapping[str, Any]) -> Sheet:
    """The sheet; a garment on the bench names no sheet of its own to be worn over.

    Raises BadInput with one sentence where it cannot be read.
    """
    return read_tables(tables, _no_sheets)


def laid_at_once(tables: Mapping[str, Any]) -> Garment:
    """The garment, drafted, proved and laid.

    Raises BadInput with one sentence.
    """
    from ellwand.pipeline import make

    return make(sheet_of(tables), seconds=0.0)


def text_of(tables: object) -> str:
    """Tables as text: the same for the same choices."""
    return json.dumps(tables, sort_keys=True, default=str)


def _no_sheets(name: str) -> float:
    raise BadInput(
        "garment.over",
        _("a garment on the bench cannot name another sheet"),
        _("give the thickness of what is worn beneath"),
    )
