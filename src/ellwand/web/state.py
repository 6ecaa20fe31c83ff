"""What a page of the bench is about: all of it stands in the address, so that links, back and reload work."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final
from urllib.parse import urlencode

from starlette.datastructures import QueryParams

from ellwand.choose.form import START, Pairs, pairs_of, tables_of, with_entry, without_entry
from ellwand.units import Unit
from ellwand.web.given import unit_of, whole

WHO: Final = "joan-netmaker"
"""Of the demo's people, the one that a first visit shows."""
OWN: Final = ("who", "unit", "garment", "based", "add", "drop", "open", "shelf", "a", "b")
"""Keys of an address that are no choices."""


@dataclass(frozen=True, slots=True)
class State:
    """``who``: a kept person's id or the name of one of the demo's; ``pairs``: what is chosen; ``garment`` and
    ``based``: the kept garment that it is a change of, and the version of it; ``open``: the place chosen for."""

    who: str
    unit: Unit
    pairs: Pairs
    garment: str = ""
    based: int = 0
    open: str = ""

    @property
    def tables(self) -> dict[str, Any]:
        """The sheet's tables, the wearer's aside."""
        return tables_of(self.pairs)

    @property
    def query(self) -> str:
        """The address's part behind the question mark."""
        own = [("who", self.who)] if self.who != WHO else []
        own += [("unit", self.unit)] if self.unit != "cm" else []
        own += [("garment", self.garment), ("based", str(self.based))] if self.garment else []
        return urlencode([*own, *self.pairs])

    def of(self, tables: Mapping[str, Any]) -> State:
        """The same with other choices."""
        return replace(self, pairs=pairs_of(tables, self.unit))


def read_state(query: QueryParams) -> State:
    """The state in an address; an entry that is added or dropped is so already.

    Raises BadInput for a choice that there is not.
    """
    unit = unit_of(query.get("unit"))
    filled = [(path, text) for path, text in query.multi_items() if path not in OWN]
    if not any(re.fullmatch(r"cloth\.(?!remnants)[^.]+\.width", path) and text for path, text in filled):
        filled += START
    pairs = pairs_of(tables_of(filled), unit)
    if add := query.get("add"):
        pairs = with_entry(pairs, add, unit)
    if drop := query.get("drop"):
        pairs = without_entry(pairs, drop, unit)
    return State(
        query.get("who") or WHO,
        unit,
        pairs,
        query.get("garment", ""),
        whole(query.get("based")),
        query.get("open", ""),
    )
