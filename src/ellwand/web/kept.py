"""A kept garment and the bench's state, each as the other; and what differs between two."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from starlette.datastructures import QueryParams

from ellwand.choose.form import plain_path
from ellwand.choose.form.described import options
from ellwand.choose.form.labels import label_of, word_said
from ellwand.keep import KeptGarment
from ellwand.web.given import unit_of
from ellwand.web.state import WHO, State, read_state

UNIT = "unit"
"""Beside the choices stands what their plain numbers are in."""


def state_of(kept: KeptGarment) -> State:
    """What the bench shows of it."""
    pairs = tuple((path, text) for path, text in kept.fields.items() if path != UNIT)
    return State(kept.person or WHO, unit_of(kept.fields.get(UNIT)), pairs, kept.id, kept.version)


def state_in(query: str) -> State:
    """The state in an address' text.

    Raises BadInput for a choice that there is not.
    """
    return read_state(QueryParams(query))


def kept_of(state: State, name: str) -> KeptGarment:
    """The state as a garment to keep: a change of the one that it is based on."""
    fields = {UNIT: state.unit, **dict(state.pairs)}
    return KeptGarment(name=name, id=state.garment, version=state.based, person=state.who, fields=fields)


def as_new(kept: KeptGarment) -> KeptGarment:
    """The same as another garment."""
    return replace(kept, id="", version=0)


def apart(one: Mapping[str, str], other: Mapping[str, str]) -> list[tuple[str, str, str]]:
    """Each key under which two tables differ, with the text of each ('' where it has none)."""
    return [
        (key, one.get(key, ""), other.get(key, ""))
        for key in dict.fromkeys((*one, *other))
        if one.get(key) != other.get(key)
    ]


def differing(one: Mapping[str, str], other: Mapping[str, str]) -> list[tuple[str, str, str]]:
    """Each choice that differs: its name, and how it is said in the one and in the other ('' where it is left open)."""
    return [
        (name_of(path), said(path, here), said(path, there))
        for path, here, there in sorted(apart(one, other))
        if path != UNIT
    ]


def name_of(path: str) -> str:
    """What a choice is called, with the number of its entry."""
    plain, entry = plain_path(path), re.search(r"\.(\d+)(?=\.|$)", path)
    if plain not in options():
        return path
    label = label_of(plain)
    return f"{label} ({int(entry[1]) + 1})" if entry else label


def said(path: str, text: str) -> str:
    """What was chosen, in words."""
    plain = plain_path(path)
    if not text or plain not in options():
        return text
    words = options()[plain].takes.words
    return ", ".join(word_said(plain, word) if word in words else word for word in text.split(", "))
