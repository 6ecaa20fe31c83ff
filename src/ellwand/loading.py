"""Sheets from disk: a file, the sheets worn beneath it, and the list its wearer is in."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Final

from ellwand.choose import Sheet, read_sheet
from ellwand.errors import BadInput
from ellwand.measure import read_people

DEEPEST: Final = 8
"""No one wears more garments over each other than this."""


def load_sheet(path: Path) -> Sheet:
    """The sheet in a file.

    Raises BadInput naming the file, the key and the mend.
    """
    return _load(path, 0)


def read_file(path: Path, what: str) -> bytes:
    """The bytes of a file that should be ``what`` ('a sheet (a .toml file)').

    Raises BadInput naming the file and what would do.
    """
    try:
        if path.is_dir():
            raise BadInput(str(path), "this is a folder", f"name {what}")
        return path.read_bytes()
    except OSError as error:
        why = "there is no such file" if isinstance(error, FileNotFoundError) else "the file cannot be read"
        raise BadInput(str(path), why, f"name {what}") from None


def _load(path: Path, depth: int) -> Sheet:
    data = read_file(path, "a sheet (a .toml file)")
    worn: list[Sheet] = []

    def beneath(name: str) -> float:
        if depth >= DEEPEST:
            raise BadInput("garment.over", "the sheets are worn over each other without end", "break the circle")
        under = _load(path.parent / name, depth + 1)
        # what this one is worn over itself counts once
        known = [each for each in under.beneath if each in worn]
        worn.extend(each for each in (*under.beneath, under) if each not in worn)
        return under.cloth.thickness_mm + under.choices.beneath_mm - sum(each.cloth.thickness_mm for each in known)

    try:
        sheet = replace(read_sheet(data, beneath), beneath=tuple(worn))
        return replace(sheet, wearer=_from_list(sheet.wearer, path.parent)) if "list" in sheet.wearer else sheet
    except BadInput as error:
        raise error if depth else error.inside(str(path)) from None


def _from_list(wearer: Mapping[str, object], folder: Path) -> Mapping[str, object]:
    """The wearer of that name out of the list of people it names; what the sheet itself says goes before."""
    file, name = wearer["list"], wearer.get("name")
    if not isinstance(file, str) or not isinstance(name, str):
        raise BadInput("wearer.list", "a list needs a file and a name", 'write list = "class.csv" and name = "Joan"')
    people = read_people(read_file(folder / file, "a list of people (a .csv file)")).tables
    found = [table for table in people if str(table["name"]).casefold() == name.strip().casefold()]
    if len(found) != 1:
        why = f"{name!r} is not in {file}" if not found else f"{name!r} is {len(found)} times in {file}"
        near = difflib.get_close_matches(name, [str(table["name"]) for table in people], n=1)
        raise BadInput("wearer.name", why, f"perhaps {near[0]!r} was meant" if near else "name one person of the list")
    return {**found[0], **{key: value for key, value in wearer.items() if key not in ("list", "name")}}
