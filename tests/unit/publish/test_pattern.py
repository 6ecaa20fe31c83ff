"""The full-size pattern on sheets: measured in the PDF by two readers, joined, layered, and readable."""

from __future__ import annotations

import io
import math
import re
import string
from functools import cache
from itertools import combinations

import pypdfium2
import pytest
from pattern_specimens import CM, KINDS, garment, letters, off, plumbed, rendered_paths
from pdfminer.pdfdocument import PDFDocument
from pdfminer.pdfparser import PDFParser
from shapely import LineString, MultiLineString, STRtree, box, unary_union
from shapely.affinity import translate

from ellwand.errors import BadInput
from ellwand.geometry.lines import bounds
from ellwand.publish.pattern import PAPERS, long_sheet_pdf, pattern_pdf, projector_pdf

TENTH_MM = 0.01


def squares(paths):
    """Sides of the squares among the paths of a page."""
    boxes = [bounds(line) for line in paths if len(line) in (4, 5)]
    return {round(c - a, 3) for a, b, c, d in boxes if math.isclose(c - a, d - b, abs_tol=TENTH_MM) and 9 < c - a < 11}


@pytest.mark.parametrize("paper", PAPERS)
def test_squares_of_10_cm_and_4_in_on_the_first_page(paper):
    pdf = pattern("hood", paper)
    for paths in ([line for _, line in plumbed(pdf)[0]], rendered_paths(pdf)[0]):
        found = squares(paths)
        assert any(abs(side - 10.0) < TENTH_MM for side in found)
        assert any(abs(side - 10.16) < TENTH_MM for side in found)


@pytest.mark.parametrize("make", [lambda g: long_sheet_pdf(g, 90)[0], projector_pdf])
def test_squares_among_the_pieces_of_a_single_sheet(make):
    found = squares(rendered_paths(make(garment("tunic")))[0])
    assert {10.0, 10.16} <= found


@pytest.mark.parametrize("kind", ["tunic", "train", "cloak", "inches"])
@pytest.mark.parametrize("paper", ["A4", "A0"])
def test_every_piece_is_drawn_to_a_tenth_of_a_millimetre(kind, paper):
    pages = rendered_paths(pattern(kind, paper))
    for piece in garment(kind).draft.pieces:
        for ring in (piece.cut, *piece.cut_holes, piece.sewn, *piece.sewn_holes):
            assert min(off(line, ring) for page in pages for line in page) < TENTH_MM, piece.id


def row_of(name):
    """'B3' is in row 1, 'AB3' in row 27."""
    row = 0
    for letter in name.rstrip(string.digits):
        row = 26 * row + string.ascii_uppercase.index(letter) + 1
    return row - 1


@cache
def tiles(kind, paper):
    """For every sheet its name, its cut lines where its name puts them, and what of them it shows.

    Lines are read by pdfplumber, names by pdfium.
    """
    pdf, sheet = pattern(kind, paper), PAPERS[paper]
    wide, high = sheet.width - 2.0, sheet.height - 2.0
    seen = box(1.0, 1.0, 1.0 + wide, 1.0 + high).buffer(0.001)
    out = []
    for page, paths in zip(letters(pdf), plumbed(pdf), strict=True):
        if name := sheet_name(page):
            row, column = row_of(name), int(name.lstrip(string.ascii_uppercase)) - 1
            right, down = column * (wide - 1.0) - 1.0, -row * (high - 1.0) - 1.0
            whole = [LineString(line) for width, line in paths if width == 1.1]
            shown = unary_union([line.intersection(seen) for line in whole])
            out.append((name, [translate(line, right, down) for line in whole], translate(shown, right, down)))
    return out


@pytest.mark.parametrize(("kind", "paper"), [("tunic", "A4"), ("train", "A3"), ("hood", "Letter")])
def test_joined_sheets_show_every_outline_once_and_whole(kind, paper):
    found = tiles(kind, paper)
    assert len({word for word, _, _ in found}) == len(found)
    seen = unary_union([lines for _, _, lines in found])
    drawn: list[LineString] = []
    for _, whole, _ in found:
        for line in whole:
            same = [each for each in drawn if each.hausdorff_distance(line) < TENTH_MM]
            drawn += [] if same else [line]
    rings = [ring for piece in garment(kind).draft.pieces for ring in (piece.cut, *piece.cut_holes)]
    assert len(drawn) == len(rings)
    for ring in rings:
        assert min(off(tuple(line.coords), ring) for line in drawn) < TENTH_MM
    assert MultiLineString(drawn).difference(seen.buffer(TENTH_MM)).length == 0


def test_pieces_do_not_lie_on_each_other():
    found = tiles("train", "A3")
    rings = []
    for _, whole, _ in found:
        rings += [line for line in whole if not any(line.hausdorff_distance(each) < TENTH_MM for each in rings)]
    assert all(one.distance(two) > 0.2 for one, two in combinations(rings, 2))


@cache
def pattern(kind, paper="A4"):
    """The pattern of a specimen, made once."""
    return pattern_pdf(garment(kind), paper)


def own(page):
    """The letters of the line below a sheet, which are written last."""
    line = [each for each in page if each.upright and each.box[1] > 0.45 and each.box[3] < 0.9]
    start = max((i for i, each in enumerate(line) if abs(each.box[0] - 1.0) < 0.03), default=len(line))
    return line[start:]


def sheet_name(page):
    """What is printed below the left corner of a sheet; '' on the map page."""
    name, end = "", 1.0
    for letter in own(page):
        if abs(letter.box[0] - end) < 0.12:
            name, end = name + letter.text, letter.box[2]
    return name if re.fullmatch("[A-Z]+[0-9]+", name) else ""


@pytest.mark.parametrize("kind", KINDS)
def test_no_letter_stands_on_another_or_off_the_paper(kind):
    for page in letters(pattern(kind)):
        if sheet_name(page):
            page = [each for each in page if box(*each.box).within(box(1, 1, 20, 28.7))] + own(page)
        for letter in page:
            assert letter.box[0] > 0.4 and letter.box[2] < 20.6, letter
            assert letter.box[1] > 0.4 and letter.box[3] < 29.3, letter
        boxes = [box(*letter.box).buffer(-0.02) for letter in page]
        one, two = STRtree(boxes).query(boxes, predicate="intersects")
        # the boxes of two letters of one word overlap where it is written aslant
        clashes = [(page[a], page[b]) for a, b in zip(one.tolist(), two.tolist(), strict=True) if b > a + 1]
        assert not clashes


@pytest.mark.parametrize("make", [pattern_pdf, projector_pdf, lambda g: long_sheet_pdf(g, 90)[0]])
def test_same_garment_same_bytes_and_no_clock(make):
    pdf = make(garment("hood"))
    assert pdf == make(garment("hood"))
    assert b"CreationDate" not in pdf
    assert b"ModDate" not in pdf


def catalogue(pdf):
    return PDFDocument(PDFParser(io.BytesIO(pdf))).catalog


def test_layers_for_pieces_allowances_texts_and_sheets():
    pdf = pattern("hood")
    groups = [group.resolve()["Name"].decode() for group in catalogue(pdf)["OCProperties"]["OCGs"]]
    assert groups == ["Pieces", "Sewing lines and allowances", "Texts", "Trim lines and sheet names"]
    assert catalogue(pdf)["ViewerPreferences"]["PrintScaling"].name == "None"


def test_a_hidden_layer_is_not_drawn():
    import pikepdf

    pdf = pikepdf.Pdf.open(io.BytesIO(projector_pdf(garment("hood"))))
    shades = []
    for hidden in range(-1, 4):
        groups = pdf.Root.OCProperties.OCGs
        pdf.Root.OCProperties.D.OFF = pikepdf.Array([groups[hidden]] if hidden >= 0 else [])
        out = io.BytesIO()
        pdf.save(out)
        image = pypdfium2.PdfDocument(out.getvalue())[0].render(scale=0.5).to_pil().convert("L")
        shades.append(sum(image.histogram()[:200]))
    assert len(set(shades)) == 5
    assert shades[0] == max(shades)


@pytest.mark.parametrize(("kind", "width"), [("tunic", 90), ("train", 90), ("cloak", 60)])
def test_a_roll_is_cut_to_sheets_of_at_most_5_m(kind, width):
    sheets = long_sheet_pdf(garment(kind), width)
    for n, pdf in enumerate(sheets, 1):
        assert f"{n} of {len(sheets)}" in pypdfium2.PdfDocument(pdf)[0].get_textpage().get_text_bounded()
        (page,) = pypdfium2.PdfDocument(pdf)
        across, along = (side * CM for side in page.get_size())
        assert abs(across - width) < TENTH_MM
        assert along < 500 + TENTH_MM
        assert b"UserUnit" not in pdf
    drawn = [line for pdf in sheets for page in rendered_paths(pdf) for line in page]
    for piece in garment(kind).draft.pieces:
        assert min(off(line, piece.cut) for line in drawn) < TENTH_MM


def test_a_roll_too_narrow_to_use_is_refused():
    with pytest.raises(BadInput, match="30 to 500"):
        long_sheet_pdf(garment("hood"), 12)


def test_a_projector_gets_one_page_with_thick_lines():
    pages = plumbed(projector_pdf(garment("train")))
    assert len(pages) == 1
    cut = {width for width, line in pages[0] if any(off(line, p.cut) < TENTH_MM for p in garment("train").draft.pieces)}
    assert cut == {4.4}


@pytest.mark.parametrize("kind", ["tunic", "train"])
def test_only_the_curves_take_fewer_sheets_and_lie_on_the_outlines(kind):
    few, many = pattern_pdf(garment(kind), only_curved=True), pattern(kind)
    assert len(pypdfium2.PdfDocument(few)) < len(pypdfium2.PdfDocument(many)) / 2
    text = pypdfium2.PdfDocument(few)[0].get_textpage().get_text_bounded()
    assert "neck" in text and "hem" in text


def test_a_garment_of_straight_lines_has_no_curves_to_print():
    with pytest.raises(BadInput, match="no curved edges"):
        pattern_pdf(garment("hood"), only_curved=True)


def test_the_map_names_every_sheet_and_piece():
    pdf = pattern("train")
    names = {sheet_name(page) for page in letters(pdf)} - {""}
    front = pypdfium2.PdfDocument(pdf)[0].get_textpage().get_text_bounded()
    words = set(front.replace(":", " ").replace(",", " ").split())
    assert len(names) > 40
    assert names <= words
    for piece in garment("train").draft.pieces:
        assert set(piece.name.split()) <= words


def test_a_long_name_is_cut_and_a_strange_script_is_set():
    for kind in ("endless", "scripts"):
        title = PDFDocument(PDFParser(io.BytesIO(pattern(kind)))).info[0]["Title"].decode("utf-16")
        assert len(title) < 100
        assert title.startswith(f"Tunic for {garment(kind).wearer.name[:15]}")
