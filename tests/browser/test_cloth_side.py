"""Beside the cloth in a real browser: one piece at a time, ticks that stay, and a page that outlives the link."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, expect

PHONE = {"width": 390, "height": 844}


@pytest.fixture(scope="module")
def context(chromium: Browser) -> Iterator[BrowserContext]:
    opened = chromium.new_context(viewport=PHONE, has_touch=True)
    yield opened
    opened.close()


@pytest.fixture
def page(context: BrowserContext, served: str) -> Iterator[Page]:
    page = context.new_page()
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.goto(f"{served}/cloth-side")
    expect(page.locator("#kept")).to_have_text("Kept on this device: it also opens when the link drops.")
    yield page
    context.set_offline(False)
    page.close()
    assert not errors


def expect_shown(page: Page, turn: str) -> None:
    """The piece, and no other."""
    expect(page.locator(f"#{turn}")).to_be_visible()
    assert shown(page) == [turn]


def shown(page: Page) -> list[str]:
    """Which pieces are seen."""
    return [str(each.get_attribute("id")) for each in page.locator(".turn").all() if each.is_visible()]


def test_one_piece_at_a_time_by_button_key_and_link(page: Page) -> None:
    assert shown(page) == []
    page.get_by_role("link", name="Next").click()
    expect_shown(page, "turn-1")
    page.keyboard.press("ArrowRight")
    expect_shown(page, "turn-2")
    assert page.evaluate("document.activeElement.id") == "name-2"
    page.get_by_role("link", name="Before").click()
    expect_shown(page, "turn-1")
    page.keyboard.press("ArrowLeft")
    expect(page.locator("#all")).to_be_visible()
    assert shown(page) == []


def test_a_swipe_turns_the_page(page: Page) -> None:
    page.goto(page.url.split("#")[0] + "#turn-2")
    session = page.context.new_cdp_session(page)
    for start, end, now in ((300, 60, "turn-3"), (60, 300, "turn-2")):
        session.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": start, "y": 300}]})
        session.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [{"x": end, "y": 305}]})
        session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
        expect(page.locator(f"#{now}")).to_be_visible()


def test_figures_are_read_from_afar_and_nothing_goes_over_the_edge(page: Page) -> None:
    for width in (390, 320):
        page.set_viewport_size({"width": width, "height": 844})
        for turn in range(1, page.locator(".turn").count() + 1):
            page.goto(page.url.split("#")[0] + f"#turn-{turn}")
            sizes = page.locator(f"#turn-{turn} dd").evaluate_all("all => all.map((e) => getComputedStyle(e).fontSize)")
            assert all(float(size.removesuffix("px")) >= 64 for size in sizes)
            assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.set_viewport_size(PHONE)


def test_ticks_survive_and_go_with_what_is_chalked(page: Page) -> None:
    page.goto(page.url.split("#")[0] + "#turn-2")
    page.get_by_label("Cut it").locator("visible=true").check()
    page.reload()
    expect(page.locator("#turn-2 [data-does=chalked]")).to_be_checked()
    expect(page.locator("#turn-2 [data-does=cut]")).to_be_checked()
    page.goto(page.url.split("#")[0] + "?cloth.main.width=160#turn-2")
    expect(page.locator("#turn-2 [data-does=cut]")).not_to_be_checked()


def test_it_opens_again_without_the_link_and_is_never_old_with_it(page: Page, context: BrowserContext) -> None:
    page.evaluate("""async () => {
        const shelf = await caches.open("cloth-side");
        await shelf.put(location.href, new Response("old"));
    }""")
    page.reload()
    expect(page.get_by_role("heading", name="At the cloth")).to_be_visible()
    expect(page.locator("#kept")).to_be_visible()
    context.set_offline(True)
    page.reload()
    expect(page.get_by_role("heading", name="At the cloth")).to_be_visible()
    page.get_by_role("link", name="Next").click()
    expect_shown(page, "turn-1")
    assert page.evaluate("document.fonts.check('16px Ell')")
    assert page.locator(".steps").evaluate("each => getComputedStyle(each).position") == "fixed"


def test_left_handed_the_next_piece_is_on_the_left(page: Page) -> None:
    def sides() -> list[float]:
        boxes = [page.locator(each).bounding_box() for each in ("#before", "#next")]
        return [box["x"] for box in boxes if box]

    page.goto(page.url.split("#")[0] + "#turn-1")
    before, after = sides()
    assert before < after
    page.locator("#over").click()
    page.get_by_label("Left-handed").check()
    page.reload()
    page.get_by_role("link", name="Next").click()
    before, after = sides()
    assert before > after


def test_it_is_accessible(page: Page) -> None:
    for there in ("", "#turn-1", "#turn-3"):
        page.goto(page.url.split("#")[0] + there)
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()


def test_without_scripts_all_pieces_stand_below_each_other(served: str, context: BrowserContext) -> None:
    assert context.browser
    plain = context.browser.new_context(viewport=PHONE, java_script_enabled=False)
    page = plain.new_page()
    page.goto(f"{served}/cloth-side")
    assert len(shown(page)) == page.locator(".turn").count() > 3
    page.get_by_label("Chalk it").first.check()
    plain.close()
