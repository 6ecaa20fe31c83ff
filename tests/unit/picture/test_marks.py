"""Marks on a picture: read as written, refused in one sentence, and measured by hand where a ruler can."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand.errors import BadInput
from ellwand.loading import load_sheet
from ellwand.measure import wearer_from
from ellwand.model.picture import Marks
from ellwand.picture import offers, read, read_marks
from ellwand.picture.marking import MARKS, marks_of
from ellwand.picture.questions import QUESTIONS, UNSEEN
from ellwand.pipeline import prove_sheet
from running import run

WEARER = wearer_from({"sex": "female", "height": 164, "bust_girth": 96, "waist_girth": 82, "hip_girth": 104})
SHEET = "[wearer]\nheight = 164\nbust_girth = 96\nhead_girth = 56\n[garment]\ndate = 1200\n[cloth]\nwidth = 150\n"
HEAD = 0.130 * 164


def drawn(**heights: float) -> dict[str, list[float]]:
    """A figure straight as a rule, two units to the cm, with marks at these heights above the floor (cm)."""
    levels = {"crown": 164.0, "chin": 164.0 - HEAD, "floor": 0.0, **heights}
    return {name: [300.0, 1000.0 - 2 * high] for name, high in levels.items()}


def value(marks: dict[str, Any], what: str) -> float:
    found = {each.what: each for each in read(marks_of(marks), WEARER)}
    assert found[what].low <= found[what].value <= found[what].high
    return found[what].value


def test_what_a_ruler_tells_the_marks_tell() -> None:
    opening = {"opening_top": [100.0, 500.0], "opening_bottom": [130.0, 540.0]}
    marks = {"points": {**drawn(hem=40.0, belt=101.0, split_top=75.0), **opening}, "spread": 0.1}
    assert value(marks, "hem") == pytest.approx(40.0, abs=0.7)
    assert value(marks, "length") == pytest.approx(WEARER["nape_to_floor"] - 40.0, abs=0.7)
    assert value(marks, "belt") == pytest.approx(101.0, abs=0.7)
    assert value(marks, "split") == pytest.approx(35.0, abs=1.0)
    assert value(marks, "opening") == pytest.approx(math.hypot(15, 20), abs=0.4)
    assert value(marks, "heads") == pytest.approx(1 / 0.130, abs=0.1)


@given(st.floats(6.0, 9.0))
def test_a_head_drawn_too_large_or_too_small_changes_no_length(heads: float) -> None:
    chin = 164.0 - HEAD
    marks = {"points": drawn(hem=40.0, crown=chin + chin / (heads - 1.0)), "spread": 0.1}
    assert value(marks, "hem") == pytest.approx(40.0, abs=0.7)


@given(st.floats(-30.0, 30.0), st.floats(0.2, 9.0))
def test_turning_and_enlarging_the_picture_changes_nothing(degrees: float, times: float) -> None:
    angle = math.radians(degrees)
    points = {
        name: [times * (x * math.cos(angle) - y * math.sin(angle)), times * (x * math.sin(angle) + y * math.cos(angle))]
        for name, (x, y) in drawn(hem=40.0, belt=101.0).items()
    }
    marks = {"points": points, "spread": 0.1 * times, "lean": degrees}
    assert value(marks, "hem") == pytest.approx(40.0, abs=0.7)
    assert value(marks, "belt") == pytest.approx(101.0, abs=0.7)


def test_a_stoop_that_is_stated_is_undone() -> None:
    """What is above the hip is seen shortened by the stoop's cosine."""
    hip = WEARER["hip_to_floor"]

    def seen(high: float) -> float:
        return hip + (high - hip) * math.cos(math.radians(30)) if high > hip else high

    points = drawn(hem=40.0, belt=seen(101.0), chin=seen(164 - HEAD), crown=seen(164))
    marks = {"points": points, "spread": 0.1, "stoop": 30}
    assert value(marks, "hem") == pytest.approx(40.0, abs=1.0)
    assert value(marks, "belt") == pytest.approx(101.0, abs=1.0)


def test_a_broader_mark_gives_a_wider_range() -> None:
    ranges = []
    for spread in (0.5, 5.0, 20.0):
        (hem,) = [e for e in read(marks_of({"points": drawn(hem=40.0), "spread": spread}), WEARER) if e.what == "hem"]
        ranges.append(hem.high - hem.low)
    assert ranges == sorted(ranges)


def test_a_sleeve_is_followed_round_the_elbow() -> None:
    arm = {"shoulder_left": [200.0, 300.0], "elbow": [200.0, 360.0], "wrist": [260.0, 360.0]}
    marks = {"points": {**drawn(hem=40.0), **arm, "sleeve_end": [230.0, 360.0]}, "spread": 0.1}
    assert value(marks, "sleeve_share") == pytest.approx(0.75, abs=0.02)


WRONG: dict[str, tuple[Any, str]] = {
    "no points": ({}, "points"),
    "no chin": ({"points": {"crown": [0, 0], "hem": [0, 9]}}, "points.chin"),
    "a word": ({"points": {"crown": "top"}}, "points.crown"),
    "three": ({"points": {"crown": [1, 2, 3]}}, "points.crown"),
    "misspelt": ({"points": {**drawn(hem=40), "wirst": [1, 2]}}, "perhaps 'wrist' was meant"),
    "no head": ({"points": {"crown": [0, 0], "chin": [0, 0], "hem": [0, 9]}}, "points.chin"),
    "lean": ({"points": drawn(hem=40), "lean": 80}, "lean"),
    "spread": ({"points": drawn(hem=40), "spread": -1}, "spread"),
    "answer": ({"points": drawn(hem=40), "answers": {"folds": "hips"}}, "perhaps 'hip' was meant"),
    "question": ({"points": drawn(hem=40), "answers": {"fold": "hip"}}, "perhaps 'folds' was meant"),
    "list": ([], "table"),
}


@pytest.mark.parametrize("name", WRONG)
def test_wrong_marks_are_refused_in_one_sentence(name: str) -> None:
    given_, said = WRONG[name]
    with pytest.raises(BadInput) as refused:
        read_marks(json.dumps(given_).encode())
    assert said in str(refused.value) and len(str(refused.value)) < 400


@given(st.binary(max_size=200))
def test_any_bytes_are_marks_or_a_sentence(data: bytes) -> None:
    try:
        assert isinstance(read_marks(data), Marks)
    except BadInput as refused:
        assert len(str(refused)) < 400


POINTS = st.dictionaries(
    st.sampled_from([*MARKS, *MARKS, "nowhere"]),
    st.lists(st.floats(-1e4, 1e4) | st.integers(-500, 500), min_size=2, max_size=2) | st.text(max_size=3),
    max_size=8,
)


@given(
    POINTS, st.floats() | st.integers(), st.dictionaries(st.sampled_from([*QUESTIONS]), st.text(max_size=6), max_size=2)
)
def test_any_tables_are_marks_or_a_sentence(points: dict[str, Any], lean: float, answers: dict[str, str]) -> None:
    try:
        marks = marks_of({"points": {**drawn(hem=40), **points}, "lean": lean, "answers": answers})
    except BadInput:
        return
    for each in read(marks, WEARER):
        assert each.low <= each.value <= each.high


@pytest.mark.parametrize("question", QUESTIONS)
def test_what_is_not_seen_changes_nothing(question: str) -> None:
    plain = marks_of({"points": drawn(hem=40)})
    unseen = marks_of({"points": drawn(hem=40), "answers": {question: UNSEEN}})
    readings = read(plain, WEARER)
    assert [(each.structure, each.share) for each in offers(plain, readings, WEARER)] == [
        (each.structure, each.share) for each in offers(unseen, readings, WEARER)
    ]


def test_the_command_offers_sheets_that_can_be_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "sheet.toml").write_text(SHEET)
    answers = {"folds": "waist", "stands_out": "all round", "middle": "seam", "arm": "wide", "neck": "slit"}
    points = {**drawn(hem=12.0), "hem_left": [150.0, 976.0], "hem_right": [460.0, 976.0]}
    (tmp_path / "marks.json").write_text(json.dumps({"points": points, "answers": answers}))
    given_ = [str(tmp_path / "marks.json"), str(tmp_path / "sheet.toml")]
    assert run(monkeypatch, "picture", *given_, "--out", str(tmp_path / "out")) == 0
    said = capsys.readouterr().out
    assert (
        "length of the garment" in said and "for it: " in said and "No picture tells" in said and "about 1200" in said
    )
    first = load_sheet(tmp_path / "out" / "offer-1.toml")
    assert {gore.place for gore in first.choices.gores} == {"side", "centre-front", "centre-back"}
    assert first.choices.date == 1200 and first.choices.sleeve.shape == "wide"
    # the garment reaches where the picture's does
    low = next(each.height for each in prove_sheet(first).proof.girths if each.at == "hem")
    assert low == pytest.approx(12.0, abs=3.0)
    assert "[picture.points]" in (tmp_path / "out" / "offer-1.toml").read_text()
    # a sheet that remembers a picture can be given again
    again = [given_[0], str(tmp_path / "out" / "offer-1.toml")]
    assert run(monkeypatch, "picture", *again, "--out", str(tmp_path / "again")) == 0
    assert load_sheet(tmp_path / "again" / "offer-1.toml").choices == first.choices
    (tmp_path / "marks.json").write_text("{}")
    assert run(monkeypatch, "picture", *given_) == 2
    assert "marks.json" in capsys.readouterr().err


def test_a_sheet_in_inches_gets_the_same_garment(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "marks.json").write_text(json.dumps({"points": drawn(hem=12.0), "answers": {"folds": "hip"}}))
    units = {"cm": "height = 164\nbust_girth = 96", "in": 'unit = "in"\nheight = "164 cm"\nbust_girth = "96 cm"'}
    lengths = []
    for name, wearer in units.items():
        (tmp_path / f"{name}.toml").write_text(f"[wearer]\n{wearer}\n[cloth]\nwidth = 150\n")
        given_ = [str(tmp_path / "marks.json"), str(tmp_path / f"{name}.toml")]
        assert run(monkeypatch, "picture", *given_, "--out", str(tmp_path / name)) == 0
        lengths.append(load_sheet(tmp_path / name / "offer-1.toml").choices.length)
    assert lengths[0] == pytest.approx(lengths[1])


def test_the_page_on_marks_tells_of_every_one() -> None:
    page = (Path(__file__).parents[3] / "docs" / "picture.md").read_text("utf-8")
    words = [*MARKS, *QUESTIONS, *(answer for each in QUESTIONS.values() for answer in each.answers)]
    assert all(f"`{word}`" in page for word in words)
    example = page.split("```json")[1].split("```")[0]
    assert isinstance(read_marks(example.encode()), Marks)
