"""Someone's measurements on a form: what was typed as a table, and what there is to say of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from ellwand.depict import words
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.measure import check_human, doubts, estimate, read_raw
from ellwand.model.measurement import FIELDS
from ellwand.model.wearer import ARM_FIELDS, Measure
from ellwand.units import Unit, format_length, round_near

ABOUT: Final = ("name", "sex", "age", "unit")
ARMS: Final = tuple(ARM_FIELDS.values())
SPREAD: Final = 1.645
"""Nine of ten lie within so many standard deviations (of a Gaussian, both sides)."""
NEAREST: Final[Mapping[Unit, float]] = {"cm": 1.0, "in": 1.27}
"""An estimate is told to the nearest so many cm."""


@dataclass(frozen=True, slots=True)
class Question:
    """A likely slip: why it is asked, and what would do."""

    why: str
    mend: str


@dataclass(frozen=True, slots=True)
class Answers:
    """What there is to say of fields (or 'unit', 'age', 'name'); ``sentence``: why the whole cannot be read."""

    likely: Mapping[str, str] = field(default_factory=dict)
    questions: Mapping[str, Sequence[Question]] = field(default_factory=dict)
    confirmed: frozenset[str] = frozenset()
    wrong: str = ""
    sentence: str = ""

    @property
    def said(self) -> str:
        """All of it in one line, for who listens."""
        if self.sentence:
            return self.sentence
        return " ".join(each.why for asked in self.questions.values() for each in asked)


def table_of(pairs: Sequence[tuple[str, str]]) -> dict[str, object]:
    """The [wearer] table of what was typed; what is empty is left out, and so is what nobody asked for.

    >>> table_of([("name", " Hob "), ("height", "172"), ("confirmed", "height"), ("waist_girth", "")])
    {'name': 'Hob', 'height': '172', 'confirmed': ['height']}
    """
    table: dict[str, object] = {}
    for key, text in pairs:
        if key in (*ABOUT, *FIELDS, *ARMS) and text.strip():
            table[key] = text.strip()
    confirmed = [text for key, text in pairs if key == "confirmed" and text in table]
    return {**table, "confirmed": confirmed} if confirmed else table


def typed(table: Mapping[str, object]) -> dict[str, str]:
    """A table as it is shown in the form: numbers without needless places."""
    return {key: _text(value) for key, value in table.items() if key != "confirmed"}


def _text(value: object) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


def answers(table: Mapping[str, object]) -> Answers:
    """Estimates of what is missing, and questions about what is unlikely; or what cannot be read."""
    confirmed = table.get("confirmed", [])
    sure = frozenset(map(str, confirmed)) if isinstance(confirmed, list) else frozenset()
    try:
        raw = read_raw(table)
        check_human(raw)
    except BadInput as error:
        place = error.where.rpartition(".")[2]
        return Answers(confirmed=sure, wrong=place, sentence=_of_form(error, place))
    found = doubts(raw)
    asked: dict[str, list[Question]] = {}
    for each in found:
        asked.setdefault(each.subject, []).append(Question(words.why(each, raw.unit), words.mend(each, raw.unit)))
    wearer = estimate(raw, found)
    likely = {
        name: _between(measure, raw.unit)
        for name, measure in wearer.measures.items()
        if measure.source == "estimated" and name not in raw.values
    }
    return Answers(likely, asked, sure)


def _of_form(error: BadInput, place: str) -> str:
    """The sentence without the place where it is told beside that."""
    sentence = str(BadInput("" if place in (*ABOUT, *FIELDS, *ARMS) else error.where, error.problem, error.mend))
    return sentence[:1].upper() + sentence[1:]


def _between(measure: Measure, unit: Unit) -> str:
    low, high = (
        format_length(round_near(measure.value + way * SPREAD * measure.sd, NEAREST[unit]), unit, mark=mark)
        for way, mark in ((-1, False), (1, True))
    )
    return _("likely {low} to {high}", low=low, high=high)
