"""Tear plans: the sequence carried out tear by tear on a whole cloth, and what it leaves compared with the plan."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, box
from shapely.affinity import rotate, scale, translate
from shapely.ops import split, unary_union

from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, turn
from ellwand.lay.tear import tear_plan
from ellwand.model.cloth import Cloth, Fault, Repeat
from ellwand.model.draft import Part
from ellwand.model.lay import Placement
from ellwand.model.piece import Piece
from ellwand.model.tearing import TearPlan

CASES = json.loads((Path(__file__).parents[2] / "data" / "packing" / "tunics.json").read_text("utf-8"))["cases"]
FREE = {
    "A90": 358.8,
    "A150": 199.9,
    "B112": 332.1,
    "B150": 234.0,
    "C90": 457.8,
    "C150": 239.1,
    "N56": 627.7,
    "N60": 583.7,
    "A150nap": 228.6,
    "B150nap": 263.4,
}
"""The shortest free lays that solvers found in half a minute (cm)."""


def piece(id: str, cut: Line, count: int = 1, *, small: bool = False) -> Piece:
    return Piece(id, id, "main", count, "body", cut, (), cut, (), (), small=small)


def garment(case: dict) -> tuple[list[Piece], Cloth]:  # type: ignore[type-arg]
    pieces = [
        piece(p["name"], turn([(x, y) for x, y in p["outline"]], 90), p["count"], small=90 in p["turns"])
        for p in case["pieces"]
    ]
    nap = all(p["turns"] == [0] for p in case["pieces"])
    return pieces, Cloth("main", case["cloth_width"], selvedge=0, nap=nap, reversible=False, washed=True)


@cache
def planned(name: str) -> tuple[TearPlan, list[Piece], Cloth]:
    pieces, cloth = garment(next(case for case in CASES if case["name"] == name))
    return tear_plan(pieces, (), cloth, effort=1), pieces, cloth


def torn_apart(plan: TearPlan, beyond: float = 30.0) -> dict[str, Polygon]:
    """What the tears make of the cloth, by name; each must go right across one rectangle and make two."""
    whole = box(0, 0, plan.lay.width, plan.lay.length + beyond)
    have, waste = {"cloth": whole}, []
    for n, tear in enumerate(plan.tears, 1):
        assert tear.n == n
        cloth = have.pop(tear.of)
        left, low, right, high = cloth.bounds
        at = tear.distance
        if tear.way == "across":
            line = LineString([(left - 1, low + at), (right + 1, low + at)])
            expected = (left, low + at, right, low + at)
        else:
            line = LineString([(left + at, low - 1), (left + at, high + 1)])
            expected = (left + at, low, left + at, high)
        assert (*tear.start, *tear.end) == pytest.approx(expected, abs=1e-4)
        parts = sorted(split(cloth, line).geoms, key=lambda p: (p.bounds[1], p.bounds[0]))
        assert len(parts) == 2, tear
        for part, name in zip(parts, (tear.gives, tear.leaves), strict=True):
            assert part.area == pytest.approx(box(*part.bounds).area)
            assert name not in have
            if name:
                have[name] = part
            else:
                waste.append(part)
    assert sum(p.area for p in (*have.values(), *waste)) == pytest.approx(whole.area)
    return have


def on_cloth(cut: Line, p: Placement) -> Polygon:
    shape = Polygon(cut)
    if p.flip:
        shape = scale(shape, -1, 1, origin=(0, 0))
    return translate(rotate(shape, p.turn, origin=(0, 0)), p.x, p.y)


def check(plan: TearPlan, pieces: list[Piece]) -> None:
    """The tears end with the blocks and nothing else; each block holds its parts, and no part lies in two."""
    have = torn_apart(plan)
    for name in ("rest of the cloth", "left selvedge", "right selvedge"):
        have.pop(name, None)
    assert set(have) == {block.name for block in plan.blocks}
    cut = {p.id: p.cut for p in pieces}
    lies = {p.part: on_cloth(cut[p.piece], p) for p in plan.lay.placements}
    laid = []
    for block in plan.blocks:
        rect = box(block.x, block.y, block.x + block.width, block.y + block.height)
        assert have[block.name].bounds == pytest.approx(rect.bounds, abs=1e-4)
        for part in block.parts:
            assert rect.buffer(1e-3).contains(lies[part])
        laid += block.parts
    assert sorted(laid) == sorted(p.part for p in plan.lay.placements)
    assert len(laid) == sum(p.count for p in pieces)


@pytest.mark.parametrize("name", FREE)
def test_the_tears_leave_the_blocks(name: str) -> None:
    plan, pieces, _ = planned(name)
    check(plan, pieces)


@pytest.mark.parametrize("name", ["A90", "B150", "N60"])
def test_tears_and_scissor_cuts_free_every_piece(name: str) -> None:
    """A block cut along its lines falls into its pieces and waste: no line crosses a piece, none is missing."""
    plan, pieces, _ = planned(name)
    cut = {p.id: p.cut for p in pieces}
    lies = {p.part: on_cloth(cut[p.piece], p) for p in plan.lay.placements}
    for block in plan.blocks:
        lines = [
            LineString([(x + block.x, y + block.y) for x, y in c.points]) for c in plan.cuts if c.block == block.name
        ]
        edge = box(block.x, block.y, block.x + block.width, block.y + block.height).exterior
        known = unary_union([edge, *lines]).buffer(0.2)
        for part in block.parts:
            assert known.contains(lies[part].exterior)
            assert unary_union(lines).intersection(lies[part].buffer(-0.2)).is_empty


def test_torn_lays_are_little_longer_than_free_ones() -> None:
    """Within a twelfth on the mean, and never a quarter; naive blocks cost up to a third."""
    over = [planned(name)[0].lay.length / free for name, free in FREE.items()]
    assert sum(over) / len(over) < 1.08
    assert max(over) < 1.25
    assert all(planned(name)[0].lay.lower_bound <= planned(name)[0].lay.length for name in FREE)


def test_the_same_effort_gives_the_same_plan() -> None:
    pieces, cloth = garment(CASES[0])
    assert tear_plan(pieces, (), cloth, effort=1) == planned(CASES[0]["name"])[0]


TRIANGLE = ((0.0, 0.0), (20.0, 0.0), (20.0, 70.0))


def test_two_gores_need_one_cut() -> None:
    """Head to tail they fill a rectangle, which one diagonal parts."""
    plan = tear_plan([piece("gore", TRIANGLE, 2)], (), Cloth("main", 60, selvedge=0, washed=True), effort=1)
    assert plan.lay.length == 70.0
    assert [(b.width, b.height) for b in plan.blocks] == [(20.0, 70.0)]
    assert [sorted(c.points) for c in plan.cuts] == [[(0.0, 0.0), (20.0, 70.0)]]
    check(plan, [piece("gore", TRIANGLE, 2)])


def test_selvedges_are_torn_off_and_faces_kept() -> None:
    pieces = [piece("gore", TRIANGLE, 4), piece("body", ((0, 0), (40, 0), (40, 90), (0, 90)))]
    parts = [Part("gore-left", "gore"), Part("gore-right", "gore", mirrored=True)]
    cloth = Cloth("main", 82, selvedge=1, reversible=False, washed=True)
    plan = tear_plan(pieces, parts, cloth, effort=1)
    check(plan, pieces)
    assert [(t.way, t.distance, t.gives) for t in plan.tears[1:3]] == [
        ("along", 1.0, "left selvedge"),
        ("along", 80.0, plan.tears[0].gives),
    ]
    assert {p.part: p.flip for p in plan.lay.placements}["gore-right"]


def test_lengths_keep_clear_of_faults() -> None:
    pieces = [piece("body", ((0, 0), (40, 0), (40, 90), (0, 90)), 2)]
    cloth = Cloth("main", 50, selvedge=0, washed=True)
    spoiled = replace(cloth, faults=(Fault(10, 95, 3, 3),))
    assert tear_plan(pieces, (), cloth, effort=1).lay.length == 180.0
    plan = tear_plan(pieces, (), spoiled, effort=1)
    assert plan.lay.length == 188.0
    check(plan, pieces)


@pytest.mark.parametrize("cloth", [Cloth("main", 90, gap=1.0), Cloth("main", 90, repeat=Repeat(across=5))])
def test_what_cannot_be_torn_is_refused(cloth: Cloth) -> None:
    with pytest.raises(CannotDraft, match="edge to edge"):
        tear_plan([piece("gore", TRIANGLE)], (), cloth)


@st.composite
def outlines(draw: st.DrawFn) -> Line:
    w, h = (draw(st.integers(40, 400)) / 10 for _ in range(2))
    kind = draw(st.sampled_from(("box", "gore", "half", "sleeve")))
    return {
        "box": ((0.0, 0.0), (w, 0.0), (w, h), (0.0, h)),
        "gore": ((0.0, 0.0), (w, 0.0), (w / 2, h)),
        "half": ((0.0, 0.0), (w, 0.0), (w, h)),
        "sleeve": ((0.0, 0.0), (w, 0.0), (w * 0.8, h), (w * 0.2, h)),
    }[kind]


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(st.tuples(outlines(), st.integers(1, 3)), min_size=1, max_size=4),
    st.integers(450, 900),
    st.booleans(),
    st.sampled_from((0.0, 1.0)),
)
def test_any_pieces_on_any_cloth(shapes: list[tuple[Line, int]], width: int, nap: bool, selvedge: float) -> None:
    pieces = [piece(f"p{i}", outline, count, small=i == 0) for i, (outline, count) in enumerate(shapes)]
    plan = tear_plan(pieces, (), Cloth("main", width / 10, selvedge=selvedge, nap=nap, washed=True), effort=1)
    check(plan, pieces)
