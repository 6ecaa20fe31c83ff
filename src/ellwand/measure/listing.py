"""A list of people as saved from a spreadsheet, laid out: which cells stand under which heading."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import Final, NamedTuple

from ellwand.errors import BadInput
from ellwand.language import N_, _
from ellwand.measure.heading import LENGTHS, Heading, heading
from ellwand.measure.spreadsheet import as_csv, is_spreadsheet
from ellwand.units import LengthUnit, unit_named

MOST_BYTES: Final = 10_000_000
MOST_PEOPLE: Final = 10_000
MOST_CELLS: Final = MOST_PEOPLE + 100
HEADER_WITHIN: Final = 50
DELIMITERS: Final = ("\t", ";", ",")
NOT_MEASURED: Final = frozenset({"n/a", "na", "#n/a", "nan", "none", "null", "unknown", "not measured", "tbc", "tba"})
GOOD_HEADINGS: Final = N_("begin with a row of headings, such as Name, Height, Chest, Waist, Hip")
NO_NAMES: Final = frozenset({"value", "values", "unit", "units"})


@dataclass(frozen=True, slots=True)
class Column:
    """One heading and its cell for each person, '' where nothing was measured.

    ``lines`` are the cells' lines in the file, ``unit`` is what the row of units says.
    """

    label: str
    heading: Heading
    cells: tuple[str, ...]
    lines: tuple[int, ...]
    unit: LengthUnit | None = None

    @property
    def where(self) -> str:
        """What the column is called."""
        return self.label or self.heading.field


@dataclass(frozen=True, slots=True)
class Other:
    """A label that is no measurement's and its cell for each person, as written."""

    label: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Listing:
    """The columns that are known, those that are not, and the unit of the whole list if it states one."""

    columns: tuple[Column, ...]
    others: tuple[Other, ...]
    unit: LengthUnit | None

    @property
    def left_out(self) -> tuple[str, ...]:
        """The labels that are no measurement's."""
        return tuple(other.label for other in self.others)


class Row(NamedTuple):
    """One row of cells, beginning on ``line`` of the file."""

    line: int
    cells: list[str]

    def cell(self, n: int) -> str:
        """The text of a cell, which may lie beyond the end of the row."""
        return self.cells[n] if n < len(self.cells) else ""


def read_listing(data: bytes) -> Listing:
    """The list in a CSV file or an .xlsx spreadsheet, with a person a row or a person a column.

    The delimiter is the one that shows the most headings.  Raises BadInput when there are none, and when the file
    is no text, too large, or its quotation marks or cells do not come out even.
    """
    text = _decoded(data)
    shown = {delimiter: max(_across(rows), _down(rows)) for delimiter, rows in _peeked(text)}
    delimiter = max(shown, key=lambda mark: shown[mark])
    if shown[delimiter] < 2:
        raise BadInput("", _("no headings of measurements are found in the list"), _(GOOD_HEADINGS))
    rows = _rows(text, delimiter)
    return _turned(rows) if _down(rows) > _across(rows) else _upright(rows)


def _decoded(data: bytes) -> str:
    if is_spreadsheet(data) and len(data) <= MOST_BYTES:
        return as_csv(data)
    mend = _("save the list as CSV (comma separated, UTF-8)")
    if len(data) > MOST_BYTES:
        raise BadInput(
            "", _("the list has more than {size} MB", size=MOST_BYTES // 1_000_000), _("give a list of fewer people")
        )
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        encodings = ["utf-16"]
    elif data[1:2] == b"\0":
        encodings = ["utf-16-le"]
    elif data[:1] == b"\0":
        encodings = ["utf-16-be"]
    else:
        encodings = ["utf-8-sig", "cp1252"]
    for encoding in encodings:
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\0" in text:
            break
        if not text.strip():
            raise BadInput("", _("the list is empty"), _(GOOD_HEADINGS))
        return text
    raise BadInput("", _("the list is not a CSV file"), mend)


def _peeked(text: str) -> Iterator[tuple[str, list[Row]]]:
    """The first rows as each delimiter parts them, however badly."""
    for delimiter in DELIMITERS:
        reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, skipinitialspace=True)
        try:
            found = [cells for cells in islice(reader, HEADER_WITHIN) if cells]
        except csv.Error:
            found = []
        yield delimiter, [Row(0, [cell.strip() for cell in cells[:MOST_CELLS]]) for cells in found]


def _rows(text: str, delimiter: str) -> list[Row]:
    """Every row that is not blank."""
    rows: list[Row] = []
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, skipinitialspace=True, strict=True)
    line = 1
    try:
        for cells in reader:
            row = Row(line, [" ".join(cell.split()) for cell in cells])
            if any(row.cells):
                rows.append(row)
            if max(len(rows), len(cells)) > MOST_CELLS:
                raise BadInput(
                    _("line {line}", line=line),
                    _("the list is too long"),
                    _("give at most {most} people at a time", most=MOST_PEOPLE),
                )
            line = reader.line_num + 1
    except csv.Error:
        raise BadInput(
            _("line {line}", line=line),
            _("the quotation marks do not come out even"),
            _('write a cell that begins with one in quotation marks, each inner one twice, or write "in" for inches'),
        ) from None
    return rows


def _said(text: str, known: Heading) -> str:
    """The text of a cell, '' when it says that nothing was measured."""
    named = known.field.endswith("name")
    silent = not any(map(str.isalnum, text)) and not unit_named(text)
    return "" if silent or (text.lower() in NOT_MEASURED and not named) else text


def _fields(cells: Sequence[str]) -> int:
    return len({known.field for known in map(heading, cells) if known})


def _header(rows: list[Row]) -> int | None:
    """The first row in which at least two cells are headings."""
    return next((n for n, row in enumerate(rows[:HEADER_WITHIN]) if _fields(row.cells) > 1), None)


def _across(rows: list[Row]) -> int:
    header = _header(rows)
    return 0 if header is None else _fields(rows[header].cells)


def _down(rows: list[Row]) -> int:
    return _fields([row.cells[0] for row in rows])


def _upright(rows: list[Row]) -> Listing:
    header = _header(rows) or 0
    labels, people = rows[header].cells, rows[header + 1 :]
    width = max(n for n, label in enumerate(labels) if label) + 1
    for row in people:
        _check_width(row, width)
    lines = tuple(row.line for row in people)
    columns = [
        Column(label, known, tuple(_said(row.cell(n), known) for row in people), lines)
        for n, label in enumerate(labels)
        if (known := heading(label))
    ]
    others = [
        Other(label, tuple(row.cell(n) for row in people))
        for n, label in enumerate(labels)
        if label and not heading(label)
    ]
    return _listing(columns, others, rows[:header])


def _turned(rows: list[Row]) -> Listing:
    first = next(n for n, row in enumerate(rows) if heading(row.cells[0]))
    above, labelled = rows[:first], rows[first:]
    width = max(len(row.cells) for row in labelled)
    columns = [_along(row, known, width) for row in labelled if (known := heading(row.cells[0]))]
    if not any(column.heading.field == "name" for column in columns) and above and any(above[-1].cells[1:]):
        over = above.pop()
        for row in labelled:
            _check_width(row, len(over.cells))
        columns += _over(over, width)
    unknown = [*(row for row in above if any(row.cells[1:])), *(row for row in labelled if not heading(row.cells[0]))]
    others = [Other(row.cells[0], tuple(row.cell(n) for n in range(1, width))) for row in unknown if row.cells[0]]
    return _listing(columns, others, above)


def _along(row: Row, known: Heading, width: int) -> Column:
    cells = tuple(_said(row.cell(n), known) for n in range(1, width))
    return Column(row.cells[0], known, cells, (row.line,) * len(cells))


def _over(row: Row, width: int) -> list[Column]:
    """The row over a list on its side holds the names, or a unit over its cells."""
    above = _along(row, Heading("name"), width)
    units = tuple(cell if unit_named(cell) else "" for cell in above.cells)
    names = tuple("" if unit_named(cell) or cell.lower() in NO_NAMES else cell for cell in above.cells)
    return [
        Column("", Heading("name"), names, above.lines),
        Column("", Heading("unit"), units, above.lines),
    ]


def _check_width(row: Row, width: int) -> None:
    if any(row.cells[width:]):
        raise BadInput(
            _("line {line}", line=row.line),
            _("has more cells than there are headings"),
            _("give every column a heading, and write decimals with a point or in quotation marks"),
        )


def _listing(columns: list[Column], others: list[Other], above: list[Row]) -> Listing:
    if _has_unit_row(columns):
        columns = [_without_units(column) for column in columns]
        others = [Other(other.label, other.cells[1:]) for other in others]
    people = sum(1 for n in range(len(columns[0].cells)) if any(column.cells[n] for column in columns))
    if people > MOST_PEOPLE:
        raise BadInput(
            "",
            _("the list has {count} people", count=people),
            _("give at most {most} at a time", most=MOST_PEOPLE),
        )
    return Listing(tuple(columns), tuple(others), _stated(columns, above))


def _has_unit_row(columns: list[Column]) -> bool:
    """Whether the row under the headings holds nothing but units."""
    marks = [column.cells[0] for column in columns if column.heading.field in LENGTHS and column.cells]
    marks = [mark for mark in marks if mark]
    return bool(marks) and all(map(unit_named, marks))


def _without_units(column: Column) -> Column:
    """The column without that row; the unit of a length goes to it."""
    unit = unit_named(column.cells[0]) if column.heading.field in LENGTHS else None
    return Column(column.label, column.heading, column.cells[1:], column.lines[1:], unit)


def _stated(columns: list[Column], above: list[Row]) -> LengthUnit | None:
    """The unit of the list: as the lines above it say, or inches when every heading says feet or inches."""
    said = {
        unit
        for row in above
        for word in re.findall(r"\w+", " ".join(row.cells))
        if word.lower() != "in" and (unit := unit_named(word)) in ("mm", "cm", "in")
    }
    if said:
        return said.pop() if len(said) == 1 else None
    units = {column.heading.unit or column.unit for column in columns if column.heading.is_length}
    return "in" if "in" in units and units <= {"in", "ft"} else None
