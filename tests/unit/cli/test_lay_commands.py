"""How lays are told on the command line."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from pathlib import Path

import pytest

from ellwand.cli.reading import interruptible, widths_of
from ellwand.errors import BadInput
from running import run

SHEET = """
wearer = {height = 164, bust_girth = 96, head_girth = 56}
garment = {style = "shift"}
cloth.main = {width = 150, price = 10.0, washed = true}
"""


@pytest.fixture
def shift(tmp_path: Path) -> str:
    path = tmp_path / "shift.toml"
    path.write_text(SHEET, encoding="utf-8")
    return str(path)


def test_a_lay_is_told_with_its_gap_and_what_to_buy(
    shift: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(monkeypatch, "lay", shift, "--seconds", "0") == 0
    said = capsys.readouterr()
    assert "longer than the shortest possible" in said.out or "Proved best" in said.out
    for step in ("for the lay", "to straighten both ends", "found by"):
        assert step in said.out
    assert "cm, by" in said.err


def test_effort_gives_the_same_lay_every_time(
    shift: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    told = []
    for _ in range(2):
        assert run(monkeypatch, "lay", shift, "--effort", "1") == 0
        told.append(capsys.readouterr().out)
    assert told[0] == told[1]


def test_widths_side_by_side(shift: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(monkeypatch, "lay", shift, "--widths", "55, 112, 150", "--seconds", "0") == 0
    out = capsys.readouterr().out
    head, *rows = out.splitlines()
    assert head.split()[:2] == ["width", "the"] and "cost" in head
    assert [row.split()[0] for row in rows[:3]] == ["55", "112", "150"]
    assert "strip" in rows[0] and rows[2].endswith("nothing")


def test_the_common_widths_in_inches(
    shift: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(monkeypatch, "lay", shift, "--widths", "common", "--unit", "in", "--seconds", "0") == 0
    rows = capsys.readouterr().out.splitlines()
    assert [row.split()[0] for row in rows[1:6]] == ["27", "36", "45", "54", "60"]


@pytest.mark.parametrize(
    ("text", "unit", "widths"),
    [("60,90", "cm", (60, 90)), ("60 90", "cm", (60, 90)), ("36, 1.5 m", "in", (91.44, 150)), ("5 ft", "in", None)],
)
def test_reading_widths(text: str, unit: str, widths: tuple[float, ...] | None) -> None:
    if widths is None:
        with pytest.raises(BadInput):
            widths_of(text, "in")
    else:
        assert widths_of(text, "in" if unit == "in" else "cm") == pytest.approx(widths)


@pytest.mark.parametrize("text", ["", "wide", "5", "60,,x", ",".join(["90"] * 13), "nan", "-90"])
def test_no_widths(text: str, shift: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(monkeypatch, "lay", shift, "--widths", text) == 2
    assert "--widths" in capsys.readouterr().err


def test_each_lay_has_its_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = tmp_path / "two.toml"
    sheet.write_text(SHEET.replace("washed = true", 'washed = true, fold = "crosswise"'), encoding="utf-8")
    assert run(monkeypatch, "make", str(sheet), "--out", str(tmp_path / "out"), "--seconds", "0") == 0
    names = {path.name for path in (tmp_path / "out").iterdir()}
    lays = sum(name.startswith("lay") for name in names)
    assert {"lay.svg", "chalk.csv", "card.pdf"} <= names
    assert lays == sum(name.startswith("chalk") for name in names)
    assert {f"lay-{n}.svg" for n in range(2, lays + 1)} <= names


@pytest.fixture
def hearing() -> Iterator[None]:
    """Ctrl-C is heard, even where the tests were begun in the background and are deaf to it."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.mark.usefixtures("hearing")
def test_the_first_ctrl_c_only_asks() -> None:
    with interruptible() as stop:
        assert not stop()
        os.kill(os.getpid(), signal.SIGINT)
        assert stop()
        with pytest.raises(KeyboardInterrupt):
            os.kill(os.getpid(), signal.SIGINT)
