"""Cloth shared: the pieces of several garments cut from one length, the small ones of one in the gaps of another."""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from ellwand.choose import Sheet
from ellwand.company.reckoning import Files, How, alone
from ellwand.language import _, speaking
from ellwand.lay import Budget, lay_out
from ellwand.model.cloth import Cloth, length_on_table
from ellwand.model.company import Done, Shared
from ellwand.model.draft import Draft, Part, Seam
from ellwand.model.lay import Lay
from ellwand.model.piece import Piece, cloth_in
from ellwand.pipeline import make
from ellwand.publish.letters import plain_name
from ellwand.units import Unit

MOST: Final = 8
"""So many garments share one length at most: more of them are searched no better in bearable time."""
LAYERS: Final = 4
"""Shears go through so many layers of cloth without pushing the lowest aside: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Group:
    """Garments that share a length of one cloth: by their numbers, those together that are cut alike, as many in each
    stack; and what all of them take by themselves (cm)."""

    number: int
    cloth: Cloth
    colour: str
    stacks: tuple[tuple[int, ...], ...]
    alone: float


def groups(done: Mapping[int, Done]) -> tuple[Group, ...]:
    """Who shares a length with whom: garments from the same cloth of the same colour, those of one kind and of like
    length side by side, as many as the table or the cloth at hand has room for; those cut alike in layers.

    Left-over pieces of a cloth go to its first group.
    """
    by_cloth: defaultdict[tuple[Cloth, str], dict[int, Done]] = defaultdict(dict)
    for number, each in done.items():
        laid = {one.cloth for one in each.laid}
        for k, cloth in enumerate(each.cloths):
            if cloth.name in laid and cloth.cut == "free":
                by_cloth[cloth, each.colour if k == 0 else ""][number] = each
    out: list[Group] = []
    for (cloth, colour), wanting in by_cloth.items():
        taken = {number: length_alone(each, cloth.name) for number, each in wanting.items()}
        for k, stacks in enumerate(_shared_out(cloth, wanting, taken)):
            total = math.fsum(taken[number] for stack in stacks for number in stack)
            own = cloth if k == 0 else replace(cloth, remnants=())
            out.append(Group(len(out) + 1, own, colour, tuple(stacks), total))
    return tuple(out)


def length_alone(done: Done, cloth: str) -> float:
    """What a garment's lay by itself takes of one of its cloths (cm)."""
    return math.fsum(each.length for each in done.laid if each.cloth == cloth)


Stack = tuple[int, ...]


def _shared_out(cloth: Cloth, wanting: Mapping[int, Done], taken: Mapping[int, float]) -> list[list[Stack]]:
    """Those who want a cloth, in as few groups as there is room for."""
    longest = min((end for end in (cloth.table, length_on_table(cloth)) if end is not None), default=math.inf)
    by_layers: defaultdict[int, list[Stack]] = defaultdict(list)
    for stack in _stacks(wanting):
        by_layers[len(stack)].append(stack)
    out: list[list[Stack]] = []
    for layers in sorted(by_layers, reverse=True):
        ordered = sorted(by_layers[layers], key=lambda s: (wanting[s[0]].garment, -taken[s[0]], s))
        filled = _filled(ordered, taken, longest)
        if longest == math.inf:
            # as many, but all of about the same number
            ends = [round(len(ordered) * k / len(filled)) for k in range(len(filled) + 1)]
            filled = [ordered[start:end] for start, end in itertools.pairwise(ends)]
        out += filled
    return out


def _stacks(wanting: Mapping[int, Done]) -> list[Stack]:
    """The numbers of those who are cut alike together, no more than shears go through."""
    alike: defaultdict[str, list[int]] = defaultdict(list)
    for number, each in wanting.items():
        alike[each.cut].append(number)
    return [tuple(each[k : k + LAYERS]) for each in alike.values() for k in range(0, len(each), LAYERS)]


def _filled(ordered: Sequence[Stack], taken: Mapping[int, float], longest: float) -> list[list[Stack]]:
    """The stacks in turn, a new group wherever one is full."""
    out: list[list[Stack]] = []
    room = 0.0
    for stack in ordered:
        length = taken[stack[0]]
        if not out or len(out[-1]) == MOST or length > room:
            out.append([])
            room = longest
        out[-1].append(stack)
        room -= length
    return out


def shared(group: Group, sheets: Mapping[int, Sheet], how: How) -> tuple[Shared, Files]:
    """The group's lay, its drawing and its list to chalk by.

    ``sheets``: of the first garment of each stack.  It takes no more than the garments do by themselves: where the
    search finds nothing shorter, each is cut by its own card.
    """
    told = Shared(group.number, group.cloth.name, group.colour, group.stacks, group.alone, group.alone)
    if len(group.stacks) == 1 and not group.cloth.remnants and len(group.stacks[0]) == 1:
        return told, {}
    with speaking(how.language):
        made = {number: make(alone(sheet), seconds=0.0, unit=how.unit) for number, sheet in sheets.items()}
        pieces, parts, seams = _together({number: each.draft for number, each in made.items()}, group.cloth.name)
        budget = Budget(0.0, how.effort * len(sheets), how.seed)
        lays = lay_out(pieces, parts, replace(group.cloth, length=None), budget, seams=seams)
        main = [lay for lay in lays if not lay.remnant]
        length = math.fsum(lay.length for lay in main)
        if length * len(group.stacks[0]) > group.alone:
            return told, {}
        files = _files(group, lays, pieces, next(iter(made.values())).wearer.unit)
        return replace(
            told,
            length=length,
            lower_bound=math.fsum(lay.lower_bound for lay in main),
            use=cloth_in(pieces) / math.fsum(lay.width * lay.length for lay in lays),
            pieces=sum(piece.count for piece in pieces),
            left_overs=len(lays) - len(main),
            files=tuple(files),
        ), files


def _together(drafts: Mapping[int, Draft], cloth: str) -> tuple[list[Piece], list[Part], list[Seam]]:
    """The pieces that are cut from the cloth, each marked with its garment's number, and their parts and seams."""
    pieces: list[Piece] = []
    parts: list[Part] = []
    seams: list[Seam] = []
    for number, draft in drafts.items():
        own = [piece for piece in draft.pieces if piece.cloth == cloth]
        ids = {piece.id for piece in own}
        pieces += [replace(piece, id=f"{number}-{piece.id}", bundle=str(number)) for piece in own]
        mine = [part for part in (*draft.parts, *draft.applied) if part.piece in ids]
        parts += [replace(part, id=f"{number}-{part.id}", piece=f"{number}-{part.piece}") for part in mine]
        here = {part.id for part in mine}
        seams += [
            replace(
                seam,
                id=f"{number}-{seam.id}",
                a=replace(seam.a, part=f"{number}-{seam.a.part}"),
                b=replace(seam.b, part=f"{number}-{seam.b.part}"),
            )
            for seam in draft.seams
            if seam.a.part in here and seam.b.part in here
        ]
    return pieces, parts, seams


def _files(group: Group, lays: Sequence[Lay], pieces: Sequence[Piece], unit: Unit) -> Files:
    from ellwand.depict.laying import lay_drawing
    from ellwand.publish.company import lay_pdf
    from ellwand.publish.files import LAY_SCALE, chalk_list
    from ellwand.publish.svg import svg

    name = f"{group.number:02d}-{plain_name(f'{group.cloth.name} {group.colour}')}"
    out: dict[str, bytes] = {}
    for k, lay in enumerate(lays, 1):
        file = name if k == 1 else f"{name}-{k}"
        title = _("lay {number}: garments {garments}", number=group.number, garments=_listed(group.stacks))
        drawing = lay_drawing(lay, pieces, unit, cloth=group.cloth, scale=LAY_SCALE, lying=True)
        out[f"{file}.svg"] = svg(drawing, LAY_SCALE, title).encode()
        out[f"{file}.pdf"] = lay_pdf(lay, pieces, group.cloth, unit, title)
        out[f"{file}.csv"] = chalk_list(lay, pieces, unit).encode()
    return out


def _listed(stacks: Sequence[Stack]) -> str:
    return ", ".join(map(str, sorted(number for stack in stacks for number in stack)))
