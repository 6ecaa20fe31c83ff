"""The workbook: complete, readable by ear (PDF/UA-1), nothing over an edge or on anything else, and its booklet."""

from __future__ import annotations

import io
import itertools
import re
from dataclasses import replace
from functools import cache
from importlib import resources
from typing import Any

import pikepdf
import pypdfium2
import pytest

from ellwand.language import speaking
from ellwand.loading import load_sheet
from ellwand.model.garment import Garment
from ellwand.pipeline import make
from ellwand.publish.workbook import booklet_pdf, workbook_pdf
from ellwand.publish.workbook.binding import sides
from printed import fonts, letters, on_each_other, outside, pages
from sheets import JOAN, sheet

EXAMPLES = ("joan-netmaker", "piers-ferryman", "wat-lanternboy", "ailith-saltpan", "hob-tallyman")
LONG = "Wilhelmine von der Hohen Brücke über dem Salzwasser zu Oberunterwald"
INCHES = {"name": "Sam Ropewalk", "unit": "in", "height": "5 ft 6 in", "bust_girth": 40, "head_girth": "22 1/2 in"}
OWN: dict[str, tuple[dict[str, Any], dict[str, Any]]] = {
    "hood": ({"style": "hood", "date": 1300}, {}),
    "coif": ({"style": "coif"}, {"wearer": INCHES}),
    "breeches": ({"style": "breeches"}, {}),
    "apron": ({"style": "apron"}, {}),
    "long name": ({"style": "riding surcote", "date": 1320}, {"wearer": {**JOAN, "name": LONG}}),
    "many": (
        {"style": "wide-sleeved gown", "division": {"by": "chequy", "tinctures": ["or", "azure"], "count": 3}},
        {},
    ),
    "torn": ({"style": "tunic", "bands": [{"at": "hem", "width": 3}]}, {"cloth": {"cut": "torn"}}),
    "inches": ({"style": "gored gown", "train": 60}, {"wearer": INCHES}),
}
LOOKED_AT = ("joan-netmaker", "ailith-saltpan", "hob-tallyman", "hood", "long name", "many", "inches")
SOME = ("joan-netmaker", "hob-tallyman", "torn")
"""Their structure is read: in the rest it is made by the same lines."""


@cache
def made(kind: str) -> Garment:
    if kind in EXAMPLES:
        return make(load_sheet(resources.files("ellwand.examples") / f"{kind}.toml"), seconds=0)
    garment, rest = OWN[kind]
    return make(sheet(garment, **rest), seconds=0)


@cache
def book(kind: str) -> bytes:
    return workbook_pdf(made(kind))


@cache
def texts(data: bytes) -> list[str]:
    """The text of every page, by PDFium, which is quick."""
    return [re.sub(r"\s+", " ", page.get_textpage().get_text_bounded()) for page in pypdfium2.PdfDocument(data)]


def text_of(data: bytes) -> str:
    return " ".join(texts(data))


@pytest.mark.parametrize("kind", LOOKED_AT)
def test_nothing_over_an_edge_or_on_each_other(kind: str) -> None:
    for page in pages(book(kind)):
        found = letters(page)
        assert not outside(page, found)
        assert not list(on_each_other(found)), page.page_number


def test_many_pieces_are_many() -> None:
    assert len(made("many").draft.pieces) >= 30


@pytest.mark.parametrize("kind", ("joan-netmaker", "hood"))
def test_the_same_bytes_each_time(kind: str) -> None:
    assert workbook_pdf(made(kind)) == book(kind)


# --- for who reads by ear: ISO 14289-1 (PDF/UA-1), as far as pikepdf lets it be read ---------------------------


@pytest.mark.parametrize("kind", SOME)
def test_is_marked_for_all(kind: str) -> None:
    """7.1: tagged, a title that is shown, the identifier of the standard; 7.2: a language; 7.21: fonts embedded."""
    with pikepdf.open(io.BytesIO(book(kind))) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert not pdf.Root.MarkInfo.get("/Suspects", False)
        assert str(pdf.Root.Lang) == "en"
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        with pdf.open_metadata() as about:
            assert about["pdfuaid:part"] == "1"
            assert about["dc:title"].startswith("Workbook")
        for page in pdf.pages:
            assert "/StructParents" in page
            if "/Annots" in page:
                assert page.Tabs == "/S"
        assert "/Outlines" in pdf.Root
    assert set(fonts(book(kind)).values()) == {True}
    assert all(name.startswith(("LibertinusSerif", "SourceSansPro")) for name in fonts(book(kind)))


@pytest.mark.parametrize("kind", SOME)
def test_all_that_is_drawn_is_tagged(kind: str) -> None:
    """7.1: every mark on a page is tagged content or an artifact; 7.21.7: letters can be read as Unicode."""
    with pikepdf.open(io.BytesIO(book(kind))) as pdf:
        for page in pdf.pages:
            assert not list(unmarked(page))
        unicode_of = [
            "/ToUnicode" in font for page in pdf.pages for font in dict(page.Resources.get("/Font", {})).values()
        ]
        assert all(unicode_of) and unicode_of


SHOWN = {"Tj", "TJ", "'", '"', "f", "F", "f*", "S", "s", "B", "B*", "b", "b*", "Do", "sh", "BI"}


def unmarked(page: pikepdf.Page) -> list[str]:
    """What shows outside any marked content."""
    deep, out = 0, []
    for _operands, operator in pikepdf.parse_content_stream(page):
        name = str(operator)
        deep += name in ("BMC", "BDC")
        deep -= name == "EMC"
        if name in SHOWN and not deep:
            out.append(name)
    return out


def elements(node: Any, role: str = "") -> list[tuple[str, Any]]:
    """Every structure element below a node with its role, in the order of reading."""
    if isinstance(node, pikepdf.Array):
        return [each for child in node for each in elements(child)]
    if not isinstance(node, pikepdf.Dictionary) or "/S" not in node:
        return []
    return [(str(node.S)[1:], node), *elements(node.get("/K", pikepdf.Array()))]


@pytest.mark.parametrize("kind", SOME)
def test_structure_reads_in_order(kind: str) -> None:
    """7.3: figures have words for them; 7.4: headings skip no level; 7.5: tables have heads; 7.18: links are tagged."""
    with pikepdf.open(io.BytesIO(book(kind))) as pdf:
        found = elements(pdf.Root.StructTreeRoot.K)
        roles = [role for role, _ in found]
        assert roles[0] == "Document"
        figures = [node for role, node in found if role == "Figure"]
        assert len(figures) >= 4 + len(made(kind).steps)
        assert all(len(str(node.get("/Alt", ""))) > 10 for node in figures)
        levels = [int(role[1]) for role in roles if re.fullmatch(r"H\d", role)]
        assert levels[0] == 1
        assert all(b <= a + 1 for a, b in itertools.pairwise(levels))
        assert {"TOC", "TOCI", "Caption", "Table", "TH", "TD"} <= set(roles)
        for role, node in found:
            if role == "Table":
                assert any(r == "TH" for r, _ in elements(node))
        links = sum(
            annotation.Subtype == "/Link" for page in pdf.pages for annotation in page.get("/Annots", pikepdf.Array())
        )
        assert links and links <= sum("OBJR" in str(node.get("/K", "")) for role, node in found if role == "Link") * 2


# --- what it says ----------------------------------------------------------------------------------------------


def test_contents_and_references_lead_to_their_pages() -> None:
    """Pages are counted by PDFium, not by the typesetter."""
    printed = texts(book("joan-netmaker"))
    listed = re.findall(r"([A-Z][\w ,]+?) ?(?:\. ?){5,}(\d+)", printed[1].removeprefix("Contents "))
    assert len(listed) == 10
    for title, number in listed:
        assert title.strip() in printed[int(number) - 1]
    whole = " ".join(printed)
    for step, number in re.findall(r"first sewn in step (\d+), page (\d+)", whole):
        assert f"Step {step}:" in printed[int(number) - 1]
    for step, number in re.findall(r"step (\d+) \(page (\d+)\)", whole):
        assert f"Step {step}:" in printed[int(number) - 1]
    glossary = re.search(r"The glossary on page (\d+)", whole)
    assert glossary and "Glossary" in printed[int(glossary[1]) - 1]


def test_figures_are_numbered_without_gaps() -> None:
    numbers = [int(n) for n in re.findall(r"Figure (\d+)\. ", text_of(book("ailith-saltpan")))]
    assert sorted(numbers) == list(range(1, len(numbers) + 1))
    assert len(numbers) >= len(made("ailith-saltpan").steps)


@pytest.mark.parametrize("kind", ("joan-netmaker", "hood", "breeches"))
def test_only_terms_that_occur_are_explained(kind: str) -> None:
    whole = text_of(book(kind)).casefold()
    before, _, after = whole.rpartition("glossary")
    glossary = after.partition("sources")[0]
    for term in ("gore", "gusset", "casing", "stencil", "tincture", "warp", "lacing"):
        explained = re.search(rf"(?:^|\. ){term} ", glossary) is not None
        assert explained == (re.search(rf"\b{term}s?\b", before) is not None), term


def test_evidence_is_told_with_its_source() -> None:
    garment = made("hood")
    dated = [each for each in garment.proof.findings if each.code.startswith("period")]
    whole = text_of(book("hood"))
    assert dated
    for each in dated:
        assert str(each.values.get("source", "")) in whole
    assert "names no year" in text_of(book("coif"))


def test_only_what_this_garment_needs_is_measured() -> None:
    whole = text_of(book("coif"))
    assert "over the brows" in whole
    assert "over the wrist bone" not in whole
    assert "22 1/2 in" in whole


def test_cautions_are_told_whole() -> None:
    from ellwand.depict import words as say

    garment = made("hob-tallyman")
    whole = text_of(book("hob-tallyman")).replace("- ", "")
    assert garment.cautions
    for each in garment.cautions:
        assert say.caution(each, "cm").replace("\u00a0", " ").split(":")[0] in whole


def test_names_its_language() -> None:
    with speaking("de"):
        data = workbook_pdf(made("hood"))
        folded = booklet_pdf(data)
    for each in (data, folded):
        with pikepdf.open(io.BytesIO(each)) as pdf:
            assert str(pdf.Root.Lang) == "de"


# --- the booklet -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("count", range(1, 42))
def test_folded_sheets_read_in_order(count: int) -> None:
    """Sheets are stacked, folded and leafed through in the mind."""
    printed = list(sides(count))
    sheets = [(printed[i], printed[i + 1]) for i in range(0, len(printed), 2)]
    first = [page for front, back in sheets for page in (front[1], back[0])]
    second = [page for front, back in reversed(sheets) for page in (back[1], front[0])]
    whole = 4 * len(sheets)
    assert first + second == list(range(1, whole + 1))
    assert count <= whole < count + 4


@pytest.mark.parametrize(("kind", "size"), (("hob-tallyman", (842, 595)), ("coif", (792, 612))))
def test_two_pages_lie_on_each_side(kind: str, size: tuple[int, int]) -> None:
    one, folded = pages(book(kind)), pages(booklet_pdf(book(kind)))
    assert len(folded) == 2 * -(-len(one) // 4)
    for page, (left, right) in zip(folded, sides(len(one)), strict=True):
        assert (round(float(page.width)), round(float(page.height))) == size
        for number, x0, x1 in ((left, 0, page.width / 2), (right, page.width / 2, page.width)):
            half = "".join(c["text"] for c in page.chars if x0 <= (c["x0"] + c["x1"]) / 2 < x1)
            there = "".join(c["text"] for c in one[number - 1].chars) if number <= len(one) else ""
            assert sorted(half) == sorted(there)
    assert booklet_pdf(book(kind)) == booklet_pdf(book(kind))


def test_another_person_gets_another_book() -> None:
    garment = made("hood")
    other = replace(garment, wearer=replace(garment.wearer, name="Ada Reedcutter"))
    assert "Ada Reedcutter" in text_of(workbook_pdf(other))
    assert "Ada Reedcutter" not in text_of(book("hood"))
