"""The commands that make, prove and lay a garment."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from ellwand.cli.reading import interruptible, named, read_sheet_file, unit_of, widths_of
from ellwand.language import _

if TYPE_CHECKING:
    from ellwand.model.garment import Garment

SheetFile = Annotated[Path, typer.Argument(metavar="SHEET", help="the sheet: a .toml file", show_default=False)]
Out = Annotated[Path, typer.Option("--out", help="the folder to write into")]
Seconds = Annotated[float, typer.Option(min=0, max=3600, help="how long to search for a shorter lay")]
Effort = Annotated[
    int,
    typer.Option(
        min=0,
        max=3600,
        help="search this much instead, about a second each: the same lay every time",
        show_default=False,
    ),
]
Widths = Annotated[
    str | None,
    typer.Option(
        "--widths",
        help='compare cloths of these widths, as in "90, 112, 150", or of the common ones: common',
        show_default=False,
    ),
]
Seed = Annotated[int, typer.Option(min=0, max=2**31, help="the same seed, the same search")]
InUnit = Annotated[str | None, typer.Option("--unit", help="cm or in; left out: the wearer's", show_default=False)]
Large = Annotated[
    bool, typer.Option("--large", help="card and sewing order in large type, as sewing.large_type in the sheet")
]
Hanging = Annotated[bool, typer.Option("--hang", help="also how it hangs on its wearer: hang.glb, hang.png, hang.csv")]
AsJson = Annotated[bool, typer.Option("--json", help="print machine-readable results")]


def make(
    sheet: SheetFile,
    out: Out = Path("out"),
    unit: InUnit = None,
    seconds: Seconds = 5.0,
    effort: Effort = 0,
    seed: Seed = 1,
    large: Large = False,
    hang: Hanging = False,
) -> int:
    """The whole job for one garment: proves it, lays it on the cloth, writes the card and the files."""
    from ellwand.cli.show import say, summary
    from ellwand.cli.writing import write_garment

    garment = _made(sheet, seconds, effort, seed, unit)
    if large:
        garment = in_large_type(garment)
    if hang:
        garment = _hung(sheet, garment)
    say(_("writing the card"))
    written = write_garment(garment, out)
    print(summary(garment))
    print(_("Written into {folder}: {files}", folder=out, files=", ".join(written)))
    return _verdict(garment)


def prove(sheet: SheetFile, as_json: AsJson = False, unit: InUnit = None) -> int:
    """Drafts and checks only, and prints what was found."""
    from ellwand.cli.show import findings
    from ellwand.pipeline import prove_sheet
    from ellwand.publish.garment_json import garment_json

    with named(sheet):
        garment = prove_sheet(read_sheet_file(sheet), unit=unit_of(unit))
    print(garment_json(garment) if as_json else findings(garment), end="")
    return _verdict(garment)


def lay(
    sheet: SheetFile,
    seconds: Seconds = 5.0,
    effort: Effort = 0,
    seed: Seed = 1,
    unit: InUnit = None,
    widths: Widths = None,
) -> int:
    """The cutting lay only: what to buy and where each piece lies; or the same on cloths of several widths."""
    from ellwand.cli.show import lay_table

    if widths is not None:
        return _side_by_side(sheet, widths, seconds, effort, seed, unit)
    garment = _made(sheet, seconds, effort, seed, unit)
    print(lay_table(garment), end="")
    return _verdict(garment)


def _made(sheet: Path, seconds: float, effort: int, seed: int, unit: str | None) -> Garment:
    """The garment of a sheet, with what is left open settled; Ctrl-C ends the search of its lay."""
    from ellwand.cli.show import say
    from ellwand.plan.making import make_freely

    with named(sheet), interruptible() as stop:
        return make_freely(
            read_sheet_file(sheet),
            seconds=seconds,
            effort=effort,
            seed=seed,
            unit=unit_of(unit),
            progress=say,
            stop=stop,
        )


def in_large_type(garment: Garment) -> Garment:
    """The same garment, its card and sewing order to be printed in large type."""
    sewing = replace(garment.choices.sewing, large_type=True)
    return replace(garment, choices=replace(garment.choices, sewing=sewing))


def _hung(sheet: Path, garment: Garment) -> Garment:
    """The garment hung on its wearer; Ctrl-C ends that with what it has."""
    from ellwand.cli.show import say
    from ellwand.pipeline import hung

    with named(sheet), interruptible() as stop:
        return hung(garment, progress=say, stop=stop)


def _side_by_side(sheet: Path, widths: str, seconds: float, effort: int, seed: int, unit: str | None) -> int:
    """The garment on each of the widths; 1 when none of them will do."""
    from ellwand.cli.show import say, widths_table
    from ellwand.plan.widths import COMMON, at_widths
    from ellwand.units import format_length

    with named(sheet):
        read = read_sheet_file(sheet)
        shown = unit_of(unit) or read.cloth.unit
        tried = tuple(
            at_widths(
                read,
                COMMON[shown] if widths.strip() == "common" else widths_of(widths, shown),
                seconds=seconds,
                effort=effort,
                seed=seed,
                unit=unit_of(unit),
                progress=lambda width: say(_("laying it on cloth {width} wide", width=format_length(width, shown))),
            )
        )
    print(widths_table(tried, shown, read.cloth.price), end="")
    return 1 if all(each.refused for each in tried) else 0


def demo(out: Out = Path("out"), seconds: Seconds = 3.0) -> int:
    """The Saltmere players' demo: six people of our own invention, six garments; and a pageant of twenty."""
    from ellwand.cli.show import say, summary
    from ellwand.cli.writing import write_garment
    from ellwand.loading import load_sheet
    from ellwand.pipeline import make as run

    folder = Path(__file__).parent.parent / "examples"
    for sheet in sorted(folder.glob("*.toml")):
        garment = run(load_sheet(sheet), seconds=seconds, progress=lambda what: say(f"{sheet.stem}: {what}"))  # noqa: B023
        write_garment(garment, out / sheet.stem)
        print(summary(garment))
        print(f"  {_('the card: {file}', file=out / sheet.stem / 'card.pdf')}\n")
    return _pageant(folder / "pageant", out / "pageant")


def _pageant(folder: Path, out: Path) -> int:
    """One order for twenty people in three kinds of garment, quickly laid."""
    from ellwand.cli.company import company

    sheets = [folder / f"{name}.toml" for name in ("tunic", "gown", "surcote")]
    return company(folder / "roster.csv", sheets, out, crew=4, order_only=True, effort=0)


def _verdict(garment: Garment) -> int:
    return 1 if any(each.outcome == "will not work" for each in garment.proof.findings) else 0
