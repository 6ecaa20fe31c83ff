"""Many garments made together: what each comes to, what is cut from one length, and what all of them need."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from ellwand.model.cloth import Cloth
from ellwand.model.cost import CostLine
from ellwand.model.finding import Outcome
from ellwand.units import Unit

Stage = Literal["seams", "edges", "adornment", "closures"]
"""What a hand is set to: joining pieces; edges, hems and facings; bands, motifs and charges; closures."""


@dataclass(frozen=True, slots=True)
class Said:
    """What was found about one garment, in sentences; ``mend`` is '' where there is none."""

    outcome: Outcome
    why: str
    mend: str = ""


@dataclass(frozen=True, slots=True)
class Laid:
    """What one cloth of a garment takes when the garment is laid by itself (cm), and what is cut out of it (cm²)."""

    cloth: str
    length: float
    area: float


@dataclass(frozen=True, slots=True)
class Work:
    """One stage of a garment's sewing: least and most (hours)."""

    stage: Stage
    hours: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Done:
    """One garment reckoned: for whom, of which colour, and what it takes; ``trouble`` where it cannot be cut.

    ``said``: what will not work and what is to be looked at again; ``checks``: how many there were in all.
    ``bought``: everything but cloth and thread.  ``thread`` in m, with its waste; ``line``: how much is chalked and cut
    (cm); ``pieces``: how many are cut; ``listed``: each with its number; ``cut`` is alike for those whose pieces are
    alike to the last corner.
    """

    name: str
    garment: str
    colour: str = ""
    trouble: str = ""
    said: tuple[Said, ...] = ()
    checks: int = 0
    cloths: tuple[Cloth, ...] = ()
    laid: tuple[Laid, ...] = ()
    bought: tuple[CostLine, ...] = ()
    work: tuple[Work, ...] = ()
    thread: float = 0.0
    line: float = 0.0
    pieces: int = 0
    listed: tuple[str, ...] = ()
    cut: str = ""
    files: tuple[str, ...] = ()

    @property
    def fails(self) -> bool:
        """Whether it cannot be cut, or some check says that it will not work."""
        return bool(self.trouble) or any(each.outcome == "will not work" for each in self.said)


@dataclass(frozen=True, slots=True)
class Shared:
    """One length of cloth that several garments are cut from together (cm).

    ``stacks``: the garments by their numbers, those together whose pieces are alike; each stack is chalked once, as its
    first, and cut through as many ``layers`` of this length as it has garments.  ``alone``: what all their lays by
    themselves take.  ``left_overs``: how many left-over pieces are used up besides.  ``pieces``: how many are chalked;
    0 where nothing shorter was found, and each is cut by its own card.
    """

    number: int
    cloth: str
    colour: str
    stacks: tuple[tuple[int, ...], ...]
    length: float
    alone: float
    lower_bound: float = 0.0
    use: float = 0.0
    pieces: int = 0
    left_overs: int = 0
    files: tuple[str, ...] = ()

    @property
    def layers(self) -> int:
        """How often the length is spread over itself."""
        return len(self.stacks[0])

    @property
    def takes(self) -> float:
        """The cloth of all layers (cm)."""
        return self.length * self.layers if self.pieces else self.alone


@dataclass(frozen=True, slots=True)
class Need:
    """What is bought of one thing for all: ``amount`` in cm, m or pieces, and what it costs, None without a price.

    ``parts``: for cloth what makes up the length, each step with its cm, and how many ``lays`` are cut from it.
    """

    what: str
    amount: float
    unit: Literal["cm", "m", ""]
    cost: float | None = None
    cloth: Cloth | None = None
    colour: str = ""
    parts: tuple[tuple[str, float], ...] = ()
    lays: int = 0


@dataclass(frozen=True, slots=True)
class Size:
    """One size of a size set: the garment number whose cut it is, and the numbers of those who wear it."""

    pattern: int
    wearers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class SizeSet:
    """The fewest sizes found of one kind of garment in which each wearer's fit stays sound.

    ``length``: the cloth that all of them take cut in these sizes (cm), ``alone``: cut for each wearer; both laid one
    by one.  ``line``: what is chalked (cm) if each size is chalked once for all its layers, ``line_alone``: for each
    wearer.  ``fewest``: whether it is proved that no fewer of the sizes tried would do.
    """

    garment: str
    sizes: tuple[Size, ...]
    length: float
    alone: float
    line: float
    line_alone: float
    fewest: bool


@dataclass(frozen=True, slots=True)
class Order:
    """What the whole company needs: cloth first, then all else; work by stage for all hands together (hours).

    ``crew``: so many hands; ``days``: how long (hours, least and most) until the last of them is done, each garment
    sewn by one.
    """

    needs: tuple[Need, ...]
    work: tuple[Work, ...]
    crew: int
    days: tuple[float, float]
    currency: str
    unit: Unit


@dataclass(frozen=True, slots=True)
class Company:
    """All garments by their numbers, the lengths they are cut from, what all need, and the sizes that would do.

    ``places``: the folders of everyone's papers.
    """

    done: Mapping[int, Done]
    shared: tuple[Shared, ...]
    order: Order
    sizes: tuple[SizeSet, ...]
    places: Mapping[int, str]
