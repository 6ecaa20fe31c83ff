"""Files: made whole in memory, then put in place one by one so that none is ever half-written."""

from __future__ import annotations

import os
import re
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.model.garment import Garment

NUMBERED: Final = re.compile(
    r"(lay|tears|stencil)-\d+\.svg|(chalk|tears|blocks)-\d+\.csv|pattern-long-\d+\.pdf|stencils\.pdf|hang(-turn)?\.(glb|png|csv)"
)
"""Files of which a garment may have more or fewer each time."""


def write_garment(garment: Garment, folder: Path) -> list[str]:
    """Write the card and all files of one garment; returns their names.

    Numbered files of an earlier run that had more of them are taken away.
    Raises BadInput when the folder cannot be written.
    """
    from ellwand.publish.all_files import files_of

    files = {name: made() for name, made in files_of(garment).items()}
    written = write_files(files, folder)
    for old in folder.iterdir():
        if NUMBERED.fullmatch(old.name) and old.name not in files:
            old.unlink()
    return written


def write_files(files: Mapping[str, bytes], folder: Path) -> list[str]:
    """Write files into a folder, making it; returns their names.

    Raises BadInput when the folder cannot be written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, data in files.items():
            write_whole(folder / name, data)
    except OSError as error:
        raise BadInput(
            str(folder),
            _("the files cannot be written ({why})", why=error.strerror),
            _("name another folder with --out"),
        ) from None
    return list(files)


def write_whole(path: Path, data: bytes) -> None:
    """Write a file so that it is either the old one or the new one, never half of it."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, 0o644)  # noqa: PTH101
        os.replace(name, path)  # noqa: PTH105
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
