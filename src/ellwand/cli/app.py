"""The command line put together, in the order of the work."""

from __future__ import annotations

from typing import Annotated, Final

import typer

from ellwand.cli import commands, company, hanging, measuring, pattern, picture, serving, stretching

app: Final = typer.Typer(
    add_completion=False,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    rich_markup_mode=None,
)


@app.callback()
def spoken(
    language: Annotated[
        str | None,
        typer.Option(help="what everything is written in: en or de; left out: what the sheet says", show_default=False),
    ] = None,
) -> None:
    """From a person's measurements and a length of cloth to a cut card for historical dress."""
    from ellwand.language import speak

    if language is not None:
        speak(language)


for command in (
    measuring.form,
    measuring.estimate,
    commands.prove,
    commands.lay,
    commands.make,
    pattern.pattern,
    stretching.stretch,
    stretching.freedom,
    hanging.droop,
    company.company,
    picture.picture,
    serving.serve,
    commands.demo,
):
    app.command()(command)
