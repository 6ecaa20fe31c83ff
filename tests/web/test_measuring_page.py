"""The measuring page: nothing typed is lost on it, and what a maker says of a body is believed."""

from __future__ import annotations

import io
import re
import tomllib
from html import unescape

import pdfplumber
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from ellwand.measure import read_raw
from ellwand.model.measurement import FIELDS
from ellwand.web.making import demo_people

HOB = {"name": "Hob Carter", "sex": "male", "unit": "cm", "height": "178", "bust_girth": "102", "head_girth": "58"}


def kept(bench: TestClient, **more: str) -> str:
    """The address of a person kept."""
    answer = bench.post("/people", data={**HOB, **more}, follow_redirects=False)
    assert answer.status_code == 303
    # no measurement stands in it
    assert re.fullmatch(r"/people/p[0-9a-f]{16}\?saved", answer.headers["location"])
    return str(answer.headers["location"]).partition("?")[0]


def based(bench: TestClient, address: str) -> str:
    return str(re.findall(r'name="based" value="(\d+)"', bench.get(address).text)[0])


def table_of(bench: TestClient, address: str) -> dict[str, object]:
    wearer: dict[str, object] = tomllib.loads(bench.get(f"{address}/sheet.toml").text)["wearer"]
    return wearer


def test_what_was_typed_is_kept_as_typed_and_nothing_estimated_with_it(bench: TestClient) -> None:
    inches = {"unit": "in", "height": "70 1/8", "bust_girth": "40", "head_girth": "22 3/4"}
    address = kept(bench, **inches, waist_girth="")
    wearer = table_of(bench, address)
    assert wearer == {"name": "Hob Carter", "sex": "male", **inches}
    assert read_raw(wearer).values["height"] == pytest.approx(70.125 * 2.54)


@pytest.mark.parametrize("wrong", [{"name": " "}, {"height": ""}, {"age": "1"}, {"unit": "ell"}, {"name": "W" * 200}])
def test_what_cannot_be_kept_says_why(bench: TestClient, wrong: dict[str, str]) -> None:
    answer = bench.post("/people", data={**HOB, **wrong})
    assert answer.status_code == 422
    assert 'role="alert"' in answer.text
    assert "Nobody is kept yet." in bench.get("/people").text


@pytest.mark.parametrize("language", ["en", "de"])
def test_an_answer_speaks_of_boxes_and_names_not_of_keys(bench: TestClient, language: str) -> None:
    bench.cookies.set("language", language)
    slips = [{"waist_girth": "58"}, {"height": "80"}, {"knee_to_floor": "90", "waist_to_floor": "80"}, {"age": "5"}]
    slips += [{"neck_girth": "58", "head_girth": "38"}, {"hip_girth": "41"}, {"bust_girth": "18"}]
    for slip in slips:
        told = bench.post("/people/check", data={**HOB, **slip}).json()
        assert told["said"]
        for html in told["answers"].values():
            text = re.sub(r"<[^>]*>", "", unescape(html))
            assert "confirmed" not in text
            assert "_" not in text


@pytest.mark.parametrize("slip", [{"waist_girth": "58"}, {"height": "85"}, {"age": "5"}])
def test_a_body_is_believed_once_its_maker_says_that_it_is_so(bench: TestClient, slip: dict[str, str]) -> None:
    given = {**HOB, **slip}
    asked = bench.post("/people/check", data=given).json()
    boxes = re.findall(r'name="confirmed" value="([a-z_]+)"', " ".join(asked["answers"].values()))
    assert boxes
    sure = bench.post("/people/check", data={**given, "confirmed": boxes}).json()
    assert sure["wrong"] == ""
    place = "age" if "age" in slip else boxes[0]
    assert "Is it so?" not in sure["answers"][place]
    address = kept(bench, **slip, confirmed=boxes[0])
    assert f'value="{boxes[0]}" checked' in bench.get(address).text
    assert table_of(bench, address)["confirmed"] == boxes


def test_a_whole_list_in_another_unit_is_asked_about_once_and_can_be_so(bench: TestClient) -> None:
    inches = {"height": "70", "bust_girth": "45", "waist_girth": "43", "hip_girth": "46", "neck_girth": "16"}
    list_ = {"name": "Hob", "unit": "cm", "age": "14", **inches}
    told = bench.post("/people/check", data=list_).json()
    assert 'name="confirmed" value="unit"' in told["answers"]["unit"]
    sure = bench.post("/people/check", data={**list_, "confirmed": "unit"}).json()
    assert "Is it so?" not in sure["answers"]["unit"]


def test_no_word_makes_an_impossible_body(bench: TestClient) -> None:
    told = bench.post("/people/check", data={**HOB, "height": "1780"}).json()
    assert told["wrong"] == "height"
    assert "checkbox" not in told["answers"]["height"]
    assert bench.post("/people", data={**HOB, "height": "1780", "confirmed": "height"}).status_code == 422


def test_a_stale_saves_own_forms_lose_nothing(bench: TestClient) -> None:
    address = kept(bench)
    old = based(bench, address)
    bench.post(address, data={**HOB, "waist_girth": "91", "based": old})
    mine = {**HOB, "waist_girth": "93", "hip_girth": "104", "confirmed": "hip_girth", "based": old}
    answer = bench.post(address, data=mine)
    assert answer.status_code == 409
    assert "<td>91</td><td>93</td>" in answer.text
    assert table_of(bench, address)["waist_girth"] == "91"
    over, beside = re.findall(r'<form method="post" action="(/people[^"]*)">(.*?)</form>', answer.text, re.S)
    hidden = r'name="([^"]*)" value="([^"]*)"'
    new = bench.post(beside[0], data=dict(re.findall(hidden, beside[1]))).url.path
    bench.post(over[0], data=dict(re.findall(hidden, over[1])))
    assert table_of(bench, new) == table_of(bench, address)
    assert table_of(bench, address)["confirmed"] == ["hip_girth"]
    assert "91 → 93" in bench.get(f"{address}/history").text


def test_a_version_that_is_none_is_not_gone_back_to(bench: TestClient) -> None:
    address = kept(bench)
    for wrong in ("", "x", "999", "9" * 30):
        assert bench.post(f"{address}/back", data={"version": wrong}).status_code == 404


def test_a_copy_of_the_demos_people_loses_nothing_on_the_form(bench: TestClient) -> None:
    for who, table in demo_people().items():
        address = str(bench.post(f"/people/demo/{who}").url.path)
        text = bench.get(address).text
        data = dict(re.findall(r'<input id="m-[a-z_]+" name="([a-z_]+)" value="([^"]*)"', text))
        data |= dict(
            re.findall(r'<select id="m-[a-z]+" name="([a-z]+)">(?:(?!</select>).)*?value="([a-z]+)" sel', text, re.S)
        )
        sure = re.findall(r'name="confirmed" value="([a-z_]+)" checked', text)
        given = {key: unescape(value) for key, value in data.items()}
        bench.post(address, data={**given, "confirmed": sure, "based": based(bench, address)})
        assert read_raw(table_of(bench, address)) == read_raw(table)
    assert bench.post("/people/demo/nobody").status_code == 400


def test_a_sheets_own_words_become_those_of_the_form(bench: TestClient) -> None:
    table = b'[wearer]\nname = "Ibb"\nheight = 158\nchest_girth = "36 1/2 in"\nconfirmed = "chest_girth"\n'
    text = bench.post("/people/take-in", files={"file": ("IBB.TOML", table)}).text
    address = re.findall(r'class="name" href="(/people/p[^"]*)"', text)[0]
    assert 'name="bust_girth" value="36 1/2 in"' in bench.get(address).text
    assert read_raw(table_of(bench, address)) == read_raw(tomllib.loads(table.decode())["wearer"])


def test_a_list_is_taken_in_whole_or_not_at_all(bench: TestClient) -> None:
    bad = "Name,Height (cm),Chest (in)\nAnn,164,38\nWat,1760,40\n"
    assert bench.post("/people/take-in", files={"file": ("b.csv", bad.encode())}).status_code == 400
    assert "Nobody is kept yet." in bench.get("/people").text


FILES = st.one_of(
    st.binary(max_size=100),
    st.text(max_size=60).map(lambda text: f"[wearer]\nheight = {text}".encode()),
    st.sampled_from([b"wearer = 3", b"[[wearer]]", b"wearer = {height = 1979-05-27}", b"wearer = {height = nan}"]),
)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(FILES, st.sampled_from(["x.toml", "x.csv"]))
def test_any_file_is_taken_in_or_refused_with_a_sentence(bench: TestClient, data: bytes, name: str) -> None:
    assert bench.post("/people/take-in", files={"file": (name, data)}).status_code in (200, 400)


PAIRS = st.dictionaries(
    st.sampled_from([*FIELDS, "name", "sex", "age", "unit", "confirmed", "left_arm_length", "based"]),
    st.one_of(st.integers(0, 300).map(str), st.text(max_size=70)),
    max_size=8,
)


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(PAIRS)
def test_any_form_is_kept_or_comes_back(bench: TestClient, pairs: dict[str, str]) -> None:
    assert bench.post("/people/check", data=pairs).status_code == 200
    assert bench.post("/people", data=pairs, follow_redirects=False).status_code in (303, 422)


@pytest.mark.parametrize(("unit", "wide"), [("cm", 595.28), ("in", 612.0)])
def test_the_form_to_print_is_on_the_units_own_paper(bench: TestClient, unit: str, wide: float) -> None:
    with pdfplumber.open(io.BytesIO(bench.get(f"/people/form.pdf?unit={unit}").content)) as made:
        assert float(made.pages[0].width) == pytest.approx(wide, abs=0.5)
