"""No sign comes as a box: what our fonts do not hold is written in Latin letters."""

from __future__ import annotations

import io

import pdfplumber
from hypothesis import given, settings
from hypothesis import strategies as st

from ellwand.publish.letters import cut_short, letters, spelled
from ellwand.publish.typst_text import FONT, compile_pdf, words


def test_what_the_font_holds_stays_as_it_is() -> None:
    for name in ("Joan Netmaker", "Åsa Øvergård", "Zoë Ďábel", "Εὐδοκία".replace("ὐ", "ύ"), "Ярослава", "½ ″ “”"):
        assert spelled(name) == name


def test_other_scripts_come_in_latin_letters() -> None:
    # the Unicode Consortium's own names of these signs: CJK 王 wáng, Arabic م meem, Hangul 김 gim
    assert spelled("王") == "Wang"
    assert spelled("김").lower().startswith(("gim", "kim"))
    assert spelled("م").lower() == "m"


def test_marks_are_joined_to_their_letters() -> None:
    assert spelled("Zoe\N{COMBINING DIAERESIS}") == "Zoë"


@settings(max_examples=200, deadline=None)
@given(st.text(st.characters(exclude_categories=("Cs", "Cn", "Co")), max_size=30))
def test_all_that_is_left_can_be_set(text: str) -> None:
    assert {ord(sign) for sign in spelled(text)} <= letters() | {ord(" ")}


def test_the_paper_has_our_sans_alone() -> None:
    """Read by pdfplumber: no machine's own font, no missing sign (which is glyph 0, a box)."""
    name = "محمد 漢字 नमस्ते Ōtsuka 김 Ярослава"
    pdf = compile_pdf(f'#set text(font: "{FONT}")\n#{words(name)}')
    with pdfplumber.open(io.BytesIO(pdf)) as read:
        chars = read.pages[0].chars
    assert {char["fontname"].split("+")[-1].split("-")[0] for char in chars} == {"SourceSansPro"}
    assert "".join(char["text"] for char in chars).replace(" ", "") == spelled(name).replace(" ", "")


@settings(max_examples=100, deadline=None)
@given(st.text(st.characters(exclude_categories=("Cs", "Cn", "Co")), max_size=90))
def test_a_long_name_is_cut_as_it_will_be_spelled(text: str) -> None:
    cut = cut_short(text, 40)
    assert len(spelled(cut)) <= 40
    assert cut == text or cut.endswith("…")
    assert text.startswith(cut.removesuffix("…")) or cut == text
