"""Stencils, blocks and transfers on paper: full size to 0.1 mm, measured by readers that are not ours."""

from __future__ import annotations

import io
import math
import re
from functools import cache
from xml.etree import ElementTree

import pypdfium2
import pytest
import shapely
from pattern_specimens import letters, off, plumbed, rendered_paths
from shapely import Polygon

from ellwand.adorn.motifs import motif
from ellwand.adorn.printing import block, mirrored
from ellwand.adorn.stencils.stencil import stencil
from ellwand.cli.writing import write_garment
from ellwand.depict.stencil_view import RING, Tool, tool_sheet, tools
from ellwand.depict.words.painting import tool_row
from ellwand.geometry.lines import Line, bounds
from ellwand.model.garment import Garment
from ellwand.model.motif import Motif
from ellwand.pipeline import prove_sheet
from ellwand.publish.stencil_sheets import sheets_pdf, stencil_svgs, stencils_pdf
from sheets import sheet

TENTH = 0.01
"""A tenth of a millimetre in cm."""
REPEATS = [
    {"motif": "roundel", "along": "hem"},
    {"motif": "vine-scroll", "along": "cuffs", "by": "embroidery"},
    {"motif": "fleuron", "along": "neck", "by": "block", "size": 4},
    {"motif": "saltire", "along": "skirt ring", "height": 30, "by": "appliqué"},
]


@cache
def adorned() -> Garment:
    """A tunic with a repeat of every kind."""
    return prove_sheet(sheet({"repeats": REPEATS}))


@cache
def paths(paper: str = "A4") -> list[list[Line]]:
    """Every path on its sheets (cm), as pdfium reads them."""
    return rendered_paths(stencils_pdf(adorned(), paper))  # type: ignore[arg-type]


def nearest(pages: list[list[Line]], ring: Line) -> float:
    """How far the best ring on paper is from a wanted one (cm)."""
    return min(off(path, ring) for page in pages for path in page if len(path) > 2)


def found(by: str) -> Tool:
    """The tool of that kind."""
    return next(tool for tool in tools(adorned().draft.adornment.repeats) if tool.by == by)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_window_of_the_stencil_is_full_size(paper: str):
    tool = found("stencil")
    made = stencil(tool.motif, step=tool.step)
    assert len(made.windows) > 10
    for ring in (made.card, *made.windows):
        assert nearest(paths(paper), ring) < TENTH
    pages = {"A4": (21.0, 29.7), "Letter": (21.59, 27.94)}
    for page in pypdfium2.PdfDocument(stencils_pdf(adorned(), paper)):  # type: ignore[arg-type]
        size = tuple(side * 2.54 / 72 for side in page.get_size())
        assert size == pytest.approx(pages[paper], abs=TENTH)


def test_blocks_are_drawn_mirrored_and_transfers_both_ways():
    for region in block(found("block").motif).raised:
        assert nearest(paths(), region.ring) < TENTH
    flat = found("embroidery").motif
    for way in (flat, mirrored(flat)):
        for region in way.regions:
            for ring in (region.ring, *region.holes):
                assert nearest(paths(), ring) < TENTH
    # mirrored twice it is what it was; once, it is another
    assert nearest([[ring.ring for ring in mirrored(mirrored(flat)).regions]], flat.regions[0].ring) < 1e-9
    assert nearest([[ring.ring for ring in mirrored(flat).regions]], flat.regions[0].ring) > 0.1


def test_both_lines_to_measure_by_pdfplumber():
    pages = plumbed(stencils_pdf(adorned()))
    level = [line for _, line in pages[0] if len(line) == 2 and abs(line[0][1] - line[1][1]) < 1e-6]
    long = [abs(line[1][0] - line[0][0]) for line in level]
    assert any(abs(each - 10.0) < TENTH for each in long)
    assert any(abs(each - 4 * 2.54) < TENTH for each in long)


def test_marks_lie_a_step_apart_on_paper():
    tool = found("stencil")
    assert tool.step is not None
    card = stencil(tool.motif, step=tool.step).card
    page = next(page for page in paths() if any(off(path, card) < TENTH for path in page))
    x0, y0, x1, y1 = bounds(next(path for path in page if off(path, card) < TENTH))
    boxes = [bounds(path) for path in page if _is_ring(path)]
    spots = [((a + c) / 2, (b + d) / 2) for a, b, c, d in boxes if x0 < a and c < x1 and y0 < b and d < y1]
    assert len(spots) == 4
    apart = sorted(math.dist(one, other) for i, one in enumerate(spots) for other in spots[i + 1 :])
    # a rectangle: two sides twice, two diagonals; one side is the step
    assert sum(abs(each - tool.step) < TENTH for each in apart[:4]) == 2


def _is_ring(path: Line) -> bool:
    a, b, c, d = bounds(path)
    return 16 <= len(path) <= 18 and abs(c - a - 2 * RING) < TENTH and abs(d - b - 2 * RING) < TENTH


def test_what_is_larger_than_a_sheet_runs_on_over_several():
    tool = Tool(1, "stencil", motif("roundel", 26.0), 2, ("hem",), 30.0)
    book = sheets_pdf(list(tool_sheet(tool, "cm")), "Trial")
    seen = rendered_paths(book)
    made = stencil(tool.motif, step=tool.step)
    # the card is wider than a sheet of 19 cm and higher than one of 27.7
    assert made.size[0] > 19
    holding = [page for page in seen if any(off(path, made.card) < TENTH for path in page)]
    assert len(holding) == math.ceil((made.size[0] - 1) / 18) * math.ceil((made.size[1] - 1) / 26.7)
    assert "Join: trim" in _text(book, 0)
    assert "Join: trim" not in _text(stencils_pdf(adorned()), 0)


def _text(book: bytes, page: int) -> str:
    return str(pypdfium2.PdfDocument(book)[page].get_textpage().get_text_range()).replace("\r\n", " ")


def test_names_and_how_often_each_is_used():
    book = stencils_pdf(adorned())
    text = " ".join(_text(book, i) for i in range(len(pypdfium2.PdfDocument(book))))
    for tool in tools(adorned().draft.adornment.repeats):
        assert (
            f"{tool.number}  {tool.motif.name}" in text.replace("\xa0", " ")
            or f"{tool.number} {tool.motif.name}" in text
        )
        assert f"used {tool.count} times" in text
    assert "left cuff, right cuff" in text


def test_lettering_keeps_to_the_sheet_and_off_the_windows():
    for page, found_paths in zip(letters(stencils_pdf(adorned())), paths(), strict=True):
        assert all(letter.box[0] > 0 and letter.box[2] < 21.0 and letter.box[1] > 0 for letter in page)
        tool = found("stencil")
        made = stencil(tool.motif, step=tool.step)
        drawn = [path for path in found_paths if any(off(path, ring) < TENTH for ring in made.windows)]
        windows = shapely.union_all([Polygon(path) for path in drawn])
        assert not any(shapely.box(*letter.box).intersects(windows) for letter in page)


def test_in_black_and_white_what_is_cut_out_is_still_seen():
    book = pypdfium2.PdfDocument(stencils_pdf(adorned()))
    copied = book[0].render(scale=200 / 72).to_pil().convert("L").point(lambda grey: 255 * (grey > 128))
    tool = found("stencil")
    made = stencil(tool.motif, step=tool.step)
    page = next(path for path in paths()[0] if off(path, made.card) < TENTH)
    x0, y0, x1, y1 = bounds(page)
    dots = 200 / 2.54
    frame = (x0 * dots, (29.7 - y1) * dots, x1 * dots, (29.7 - y0) * dots)
    card = copied.crop(tuple(round(side) for side in frame))
    # hatching leaves a window darker than the card about it
    dark = card.point(lambda grey: 255 - grey)
    window = max(made.windows, key=lambda ring: Polygon(ring).area)
    a, b, c, d = bounds(window)
    low_x, high_y = bounds(made.card)[0], bounds(made.card)[3]
    inner = dark.crop(tuple(round(side * dots) for side in (a - low_x, high_y - d, c - low_x, high_y - b)))
    assert inner.getbbox() is not None
    assert sum(inner.histogram()[255:]) > 0.03 * inner.size[0] * inner.size[1]


def test_a_cutting_machine_gets_millimetres_in_layers():
    tool = found("stencil")
    made = stencil(tool.motif, step=tool.step)
    ((number, text),) = stencil_svgs(adorned()).items()
    assert number == tool.number
    root = ElementTree.fromstring(text)
    space = "{http://www.w3.org/2000/svg}"
    assert root.get("width") == f"{10 * made.size[0]:.3f}mm"
    assert root.get("viewBox") == f"0 0 {10 * made.size[0]:.3f} {10 * made.size[1]:.3f}"
    layers = {group.get("id"): group for group in root.findall(f"{space}g")}
    assert set(layers) == {"windows", "marks", "card"}
    cut = [
        Polygon([tuple(map(float, spot.split())) for spot in re.split("[ML]", path.get("d", "")[:-1])[1:]])
        for path in layers["windows"]
    ]
    assert len(cut) == len(made.windows)
    assert sum(each.area for each in cut) / 100 == pytest.approx(made.area, rel=1e-4)
    assert len(layers["marks"]) == len(made.marks)


def test_nothing_is_written_where_nothing_is_repeated(tmp_path):
    plain = prove_sheet(sheet())
    assert stencils_pdf(plain) == b""
    assert stencil_svgs(plain) == {}
    write_garment(adorned(), tmp_path)
    assert (tmp_path / "stencils.pdf").read_bytes().startswith(b"%PDF")
    assert [each.name for each in tmp_path.glob("stencil-*")] == ["stencil-1.svg"]
    # those of an earlier run are taken away
    write_garment(plain, tmp_path)
    assert not list(tmp_path.glob("stencil*"))


def test_what_is_too_small_for_bridges_is_painted_by_hand():
    tiny = Tool(1, "stencil", motif("lozenge", 0.5), 90, ("neck",), 0.6)
    (each,) = tool_sheet(tiny, "cm")
    assert "too small for a stencil" in " ".join(label.text for label in each.drawing.labels)
    assert "by hand" in tool_row(tiny, [], "cm")[1]
    small = prove_sheet(sheet({"repeats": [{"motif": "lozenge", "along": "neck", "size": 0.5}]}))
    assert stencils_pdf(small).startswith(b"%PDF")
    assert stencil_svgs(small) == {}


def test_the_same_bytes_every_time():
    assert stencils_pdf(adorned()) == stencils_pdf(adorned())
    assert io.BytesIO(stencils_pdf(adorned())).read(4) == b"%PDF"


def test_a_one_sided_block_is_made_twice_where_the_halves_mirror():
    half = prove_sheet(
        sheet({"repeats": [{"motif": "vine-scroll", "along": "hem", "by": "block", "mirrored": True}]})
    ).draft.adornment.repeats
    first, second = tools(half)
    assert second.motif == Motif(first.motif.name, mirrored(first.motif).regions)
    assert first.count + second.count == half[0].count
