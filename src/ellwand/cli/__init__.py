"""The command line: parse, call, show, word errors.  Heavy rooms are imported inside the commands."""

from __future__ import annotations

import sys

from ellwand.errors import BadInput
from ellwand.language import _


def main() -> None:
    """The ``ellwand`` command. Exit 0 done, 1 some check says it will not work, 2 bad input."""
    import typer

    from ellwand.cli.app import app

    try:
        code = app(standalone_mode=False)
    except BadInput as error:
        _say(str(error))
        code = 2
    except (typer.Abort, KeyboardInterrupt):
        _say(_("Stopped; nothing was changed."))
        code = 130
    except Exception as error:
        # a wrong call: the command line's own errors know how to say themselves
        message = getattr(error, "format_message", None)
        if message is None:
            raise
        _say(str(message()))
        code = 2
    sys.exit(code or 0)


def _say(sentence: str) -> None:
    print(" ".join(sentence.split()), file=sys.stderr)
