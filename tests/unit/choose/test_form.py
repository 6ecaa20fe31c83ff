"""A garment as pairs of path and text, as a form and an address have them: nothing is lost on the way, and nothing that
is not a choice is taken for one."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand.choose import Sheet, read_tables
from ellwand.choose.form import groups, pairs_of, tables_of, with_entry, without_entry
from ellwand.choose.form.described import lists, options
from ellwand.choose.form.labels import label_of, word_said
from ellwand.errors import BadInput, CannotDraft
from ellwand.language import languages, speaking
from ellwand.pipeline import prove_sheet
from sweep import Tables, garments

SEED, EACH = 5, 60


def sheets() -> list[tuple[Tables, Tables]]:
    """Garments of the whole choice space that can be read, with their wearers."""
    out = []
    for tables, person in garments(SEED, EACH):
        named = {**tables, "cloth": {"main": tables["cloth"]}}
        try:
            read(named, person)
        except BadInput:
            continue
        out.append((named, person))
    return out


def read(tables: Tables, person: Tables) -> Sheet:
    return read_tables({**tables, "wearer": person}, lambda name: 1.0)


def same(one: Sheet, other: Sheet) -> bool:
    return one.choices == other.choices and [_plain(c) for c in one.cloths] == [_plain(c) for c in other.cloths]


def _plain(cloth: Any) -> Any:
    """A repeat of nothing is none."""
    from dataclasses import replace

    repeat = cloth.repeat
    return replace(cloth, repeat=None) if repeat and not (repeat.across or repeat.along) else cloth


def test_a_sheet_goes_through_pairs_and_comes_out_the_same() -> None:
    found = sheets()
    assert len(found) > EACH / 2
    for tables, person in found:
        unit = person.get("unit", "cm")
        pairs = pairs_of(tables, unit)
        back = tables_of(pairs)
        assert same(read(tables, person), read(back, person))
        assert pairs_of(back, unit) == pairs


def test_every_choice_that_is_made_has_a_control_that_shows_it() -> None:
    for tables, person in sheets():
        try:
            prove_sheet(read(tables, person))
        except CannotDraft:
            # a choice that means nothing beside the others is not asked for
            continue
        unit = person.get("unit", "cm")
        pairs = pairs_of(tables, unit)
        shown = {
            control.path: control
            for group in groups(pairs, unit)
            for control in (*group.controls, *(each for entry in group.entries for each in entry.controls))
        }
        for path, text in pairs:
            plain = path.removesuffix(".most")
            if text != "none" or plain not in lists():
                assert plain in shown, path
                assert text == (shown[plain].most if path.endswith(".most") else shown[plain].value)


@pytest.mark.parametrize("language", languages())
def test_every_option_and_word_is_called_something(language: str) -> None:
    with speaking(language):
        for path, option in options().items():
            assert label_of(path)
            assert all(word_said(path, word) for word in option.takes.words)


def test_an_entry_that_is_added_can_be_left_out_again() -> None:
    begun = pairs_of({"cloth": {"main": {"width": "150 cm"}}})
    for path in (*lists(), "cloth"):
        added = with_entry(begun, path)
        assert added != begun
        new = [p for p, _text in added if p.startswith(f"{path}.") and (p, _text) not in begun]
        entry = ".".join(new[-1].split(".")[: len(path.split(".")) + 1])
        assert dict(without_entry(added, entry)).items() <= {**dict(begun), path: "none"}.items()


paths = st.sampled_from(sorted(options())) | st.text(max_size=12)
numbered = st.tuples(paths, st.sampled_from(["", ".0", ".99", ".most", ".own", ".x"])).map("".join)
texts = st.sampled_from(["", "0", "-1", "nan", "1e999", "none", "own", "yes", "60 in", "²", "a, b", "\0"]) | st.text(
    max_size=8
)


@given(st.lists(st.tuples(numbered, texts), max_size=5), numbered)
def test_what_is_no_choice_is_refused_in_a_sentence(pairs: list[tuple[str, str]], entry: str) -> None:
    try:
        tables = tables_of(pairs)
        kept = pairs_of(tables)
        groups(kept)
        for change in (with_entry, without_entry):
            change(kept, entry)
    except BadInput as refused:
        assert str(refused).endswith(".")
