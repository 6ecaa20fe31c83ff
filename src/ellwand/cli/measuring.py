"""The commands about people: the form to measure by, and what is missing filled in."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Annotated

import typer

from ellwand.cli.reading import named, pairs_of, read_sheet_file, unit_of
from ellwand.errors import BadInput
from ellwand.language import _

Given = Annotated[
    list[str] | None,
    typer.Argument(metavar="FIELD=VALUE ...", help="what was measured, as in height=164", show_default=False),
]
ListFile = Annotated[
    Path | None, typer.Option("--list", help="a list of people: a .csv file, one row a person", show_default=False)
]
ForSheet = Annotated[
    Path | None,
    typer.Argument(metavar="[SHEET]", help="star what this garment needs: a .toml file", show_default=False),
]
InUnit = Annotated[str | None, typer.Option("--unit", help="cm or in", show_default=False)]
OutFile = Annotated[Path, typer.Option("--out", help="the folder to write into")]


def form(sheet: ForSheet = None, people: ListFile = None, unit: InUnit = None, out: OutFile = Path("out")) -> int:
    """The measuring form to print, one page a person, and the same as a list to type into."""
    from ellwand.cli.writing import write_files
    from ellwand.publish import measuring_form_csv, measuring_form_pdf

    names: tuple[str, ...] = ("",)
    wanted: tuple[str, ...] = ()
    chosen = unit_of(unit)
    if sheet is not None:
        from ellwand.asking import asked_for

        with named(sheet):
            read = read_sheet_file(sheet)
            wanted = asked_for(read)
        chosen = chosen or ("in" if read.wearer.get("unit") == "in" else "cm")
    if people is not None:
        names = tuple(str(table["name"]) for table in _people(people))
    files = {
        "measuring-form.pdf": measuring_form_pdf(names, chosen or "cm", wanted),
        "measurements.csv": measuring_form_csv(chosen or "cm", names if people else ()).encode(),
    }
    print(_("Written into {folder}: {files}", folder=out, files=", ".join(write_files(files, out))))
    return 0


def estimate(
    given: Given = None,
    sex: Annotated[str | None, typer.Option(help="female or male; sharpens the estimates", show_default=False)] = None,
    age: Annotated[str | None, typer.Option(help="years; for a child", show_default=False)] = None,
    unit: InUnit = None,
    confirm: Annotated[
        list[str] | None,
        typer.Option(help="a measurement that was questioned and is right; may be repeated", show_default=False),
    ] = None,
    people: ListFile = None,
    as_json: Annotated[bool, typer.Option("--json", help="print machine-readable results")] = False,
) -> int:
    """Fills in missing measurements, each with its spread, and questions improbable ones."""
    if people is not None:
        if given or sex or age or confirm:
            raise BadInput(
                "--list", _("a list of people brings its own values"), _("give either the list or FIELD=VALUE")
            )
        tables = _people(people)
    else:
        extra = {"sex": sex, "age": age, "unit": unit_of(unit), "confirmed": confirm}
        tables = ({**pairs_of(given or []), **{key: value for key, value in extra.items() if value is not None}},)
    return _filled_in(tables, people, unit, as_json)


def _filled_in(tables: tuple[dict[str, object], ...], people: Path | None, unit: str | None, as_json: bool) -> int:
    from ellwand.cli.show import filled_in, measurements
    from ellwand.measure import doubts, read_raw
    from ellwand.measure import estimate as fill_in

    documents, first_error = [], None
    for table in tables:
        try:
            raw = read_raw({**table, **({"unit": unit} if unit and "unit" not in table else {})})
        except BadInput as error:
            if people is None:
                raise
            placed = error.inside(f"{people}, {table['name']}")
            first_error = first_error or placed
            if not as_json:
                why = _("not filled in: {problem}; {mend}", problem=placed.problem, mend=placed.mend)
                print(f"{table['name']}\n  {why}\n")
            continue
        questions = doubts(raw)
        wearer = fill_in(raw, questions)
        if as_json:
            documents.append(filled_in(wearer, questions))
        else:
            print(measurements(wearer, questions, named=people is not None))
    if as_json:
        print(json.dumps(documents if people else documents[0], indent=1, ensure_ascii=False))
    if first_error:
        raise first_error
    return 0


def _people(file: Path) -> tuple[dict[str, object], ...]:
    from ellwand.cli.show import say
    from ellwand.loading import read_file
    from ellwand.measure import read_people

    with named(file):
        read = read_people(read_file(file, _("a list of people (a .csv file)")))
    if read.left_out:
        say(_("{file}: not measurements, left alone: {names}.", file=file, names=", ".join(read.left_out)))
    return tuple(dict(table) for table in read.tables)
