"""Garments, cloths and sheets kept from the bench: nothing is lost, and a sheet that goes out comes in the same."""

from __future__ import annotations

import tomllib
from importlib import resources
from urllib.parse import parse_qs, urlsplit

import pytest
from starlette.datastructures import QueryParams
from starlette.testclient import TestClient

from ellwand import garment_json
from ellwand.keep import KeptCloth, KeptGarment, every, get, history
from ellwand.pipeline import prove_sheet
from ellwand.web.making import garment_for
from ellwand.web.state import read_state
from ellwand.web.work.at_once import sheet_of

EXAMPLES = sorted(
    file.name for file in resources.files("ellwand").joinpath("examples").iterdir() if file.name.endswith(".toml")
)


def store(bench: TestClient):
    return bench.app.state.store


def keep(bench: TestClient, query: str, **more: str) -> str:
    """The address of the bench after a save."""
    answer = bench.post("/garments", data={"query": query, **more}, follow_redirects=False)
    assert answer.status_code == 303
    return answer.headers["location"].removeprefix("/?")


def test_kept_changed_copied_and_gone_back_to(bench: TestClient) -> None:
    first = keep(bench, "garment.length=mid-calf", way="new", name="Feast tunic")
    id = parse_qs(first)["garment"][0]
    assert "Kept as Feast tunic" in bench.get(f"/?{first}").text
    changed = first.replace("mid-calf", "ankle")
    assert "1 choice differs" in bench.get(f"/?{changed}").text
    second = keep(bench, changed)
    assert parse_qs(second)["based"] == ["2"]
    assert "mid-calf → ankle" in bench.get(f"/garments/{id}/history").text
    bench.post(f"/garments/{id}/undo")
    assert get(store(bench), KeptGarment, id).fields["garment.length"] == "mid-calf"
    bench.post(f"/garments/{id}/back", data={"version": "2"})
    assert get(store(bench), KeptGarment, id).fields["garment.length"] == "ankle"
    assert len(history(store(bench), KeptGarment, id)) == 4
    bench.post(f"/garments/{id}/copy")
    assert [each.name for each in every(store(bench), KeptGarment)] == ["Feast tunic", "Feast tunic, copy"]
    assert "Take out again" in bench.post(f"/garments/{id}/throw").text
    bench.post(f"/garments/{id}/take-out")
    assert len(every(store(bench), KeptGarment)) == 2


def test_the_later_of_two_windows_is_told_and_both_can_be_kept(bench: TestClient) -> None:
    base = keep(bench, "garment.length=knee", way="new", name="Tunic")
    keep(bench, base + "&garment.layer=outer")
    late = bench.post("/garments", data={"query": base + "&garment.layer=skin"}, follow_redirects=False)
    assert late.status_code == 409
    assert "outermost" in late.text
    assert "next to the skin" in late.text
    id = parse_qs(base)["garment"][0]
    assert get(store(bench), KeptGarment, id).fields["garment.layer"] == "outer"
    keep(bench, base.replace("based=1", "based=2") + "&garment.layer=skin")
    assert [each.fields.get("garment.layer") for each in history(store(bench), KeptGarment, id)] == [
        "skin",
        "outer",
        None,
    ]


def test_two_beside_each_other_tell_only_what_differs(bench: TestClient) -> None:
    one = parse_qs(keep(bench, "garment.length=ankle", way="new", name="Long"))["garment"][0]
    other = parse_qs(keep(bench, "garment.length=ankle&unit=in", way="new", name="Same"))["garment"][0]
    assert "They are chosen alike" in bench.get(f"/garments/compare?a={one}&b={other}").text
    text = bench.get(f"/garments/compare?a={one}&garment.length=knee").text
    assert "ankle" in text
    assert "Pieces that differ" in text
    assert "They are chosen alike" not in text


def test_what_cannot_be_drawn_is_not_kept(bench: TestClient) -> None:
    answer = bench.post("/garments", data={"query": "garment.body.ease=-900", "way": "new", "name": "x"})
    assert answer.status_code == 400
    assert every(store(bench), KeptGarment) == ()


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_a_cloth_from_the_shelf_is_the_same_in_any_unit(bench: TestClient, unit: str) -> None:
    given = {"name": "Grey wool", "unit": unit, "cloth.main.width": "60", "cloth.main.length": "5 m", "based": "0"}
    assert bench.post("/cloths", data=given, follow_redirects=False).status_code == 303
    (cloth,) = every(store(bench), KeptCloth)
    for shown in ("cm", "in"):
        there = bench.get(f"/cloths/use?shelf={cloth.id}&unit={shown}", follow_redirects=False).headers["location"]
        state = read_state(QueryParams(urlsplit(there).query))
        garment = garment_for(state, store(bench))
        assert garment.cloths[0].width == pytest.approx(60 if unit == "cm" else 152.4)
        assert garment.cloths[0].length == pytest.approx(500)
    assert bench.post("/cloths", data={**given, "cloth.main.width": "-3"}).status_code == 422
    late = bench.post(f"/cloths/{cloth.id}", data={**given, "name": "Other", "based": "0"}, follow_redirects=False)
    assert late.status_code == 409


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_sheet_goes_in_and_comes_out_the_same_garment(bench: TestClient, name: str) -> None:
    text = resources.files("ellwand").joinpath("examples", name).read_text("utf-8")
    there = bench.post("/sheets", data={"text": text, "wearer": "keep"}, follow_redirects=False).headers["location"]
    out = bench.get(f"/sheet.toml?{urlsplit(there).query}")
    one, other = (garment_json(prove_sheet(sheet_of(tomllib.loads(sheet)))) for sheet in (text, out.text))
    assert one == other


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[wearer",
        "[cloth]\nwidth = 150",
        "[wearer]\nheight = 170\nbust_girth = 9\n[cloth]\nwidth = 150",
        "\0",
        "x = 1",
    ],
)
def test_a_sheet_that_cannot_be_read_comes_back_with_the_sentence(bench: TestClient, text: str) -> None:
    answer = bench.post("/sheets", data={"text": text})
    assert answer.status_code == 422
    assert 'role="alert"' in answer.text
