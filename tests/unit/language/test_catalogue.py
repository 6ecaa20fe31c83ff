"""The catalogue of words: every sentence of the code is in it, translated, with the same words in braces."""

from __future__ import annotations

import string
import sys
from collections import Counter
from pathlib import Path

import pytest

from ellwand.errors import BadInput
from ellwand.language import _, is_chosen, language, languages, plural, speaking
from ellwand.units import format_length

sys.path.insert(0, str(Path(__file__).parents[3] / "tools"))
import words

TRANSLATED = [name for name in languages() if name != "en"]


def braces(text: str) -> Counter[str]:
    """The words in braces."""
    return Counter(field for _, field, _, _ in string.Formatter().parse(text) if field is not None)


def test_german_is_spoken() -> None:
    assert "de" in TRANSLATED


def test_sentences_of_templates_are_gathered_too() -> None:
    found = [message for message, _context in words.sentences()]
    assert "Keep this garment" in found
    assert ("{n} wearer", "{n} wearers") in found


@pytest.mark.parametrize("name", TRANSLATED)
def test_the_catalogue_is_up_to_the_code(name: str) -> None:
    old = words.catalogue(name)
    assert words.written(words.brought_up(old)) == (words.LOCALE / f"{name}.po").read_bytes()


@pytest.mark.parametrize("name", TRANSLATED)
def test_every_sentence_is_translated(name: str) -> None:
    assert [m.id for m in words.untranslated(words.catalogue(name))] == []


@pytest.mark.parametrize("name", TRANSLATED)
def test_translations_have_the_same_words_in_braces(name: str) -> None:
    wrong = []
    for message in words.catalogue(name):
        ids = message.id if isinstance(message.id, tuple) else (message.id,)
        said = message.string if isinstance(message.string, tuple) else (message.string,)
        if message.id and any(set(braces(each)) - set(braces(ids[-1])) for each in said):
            wrong.append(message.id)
        if message.id and isinstance(message.id, str) and braces(message.id) != braces(said[0]):
            wrong.append(message.id)
    assert wrong == []


def test_a_language_is_spoken_only_where_it_was_asked_for() -> None:
    assert not is_chosen()
    with speaking("de"):
        assert language() == "de"
        assert format_length(3.45) == "3,5 cm"
        with speaking("en"):
            assert format_length(3.45) == "3.5 cm"
        assert language() == "de"
    assert language() == "en"
    assert format_length(3.45) == "3.5 cm"


def test_what_is_not_in_the_catalogue_stays_english() -> None:
    with speaking("de"):
        assert _("no such sentence {x}", x=3) == "no such sentence 3"
        assert plural("{n} no such word", "{n} no such words", 2) == "2 no such words"
        assert plural("{n} no such word", "{n} no such words", 1) == "1 no such word"


def test_an_unknown_language_is_refused() -> None:
    with pytest.raises(BadInput, match="choose one of en, de"), speaking("xx"):
        pass
