"""Broken sheets: each is refused with exit 2 and one sentence that says where, and nothing is written."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from ellwand.cli import main

WEARER = "wearer = {height = 164, bust_girth = 96}\n"
CLOTH = "cloth.main = {width = 150}\n"


def garment(text: str) -> str:
    return f"{WEARER}garment = {{{text}}}\n{CLOTH}"


# what is written -> a word of the sentence that must be said
BROKEN: dict[str, tuple[str | bytes, str]] = {
    "empty file": ("", "[wearer]"),
    "binary": (bytes(range(256)), "UTF-8"),
    "zeros": (b"\0" * 2000, "cannot be read"),
    "not TOML": ("this is no sheet", "cannot be read"),
    "too large": ("#" + "x" * 1_100_000, "too large"),
    "deep nesting": ("a = " + "[" * 5000 + "]" * 5000, "nested"),
    "unknown table": (WEARER + CLOTH + "garmnet = {}\n", '"garment"'),
    "wearer missing": (CLOTH, "[wearer]"),
    "wearer no table": ("wearer = 3\n" + CLOTH, "table"),
    "height missing": ("wearer = {bust_girth = 96}\n" + CLOTH, "height"),
    "bust missing": ("wearer = {height = 170}\n" + CLOTH, "bust_girth"),
    "height negative": ("wearer = {height = -164, bust_girth = 96}\n" + CLOTH, "height"),
    "height nan": ("wearer = {height = nan, bust_girth = 96}\n" + CLOTH, "finite"),
    "height inf": ("wearer = {height = inf, bust_girth = 96}\n" + CLOTH, "finite"),
    "height 1e9": ("wearer = {height = 1e9, bust_girth = 96}\n" + CLOTH, "height"),
    "height zero": ("wearer = {height = 0, bust_girth = 96}\n" + CLOTH, "height"),
    "height in inches": ("wearer = {height = 64, bust_girth = 38}\n" + CLOTH, 'unit = "in"'),
    "height true": ("wearer = {height = true, bust_girth = 96}\n" + CLOTH, "height"),
    "height a list": ("wearer = {height = [1], bust_girth = 96}\n" + CLOTH, "height"),
    "wrong unit in value": ('wearer = {height = "164 ells", bust_girth = 96}\n' + CLOTH, "ells"),
    "unknown unit": ('wearer = {unit = "ell", height = 164, bust_girth = 96}\n' + CLOTH, "unit"),
    "unknown measurement": ("wearer = {height = 164, bust_girt = 96}\n" + CLOTH, "bust_girth"),
    "unknown sex": ('wearer = {sex = "cat", height = 164, bust_girth = 96}\n' + CLOTH, "female"),
    "cloth missing": (WEARER, "[cloth.main]"),
    "cloth without width": (WEARER + "cloth.main = {nap = true}\n", "width"),
    "cloth negative": (WEARER + "cloth.main = {width = -150}\n", "width"),
    "cloth a number": (WEARER + "cloth = 150\n", "cloth"),
    "cloth all selvedge": (WEARER + "cloth.main = {width = 20, selvedge = 10}\n", "selvedge"),
    "cloth shrinks away": (WEARER + "cloth.main = {width = 150, shrink_warp = 1.5}\n", "shrink_warp"),
    "cloth nap a word": (WEARER + 'cloth.main = {width = 150, nap = "yes"}\n', "true or false"),
    "cloth unknown key": (WEARER + "cloth.main = {width = 150, nip = true}\n", '"nap"'),
    "two cloths": (WEARER + "cloth = {main = {width = 150}, other = {width = 90}}\n", "keep one"),
    "remnants no list": (WEARER + "cloth = {main = {width = 150}, remnants = 3}\n", "remnants"),
    "remnant without length": (WEARER + "cloth = {main = {width = 150}, remnants = [{width = 30}]}\n", "length"),
    "unknown style": (garment('style = "tunik"'), '"tunic"'),
    "style a number": (garment("style = 3"), "style"),
    "unknown garment key": (garment('lenght = "knee"'), '"length"'),
    "unknown body key": (garment("body = {eas = 3}"), '"ease"'),
    "body no table": (garment("body = 3"), "table"),
    "unknown cut": (garment('body = {cut = "wide"}'), "shoulder panels"),
    "unknown landmark": (garment('length = "shin"'), "mid-calf"),
    "length nan": (garment("length = nan"), "finite"),
    "length too short": (garment("length = 31"), "garment.length"),
    "range backwards": (garment("length = [120, 90]"), "least first"),
    "range of three": (garment("length = [90, 100, 110]"), "range"),
    "ease negative": (garment("body = {ease = -5}"), "garment.body.ease"),
    "ease huge": (garment("body = {ease = 1e9}"), "garment.body.ease"),
    "flare on wide panels": (garment("body = {flare = 20}"), "flare"),
    "gores no list": (garment('gores = {place = "side"}'), "gores"),
    "gore place": (garment('gores = [{place = "back"}]'), "garment.gores[1].place"),
    "gore above the waist": (garment('gores = [{place = "side", start = 90}]'), "above the waist"),
    "gore where no seam is": (garment('gores = [{place = "side-front"}]'), "side-front"),
    "gore too wide": (garment('gores = [{place = "side", start = 20, base = 80}]'), "too wide"),
    "split between gore and panel": (
        garment(
            'gores = [{place = "side", start = 20, base = 10}, {place = "side", start = 30, base = 10}],'
            ' splits = [{place = "side", height = 25}]'
        ),
        "between a gore and its panel",
    ),
    "blunt gore in a slit": (garment('gores = [{place = "centre-front", top = 6}]'), "wants a slot"),
    "sloped fold": (garment("body = {shoulder_slope = 3}"), "no seam to slope"),
    "train in the air": (garment('length = "knee", train = 20'), "down to the floor"),
    "gore at the hip of a hip-long shirt": (garment('length = "hip", gores = [{place = "side"}]'), "hem lies"),
    "split in a whole gore": (
        garment('gores = [{place = "side", make = "whole"}], splits = [{place = "side", height = 20}]'),
        "whole gore",
    ),
    "split past the top": (garment('splits = [{place = "side", height = 150}]'), "runs past"),
    "split twice": (garment('splits = [{place = "side"}, {place = "side"}]'), "twice"),
    "sleeve shape": (garment('sleeve = {shape = "puffed"}'), "fitted forearm"),
    "sleeve too short": (garment('sleeve = {length = "cap"}, body = {ease = 60}'), "sleeve"),
    "cuff too close": (garment("sleeve = {cuff = 10}"), "closer than the arm"),
    "cuff wider than a tapered top": (garment("sleeve = {cuff = 90}"), "wide"),
    "straight with a cuff": (garment('sleeve = {shape = "straight", cuff = 25}'), "straight"),
    "gusset too large": (garment("sleeve = {gusset = 40, length = 20}"), "gusset"),
    "keyhole without slit": (garment('neck = {shape = "keyhole", slit = "none"}'), "keyhole"),
    "neck wider than the shoulders": (garment('neck = {shape = "round", ease = 90}'), "wider than the shoulders"),
    "closure without slit": (garment('neck = {shape = "round"}, closures = [{at = "neck slit"}]'), "no neck slit"),
    "closure place": (garment('closures = [{at = "elbow"}]'), "cuffs"),
    "date": (garment("date = 12000"), "date"),
    "over itself": (garment('over = ["sheet.toml"]'), "circle"),
    "over a missing sheet": (garment('over = ["nowhere.toml"]'), "no such file"),
    "chalk of a metre": (WEARER + CLOTH + "sewing = {chalk = 100}\n", "sewing.chalk"),
    "allowance text": (WEARER + CLOTH + 'sewing = {allowance = "wide"}\n', "sewing.allowance"),
    "cloth narrower than a piece": (
        WEARER + "garment = {body = {pieced = 'never'}}\ncloth.main = {width = 40}\n",
        "wide",
    ),
}


def run(arguments: list[str], monkeypatch: pytest.MonkeyPatch) -> int:
    monkeypatch.setattr(sys, "argv", ["ellwand", *arguments])
    with pytest.raises(SystemExit) as stop:
        main()
    assert isinstance(stop.value.code, int)
    return stop.value.code


def test_there_are_enough_broken_sheets() -> None:
    assert len(BROKEN) >= 40


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_sheet_is_refused_in_one_sentence(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    text, word = BROKEN[name]
    sheet, out = tmp_path / "sheet.toml", tmp_path / "out"
    sheet.write_bytes(text if isinstance(text, bytes) else text.encode())
    assert run(["make", str(sheet), "--out", str(out), "--seconds", "0"], monkeypatch) == 2
    said = [line for line in capsys.readouterr().err.splitlines() if not line.startswith(("drafting", "laying"))]
    assert len(said) == 1, said
    assert word in said[0] and "sheet.toml" in said[0] and said[0].endswith(".")
    assert "Traceback" not in said[0]
    assert len(said[0]) < 420
    assert not out.exists()


@pytest.mark.parametrize("arguments", [["make", "nowhere.toml"], ["make", "."], ["prove", "nowhere.toml", "--json"]])
def test_a_missing_file_is_named(
    arguments: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(arguments, monkeypatch) == 2
    assert arguments[1] in capsys.readouterr().err


@pytest.mark.parametrize(
    "arguments",
    [["make"], ["mkae", "x"], ["make", "x", "--unit", "ell"], ["make", "x", "--seconds", "-1"], ["estimate", "height"]],
)
def test_a_wrong_call_is_refused_in_one_line(
    arguments: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(arguments, monkeypatch) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1
