"""The whole job as a newcomer does it: measure, choose, prove, lay, card; by mouse, by keys alone, and on a phone."""

from __future__ import annotations

import re

import pypdfium2
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


def sound(page: Page) -> None:
    """No fault that axe-core finds by the rules of WCAG 2.2 AA, and nothing sideways out of the page."""
    found = Axe().run(page, options={"runOnly": {"type": "tag", "values": WCAG}}).response["violations"]
    assert [(each["id"], [node["html"][:200] for node in each["nodes"]]) for each in found] == []
    wide = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert wide <= 0


def card_of(page: Page) -> str:
    """The text of the cut card."""
    href = page.get_by_role("link", name="Cut card").get_attribute("href")
    answer = page.request.get(page.url.split("/?")[0].rstrip("/") + str(href))
    return "".join(each.get_textpage().get_text_range() for each in pypdfium2.PdfDocument(answer.body()))


def test_by_mouse(page: Page, served: str) -> None:
    page.goto(served)
    sound(page)
    page.get_by_role("link", name="Measure someone").click()
    page.get_by_label("Name").fill("Sib Ropewalker")
    for label, text in (("Height", "168"), ("Bust or chest", "92"), ("Natural waist", "174"), ("Head", "56")):
        page.get_by_label(re.compile(rf"^\d+ {label}\b")).fill(text)
    page.get_by_label("Name").click()
    # the slip is asked about while one writes
    expect(page.locator("#a-waist_girth")).to_contain_text("Is it so?")
    sound(page)
    page.get_by_label(re.compile(r"^\d+ Natural waist")).fill("74")
    page.get_by_role("button", name="Keep", exact=True).click()
    page.get_by_role("link", name="Make something").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Tunic for Sib Ropewalker")

    # the garment is pointed at: its sleeve
    page.locator('.faces a[data-zone="sleeve"]').first.click()
    expect(page.get_by_role("heading", name="Sleeves")).to_be_visible()
    before = page.locator(".faces").inner_html()
    page.get_by_label("Shape of the sleeve").select_option("wide")
    expect(page).to_have_url(re.compile("garment.sleeve.shape=wide"))
    assert page.locator(".faces").inner_html() != before

    # what is to be looked at again is told beside its place, and mended with a button
    page.locator('nav a[data-zone="hem"]').click()
    page.get_by_label("Length", exact=True).select_option("ankle")
    page.locator('nav a[data-zone="gores"]').click()
    page.get_by_role("button", name=re.compile("Leave out: Gore 1")).click()
    page.locator('nav a[data-zone="hem"]').click()
    finding = page.locator("#z-hem .finding.look").first
    expect(finding).to_contain_text("look again")
    sound(page)
    finding.get_by_role("link", name=re.compile("Mend it: Split 1")).click()
    expect(page).to_have_url(re.compile("garment.splits.0.place=side"))
    expect(page.locator("#z-hem .finding.look")).to_have_count(0)
    page.go_back()
    expect(page.locator("#z-hem .finding.look")).not_to_have_count(0)
    page.go_forward()

    # it lies on the cloth, and the card says the same
    page.locator('nav a[data-zone="cloth"]').click()
    page.get_by_label("Width of the cloth").fill("140")
    page.get_by_label("Width of the cloth").press("Tab")
    expect(page.locator("#part-cloth figcaption").first).to_contain_text(re.compile(r"^\d+ cm of main"))
    page.locator("#keep-name").fill("Harbour tunic")
    page.get_by_role("button", name="Keep this garment").click()
    expect(page.locator("#keep")).to_contain_text("Kept as Harbour tunic")
    sound(page)
    text = card_of(page)
    assert "Sib Ropewalker" in text
    assert "140" in text


def test_by_keys_alone(page: Page, served: str) -> None:
    page.goto(f"{served}/people/new")
    page.keyboard.press("Tab")
    expect(page.locator(":focus")).to_have_text("To the work")
    page.keyboard.press("Enter")
    _tab_to(page, "#m-name")
    page.keyboard.type("Wenna Caulker")
    _tab_to(page, "#m-height")
    page.keyboard.type("160")
    _tab_to(page, "#m-bust_girth")
    page.keyboard.type("88")
    page.keyboard.press("Enter")
    expect(page.get_by_text("Kept.")).to_be_visible()
    _tab_to(page, "a:has-text('Make something')")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Wenna Caulker")
    # the script has come
    expect(page.locator(".choices.chosen")).to_be_attached()
    # the zones of the drawing are links: tab to the hem, open it, and choose beside it
    _tab_to(page, '.faces a[data-zone="hem"]')
    assert page.evaluate("getComputedStyle(document.activeElement.querySelector('path')).strokeWidth") != "0px"
    page.keyboard.press("Enter")
    expect(page.locator(":focus")).to_have_attribute("name", "garment.length")
    page.keyboard.press("m")
    expect(page).to_have_url(re.compile("garment.length=mid-thigh"))
    # the focus stays where it was, and what came of it is said
    expect(page.locator(":focus")).to_have_attribute("name", "garment.length")
    expect(page.locator("#said")).not_to_be_empty()
    _tab_to(page, "a:has-text('Cut card')")


def _tab_to(page: Page, selector: str) -> None:
    """Tab on until that has the focus."""
    for _ in range(160):
        page.keyboard.press("Tab")
        here = page.evaluate("selector => document.activeElement.matches(selector)", selector.split(":has-text")[0])
        if here and _reads(page, selector):
            return
    pytest.fail(f"no way by keys to {selector}")


def _reads(page: Page, selector: str) -> bool:
    wanted = re.search(r"has-text\('(.*)'\)", selector)
    return wanted is None or wanted[1] in page.locator(":focus").inner_text()


@pytest.mark.parametrize("size", [(390, 844), (320, 640)])
def test_on_a_phone(chromium: Browser, served: str, size: tuple[int, int]) -> None:
    context = chromium.new_context(viewport={"width": size[0], "height": size[1]}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.goto(served)
    page.locator('.faces a[data-zone="neck"]').first.tap()
    expect(page.get_by_role("heading", name="Neck", exact=True)).to_be_visible()
    page.get_by_label("Shape of the neck").select_option("boat")
    expect(page).to_have_url(re.compile("garment.neck.shape=boat"))
    sound(page)
    context.close()


PAGES = [
    "/people",
    "/people/new",
    "/cloths",
    "/cloths/new",
    "/garments",
    "/classes",
    "/classes/new",
    "/keeping",
    "/sheets",
    "/papers",
    "/?garment.style=gored+gown&cloth.main.width=140",
    "/?garment.length=floor&garment.train=30",
    "/?garment.style=toga",
    "/nowhere",
]


@pytest.mark.parametrize("path", PAGES)
def test_every_page_is_sound_in_both_languages(chromium: Browser, served: str, path: str) -> None:
    for locale, width in (("en-GB", 1280), ("de-DE", 390)):
        context = chromium.new_context(viewport={"width": width, "height": 844}, locale=locale)
        page = context.new_page()
        page.goto(served + path)
        assert page.locator("html").get_attribute("lang") == locale[:2]
        sound(page)
        context.close()


def test_without_scripts_the_form_does_it_all(chromium: Browser, served: str) -> None:
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{served}/#z-hem")
    page.get_by_label("Length", exact=True).select_option("ankle")
    page.locator("#redraw").click()
    assert "garment.length=ankle" in page.url
    assert page.locator(".faces svg").count() == 2
    context.close()


def test_nothing_is_asked_of_any_other_machine(page: Page, served: str) -> None:
    asked: set[str] = set()
    page.on("request", lambda request: asked.add(request.url.split("/")[2]))
    for path in ("/", "/people/new", "/cloth-side"):
        page.goto(served + path, wait_until="networkidle")
    assert asked == {served.removeprefix("http://")}
