"""A picture is marked on the bench by pointer and by keys alone; it never leaves the browser, and becomes a garment."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from PIL import Image, ImageDraw
from playwright.sync_api import Browser, Page, Request, expect

WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
PLACES = {
    "crown": (200, 40),
    "chin": (200, 115),
    "floor": (200, 600),
    "hem": (200, 540),
    "hem_left": (90, 540),
    "hem_right": (310, 540),
    "belt": (200, 270),
}


def sound(page: Page) -> None:
    """No fault that axe-core finds by the rules of WCAG 2.2 AA, and nothing sideways out of the page."""
    found = Axe().run(page, options={"runOnly": {"type": "tag", "values": WCAG}}).response["violations"]
    assert [(each["id"], [node["html"][:200] for node in each["nodes"]]) for each in found] == []
    assert page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0


@pytest.fixture(scope="module")
def painting(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A figure of our own drawing."""
    image = Image.new("RGB", (400, 640), "wheat")
    draw = ImageDraw.Draw(image)
    draw.ellipse((172, 40, 228, 115), fill="peru")
    draw.polygon([(150, 135), (250, 135), (310, 540), (90, 540)], fill="brown")
    draw.rectangle((160, 540, 240, 600), fill="black")
    path = tmp_path_factory.mktemp("picture") / "figure.png"
    image.save(path)
    return path


def test_by_pointer(page: Page, served: str, painting: Path) -> None:
    sent: list[Request] = []
    page.on("request", lambda request: sent.append(request))
    page.goto(served)
    page.get_by_role("link", name="From a picture").click()
    sound(page)
    page.get_by_label("The picture", exact=True).set_input_files(painting)
    canvas = page.locator("#board canvas")
    expect(canvas).to_have_attribute("width", "400")
    # what is shown is the picture
    assert page.evaluate(
        "[...document.querySelector('#board canvas').getContext('2d').getImageData(200, 300, 1, 1).data]"
    ) == [*(165, 42, 42, 255)]
    for name, (x, y) in PLACES.items():
        page.locator(f'li[data-mark="{name}"] button').click()
        box = canvas.bounding_box()
        assert box
        page.mouse.click(box["x"] + x * box["width"] / 400, box["y"] + y * box["height"] / 640)
        assert abs(float(page.locator(f"#x-{name}").input_value()) - x) < 2
        assert abs(float(page.locator(f"#y-{name}").input_value()) - y) < 2
    page.get_by_label("Where do the folds").select_option(label="at the waist or the belt")
    page.get_by_label("Where does the skirt").select_option(label="at the sides, before and behind")
    page.get_by_label("line down the middle").select_option(label="a seam or a change of colour")
    page.get_by_role("button", name="Read the picture").click()
    expect(page.get_by_role("heading", name="What would look so")).to_be_visible()
    expect(page.locator("#found")).to_contain_text("Length of the garment")
    assert 1 <= page.locator(".offer").count() <= 3
    sound(page)
    # the picture is still on the board, and the marks stand in the address
    expect(canvas).to_have_attribute("width", "400")
    assert "x.hem=" in page.url
    with page.expect_download() as saved:
        page.get_by_role("link", name=re.compile("Save as a file")).first.click()
    assert "[picture.points]" in Path(saved.value.path()).read_text("utf-8")
    page.get_by_role("link", name=re.compile("Take this one")).first.click()
    expect(page).to_have_url(re.compile("garment.gores"))
    expect(page.locator(".faces svg")).to_have_count(2)
    # nothing was sent but addresses, and none of them elsewhere
    assert all(each.method == "GET" and not each.post_data_buffer and each.url.startswith(served) for each in sent)
    assert max(len(each.url) for each in sent) < 4000


def test_by_keys_alone(page: Page, served: str) -> None:
    page.goto(f"{served}/picture")
    page.locator('li[data-mark="crown"] button').focus()
    page.keyboard.press("Enter")
    expect(page.locator("#board")).to_be_focused()
    for name, downs in (("crown", -12), ("chin", -9), ("floor", 12)):
        expect(page.locator("#now")).to_contain_text(re.compile("head|chin|weight"))
        for _press in range(abs(downs)):
            page.keyboard.press("Shift+ArrowDown" if downs > 0 else "Shift+ArrowUp")
        page.keyboard.press("ArrowRight")
        assert page.locator(f"#x-{name}").input_value() == "301"
        page.keyboard.press("Enter")
    # a mark that is set by mistake is taken away again
    page.keyboard.press("ArrowLeft")
    assert page.locator("#x-shoulder_left").input_value() == "299"
    page.keyboard.press("Delete")
    assert page.locator("#x-shoulder_left").input_value() == ""
    page.locator("#x-hem").focus()
    page.keyboard.type("301")
    page.keyboard.press("Tab")
    page.keyboard.type("560")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="What the marks tell")).to_be_visible()
    expect(page.locator("#said")).to_have_text("What the marks tell")
    page.locator(".offer a").first.focus()
    page.keyboard.press("Enter")
    expect(page).to_have_url(re.compile(r"garment\.length="))


def test_an_exercise_shows_the_truth_when_it_is_read(page: Page, served: str) -> None:
    page.goto(f"{served}/picture")
    page.get_by_role("link", name="Learn it on figures").click()
    canvas = page.locator("#board canvas")
    expect(canvas).not_to_have_attribute("width", "600")
    # something is drawn there
    assert (
        page.evaluate(
            "(() => { const c = document.querySelector('#board canvas');"
            " return new Set(c.getContext('2d').getImageData(0, 0, c.width, c.height).data).size })()"
        )
        > 2
    )
    for name, (x, y) in PLACES.items():
        page.locator(f"#x-{name}").fill(str(x))
        page.locator(f"#y-{name}").fill(str(y))
    page.get_by_role("button", name="Read the picture").click()
    expect(page.get_by_role("heading", name="What it was drawn from")).to_be_visible()
    expect(page.locator("#found")).to_contain_text("In truth")
    sound(page)
    page.get_by_role("link", name="Another figure").click()
    expect(page).to_have_url(re.compile("exercise=2"))


def test_what_is_missing_is_said(page: Page, served: str) -> None:
    page.goto(f"{served}/picture?x.crown=10&y.crown=10")
    expect(page.get_by_role("alert")).to_contain_text("points.chin: this must be marked")
    sound(page)


@pytest.mark.parametrize(("wide", "language"), [(390, "en-GB"), (320, "de-DE")])
def test_on_a_phone(chromium: Browser, served: str, wide: int, language: str) -> None:
    context = chromium.new_context(viewport={"width": wide, "height": 844}, locale=language, has_touch=True)
    page = context.new_page()
    points = "&".join(f"x.{name}={x}&y.{name}={y}" for name, (x, y) in PLACES.items())
    page.goto(f"{served}/picture?{points}&q.folds=hip")
    expect(page.locator(".offer").first).to_be_visible()
    sound(page)
    context.close()


def test_without_scripts_it_is_a_form(chromium: Browser, served: str) -> None:
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{served}/picture")
    for name, (x, y) in PLACES.items():
        page.locator(f"#x-{name}").fill(str(x))
        page.locator(f"#y-{name}").fill(str(y))
    page.locator("#marks .button.first").click()
    assert page.locator(".offer").count() >= 1
    context.close()
