"""Hypothesis: the same examples every run, no deadline on shared machines; a database server where one is asked for."""

from collections.abc import Iterator

import pytest
from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("steady")


@pytest.fixture(scope="session")
def postgres() -> Iterator[str]:
    """The URL of a real PostgreSQL server."""
    from keeping import server

    with server() as url:
        yield url
