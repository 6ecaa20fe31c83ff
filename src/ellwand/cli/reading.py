"""What the command line is given, read."""

from __future__ import annotations

import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING, Final

from ellwand.errors import BadInput
from ellwand.language import _, is_chosen, speak
from ellwand.units import Unit, format_length, parse_length

if TYPE_CHECKING:
    from ellwand.choose import Sheet

MOST_WIDTHS: Final = 12
NARROWEST: Final = 15.0
WIDEST: Final = 1000.0
"""Widths of cloth (cm) that can be compared: as a sheet may have."""


def unit_of(unit: str | None) -> Unit | None:
    """The unit named with --unit.

    Raises BadInput for any other word.
    """
    if unit is None:
        return None
    if unit == "cm":
        return "cm"
    if unit == "in":
        return "in"
    raise BadInput("--unit", _("{unit!r} is not a unit", unit=unit), _("choose cm or in"))


def pairs_of(given: Sequence[str]) -> dict[str, str]:
    """FIELD=VALUE pairs as a table.

    Raises BadInput for anything else.
    """
    table: dict[str, str] = {}
    for each in given:
        name, equals, value = (part.strip() for part in each.partition("="))
        if not equals:
            raise BadInput(each[:60], _("this is not FIELD=VALUE"), _("write it as in height=164"))
        if name in table:
            raise BadInput(name, _("this is given twice"), _("give it once"))
        table[name] = value
    return table


def widths_of(text: str, unit: Unit) -> tuple[float, ...]:
    """Widths of cloth (cm) from a list with commas or spaces between plain numbers, which are in ``unit``.

    Raises BadInput for anything that is no width of cloth.
    """
    parts = [part.strip() for part in (text.split(",") if "," in text else text.split()) if part.strip()]
    if not 1 <= len(parts) <= MOST_WIDTHS:
        raise BadInput(
            "--widths",
            _("{count} widths are given", count=len(parts)),
            _("give 1 to {most}, as in 90, 112, 150", most=MOST_WIDTHS),
        )
    widths = tuple(parse_length(_plain(part), unit, "--widths") for part in parts)
    for part, width in zip(parts, widths, strict=True):
        if not NARROWEST <= width <= WIDEST:
            least, most = format_length(NARROWEST, unit), format_length(WIDEST, unit)
            raise BadInput(
                "--widths",
                _("{part} is no width of cloth", part=part),
                _("give widths from {least} to {most}", least=least, most=most),
            )
    return widths


def _plain(part: str) -> float | str:
    try:
        return float(part)
    except ValueError:
        return part


def read_sheet_file(path: Path) -> Sheet:
    """The sheet in a file; from then on everything is said in its language, where no other was asked for.

    Raises BadInput naming the file, the key and the mend.
    """
    from ellwand.loading import load_sheet

    sheet = load_sheet(path)
    if sheet.language and not is_chosen():
        speak(sheet.language)
    return sheet


@contextmanager
def interruptible() -> Iterator[Callable[[], bool]]:
    """Inside, the first Ctrl-C only asks to stop, as the function given then says; the next one ends the job."""
    asked = False

    def ask(number: int, frame: FrameType | None) -> None:
        nonlocal asked
        asked = True
        signal.signal(signal.SIGINT, before)

    def stop() -> bool:
        return asked

    if threading.current_thread() is not threading.main_thread():
        yield stop
        return
    before = signal.signal(signal.SIGINT, ask)
    try:
        yield stop
    finally:
        signal.signal(signal.SIGINT, before)


@contextmanager
def named(file: Path) -> Iterator[None]:
    """Whatever is wrong inside is wrong in that file: name it."""
    try:
        yield
    except BadInput as error:
        if error.where.startswith((str(file), "--")):
            raise
        raise error.inside(str(file)) from None
