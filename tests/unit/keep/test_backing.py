"""Backups: whole, readable, and restored between files and servers without overwriting anything."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from ellwand.errors import BadInput
from ellwand.keep import (
    CannotKeep,
    KeptCloth,
    KeptGarment,
    Person,
    Restored,
    Roster,
    Store,
    Thing,
    backup,
    basket,
    erase,
    every,
    get,
    history,
    open_store,
    restore,
    save,
    throw_away,
    undo,
)
from keeping import fresh_schema

KINDS: tuple[type[Thing], ...] = (Person, KeptCloth, KeptGarment, Roster)


def everything(store: Store) -> dict[str, tuple[tuple[Thing, ...], bool]]:
    """Every version of all that is kept, and whether it is in the waste basket."""
    found = {}
    for kind in KINDS:
        for thrown, things in ((False, every(store, kind)), (True, basket(store, kind))):
            found |= {each.id: (history(store, kind, each.id), thrown) for each in things}
    return found


def fill(store: Store) -> tuple[Person, KeptGarment]:
    """Some of everything."""
    joan = save(store, Person(name="Joan \u2028 Näherin 縫", table={"height": 164.5, "measured": True, "unit": "cm"}))
    joan = save(store, replace(joan, table={"height": 165}))
    tunic = save(store, KeptGarment(name="Tunic", person=joan.id, fields={"garment.length": "knee"}))
    save(store, replace(tunic, fields={"garment.length": "ankle"}))
    tunic = undo(store, KeptGarment, tunic.id)
    save(store, KeptGarment(name="Hood", person="joan-netmaker"))
    save(store, Roster(name="All", members=(joan.id, {"name": "Ned", "height": 171}), garment=tunic.id))
    wool = save(store, KeptCloth(name="Wool", table={"width": 150}))
    throw_away(store, KeptCloth, wool.id)
    return joan, tunic


@pytest.fixture
def other(tmp_path: Path, postgres: str, request: pytest.FixtureRequest) -> Any:
    """Another empty store, of the kind that the test asks for."""
    at = fresh_schema(postgres) if request.param == "postgresql" else str(tmp_path / "other.sqlite")
    with open_store(at) as opened:
        yield opened


@pytest.mark.parametrize("other", ["sqlite", "postgresql"], indirect=True)
def test_a_restored_store_is_the_same_on_either_database(store: Store, other: Store) -> None:
    fill(store)
    saved = backup(store)
    assert restore(other, saved) == Restored(added=5)
    assert everything(other) == everything(store)
    assert restore(other, saved) == Restored(skipped=5)
    assert everything(other) == everything(store)
    assert [*backup(other).splitlines()][1:-1] == [*saved.splitlines()][1:-1]


def test_a_backup_is_text_that_anyone_can_read_and_check(store: Store) -> None:
    joan, _ = fill(store)
    saved = backup(store)
    *lines, last = saved.splitlines(keepends=True)
    assert json.loads(last) == {"sha256": hashlib.sha256(b"".join(lines)).hexdigest()}
    (person,) = (each for each in map(json.loads, lines) if each.get("kind") == "person")
    assert [each["content"] for each in person["versions"]] == [
        {"name": joan.name, "table": {"height": 164.5, "measured": True, "unit": "cm"}},
        {"name": joan.name, "table": {"height": 165}},
    ]
    assert joan.name.encode() in saved


def test_an_empty_store_has_a_backup_too(store: Store) -> None:
    assert restore(store, backup(store)) == Restored()


def test_undo_goes_on_after_restoring(store: Store, place: Callable[[], str]) -> None:
    made = save(store, Person(name="0"))
    for name in "12":
        made = save(store, replace(made, name=name))
    undo(store, Person, made.id)
    with open_store(place()) as new:
        restore(new, backup(store))
        assert undo(new, Person, made.id).name == "0"


def test_what_went_on_since_stays_as_it_is(store: Store) -> None:
    joan, tunic = fill(store)
    saved = backup(store)
    save(store, replace(joan, table={"height": 170}))
    throw_away(store, KeptGarment, tunic.id)
    before = everything(store)
    assert restore(store, saved) == Restored(skipped=5)
    assert everything(store) == before


def test_what_is_older_here_gets_the_further_versions(store: Store, place: Callable[[], str]) -> None:
    joan, _ = fill(store)
    with open_store(place()) as older:
        restore(older, backup(store))
        newer = save(store, replace(joan, table={"height": 170}))
        assert restore(older, backup(store)) == Restored(extended=1, skipped=4)
        assert get(older, Person, joan.id) == newer
        assert everything(older) == everything(store)


def test_what_went_another_way_is_added_beside_with_what_names_it(store: Store, place: Callable[[], str]) -> None:
    joan, tunic = fill(store)
    with open_store(place()) as other:
        restore(other, backup(store))
        here = save(store, replace(joan, table={"height": 170}))
        there = save(other, replace(joan, table={"height": 150}))
        save(other, KeptGarment(name="Gown", person=joan.id))
        saved = backup(other)
        before = everything(store)
        assert restore(store, saved) == Restored(added=2, skipped=4)
        assert everything(store).items() >= before.items()
        (beside,) = (each for each in every(store, Person) if each.id != joan.id)
        assert (beside.table, beside.version, beside.changed) == (there.table, there.version, there.changed)
        assert get(store, Person, joan.id) == here
        (gown,) = (each for each in every(store, KeptGarment) if each.name == "Gown")
        assert gown.person == beside.id
        assert get(store, KeptGarment, tunic.id).person == joan.id
        assert restore(store, saved) == Restored(skipped=6)


def test_doubles_by_content_are_skipped_and_what_names_them_names_ours(store: Store, place: Callable[[], str]) -> None:
    ours = save(store, Person(name="Joan", table={"height": 164}))
    save(store, Person(name="Joan", table={"height": 164.0}))
    with open_store(place()) as other:
        theirs = save(other, Person(name="Joan", table={"height": 164}))
        save(other, KeptGarment(name="Tunic", person=theirs.id))
        assert restore(store, backup(other)) == Restored(added=1, skipped=1)
    assert len(every(store, Person)) == 2
    (tunic,) = every(store, KeptGarment)
    assert tunic.person == ours.id


def test_twins_in_a_backup_both_come(store: Store, place: Callable[[], str]) -> None:
    for _ in range(2):
        save(store, Person(name="Joan", table={"height": 164}))
    with open_store(place()) as new:
        assert restore(new, backup(store)) == Restored(added=2)


def test_the_erased_stay_erased_and_unnamed(store: Store) -> None:
    joan, tunic = fill(store)
    saved = backup(store)
    erase(store, Person, joan.id)
    erase(store, KeptGarment, tunic.id)
    before = everything(store)
    assert restore(store, saved) == Restored(skipped=3, erased=2)
    assert everything(store) == before
    assert joan.name not in str(before)


def _sealed(*lines: object) -> bytes:
    """A backup of these lines with a right sum."""
    body = "".join(f"{json.dumps(line)}\n" for line in ({"ellwand": "kept", "format": 1}, *lines)).encode()
    return body + json.dumps({"sha256": hashlib.sha256(body).hexdigest()}).encode() + b"\n"


def _line(**other: object) -> dict[str, object]:
    version = {"changed": "2026-01-01T00:00:00+00:00", "stands_for": None, "content": {"name": "Joan", "table": {}}}
    version |= {key: other.pop(key) for key in tuple(other) if key in version}
    return {"kind": "person", "id": "p0123456789abcdef", "thrown": None, "versions": [version]} | other


def test_a_line_made_by_hand_is_taken_as_it_is_meant(store: Store) -> None:
    assert restore(store, _sealed(_line())) == Restored(added=1)
    (joan,) = every(store, Person)
    assert (joan.name, joan.changed.year) == ("Joan", 2026)


@pytest.mark.parametrize(
    "line",
    [
        [],
        "text",
        _line(kind="king"),
        _line(id="joan"),
        _line(id="g0123456789abcdef"),
        _line(id=7),
        _line(thrown="yesterday"),
        _line(versions=[]),
        _line(versions="none"),
        _line(changed="yesterday"),
        _line(stands_for=1),
        _line(stands_for=True),
        _line(content={}),
        _line(content={"name": "  ", "table": {}}),
        _line(content={"name": 7, "table": {}}),
        _line(content={"name": "Joan", "table": []}),
        _line(content={"name": "Joan", "table": {}, "version": 7}),
        _line(content={"name": "Joan", "table": {}, "other": 7}),
    ],
    ids=lambda line: json.dumps(line)[-70:],
)
def test_a_line_that_cannot_be_kept_is_named_and_nothing_is_taken(store: Store, line: object) -> None:
    good = _line(id="p" + "0" * 16)
    with pytest.raises(BadInput, match="line 3"):
        restore(store, _sealed(good, line))
    assert every(store, Person) == ()


@pytest.mark.parametrize(
    ("spoil", "sentence"),
    [
        (lambda data: b"", "no backup"),
        (lambda data: b"\xff\xfe nothing", "no backup"),
        (lambda data: b"[" * 100_000, "no backup"),
        (lambda data: b'{"sha256": "0"}\n', "no backup"),
        (lambda data: data.replace(b'"format": 1', b'"format": 2', 1), "newer"),
        (lambda data: data[:-30], "damaged"),
        (lambda data: data.replace(b"165", b"155", 1), "damaged"),
        (lambda data: b"\n".join(data.splitlines()[:-1]), "damaged"),
        (lambda data: data.replace(b"\n", b"\r\n"), "damaged"),
    ],
    ids=["empty", "binary", "deep", "only a sum", "newer", "cut off", "a figure changed", "no sum", "other line ends"],
)
def test_a_spoilt_backup_is_refused(store: Store, spoil: Callable[[bytes], bytes], sentence: str) -> None:
    fill(store)
    before = everything(store)
    with pytest.raises(BadInput, match=sentence):
        restore(store, spoil(backup(store)))
    assert everything(store) == before


def test_a_backup_that_does_not_fit_leaves_nothing_behind(tmp_path: Path) -> None:
    with open_store(str(tmp_path / "a.sqlite")) as full, open_store(str(tmp_path / "b.sqlite")) as small:
        fill(full)
        save(full, Person(name="Long", table={"note": "x" * 100_000}))
        with small.outside() as connection:
            pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
            connection.exec_driver_sql(f"PRAGMA max_page_count = {pages + 3}")
        with pytest.raises(CannotKeep, match="no room left"):
            restore(small, backup(full))
        assert everything(small) == {}
