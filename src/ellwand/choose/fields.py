"""How one value of the sheet is read: a word, a length, a range, each with a sentence when it is wrong."""

from __future__ import annotations

import difflib
import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any, Final, Literal

from pydantic import ValidationInfo
from pydantic.fields import FieldInfo

from ellwand.errors import BadInput
from ellwand.language import N_, _
from ellwand.model.choices import Span
from ellwand.units import Unit, format_length, parse_length

Reader = Callable[[Any, ValidationInfo], Any]
NOT_A: Final = {
    "number": N_("{value!r} is not a number"),
    "year": N_("{value!r} is not a year"),
    "fraction": N_("{value!r} is not a fraction"),
}
"""What is said of a value that is no such number."""


Kind = Literal["word", "length", "number", "whole", "words", "yes or no", "text", "corners"]


@dataclass(frozen=True, slots=True)
class Takes:
    """What a reader takes: one of the words, or a value of its kind from ``low`` to ``high`` (cm, or plain numbers).

    ``span``: also a range of two; ``nothing``: it may be left out; ``said``: the same in words, for the reference.
    """

    kind: Kind
    said: str
    words: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    span: bool = False
    nothing: bool = False


def taking(reader: Reader, takes: Takes) -> Reader:
    """The reader, which tells what it takes."""
    reader.takes = takes  # type: ignore[attr-defined]
    return reader


def takes_of(field: FieldInfo) -> Takes | None:
    """What an option takes; None where it is a table, or a plain text."""
    takes = getattr(getattr(next(iter(field.metadata), None), "func", None), "takes", None)
    return takes if isinstance(takes, Takes) else None


def quoted(words: Iterable[str]) -> str:
    """The words as the reference writes them."""
    return ", ".join(f"`{each}`" for each in words)


def one_of(words: Iterable[str]) -> str:
    """The good words as a person would list them."""
    return ", ".join(f'"{word}"' for word in words)


def nearest(word: str, good: Iterable[str]) -> str:
    """What was most likely meant, as a mend, or the whole list."""
    good = list(good)
    close = difflib.get_close_matches(word.lower(), good, n=1, cutoff=0.6)
    if close:
        return _('perhaps "{word}" was meant', word=close[0])
    return _("choose one of {names}", names=one_of(good))


def _unit(info: ValidationInfo) -> Unit:
    unit: Unit = (info.context or {}).get("unit", "cm")
    return unit


def _length(value: Any, info: ValidationInfo, low: float, high: float) -> float:
    cm = parse_length(value, _unit(info))
    if not low <= cm <= high:
        unit = _unit(info)
        raise BadInput(
            "",
            _("{value!r} is out of reach", value=value),
            _(
                "give a length from {low} to {high}",
                low=format_length(low, unit),
                high=format_length(high, unit),
            ),
        )
    return cm


def word(*words: str, nothing: bool = False) -> Reader:
    """Reads one of the words."""

    def read(value: Any, info: ValidationInfo) -> str | None:
        if value is None and nothing:
            return None
        if isinstance(value, str) and value in words:
            return value
        if isinstance(value, str):
            raise BadInput(
                "", _("{value!r} is not a choice here", value=value), _("choose one of {names}", names=one_of(words))
            )
        raise BadInput("", _("{value!r} is not a word", value=value), _("choose one of {names}", names=one_of(words)))

    return taking(read, Takes("word", quoted(words), words, nothing=nothing))


def measure(low: float, high: float, *words: str, span: bool = False, nothing: bool = False) -> Reader:
    """Reads a length between ``low`` and ``high`` cm, or one of the words, or a range of two lengths."""

    def read(value: Any, info: ValidationInfo) -> Any:
        if value is None and nothing:
            return None
        if isinstance(value, str) and value in words:
            return value
        if isinstance(value, Span):
            return value
        if span and isinstance(value, list):
            if len(value) != 2:
                raise BadInput(
                    "", _("{value!r} is not a range", value=value), _("write the least and the most, as in [40, 60]")
                )
            least, most = (_length(each, info, low, high) for each in value)
            if least > most:
                raise BadInput("", _("{value!r} runs backwards", value=value), _("write the least first"))
            return Span(least, most)
        if words and isinstance(value, str) and not any(ch.isdigit() for ch in value):
            raise BadInput(
                "",
                _("{value!r} is not a choice here", value=value),
                _("choose one of {names}, or give a length", names=one_of(words)),
            )
        return _length(value, info, low, high)

    lengths = f"{format_length(low)} to {format_length(high)}" + (", or a range `[low, high]`" if span else "")
    said = ", ".join([*([quoted(words)] if words else []), lengths])
    return taking(read, Takes("length", said, words, low, high, span, nothing))


def number(low: float, high: float, *, nothing: bool = False, what: str = "number") -> Reader:
    """Reads a plain number."""

    def read(value: Any, info: ValidationInfo) -> float | None:
        if value is None and nothing:
            return None
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            raise BadInput(
                "", _(NOT_A[what], value=value), _("give a number from {low:g} to {high:g}", low=low, high=high)
            )
        if not math.isfinite(float(value)) or not low <= value <= high:
            raise BadInput(
                "",
                _("{value!r} is out of reach", value=value),
                _("give a number from {low:g} to {high:g}", low=low, high=high),
            )
        return float(value)

    return taking(read, Takes("number", f"{low:g} to {high:g}", (), low, high, nothing=nothing))


def whole(low: int, high: int, *, nothing: bool = False) -> Reader:
    """Reads a whole number."""

    def read(value: Any, info: ValidationInfo) -> int | None:
        if value is None and nothing:
            return None
        if isinstance(value, bool) or not isinstance(value, (int, float)) or value % 1:
            raise BadInput(
                "",
                _("{value!r} is not a whole number", value=value),
                _("give one from {low} to {high}", low=low, high=high),
            )
        if not low <= value <= high:
            raise BadInput(
                "",
                _("{value!r} is out of reach", value=value),
                _("give a whole number from {low} to {high}", low=low, high=high),
            )
        return int(value)

    return taking(read, Takes("whole", f"{low} to {high}", (), low, high, nothing=nothing))


def length_or_part(value: Any, info: ValidationInfo) -> float:
    """Reads a length from 1 cm, or a part below 1 as it is."""
    if isinstance(value, (int, float)) and not isinstance(value, bool) and 0 <= value < 1:
        return float(value)
    return _length(value, info, 1, 10000)


taking(length_or_part, Takes("length", "1 cm to 10000 cm, or a part from 0 to 1", (), 0, 10000))


def words(*good: str) -> Reader:
    """Reads a list of different words."""
    read_one = word(*good)

    def read(value: Any, info: ValidationInfo) -> tuple[str, ...]:
        if not isinstance(value, list):
            raise BadInput(
                "",
                _("{value!r} is not a list", value=value),
                _("write some of {names} in brackets", names=one_of(good)),
            )
        return tuple(dict.fromkeys(read_one(each, info) for each in value))

    return taking(read, Takes("words", "a list of " + quoted(good), good))


def corners(value: Any, info: ValidationInfo) -> tuple[tuple[float, float], ...]:
    """Reads the corners of a simple polygon; they are answered counter-clockwise, the least x and y being 0."""
    from shapely.geometry import Polygon
    from shapely.geometry.polygon import orient

    mend = _("give at least three corners, as in [[0, 0], [40, 0], [0, 60]]")
    if not isinstance(value, list) or len(value) < 3:
        raise BadInput("", _("{value!r} is not an outline", value=value), mend)
    if not all(isinstance(each, list) and len(each) == 2 for each in value):
        raise BadInput("", _("each corner is a pair of lengths"), mend)
    points = [tuple(_length(each, info, 0, 100000) for each in pair) for pair in value]
    polygon = Polygon(points)
    if not polygon.is_valid or polygon.area < 1:
        raise BadInput("", _("the outline crosses itself or holds no cloth"), _("give its corners in order"))
    left, low = polygon.bounds[:2]
    return tuple((x - left, y - low) for x, y in orient(polygon).exterior.coords[:-1])


taking(corners, Takes("corners", "a list of corners `[x, y]`"))


def yes_no(value: Any, info: ValidationInfo) -> bool:
    """Reads true or false."""
    if not isinstance(value, bool):
        raise BadInput("", _("{value!r} is neither yes nor no", value=value), _("write true or false"))
    return value


taking(yes_no, Takes("yes or no", "true, false"))


def text(value: Any, info: ValidationInfo) -> str | None:
    """Reads a short text."""
    if value is None:
        return None
    if not isinstance(value, str) or not value.strip() or len(value) > 200:
        raise BadInput("", _("{value!r} is not a short text", value=str(value)[:40]), _("write up to 200 characters"))
    return value


taking(text, Takes("text", ""))
