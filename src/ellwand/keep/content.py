"""A thing's content as JSON text, and back: the same text on every database and in every backup."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields
from datetime import datetime
from typing import Any, Final

from ellwand.errors import BadInput
from ellwand.keep.things import KINDS, Thing
from ellwand.language import _

ABOUT: Final = ("id", "version", "changed")
"""The fields that say which version it is; the others are its content."""
LARGEST: Final = 1_000_000
"""Characters; no person, cloth, garment or roster is as long."""
BODY: Final = "wearer."


def content_of(thing: Thing) -> str:
    """Its content as JSON.

    Raises BadInput where it has no name, or holds what JSON or a database cannot hold as it is.
    """
    if not thing.name.strip():
        raise BadInput(_("name"), _("there is none"), _("give one, to find it again"))
    held = {field.name: getattr(thing, field.name) for field in fields(thing) if field.name not in ABOUT}
    measured = next((path for path in held.get("fields", ()) if path.startswith(BODY)), None)
    if measured:
        raise BadInput(measured, _("a garment keeps no measurements"), _("keep them with the person"))
    try:
        text = json.dumps(_plain(held), ensure_ascii=False, allow_nan=False)
        text.encode()
    except (TypeError, ValueError, RecursionError):
        why = _("it holds something that is neither text, number, list nor table")
        raise BadInput(thing.name, why, _("leave that out")) from None
    if len(text) > LARGEST:
        raise BadInput(thing.name, _("it is too long to be kept"), _("divide it"))
    return text


def thing_of(word: str, id: str, version: int, changed: str, content: str) -> Thing:
    """The value that was kept under these."""
    held: dict[str, Any] = json.loads(content)
    if "members" in held:
        held["members"] = tuple(held["members"])
    return KINDS[word](**held, id=id, version=version, changed=datetime.fromisoformat(changed))


def renamed(content: str, names: Mapping[str, str | None]) -> str:
    """The same content naming other ids; those with None are named no longer."""
    held: dict[str, Any] = json.loads(content)
    for field in ("person", "garment"):
        if held.get(field) in names:
            held[field] = names[held[field]]
    if "members" in held:
        others = [names.get(each, each) if isinstance(each, str) else each for each in held["members"]]
        held["members"] = [each for each in others if each is not None]
    return json.dumps(held, ensure_ascii=False)


def mentioned(content: str) -> set[str]:
    """The ids that a content refers to, those of the demo's people among them."""
    held: dict[str, Any] = json.loads(content)
    found = [held.get("person"), held.get("garment"), *held.get("members", ())]
    return {each for each in found if isinstance(each, str)}


def _plain(value: object) -> object:
    """The value in JSON's own kinds."""
    if isinstance(value, Mapping):
        if not all(isinstance(key, str) for key in value):
            raise TypeError
        return {key: _plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(each) for each in value]
    return value
