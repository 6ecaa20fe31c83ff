"""What a visitor sends: read once, then handled in a thread, so that nobody else waits for it."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from typing import Final

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response

from ellwand.units import Unit

NAME: Final = 80
"""Of a file's name so much is told (signs)."""
LONGEST: Final = 8
"""No honest number in a form has more digits."""


@dataclass(frozen=True, slots=True)
class Given:
    """The texts of a form, in order, and the bytes and the name of its file."""

    pairs: tuple[tuple[str, str], ...]
    file: bytes = b""
    file_name: str = ""

    def text(self, key: str) -> str:
        """What was written there last; '' where nothing was."""
        return next((text for name, text in reversed(self.pairs) if name == key), "")

    def every(self, key: str) -> tuple[str, ...]:
        """All that was written there."""
        return tuple(text for name, text in self.pairs if name == key)


def posted(handle: Callable[[Request, Given], Response]) -> Callable[[Request], Awaitable[Response]]:
    """The page that handles what is posted to it."""

    async def endpoint(request: Request) -> Response:
        async with request.form() as form:
            file = form.get("file")
            data, name = (await file.read(), file.filename or "") if isinstance(file, UploadFile) else (b"", "")
            pairs = tuple((key, text) for key, text in form.multi_items() if isinstance(text, str))
        return await run_in_threadpool(handle, request, Given(pairs, data, name[:NAME]))

    return endpoint


def whole(text: str | None, digits: int = LONGEST) -> int:
    """The number that is written, of so many digits at most; 0 for anything else."""
    return int(text) if text and text.isascii() and text.isdigit() and len(text) <= digits else 0


def unit_of(text: str | None) -> Unit:
    """Inches where they are named, else centimetres."""
    return "in" if text == "in" else "cm"
