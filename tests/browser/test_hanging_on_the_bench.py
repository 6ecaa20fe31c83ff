"""The garment hung on the bench: asked for, stopped, waited for, turned by keys and by hand, taken as a file."""

from __future__ import annotations

import json
import re
import struct
from pathlib import Path

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


def sound(page: Page) -> None:
    """No fault that axe-core finds by the rules of WCAG 2.2 AA, and nothing sideways out of the page."""
    found = Axe().run(page, options={"runOnly": {"type": "tag", "values": WCAG}}).response["violations"]
    assert [(each["id"], [node["html"][:200] for node in each["nodes"]]) for each in found] == []
    assert page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0


def shown(page: Page) -> int:
    """Which of the views is to be seen."""
    (only,) = page.evaluate(
        "[...document.querySelectorAll('.views img')].flatMap((e, n) => e.classList.contains('later') ? [] : [n])"
    )
    return int(only)


def test_it_is_hung_turned_and_taken(page: Page, served: str) -> None:
    page.goto(served)
    page.get_by_role("link", name="See it hang").click()
    sound(page)
    page.get_by_role("button", name="Let it hang").click()
    expect(page.get_by_role("status").first).to_contain_text("It is being hung")
    sound(page)
    page.get_by_role("button", name="Stop").click()
    expect(page.get_by_role("status").first).to_contain_text("It was stopped.")
    page.get_by_role("button", name="Let it hang").click()
    way = page.get_by_label("Turn it")
    expect(way).to_be_visible(timeout=240_000)
    expect(page.locator(".found li").first).to_contain_text("above the floor")
    sound(page)
    assert shown(page) == 0
    for _press in range(12):
        way.press("ArrowRight")
    assert shown(page) == 12
    expect(way).to_have_attribute("aria-valuetext", "from behind")
    box = page.locator(".views").bounding_box()
    assert box
    page.mouse.move(box["x"] + 20, box["y"] + 50)
    page.mouse.down()
    page.mouse.move(box["x"] + 20 + box["width"] / 4, box["y"] + 50)
    page.mouse.up()
    assert shown(page) == 18
    # every view is a picture of its own
    sizes = page.evaluate(
        "Promise.all([...document.querySelectorAll('.views img')].map((e) => fetch(e.src).then((r) => r.arrayBuffer())"
        ".then((b) => b.byteLength)))"
    )
    assert len(set(sizes)) > 12 and min(sizes) > 5_000
    with page.expect_download() as saved:
        page.get_by_role("link", name=re.compile("GLB")).click()
    data = Path(saved.value.path()).read_bytes()
    # glTF 2.0: magic, version, length; then a JSON chunk
    magic, version, length, size, kind = struct.unpack("<4sII I4s", data[:20])
    assert (magic, version, length, kind) == (b"glTF", 2, len(data), b"JSON")
    assert "garment" in [mesh["name"] for mesh in json.loads(data[20 : 20 + size])["meshes"]]


def test_what_cannot_be_hung_is_said(page: Page, served: str) -> None:
    page.goto(f"{served}/hang?garment.style=hood")
    page.get_by_role("button", name="Let it hang").click()
    expect(page.get_by_role("alert")).to_contain_text("a body", timeout=60_000)
    assert page.request.get(f"{served}/hang/views/0.png?garment.style=hood").status == 404
