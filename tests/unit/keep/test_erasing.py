"""What is erased is gone: from every version, from what named it, and from the bytes of the files."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy import text

from ellwand.keep import (
    CannotKeep,
    KeptCloth,
    KeptGarment,
    Missing,
    Person,
    Roster,
    Store,
    basket,
    erase,
    every,
    get,
    history,
    open_store,
    save,
    take_back,
    throw_away,
    undo,
)
from keep_workers import open_only, other_processes
from keeping import fresh_schema

NAME, FIGURE = "Zylpha Quorn", 163.4375
NEEDLES = (NAME.encode(), str(FIGURE).encode())


def _someone(store: Store) -> Person:
    """A person with a history, some of it long, and in the waste basket once."""
    person = save(store, Person(name=NAME, table={"height": FIGURE}))
    person = save(store, replace(person, table={"height": FIGURE, "note": f"{NAME} " * 3000}))
    person = undo(store, Person, save(store, replace(person, name=f"{NAME} again")).id)
    throw_away(store, Person, person.id)
    return save(store, replace(person, table={"height": FIGURE + 1}))


def _found_in(files: Iterable[Path]) -> set[str]:
    return {file.name for file in files if file.is_file() and any(each in file.read_bytes() for each in NEEDLES)}


def test_nothing_of_a_person_is_left_and_garments_keep_their_choices(store: Store) -> None:
    person, other = _someone(store), save(store, Person(name="Ned"))
    tunic = save(store, KeptGarment(name="Tunic", person=person.id, fields={"garment.length": "knee"}))
    tunic = save(store, replace(tunic, fields={"garment.length": "ankle"}))
    hers = save(store, KeptGarment(name="Hood", person=other.id))
    many = save(store, Roster(name="All", members=(other.id, person.id, {"name": "Raw"}, person.id), garment=tunic.id))
    erase(store, Person, person.id)
    for call in (get, history, undo, erase, throw_away):
        with pytest.raises(Missing):
            call(store, Person, person.id)
    assert (every(store, Person), basket(store, Person)) == ((other,), ())
    assert [(each.person, each.fields) for each in history(store, KeptGarment, tunic.id)] == [
        (None, {"garment.length": "ankle"}),
        (None, {"garment.length": "knee"}),
    ]
    assert take_back(store, KeptGarment, tunic.id, 1).fields == {"garment.length": "knee"}
    assert get(store, KeptGarment, hers.id) == hers
    assert get(store, Roster, many.id) == replace(many, members=(other.id, {"name": "Raw"}))


def test_what_was_erased_is_not_saved_again_under_its_id_nor_named(store: Store) -> None:
    person = save(store, Person(name="Joan"))
    tunic = save(store, KeptGarment(name="Tunic", person=person.id))
    erase(store, Person, person.id)
    with pytest.raises(Missing):
        save(store, replace(person, name="Jane"))
    with pytest.raises(Missing):
        save(store, replace(tunic, name="Long tunic"))
    assert every(store, Person) == ()
    assert save(store, replace(person, id="", version=0)).id != person.id


def test_an_erased_garment_is_named_by_no_roster(store: Store) -> None:
    tunic = save(store, KeptGarment(name="Tunic"))
    many = save(store, Roster(name="All", garment=tunic.id))
    erase(store, KeptGarment, tunic.id)
    assert get(store, Roster, many.id).garment is None


def test_a_name_that_reads_like_an_id_is_no_reference(store: Store) -> None:
    person = save(store, Person(name="Joan"))
    note = save(store, KeptCloth(name="Wool", table={"note": person.id}))
    erase(store, Person, person.id)
    assert get(store, KeptCloth, note.id) == note


def test_no_byte_of_a_person_is_left_in_the_files_nor_in_copies(tmp_path: Path) -> None:
    place = tmp_path / "kept.sqlite"
    with open_store(str(place)) as store, open_store(str(place)) as other:
        person = _someone(store)
        get(other, Person, person.id)
        copy = tmp_path / "kept.sqlite.before-0000"
        copy.write_bytes(place.read_bytes() + NAME.encode())
        assert _found_in(tmp_path.iterdir()) == {"kept.sqlite-wal", copy.name}
        erase(store, Person, person.id)
        assert _found_in(tmp_path.iterdir()) == set()
        assert {file.name for file in tmp_path.iterdir()} <= {"kept.sqlite", "kept.sqlite-wal", "kept.sqlite-shm"}
    assert _found_in(tmp_path.iterdir()) == set()


def test_it_is_overwritten_though_another_process_has_the_file_open(tmp_path: Path) -> None:
    place = str(tmp_path / "kept.sqlite")
    processes = other_processes()
    with open_store(place) as store:
        person = _someone(store)
        ours, theirs = processes.Pipe()
        process = processes.Process(target=open_only, args=(place, theirs))
        process.start()
        kept = ours.recv()
        assert _found_in(tmp_path.iterdir())
        erase(store, Person, person.id)
        assert _found_in(tmp_path.iterdir()) == set()
        ours.send("end")
        process.join()
        assert [each.id for each in every(store, KeptCloth)] == [kept]


def test_what_a_reader_holds_is_said_and_overwritten_at_the_next_opening(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("ellwand.keep.store.PATIENCE", 0.1)
    place = str(tmp_path / "kept.sqlite")
    with open_store(place) as store, open_store(place) as reader:
        person = _someone(store)
        with reader.reading() as connection:
            assert connection.execute(text("SELECT count(*) FROM kept_versions")).scalar_one() == 5
            with pytest.raises(CannotKeep, match="could not be overwritten yet"):
                erase(store, Person, person.id)
        with pytest.raises(Missing):
            get(reader, Person, person.id)
        assert _found_in(tmp_path.iterdir())
        open_store(place).close()
        assert _found_in(tmp_path.iterdir()) == set()


def test_no_byte_of_a_person_is_left_in_the_servers_tables(postgres: str) -> None:
    """The server's log of writes is its own matter; its tables, indexes and statistics hold nothing."""
    with open_store(fresh_schema(postgres)) as store:
        person = _someone(store)
        with store.outside() as connection:
            data = Path(connection.execute(text("SHOW data_directory")).scalar_one())
            connection.execute(text("ANALYZE kept_versions"))
            connection.execute(text("CHECKPOINT"))
        assert _found_in((data / "base").rglob("*"))
        erase(store, Person, person.id)
        with store.outside() as connection:
            connection.execute(text("CHECKPOINT"))
        assert _found_in((data / "base").rglob("*")) == set()
