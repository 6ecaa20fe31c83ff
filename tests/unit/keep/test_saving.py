"""Saving, histories, the way back, and the waste basket, on files and on a server."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from ellwand.errors import BadInput
from ellwand.keep import (
    KeptCloth,
    KeptGarment,
    Missing,
    Person,
    Roster,
    Stale,
    Store,
    Thing,
    basket,
    every,
    get,
    history,
    open_store,
    save,
    take_back,
    take_out,
    throw_away,
    undo,
)

WOOL = {
    "width": 150,
    "length": "at need",
    "nap": False,
    "price": 14.5,
    "faults": [{"x": 1.5, "y": 20}],
    "name": "Ä\x00\u2028",
}
SPECIMENS: tuple[Thing, ...] = (
    Person(name="Joan Netmaker", table={"height": "5 ft 4 in", "bust_girth": 96, "unit": "cm"}),
    KeptCloth(name="Grey wool, 2/2 twill", table=WOOL),
    KeptGarment(
        name="Tunic", person="joan-netmaker", fields={"garment.length": "knee", "garment.gores.0.place": "side"}
    ),
    Roster(name="The players", members=({"name": "Ned", "height": 171.5}, {"name": "二郎", "height": 160})),
)


@pytest.mark.parametrize("thing", SPECIMENS, ids=lambda thing: thing.word)
def test_what_is_kept_comes_back_as_it_was(store: Store, thing: Thing) -> None:
    kept = save(store, thing)
    assert replace(kept, id="", version=0, changed=thing.changed) == thing
    assert kept.version == 1 and abs(kept.changed - datetime.now(UTC)) < timedelta(minutes=5)
    assert get(store, type(thing), kept.id) == kept
    assert every(store, type(thing)) == (kept,)
    others = {type(each) for each in SPECIMENS} - {type(thing)}
    assert all(every(store, kind) == () for kind in others)


@pytest.mark.parametrize("table", [{"a": 1}, {"a": 1.0}, {"a": True}, {"a": "1"}, {"a": [1]}, {"b": 1}])
def test_every_difference_is_a_new_version(store: Store, table: dict[str, object]) -> None:
    first = save(store, Person(name="Joan", table={"a": None}))
    second = save(store, replace(first, table=table))
    assert (second.version, second.table) == (2, table)
    assert type(second.table.get("a")) is type(table.get("a"))
    assert history(store, Person, first.id) == (second, first)


def test_saving_the_same_again_makes_no_version(store: Store) -> None:
    first = save(store, SPECIMENS[0])
    assert save(store, first) == first
    assert history(store, Person, first.id) == (first,)


def test_a_stale_save_writes_nothing_and_brings_the_newer_one(store: Store) -> None:
    first = save(store, KeptCloth(name="Wool", table={"width": 150}))
    newer = save(store, replace(first, table={"width": 140}))
    with pytest.raises(Stale) as stale:
        save(store, replace(first, table={"width": 130}))
    assert stale.value.newer == newer
    assert history(store, KeptCloth, first.id) == (newer, first)


def test_after_a_stale_save_one_is_kept_over_the_other_or_beside_it(store: Store) -> None:
    first = save(store, KeptCloth(name="Wool", table={"width": 150}))
    theirs = save(store, replace(first, table={"width": 140}))
    mine = replace(first, table={"width": 130})
    copy = save(store, replace(mine, id="", version=0, name="Wool, mine"))
    over = save(store, mine, based_on=theirs.version)
    assert [each.table["width"] for each in history(store, KeptCloth, first.id)] == [130, 140, 150]
    assert every(store, KeptCloth) == (over, copy)


def test_two_who_save_the_same_do_not_disagree(store: Store) -> None:
    first = save(store, KeptCloth(name="Wool", table={"width": 150}))
    newer = save(store, replace(first, table={"width": 140}))
    assert save(store, replace(first, table={"width": 140})) == newer


def test_an_older_version_comes_back_as_the_newest(store: Store) -> None:
    first = save(store, KeptGarment(name="Tunic", fields={"garment.length": "knee"}))
    save(store, replace(first, fields={"garment.length": "ankle"}))
    third = take_back(store, KeptGarment, first.id, 1)
    assert (third.version, third.fields) == (3, first.fields)
    assert take_back(store, KeptGarment, first.id, 1) == third
    with pytest.raises(Missing):
        take_back(store, KeptGarment, first.id, 9)


def test_undo_goes_back_step_by_step_and_a_new_save_begins_anew(store: Store) -> None:
    made = save(store, Person(name="0"))
    for name in "12":
        made = save(store, replace(made, name=name))
    assert undo(store, Person, made.id).name == "1"
    latest = undo(store, Person, made.id)
    assert (latest.name, latest.version) == ("0", 5)
    with pytest.raises(BadInput, match="nothing to undo"):
        undo(store, Person, made.id)
    save(store, replace(latest, name="new"))
    assert undo(store, Person, made.id).name == "0"
    with pytest.raises(BadInput, match="nothing to undo"):
        undo(store, Person, made.id)
    assert [each.name for each in history(store, Person, made.id)] == ["0", "new", "0", "1", "2", "1", "0"]


def test_taking_back_can_be_undone_like_any_save(store: Store) -> None:
    made = save(store, Person(name="0"))
    for name in "12":
        made = save(store, replace(made, name=name))
    assert take_back(store, Person, made.id, 1).name == "0"
    assert undo(store, Person, made.id).name == "2"


def test_the_basket_holds_what_is_thrown_away_until_it_is_taken_out(store: Store) -> None:
    one, other, stays = (save(store, KeptCloth(name=name)) for name in ("a", "b", "c"))
    throw_away(store, KeptCloth, one.id)
    throw_away(store, KeptCloth, other.id)
    throw_away(store, KeptCloth, one.id)  # it is in there already, and so not the last
    assert every(store, KeptCloth) == (stays,)
    assert basket(store, KeptCloth) == (other, one)
    assert get(store, KeptCloth, one.id) == one
    assert take_out(store, KeptCloth, one.id) == one
    assert basket(store, KeptCloth) == (other,)


@pytest.mark.parametrize("name", ["a", "b"])
def test_saving_takes_it_out_of_the_basket(store: Store, name: str) -> None:
    one = save(store, KeptGarment(name="a"))
    throw_away(store, KeptGarment, one.id)
    assert every(store, KeptGarment) == ()
    assert every(store, KeptGarment) + basket(store, KeptGarment) == (one,)
    assert every(store, KeptGarment) == () and save(store, replace(one, name=name)).name == name
    assert [each.name for each in every(store, KeptGarment)] == [name]


def test_lists_are_by_name_whatever_its_case(store: Store) -> None:
    for name in ("beta", "Alpha", "Gamma", "alpha 2"):
        save(store, Person(name=name))
    assert [each.name for each in every(store, Person)] == ["Alpha", "alpha 2", "beta", "Gamma"]


@pytest.mark.parametrize("call", [get, history, undo, take_out, throw_away], ids=lambda call: call.__name__)
@pytest.mark.parametrize("id", ["", "p0123456789abcdef", "another kind", "' or 1=1 --", "\ud800", "a\x00b"])
def test_what_is_not_there_is_missing(store: Store, call: Callable[..., object], id: str) -> None:
    cloth = save(store, KeptCloth(name="Wool"))
    with pytest.raises(Missing):
        call(store, Person, cloth.id if id == "another kind" else id)


def test_a_thing_that_was_never_kept_is_not_saved_under_its_id(store: Store) -> None:
    with pytest.raises(Missing):
        save(store, Person(name="Joan", id="p0123456789abcdef", version=3))
    assert every(store, Person) == ()


@pytest.mark.parametrize(
    "thing", [KeptGarment(name="Tunic", person="p" + "0" * 16), Roster(name="R", garment="g" + "0" * 16)]
)
def test_nothing_names_what_is_not_kept(store: Store, thing: Thing) -> None:
    with pytest.raises(Missing, match="names"):
        save(store, thing)
    assert every(store, type(thing)) == ()


@pytest.mark.parametrize(
    "thing",
    [
        Person(name=" "),
        Person(name="Joan", table={"height": float("nan")}),
        Person(name="Joan", table={"born": datetime.now(UTC)}),
        Person(name="Joan", table={"\ud800": 1}),
        Person(name="Joan", table={"note": "x" * 1_000_001}),
        KeptGarment(name="Tunic", fields={"wearer.height": "164"}),
    ],
    ids=["no name", "no number", "a date", "no text", "too long", "measurements"],
)
def test_what_cannot_be_kept_is_said_and_not_kept(store: Store, thing: Thing) -> None:
    with pytest.raises(BadInput):
        save(store, thing)
    assert every(store, type(thing)) == ()


def test_of_many_who_save_at_once_one_wins_and_the_others_are_told(place: Callable[[], str]) -> None:
    """Two stores on one place, as two processes have them, and several threads in each."""
    at = place()
    with open_store(at) as one, open_store(at) as other:
        first = save(one, Person(name="Joan"))
        told: list[str] = []

        def try_it(number: int) -> None:
            try:
                save((one, other)[number % 2], replace(first, name=str(number)))
                told.append("kept")
            except Stale as stale:
                told.append(stale.newer.name)

        threads = [threading.Thread(target=try_it, args=(number,)) for number in range(8)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        winner = get(other, Person, first.id)
        assert sorted(told) == sorted(["kept", *[winner.name] * 7])
        assert winner.version == 2
