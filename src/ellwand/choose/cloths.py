"""[cloth]: the main cloth, those beside it, and what is left over of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from ellwand.choose.fields import one_of
from ellwand.choose.options.cloth import ClothTable, RemnantTable
from ellwand.choose.validated import table_of, validated
from ellwand.errors import BadInput
from ellwand.geometry.lines import bounds
from ellwand.language import _
from ellwand.model.cloth import Cloth, Fault, Remnant, Repeat
from ellwand.model.heraldry import TINCTURES
from ellwand.units import Unit


def read_cloths(tables: Mapping[str, Any]) -> tuple[Cloth, ...]:
    """The cloths of a sheet, the main one first: the only one that does not say what is cut from it.

    One that says its tincture, or is called by it, is for what is of that tincture; where all do, the first is the main
    one.

    Raises BadInput with one sentence.
    """
    table = dict(table_of(tables, "cloth", _("give [cloth.main] with its width")))
    remnants = table.pop("remnants", [])
    if not isinstance(remnants, list):
        raise BadInput("cloth.remnants", _("this should be a list of tables"), _("write [[cloth.remnants]] for each"))
    if table and not any(isinstance(value, dict) for value in table.values()):
        named, where = {"main": table}, {"main": "cloth"}
    else:
        wrong = [key for key, value in table.items() if not isinstance(value, dict)]
        if wrong:
            raise BadInput(f"cloth.{wrong[0]}", _("no such key"), _("put it under [cloth.main]"))
        if not table:
            raise BadInput("cloth", _("no cloth is described"), _("give [cloth.main] with its width"))
        named, where = table, {name: f"cloth.{name[:60]}" for name in table}
    left = _remnants(remnants, named)
    cloths = [_cloth(name, each, where[name], left.get(name, ())) for name, each in named.items()]
    for_all = [cloth for cloth in cloths if not cloth.cuts]
    main = [cloth for cloth in for_all if not cloth.tincture] or for_all[:1]
    if len(main) != 1:
        which = (
            _("{count} cloths are for all pieces", count=len(main))
            if main
            else _("every cloth says which pieces it is for")
        )
        raise BadInput("cloth", which, _('keep one for the rest, and give the others theirs, as in pieces = ["gores"]'))
    for number, cloth in enumerate(cloths):
        twice = [cut for each in cloths[:number] for cut in each.cuts if cut in cloth.cuts]
        if twice:
            raise BadInput(
                f"{where[cloth.name]}.pieces", _("another cloth is for the {cut} too", cut=twice[0]), _("keep one")
            )
        if not cloth.cuts and cloth.tincture and cloth.tincture in [each.tincture for each in cloths[:number]]:
            raise BadInput(
                f"{where[cloth.name]}.tincture",
                _("another cloth is {tincture} too", tincture=cloth.tincture),
                _("keep one"),
            )
    return (*main, *(cloth for cloth in cloths if cloth is not main[0]))


def _remnants(tables: Sequence[Any], named: Mapping[str, Mapping[str, Any]]) -> dict[str, tuple[Remnant, ...]]:
    """The left-overs of each cloth; a sheet with one cloth need not name it."""
    out: dict[str, tuple[Remnant, ...]] = {}
    only = next(iter(named)) if len(named) == 1 else "main"
    for number, table in enumerate(tables):
        where = f"cloth.remnants[{number + 1}]"
        asked = table.get("cloth", only) if isinstance(table, dict) else only
        name = asked if isinstance(asked, str) and asked in named else only
        read = validated(RemnantTable, table, where, _unit(named.get(name, {})))
        if asked not in named:
            problem = _("there is no cloth {name!r}", name=asked)[:80]
            raise BadInput(f"{where}.cloth", problem, _("choose one of {names}", names=one_of(named))[:200])
        if read.outline and (read.width or read.length):
            raise BadInput(f"{where}.outline", _("width and length are given too"), _("give the outline alone"))
        width, length = bounds(read.outline)[2:] if read.outline else (read.width, read.length)
        if width is None or length is None:
            raise BadInput(where, _("its width or length is missing"), _("give width and length, or an outline"))
        out[name] = (*out.get(name, ()), Remnant(width, length, read.outline))
    return out


def _unit(table: Mapping[str, Any]) -> Unit:
    return "in" if table.get("unit") == "in" else "cm"


def _cloth(name: str, table: Mapping[str, Any], where: str, remnants: tuple[Remnant, ...]) -> Cloth:
    read = validated(ClothTable, table, where, _unit(table))
    if 2 * read.selvedge >= read.width - 10:
        raise BadInput(
            f"{where}.selvedge", _("the selvedges leave no cloth between them"), _("give a smaller selvedge")
        )
    values = read.model_dump()
    values.update(
        name=name,
        length=None if read.length == "at need" else read.length,
        faults=tuple(Fault(**fault.model_dump()) for fault in read.faults),
        remnants=remnants,
        repeat=None if read.repeat is None else Repeat(**read.repeat.model_dump()),
        cuts=values.pop("pieces"),
        tincture=read.tincture or (name if name in TINCTURES else ""),
    )
    return Cloth(**values)
