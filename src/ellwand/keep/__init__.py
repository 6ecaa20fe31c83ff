"""What a maker keeps: people, cloths, garments and rosters, with every version of them."""

from ellwand.keep.backing import backup
from ellwand.keep.erasing import erase
from ellwand.keep.opening import default_place, open_store
from ellwand.keep.reading import basket, every, get, history
from ellwand.keep.restoring import Restored, restore
from ellwand.keep.saving import save, take_back, take_out, throw_away, undo
from ellwand.keep.store import Store
from ellwand.keep.things import KeptCloth, KeptGarment, Person, Roster, Thing
from ellwand.keep.trouble import CannotKeep, Missing, Stale

__all__ = [
    "CannotKeep",
    "KeptCloth",
    "KeptGarment",
    "Missing",
    "Person",
    "Restored",
    "Roster",
    "Stale",
    "Store",
    "Thing",
    "backup",
    "basket",
    "default_place",
    "erase",
    "every",
    "get",
    "history",
    "open_store",
    "restore",
    "save",
    "take_back",
    "take_out",
    "throw_away",
    "undo",
]
