"""The commands."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from ellwand.errors import BadInput

if TYPE_CHECKING:
    from ellwand.model.garment import Garment
    from ellwand.units import Unit

app: Final = typer.Typer(
    add_completion=False,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    help="From a person's measurements and a length of cloth to a cut card for historical dress.",
)

SheetFile = Annotated[Path, typer.Argument(metavar="SHEET", help="the sheet: a .toml file", show_default=False)]
Out = Annotated[Path, typer.Option("--out", help="the folder to write into")]
Seconds = Annotated[float, typer.Option(min=0, max=3600, help="how long to search for a shorter lay")]
Seed = Annotated[int, typer.Option(min=0, max=2**31, help="the same seed, the same search")]
InUnit = Annotated[str | None, typer.Option("--unit", help="cm or in; left out: the wearer's", show_default=False)]
AsJson = Annotated[bool, typer.Option("--json", help="print machine-readable results")]


def _unit(unit: str | None) -> Unit | None:
    if unit is None:
        return None
    if unit == "cm":
        return "cm"
    if unit == "in":
        return "in"
    raise BadInput("--unit", f"{unit!r} is not a unit", "choose cm or in")


@contextmanager
def _named(sheet: Path) -> Iterator[None]:
    """Whatever is wrong inside is wrong in that sheet: name it."""
    try:
        yield
    except BadInput as error:
        if error.where.startswith((str(sheet), "--")):
            raise
        raise error.inside(str(sheet)) from None


def _say(text: str) -> None:
    print(text, file=sys.stderr)


@app.command()
def make(
    sheet: SheetFile,
    out: Out = Path("out"),
    unit: InUnit = None,
    seconds: Seconds = 5.0,
    seed: Seed = 1,
) -> int:
    """The whole job for one garment: proves it, lays it on the cloth, writes the card and the files."""
    from ellwand.cli.show import summary
    from ellwand.cli.writing import write_garment
    from ellwand.pipeline import load_sheet
    from ellwand.pipeline import make as run

    with _named(sheet):
        garment = run(load_sheet(sheet), seconds=seconds, seed=seed, unit=_unit(unit), progress=_say)
    _say("writing the card")
    written = write_garment(garment, out)
    print(summary(garment))
    print(f"Written into {out}: {', '.join(written)}")
    return _verdict(garment)


@app.command()
def prove(sheet: SheetFile, as_json: AsJson = False, unit: InUnit = None) -> int:
    """Drafts and checks only, and prints what was found."""
    from ellwand.cli.show import findings
    from ellwand.pipeline import load_sheet, prove_sheet
    from ellwand.publish.garment_json import garment_json

    with _named(sheet):
        garment = prove_sheet(load_sheet(sheet), unit=_unit(unit))
    print(garment_json(garment) if as_json else findings(garment), end="")
    return _verdict(garment)


@app.command()
def lay(sheet: SheetFile, seconds: Seconds = 5.0, seed: Seed = 1, unit: InUnit = None) -> int:
    """The cutting lay only: what to buy and where each piece lies."""
    from ellwand.cli.show import lay_table
    from ellwand.pipeline import load_sheet
    from ellwand.pipeline import make as run

    with _named(sheet):
        garment = run(load_sheet(sheet), seconds=seconds, seed=seed, unit=_unit(unit), progress=_say)
    print(lay_table(garment), end="")
    return _verdict(garment)


@app.command()
def estimate(
    given: Annotated[
        list[str] | None,
        typer.Argument(metavar="FIELD=VALUE ...", help="what was measured, as in height=164", show_default=False),
    ] = None,
    sex: Annotated[str | None, typer.Option(help="female or male; sharpens the estimates", show_default=False)] = None,
    age: Annotated[float | None, typer.Option(help="years; for a child", show_default=False)] = None,
    unit: InUnit = None,
    as_json: AsJson = False,
) -> int:
    """Fills in missing measurements, each with its spread, and questions improbable ones."""
    from ellwand.cli.show import measurements
    from ellwand.measure import doubts, read_raw
    from ellwand.measure import estimate as fill_in

    table: dict[str, object] = {}
    for each in given or []:
        name, equals, value = each.partition("=")
        if not equals:
            raise BadInput(each[:60], "this is not FIELD=VALUE", "write it as in height=164")
        if name.strip() in table:
            raise BadInput(name.strip(), "this is given twice", "give it once")
        table[name.strip()] = value.strip()
    extra = {"sex": sex, "age": age, "unit": _unit(unit)}
    table.update({key: value for key, value in extra.items() if value is not None})
    raw = read_raw(table)
    wearer, questions = fill_in(raw), doubts(raw)
    if as_json:
        print(
            json.dumps(
                {
                    "wearer": {
                        name: {"value": round(m.value, 2), "source": m.source, "sd": round(m.sd, 2)}
                        for name, m in wearer.measures.items()
                    },
                    "questions": [{"field": q.field, "cause": q.cause, "repair": q.repair} for q in questions],
                },
                indent=1,
            )
        )
    else:
        print(measurements(wearer, questions), end="")
    return 0


@app.command()
def demo(out: Out = Path("out"), seconds: Seconds = 3.0) -> int:
    """The Saltmere players' demo: three people of our own invention, three garments."""
    from ellwand.cli.show import summary
    from ellwand.cli.writing import write_garment
    from ellwand.pipeline import load_sheet
    from ellwand.pipeline import make as run

    folder = Path(__file__).parent.parent / "examples"
    for sheet in sorted(folder.glob("*.toml")):
        garment = run(load_sheet(sheet), seconds=seconds, progress=lambda what: _say(f"{sheet.stem}: {what}"))  # noqa: B023
        write_garment(garment, out / sheet.stem)
        print(summary(garment))
        print(f"  the card: {out / sheet.stem / 'card.pdf'}\n")
    return 0


def _verdict(garment: Garment) -> int:
    return 1 if any(each.outcome == "will not work" for each in garment.proof.findings) else 0
