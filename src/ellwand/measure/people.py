"""Measurements of many people, as people keep them: a CSV list with any headings, in any unit.

Every person becomes a ``[wearer]`` table for ``read_raw``.  A cell's own unit goes before its heading's, that
before the row of units, the person's unit and the unit of the whole list; without any it is left to the table.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from ellwand.errors import BadInput
from ellwand.language import N_, _
from ellwand.measure.heading import LENGTHS, heading
from ellwand.measure.listing import Column, Listing, read_listing
from ellwand.model.wearer import Sex
from ellwand.units import LengthUnit, Unit, parse_length, states_unit, unit_named

SEXES: Final[Mapping[str, Sex]] = MappingProxyType(
    {
        **dict.fromkeys(("f", "female", "woman", "women", "girl", "lady", "w"), "female"),
        **dict.fromkeys(("m", "male", "man", "men", "boy"), "male"),
    }
)
SYSTEMS: Final[Mapping[str, Unit]] = MappingProxyType({"metric": "cm", "imperial": "in"})
GROWN_UP: Final = frozenset({"adult", "grown", "grown up", "grown-up"})
NAMES: Final = ("name", "first_name", "last_name")
YES: Final = frozenset({"yes", "y", "all", "true"})
NO: Final = frozenset({"no", "n", "false"})
IN_METRES: Final = 3.0
"""A bare height below this in a list in centimetres is in metres: nobody is 3 m tall."""

FEET_OR_INCHES: Final = re.compile(r"\d[.,](?:[1-9]|1[01])")
NUMBER: Final = r"\d+(?:[.,]\d+)?(?: ?[½¼¾]| \d/[1-9])?"
MONTHS: Final = r" ?(?:months?|mths?|mos?|m)\.?(?: old)?"
AGE: Final = re.compile(
    rf"(?P<bare>{NUMBER})|(?P<all_months>{NUMBER}){MONTHS}"
    rf"|(?P<years>{NUMBER}) ?(?:years?|yrs?|y)\.?(?: old)?(?:,? ?(?:and )?(?P<months>{NUMBER}){MONTHS})?",
    re.IGNORECASE,
)
MONTHS_A_YEAR: Final = 12
GOOD_AGES: Final = N_("write 9, 9 years 6 months or 18 months")


@dataclass(frozen=True, slots=True)
class Listed:
    """One person of a list: a ``[wearer]`` table, or the ``trouble`` with what is written of them.

    ``line``: of the file; ``others``: what stands under labels that are no measurement, blank cells left out.
    """

    name: str
    line: int
    table: Mapping[str, object] | None
    trouble: BadInput | None
    others: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class People:
    """A ``[wearer]`` table for each person, and the labels in the list that are no measurement."""

    tables: tuple[Mapping[str, object], ...]
    left_out: tuple[str, ...]


def read_people(data: bytes) -> People:
    """Every person in a CSV list; lengths keep their units as written (cm when nothing says otherwise).

    The list may stand (a person a row) or lie on its side, in UTF-8, UTF-16 or cp1252, parted by commas,
    semicolons or tabs.  A cell that ends in ``!`` is confirmed.  Raises BadInput naming line, heading and person.
    """
    listing = read_listing(data)
    everyone = _everyone(listing)
    for each in everyone:
        if each.trouble:
            raise each.trouble
    return People(tuple(each.table for each in everyone if each.table is not None), listing.left_out)


def read_roster(data: bytes) -> tuple[Listed, ...]:
    """Every person in the same list, what is wrong with one told of that one alone.

    Raises BadInput when it is no list of people.
    """
    return _everyone(read_listing(data))


def _everyone(listing: Listing) -> tuple[Listed, ...]:
    known = [n for n in range(len(listing.columns[0].cells)) if any(column.cells[n] for column in listing.columns)]
    if not known:
        raise BadInput("", _("nobody is in the list"), _("give each person a row under the headings"))
    return tuple(_Person(listing, n, count).listed() for count, n in enumerate(known, 1))


@dataclass(frozen=True, slots=True)
class _Person:
    """The cells of one person: the ``n``-th record of the list, the ``count``-th person."""

    listing: Listing
    n: int
    count: int

    def listed(self) -> Listed:
        """The person, with the table or with what is wrong."""
        table, trouble, name = None, None, _("person {n}", n=self.count)
        try:
            name = self.name() or name
            table = self.table()
        except BadInput as error:
            trouble = error
        others = {other.label: other.cells[self.n] for other in self.listing.others if other.cells[self.n]}
        return Listed(name, self.listing.columns[0].lines[self.n], table, trouble, others)

    def table(self) -> dict[str, object]:
        """The person's ``[wearer]`` table."""
        unit, stated = self.unit(), self.listing.unit
        table: dict[str, object] = {"name": self.name() or _("person {n}", n=self.count)}
        if sex := SEXES.get(self.text("sex").lower().rstrip(".")):
            table["sex"] = sex
        if (age := self.age()) is not None:
            table["age"] = age
        if (unit or stated) in ("cm", "in"):
            table["unit"] = unit or stated
        confirmed: list[str] = []
        for field in LENGTHS:
            if column := self.column(field):
                text = column.cells[self.n]
                if text.endswith("!"):
                    confirmed.append(field)
                table[field] = self.length(column, text.rstrip("! "), unit or stated)
        confirmed += [field for field in self.confirmed(table) if field not in confirmed]
        if confirmed:
            table["confirmed"] = confirmed
        return table

    def column(self, field: str) -> Column | None:
        """The one column of this meaning in which something is written for the person."""
        found = self.written(field)
        if len(found) > 1:
            raise BadInput(
                self.where(found[1]),
                _("{one!r} and {other!r} mean the same", one=found[0].where, other=found[1].where),
                _("leave one of the two blank"),
            )
        return found[0] if found else None

    def written(self, field: str) -> list[Column]:
        """Every column of this meaning in which something is written for the person."""
        return [column for column in self.listing.columns if column.heading.field == field and column.cells[self.n]]

    def text(self, field: str) -> str:
        """What is written for the person, '' for nothing."""
        column = self.column(field)
        return column.cells[self.n] if column else ""

    def name(self) -> str:
        """The whole name, '' when none is given."""
        return self.text("name") or f"{self.text('first_name')} {self.text('last_name')}".strip()

    def where(self, column: Column) -> str:
        """The line, heading and, if given, name."""
        names = [other.cells[self.n] for field in NAMES for other in self.written(field)]
        return ", ".join([_("line {line}", line=column.lines[self.n]), column.where, *names[:1]])

    def unit(self) -> LengthUnit | None:
        """The unit this person's measurements are in, if the list says so for each person."""
        column = self.column("unit")
        if column is None:
            return None
        text = column.cells[self.n]
        unit = unit_named(text) or SYSTEMS.get(text.lower())
        if unit is None:
            raise BadInput(self.where(column), _("{text!r} is not a unit", text=text), _("write cm or in"))
        return unit

    def age(self) -> float | None:
        """The age in years, None when it is not given or the person is said to be grown."""
        column = self.column("age")
        if column is None or column.cells[self.n].lower() in GROWN_UP:
            return None
        text, where = column.cells[self.n], self.where(column)
        match = AGE.fullmatch(text)
        if not match:
            raise BadInput(where, _("{text!r} is not an age", text=text), _(GOOD_AGES))
        bare = "all_months" if column.heading.unit == "months" else "years"
        parts = {bare if part == "bare" else part: number for part, number in match.groupdict().items() if number}
        return sum(
            parse_length(number, "cm", where) / (1 if part == "years" else MONTHS_A_YEAR)
            for part, number in parts.items()
        )

    def length(self, column: Column, text: str, others: LengthUnit | None) -> str:
        """The cell with its unit."""
        where = self.where(column)
        unit = column.heading.unit or column.unit or others
        if states_unit(text):
            written = text
        else:
            if unit == "ft" and FEET_OR_INCHES.fullmatch(text):
                feet, inches = re.split("[.,]", text)
                raise BadInput(
                    where,
                    _("{text!r} feet can be read in two ways", text=text),
                    _("write {feet}'{inches}\" or inches", feet=feet, inches=inches),
                )
            written = f"{text} {unit}" if unit else text
            bare = parse_length(text, "cm", where)
            if column.heading.field == "height" and unit in ("cm", None) and bare < IN_METRES:
                written = f"{text} m"
        if parse_length(written, "cm", where) <= 0:
            raise BadInput(
                where, _("{text!r} is not above nothing", text=text), _("leave the cell blank if it was not measured")
            )
        return written

    def confirmed(self, table: Mapping[str, object]) -> list[str]:
        """The fields of which the list says that they are right."""
        column = self.column("confirmed")
        text = column.cells[self.n] if column else ""
        if column is None or text.lower() in NO:
            return []
        if text.lower() in YES:
            return [field for field in LENGTHS if field in table]
        parts = [part for part in re.split(r"[;,|]", text) if part.strip()]
        words = [word for part in parts for word in ([part] if heading(part) else part.split())]
        fields: list[str] = []
        for word in words:
            known = heading(word)
            if known is None or not known.is_length:
                raise BadInput(
                    self.where(column),
                    _("{word!r} is not a measurement", word=word),
                    _("write their names, parted by semicolons"),
                )
            fields.append(known.field)
        return list(dict.fromkeys(fields))
