"""Someone's measurements on a form: what was typed as a table, and what there is to say of it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from ellwand.depict import words
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.measure import RawWearer, check_human, doubts, estimate, read_raw
from ellwand.measure.raw import ALIASES, TRULY_SO, in_our_words
from ellwand.model.measurement import FIELDS, MEASUREMENTS
from ellwand.model.wearer import ARM_FIELDS, Measure
from ellwand.units import Unit, format_length, round_near
from ellwand.web.kept import apart

ABOUT: Final = ("name", "sex", "age", "unit")
ARMS: Final = tuple(ARM_FIELDS.values())
SPREAD: Final = 1.645
"""Nine of ten lie within so many standard deviations (of a Gaussian, both sides)."""
NEAREST: Final[Mapping[Unit, float]] = {"cm": 1.0, "in": 1.27}
"""An estimate is told to the nearest so many cm."""
KEYS: Final = re.compile(rf": confirmed = \[[^\]]*\]|\b({'|'.join(FIELDS)})\b")
"""What stands in sentences for those who write sheets."""


@dataclass(frozen=True, slots=True)
class Question:
    """A likely slip: why it is asked, and what would do."""

    why: str
    mend: str


@dataclass(frozen=True, slots=True)
class Answers:
    """What there is to say of fields (or 'unit', 'age', 'name'); ``sentence``: why the whole cannot be read.

    ``may_be_so``: what is wrong will do once it is confirmed.
    """

    likely: Mapping[str, str] = field(default_factory=dict)
    questions: Mapping[str, Sequence[Question]] = field(default_factory=dict)
    confirmed: frozenset[str] = frozenset()
    wrong: str = ""
    sentence: str = ""
    may_be_so: bool = False

    @property
    def said(self) -> str:
        """All of it in one line, for who listens."""
        if self.sentence:
            return self.sentence
        return " ".join(each.why for asked in self.questions.values() for each in asked)


def table_of(pairs: Sequence[tuple[str, str]]) -> dict[str, object]:
    """The [wearer] table of what was typed; what is empty is left out, and so is what nobody asked for.

    A whole list that is said to be so is confirmed field by field.

    >>> table_of([("name", " Hob "), ("height", "172"), ("confirmed", "height"), ("waist_girth", "")])
    {'name': 'Hob', 'height': '172', 'confirmed': ['height']}
    """
    table: dict[str, object] = {}
    for key, text in pairs:
        if key in (*ABOUT, *FIELDS, *ARMS) and text.strip():
            table[key] = text.strip()
    said = [text for key, text in pairs if key == "confirmed"]
    confirmed = [key for key in table if key in (*FIELDS, *ARMS) and (key in said or "unit" in said)]
    return {**table, "confirmed": confirmed} if confirmed else table


def of_form(table: Mapping[str, object]) -> dict[str, object]:
    """A table from elsewhere under the form's own keys, so that nothing of it is lost when the form is kept.

    Raises BadInput where it cannot be read, or is of a body that cannot be cut for.

    >>> of_form({"height": 172, "chest_girth": 99, "confirmed": "chest_girth"})
    {'height': 172, 'bust_girth': 99, 'confirmed': ['bust_girth']}
    """
    raw = read_raw(table)
    check_human(raw)
    own = {ALIASES.get(key, key): value for key, value in in_our_words(table).items() if key != "confirmed"}
    return {**own, "confirmed": sorted(raw.confirmed)} if raw.confirmed else own


def typed(table: Mapping[str, object]) -> dict[str, str]:
    """A table as it is shown in the form: numbers without needless places."""
    return {key: _text(value) for key, value in table.items() if key != "confirmed"}


def _text(value: object) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


def measured_apart(mine: Mapping[str, object], other: Mapping[str, object]) -> list[tuple[str, str, str]]:
    """What differs between two tables: what it is called, then as the other has it, then as mine has it."""
    return [(label_of(key), theirs, own) for key, own, theirs in apart(typed(mine), typed(other))]


def label_of(key: str) -> str:
    """What a key of the [wearer] table is called."""
    if key in MEASUREMENTS:
        return _(MEASUREMENTS[key].label)
    own = {"name": _("name"), "sex": _("cut for"), "age": _("age"), "unit": _("unit")}
    return own.get(key, key.replace("_", " "))


def answers(table: Mapping[str, object]) -> Answers:
    """Estimates of what is missing, and questions about what is unlikely; or what cannot be read."""
    confirmed = table.get("confirmed", [])
    sure = frozenset(map(str, confirmed)) if isinstance(confirmed, list) else frozenset()
    raw = None
    try:
        raw = read_raw(table)
        check_human(raw)
    except BadInput as error:
        place = error.where.rpartition(".")[2]
        may_be_so = raw is not None and _would_do(raw, place)
        return Answers(confirmed=sure, wrong=place, sentence=_said(error, place), may_be_so=may_be_so)
    found = doubts(raw)
    asked: dict[str, list[Question]] = {}
    for each in found:
        mend = _plainly(words.mend(each, raw.unit)) if each.subject != "unit" else _("Look at what it is measured in.")
        asked.setdefault(each.subject, []).append(Question(words.why(each, raw.unit), mend))
    wearer = estimate(raw, found)
    likely = {
        name: _between(measure, raw.unit)
        for name, measure in wearer.measures.items()
        if measure.source == "estimated" and name not in raw.values
    }
    return Answers(likely, asked, sure)


def _would_do(raw: RawWearer, place: str) -> bool:
    """Whether this value would be taken if the maker said that it is so."""
    try:
        check_human(replace(raw, confirmed=raw.confirmed | {place}))
    except BadInput as error:
        return error.where.rpartition(".")[2] != place
    return True


def _said(error: BadInput, place: str) -> str:
    """The sentence as it stands beside its field: without the field, and without what only a sheet needs."""
    name = "arm_length" if place in ARMS else place
    mend = error.mend.removesuffix(_(TRULY_SO, cause="", name=name))
    sentence = str(BadInput("" if place in (*ABOUT, *FIELDS, *ARMS) else error.where, error.problem, mend))
    sentence = _plainly(sentence)
    return sentence[:1].upper() + sentence[1:]


def _plainly(sentence: str) -> str:
    """The sentence without a sheet's keys: a box is ticked instead, and measurements go by their names."""
    return KEYS.sub(lambda found: _(MEASUREMENTS[found[1]].label) if found[1] else "", sentence)


def _between(measure: Measure, unit: Unit) -> str:
    low, high = (
        format_length(round_near(measure.value + way * SPREAD * measure.sd, NEAREST[unit]), unit, mark=mark)
        for way, mark in ((-1, False), (1, True))
    )
    return _("likely {low} to {high}", low=low, high=high)
