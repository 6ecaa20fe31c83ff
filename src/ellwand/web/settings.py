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
    asked for, without ports; ``port``: 0 for any; ``share``: for the network too, to whoever has the word; ``workers``:
    so many long jobs at once."""

    keep: str | None = None
    hosts: tuple[str, ...] = LOOPBACK
    port: int = 0
    share: bool = False
    workers: int = 2
