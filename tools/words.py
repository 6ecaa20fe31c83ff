"""The catalogue of words: gathers every sentence of code and templates and brings the translations up to it.

    python tools/words.py          brings every src/ellwand/locale/*.po up to the code
    python tools/words.py --todo   prints what is still to be translated, by language

Translations that no sentence asks for any more are dropped; what is new stands empty until someone translates it.
"""

from __future__ import annotations

import argparse
import io
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Final

from babel.messages.catalog import Catalog, Message
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

SOURCE: Final = Path(__file__).parents[1] / "src" / "ellwand"
LOCALE: Final = SOURCE / "locale"
METHODS: Final = [("**.py", "python"), ("**.html", "jinja2.ext:babel_extract")]
KEYWORDS: Final = {"_": None, "N_": None, "plural": (1, 2), "pgettext": ((1, "c"), 2)}


def sentences() -> Iterator[tuple[str | tuple[str, str], str | None]]:
    """Every sentence of the code with its context, each once, in the order of its files."""
    seen = set()
    found = extract_from_dir(SOURCE, method_map=METHODS, keywords=KEYWORDS)
    for _, _, message, _, context in sorted(found, key=lambda each: (each[0], each[1])):
        if isinstance(message, (tuple, list)):
            message = (message[0], message[1])
        if (message, context) not in seen:
            seen.add((message, context))
            yield message, context


def catalogue(language: str) -> Catalog:
    """The translations as they are written."""
    with (LOCALE / f"{language}.po").open("rb") as file:
        return read_po(file, locale=language)


def brought_up(old: Catalog) -> Catalog:
    """The same translations for the sentences of today."""
    new = Catalog(locale=old.locale, project="Ellwand", fuzzy=False)
    for message, context in sentences():
        known = old.get(message if isinstance(message, str) else message[0], context)
        new.add(message, string=known.string if known and not known.fuzzy else None, context=context)
    return new


def written(words: Catalog) -> bytes:
    """The catalogue as a .po file: the same bytes for the same words."""
    out = io.BytesIO()
    write_po(out, words, width=118, omit_header=True, no_location=True)
    head = (
        f"# Ellwand in {words.locale}: {words.locale.get_display_name('en')}.\n"
        'msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=utf-8\\n"\n'
        f'"Language: {words.locale}\\n"\n"Plural-Forms: {words.plural_forms}\\n"\n\n'
    )
    return head.encode() + out.getvalue()


def untranslated(words: Catalog) -> list[Message]:
    """What has no translation yet."""
    return [m for m in words if m.id and not all([m.string] if isinstance(m.string, str) else m.string or [""])]


def main(arguments: Sequence[str] | None = None) -> None:
    """Bring the files up to the code, or tell what is to do."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--todo", action="store_true", help="print what is still to be translated")
    todo = parser.parse_args(arguments).todo
    for file in sorted(LOCALE.glob("*.po")):
        words = brought_up(catalogue(file.stem))
        left = untranslated(words)
        if todo:
            print("\n".join(str(m.id) for m in left))
        else:
            file.write_bytes(written(words))
        print(f"{file.stem}: {sum(1 for m in words if m.id) - len(left)} translated, {len(left)} to do")


if __name__ == "__main__":
    main()
