"""What a maker's freedom comes to: ways to put a garment together, cloth against garment, what a cloth gives (cm)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ellwand.model.choices import Choices
from ellwand.model.garment import Garment

StopName = Literal["least cloth", "balanced", "best bargain", "fullest"]
Aim = Literal["longest", "fullest", "most"]
Limit = Literal["cloth", "range", "floor", "draft", "count"]
"""What keeps a garment from being longer, fuller or more: the cloth, the range that was given, the floor, that it can
no longer be drafted and proved sound, or that no more are counted."""


@dataclass(frozen=True, slots=True)
class Change:
    """One thing put together another way; worded elsewhere. ``where`` is a gore's place; ``cm`` a width."""

    code: str
    where: str = ""
    cm: float = 0.0


@dataclass(frozen=True, slots=True)
class Way:
    """The same sewn garment put together in some way: its choices, and what sets it apart from the plainest."""

    changes: tuple[Change, ...]
    choices: Choices


@dataclass(frozen=True, slots=True)
class Tried:
    """A way, drafted, proved and laid: ``length`` of its lay, ``seams``: all that is sewn, ``area``: net (cm²)."""

    way: Way
    garment: Garment
    length: float
    seams: float
    area: float


@dataclass(frozen=True, slots=True)
class TradePoint:
    """One garment within the maker's ranges: what it takes, and what it is.

    ``settings``: the ranged choices as they are to be written in the sheet (path, cm).
    """

    cloth: float
    area: float
    sweep: float
    length: float
    settings: tuple[tuple[str, float], ...]
    choices: Choices


@dataclass(frozen=True, slots=True)
class TradeOff:
    """Cloth against garment: points from the least cloth to the fullest, each more garment for more cloth.

    ``stops`` names some of them; ``tried`` counts all garments laid, those left out because another gives as much for
    less among them.
    """

    points: tuple[TradePoint, ...]
    stops: tuple[tuple[StopName, int], ...]
    tried: int


@dataclass(frozen=True, slots=True)
class Stretched:
    """What a cloth at hand gives. ``value``: length or hem sweep in cm, or a number of garments.

    ``most``: no lay of any such garment could give more than this; ``used`` and ``left`` of the cloth ``at_hand`` on
    the table; ``next_needs``: the cloth that the next larger one took, 0 where there is none; ``bases`` of its gores
    (cm) by their place.
    """

    aim: Aim
    value: float
    most: float
    at_hand: float
    used: float
    left: float
    limit: Limit
    next_needs: float
    garment: Garment
    changes: tuple[Change, ...]
    bases: tuple[tuple[str, float], ...] = ()
