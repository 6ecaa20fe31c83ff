"""The bench as it is served to a maker, and a real browser to look at it."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from visiting import browser


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """The browser, once for all."""
    with sync_playwright() as play:
        opened = play.chromium.launch(executable_path=browser(), args=["--no-sandbox"])
        yield opened
        opened.close()


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a bench of its own, with nothing kept yet."""
    keep = tmp_path_factory.mktemp("kept") / "kept.db"
    command = [sys.executable, "-m", "ellwand.cli", "serve", "--port", "0", "--keep", f"sqlite:///{keep}"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as process:
        assert process.stdout is not None
        try:
            yield process.stdout.readline().split()[-1].rstrip("/")
        finally:
            process.kill()


@pytest.fixture
def visit(chromium: Browser) -> Iterator[BrowserContext]:
    """A visitor at a desk, who must not see a fault in the console."""
    context = chromium.new_context(viewport={"width": 1280, "height": 900}, locale="en-GB", reduced_motion="reduce")
    context.set_default_timeout(20_000)
    faults: list[str] = []
    context.on("weberror", lambda error: faults.append(str(error.error)))
    yield context
    context.close()
    assert faults == []


@pytest.fixture
def page(visit: BrowserContext) -> Page:
    """The visitor's page."""
    return visit.new_page()
