"""What a roster's further columns mean: the garment, the cloth and its colour, and keys of the sheet."""

from __future__ import annotations

import copy
import re
import tomllib
from collections.abc import Mapping
from typing import Any, Final

from ellwand.choose.fields import one_of
from ellwand.choose.options.garment import GarmentTable
from ellwand.choose.styles import STYLES
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.model.heraldry import TINCTURES

GARMENT: Final = ("garment", "garments", "costume", "outfit")
CLOTH: Final = ("cloth", "fabric", "material")
COLOUR: Final = ("colour", "color")
OVER: Final = ("garment", "sewing", "cloth")
"""Tables of the sheet that a heading may begin with; garment may be left away."""
PARTED: Final = re.compile(r"\s*[;+]\s*")
"""Between several garments in one cell."""

Path = tuple[str, ...]


def meaning(label: str) -> str | Path | None:
    """The name of a column of the company's own, the way to a key of the sheet, or None: left alone.

    >>> meaning("Colour"), meaning("Sleeve.shape"), meaning("cloth.main.width"), meaning("Notes")
    ('colour', ('garment', 'sleeve', 'shape'), ('cloth', 'main', 'width'), None)
    """
    said = " ".join(label.lower().split())
    for name, words in (("garment", GARMENT), ("cloth", CLOTH), ("colour", COLOUR)):
        if said in words:
            return name
    steps = tuple(said.replace(" ", "_").split("."))
    if len(steps) < 2 or not all(steps):
        return None
    if steps[0] in OVER:
        return steps
    return ("garment", *steps) if steps[0] in GarmentTable.model_fields else None


def garments_in(cell: str) -> tuple[str, ...]:
    """The garments that a cell names.

    >>> garments_in("tunic; hood")
    ('tunic', 'hood')
    """
    return tuple(name for name in PARTED.split(cell.strip()) if name)


def changed(tables: Mapping[str, Any], path: Path, cell: str) -> dict[str, Any]:
    """The tables with one key as the cell says; through a list it holds of every entry.

    Raises BadInput where the way leads through something that is no table.
    """
    out = copy.deepcopy(dict(tables))
    at: list[dict[str, Any]] = [out]
    for depth, step in enumerate(path[:-1]):
        following: list[dict[str, Any]] = []
        for table in at:
            inner = table.setdefault(step, _usual(out, step) if depth == 1 and path[0] == "garment" else {})
            following += inner if isinstance(inner, list) else [inner]
        at = following
        if not all(isinstance(each, dict) for each in at):
            raise BadInput(".".join(path), _("no such key"), _("write the heading as the sheet's reference does"))
    for table in at:
        table[path[-1]] = _value(cell)
    return out


def _usual(tables: Mapping[str, Any], key: str) -> Any:
    """What the garment's style gives for a list of tables, so that a key of every entry can be changed."""
    style = tables.get("garment", {}).get("style", "tunic")
    given = STYLES.get(style, {}).get(key) if isinstance(style, str) else None
    return copy.deepcopy(given) if isinstance(given, list) else {}


def _value(cell: str) -> Any:
    """The cell as a sheet would hold it: a number, true or false, a list, or else text."""
    text = cell.strip()
    if text.lower() in ("yes", "no"):
        return text.lower() == "yes"
    if re.fullmatch(r"-?\d+,\d+", text):
        text = text.replace(",", ".")
    try:
        return tomllib.loads(f"it = {text}")["it"] if "\n" not in text else text
    except tomllib.TOMLDecodeError:
        return text


def one_cloth(tables: Mapping[str, Any], asked: str) -> dict[str, Any]:
    """The tables with one cloth for all pieces: the one that is asked for, or the first.

    Raises BadInput where there is none of that name.
    """
    cloth = tables.get("cloth")
    if not isinstance(cloth, dict):
        return dict(tables)
    named = {name: each for name, each in cloth.items() if isinstance(each, dict)}
    for_all = [n for n, each in named.items() if not each.get("pieces") and not each.get("tincture", n in TINCTURES)]
    found = [name for name in for_all if name.lower() == asked.lower()] if asked else for_all[:1]
    if asked and not found:
        mend = _("describe it as [cloth.{name}] with its width", name=asked)
        if for_all:
            mend = _("{mend}, or write {names}", mend=mend, names=one_of(for_all))
        raise BadInput("cloth", _("the sheet describes no cloth {name!r}", name=asked), mend)
    return {**tables, "cloth": {key: each for key, each in cloth.items() if key not in for_all or key in found}}
