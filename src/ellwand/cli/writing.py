"""Files: made whole in memory, then put in place one by one so that none is ever half-written."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from pathlib import Path

from ellwand.errors import BadInput
from ellwand.model.garment import Garment


def write_garment(garment: Garment, folder: Path) -> list[str]:
    """Write the card and all files of one garment; returns their names.

    Raises BadInput when the folder cannot be written.
    """
    from ellwand.publish import card_pdf, chalk_csv, lay_svg, pieces_svg, sewing_md
    from ellwand.publish.garment_json import garment_json

    files: dict[str, bytes] = {
        "card.pdf": card_pdf(garment),
        "garment.json": garment_json(garment).encode(),
        "pieces.svg": pieces_svg(garment).encode(),
        "lay.svg": lay_svg(garment, garment.lays[0]).encode(),
        "chalk.csv": chalk_csv(garment, garment.lays[0]).encode(),
        "sewing.md": sewing_md(garment).encode(),
    }
    return write_files(files, folder)


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
            str(folder), f"the files cannot be written ({error.strerror})", "name another folder with --out"
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
