"""What is done already, on disk: a record of every garment and shared lay beside its files, found again by its key."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, Final, TypeVar

from ellwand.company.reckoning import Files
from ellwand.model.company import Done, Shared

Record = TypeVar("Record", Done, Shared)
Write = Callable[[Mapping[str, bytes], Path], object]
"""Writes files into a folder, each whole or not at all."""

RECORDS: Final = "reckoned"
"""The folder of the records."""


class Shelf:
    """A folder in which every record lies beside the files it speaks of.

    Only what is whole is found: a record is written after its files, and is none without them.
    """

    def __init__(self, folder: Path, write: Write) -> None:
        from pydantic import TypeAdapter

        self.folder, self._write = folder, write
        self._adapters: dict[type[Any], Any] = {kind: TypeAdapter(kind) for kind in (Done, Shared)}

    def find(self, kind: type[Record], key: str, place: str) -> Record | None:
        """The record of that key, if its files lie in ``place``; None where it is to be done (again)."""
        from pydantic import ValidationError

        try:
            found: Record = self._adapters[kind].validate_json((self.folder / RECORDS / f"{key}.json").read_bytes())
        except (OSError, ValidationError):
            return None
        return found if all((self.folder / place / file).is_file() for file in found.files) else None

    def put(self, record: Record, key: str, place: str, files: Files) -> None:
        """Keeps the files and then the record.

        Raises BadInput when the folder cannot be written.
        """
        if files:
            self._write(files, self.folder / place)
        self._write({f"{key}.json": self._adapters[type(record)].dump_json(record)}, self.folder / RECORDS)
