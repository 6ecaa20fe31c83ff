"""Classes: one kind of garment for many, reckoned in the workshop; nobody is lost, and one order holds for all."""

from __future__ import annotations

import csv
import io
import re
import time
import zipfile
from collections.abc import Iterator

import pdfplumber
import pytest
from starlette.testclient import TestClient

from ellwand.depict.company import amount_said, cloth_said
from ellwand.model.company import Need
from ellwand.web.making import demo_people
from ellwand.web.work.ordering import company_of
from visiting import visitor

TWO = list(demo_people())[:2]


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    with visitor(f"sqlite:///{tmp_path_factory.mktemp('keep') / 'keep.db'}") as client:
        yield client


def begun(bench: TestClient, name: str, members: list[str], names: str = "", **more: str) -> str:
    """Its page."""
    given = {"name": name, "member": members, "names": names, **more}
    answer = bench.post("/classes", data=given, follow_redirects=False)
    assert answer.status_code == 303
    return answer.headers["location"]


def settled(bench: TestClient, address: str) -> str:
    """The page once nothing is under way on it."""
    for _try in range(1200):
        text = bench.get(address).text
        if 'http-equiv="refresh"' not in text:
            return text
        time.sleep(0.05)
    raise AssertionError(text)


@pytest.fixture(scope="module")
def two(bench: TestClient) -> str:
    return begun(bench, "Winter class", TWO, "Tib <b>Tallow</b>\n\n  Alis   Shepherd \nAlis Shepherd")


def sheets(cloth: dict[str, object]) -> list[dict[str, object]]:
    return [{"wearer": dict(demo_people()[who]), "cloth": {"main": {"width": 150, **cloth}}} for who in TWO]


def test_everyone_stands_on_the_page_measured_or_not(bench: TestClient, two: str) -> None:
    text = settled(bench, two)
    for who in TWO:
        assert str(demo_people()[who]["name"]) in text
    assert "Tib &lt;b&gt;Tallow&lt;/b&gt;" in text
    assert text.count("Alis Shepherd") == 1
    assert text.count("still to be measured") >= 2
    assert text.count("Cut card<") == 2
    assert "2 who are still to be measured are not in it." in text


def quiet(kind: str, value: object) -> None:
    pass


def test_one_length_for_all_is_the_sum_of_the_lays_with_the_shrinkage_once() -> None:
    company = company_of(sheets({"shrink_warp": 0.08, "straighten": 3, "sold_by": 1}), quiet)
    laid = sum(float(cloth_said(done, "cm").split()[0]) for done in company.done.values())
    needed = (laid + 6) / (1 - 0.08)
    assert needed - 0.2 <= company.order.needs[0].amount <= needed + 1.2


def test_thread_and_what_closes_are_added_up() -> None:
    closed = {"closures": [{"at": "neck slit", "by": "buttons"}]}
    one, both = (
        company_of([{**each, "garment": closed} for each in some], quiet).order for some in (sheets({})[:1], sheets({}))
    )

    def amounts(needs: tuple[Need, ...]) -> dict[str, float]:
        return {need.what: float(amount_said(need, "cm").split()[0]) for need in needs}

    assert {"buttons", "thread"} <= set(amounts(both.needs)) == set(amounts(one.needs))
    assert all(amounts(both.needs)[what] > amounts(one.needs)[what] for what in ("buttons", "thread"))
    assert both.days[0] > one.days[0]


def test_for_whom_nothing_can_be_cut_is_said_and_the_others_go_on() -> None:
    wrong, right = sheets({})
    wrong["wearer"] = {"name": "Nobody", "height": "tall"}
    told: list[object] = []
    company = company_of([wrong, right], lambda kind, value: told.append(value))
    assert company.done[1].trouble and not company.done[1].laid
    assert company.done[2].laid and not company.done[2].trouble
    assert [str(said)[:6] for said in told] == ["1 of 2", "2 of 2"]


def test_the_order_as_a_table(bench: TestClient, two: str) -> None:
    rows = list(csv.reader(io.StringIO(bench.get(f"{two}/order.csv").text)))
    names = [row[1] for row in rows if len(row) == 7][1:]
    assert names == [str(demo_people()[who]["name"]) for who in TWO]
    assert rows[1][0].startswith("cloth")


def test_a_measuring_form_for_each_still_to_be_measured(bench: TestClient, two: str) -> None:
    with pdfplumber.open(io.BytesIO(bench.get(f"{two}/forms.pdf").content)) as pdf:
        pages = [page.extract_text() for page in pdf.pages]
    assert len(pages) == 2
    assert "Alis Shepherd" in pages[1]


def test_everyones_papers_are_begun_stopped_and_taken(bench: TestClient, two: str) -> None:
    assert "Write them" in bench.get(f"{two}/papers").text
    bench.post(f"{two}/papers")
    assert "It was stopped." in bench.post(f"{two}/papers/stop").text
    assert 'http-equiv="refresh"' not in bench.get(f"{two}/papers").text
    bench.post(f"{two}/papers")
    assert "Take the archive" in settled(bench, f"{two}/papers")
    with zipfile.ZipFile(io.BytesIO(bench.get(f"{two}/pack.zip").content)) as archive:
        names = archive.namelist()
        assert archive.testzip() is None
    folders = {name.split("/")[0] for name in names if "/" in name}
    assert {"order.csv", "report.pdf", "labels.pdf"} <= set(names)
    people = {folder for folder in folders if folder[:2].isdigit()}
    assert len(people) == 2
    for folder in people:
        assert {f"{folder}/card.pdf", f"{folder}/chalk.csv", f"{folder}/sewing.pdf"} <= set(names)


def test_without_a_name_all_that_was_typed_comes_back(bench: TestClient) -> None:
    answer = bench.post("/classes", data={"name": " ", "member": TWO, "names": "Hob Miller"})
    assert answer.status_code == 422
    assert "Give the class a name." in answer.text and "Hob Miller" in answer.text
    assert set(re.findall(r'value="([^"]+)" checked', answer.text)) == set(TWO)


def test_a_stale_save_keeps_both(bench: TestClient) -> None:
    there = begun(bench, "Hoods", TWO[:1])
    bench.post(there, data={"name": "Hoods", "based": "1", "member": TWO})
    stale = bench.post(there, data={"name": "Coifs", "based": "1", "member": TWO[:1], "names": "Hob"})
    assert stale.status_code == 409
    assert str(demo_people()[TWO[1]]["name"]) in stale.text and "Hob" in stale.text
    mine = bench.post(there, data={"name": "Coifs", "based": "2", "member": TWO[:1], "names": "Hob"})
    assert mine.status_code == 200 and "Coifs" in mine.text


def test_a_class_of_names_alone_has_no_order(bench: TestClient) -> None:
    there = begun(bench, "Later", [], "Hob Miller")
    assert "One order" not in settled(bench, there)
    assert bench.get(f"{there}/order.csv").status_code == 400
    assert bench.get(f"{there}/papers").status_code == 400
