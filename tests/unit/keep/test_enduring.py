"""Processes that are killed, files that may not grow, locks that are not let go, and many at once."""

from __future__ import annotations

import sqlite3
import threading
import time
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import text, update

from ellwand.keep import CannotKeep, KeptCloth, Person, Store, every, get, history, open_store, save
from ellwand.keep.schema import things
from keep_workers import count_up, open_only, other_processes, pair, save_in_little_room, save_without_end


def _is_whole(place: str) -> bool:
    """SQLite's own check; a server checks itself when it starts."""
    if "://" in place:
        return True
    with closing(sqlite3.connect(place)) as file:
        return bool(file.execute("PRAGMA integrity_check").fetchall() == [("ok",)])


def _killed_while_writing(place: str, id: str, after: int) -> int:
    """The last version that a process told before it was killed in the midst of its work."""
    processes = other_processes()
    ours, theirs = processes.Pipe()
    writer = processes.Process(target=save_without_end, args=(place, id, theirs))
    writer.start()
    theirs.close()
    told = [ours.recv() for _ in range(after)]
    writer.kill()
    writer.join()
    while True:  # what it told before it died
        try:
            told.append(ours.recv())
        except EOFError:
            break
    return int(told[-1])


def test_what_was_answered_is_kept_whole_when_the_process_is_killed(place: Callable[[], str]) -> None:
    at = place()
    with open_store(at) as store:
        id = save(store, KeptCloth(name="Wool", table=pair(1))).id
    for round_ in range(6):
        last = _killed_while_writing(at, id, after=1 + 2 * round_)
        with open_store(at) as store:
            found = history(store, KeptCloth, id)
            assert _is_whole(at)
        assert found[0].version >= last
        assert [each.version for each in found] == list(range(len(found), 0, -1))
        assert all(each.table == pair(each.version) for each in found)


def test_two_processes_count_together_and_lose_nothing(place: Callable[[], str]) -> None:
    at = place()
    with open_store(at) as store:
        id = save(store, KeptCloth(name="Wool", table={"number": 0})).id
        processes = other_processes()
        both = [processes.Process(target=count_up, args=(at, id, 15)) for _ in range(2)]
        for each in both:
            each.start()
        for each in both:
            each.join()
        assert [each.exitcode for each in both] == [0, 0]
        assert [each.table["number"] for each in history(store, KeptCloth, id)] == list(range(30, -1, -1))


def test_several_may_make_the_same_new_store_at_once(place: Callable[[], str]) -> None:
    at = place()
    processes = other_processes()
    pipes = [processes.Pipe() for _ in range(4)]
    all_four = [processes.Process(target=open_only, args=(at, theirs)) for _, theirs in pipes]
    for each in all_four:
        each.start()
    ids = {ours.recv() for ours, _ in pipes}
    for ours, _ in pipes:
        ours.send("end")
    for each in all_four:
        each.join()
    with open_store(at) as store:
        assert {each.id for each in every(store, KeptCloth)} == ids
        assert len(ids) == 4


def test_a_full_disk_is_said_in_one_sentence_and_loses_nothing(tmp_path: Path) -> None:
    with open_store(str(tmp_path / "kept.sqlite")) as store:
        first = save(store, Person(name="Joan", table={"height": 164}))
        with store.outside() as connection:
            pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
            connection.exec_driver_sql(f"PRAGMA max_page_count = {pages + 1}")
        with pytest.raises(CannotKeep, match="no room left") as said:
            save(store, replace(first, table={"note": "x" * 100_000}))
        assert str(said.value).startswith(str(tmp_path)) and str(said.value).count("\n") == 0
        assert history(store, Person, first.id) == (first,)
        assert save(store, replace(first, table={"height": 165})).version == 2


def test_a_file_that_may_not_grow_is_said_and_what_was_kept_stays(tmp_path: Path) -> None:
    place = str(tmp_path / "kept.sqlite")
    processes = other_processes()
    ours, theirs = processes.Pipe()
    writer = processes.Process(target=save_in_little_room, args=(place, 200_000, theirs))
    writer.start()
    kept, kind, said = ours.recv()
    writer.join()
    assert kind == "CannotKeep" and "no room left" in said
    with open_store(place) as store:
        assert len(every(store, KeptCloth)) == kept > 0
        assert _is_whole(place)


@pytest.mark.parametrize(
    ("state", "sentence"),
    [("53100", "no room left"), ("25006", "only be read"), ("42501", "only be read"), ("57P01", "cannot be opened")],
)
def test_what_the_server_cannot_do_is_said_and_nothing_of_it_is_kept(postgres: str, state: str, sentence: str) -> None:
    from keeping import fresh_schema

    raised = f"DO $$ BEGIN RAISE EXCEPTION 'it' USING ERRCODE = '{state}'; END $$"
    with open_store(fresh_schema(postgres)) as store:
        first = save(store, Person(name="Joan"))
        with pytest.raises(CannotKeep, match=sentence), store.writing() as connection:
            connection.execute(update(things).values(version=9))
            connection.execute(text(raised))
        assert get(store, Person, first.id) == first


def _hold(store: Store, held: threading.Event, end: threading.Event) -> None:
    with store.writing() as connection:
        connection.execute(update(things).values(thrown=None))
        held.set()
        end.wait(20)


def _while_held(one: Store, act: Callable[[threading.Event], Any]) -> None:
    held, end = threading.Event(), threading.Event()
    holder = threading.Thread(target=_hold, args=(one, held, end))
    holder.start()
    try:
        assert held.wait(10)
        act(end)
    finally:
        end.set()
        holder.join()


def test_a_save_waits_for_another_writer(place: Callable[[], str]) -> None:
    at = place()
    with open_store(at) as one, open_store(at) as other:
        first = save(one, Person(name="Joan"))

        def act(end: threading.Event) -> None:
            threading.Timer(0.3, end.set).start()
            began = time.monotonic()
            assert save(other, replace(first, name="Jane")).version == 2
            assert time.monotonic() - began > 0.2

        _while_held(one, act)


def test_a_writer_that_does_not_end_is_said_and_reading_goes_on(
    place: Callable[[], str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("ellwand.keep.store.PATIENCE", 0.2)
    at = place()
    with open_store(at) as one, open_store(at) as other:
        first = save(one, Person(name="Joan"))

        def act(_end: threading.Event) -> None:
            with pytest.raises(CannotKeep, match="another program is writing"):
                save(other, replace(first, name="Jane"))
            assert get(other, Person, first.id) == first

        _while_held(one, act)
        assert save(other, replace(first, name="Jane")).version == 2
