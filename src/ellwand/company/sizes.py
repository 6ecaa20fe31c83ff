"""A size set: the fewest of the garments drafted in which every wearer of that kind is still well served.

A garment drafted for one wearer is proved on another.  It serves where nothing is found that is not found of the
other's own, and where it is not much fuller, longer or shorter than that.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from ellwand.choose import Sheet
from ellwand.company.hands import Hands, Stop
from ellwand.company.reckoning import alone
from ellwand.company.sharing import length_alone
from ellwand.errors import BadInput, InternalFault
from ellwand.model.company import Done, Size, SizeSet
from ellwand.model.finding import Finding
from ellwand.pipeline import prove_sheet, read_wearer
from ellwand.prove import prove

FULLER: Final = 8.0
"""So much (cm) fuller than one's own a garment may be: a letter size covers 8 cm of bust (EN 13402-3, from memory)."""
LONGER, SHORTER = 4.0, 1.5
"""So much (cm) longer or shorter than one's own, body or sleeve: what a hem takes up or gives, our own figure."""
MANY: Final = 60
"""Of more wearers than these not every garment is tried on everyone."""
STEP: Final = 4.0
"""Steps of girth and length (cm): those of bust in EN 13402-3, from memory."""
LEAST: Final = 3
"""Fewer wearers of one kind need no sizes."""
TOLERANCE: Final = 1e-6


@dataclass(frozen=True, slots=True)
class Own:
    """What one wearer's own garment is like (cm), and what is found of it."""

    girth: float
    length: float
    sleeve: float
    found: frozenset[tuple[str, str]]
    fails: frozenset[tuple[str, str]]


Served = tuple[int, tuple[int, ...]]
"""A garment's number and the numbers of those whom it serves."""


def size_sets(sheets: Mapping[int, Sheet], done: Mapping[int, Done], hands: Hands, stop: Stop) -> tuple[SizeSet, ...]:
    """A set for every kind of garment that several wear, whatever its colour, and that needs fewer sizes than wearers;
    only of garments with a body.

    Kinds of which the search was stopped are left out.
    """
    out: list[SizeSet] = []
    for numbers in _kinds(sheets, done):
        own: dict[int, Own] = {}
        for at, each in hands(own_of, [sheets[number] for number in numbers], stop):
            own[numbers[at]] = each
        if len(own) < len(numbers):
            return tuple(out)
        patterns = _patterns(own)
        asked = [
            (n, sheets[n], {m: (sheets[m], own[m]) for m in numbers if m != n and _near(own[n], own[m])})
            for n in patterns
        ]
        served = dict(each for _at, each in hands(serves, asked, stop))
        if len(served) < len(asked):
            return tuple(out)
        unserved = set(numbers).difference(*served.values())
        served |= {number: (number,) for number in unserved}
        found = _set(numbers, served, done)
        if len(found.sizes) < len(numbers):
            out.append(found)
    return tuple(out)


def _kinds(sheets: Mapping[int, Sheet], done: Mapping[int, Done]) -> list[list[int]]:
    """The numbers of those who wear the same, cut from the same."""
    kinds: defaultdict[object, list[int]] = defaultdict(list)
    for number, sheet in sheets.items():
        choices = sheet.choices
        plain = choices.other is None and choices.division is None and choices.growth is None and not choices.charges
        if plain and not done[number].trouble:
            kinds[choices, sheet.cloths].append(number)
    return [numbers for numbers in kinds.values() if len(numbers) >= LEAST]


def own_of(sheet: Sheet) -> Own:
    """What the wearer's own garment is like."""
    garment = prove_sheet(alone(sheet))
    settled = garment.draft.dimensions
    return Own(
        settled.body_girth,
        settled.length,
        max(settled.sleeve_lengths.values(), default=0.0),
        *_found(garment.proof.findings),
    )


def _found(findings: Collection[Finding]) -> tuple[frozenset[tuple[str, str]], frozenset[tuple[str, str]]]:
    """What is not sound, and what of that will not work."""
    return (
        frozenset((each.code, each.subject) for each in findings if each.outcome != "sound"),
        frozenset((each.code, each.subject) for each in findings if each.outcome == "will not work"),
    )


def _patterns(own: Mapping[int, Own]) -> list[int]:
    """Whose garments are tried on others: everyone's; of many the fullest in each step of fullness and length."""
    if len(own) <= MANY:
        return list(own)
    cells: dict[tuple[int, int, int], int] = {}
    for number, each in sorted(own.items(), key=lambda one: (one[1].girth, one[1].length, -one[0])):
        cells[round(each.girth / STEP), round(each.length / STEP), round(each.sleeve / STEP)] = number
    return sorted(cells.values())


def _near(pattern: Own, own: Own) -> bool:
    """Whether a garment is of about the size of one's own."""
    return (
        -FULLER / 2 - TOLERANCE <= pattern.girth - own.girth <= FULLER + TOLERANCE
        and -SHORTER - TOLERANCE <= pattern.length - own.length <= LONGER + TOLERANCE
        and -SHORTER - TOLERANCE <= pattern.sleeve - own.sleeve <= LONGER + TOLERANCE
    )


def serves(asked: tuple[int, Sheet, Mapping[int, tuple[Sheet, Own]]]) -> Served:
    """Whom a garment serves besides the one that it is drafted for."""
    number, sheet, others = asked
    draft = prove_sheet(alone(sheet)).draft
    out = [number]
    for other, (theirs, own) in others.items():
        wearer, _questions = read_wearer(theirs)
        try:
            found, fails = _found(prove(draft, wearer).findings)
        except BadInput:
            continue
        if found <= own.found and fails <= own.fails:
            out.append(other)
    return number, tuple(sorted(out))


def _set(numbers: Sequence[int], served: Mapping[int, Sequence[int]], done: Mapping[int, Done]) -> SizeSet:
    """The fewest that serve all, of those the ones that take least cloth."""
    takes = {number: round(10 * _length(done[number])) for number in numbers}
    worn, fewest = fewest_that_serve(numbers, served, takes)
    sizes = tuple(
        Size(pattern, tuple(n for n in numbers if worn[n] == pattern)) for pattern in sorted(set(worn.values()))
    )
    return SizeSet(
        garment=done[numbers[0]].garment,
        sizes=sizes,
        length=math.fsum(_length(done[worn[number]]) for number in numbers),
        alone=math.fsum(_length(done[number]) for number in numbers),
        line=math.fsum(done[size.pattern].line for size in sizes),
        line_alone=math.fsum(done[number].line for number in numbers),
        fewest=fewest,
    )


def _length(done: Done) -> float:
    return math.fsum(length_alone(done, cloth.name) for cloth in done.cloths)


def fewest_that_serve(
    numbers: Sequence[int], served: Mapping[int, Sequence[int]], takes: Mapping[int, int]
) -> tuple[dict[int, int], bool]:
    """Whose garment each wears, as few different ones as may be, together taking least; and whether that is proved.

    A set cover, solved by CP-SAT: every wearer is given one garment that serves, every garment given is made.
    ``takes``: what each costs for one wearer, in whole steps.
    """
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    made = {pattern: model.new_bool_var(f"made {pattern}") for pattern in served}
    fitting_for: dict[int, list[int]] = {number: [] for number in numbers}
    for pattern, wearers in served.items():
        for wearer in wearers:
            fitting_for[wearer].append(pattern)
    given: dict[tuple[int, int], cp_model.IntVar] = {}
    for wearer in numbers:
        fitting = fitting_for[wearer]
        for pattern in fitting:
            given[wearer, pattern] = model.new_bool_var(f"{wearer} wears {pattern}")
            model.add_implication(given[wearer, pattern], made[pattern])
        model.add_exactly_one(given[wearer, pattern] for pattern in fitting)
    much = len(numbers) * max(takes[pattern] for pattern in served) + 1
    model.minimize(much * sum(made.values()) + sum(takes[pattern] * one for (_wearer, pattern), one in given.items()))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = 20.0
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        raise InternalFault("no garments serve those whom they are drafted for")
    worn = {wearer: pattern for (wearer, pattern), one in given.items() if solver.value(one)}
    return worn, status == cp_model.OPTIMAL
