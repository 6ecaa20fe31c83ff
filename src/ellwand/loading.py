"""Sheets from disk: a file, the sheets worn beneath it, and the list its wearer is in."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

from ellwand.choose import Sheet, read_tables, sheet_tables
from ellwand.errors import BadInput
from ellwand.language import _, speaking_unless_chosen
from ellwand.measure import read_people

DEEPEST: Final = 8
"""No one wears more garments over each other than this."""


Change = Callable[[dict[str, Any]], Mapping[str, Any]]
"""What is done to the tables of a sheet before they are read."""


def load_sheet(path: Path, change: Change = dict) -> Sheet:
    """The sheet in a file; ``change`` is done to its tables, not to those of the sheets worn beneath.

    Raises BadInput naming the file, the key and the mend.
    """
    return _load(path, 0, change)


def read_file(path: Path, what: str) -> bytes:
    """The bytes of a file that should be ``what`` ('a sheet (a .toml file)').

    Raises BadInput naming the file and what would do.
    """
    try:
        if path.is_dir():
            raise BadInput(str(path), _("this is a folder"), _("name {what}", what=what))
        return path.read_bytes()
    except OSError as error:
        why = _("there is no such file") if isinstance(error, FileNotFoundError) else _("the file cannot be read")
        raise BadInput(str(path), why, _("name {what}", what=what)) from None


def _load(path: Path, depth: int, change: Change = dict) -> Sheet:
    data = read_file(path, _("a sheet (a .toml file)"))
    worn: list[Sheet] = []

    def beneath(name: str) -> float:
        if depth >= DEEPEST:
            raise BadInput("garment.over", _("the sheets are worn over each other without end"), _("break the circle"))
        under = _load(path.parent / name, depth + 1)
        # what this one is worn over itself counts once
        known = [each for each in under.beneath if each in worn]
        worn.extend(each for each in (*under.beneath, under) if each not in worn)
        return under.cloth.thickness_mm + under.choices.beneath_mm - sum(each.cloth.thickness_mm for each in known)

    def drawing(name: str) -> str:
        try:
            return read_file(path.parent / name, _("an SVG drawing (an .svg file)")).decode("utf-8-sig")
        except UnicodeDecodeError:
            raise BadInput(name, _("this is not a text file in UTF-8"), _("save it as plain SVG")) from None

    try:
        sheet = replace(read_tables(change(sheet_tables(data)), beneath, drawing), beneath=tuple(worn))
        if "list" not in sheet.wearer:
            return sheet
        with speaking_unless_chosen(sheet.language):
            return replace(sheet, wearer=_from_list(sheet.wearer, path.parent))
    except BadInput as error:
        raise error if depth else error.inside(str(path)) from None


def _from_list(wearer: Mapping[str, object], folder: Path) -> Mapping[str, object]:
    """The wearer of that name out of the list of people it names; what the sheet itself says goes before."""
    file, name = wearer["list"], wearer.get("name")
    if not isinstance(file, str) or not isinstance(name, str):
        raise BadInput(
            "wearer.list", _("a list needs a file and a name"), _('write list = "class.csv" and name = "Joan"')
        )
    people = read_people(read_file(folder / file, _("a list of people (a .csv file)"))).tables
    found = [table for table in people if str(table["name"]).casefold() == name.strip().casefold()]
    if len(found) != 1:
        why = (
            _("{name!r} is {count} times in {file}", name=name, count=len(found), file=file)
            if found
            else _("{name!r} is not in {file}", name=name, file=file)
        )
        near = difflib.get_close_matches(name, [str(table["name"]) for table in people], n=1)
        raise BadInput(
            "wearer.name",
            why,
            _("perhaps {name!r} was meant", name=near[0]) if near else _("name one person of the list"),
        )
    return {**found[0], **{key: value for key, value in wearer.items() if key not in ("list", "name")}}
