"""A store against a plain dictionary: whatever is saved, undone, thrown away, erased or restored, both say the same."""

from __future__ import annotations

import shutil
from dataclasses import replace
from itertools import chain, count, repeat
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    Bundle,
    RuleBasedStateMachine,
    consumes,
    invariant,
    rule,
    run_state_machine_as_test,
)
from sqlalchemy import text

from ellwand.errors import BadInput
from ellwand.keep import (
    KeptCloth,
    KeptGarment,
    Missing,
    Person,
    Restored,
    Roster,
    Stale,
    Store,
    Thing,
    backup,
    basket,
    erase,
    every,
    history,
    open_store,
    restore,
    save,
    take_back,
    take_out,
    throw_away,
    undo,
)
from keeping import fresh_schema

KINDS: tuple[type[Thing], ...] = (Person, KeptCloth, KeptGarment, Roster)
names = st.text(min_size=1, max_size=8).filter(str.strip)
values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=5,
)
tables = st.dictionaries(st.text(max_size=8), values, max_size=4)
paths = st.sampled_from(["garment.length", "garment.sleeve.shape", "sewing.allowance", "unit"])
choices = st.dictionaries(paths, st.text(max_size=8), max_size=3)


class Model:
    """What should be kept: every version's content, oldest first; where undoing stands; what was thrown away."""

    def __init__(self) -> None:
        self.versions: dict[str, list[Thing]] = {}
        self.stands: dict[str, list[int]] = {}
        self.thrown: set[str] = set()

    def add(self, thing: Thing, stand: int | None = None) -> None:
        """One more version."""
        kept = self.versions.setdefault(thing.id, [])
        kept.append(thing)
        self.stands.setdefault(thing.id, []).append(len(kept) if stand is None else stand)
        self.thrown.discard(thing.id)

    def forget(self, id: str) -> None:
        """Nothing of it, and nothing that names it."""
        del self.versions[id], self.stands[id]
        self.thrown.discard(id)
        for other, kept in self.versions.items():
            self.versions[other] = [_unnamed(each, id) for each in kept]

    def said(self) -> dict[str, tuple[list[Thing], bool]]:
        """As `said` says it of a store."""
        return {id: (kept[::-1], id in self.thrown) for id, kept in self.versions.items()}


def _unnamed(thing: Thing, id: str) -> Thing:
    if isinstance(thing, KeptGarment) and thing.person == id:
        return replace(thing, person=None)
    if isinstance(thing, Roster):
        members = tuple(each for each in thing.members if each != id)
        return replace(thing, members=members, garment=None if thing.garment == id else thing.garment)
    return thing


def said(store: Store) -> dict[str, tuple[list[Thing], bool]]:
    """Every version of all that is kept, the newest first, and whether it was thrown away."""
    return {
        each.id: (list(history(store, kind, each.id)), thrown)
        for kind in KINDS
        for thrown, things in ((False, every(store, kind)), (True, basket(store, kind)))
        for each in things
    }


def _exactly(what: object) -> str:
    """1, 1.0 and True are three things to a reader of a sheet."""
    return repr(what)


class Keeping(RuleBasedStateMachine):
    """One store and what should be in it."""

    people: Bundle[str] = Bundle("people")
    garments: Bundle[str] = Bundle("garments")
    others: Bundle[str] = Bundle("others")
    backups: Bundle[tuple[bytes, dict[str, Any]]] = Bundle("backups")

    def __init__(self, new: Any) -> None:
        super().__init__()
        self.new = new
        self.store: Store = new()
        self.model = Model()

    def teardown(self) -> None:
        """Let go of the file or the server."""
        self.store.close()

    def _kind(self, id: str) -> type[Thing]:
        return type(self.model.versions[id][-1])

    def _keep(self, thing: Thing) -> str:
        kept = save(self.store, thing)
        assert _exactly(replace(kept, id="", version=0, changed=thing.changed)) == _exactly(thing)
        self.model.add(kept)
        return kept.id

    @rule(target=people, name=names, table=tables)
    def measure(self, name: str, table: dict[str, Any]) -> str:
        return self._keep(Person(name=name, table=table))

    @rule(target=others, name=names, table=tables)
    def buy(self, name: str, table: dict[str, Any]) -> str:
        return self._keep(KeptCloth(name=name, table=table))

    @rule(target=garments, name=names, person=st.none() | people, fields=choices)
    def choose(self, name: str, person: str | None, fields: dict[str, str]) -> str:
        return self._keep(KeptGarment(name=name, person=person, fields=fields))

    @rule(target=others, name=names, members=st.lists(people | tables, max_size=3), garment=st.none() | garments)
    def gather(self, name: str, members: list[Any], garment: str | None) -> str:
        return self._keep(Roster(name=name, members=tuple(members), garment=garment))

    @rule(id=people | garments | others, name=names, based_on=st.integers(0, 4))
    def change(self, id: str, name: str, based_on: int) -> None:
        newest = self.model.versions[id][-1]
        mine = replace(newest, name=name)
        if name == newest.name:
            assert save(self.store, mine, based_on=based_on) == newest
            self.model.thrown.discard(id)
        elif based_on not in (0, newest.version):
            with pytest.raises(Stale) as stale:
                save(self.store, mine, based_on=based_on)
            assert stale.value.newer == newest
        else:
            self.model.add(save(self.store, mine, based_on=newest.version))

    @rule(id=people | garments | others, version=st.integers(0, 6))
    def go_back(self, id: str, version: int) -> None:
        kept = self.model.versions[id]
        if not 1 <= version <= len(kept):
            with pytest.raises(Missing):
                take_back(self.store, self._kind(id), id, version)
            return
        found = take_back(self.store, self._kind(id), id, version)
        older = kept[version - 1]
        assert _exactly(found) == _exactly(replace(older, version=found.version, changed=found.changed))
        if found.version > len(kept):
            self.model.add(found)

    @rule(id=people | garments | others)
    def step_back(self, id: str) -> None:
        kept, stands = self.model.versions[id], self.model.stands[id]
        back = stands[-1] - 1
        if not back:
            with pytest.raises(BadInput):
                undo(self.store, self._kind(id), id)
            return
        older = kept[stands[back - 1] - 1]
        found = undo(self.store, self._kind(id), id)
        assert _exactly(found) == _exactly(replace(older, version=len(kept) + 1, changed=found.changed))
        self.model.add(found, stands[back - 1])

    @rule(id=people | garments | others)
    def throw(self, id: str) -> None:
        throw_away(self.store, self._kind(id), id)
        self.model.thrown.add(id)

    @rule(id=people | garments | others)
    def fetch(self, id: str) -> None:
        assert take_out(self.store, self._kind(id), id) == self.model.versions[id][-1]
        self.model.thrown.discard(id)

    @rule(id=consumes(people) | consumes(garments) | consumes(others))
    def erase(self, id: str) -> None:
        erase(self.store, self._kind(id), id)
        self.model.forget(id)

    @rule(target=backups)
    def lay_by(self) -> tuple[bytes, dict[str, Any]]:
        return backup(self.store), self.model.said()

    @rule(saved=backups)
    def restore_here(self, saved: tuple[bytes, dict[str, Any]]) -> None:
        gone = len(saved[1].keys() - self.model.versions.keys())
        assert restore(self.store, saved[0]) == Restored(skipped=len(saved[1]) - gone, erased=gone)

    @rule(saved=consumes(backups))
    def restore_elsewhere(self, saved: tuple[bytes, dict[str, Any]]) -> None:
        with self.new() as other:
            assert restore(other, saved[0]) == Restored(added=len(saved[1]))
            assert _exactly(sorted(said(other).items())) == _exactly(sorted(saved[1].items()))

    @invariant()
    def both_say_the_same(self) -> None:
        assert _exactly(sorted(said(self.store).items())) == _exactly(sorted(self.model.said().items()))


def test_files_say_what_a_dictionary_says(tmp_path: Path) -> None:
    numbers = count(1)
    empty = tmp_path / "empty.sqlite"
    open_store(str(empty)).close()

    def new() -> Store:
        return open_store(str(shutil.copy(empty, tmp_path / f"{next(numbers)}.sqlite")))

    run_state_machine_as_test(lambda: Keeping(new), settings=settings(max_examples=20, stateful_step_count=25))


def test_a_server_says_what_a_dictionary_says(postgres: str) -> None:
    own, other = fresh_schema(postgres), fresh_schema(postgres)

    def emptied(place: str) -> Store:
        store = open_store(place)
        with store.outside() as connection:
            connection.execute(text("TRUNCATE kept_things, kept_versions, kept_erased"))
        return store

    def machine() -> Keeping:
        places = chain([own], repeat(other))
        return Keeping(lambda: emptied(next(places)))

    run_state_machine_as_test(machine, settings=settings(max_examples=10, stateful_step_count=20))
