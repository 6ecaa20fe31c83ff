"""What is found is said in the catalogue's words: in a made-up language no English is left but what is data."""

from __future__ import annotations

import re
from collections.abc import Iterator
from gettext import NullTranslations
from typing import Any, get_args

import pytest

from ellwand import language
from ellwand.adorn import adorn
from ellwand.adorn.closures.closings import KINDS
from ellwand.depict import words
from ellwand.depict.words.closings import closing, to_buy
from ellwand.depict.words.evidence_names import EVIDENCE_NAMES
from ellwand.depict.words.freedom import CHANGES, LIMITS, changes_said, to_write
from ellwand.depict.words.pace import hours_said, whose_pace
from ellwand.language import speaking
from ellwand.model.choices import GorePlace, Sewing
from ellwand.model.finding import Finding
from ellwand.model.freedom import Change
from ellwand.model.measurement import MEASUREMENTS
from ellwand.prove import cautions, prove
from ellwand.prove.evidence import collected
from proving_specimens import drafted, wide_sample

DATA = re.compile(
    r'[a-z_.]+ = ("[^"]*"|\[[^\]]*\]|\d+|true|false)|\[[a-z.]+\]|"[^"]*"|\bgarment(\.[a-z_]+)+|\b[a-z]+(\.[a-z_]+)+'
    r"|\b[a-z]+_[a-z_]+|\bEN 14682|16 CFR 1120|\b(cm|in|mm|min|kg|main|centre-front|centre-back)\b"
)
"""Keys of the sheet and their values, names of standards and units, the name of a cloth."""


class Spelled(NullTranslations):
    """Every word of a message in letters that no English word has; what stands in braces stays."""

    def gettext(self, message: str) -> str:
        return "".join(part if part.startswith("{") else spelled(part) for part in re.split(r"(\{[^}]*\})", message))

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)


def spelled(text: str) -> str:
    """Code within a message stays as well."""
    kept = [(match.start(), match.end()) for match in DATA.finditer(text)]
    return "".join(
        "ж" if char.isalpha() and not any(low <= i < high for low, high in kept) else char
        for i, char in enumerate(text)
    )


@pytest.fixture
def spelling(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setattr(language, "_catalogue", lambda name: Spelled())
    with speaking("de"):
        yield


def english(text: str) -> list[str]:
    """Words that are still in plain letters."""
    return re.findall(r"[A-Za-z]{2,}", DATA.sub("", text))


@pytest.mark.usefixtures("spelling")
def test_no_english_is_left_in_what_is_found() -> None:
    left = set()
    for draft, wearer in wide_sample():
        for finding in prove(draft, wearer).findings:
            for text in (words.why(finding, "cm"), words.mend(finding, "cm")):
                left |= {f"{finding.code}: {text}" for _ in english(text)}
        for each in cautions(draft, wearer):
            left |= {words.caution(each, "cm") for _ in english(words.caution(each, "cm"))}
    assert left == set()


@pytest.mark.usefixtures("spelling")
@pytest.mark.parametrize("by", list(KINDS))
@pytest.mark.parametrize("at", ["neck slit", "cuffs", "centre-front", "side"])
def test_no_english_is_left_in_closures(by: str, at: str) -> None:
    garment: dict[str, Any] = {"body": {"shoulder": "seam"}, "sleeve": {"shape": "fitted forearm"}}
    draft = adorn(drafted({**garment, "closures": [{"at": at, "by": by}]})[0])
    for each in draft.closings:
        assert english(closing(each, "cm") + to_buy(each, "in")) == []


@pytest.mark.usefixtures("spelling")
def test_no_english_is_left_in_changes_and_hours() -> None:
    changes = [Change(code, where, 40.0) for code in CHANGES for where in get_args(GorePlace)]
    assert english(changes_said(changes, "cm") + to_write(changes, "cm")) == []
    assert set(LIMITS) == set(get_args(words.freedom.Limit))
    for by in ("hand", "machine"):
        sewing = Sewing(by=by)
        assert english(hours_said((2.0, 5.0), sewing) + whose_pace(sewing)) == []


@pytest.mark.usefixtures("spelling")
def test_no_english_is_left_in_period_hints() -> None:
    for choice, values in collected().rows.items():
        for value, rows in values.items():
            if value.startswith("by "):
                value = f"centre-back {value}"
            told: dict[str, float | str] = {"choice": choice, "value": value, "date": 1300.0, "region": "Europe"}
            for row in rows:
                named = {"standing": row.standing, "source": row.source, "place": row.region, "remark": row.remark}
                said: dict[str, float | str] = {**told, **named, "from": 1200.0, "to": 1400.0, "instead": ""}
                for code in ("period", "period-abroad", "period-unknown"):
                    assert english(words.why(Finding(code, "x", "look again", values=said), "cm")) == []
            bare = Finding("period-unknown", "x", "look again", values={**told, "source": "", "instead": ""})
            assert english(words.why(bare, "cm")) == []
            assert english(words.mend(bare, "cm")) == []


def test_every_name_of_the_evidence_can_be_translated() -> None:
    all_ = collected()
    rows = [row for values in all_.rows.values() for found in values.values() for row in found]
    told = {text for row in rows for text in (row.standing, row.region, row.source, row.remark)} | set(all_.within)
    assert told - {""} <= EVIDENCE_NAMES


@pytest.mark.usefixtures("spelling")
@pytest.mark.parametrize("code", ["slip-digits", "slip-decimal", "slip-unlike"])
def test_no_english_is_left_in_questions(code: str) -> None:
    for field in MEASUREMENTS:
        finding = Finding(code, field, "look again", 50.0, 60.0, values={"child": "yes"})
        assert english((words.why(finding, "cm") + words.mend(finding, "cm")).replace(field, "")) == []
