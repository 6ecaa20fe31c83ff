"""The garment hung on the bench: asked for and stopped; what cannot be hung is said."""

from __future__ import annotations

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


def sound(page: Page) -> None:
    """No fault that axe-core finds by the rules of WCAG 2.2 AA, and nothing sideways out of the page."""
    found = Axe().run(page, options={"runOnly": {"type": "tag", "values": WCAG}}).response["violations"]
    assert [(each["id"], [node["html"][:200] for node in each["nodes"]]) for each in found] == []
    assert page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0


def test_it_is_begun_and_stopped(page: Page, served: str) -> None:
    page.goto(served)
    page.get_by_role("link", name="See it hang").click()
    sound(page)
    page.get_by_role("button", name="Let it hang").click()
    expect(page.get_by_role("status").first).to_contain_text("It is being hung")
    sound(page)
    page.get_by_role("button", name="Stop").click()
    expect(page.get_by_role("status").first).to_contain_text("It was stopped.")


def test_what_cannot_be_hung_is_said(page: Page, served: str) -> None:
    page.goto(f"{served}/hang?garment.style=hood")
    page.get_by_role("button", name="Let it hang").click()
    expect(page.get_by_role("alert")).to_contain_text("a body", timeout=60_000)
    assert page.request.get(f"{served}/hang/views/0.png?garment.style=hood").status == 404
