"""How the bench is served."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

PORT: Final = 8765
LOOPBACK: Final = ("127.0.0.1", "localhost", "[::1]")
"""What this machine calls itself."""


@dataclass(frozen=True, slots=True)
class Settings:
    """``keep``: the address of what is kept, None for the maker's own folder; ``hosts``: by what names the bench may be
    asked for, without ports; ``word``: what a visitor from the network has to know, '' where it is served to this
    machine alone; ``workers``: so many long jobs at once."""

    keep: str | None = None
    hosts: tuple[str, ...] = LOOPBACK
    word: str = ""
    workers: int = 2
