"""The bench on a store of its own, asked without a browser."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from visiting import visitor


@pytest.fixture
def keep(tmp_path: Path) -> str:
    """The address of an empty store."""
    return f"sqlite:///{tmp_path / 'kept.db'}"


@pytest.fixture
def bench(keep: str) -> Iterator[TestClient]:
    """A visitor at this machine, whose own posts say where they come from."""
    with visitor(keep, raise_server_exceptions=False) as client:
        yield client
