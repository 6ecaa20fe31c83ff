"""The card read back with pdfplumber (pdfminer), which shares no code with what wrote it."""

from __future__ import annotations

import io
import itertools
from dataclasses import replace

import pdfplumber
import pytest
from card_specimens import KINDS, garment

from ellwand.depict import words
from ellwand.depict.sizes import extent, marks
from ellwand.publish import card_pdf
from ellwand.units import format_length

HOSTILE = (
    '<script>alert(1)</script> & "quoted"',
    '"; #panic("no") // \\ `$x$`',
    "] #x [ *bold* _low_ @ref <label>",
    "مريم بنت حسن",
    "織工 李",
    "x" * 400,
    "a\x00b\nc\u202ed\ud800",
    "",
)


def read(data: bytes) -> list[pdfplumber.page.Page]:
    return pdfplumber.open(io.BytesIO(data)).pages


def is_level(item: dict[str, object]) -> bool:
    """No letter that is written along a slanted or upright edge."""
    matrix = item.get("matrix")
    return not isinstance(matrix, tuple) or abs(matrix[1]) < 1e-6


def text_of(pages: list[pdfplumber.page.Page]) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in pages).replace("\u00a0", " ")


@pytest.mark.parametrize("kind", KINDS)
def test_the_card_says_everything(kind: str) -> None:
    made = garment(kind)
    pages = read(card_pdf(made))
    unit = made.wearer.unit
    said = text_of(pages)
    assert 2 <= len(pages) <= 3
    assert made.wearer.name in said
    upright = "".join(c["text"] for page in pages for c in page.chars)
    for piece in made.draft.pieces:
        assert piece.name in said
        size = extent(piece)
        wide = max(x for x, _ in piece.cut) - min(x for x, _ in piece.cut)
        for value in (wide, size.height, size.bottom_width, *(m.distance for m in marks(piece) if not m.on_top)):
            assert format_length(value, unit, mark=False) in upright.replace("\u00a0", " ")
    for step in made.steps:
        assert " ".join(words.step(step, made.draft, unit).split()[:3]) in said
    for finding in made.proof.findings:
        if finding.outcome != "sound":
            assert finding.outcome in said
    assert format_length(made.lays[0].buy_length, unit) in said


@pytest.mark.parametrize(("kind", "size"), [("tunic", (595.28, 841.89)), ("inches", (612.0, 792.0))])
def test_paper_is_a4_or_letter(kind: str, size: tuple[float, float]) -> None:
    # ISO 216 A4 = 210 mm × 297 mm; ANSI Letter = 8.5 in × 11 in; PDF points of 1/72 in
    for page in read(card_pdf(garment(kind))):
        assert (float(page.width), float(page.height)) == pytest.approx(size, abs=0.02)


def test_inches_stand_as_fractions() -> None:
    said = text_of(read(card_pdf(garment("inches"))))
    assert "22 1/2" in said
    assert "5/8 in" in said


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_lies_outside_the_page_or_on_other_words(kind: str) -> None:
    for page in read(card_pdf(garment(kind))):
        found = page.extract_words(keep_blank_chars=True, x_tolerance=2)
        for word in found:
            assert word["x0"] >= 0 and word["x1"] <= page.width and word["top"] >= 0 and word["bottom"] <= page.height
        level = page.filter(is_level).extract_words(keep_blank_chars=True, x_tolerance=2)
        for a, b in itertools.combinations(level, 2):
            across = min(a["x1"], b["x1"]) - max(a["x0"], b["x0"])
            # the boxes hold ascenders and descenders: two lines set close may share a quarter of them
            down = min(a["bottom"], b["bottom"]) - max(a["top"], b["top"])
            least = min(a["bottom"] - a["top"], b["bottom"] - b["top"])
            assert across < 1.5 or down < 0.45 * least, (a["text"], b["text"])


def test_no_text_is_smaller_than_eight_points() -> None:
    for page in read(card_pdf(garment("gown"))):
        assert min(round(c["size"], 2) for c in page.chars if is_level(c)) >= 8.0


def test_the_same_garment_gives_the_same_bytes() -> None:
    made = garment("child")
    assert card_pdf(made) == card_pdf(made)


@pytest.mark.parametrize("name", HOSTILE)
def test_any_name_can_be_printed(name: str) -> None:
    made = garment("child")
    hostile = replace(made, wearer=replace(made.wearer, name=name), title=name)
    pages = read(card_pdf(hostile))
    assert 2 <= len(pages) <= 3
    if name.isascii() and 0 < len(name) < 40 and "\x00" not in name:
        assert name in text_of(pages)
