"""The full-size pattern alone, on the paper the maker has."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from ellwand.cli.reading import named, read_sheet_file, unit_of
from ellwand.errors import BadInput
from ellwand.language import _

if TYPE_CHECKING:
    from ellwand.model.garment import Garment

PAPERS: Final = ("A4", "Letter", "A3", "A0", "roll", "projector")
ROLL: Final = 90.0
"""A roll is so wide (cm) where nothing is said."""


def pattern(
    sheet: Annotated[Path, typer.Argument(metavar="SHEET", help="the sheet: a .toml file", show_default=False)],
    paper: Annotated[str, typer.Option(help=f"what it is printed on: {', '.join(PAPERS)}")] = "A4",
    curves: Annotated[
        bool, typer.Option("--curves", help="only the curved edges, which chalk and a rule cannot draw")
    ] = False,
    roll: Annotated[
        str | None, typer.Option(help="how wide the roll is, as in 61 or 36 in; left out: 90 cm", show_default=False)
    ] = None,
    out: Annotated[Path, typer.Option("--out", help="the folder to write into")] = Path("out"),
    unit: Annotated[str | None, typer.Option(help="cm or in; left out: the wearer's", show_default=False)] = None,
) -> int:
    """The full-size pattern: over sheets of paper, on a roll, or for a projector."""
    from ellwand.cli.writing import write_files
    from ellwand.plan.making import make_freely

    with named(sheet):
        wanted = _paper(paper, curves)
        garment = make_freely(read_sheet_file(sheet), seconds=0.0, unit=unit_of(unit))
        written = write_files(_files(garment, wanted, curves, roll), out)
    print(_("Written into {folder}: {files}", folder=out, files=", ".join(written)))
    return 0


def _paper(paper: str, curves: bool) -> str:
    """The paper's name as it is written.

    Raises BadInput for any other, or for the curves alone where they are not laid over sheets.
    """
    name = {each.casefold(): each for each in PAPERS}.get(paper.casefold())
    if name is None:
        raise BadInput(
            "--paper",
            _("{paper!r} is not known", paper=paper[:20]),
            _("choose one of {names}", names=", ".join(PAPERS)),
        )
    if curves and name in ("roll", "projector"):
        raise BadInput(
            "--curves",
            _("the curves alone are not made for a roll")
            if name == "roll"
            else _("the curves alone are not made for a projector"),
            _("choose A4, Letter, A3 or A0"),
        )
    return name


def _files(garment: Garment, paper: str, curves: bool, roll: str | None) -> dict[str, bytes]:
    from ellwand.publish.pattern import PAPERS as SHEETS
    from ellwand.publish.pattern import long_sheet_pdf, pattern_pdf, projector_pdf
    from ellwand.units import parse_length

    if paper == "projector":
        return {"pattern-projector.pdf": projector_pdf(garment)}
    if paper == "roll":
        width = ROLL if roll is None else parse_length(roll, garment.wearer.unit, "--roll")
        sheets = long_sheet_pdf(garment, width)
        return {f"pattern-roll{f'-{n}' if n > 1 else ''}.pdf": each for n, each in enumerate(sheets, 1)}
    size = next(each for each in SHEETS if each == paper)
    name = f"pattern-{'curves-' if curves else ''}{paper.lower()}.pdf"
    return {name: pattern_pdf(garment, size, only_curved=curves)}
