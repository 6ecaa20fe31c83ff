"""Lengths of cloth that several garments share: chalked by their list they hold every piece, and none overlaps."""

from __future__ import annotations

import csv
import io
import itertools
import math
from collections import Counter
from pathlib import Path

import pdfplumber
import pytest
from shapely import Polygon

from ellwand.company.reckoning import How, reckoned
from ellwand.company.roster import Bundle
from ellwand.company.sharing import LAYERS, MOST, groups, shared
from ellwand.model.company import Done
from rosters import CLOTH, bundles_of

HOW = How(0, papers=False)
ROSTER = "Name,Height,Chest,Garment\nAnn,164,96,\nBo,180,104,\nCi,158,90,\nDo,171,99,tunic; hood\n"


def done_of(bundles: tuple[Bundle, ...], how: How = HOW) -> dict[int, Done]:
    return {b.number: reckoned(b.sheet, b.name, b.garment, b.colour, how)[0] for b in bundles if b.sheet}


@pytest.fixture(scope="module")
def bundles(tmp_path_factory: pytest.TempPathFactory) -> tuple[Bundle, ...]:
    return bundles_of(tmp_path_factory.mktemp("company"), ROSTER)


def chalked(text: str) -> dict[tuple[str, str, str], Polygon]:
    """The corners of a chalk list as polygons, by garment, step and piece: read as a maker does."""
    corners: dict[tuple[str, str, str], list[tuple[float, float]]] = {}
    for row in csv.DictReader(io.StringIO(text)):
        if row["what"] == "corner":
            at = (float(row["from_left_selvedge"]), float(row["from_cut_end"]))
            corners.setdefault((row["garment"], row["step"], f"{row['no']} {row['piece']}"), []).append(at)
    return {key: Polygon(points) for key, points in corners.items()}


def test_the_list_holds_every_piece_of_everyone_and_none_overlaps(bundles: tuple[Bundle, ...]) -> None:
    done = done_of(bundles)
    (group,) = groups(done)
    told, files = shared(group, {b.number: b.sheet for b in bundles if b.sheet}, HOW)
    assert {number for stack in told.stacks for number in stack} == {1, 2, 3, 4, 5}
    (name,) = [file for file in files if file.endswith(".csv")]
    lying = chalked(files[name].decode())
    counted = Counter((garment, piece) for garment, _step, piece in lying)
    for number, each in done.items():
        for said in each.listed:
            piece, _times, count = said.partition(" ×\u00a0")
            assert counted.pop((str(number), piece)) == int(count or 1)
    assert not counted
    for one, other in itertools.combinations(lying.values(), 2):
        assert one.intersection(other).area < 0.5, "chalk lists are rounded to the millimetre"
    assert max(shape.bounds[3] for shape in lying.values()) <= told.length + 0.1
    assert min(shape.bounds[0] for shape in lying.values()) >= 1 - 0.1, "the selvedge"
    assert told.length < told.alone and told.takes == told.length
    assert told.lower_bound <= told.length + 1e-6


def test_the_papers_of_a_lay_show_the_whole_of_it(bundles: tuple[Bundle, ...]) -> None:
    (group,) = groups(done_of(bundles))
    told, files = shared(group, {b.number: b.sheet for b in bundles if b.sheet}, HOW)
    with pdfplumber.open(io.BytesIO(files["01-wool.pdf"])) as pdf:
        said = [page.extract_text() for page in pdf.pages]
    assert "lay 1: garments 1, 2, 3, 4, 5" in said[0]
    assert all("from the cut end" in page for page in said)
    assert f"to {told.length:g} cm from the cut end" in said[-1]
    assert all(any(f"{number}.1" in page for page in said) for number in (1, 2, 3, 4, 5))


def test_alike_ones_lie_in_layers_and_are_chalked_once(tmp_path: Path) -> None:
    twins = "Name,Height,Chest\n" + "".join(f"Twin {n},164,96\n" for n in range(5)) + "Bo,180,104\n"
    bundles = bundles_of(tmp_path, twins)
    done = done_of(bundles)
    found = groups(done)
    stacks = [stack for group in found for stack in group.stacks]
    assert sorted(len(stack) for stack in stacks) == [1, 1, LAYERS]
    layered = next(group for group in found if len(group.stacks[0]) == LAYERS)
    told, files = shared(layered, {1: bundles[0].sheet}, HOW)  # type: ignore[dict-item]
    assert told.layers == LAYERS and told.takes == pytest.approx(LAYERS * told.length)
    assert told.pieces == done[1].pieces
    assert {garment for garment, *_ in chalked(files["01-wool.csv"].decode())} == {"1"}


def test_no_lay_is_longer_than_the_table_or_holds_too_many(tmp_path: Path) -> None:
    many = "Name,Height,Chest\n" + "".join(f"P{n},{150 + 2 * n},{80 + 2 * n}\n" for n in range(19))
    bundles = bundles_of(tmp_path, many)
    sizes = [len(group.stacks) for group in groups(done_of(bundles))]
    assert sum(sizes) == 19 and max(sizes) <= MOST and max(sizes) - min(sizes) <= 1
    short = bundles_of(tmp_path, many, f'[garment]\nstyle = "tunic"\n{CLOTH}table = 600\n')
    for group in groups(done_of(short)):
        assert group.alone <= 600 or len(group.stacks) == 1


def test_left_overs_go_to_the_first_lay_alone(tmp_path: Path) -> None:
    left = "[[cloth.remnants]]\nwidth = 80\nlength = 60\n"
    many = "Name,Height,Chest\n" + "".join(f"P{n},{150 + 2 * n},{80 + 2 * n}\n" for n in range(10))
    bundles = bundles_of(tmp_path, many, f'[garment]\nstyle = "tunic"\n{CLOTH}{left}')
    found = groups(done_of(bundles))
    assert [bool(group.cloth.remnants) for group in found] == [True, False]


def test_one_alone_is_cut_by_the_own_card(tmp_path: Path) -> None:
    (bundle,) = bundles_of(tmp_path, "Name,Height,Chest\nAnn,164,96\n")
    (group,) = groups(done_of((bundle,)))
    told, files = shared(group, {1: bundle.sheet}, HOW)  # type: ignore[dict-item]
    assert not files and not told.pieces and math.isclose(told.takes, told.alone)
