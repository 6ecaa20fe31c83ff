"""The commands as a newcomer runs them."""

from __future__ import annotations

import json
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from ellwand.cli.writing import write_whole
from independent import faults
from running import run

EXAMPLES = Path(__file__).parents[3] / "src" / "ellwand" / "examples"
FILES = {"card.pdf", "garment.json", "pieces.svg", "lay.svg", "chalk.csv", "sewing.md"}
FILES |= {"pattern.pdf", "pattern-letter.pdf", "pattern-long.pdf", "pattern.dxf", "pattern-cutter.dxf", "pattern.svg"}
FILES |= {"sewing.pdf", "handout.pdf", "workbook.pdf", "workbook-booklet.pdf", "garment.svg", "exploded.svg"}
FILES |= {"pieces.csv", "shopping.csv", "steps.csv", "tables.md"}
LONGER = {"pattern-long-2.pdf"}
"""A second sheet from the roll, where the garment is large."""
HERALD = {"lay-2.svg", "lay-3.svg", "chalk-2.csv", "chalk-3.csv", "stencils.pdf", "stencil-1.svg"}
"""Of three cloths and a stencil."""


@pytest.mark.parametrize("example", sorted(path.stem for path in EXAMPLES.glob("*.toml")))
def test_make_writes_everything(
    example: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    sheet = EXAMPLES / f"{example}.toml"
    assert run(monkeypatch, "make", str(sheet), "--out", str(tmp_path), "--seconds", "1", "--seed", "3") == 0
    also = HERALD if example == "osric-bellman" else set()
    assert {path.name for path in tmp_path.iterdir()} - LONGER == FILES | also
    doc = json.loads((tmp_path / "garment.json").read_text(encoding="utf-8"))
    assert faults(doc) == []
    assert (tmp_path / "card.pdf").read_bytes().startswith(b"%PDF")
    assert "to buy" in capsys.readouterr().out


def test_prove_prints_garment_json_without_lays(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(monkeypatch, "prove", str(EXAMPLES / "joan-netmaker.toml"), "--json") == 0
    doc = json.loads(capsys.readouterr().out)
    assert doc["schema"] == "ellwand/1" and "lays" not in doc
    assert {check["outcome"] for check in doc["checks"]} <= {"sound", "look again", "will not work"}


def test_what_will_not_work_exits_1_and_is_still_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    sheet = tmp_path / "short.toml"
    sheet.write_text(
        "wearer = {height = 164, bust_girth = 96, head_girth = 56}\ncloth.main = {width = 150, length = 100}\n"
    )
    assert run(monkeypatch, "make", str(sheet), "--out", str(tmp_path / "out"), "--seconds", "0") == 1
    assert {path.name for path in (tmp_path / "out").iterdir()} - LONGER == FILES
    assert "will not work" in capsys.readouterr().out


def test_lay_prints_a_table(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(monkeypatch, "lay", str(EXAMPLES / "wat-lanternboy.toml"), "--seconds", "0") == 0
    assert "sleeve" in capsys.readouterr().out


@pytest.mark.parametrize(
    "arguments",
    [
        ["make", str(EXAMPLES / "joan-netmaker.toml"), "--seconds", "0", "--out"],
        ["form", str(EXAMPLES / "joan-netmaker.toml"), "--out"],
        ["estimate", "height=164", "bust_girth=96"],
    ],
    ids=lambda arguments: arguments[0],
)
def test_nothing_goes_over_the_network(arguments: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def closed(*_: object, **__: object) -> None:
        raise AssertionError("a socket was opened")

    monkeypatch.setattr(socket, "socket", closed)
    monkeypatch.setattr(socket, "create_connection", closed)
    monkeypatch.setattr(socket, "getaddrinfo", closed)
    out = [str(tmp_path)] if arguments[-1] == "--out" else []
    assert run(monkeypatch, *arguments, *out) == 0


def test_help_loads_no_heavy_part() -> None:
    """What makes ``--help`` slow is loading these; a clock would only say so on a quiet machine."""
    heavy = ("numpy", "scipy", "shapely", "typst", "spyrrow")
    code = f"import sys, ellwand.cli.app; print([m for m in {heavy} if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_file_is_the_old_one_or_the_new_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "card.pdf"
    write_whole(target, b"old")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OSError, match="No space"):
        write_whole(target, b"new" * 1000)
    assert target.read_bytes() == b"old"
    assert [path.name for path in tmp_path.iterdir()] == ["card.pdf"]
