"""The shell of parts: what is sewn to what, which openings are left, and the numbers it was drawn from."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from ellwand.errors import InternalFault
from ellwand.model.adornment import UNADORNED, Adornment
from ellwand.model.choices import Choices, TakenUpBy
from ellwand.model.closing import Closing
from ellwand.model.heraldry import TINCTURES, spelt
from ellwand.model.others import OtherSize
from ellwand.model.piece import Edge, Piece, edge_of
from ellwand.model.wearer import Hand


@dataclass(frozen=True, slots=True)
class Part:
    """One sewn instance of a piece; ``mirrored`` when it is cut the other way round."""

    id: str
    piece: str
    mirrored: bool = False


@dataclass(frozen=True, slots=True)
class EdgeRef:
    """One edge of one part."""

    part: str
    edge: str


@dataclass(frozen=True, slots=True)
class Seam:
    """Two edges sewn together. ``ease`` (cm) is how much longer ``a`` is than ``b``, on purpose."""

    id: str
    a: EdgeRef
    b: EdgeRef
    kind: str
    finish: str
    ease: float = 0.0


@dataclass(frozen=True, slots=True)
class Dimensions:
    """The garment in finished centimetres, after rounding to the chalk grid."""

    grid: float
    length: float
    panel_width: float
    side_panel: float
    armhole: float
    sleeve_top: float
    sleeve_lengths: Mapping[Hand, float]
    elbow_width: float
    cuff: float
    cuff_opening: float
    gusset: float
    neck_target: float
    neck_slit: float
    shoulder_drop: float
    levels: Mapping[str, float]
    body_girth: float
    shoulder_slope: float = 0.0
    back_dip: float = 0.0
    """``sleeve_lengths``: of the wearer's left and right, 0 without sleeves; ``levels``: height above the hem of
    bust, waist, belly, hip, crotch, knee (cm; below 0: the hem is higher); ``back_dip``: how far the back's hem lies
    below that level in its middle."""


@dataclass(frozen=True, slots=True)
class Note:
    """Something the draft settled for the maker, or a point that needs care; worded elsewhere."""

    code: str
    subject: str
    values: Mapping[str, float | str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class TakenUp:
    """What of a child's garment is taken up until it has grown: cm of the body's length and of each sleeve's."""

    by: TakenUpBy
    months: float
    body: float
    sleeves: Mapping[Hand, float]


@dataclass(frozen=True, slots=True)
class Draft:
    """Pieces and shell of one garment.  What is ``taken_up`` is still in the pieces' length.

    ``parts`` are the shell's; ``applied`` ones (facings, strips, collar) are cut too and sewn on to it.
    """

    choices: Choices
    settled: Dimensions | OtherSize
    pieces: tuple[Piece, ...]
    parts: tuple[Part, ...]
    seams: tuple[Seam, ...]
    notes: tuple[Note, ...] = ()
    taken_up: TakenUp | None = None
    applied: tuple[Part, ...] = ()
    closings: tuple[Closing, ...] = ()
    adornment: Adornment = UNADORNED

    @property
    def dimensions(self) -> Dimensions:
        """Those of a garment with a body and sleeves.

        Raises InternalFault for a hood, cloak, coif, apron or breeches, which have sizes of their own.
        """
        if not isinstance(self.settled, Dimensions):
            raise InternalFault(f"a {self.choices.style} has no body and sleeves")
        return self.settled


PIECED_OFF: Final = ("strip", "corner", "tip", "end", "half")
"""What is pieced off a part is a part of its own, called so after it ('gore-side-left-tip'); so is each share of a
divided part, after its tincture ('front-gules-2')."""
_OFF: Final = re.compile(rf"(-({'|'.join((*PIECED_OFF, *map(spelt, TINCTURES)))})(-\d+)?)+$")


def whole_part(part_id: str) -> str:
    """The part that a pieced part belongs to; any other is its own."""
    return _OFF.sub("", part_id)


def piece_of(draft: Draft, part_id: str) -> Piece:
    """The piece that a part is cut as."""
    name = next(p.piece for p in draft.parts if p.id == part_id)
    return next(p for p in draft.pieces if p.id == name)


def edge_at(draft: Draft, ref: EdgeRef) -> Edge:
    """The edge that a reference names."""
    return edge_of(piece_of(draft, ref.part), ref.edge)
