"""What the pieces of a divided garment are called: the whole piece's name, the tincture, and where it lies."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from ellwand.model.heraldry import Field
from ellwand.model.wearer import HANDS


@dataclass(frozen=True, slots=True)
class Lie:
    """Where shares of one piece lie as they are worn, of all the parts that are cut as it.

    ``parts``: the whole parts; ``faces``: front, back or both; ``x`` toward the wearer's left and ``y`` upward: its
    middle in the field, None for what is no panel.
    """

    whole: str
    tincture: str
    parts: tuple[str, ...]
    faces: frozenset[str] = frozenset()
    at: tuple[float, float] | None = None


def names_of(lies: Sequence[Lie], field: Field) -> list[str]:
    """A name for each, no two alike: told by side, face and height where that is enough, else by number."""
    groups: dict[tuple[str, str], list[Lie]] = {}
    for lie in lies:
        groups.setdefault((lie.whole, lie.tincture), []).append(lie)
    called = {id(lie): name for group in groups.values() for lie, name in _of_group(group, field)}
    return [called[id(lie)] for lie in lies]


def _of_group(group: Sequence[Lie], field: Field) -> list[tuple[Lie, str]]:
    stem = f"{group[0].whole}, {group[0].tincture}"
    if len(group) == 1:
        return [(group[0], stem)]
    for words in _WAYS:
        told = [_together([way(lie, field) for way in words]) for lie in group]
        if len(set(told)) == len(told) and "" not in told:
            return [(lie, f"{stem}, {each}") for lie, each in zip(group, told, strict=True)]
    return [(lie, f"{stem}, {n}") for n, lie in enumerate(group, 1)]


def _together(words: Sequence[str]) -> str:
    """As one says it: 'upper right', 'front', 'upper front', 'upper right of the front'."""
    told = [word for word in words if word]
    if told[-1:] in (["front"], ["back"]) and set(told) & {*HANDS, "middle"}:
        return f"{' '.join(told[:-1])} of the {told[-1]}"
    return " ".join(told)


def _side(lie: Lie, _: Field) -> str:
    """The wearer's hand that it lies on."""
    if lie.at is not None:
        return "right" if lie.at[0] < -1 else "left" if lie.at[0] > 1 else "middle"
    hands = {hand for hand in HANDS for part in lie.parts if hand in part.split("-")}
    return hands.pop() if len(hands) == 1 else ""


def _across(lie: Lie, field: Field) -> str:
    return "" if lie.at is None else _third(lie.at[0] / field.half, ("right", "middle", "left"))


def _down(lie: Lie, field: Field) -> str:
    return "" if lie.at is None else _third(2 * lie.at[1] / field.top - 1, ("lower", "middle", "upper"))


def _third(share: float, words: tuple[str, str, str]) -> str:
    """Of a share from −1 to 1."""
    return words[0] if share < -1 / 3 else words[1] if share < 1 / 3 else words[2]


def _half(lie: Lie, field: Field) -> str:
    return "" if lie.at is None else "upper" if lie.at[1] > field.top / 2 else "lower"


def _face(lie: Lie, _: Field) -> str:
    return next(iter(lie.faces)) if len(lie.faces) == 1 else ""


_Way = Callable[[Lie, Field], str]
_WAYS: Final[tuple[tuple[_Way, ...], ...]] = (
    (_half,),
    (_side,),
    (_face,),
    (_across,),
    (_half, _side),
    (_down,),
    (_down, _side),
    (_half, _face),
    (_side, _face),
    (_across, _face),
    (_half, _side, _face),
    (_down, _face),
    (_down, _side, _face),
    (_down, _across, _face),
)


def slug(name: str, taken: Mapping[str, object]) -> str:
    """A piece's id from its name."""
    stem = re.sub(r"[^a-z0-9]+", "-", name.lower().replace("é", "e")).strip("-")
    number, out = 1, stem
    while out in taken:
        number += 1
        out = f"{stem}-no{number}"
    return out
