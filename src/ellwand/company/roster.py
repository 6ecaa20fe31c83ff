"""The roster: every person with the garments to be made for them, each as a sheet of their own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Any, Final

from ellwand.choose import Sheet
from ellwand.choose.fields import one_of
from ellwand.choose.styles import STYLES
from ellwand.company import columns
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.loading import load_sheet, read_file
from ellwand.measure import Listed, read_roster


@dataclass(frozen=True, slots=True)
class Bundle:
    """One garment to be made: the number of its line in the order, for whom, what, and of which colour.

    ``sheet`` is None where ``trouble`` says why nothing can be made.
    """

    number: int
    name: str
    garment: str
    colour: str = ""
    sheet: Sheet | None = None
    trouble: str = ""


@dataclass(frozen=True, slots=True)
class Roster:
    """All bundles; what of the list means nothing to us, and names that stand in it more than once."""

    bundles: tuple[Bundle, ...]
    left_alone: tuple[str, ...]
    twice: tuple[str, ...]


IN_CM: Final[Mapping[str, object]] = {"unit": "cm", "height": 170, "bust_girth": 96}
IN_INCHES: Final[Mapping[str, object]] = {"unit": "in", "height": 67, "bust_girth": 38}
"""These stand for the wearer while a sheet is read for all."""


def load_roster(path: Path, sheets: Sequence[Path]) -> Roster:
    """The people in a list (.csv or .xlsx) with their garments: ``sheets``, the first for whom none is named.

    A column ``garment`` names one or several of the sheets, styles, or sheets that lie beside the list; ``cloth`` a
    cloth of the sheet, ``colour`` its colour; a heading such as ``sleeve.shape`` changes that key for the person.
    What is wrong with one person is told in that one's bundle.  Raises BadInput where list or sheets cannot be read.
    """
    people = read_roster(read_file(path, _("a list of people (a .csv or .xlsx file)")))
    reading = _Reading(path.parent, tuple(sheets))
    bundles: list[Bundle] = []
    for person in people:
        bundles += reading.bundles(person, len(bundles) + 1)
    labels = dict.fromkeys(label for person in people for label in person.others)
    names = Counter(person.name.casefold() for person in people)
    first = {person.name.casefold(): person.name for person in reversed(people)}
    return Roster(
        tuple(bundles),
        tuple(label for label in labels if columns.meaning(label) is None),
        tuple(first[name] for name, count in names.items() if count > 1),
    )


class _Reading:
    """Sheets read once for all who have the same garment, cloth and changes.

    Raises BadInput where one of the sheets cannot be read.
    """

    def __init__(self, folder: Path, sheets: tuple[Path, ...]) -> None:
        self._folder, self._sheets = folder, sheets
        self._known: dict[object, Sheet | BadInput] = {}
        self._styles = {self.sheet_of(sheet.stem, "", ()).choices.style: sheet for sheet in reversed(sheets)}

    def bundles(self, person: Listed, first: int) -> list[Bundle]:
        """The garments for one person, numbered from ``first``."""
        said: dict[str | columns.Path, str] = {}
        for label, cell in person.others.items():
            means = columns.meaning(label)
            if means is not None:
                said.setdefault(means, cell.strip())
        colour, cloth = said.pop("colour", ""), said.pop("cloth", "")
        garments = columns.garments_in(said.pop("garment", "")) or (self._sheets[0].stem,)
        changes = tuple((path, cell) for path, cell in said.items() if isinstance(path, tuple))
        return [
            self._bundle(person, Bundle(first + k, person.name, garment, colour), cloth, changes)
            for k, garment in enumerate(garments)
        ]

    def _bundle(
        self, person: Listed, bundle: Bundle, cloth: str, changes: tuple[tuple[columns.Path, str], ...]
    ) -> Bundle:
        try:
            if person.trouble or person.table is None:
                return replace(bundle, trouble=str(person.trouble))
            sheet = self.sheet_of(bundle.garment, cloth, changes)
        except BadInput as error:
            where = _("line {line}, {name}", line=person.line, name=person.name)
            return replace(bundle, trouble=str(error.inside(where)))
        wearer = {"unit": sheet.wearer["unit"], **person.table}
        return replace(bundle, sheet=replace(sheet, wearer=wearer), garment=sheet.choices.style)

    def sheet_of(self, garment: str, cloth: str, changes: tuple[tuple[columns.Path, str], ...]) -> Sheet:
        """The sheet for a garment of that name.

        Raises BadInput.
        """
        key = (garment.casefold(), cloth.casefold(), changes)
        if key not in self._known:
            try:
                self._known[key] = self._read(garment, cloth, changes)
            except BadInput as error:
                self._known[key] = error
        found = self._known[key]
        if isinstance(found, BadInput):
            raise found
        return found

    def _read(self, garment: str, cloth: str, changes: tuple[tuple[columns.Path, str], ...]) -> Sheet:
        path, change = self._file(garment)

        def settled(tables: dict[str, Any]) -> Mapping[str, Any]:
            out = columns.one_cloth(change(tables), cloth)
            for way, cell in changes:
                out = columns.changed(out, way, cell)
            own = tables.get("wearer")
            inches = isinstance(own, dict) and own.get("unit") == "in"
            return {**out, "wearer": IN_INCHES if inches else IN_CM}

        return load_sheet(path, settled)

    def _file(self, garment: str) -> tuple[Path, Callable[[dict[str, Any]], dict[str, Any]]]:
        """The file that a garment's name stands for, and what makes its tables those of that garment."""
        name = garment.casefold()
        for sheet in self._sheets:
            if name in (sheet.stem.casefold(), sheet.name.casefold()):
                return sheet, dict
        for style, sheet in self._styles.items():
            if name == style:
                return sheet, dict
        for style in STYLES:
            if name == style.casefold():
                return self._sheets[0], partial(_of_style, style)
        beside = self._folder / (garment if name.endswith(".toml") else f"{garment}.toml")
        if beside.is_file():
            return beside, dict
        known = [*(sheet.stem for sheet in self._sheets), *STYLES]
        raise BadInput(
            "garment", _("there is no garment {name!r}", name=garment), _("write one of {names}", names=one_of(known))
        )


def _of_style(style: str, tables: dict[str, Any]) -> dict[str, Any]:
    """The tables with a plain garment of that style."""
    return {**tables, "garment": {"style": style}}
