"""The command line put together, in the order of the work."""

from __future__ import annotations

from typing import Final

import typer

from ellwand.cli import commands, measuring, stretching

app: Final = typer.Typer(
    add_completion=False,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    help="From a person's measurements and a length of cloth to a cut card for historical dress.",
)
for command in (
    measuring.form,
    measuring.estimate,
    commands.prove,
    commands.lay,
    commands.make,
    stretching.stretch,
    stretching.freedom,
    commands.demo,
):
    app.command()(command)
