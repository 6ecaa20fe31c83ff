"""Files in one archive, the same bytes for the same files, and no more than can be sent."""

from __future__ import annotations

import io
import zipfile
from typing import Final

from ellwand.errors import BadInput

MOST: Final = 100_000_000
"""Of an archive (bytes), before it is packed."""
LONG_AGO: Final = (1980, 1, 1, 0, 0, 0)
"""The time of every file in it."""


class Archive:
    """An archive while it is filled; ``too_large``: what is raised where it would grow beyond bounds."""

    def __init__(self, too_large: BadInput) -> None:
        self._too_large, self._size, self._out = too_large, 0, io.BytesIO()
        self._zip = zipfile.ZipFile(self._out, "w")

    def add(self, name: str, data: bytes) -> None:
        """One file more."""
        self._size += len(data)
        if self._size > MOST:
            raise self._too_large
        self._zip.writestr(zipfile.ZipInfo(name, LONG_AGO), data, zipfile.ZIP_DEFLATED)

    def whole(self) -> bytes:
        """All of it; nothing is added after that."""
        self._zip.close()
        return self._out.getvalue()
