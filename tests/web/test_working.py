"""Long work in processes of its own: told while it goes on, stopped at once, gone on with, never left behind."""

from __future__ import annotations

import json
import os
import signal
import time
import zipfile
from collections.abc import Iterator
from io import BytesIO

import pytest
from starlette.testclient import TestClient

from ellwand.web.work import Ask, Workshop

TABLES = {
    "wearer": {"name": "Joan", "height": 164, "bust_girth": 92, "head_girth": 56},
    "garment": {"style": "tunic"},
    "cloth": {"main": {"width": 112}},
}
LAY = Ask("lay", json.dumps(TABLES), "en")


@pytest.fixture(scope="module")
def shop() -> Iterator[Workshop]:
    made = Workshop(1)
    yield made
    made.close()


def _until(told, seconds: float = 60.0) -> None:
    end = time.monotonic() + seconds
    while not told() and time.monotonic() < end:
        time.sleep(0.02)
    assert told()


def test_a_search_is_stopped_and_gone_on_with(shop: Workshop) -> None:
    job = shop.ask(LAY)
    job.listeners += 1
    _until(lambda: job.last("lay") is not None)
    assert shop.ask(LAY) is job
    shop.stop(job)
    _until(lambda: job.over)
    had = job.last("lay")
    assert not job.told("done")
    assert not job.told("failed")
    again = shop.ask(LAY)
    assert again is not job
    # what was found stands at once, and what comes is better
    assert again.events[0].value == had
    again.listeners += 1
    shop.stop(again)
    _until(lambda: again.over)
    lengths = [event.value["length"] for event in again.events if event.kind == "lay"]
    assert lengths == sorted(lengths, reverse=True)


def test_what_dies_says_so(shop: Workshop) -> None:
    ask = Ask("lay", json.dumps({**TABLES, "cloth": {"main": {"width": 113}}}), "en")
    job = shop.ask(ask)
    job.listeners += 1
    _until(lambda: job.process is not None and job.process.pid is not None)
    os.kill(job.process.pid, signal.SIGKILL)
    _until(lambda: job.over)
    assert job.last("failed")


def test_what_waits_is_told_its_place_and_can_be_stopped(shop: Workshop) -> None:
    first = shop.ask(Ask("lay", json.dumps({**TABLES, "cloth": {"main": {"width": 114}}}), "en"))
    first.listeners += 1
    second = shop.ask(Ask("lay", json.dumps({**TABLES, "cloth": {"main": {"width": 115}}}), "en"))
    second.listeners += 1
    assert shop.place(second) == 1
    shop.stop(second)
    assert second.over
    shop.stop(first)
    _until(lambda: first.over)


def test_bad_input_is_one_sentence(shop: Workshop) -> None:
    job = shop.ask(Ask("file", json.dumps({**TABLES, "garment": {"style": "toga"}}), "en", "card.pdf"))
    job.listeners += 1
    _until(lambda: job.over)
    assert "toga" in job.last("failed")


def test_what_nobody_listens_to_is_stopped(shop: Workshop, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("ellwand.web.work.workshop.GRACE", 0.2)
    job = shop.ask(Ask("lay", json.dumps({**TABLES, "cloth": {"main": {"width": 116}}}), "en"))
    _until(lambda: job.over, 20)
    assert not job.told("done")


def test_papers_come_singly_and_all_together(bench: TestClient) -> None:
    card = bench.get("/papers/card.pdf")
    assert card.content.startswith(b"%PDF")
    assert card.headers["content-disposition"] == 'inline; filename="joan-netmaker-tunic-card.pdf"'
    everything = zipfile.ZipFile(BytesIO(bench.get("/papers.zip").content))
    assert everything.testzip() is None
    listed = bench.get("/papers").text
    assert all(f"/papers/{name}" in listed for name in everything.namelist())
    assert bench.get("/papers/nothing.pdf").status_code == 400
    assert bench.get("/papers/..%2Fsecret.pdf").status_code == 404
