"""The command that reads a picture's marks."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from ellwand.cli.commands import InUnit, Out, SheetFile
from ellwand.cli.reading import named, read_sheet_file, unit_of
from ellwand.language import _

if TYPE_CHECKING:
    from ellwand.plan.picturing import Offered, Pictured


def picture(
    marks: Annotated[
        Path, typer.Argument(metavar="MARKS", help="marks on a picture: a .json file", show_default=False)
    ],
    sheet: SheetFile,
    out: Out = Path("out"),
    unit: InUnit = None,
) -> int:
    """From marks on a picture to choices: lengths for the sheet's wearer, and the structures that would look so."""
    import tomli_w

    from ellwand.choose import sheet_tables
    from ellwand.cli.writing import write_files
    from ellwand.loading import load_sheet, read_file
    from ellwand.picture import read_marks
    from ellwand.plan.picturing import pictured
    from ellwand.publish.files import pieces_svg
    from ellwand.publish.garment_svg import garment_svg

    with named(marks):
        read = read_marks(read_file(marks, _("marks on a picture (a .json file)")))
    with named(sheet):
        read_sheet_file(sheet)
        tables = sheet_tables(read_file(sheet, _("a sheet (a .toml file)")))
        found = pictured(read, tables, lambda changed: load_sheet(sheet, lambda _old: changed), unit_of(unit))
    files: dict[str, bytes] = {}
    for number, each in enumerate(found.offered, 1):
        files[f"offer-{number}.toml"] = tomli_w.dumps(each.tables).encode()
        if each.garment is not None:
            files[f"offer-{number}-garment.svg"] = garment_svg(each.garment).encode()
            files[f"offer-{number}-pieces.svg"] = pieces_svg(each.garment).encode()
    print(_told(found))
    print(_("Written into {folder}: {files}", folder=out, files=", ".join(write_files(files, out))))
    return 0


def _told(found: Pictured) -> str:
    from ellwand.depict.words import picturing as say

    rows = [say.reading_said(each, found.unit) for each in found.readings]
    wide = max(len(row[0]) for row in rows)
    lines = [_("Read from the picture, with the range that holds it 9 times in 10:")]
    lines += [f"  {what:<{wide}}  {value:>10}  {_('({range})', range=held)}" for what, value, held in rows]
    for number, each in enumerate(found.offered, 1):
        lines += ["", *_offer(number, each, found)]
    lines += ["", _("No picture tells {unknown}.", unknown="; ".join(say.unknown_said()))]
    return "\n".join(lines)


def _offer(number: int, each: Offered, found: Pictured) -> list[str]:
    from ellwand.depict import words
    from ellwand.depict.words import picturing as say

    lines = [f"{number}. {say.structure_said(each.offer)} ({say.likely_said(each.offer)})"]
    speaks, against = say.reasons_said(each.offer)
    lines += [f"  {_('for it: {reason}', reason=reason)}" for reason in speaks]
    lines += [f"  {_('against it: {reason}', reason=reason)}" for reason in against]
    lines.append(f"  {_('not to be seen: {hidden}', hidden=say.hidden_said(each.offer))}")
    if each.garment is None:
        lines.append(f"  {_('It cannot be drafted so: {why}', why=each.refused)}")
    lines += [f"  {words.why(finding, found.unit)}" for finding in each.evidence]
    return lines
