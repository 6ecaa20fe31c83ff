"""The chalk list beside the cloth: every piece once, in the figures of the card, and nobody's body on it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from ellwand import make
from ellwand.choose import read_tables
from ellwand.model.garment import Garment
from ellwand.web.at_cloth import mark_of, on_cloths
from sheets import JOAN
from visiting import visitor


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    with visitor(f"sqlite:///{tmp_path_factory.mktemp('keep') / 'keep.db'}") as client:
        yield client


def garment(**cloth: object) -> Garment:
    tables = {"wearer": JOAN, "cloth": {"main": {"width": 150, **cloth}}}
    return make(read_tables(tables, lambda name: 0.0), seconds=0)


@pytest.mark.parametrize("cloth", [{}, {"fold": "lengthwise"}, {"cut": "torn", "tears": True}])
def test_every_part_has_its_turn_from_the_cut_end_on(cloth: dict[str, object]) -> None:
    made = garment(**cloth)
    cloths, turns = on_cloths(made)
    parts = [placement.part for lay in made.lays for placement in lay.placements]
    assert sorted(turn.key.rsplit("-0-")[1] for turn in turns) == sorted(parts)
    assert [turn.n for turn in turns] == list(range(1, len(parts) + 1))
    starts = []
    for turn in turns:
        points = [float(each.split(",")[0]) for each in cloths[turn.where].outlines[turn.mine].split()]
        starts.append((turn.where, min(points)))
    assert starts == sorted(starts)


def test_the_sizes_are_those_of_the_cut_outline() -> None:
    made = garment()
    pieces = dict(enumerate(made.draft.pieces, 1))
    for turn in on_cloths(made)[1]:
        across, along = zip(*pieces[turn.number].cut, strict=True)
        said = dict(turn.sizes)
        assert float(said["long"]) == pytest.approx(max(along) - min(along), abs=0.051)
        assert float(said["wide"]) == pytest.approx(max(across) - min(across), abs=0.051)


def test_a_piece_on_the_fold_is_chalked_half_as_wide() -> None:
    made = garment(fold="lengthwise")
    cloths, turns = on_cloths(made)
    body = next(turn for turn in turns if "wide, from the fold" in dict(turn.sizes))
    lies = [float(each.split(",")[1]) for each in cloths[body.where].outlines[body.mine].split()]
    assert min(lies) == 0
    assert float(dict(body.sizes)["wide, from the fold"]) == pytest.approx(max(lies), abs=0.051)


def test_ticks_belong_to_the_same_pieces_in_the_same_places() -> None:
    assert mark_of(garment()) == mark_of(garment())
    assert mark_of(garment()) != mark_of(garment(width=140))


def test_the_page_has_a_tick_of_each_kind_for_each_piece(bench: TestClient) -> None:
    text = bench.get("/cloth-side").text
    turns = re.findall(r'<section class="turn"', text)
    assert len(turns) > 3
    assert text.count('data-does="chalked"') == text.count('data-does="cut"') == len(turns)
    assert "hidden" not in "".join(re.findall(r'<section class="turn"[^>]*>', text))


def test_nothing_of_the_body_is_on_it(bench: TestClient) -> None:
    body = {"name": "Tib Farthing", "height": "163.73", "bust_girth": "97.37", "waist_girth": "81.93"}
    origin = {"Origin": "http://127.0.0.1"}
    kept = bench.post("/people", data=body, headers=origin, follow_redirects=False).headers["location"]
    who = kept.removeprefix("/people/").partition("?")[0]
    text = re.sub(r"<svg.*?</svg>", "", bench.get(f"/cloth-side?who={who}").text, flags=re.DOTALL)
    assert "Tib Farthing" in text
    assert not {"163.73", "97.37", "81.93"} & set(re.findall(r"[\d.]+", text))


def test_a_cloth_too_narrow_is_said_in_a_sentence(bench: TestClient) -> None:
    answer = bench.get("/cloth-side?cloth.main.width=12")
    assert answer.status_code == 400
    assert "Traceback" not in answer.text and "12" in answer.text


def test_the_keeping_script_may_be_kept_nowhere_unasked(bench: TestClient) -> None:
    answer = bench.get("/cloth-side.js")
    assert answer.headers["cache-control"] == "no-cache"
    assert answer.headers["content-type"].startswith("text/javascript")
    source = Path(__file__).parents[2] / "src/ellwand/web/static/cloth-side-worker.js"
    assert answer.content == source.read_bytes()
