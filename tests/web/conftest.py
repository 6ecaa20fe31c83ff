"""The bench on a store of its own, asked without a browser."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from ellwand.web.app import create_app
from ellwand.web.settings import Settings

HOME = "http://127.0.0.1"


@pytest.fixture
def keep(tmp_path: Path) -> str:
    """The address of an empty store."""
    return f"sqlite:///{tmp_path / 'kept.db'}"


@pytest.fixture
def bench(keep: str) -> Iterator[TestClient]:
    """A visitor at this machine, whose own posts say where they come from."""
    app = create_app(Settings(keep))
    with TestClient(app, HOME, raise_server_exceptions=False, headers={"Origin": HOME}) as visitor:
        yield visitor
