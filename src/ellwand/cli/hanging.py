"""The command about a cloth's figures: the droop test's page, and the bending length from a droop."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from ellwand.cli.reading import unit_of
from ellwand.language import _

Overhang = Annotated[
    str | None,
    typer.Argument(
        metavar="[OVERHANG]", help="what of a strip hangs over an edge, as in 10.4 or 4in", show_default=False
    ),
]
Angle = Annotated[
    float, typer.Option("--angle", help="how far the straight line to its tip lies below level (degrees)")
]
InUnit = Annotated[str | None, typer.Option("--unit", help="cm or in", show_default=False)]
OutFile = Annotated[Path, typer.Option("--out", help="the folder to write into")]


def droop(overhang: Overhang = None, angle: Angle = 41.5, unit: InUnit = None, out: OutFile = Path("out")) -> int:
    """The page that tells how to measure a cloth for hanging; or, from a strip's droop, its bending length."""
    from ellwand.units import format_length, parse_length

    chosen = unit_of(unit) or "cm"
    if overhang is None:
        from ellwand.cli.writing import write_files
        from ellwand.publish.droop import droop_pdf

        print(
            _(
                "Written into {folder}: {files}",
                folder=out,
                files=", ".join(write_files({"droop.pdf": droop_pdf(chosen)}, out)),
            )
        )
        return 0
    from ellwand.drape.elastica import bending_length

    try:
        given: float | str = float(overhang)
    except ValueError:
        given = overhang
    found = bending_length(parse_length(given, chosen, "OVERHANG"), angle)
    print(_("bending length {length}", length=format_length(found, chosen)))
    return 0
