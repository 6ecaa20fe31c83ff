"""From what a page is about to the garment itself: drafted and proved once for each, and kept while it is looked at."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable, Mapping
from functools import cache
from importlib import resources
from threading import Lock
from typing import Any, Final, Generic, TypeVar

from ellwand.errors import BadInput
from ellwand.keep import Missing, Person, Store, get
from ellwand.language import _, language
from ellwand.measure.raw import ABOUT
from ellwand.model.garment import Garment
from ellwand.pipeline import prove_sheet
from ellwand.units import states_unit
from ellwand.web.state import State
from ellwand.web.work.at_once import laid_at_once, sheet_of, text_of

KEPT: Final = 48
"""So many garments at once (about 20 MB)."""
T = TypeVar("T")


class Recent(Generic[T]):
    """What was made last, for whoever asks again; safe for several threads."""

    def __init__(self, most: int) -> None:
        self._most, self._made, self._lock = most, OrderedDict[Hashable, T](), Lock()

    def get(self, key: Hashable, make: Callable[[], T]) -> T:
        """What ``make`` makes, made once for each key."""
        with self._lock:
            if key in self._made:
                self._made.move_to_end(key)
                return self._made[key]
        made = make()
        with self._lock:
            self._made[key] = made
            while len(self._made) > self._most:
                self._made.popitem(last=False)
        return made


_proved: Recent[Garment] = Recent(KEPT)
_laid: Recent[Garment] = Recent(KEPT)


@cache
def demo_people() -> Mapping[str, Mapping[str, Any]]:
    """The wearers of the demo by the names of their sheets."""
    import tomllib

    folder = resources.files("ellwand").joinpath("examples")
    files = sorted((file for file in folder.iterdir() if file.name.endswith(".toml")), key=lambda file: file.name)
    return {file.name.removesuffix(".toml"): tomllib.loads(file.read_text("utf-8"))["wearer"] for file in files}


def wearer_table(who: str, store: Store) -> Mapping[str, Any]:
    """The raw [wearer] table of a kept person or of one of the demo's.

    Raises BadInput where there is no such person.
    """
    if who in demo_people():
        return demo_people()[who]
    try:
        return get(store, Person, who).table
    except Missing:
        raise BadInput("who", _("this person is not kept"), _("choose another one")) from None


def tables_for(state: State, store: Store) -> dict[str, Any]:
    """The whole sheet as tables: plain numbers in the state's unit, the wearer's own with their unit behind them.

    Raises BadInput where there is no such person.
    """
    tables = state.tables
    wearer = dict(wearer_table(state.who, store))
    own = str(wearer.get("unit", "cm"))
    for key, value in wearer.items():
        if key not in ABOUT and not states_unit(str(value)):
            wearer[key] = f"{value} {own}"
    cloth = tables.get("cloth", {})
    for name, each in cloth.items():
        if name != "remnants":
            cloth[name] = {"unit": state.unit, **each}
    return {"wearer": {**wearer, "unit": state.unit}, **tables}


def garment_for(state: State, store: Store) -> Garment:
    """The garment, drafted and proved.

    Raises BadInput with one sentence.
    """
    tables = tables_for(state, store)
    return _proved.get(_key(tables), lambda: prove_sheet(sheet_of(tables)))


def laid_for(state: State, store: Store) -> Garment:
    """The garment on its cloth, as quickly as that can be told.

    Raises BadInput with one sentence.
    """
    tables = tables_for(state, store)
    return _laid.get(_key(tables), lambda: laid_at_once(tables))


def _key(tables: Mapping[str, Any]) -> Hashable:
    return language(), text_of(tables)
