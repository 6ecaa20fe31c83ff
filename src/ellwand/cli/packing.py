"""A company's files on disk: the report, the order, labels, and all of it in one archive."""

from __future__ import annotations

import os
import tempfile
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from ellwand.cli.writing import write_files
from ellwand.company.running import LAYS, PEOPLE
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.model.company import Company

PACK: Final = "pack.zip"
LONG_AGO: Final = (1980, 1, 1, 0, 0, 0)
"""The time of every file in the archive, so that the same company gives the same bytes."""


def write_company(company: Company, folder: Path) -> str:
    """Writes what is for all, and the archive; returns the report's summary and where it lies.

    Raises BadInput when the folder cannot be written.
    """
    from ellwand.depict.company import everyone, looks, order
    from ellwand.publish.company import labels_pdf, report_md, report_pdf
    from ellwand.publish.company.report import summed_up
    from ellwand.publish.tables import table_csv

    files = {
        "report.pdf": report_pdf(company),
        "report.md": report_md(company).encode(),
        "order.csv": table_csv(order(company)).encode(),
        "looks.csv": table_csv(looks(company)).encode(),
        "everyone.csv": table_csv(everyone(company)).encode(),
        "labels.pdf": labels_pdf(company),
    }
    write_files(files, folder)
    _pack(company, folder, tuple(files))
    lines = [summed_up(company)]
    for cells in order(company).rows:
        name, much, made, *cost = cells
        said = ", ".join(part for part in (much, *cost) if part)
        lines.append(f"  {name}: {said}" + (f" ({made})" if made else ""))
    folders = [f"{LAYS}/"] * any(each.files for each in company.shared)
    folders += [f"{PEOPLE}/"] * any(each.files for each in company.done.values())
    written = (*files, *folders, PACK)
    lines.append(_("Written into {folder}: {files}", folder=folder, files=", ".join(written)))
    return "\n".join(lines)


def _pack(company: Company, folder: Path, shared: tuple[str, ...]) -> None:
    """Everything in one archive, read from disk file by file."""
    handle, name = tempfile.mkstemp(dir=folder, prefix=f".{PACK}.")
    try:
        with os.fdopen(handle, "wb") as file, zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as pack:
            for path in (*shared, *_papers(company)):
                pack.writestr(zipfile.ZipInfo(path, LONG_AGO), (folder / path).read_bytes(), zipfile.ZIP_DEFLATED)
        os.replace(name, folder / PACK)  # noqa: PTH105
    except OSError as error:
        raise BadInput(
            str(folder),
            _("the files cannot be written ({why})", why=error.strerror),
            _("name another folder with --out"),
        ) from None
    finally:
        Path(name).unlink(missing_ok=True)


def _papers(company: Company) -> Iterator[str]:
    for each in company.shared:
        yield from (f"{LAYS}/{file}" for file in each.files)
    for number, done in sorted(company.done.items()):
        yield from (f"{company.places[number]}/{file}" for file in done.files)
