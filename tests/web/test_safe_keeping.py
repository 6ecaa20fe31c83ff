"""Copies of everything, and erasing someone for good."""

from __future__ import annotations

from pathlib import Path

from starlette.testclient import TestClient

from ellwand.keep import Person, basket, every
from visiting import visitor

SIB = {"name": "Sib Ropewalker", "height": "168", "bust_girth": "92", "waist_girth": "81.375"}


def test_a_copy_brings_everything_to_another_machine(bench: TestClient, tmp_path: Path) -> None:
    bench.post("/people", data=SIB)
    bench.post("/garments", data={"query": "garment.length=ankle", "way": "new", "name": "Long"})
    copy = bench.post("/keeping/copy")
    assert "attachment" in copy.headers["content-disposition"]
    with visitor(f"sqlite:///{tmp_path / 'other.db'}") as other:
        page = other.post("/keeping/bring-back", files={"file": ("copy.jsonl", copy.content)})
        assert "2 things were new here" in page.text
        again = other.post("/keeping/bring-back", files={"file": ("copy.jsonl", copy.content)})
        assert "2 were here already" in again.text
        assert "Sib Ropewalker" in other.get("/people").text
        for wrong in (b"", b"{}", copy.content[:-20], copy.content.replace(b"168", b"169")):
            assert other.post("/keeping/bring-back", files={"file": ("copy.jsonl", wrong)}).status_code == 400


def test_someone_is_erased_for_good(bench: TestClient, tmp_path: Path) -> None:
    bench.post("/people", data=SIB)
    (sib,) = every(bench.app.state.store, Person)
    assert "81.375" in bench.get(f"/people/{sib.id}/copy.json").text
    asked = bench.get(f"/people/{sib.id}/erase")
    assert "Leave it" in asked.text
    # asking changes nothing
    assert every(bench.app.state.store, Person) == (sib,)
    assert "erased for good" in bench.post(f"/people/{sib.id}/erase").text
    assert every(bench.app.state.store, Person) == basket(bench.app.state.store, Person) == ()
    held = b"".join(file.read_bytes() for file in tmp_path.iterdir())
    assert b"81.375" not in held
    assert b"Ropewalker" not in held
    assert bench.get(f"/people/{sib.id}").status_code in (400, 404)


def test_the_waste_basket_gives_back(bench: TestClient) -> None:
    bench.post("/people", data=SIB)
    (sib,) = every(bench.app.state.store, Person)
    bench.post(f"/people/{sib.id}/throw")
    assert "Sib Ropewalker" in bench.get("/keeping").text
    bench.post(f"/keeping/people/{sib.id}/take-out")
    assert every(bench.app.state.store, Person) == (sib,)
    assert bench.post(f"/keeping/secrets/{sib.id}/take-out").status_code == 404
