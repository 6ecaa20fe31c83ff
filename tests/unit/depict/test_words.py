"""Every finding and caution has words, in either unit."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from ellwand.depict import words
from ellwand.depict.words.cautions import CAUTIONS
from ellwand.depict.words.findings import WHY
from ellwand.depict.words.mends import MEND
from ellwand.errors import InternalFault
from ellwand.model.finding import Caution, Finding
from ellwand.prove import cautions, prove
from ellwand.units import Unit
from proving_specimens import drafted, wide_sample

SOURCE = Path(words.__file__).parents[2]


def reads_well(sentence: str) -> bool:
    plain = sentence == "" or (sentence[0].isupper() and sentence.endswith("."))
    return plain and len(sentence) <= 220 and not re.search(r"[{}]|\bnan\b|None|\binf\b", sentence)


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_everything_found_on_a_wide_sample_has_words(unit: Unit) -> None:
    for draft, wearer in wide_sample():
        for finding in prove(draft, wearer).findings:
            why, mend = words.why(finding, unit), words.mend(finding, unit)
            assert why and reads_well(why), why
            assert reads_well(mend), mend
            assert not (mend and finding.outcome == "sound")
        for each in cautions(draft, wearer):
            assert reads_well(words.caution(each, unit)), words.caution(each, unit)


def test_every_code_in_the_source_has_words() -> None:
    text = "\n".join(path.read_text("utf-8") for room in ("prove", "drape") for path in (SOURCE / room).glob("*.py"))
    notes = "\n".join(path.read_text("utf-8") for path in (SOURCE / "draft").glob("*.py"))
    findings = set(re.findall(r'(?:Finding|_found|_bad_seam)\(\s*"([a-z-]+)"', text)) | {"cuff", "cuff-opened"}
    noted = set(re.findall(r'Note\(\s*"([a-z-]+)"', notes)) - {"head-estimated"}
    assert findings | noted == set(WHY)
    warned = set(re.findall(r'Caution\(\s*"([a-z-]+)"', text)) | {"child-neck-ends", "trailing-hem", "riding"}
    assert warned == set(CAUTIONS)
    assert set(MEND) <= set(WHY)


def test_lengths_are_in_the_makers_unit() -> None:
    draft, wearer = drafted({})
    finding = next(f for f in prove(draft, wearer).findings if (f.code, f.subject) == ("fits", "bust"))
    assert "cm" in words.why(finding, "cm") and " in" not in words.why(finding, "cm").replace(" in ", "")
    assert "37 3/4 in of body" in words.why(finding, "in")


def test_a_code_without_words_is_a_fault_of_ours() -> None:
    with pytest.raises(InternalFault, match="no words for nonsense"):
        words.why(Finding("nonsense", "", "sound"), "cm")
    with pytest.raises(InternalFault, match="no words for nonsense"):
        words.caution(Caution("nonsense"), "cm")
