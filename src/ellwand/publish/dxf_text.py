"""DXF release 12 as text: layers, blocks and the few entities that pieces need.

Group codes as in the release 12 reference; the whole of it is read by every program that reads DXF.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from ellwand.geometry.lines import Line, Point

Pair = tuple[int, str]
"""A group code and its value."""

MILLIMETRES: Final = "4"
_CONTINUOUS: Final[tuple[Pair, ...]] = (
    (0, "LTYPE"),
    (2, "CONTINUOUS"),
    (70, "0"),
    (3, "Solid line"),
    (72, "65"),
    (73, "0"),
    (40, "0.0"),
)


def document(layers: Sequence[str], blocks: Sequence[tuple[str, Sequence[Pair]]], entities: Iterable[Pair]) -> bytes:
    """A file in mm with its layers, its named blocks and what lies on the ground."""
    head = [(9, "$ACADVER"), (1, "AC1009"), (9, "$DWGCODEPAGE"), (3, "ANSI_1252")]
    head += [(9, "$INSUNITS"), (70, MILLIMETRES), (9, "$MEASUREMENT"), (70, "1")]
    tables = [*_table("LTYPE", 1, _CONTINUOUS), *_table("LAYER", len(layers), _layers(layers))]
    told = [pair for name, content in blocks for pair in _block(name, content)]
    pairs = [*_section("HEADER", head), *_section("TABLES", tables)]
    pairs += [*_section("BLOCKS", told), *_section("ENTITIES", entities), (0, "EOF")]
    return "".join(f"{code:>3}\r\n{value}\r\n" for code, value in pairs).encode("ascii")


def _section(name: str, content: Iterable[Pair]) -> list[Pair]:
    return [(0, "SECTION"), (2, name), *content, (0, "ENDSEC")]


def _table(name: str, count: int, content: Iterable[Pair]) -> list[Pair]:
    return [(0, "TABLE"), (2, name), (70, str(count)), *content, (0, "ENDTAB")]


def _layers(names: Iterable[str]) -> list[Pair]:
    rows: list[list[Pair]] = [[(0, "LAYER"), (2, name), (70, "0"), (62, "7"), (6, "CONTINUOUS")] for name in names]
    return [pair for row in rows for pair in row]


def _block(name: str, content: Iterable[Pair]) -> list[Pair]:
    start = [(0, "BLOCK"), (8, "0"), (2, name), (70, "0"), *_at((0.0, 0.0)), (3, name), (1, "")]
    return [*start, *content, (0, "ENDBLK"), (8, "0")]


def _at(point: Point, first: int = 10) -> list[Pair]:
    """A point in mm."""
    return [(first, _number(point[0])), (first + 10, _number(point[1])), (first + 20, "0.0")]


def _number(value: float) -> str:
    """Nine decimals: a millionth of a micrometre."""
    text = f"{round(value, 9) + 0.0:.9f}".rstrip("0")
    return text + "0" if text.endswith(".") else text


def polyline(line: Line, layer: str, *, closed: bool) -> list[Pair]:
    """A run of straight lines through points in mm."""
    out = [(0, "POLYLINE"), (8, layer), (66, "1"), *_at((0.0, 0.0)), (70, "1" if closed else "0")]
    for point in line:
        out += [(0, "VERTEX"), (8, layer), *_at(point)]
    return [*out, (0, "SEQEND"), (8, layer)]


def straight(start: Point, end: Point, layer: str) -> list[Pair]:
    """One straight line, from and to in mm."""
    return [(0, "LINE"), (8, layer), *_at(start), *_at(end, 11)]


def point(at: Point, layer: str) -> list[Pair]:
    """A single point (mm)."""
    return [(0, "POINT"), (8, layer), *_at(at)]


def text(words: str, at: Point, high: float, layer: str) -> list[Pair]:
    """Words ``high`` mm tall; signs beyond ASCII as the format's own escapes, those beyond its reach as '?'."""
    plain = "".join(c if c.isascii() else f"\\U+{ord(c):04X}" if ord(c) < 0x10000 else "?" for c in words)
    return [(0, "TEXT"), (8, layer), *_at(at), (40, _number(high)), (1, plain)]


def insert(block: str, at: Point, layer: str) -> list[Pair]:
    """A block put on the ground with its origin there (mm)."""
    return [(0, "INSERT"), (8, layer), (2, block), *_at(at)]
