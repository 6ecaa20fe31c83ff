"""The maker's language: every sentence is looked up in one catalogue, and stays English where that has none.

A sentence stands in the code in English, as ``_("Cut {count} gores.", count=3)``; its translation in
``locale/<language>.po`` (gettext), where the words in braces may change places.  A further language is one more file.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache
from gettext import GNUTranslations, NullTranslations
from importlib import resources
from typing import Final

from ellwand.errors import BadInput

SOURCE: Final = "en"
"""The language that the code is written in."""
_spoken: ContextVar[str | None] = ContextVar("language", default=None)


def languages() -> tuple[str, ...]:
    """Every language there is a catalogue for, English first."""
    files = resources.files("ellwand").joinpath("locale").iterdir()
    return (SOURCE, *sorted(file.name.removesuffix(".po") for file in files if file.name.endswith(".po")))


def language() -> str:
    """The language that is spoken now; English until another is chosen."""
    return _spoken.get() or SOURCE


def is_chosen() -> bool:
    """Whether anyone has chosen a language."""
    return _spoken.get() is not None


@contextmanager
def speaking(name: str) -> Iterator[None]:
    """Within it, sentences come in that language.

    Raises BadInput where there is no catalogue for it.
    """
    token = _spoken.set(known(name))
    try:
        yield
    finally:
        _spoken.reset(token)


@contextmanager
def speaking_unless_chosen(name: str | None) -> Iterator[None]:
    """Within it, sentences come in that language, where there is one and no one has chosen another.

    Raises BadInput where there is no catalogue for it.
    """
    if name is None or is_chosen():
        yield
    else:
        with speaking(name):
            yield


def known(name: str) -> str:
    """The language's name.

    Raises BadInput where there is no catalogue for it.
    """
    if name not in languages():
        raise BadInput(
            "language",
            _("{name!r} is not known", name=name[:20]),
            _("choose one of {names}", names=", ".join(languages())),
        )
    return name


def speak(name: str) -> None:
    """From now on sentences come in that language: for the one who runs the program.

    Raises BadInput where there is no catalogue for it.
    """
    _spoken.set(known(name))


def _(message: str, **values: object) -> str:
    """The sentence in the language spoken, with the values in its braces."""
    said = _catalogue(language()).gettext(message)
    return said.format_map(values) if values else said


def pgettext(context: str, message: str) -> str:
    """The words in the language spoken, where the same English words elsewhere mean something else."""
    return _catalogue(language()).pgettext(context, message)


def plural(one: str, many: str, n: int, **values: object) -> str:
    """The sentence for one or for ``n`` of something; ``{n}`` in it is the number."""
    return _catalogue(language()).ngettext(one, many, n).format_map({"n": n, **values})


def decimal_mark() -> str:
    """What stands before the tenths."""
    if language() == SOURCE:
        return "."
    from babel.numbers import get_decimal_symbol

    return get_decimal_symbol(language())


def N_(message: str) -> str:
    """Marks words for the catalogue that are looked up only when they are shown."""
    return message


@cache
def _catalogue(name: str) -> NullTranslations:
    """The translations of that language."""
    if name == SOURCE:
        return NullTranslations()
    from babel.messages.mofile import write_mo
    from babel.messages.pofile import read_po

    with resources.files("ellwand").joinpath("locale", f"{name}.po").open("rb") as file:
        words = read_po(file, locale=name)
    compiled = io.BytesIO()
    write_mo(compiled, words)
    compiled.seek(0)
    return GNUTranslations(compiled)
