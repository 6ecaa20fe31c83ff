"""What the label of a column or row of measurements means.

Labels are looked up in plain tables, never guessed at: a label that is not known is no label.  The words are
the terms and labels of ``model.measurement`` and what people write instead (common practice, no source).
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, Literal

from ellwand.model.measurement import MEASUREMENTS
from ellwand.model.wearer import ARM_FIELDS
from ellwand.units import LengthUnit, unit_named

AgeUnit = Literal["years", "months"]


@dataclass(frozen=True, slots=True)
class Heading:
    """A key of the ``[wearer]`` table (or ``first_name``, ``last_name``), and the unit the label gives its cells."""

    field: str
    unit: LengthUnit | AgeUnit | None = None

    @property
    def is_length(self) -> bool:
        """Whether its cells are lengths."""
        return self.field in LENGTHS


LENGTHS: Final = (*MEASUREMENTS, *ARM_FIELDS.values())
"""The keys of the ``[wearer]`` table that hold a length."""

PEOPLE: Final = (
    "wearer, person, people, pupil, student, participant, child, member, performer, player, actor, actress, cast member"
)

SYNONYMS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "height": "tall, how tall, body height, full height, total height, standing height",
        "bust_girth": "chest, bust, bust chest, chest bust, bust girth, chest girth, full bust, full chest, chest size",
        "waist_girth": "waist, natural waist, waist size",
        "belly_girth": "tummy, stomach, navel, abdomen, abdominal girth, belly button",
        "hip_girth": "hip, seat, full hip, hip seat",
        "shoulder_girth": "round shoulder",
        "across_shoulder": "shoulder, across shoulder, across back shoulder, back shoulder, shoulder breadth,"
        " back shoulder width, shoulder shoulder",
        "neck_girth": "neck, neck size, collar, collar size",
        "neck_base_girth": "neck base, base neck, neckline",
        "head_girth": "head, hat, hat size, head size",
        "arm_length": "arm, sleeve, sleeve length, outer arm, shoulder wrist",
        "upper_arm_girth": "upper arm, bicep, arm girth",
        "wrist_girth": "wrist",
        "hand_girth": "hand, knuckle, fist",
        "nape_to_waist": "back length, back waist, back waist length, nape waist length, back neck waist,"
        " centre back, centre back length, centre back waist",
        "scye_depth": "scye, armscye depth, armhole depth, nape scye",
        "nape_to_floor": "back neck floor, back neck height, cervicale height, cervicale, nape height",
        "waist_to_floor": "waist height",
        "hip_to_floor": "hip height",
        "crotch_to_floor": "inside leg, inside leg length, inner leg, inner leg length, inseam, inseam length,"
        " inleg, crotch height",
        "knee_to_floor": "knee height",
        "thigh_girth": "thigh, upper leg girth",
        "calf_girth": "calf, calve",
        "foot_girth": "foot, ball foot, feet",
        "name": f"full name, fullname, who, {PEOPLE}, {PEOPLE.replace(',', ' name,')} name",
        "first_name": "first name, firstname, forename, given name, christian name",
        "last_name": "last name, lastname, surname, family name",
        "sex": "gender, sex gender, gender sex, m f, f m, sex m f, sex f m, gender m f, gender f m",
        "age": "years, age years",
        "unit": "cm in, in cm, cm or in, in or cm",
        "confirmed": "confirm",
    }
)
"""What people write for each field, singular and without the words that carry no meaning here."""

SPELLINGS: Final = {"center": "centre", "underarm": "armpit"}
SILENT: Final = frozenset({"the", "of", "a", "your", "my", "to", "from", "at"})
ROUND: Final = frozenset({"girth", "circumference", "circ", "round", "around"})
LAST: Final = frozenset({"measurement", "measure"})
REMARKS: Final = (
    ("without", "shoe"),
    ("no", "shoe"),
    ("barefoot",),
    ("fullest", "part"),
    ("fullest",),
    ("widest", "part"),
    ("widest",),
    ("natural",),
    ("women",),
    ("men",),
    ("optional",),
    ("required",),
)
AGE_UNITS: Final[Mapping[str, AgeUnit]] = MappingProxyType(
    {
        **dict.fromkeys(("y", "yr", "yrs", "year", "years"), "years"),
        **dict.fromkeys(("mo", "mth", "mths", "month", "months"), "months"),
    }
)
FEET_AND_INCHES: Final = re.compile(r"(?:ft|feet|foot|'|′|’) (?:and )?(?:in|ins|inch|inches|\"|″|”|'')")
BRACKETS: Final = re.compile(r"[(\[{]([^()\[\]{}]*)[)\]}]")
TOKEN: Final = re.compile(r"''|[\"″”'′’]|[^\W_]+")
AN_AGE: Final = re.compile(r"\d+\s*[a-z]+", re.IGNORECASE)
LONGEST: Final = 100


def heading(text: str) -> Heading | None:
    """What a label means, or None when it is not known; never an error.

    >>> heading("12. Chest circumference (in)")
    Heading(field='bust_girth', unit='in')
    >>> heading("Inside leg, cm")
    Heading(field='crotch_to_floor', unit='cm')
    >>> heading("bust_girt") is None
    True
    """
    if len(text) > LONGEST or AN_AGE.fullmatch(text.strip()):
        return None
    for bracket in BRACKETS.finditer(text):
        unit = _unit(_tokens(bracket[1]))
        if unit:
            return _found(_tokens(f"{text[: bracket.start()]} {text[bracket.end() :]}"), unit)
    tokens = _tokens(text)
    known = _found(tokens, None)
    if known:
        return known
    for last in range(min(4, len(tokens) - 1), 0, -1):
        unit = _unit(tokens[-last:])
        known = _found(tokens[:-last], unit) if unit else None
        if known:
            return known
    return None


def _tokens(text: str) -> list[str]:
    """Words in lower case and unit marks; 'waistGirth' is two words, and the s of 'pupil's' is none."""
    parted = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", text).lower()
    return TOKEN.findall(re.sub(r"(?<=[a-z])['’](?!['’])(?:s\b)?", "", parted))


def _unit(tokens: Sequence[str]) -> LengthUnit | AgeUnit | None:
    if len(tokens) > 1 and tokens[0] == "in":
        tokens = tokens[1:]
    phrase = " ".join(tokens)
    if FEET_AND_INCHES.fullmatch(phrase):
        return "ft"
    return unit_named(phrase) or AGE_UNITS.get(phrase)


def _found(tokens: Sequence[str], unit: LengthUnit | AgeUnit | None) -> Heading | None:
    field = _field(_plain(tokens))
    if field is None:
        return None
    takes_unit = field == "age" if unit in AGE_UNITS.values() else field in LENGTHS
    return Heading(field, unit) if unit is None or takes_unit else None


def _plain(tokens: Sequence[str]) -> list[str]:
    """Singular words without leading numbers, closing remarks and words that carry no meaning."""
    first = next((n for n, token in enumerate(tokens) if not token.isdigit()), len(tokens))
    words = [_singular(SPELLINGS.get(word, word)) for word in tokens[first:] if word not in SILENT]
    if len(words) > 1 and words[-1] in LAST:
        words = words[:-1]
    for remark in REMARKS:
        if len(words) > len(remark) and tuple(words[-len(remark) :]) == remark:
            words = words[: -len(remark)]
    return words


def _singular(word: str) -> str:
    """Without its plural s; but 'years' is an age, and 'year' may be a class at school."""
    if word == "years":
        return word
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def _field(words: list[str]) -> str | None:
    for hand, field in ARM_FIELDS.items():
        if hand in words:
            rest = [word for word in words if word != hand]
            return field if _known(rest) == "arm_length" else None
    return _known(words)


def _known(words: list[str]) -> str | None:
    key, stem = _key(words)
    field = _TABLE.get(key)
    if field is None and key != stem:
        field = _TABLE.get(stem)
        return field if field and field in MEASUREMENTS and MEASUREMENTS[field].kind == "girth" else None
    return field


def _key(words: list[str]) -> tuple[str, str]:
    """What to look up: the words with every 'round', 'around', 'circumference' as a closing 'girth'; and without."""
    core = list(words)
    while core and core[0] in ROUND:
        core.pop(0)
    while core and core[-1] in ROUND:
        core.pop()
    stem = " ".join(core)
    return (stem if len(core) == len(words) else f"{stem} girth"), stem


def _table() -> dict[str, str]:
    table: dict[str, str] = {}
    for field, written in SYNONYMS.items():
        said = MEASUREMENTS.get(field)
        own = [said.label, said.term] if said else []
        for text in (field, *own, *written.split(", ")):
            table.setdefault(_key(_plain(_tokens(text)))[0], field)
    return table


_TABLE: Final[Mapping[str, str]] = MappingProxyType({key: field for key, field in _table().items() if key})
