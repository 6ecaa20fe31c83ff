"""Tear tables, chalk in the blocks and the drawing, against the plan itself."""

from __future__ import annotations

import csv
import io
from functools import cache

import pytest
from shapely import LineString, Polygon

from ellwand.depict import words
from ellwand.depict.tearing import block_chalk, tear_drawing, tear_rows
from ellwand.lay.tear import tear_plan
from ellwand.model.cloth import Cloth
from ellwand.model.piece import Piece
from ellwand.model.tearing import TearPlan
from ellwand.prove.tearing import tears_straight
from ellwand.publish.tearing import block_csv, tear_csv, tear_svg

CLOTH = Cloth("main", 92, selvedge=1, washed=True, cut="torn", tears=True)


def piece(id: str, cut: tuple[tuple[float, float], ...], count: int) -> Piece:
    return Piece(id, id, "main", count, "body", cut, (), cut, (), ())


PIECES = [
    piece("body", ((0, 0), (50, 0), (50, 100), (0, 100)), 2),
    piece("gore", ((0, 0), (30, 0), (15, 60)), 4),
    piece("sleeve", ((0, 0), (40, 0), (34, 50), (6, 50)), 2),
]


@cache
def plan() -> TearPlan:
    return tear_plan(PIECES, (), CLOTH, effort=1)


def test_every_tear_has_its_row_and_its_line() -> None:
    rows = tear_rows(plan(), "cm")
    assert [(r.n, r.of, r.way, r.distance) for r in rows] == [(t.n, t.of, t.way, t.distance) for t in plan().tears]
    assert all(row.words.startswith("Tear ") and row.comes_off in row.words for row in rows)
    drawn = tear_drawing(plan(), PIECES, "cm", cloth=CLOTH)
    assert [s.points for s in drawn.strokes if s.role == "tear"] == [(t.start, t.end) for t in plan().tears]
    assert sorted(int(each.text) for each in drawn.labels if each.role == "number") == [t.n for t in plan().tears]
    assert {b.name for b in plan().blocks} <= {each.text for each in drawn.labels}


def test_lying_is_a_quarter_turn() -> None:
    upright, lying = (
        [s.points for s in tear_drawing(plan(), PIECES, "cm", lying=each).strokes if s.role == "tear"]
        for each in (False, True)
    )
    assert [tuple((y, -x) for x, y in line) for line in upright] == lying


def test_scissor_blocks_are_chalked_from_their_own_corner() -> None:
    """The corners of each piece, chalked in the torn block, are where the cuts run."""
    chalked = dict(block_chalk(plan(), PIECES, "cm"))
    assert {block.name for block in chalked} == {cut.block for cut in plan().cuts}
    for block, rows in chalked.items():
        for step in {row.step for row in rows}:
            ring = Polygon([(r.across, r.along) for r in rows if r.step == step and r.what == "corner"])
            name = next(row.piece for row in rows if row.step == step)
            assert ring.area == pytest.approx(next(Polygon(p.cut).area for p in PIECES if p.name == name))
            left, low, right, high = ring.bounds
            assert min(left, low) > -1e-6 and right < block.width + 1e-3 and high < block.height + 1e-3
            edge = ring.exterior.buffer(0.1)
            lines = [LineString(cut.points) for cut in plan().cuts if cut.block == block.name]
            assert any(line.intersection(edge).length > 0.5 for line in lines)


def test_files_say_the_same() -> None:
    rows = list(csv.DictReader(io.StringIO(tear_csv(plan(), "in"))))
    assert [float(r["distance"]) for r in rows] == [pytest.approx(t.distance / 2.54, abs=1e-3) for t in plan().tears]
    blocks = list(csv.DictReader(io.StringIO(block_csv(plan(), PIECES, "cm"))))
    assert {r["block"] for r in blocks} == {cut.block for cut in plan().cuts}
    assert tear_svg(plan(), PIECES, CLOTH, "cm", "torn").count('class="tear"') == len(plan().tears)


@pytest.mark.parametrize(
    ("tears", "outcome", "said"),
    [(True, "sound", "tears straight"), (False, "look again", "does not tear"), (None, "look again", "is not said")],
)
def test_cloth_that_may_not_tear(tears: bool | None, outcome: str, said: str) -> None:
    (found,) = tears_straight(Cloth("main", 90, cut="torn", tears=tears))
    assert found.outcome == outcome
    assert said in words.why(found, "cm")
    assert bool(words.mend(found, "cm")) == (outcome != "sound")


def test_a_cloth_that_is_cut_is_not_asked() -> None:
    assert tears_straight(Cloth("main", 90)) == ()
