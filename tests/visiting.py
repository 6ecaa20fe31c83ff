"""The bench for the tests: asked without a browser, and the browser that looks at it."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from starlette.testclient import TestClient

from ellwand.web.app import create_app
from ellwand.web.settings import Settings

HOME = "http://127.0.0.1"


@contextmanager
def visitor(keep: str, **more: Any) -> Iterator[TestClient]:
    """A visitor at this machine, whose own posts say where they come from, of a bench that keeps things there."""
    with TestClient(create_app(Settings(keep)), HOME, headers={"Origin": HOME}, **more) as client:
        yield client


def browser() -> str:
    """dev.py names it; run alone, the tests take the one on PATH."""
    found = os.environ.get("ELLWAND_BROWSER") or shutil.which("chromium")
    if not found:
        pytest.fail("no browser: run 'python3 dev.py test', or name one in ELLWAND_BROWSER")
    return found
