"""What is done in a process of its own; each job tells what it has, and ends."""

from __future__ import annotations

import copyreg
import json
import math
import pickle
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final, Literal

from ellwand.errors import BadInput
from ellwand.language import _, speaking
from ellwand.model.garment import Garment
from ellwand.web.work.archive import Archive
from ellwand.web.work.at_once import laid_at_once, sheet_of

ROUNDS: Final = (1.0, 3.0, 8.0, 20.0, 40.0)
"""Seconds of each search for a better lay."""
Tell = Callable[[str, Any], None]


def _frozen(items: dict[Any, Any]) -> MappingProxyType[Any, Any]:
    return MappingProxyType(items)


copyreg.pickle(MappingProxyType, lambda frozen: (_frozen, (dict(frozen),)))


@dataclass(frozen=True, slots=True)
class Ask:
    """What is asked for: a better ``lay`` of a sheet's tables, one ``file`` of a garment, or ``all`` of them; or of a
    class the ``order``, or its papers in one ``pack``; or how it ``hang``s.

    ``tables``: the whole sheet as JSON text, of a class a list of them; ``garment``: pickled, as a lay left it, b''
    where there is none yet.
    """

    what: Literal["lay", "file", "all", "order", "pack", "hang"]
    tables: str
    language: str
    name: str = ""
    garment: bytes = b""


def do(ask: Ask, tell: Tell, had: Mapping[str, Any] | None = None) -> None:
    """Do the job; ``tell`` hears what is found: ('said', sentence), ('lay', ...), ('done', ...) or ('failed', ...).

    ``had``: the lay that it told last before it was stopped; the search goes on after it.
    """
    with speaking(ask.language):
        try:
            if ask.what == "lay":
                _lay(ask, tell, had)
            else:
                {"file": _file, "all": _all, "order": _order, "pack": _pack, "hang": _hang}[ask.what](ask, tell)
        except BadInput as error:
            tell("failed", str(error))


def _lay(ask: Ask, tell: Tell, had: Mapping[str, Any] | None) -> None:
    """Longer and longer searches; each lay that is shorter than the last is told."""
    from ellwand.plan.making import make_freely
    from ellwand.web.cloth_laid import cloth_laid

    sheet = sheet_of(json.loads(ask.tables))
    shortest, first = (had["length"], had["round"] + 1) if had else (math.inf, 0)
    for number, seconds in enumerate(ROUNDS[first:], first):
        garment = make_freely(sheet, seconds=seconds)
        length = math.fsum(lay.length for lay in garment.lays)
        if length < shortest - 0.05:
            shortest = length
            laid = {"cloth": cloth_laid(garment), "garment": pickle.dumps(garment)}
            tell("lay", {**laid, "length": length, "round": number})
        if all(lay.length <= lay.lower_bound + 0.05 for lay in garment.lays):
            break
    tell("done", None)


def _file(ask: Ask, tell: Tell) -> None:
    from ellwand.publish.all_files import files_of

    made = files_of(_garment(ask)).get(ask.name)
    if made is None:
        raise BadInput(ask.name, _("this garment has no such file"), _("choose one of the list"))
    tell("done", made())


def _all(ask: Ask, tell: Tell) -> None:
    from ellwand.publish.all_files import files_of

    archive = Archive(BadInput("", _("all files together are too large for one archive"), _("take them one by one")))
    for name, made in files_of(_garment(ask)).items():
        tell("said", name)
        archive.add(name, made())
    tell("done", archive.whole())


def _order(ask: Ask, tell: Tell) -> None:
    from ellwand.web.work.ordering import company_of

    tell("done", company_of(json.loads(ask.tables), tell))


def _pack(ask: Ask, tell: Tell) -> None:
    from ellwand.web.work.ordering import pack_of

    tell("done", pack_of(json.loads(ask.tables), tell))


def _hang(ask: Ask, tell: Tell) -> None:
    from ellwand.web.work.hanging import hung_of

    tell("done", hung_of(json.loads(ask.tables), tell))


def _garment(ask: Ask) -> Garment:
    """The garment as a search left it, or else quickly laid."""
    if ask.garment:
        found: Garment = pickle.loads(ask.garment)  # what one of our own processes made
        return found
    return laid_at_once(json.loads(ask.tables))
