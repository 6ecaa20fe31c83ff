"""Who may ask the bench, how much they may send, and what a browser may do with the answer.

What is refused is that of the Open Worldwide Application Security Project's cheat sheets on cross-site request forgery,
DNS rebinding and the Content-Security-Policy (from memory).
"""

from __future__ import annotations

import re

import pytest
from starlette.testclient import TestClient

from ellwand.web.app import create_app
from ellwand.web.door import HERE, TRIES, Door, TooOften
from ellwand.web.guard import LARGEST
from ellwand.web.settings import Settings

HOME = "http://127.0.0.1"


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1.evil.example", "", "localhost.", "[::2]", "127.0.0.1:x"])
def test_only_our_own_names_are_answered(bench: TestClient, host: str) -> None:
    assert bench.get("/people", headers={"Host": host}).status_code == 421


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost", "[::1]", "127.0.0.1:8765", "[::1]:8765"])
def test_our_own_names_are(bench: TestClient, host: str) -> None:
    assert bench.get("/people", headers={"Host": host}).status_code == 200


def test_with_a_port_of_its_own_no_other_is_answered(keep: str) -> None:
    visitor = TestClient(create_app(Settings(keep, port=8765)), "http://127.0.0.1:8765")
    assert visitor.get("/people").status_code == 200
    assert visitor.get("/people", headers={"Host": "127.0.0.1:8766"}).status_code == 421
    assert visitor.get("/people", headers={"Host": "127.0.0.1"}).status_code == 421


@pytest.mark.parametrize(
    "origin", ["http://evil.example", "null", "https://127.0.0.1", "http://127.0.0.1:1", "file://127.0.0.1", "ftp:", ""]
)
def test_no_other_site_can_change_anything(bench: TestClient, origin: str) -> None:
    answer = bench.post("/people", data={"name": "x", "height": "170", "bust_girth": "90"}, headers={"Origin": origin})
    assert answer.status_code == 403
    assert "Nobody is kept yet" in bench.get("/people").text


def test_a_browser_that_says_so_itself_is_believed(bench: TestClient) -> None:
    answer = bench.post("/people", data={}, headers={"Sec-Fetch-Site": "cross-site"})
    assert answer.status_code == 403


def test_what_is_too_large_is_refused_whatever_its_head_says(bench: TestClient) -> None:
    def without_length():
        for _ in range(LARGEST // 500_000 + 1):
            yield b"x" * 500_000

    headers = {"Content-Type": "application/x-www-form-urlencoded"}
    assert bench.post("/people", content=b"x" * (LARGEST + 1), headers=headers).status_code == 413
    assert bench.post("/people", content=without_length(), headers=headers).status_code == 413
    assert bench.get("/?who=" + "x" * 20_000).status_code == 414
    assert bench.get("/people", headers={"X-Long": "x" * 40_000}).status_code == 431


@pytest.mark.parametrize("path", ["/", "/people", "/nowhere", "/people/p0000000000000000", "/?garment.style=x", "/lay"])
def test_every_answer_forbids_what_is_not_ours(bench: TestClient, path: str) -> None:
    answer = bench.get(path)
    policy = answer.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "script-src 'self';" in policy
    assert "unsafe" not in policy
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["cache-control"] == "no-store"


def test_even_a_fault_of_ours_is_answered_in_the_visitors_language(
    bench: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("ellwand.web.pages.people.every", None)
    answer = bench.get("/people", headers={"Accept-Language": "de"})
    assert answer.status_code == 500
    assert "Etwas ist kaputtgegangen" in answer.text
    assert "default-src 'none'" in answer.headers["content-security-policy"]
    assert "Traceback" not in answer.text


def test_no_page_has_script_or_style_within_it(bench: TestClient) -> None:
    for path in ("/", "/people", "/people/new", "/cloths/new", "/garments", "/classes/new", "/keeping", "/papers"):
        text = bench.get(path).text
        assert re.findall(r"<script(?![^>]*\bsrc=)|<style|\sstyle=|\son[a-z]+=", text) == []


def test_a_shared_bench_asks_for_the_word(keep: str) -> None:
    app = create_app(Settings(keep, share=True))
    visitor = TestClient(app, HOME, client=("192.0.2.7", 5000), follow_redirects=False, headers={"Origin": HOME})
    page = visitor.get("/people", headers={"Accept": "text/html"})
    assert (page.status_code, page.headers["location"]) == (303, "/enter")
    assert visitor.get("/parts").status_code == 401
    assert visitor.get("/enter").status_code == 200
    assert visitor.get("/share").status_code in (401, 404)
    assert visitor.post("/enter", data={"word": "wrong"}).status_code == 403
    word = app.state.door.word
    assert word not in visitor.get("/enter").text
    entered = visitor.post("/enter", data={"word": f" {word.upper()} "})
    assert (entered.status_code, entered.headers["location"]) == (303, "/")
    assert "httponly" in entered.headers["set-cookie"].lower()
    assert visitor.get("/people").status_code == 200
    # it let in one device
    other = TestClient(app, HOME, client=("192.0.2.8", 5000), follow_redirects=False, headers={"Origin": HOME})
    assert other.post("/enter", data={"word": word}).status_code == 403
    assert app.state.door.word != word


def test_who_sits_here_needs_no_word(keep: str) -> None:
    app = create_app(Settings(keep, share=True))
    for address in HERE:
        visitor = TestClient(app, HOME, client=(address, 5000))
        assert visitor.get("/people").status_code == 200
        assert app.state.door.word in visitor.get("/share").text


def test_guessing_is_too_slow_to_be_worth_it() -> None:
    now = [0.0]
    door = Door(now=lambda: now[0])
    for _ in range(TRIES):
        assert door.enter("guess", "192.0.2.7") is None
    with pytest.raises(TooOften):
        door.enter(door.word, "192.0.2.7")
    # others are not kept out by that
    assert door.enter(door.word, "192.0.2.8") is not None
    now[0] = 601.0
    assert door.enter(door.word, "192.0.2.7") is not None
