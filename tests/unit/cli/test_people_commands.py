"""The form and the estimates as a newcomer runs them."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pdfplumber
import pytest

from ellwand.asking import asked_for, by_style
from ellwand.loading import load_sheet
from ellwand.measure import read_people, read_raw
from ellwand.model.measurement import FIELDS, MEASUREMENTS
from ellwand.pipeline import prove_sheet
from running import run
from sheets import sheet

CLASS = """Saltmere players: measurements taken in the net loft
Name;Sex;Height (m);Chest (in);Waist (in);Head;Shoe size
Joan Netmaker;f;1,64;37 ¾;32½;56;39
Piers Ferryman;M;1,80;41.5;;;44
Ailith Saltpan;;1,58;;31;55;
"""


def test_estimate_prints_json(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(monkeypatch, "estimate", "height=164", "bust_girth=96", "--sex", "female", "--json") == 0
    doc = json.loads(capsys.readouterr().out)
    assert set(doc["wearer"]) == set(FIELDS)
    assert doc["wearer"]["height"] == {"value": 164, "source": "measured", "sd": 0}
    assert doc["wearer"]["head_girth"]["source"] == "estimated" and doc["wearer"]["head_girth"]["sd"] > 1
    assert doc["questions"] == []


def test_estimate_prints_a_table_in_inches(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(monkeypatch, "estimate", "height=5 ft 6 in", "chest=37 1/2", "--unit", "in") == 0
    table = capsys.readouterr().out
    assert "37 1/2" in table and "estimated" in table and "in inches" in table
    assert "measure this one" in next(line for line in table.splitlines() if line.strip().startswith("head"))


def test_a_slip_is_a_question_and_no_refusal(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    given = ["height=164", "bust_girth=96", "hip_girth=104", "waist_girth=32"]
    assert run(monkeypatch, "estimate", *given, "--json") == 0
    (question,) = json.loads(capsys.readouterr().out)["questions"]
    assert question["field"] == "waist_girth" and "inches" in question["cause"] and "32 in" in question["repair"]
    assert run(monkeypatch, "estimate", *given, "--confirm", "waist_girth", "--json") == 0
    assert json.loads(capsys.readouterr().out)["questions"] == []
    assert run(monkeypatch, "estimate", *given) == 0
    assert "? " in capsys.readouterr().out


def test_a_whole_class_from_a_list(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "class.csv"
    file.write_text(CLASS, encoding="cp1252")
    assert run(monkeypatch, "estimate", "--list", str(file), "--json") == 2
    printed = capsys.readouterr()
    assert [person["name"] for person in json.loads(printed.out)] == ["Joan Netmaker", "Piers Ferryman"]
    assert json.loads(printed.out)[0]["wearer"]["bust_girth"]["value"] == pytest.approx(37.75 * 2.54, abs=0.01)
    assert "Ailith Saltpan" in printed.err and "bust_girth" in printed.err and "Shoe size" in printed.err
    assert run(monkeypatch, "estimate", "--list", str(file)) == 2
    assert "Ailith Saltpan" in capsys.readouterr().out


def test_a_sheet_takes_its_wearer_from_a_list(tmp_path: Path) -> None:
    (tmp_path / "class.csv").write_text(CLASS, encoding="utf-8")
    made = tmp_path / "joan.toml"
    made.write_text('wearer = {list = "class.csv", name = "joan netmaker"}\ncloth.main = {width = 150}\n')
    garment = prove_sheet(load_sheet(made))
    assert garment.wearer.name == "Joan Netmaker" and garment.wearer["height"] == pytest.approx(164)


@pytest.mark.parametrize(
    ("wearer", "said"),
    [
        ('{list = "class.csv", name = "Jaon Netmaker"}', "Joan Netmaker"),
        ('{list = "class.csv"}', "a file and a name"),
        ('{list = "none.csv", name = "Joan"}', "no such file"),
    ],
)
def test_a_wearer_who_is_not_in_the_list_is_named(
    wearer: str, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "class.csv").write_text(CLASS, encoding="utf-8")
    made = tmp_path / "joan.toml"
    made.write_text(f"wearer = {wearer}\ncloth.main = {{width = 150}}\n")
    assert run(monkeypatch, "prove", str(made)) == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_the_form_filled_in_by_hand_comes_back(unit: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every column of the form's list, typed into, is read as what it is headed."""
    (tmp_path / "class.csv").write_text("name,height\nJoan Netmaker,164\nPiers Ferryman,180\n")
    arguments = ["form", "--list", str(tmp_path / "class.csv"), "--unit", unit, "--out", str(tmp_path)]
    assert run(monkeypatch, *arguments) == 0
    with pdfplumber.open(tmp_path / "measuring-form.pdf") as paper:
        texts = [page.extract_text() for page in paper.pages]
    assert len(texts) == 2 and "Joan Netmaker" in texts[0] and "Piers Ferryman" in texts[1]
    head, joan, piers = csv.reader(io.StringIO((tmp_path / "measurements.csv").read_text("utf-8")))
    filled = [cell or str(40 + i) for i, cell in enumerate(joan)]
    filled[head.index("age")] = filled[head.index("sex")] = ""
    typed = io.StringIO()
    csv.writer(typed).writerows([head, filled, piers])
    first, second = read_people(typed.getvalue().encode()).tables
    assert {**second, "unit": unit} == {"name": "Piers Ferryman", "unit": unit}
    raw = read_raw(first)
    assert set(raw.values) == set(MEASUREMENTS) and set(raw.arms) == {"left", "right"}
    at = {name: i for i, name in enumerate(FIELDS)}
    scale = 1 if unit == "cm" else 2.54
    start = next(i for i, label in enumerate(head) if label.startswith("1 "))
    assert all(raw.values[name] == pytest.approx((40 + start + at[name]) * scale, abs=0.01) for name in FIELDS)


def test_a_garment_asks_for_what_decides_its_pieces() -> None:
    tunic = asked_for(sheet())
    assert {"height", "bust_girth", "arm_length", "neck_base_girth", "head_girth", "hand_girth"} <= set(tunic)
    assert "calf_girth" not in tunic and "foot_girth" not in tunic
    sleeveless = asked_for(sheet({"sleeve": {"shape": "none"}, "neck": {"shape": "round"}}))
    assert not {"arm_length", "hand_girth", "wrist_girth", "upper_arm_girth", "neck_base_girth"} & set(sleeveless)
    assert "head_girth" in sleeveless


def test_the_page_of_what_is_asked_for_is_up_to_date() -> None:
    page = Path(__file__).parents[3] / "docs" / "asked.md"
    assert page.read_text(encoding="utf-8") == by_style()
