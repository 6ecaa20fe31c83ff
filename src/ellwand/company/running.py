"""The whole company: everyone's garment, then shared cloth, then the order; what is done already is not done again."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Final

from ellwand.choose import Sheet
from ellwand.company.hands import Hands, Stop
from ellwand.company.ordering import order_of
from ellwand.company.reckoning import Files, How, key_of, reckoned
from ellwand.company.roster import Bundle
from ellwand.company.sharing import Group, groups, shared
from ellwand.company.shelf import Shelf
from ellwand.company.sizes import size_sets
from ellwand.language import _
from ellwand.model.company import Company, Done, Shared
from ellwand.model.names import named
from ellwand.publish.letters import plain_name
from ellwand.units import Unit

PEOPLE: Final = "people"
LAYS: Final = "lays"
Tell = Callable[[str], None]


def run(
    bundles: Sequence[Bundle],
    how: How,
    hands: Hands,
    shelf: Shelf,
    crew: int = 1,
    tell: Tell = lambda text: None,
    stop: Stop = lambda: False,
) -> Company | None:
    """Reckons every bundle, lays their cloth together and looks for sizes; the same whoever's ``hands`` do it.

    ``crew``: so many sew; ``tell`` hears how far it is.  None where ``stop`` said so before the end: what is done by
    then is found on the ``shelf`` the next time.
    """
    places = _places(bundles)
    done = everyone_reckoned(bundles, places, how, hands, shelf, tell, stop)
    if len(done) < len(bundles):
        return None
    sheets = {each.number: each.sheet for each in bundles if each.sheet is not None}
    laid = _lays(done, sheets, how, hands, shelf, tell, stop)
    if len(laid) < len(groups(done)):
        return None
    tell(_("looking for sizes"))
    sizes = size_sets(sheets, done, hands, stop)
    if stop():
        return None
    shared = tuple(laid[number] for number in sorted(laid))
    prices = next((sheet.prices for sheet in sheets.values() if sheet.prices is not None), None)
    first = next(iter(sheets.values()), None)
    inches = first is not None and first.wearer.get("unit") == "in"
    unit: Unit = how.unit or ("in" if inches else "cm")
    order = order_of(done, shared, prices, unit, crew)
    return Company(done, shared, order, sizes, places)


def _places(bundles: Sequence[Bundle]) -> dict[int, str]:
    """A folder for each, called by wearer and garment; alike ones are numbered."""
    seen: dict[str, int] = {}
    out = {}
    for each in bundles:
        name = f"{plain_name(each.name, 40, 'wearer')}-{plain_name(each.garment, 24, 'garment')}"
        seen[name] = seen.get(name, 0) + 1
        out[each.number] = f"{PEOPLE}/{name}" if seen[name] == 1 else f"{PEOPLE}/{name}-{seen[name]}"
    return out


def _one(asked: tuple[Sheet, str, str, str, How]) -> tuple[Done, Files]:
    return reckoned(*asked)


def _together(asked: tuple[Group, Mapping[int, Sheet], How]) -> tuple[Shared, Files]:
    return shared(*asked)


def everyone_reckoned(
    bundles: Sequence[Bundle],
    places: Mapping[int, str],
    how: How,
    hands: Hands,
    shelf: Shelf,
    tell: Tell = lambda text: None,
    stop: Stop = lambda: False,
) -> dict[int, Done]:
    """Every bundle's garment, by its number."""
    done: dict[int, Done] = {}
    asked: list[tuple[int, str, tuple[Sheet, str, str, str, How]]] = []
    for each in bundles:
        if each.sheet is None:
            done[each.number] = Done(each.name, each.garment, each.colour, each.trouble)
            continue
        job = (each.sheet, each.name, each.garment, each.colour, how)
        key = key_of(*job)
        found = shelf.find(Done, key, places[each.number])
        if found is not None:
            done[each.number] = found
        else:
            asked.append((each.number, key, job))
    if known := sum(1 for each in bundles if each.number in done and each.sheet is not None):
        tell(_("{n} are done already", n=known))
    for at, (made, files) in hands(_one, [job for _n, _k, job in asked], stop):
        number, key, _job = asked[at]
        shelf.put(made, key, places[number], files)
        done[number] = made
        tell(_said(made, len(done), len(bundles)))
    return done


def _said(made: Done, n: int, count: int) -> str:
    told = {"n": n, "all": count, "name": made.name, "garment": named(made.garment)}
    if made.trouble:
        return _("{n} of {all}: {name}, {garment}: cannot be cut", **told)
    if made.fails:
        return _("{n} of {all}: {name}, {garment}: will not work", **told)
    return _("{n} of {all}: {name}, {garment}", **told)


def _lays(
    done: Mapping[int, Done],
    sheets: Mapping[int, Sheet],
    how: How,
    hands: Hands,
    shelf: Shelf,
    tell: Tell,
    stop: Stop,
) -> dict[int, Shared]:
    """The lengths of cloth that are shared, by their numbers."""
    laid: dict[int, Shared] = {}
    asked: list[tuple[str, tuple[Group, Mapping[int, Sheet], How]]] = []
    grouped = groups(done)
    for group in grouped:
        job = (group, {stack[0]: sheets[stack[0]] for stack in group.stacks}, replace(how, papers=True))
        key = key_of(*job)
        found = shelf.find(Shared, key, LAYS)
        if found is not None:
            laid[group.number] = found
        else:
            asked.append((key, job))
    for at, (made, files) in hands(_together, [job for _key, job in asked], stop):
        shelf.put(made, asked[at][0], LAYS, files)
        laid[made.number] = made
        tell(_("lay {n} of {all}", n=len(laid), all=len(grouped)))
    return laid
