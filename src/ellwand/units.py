"""Lengths as people write them, and centimetres inside.

An inch is 2.54 cm exactly (international yard and pound agreement, 1959).
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Final, Literal

from ellwand.errors import BadInput
from ellwand.language import N_, _, decimal_mark

Unit = Literal["cm", "in"]
LengthUnit = Literal["mm", "cm", "m", "in", "ft", "yd"]

CM_PER: Final[dict[LengthUnit, float]] = {
    "mm": 0.1,
    "cm": 1.0,
    "m": 100.0,
    "in": 2.54,
    "ft": 30.48,
    "yd": 91.44,
}

_UNIT_WORDS: Final[dict[str, LengthUnit]] = {
    "mm": "mm",
    "millimetre": "mm",
    "millimetres": "mm",
    "millimeter": "mm",
    "millimeters": "mm",
    "cm": "cm",
    "cms": "cm",
    "centimetre": "cm",
    "centimetres": "cm",
    "centimeter": "cm",
    "centimeters": "cm",
    "m": "m",
    "metre": "m",
    "metres": "m",
    "meter": "m",
    "meters": "m",
    "in": "in",
    "ins": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "″": "in",
    "”": "in",
    "''": "in",
    "ft": "ft",
    "foot": "ft",
    "feet": "ft",
    "'": "ft",
    "′": "ft",
    "’": "ft",
    "yd": "yd",
    "yds": "yd",
    "yard": "yd",
    "yards": "yd",
}

_VULGAR: Final[dict[str, str]] = {
    "½": "1/2",
    "⅓": "1/3",
    "⅔": "2/3",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⁄": "/",
}

_NUMBER = r"\d+[\s-]+\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d+(?:[.,]\d+)?|[.,]\d+"
_PART = re.compile(rf"\s*({_NUMBER})\s*-?\s*(''|[a-zA-Z]+|[\"″”'′’])?\.?")

GOOD_LENGTHS: Final = N_("write a number, or a length such as 34 1/2 in, 5 ft 6 in, 87.5 cm, 2.5 m or 3 yd")


_UNIT_SIGN = re.compile(r"[a-zA-Z\"'″′”’]")


HALVES: Final[Mapping[Unit, float]] = {"cm": 0.5, "in": 0.635}
"""What is rounded so that it is enough is told in half centimetres or quarter inches (cm)."""


def states_unit(text: str) -> bool:
    """Whether a length as written says its own unit, by a word or a mark."""
    return _UNIT_SIGN.search(text) is not None


def parse_length(text: object, unit: Unit = "cm", where: str = "") -> float:
    """A length in centimetres from a number (in ``unit``) or from text that may carry its own units.

    Raises BadInput with the reason.

    >>> parse_length("34 1/2 in")
    87.63
    >>> parse_length("5 ft 6 in")
    167.64
    >>> parse_length("1,68 m")
    168.0
    >>> parse_length(34.5, "in")
    87.63
    """
    if isinstance(text, bool) or not isinstance(text, (int, float, str)):
        raise BadInput(where, _("{text!r} is not a length", text=text), _(GOOD_LENGTHS))
    if isinstance(text, (int, float)):
        try:
            value = float(text)
        except OverflowError:
            value = math.inf
        if not math.isfinite(value):
            raise BadInput(where, _("{text!r} is not a finite number", text=text), _(GOOD_LENGTHS))
        return round(value * CM_PER[unit], 6)
    return _parse_text(text, unit, where)


def unit_named(word: str) -> LengthUnit | None:
    """The unit a word or mark stands for.

    >>> unit_named("Inches"), unit_named("″"), unit_named("ells")
    ('in', 'in', None)
    """
    return _UNIT_WORDS.get(word.strip().lower())


def _parse_text(text: str, unit: Unit, where: str) -> float:
    if len(text) > 60:
        raise BadInput(where, _("{text!r}… is too long to be a length", text=text[:20]), _(GOOD_LENGTHS))
    rest = text.strip()
    for mark, plain in _VULGAR.items():
        rest = rest.replace(mark, f" {plain}")
    rest = rest.strip()
    if rest.startswith("-"):
        raise BadInput(where, _("{text!r} is below nothing", text=text), _("give a length above 0"))
    total, previous = 0.0, math.inf
    if not rest:
        raise BadInput(where, _("nothing is written"), _(GOOD_LENGTHS))
    while rest:
        match = _PART.match(rest)
        if not match:
            raise BadInput(where, _("{text!r} is not a length", text=text), _(GOOD_LENGTHS))
        number, word = match.groups()
        scale = _scale(word, unit, previous, text, where)
        if scale >= previous:
            raise BadInput(where, _("{text!r} is not a length", text=text), _(GOOD_LENGTHS))
        total += _number(number, text, where) * scale
        previous = scale
        rest = rest[match.end() :].strip()
    if not math.isfinite(total):
        raise BadInput(where, _("{text!r} is not a finite number", text=text), _(GOOD_LENGTHS))
    return round(total, 6)


def _scale(word: str | None, unit: Unit, previous: float, text: str, where: str) -> float:
    if word is None:
        # 5' 6 means inches after feet, 1 m 68 centimetres after metres; alone a number is in the list's own unit
        return {CM_PER["ft"]: CM_PER["in"], CM_PER["m"]: CM_PER["cm"], math.inf: CM_PER[unit]}.get(previous, math.inf)
    name = unit_named(word)
    if name is None:
        raise BadInput(
            where, _("{text!r} has the unknown unit {word!r}", text=text, word=word), _("use mm, cm, m, in, ft or yd")
        )
    return CM_PER[name]


def _number(digits: str, text: str, where: str) -> float:
    digits = digits.replace(",", ".")
    if "/" not in digits:
        return float(digits)
    head, _slash, tail = digits.replace("/", " / ").rpartition(" / ")
    whole, _space, top = head.strip().replace("-", " ").rpartition(" ")
    if int(tail) == 0:
        raise BadInput(where, _("{text!r} divides by nothing", text=text), _(GOOD_LENGTHS))
    return int(whole.strip() or 0) + int(top) / int(tail)


def format_length(cm: float, unit: Unit = "cm", *, mark: bool = True) -> str:
    """A length for a person, in the language spoken: tenths of a centimetre, or inches with eighths.

    >>> format_length(87.63, "in")
    '34 1/2 in'
    >>> format_length(104.0)
    '104 cm'
    """
    if unit == "in":
        text = format_inches(cm)
    else:
        text = f"{round(cm + 0.0, 1):.1f}".removesuffix(".0")
        text = "0" if text == "-0" else text.replace(".", decimal_mark())
    return f"{text} {unit}" if mark else text


def decimal(value: float, places: int = 0) -> str:
    """A number for a person, in the language spoken, with so many places.

    >>> decimal(2.25, 1)
    '2.2'
    """
    return f"{value:.{places}f}".replace(".", decimal_mark())


def format_inches(cm: float, denominator: int = 8) -> str:
    """Inches as a whole and a fraction, to the nearest ``1/denominator``, without the unit."""
    eighths = round(cm / CM_PER["in"] * denominator)
    sign = "-" if eighths < 0 else ""
    whole, rest = divmod(abs(eighths), denominator)
    fraction = Fraction(rest, denominator)
    if not fraction:
        return f"{sign}{whole}"
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"


def round_up(value: float, grid: float) -> float:
    """The next mark of the chalk grid at or above ``value`` (a hair of slack for binary fractions)."""
    return round(math.ceil(value / grid - 1e-6) * grid, 6)


def round_near(value: float, grid: float) -> float:
    """The nearest mark of the chalk grid."""
    return round(math.floor(value / grid + 0.5) * grid, 6)
