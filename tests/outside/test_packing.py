"""Lays against published and project instances (tests/data/packing/SOURCES.md)."""

import csv
import json
from pathlib import Path

import pytest

from ellwand.geometry.lines import Line, turn
from ellwand.lay.bounds import lower_bound
from ellwand.lay.layout import lay_out
from ellwand.model.cloth import Cloth
from ellwand.model.piece import Piece

DATA = Path(__file__).resolve().parents[1] / "data" / "packing"
TUNICS = {case["name"]: case for case in json.loads((DATA / "tunics.json").read_text("utf-8"))["cases"]}


def to_lay(id: str, cut: Line, count: int, small: bool) -> Piece:
    return Piece(id, id, "main", count, "body", cut, (), cut, (), (), small=small)


def tunic(name: str) -> tuple[list[Piece], Cloth]:
    """The case with its grain along y; one-sided: its pieces may be turned, not flipped."""
    case = TUNICS[name]
    pieces = []
    for p in case["pieces"]:
        cut = turn([(x, y) for x, y in p["outline"]], 90)
        pieces.append(to_lay(p["name"], cut, p["count"], 90 in p["turns"]))
    nap = all(p["turns"] == [0] for p in case["pieces"])
    on = Cloth("main", case["cloth_width"], selvedge=0, nap=nap, reversible=False, washed=True)
    return pieces, on


@pytest.mark.parametrize("number", [1, 2, 3])
def test_bound_on_zero_waste_instances(number: int) -> None:
    """Hopper and Turton C1: the optimum is 20, with or without turning, so the bound is 20 (by area)."""
    folder = DATA / "hopper2001a"
    with (folder / f"C1_{number}_items.csv").open(encoding="utf-8") as file:
        sides = [(float(r["WIDTH"]), float(r["HEIGHT"])) for r in csv.DictReader(file)]
    with (folder / f"C1_{number}_bins.csv").open(encoding="utf-8") as file:
        width = float(next(csv.DictReader(file))["WIDTH"])
    pieces = [to_lay(f"r{n}", ((0.0, 0.0), (w, 0.0), (w, h), (0.0, h)), 1, True) for n, (w, h) in enumerate(sides)]
    for crosswise in ("never", "any"):
        on = Cloth("main", width, selvedge=0, washed=True, crosswise=crosswise)  # type: ignore[arg-type]
        bound, _ = lower_bound(pieces, on)
        assert bound == pytest.approx(20, abs=1e-3)
        assert bound <= 20 + 1e-9
        assert lay_out(pieces, [], on, seconds=0, seed=0).length <= 1.4 * 20


@pytest.mark.parametrize("name", sorted(TUNICS))
def test_our_engine_is_within_one_and_a_half_of_the_bound(name: str) -> None:
    """No lay is shorter than the bound; ours is at most half as long again, against the nap too."""
    pieces, on = tunic(name)
    lay = lay_out(pieces, [], on, seconds=0, seed=0)
    assert lay.lower_bound <= lay.length <= 1.5 * lay.lower_bound
    assert lay.engine == "rows"


@pytest.mark.parametrize("name", ["A150", "N60"])
def test_the_solver_does_better_in_two_seconds(name: str) -> None:
    pieces, on = tunic(name)
    plain = lay_out(pieces, [], on, seconds=0, seed=1)
    searched = lay_out(pieces, [], on, seconds=2, seed=1)
    assert searched.lower_bound <= searched.length <= plain.length
