"""People on the bench: measured, asked about, kept with their history, and nobody's markup believed."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest
from starlette.testclient import TestClient

from ellwand.keep import Person, every, get, history
from ellwand.model.measurement import FIELDS
from ellwand.web.measured import answers, table_of
from survey import NAMES, survey_fields

SIB = {"name": "Sib Ropewalker", "height": "168", "bust_girth": "92", "head_girth": "56"}


def store(bench: TestClient):
    return bench.app.state.store


def kept(bench: TestClient, **more: str) -> str:
    answer = bench.post("/people", data={**SIB, **more}, follow_redirects=False)
    assert answer.status_code == 303
    return answer.headers["location"].split("/")[2].split("?")[0]


def test_someone_is_measured_and_kept(bench: TestClient) -> None:
    id = kept(bench, unit="in", height="5 ft 6 in", bust_girth="36 1/4", head_girth="22")
    person = get(store(bench), Person, id)
    assert person.table["bust_girth"] == "36 1/4"
    assert "Sib Ropewalker" in bench.get("/people").text
    # on the bench plain numbers are still inches, whatever the bench's unit is
    assert "Tunic for Sib Ropewalker" in bench.get(f"/?who={id}").text
    assert bench.get(f"/?who={id}&unit=in").status_code == 200


def test_what_is_wrong_comes_back_whole_with_the_sentence_at_its_field(bench: TestClient) -> None:
    answer = bench.post("/people", data={**SIB, "waist_girth": "wide", "neck_girth": "35"})
    assert answer.status_code == 422
    assert 'value="wide"' in answer.text
    assert 'value="35"' in answer.text
    assert re.search(r'id="m-waist_girth"[^>]*aria-invalid="true"', answer.text)
    assert every(store(bench), Person) == ()


def test_every_measurement_has_a_label_and_its_picture(bench: TestClient) -> None:
    text = bench.get("/people/new").text
    for field in FIELDS:
        assert f'<label for="m-{field}">' in text
        picture = bench.get(f"/people/tape/{field}.svg")
        assert picture.headers["content-type"] == "image/svg+xml"
        assert f'data-field="{field}"' in text
    assert bench.get("/people/tape/nose.svg").status_code == 404


def test_likely_slips_are_asked_about_and_can_be_answered(bench: TestClient) -> None:
    slip = {**SIB, "waist_girth": "174"}
    news = bench.post("/people/check", data=slip).json()
    assert "Is it so?" in news["answers"]["waist_girth"]
    assert "likely" in news["answers"]["neck_girth"]
    assert "Is it so?" not in news["answers"]["height"]
    sure = bench.post("/people/check", data={**slip, "confirmed": "waist_girth"}).json()
    assert "◐" not in sure["answers"]["waist_girth"]
    assert "checked" in sure["answers"]["waist_girth"]


def test_estimates_hold_what_was_measured_nine_times_in_ten() -> None:
    """On real bodies (the survey in src/ellwand/measure/PROVENANCE.md), whose waist is left out and estimated."""
    bodies = [dict(zip(NAMES, map(float, row), strict=True)) for row in survey_fields("female")[::40]]
    inside = 0
    for body in bodies:
        given = {"sex": "female", **{key: f"{body[key]:.1f}" for key in ("height", "bust_girth", "hip_girth")}}
        low, high = map(float, re.findall(r"\d+", answers(table_of(list(given.items()))).likely["waist_girth"]))
        inside += low - 0.5 <= body["waist_girth"] <= high + 0.5
    assert 0.84 < inside / len(bodies) < 0.98


def test_two_windows_lose_nothing(bench: TestClient) -> None:
    id = kept(bench)
    first = bench.post(f"/people/{id}", data={**SIB, "hip_girth": "99", "based": "1"}, follow_redirects=False)
    assert first.status_code == 303
    later = bench.post(f"/people/{id}", data={**SIB, "hip_girth": "101", "based": "1"}, follow_redirects=False)
    assert later.status_code == 409
    assert "99" in later.text
    assert "101" in later.text
    # the page's own ways: mine over theirs, or beside
    assert '<input type="hidden" name="based" value="2">' in later.text
    bench.post(f"/people/{id}", data={**SIB, "hip_girth": "101", "based": "2"})
    bench.post("/people", data={**SIB, "hip_girth": "103"})
    assert [each.table.get("hip_girth") for each in history(store(bench), Person, id)] == ["101", "99", None]
    assert len(every(store(bench), Person)) == 2


def test_what_was_measured_before_can_be_gone_back_to(bench: TestClient) -> None:
    id = kept(bench)
    bench.post(f"/people/{id}", data={**SIB, "height": "170", "based": "1"})
    text = bench.get(f"/people/{id}/history").text
    assert "168 → 170" in text
    bench.post(f"/people/{id}/back", data={"version": "1"})
    assert get(store(bench), Person, id).table["height"] == "168"


def test_thrown_away_and_taken_out_again(bench: TestClient) -> None:
    id = kept(bench)
    page = bench.post(f"/people/{id}/throw")
    assert "lies in the waste basket" in page.text
    assert every(store(bench), Person) == ()
    bench.post(f"/people/{id}/take-out")
    assert [each.id for each in every(store(bench), Person)] == [id]


def test_sheets_and_lists_come_in_and_go_out(bench: TestClient) -> None:
    rows = "name;Height (in);Chest (in)\nHob;70;40\nWat;58 1/2;30\n"
    page = bench.post("/people/take-in", files={"file": ("people.csv", rows.encode("utf-8-sig"))})
    assert "2 people were taken in" in page.text
    hob = next(each for each in every(store(bench), Person) if each.name == "Hob")
    sheet = bench.get(f"/people/{hob.id}/sheet.toml")
    again = bench.post("/people/take-in", files={"file": ("hob.toml", sheet.content)})
    assert "1 person was taken in" in again.text
    same = [each.table for each in every(store(bench), Person) if each.name == "Hob"]
    assert same[0] == same[1]
    for name, data in (
        ("x.toml", b"[wearer"),
        ("x.toml", b"\xff"),
        ("x.csv", b"\0\1\2"),
        ("x.csv", b"a,b\n1,2\n"),
        ("x", b""),
    ):
        refused = bench.post("/people/take-in", files={"file": (name, data)})
        assert refused.status_code == 400
        assert len(every(store(bench), Person)) == 3


@pytest.mark.parametrize("name", ["", "  ", "\u202eevil", "x" * 200, "a\0b"])
def test_a_name_that_cannot_be_read_is_refused_in_one_sentence(bench: TestClient, name: str) -> None:
    answer = bench.post("/people", data={**SIB, "name": name})
    assert answer.status_code == 422
    assert 'id="m-name"' in answer.text


@pytest.mark.parametrize(
    "name",
    [
        "<script>alert(1)</script>",
        '"><img src=x>',
        "{{ 7*7 }}",
        "שרה",
        "李",
        "🧵" * 20,
        "علی\u200cرضا",
        "👩\u200d🌾",
        "x" * 199,
        "%s{0}",
    ],
)
def test_a_name_is_text_everywhere(bench: TestClient, name: str) -> None:
    id = kept(bench, name=name)
    pages = ["/people", f"/people/{id}", f"/people/{id}/history", f"/?who={id}", f"/people/{id}/erase"]
    pages += [f"/cloth-side?who={id}", f"/papers?who={id}"]
    for path in pages:
        answer = bench.get(path)
        assert answer.status_code == 200
        seen = _Tags()
        seen.feed(answer.text)
        assert seen.tags.isdisjoint({"img src=x", "script alert"})
        assert "<script>alert" not in answer.text
        assert "{{" not in answer.text or name.startswith("{{")
        assert ">49<" not in answer.text


class _Tags(HTMLParser):
    """Elements that no page of ours has."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "img" and ("src", "x") in attrs:
            self.tags.add("img src=x")
        if tag == "script" and not any(key == "src" for key, _ in attrs):
            self.tags.add("script alert")
