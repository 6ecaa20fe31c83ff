"""The command for many wearers: one order for a class or a company."""

from __future__ import annotations

from contextlib import AbstractContextManager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from ellwand.cli.commands import InUnit, Seed
from ellwand.cli.reading import interruptible, named, unit_of
from ellwand.errors import BadInput
from ellwand.language import _, language

if TYPE_CHECKING:
    from ellwand.company.hands import Hands
    from ellwand.company.roster import Roster

RosterFile = Annotated[
    Path, typer.Argument(metavar="ROSTER", help="a list of people: a .csv or .xlsx file", show_default=False)
]
Sheets = Annotated[
    list[Path],
    typer.Argument(metavar="SHEET ...", help="the garments; the first is for whom none is named", show_default=False),
]
STOPPED: Final = 130


def company(
    roster: RosterFile,
    sheets: Sheets,
    out: Annotated[Path, typer.Option("--out", help="the folder to write into")] = Path("out"),
    workers: Annotated[
        int | None, typer.Option("--workers", help="so many processes; left out: one for each core", show_default=False)
    ] = None,
    cluster: Annotated[
        str | None,
        typer.Option("--cluster", help="a Dask scheduler's address instead: tcp://host:port", show_default=False),
    ] = None,
    crew: Annotated[int, typer.Option("--crew", min=1, max=1000, help="so many sew")] = 1,
    order_only: Annotated[
        bool, typer.Option("--order-only", help="the report, the lays and the order, without everyone's papers")
    ] = False,
    effort: Annotated[
        int, typer.Option(min=0, max=600, help="search this much for each lay, about a second each; 0: no search")
    ] = 1,
    unit: InUnit = None,
    seed: Seed = 1,
) -> int:
    """One or several kinds of garment for many wearers: everyone's papers, shared lays, and one order."""
    from ellwand.cli.show import say
    from ellwand.cli.writing import write_files
    from ellwand.company.reckoning import How
    from ellwand.company.roster import load_roster
    from ellwand.company.running import run
    from ellwand.company.shelf import Shelf

    if cluster is not None and workers is not None:
        raise BadInput("--cluster", _("--workers is given too"), _("give one of the two"))
    with named(roster):
        read = load_roster(roster, sheets)
    _questioned(roster, read)
    how = How(effort, seed, unit_of(unit), language(), papers=not order_only)
    with _hands(workers, cluster) as hands, interruptible() as stop:
        made = run(read.bundles, how, hands, Shelf(out, write_files), crew, say, stop)
    if made is None:
        say(_("Stopped. What is done is kept in {folder}: the same command goes on from there.", folder=out))
        return STOPPED
    say(_("writing the report and the order"))
    from ellwand.cli.packing import write_company

    print(write_company(made, out))
    return 1 if any(each.fails for each in made.done.values()) else 0


def _hands(workers: int | None, cluster: str | None) -> AbstractContextManager[Hands]:
    from ellwand.company import hands

    return hands.processes(hands.count_of(workers)) if cluster is None else hands.cluster(cluster)


def _questioned(file: Path, read: Roster) -> None:
    """What of the list is not used, and what may be a slip."""
    from ellwand.cli.show import say

    if read.left_alone:
        names = ", ".join(read.left_alone)
        say(_("{file}: not measurements, left alone: {names}.", file=file, names=names))
    if read.twice:
        say(_("{file}: more than once, taken as different people: {names}.", file=file, names=", ".join(read.twice)))
