"""Stores to try everything on, of both kinds."""

from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

import pytest

from ellwand.keep import Store, open_store
from keeping import fresh_schema


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Callable[[], str]:
    """Makes places that nothing is kept at yet, all of one kind of database."""
    if request.param == "sqlite":
        numbers = count(1)
        return lambda: str(tmp_path / f"kept-{next(numbers)}.sqlite")
    server: str = request.getfixturevalue("postgres")
    return lambda: fresh_schema(server)


@pytest.fixture
def store(place: Callable[[], str]) -> Iterator[Store]:
    """An empty store."""
    with open_store(place()) as opened:
        yield opened
