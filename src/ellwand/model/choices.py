"""What the maker chose, in centimetres; still symbolic where it depends on the wearer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Layer = Literal["skin", "middle", "outer", "armour"]
Landmark = Literal["hip", "mid-thigh", "knee", "mid-calf", "ankle", "floor"]
Cut = Literal["wide panels", "shoulder panels"]
Shoulder = Literal["fold", "seam"]
CentreSeam = Literal["none", "front", "back", "both"]
SidePanel = Literal["auto", "whole", "halves"]
GorePlace = Literal["side", "centre-front", "centre-back", "side-front", "side-back", "panel-front", "panel-back"]
GoreStart = Literal["hip", "waist"]
Make = Literal["whole", "halves", "either"]
SleeveShape = Literal["none", "straight", "tapered", "fitted forearm", "wide"]
SleeveLength = Literal["cap", "elbow", "three-quarter", "wrist", "over-hand"]
Cuff = Literal["auto", "hand", "close"]
GussetChoice = Literal["auto", "none"]
NeckShape = Literal["round", "oval", "rectangle", "boat", "keyhole"]
Slit = Literal["auto", "none", "centre", "left", "right"]
SplitPlace = Literal["centre-front", "centre-back", "side"]
SplitHeight = Literal["hip", "crotch", "knee"]
ClosurePlace = Literal["neck slit", "cuffs", "centre-front", "side"]
ClosureBy = Literal["ties", "lacing", "buttons", "loops", "hooks", "pins"]
Finish = Literal["plain", "run and fell", "french", "overcast"]
SewnBy = Literal["hand", "machine"]
TakenUpBy = Literal["deep hem", "tucks"]


@dataclass(frozen=True, slots=True)
class Span:
    """A length the maker leaves open between ``low`` and ``high`` (cm)."""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Body:
    """The trunk. ``ease`` in cm over the largest girth, or None for the layer's usual ease."""

    cut: Cut = "wide panels"
    shoulder: Shoulder = "fold"
    centre_seam: CentreSeam = "none"
    side_panel: SidePanel = "auto"
    ease: float | None = None
    flare: float = 0.0


@dataclass(frozen=True, slots=True)
class Gore:
    """Gores at one place; ``start`` and ``base`` in cm: height above the hem, and width along the hem."""

    place: GorePlace
    start: GoreStart | float = "hip"
    base: float | Span = 40.0
    make: Make = "either"


@dataclass(frozen=True, slots=True)
class Sleeve:
    """A sleeve; a number for ``length`` is the sewn sleeve's own length from armhole to cuff."""

    shape: SleeveShape = "tapered"
    length: SleeveLength | float = "wrist"
    cuff: Cuff | float = "auto"
    gusset: GussetChoice | float = "auto"


@dataclass(frozen=True, slots=True)
class Neck:
    """The neck opening. ``ease`` in cm over the neck or head, or None for the shape's usual ease."""

    shape: NeckShape = "keyhole"
    slit: Slit = "auto"
    ease: float | None = None


@dataclass(frozen=True, slots=True)
class Split:
    """A seam or panel left open from the hem up."""

    place: SplitPlace
    height: SplitHeight | float = "hip"


@dataclass(frozen=True, slots=True)
class Closure:
    """How an opening is closed again."""

    at: ClosurePlace
    by: ClosureBy = "ties"


@dataclass(frozen=True, slots=True)
class Growth:
    """Room for a child to grow into: ``months`` of it, its length taken up until then."""

    months: float = 12.0
    by: TakenUpBy = "deep hem"


@dataclass(frozen=True, slots=True)
class Sewing:
    """Allowances and finish in cm; ``chalk`` is the maker's grid."""

    allowance: float = 1.5
    hem: float = 3.0
    finish: Finish = "run and fell"
    by: SewnBy = "hand"
    chalk: float = 0.5


@dataclass(frozen=True, slots=True)
class Choices:
    """One garment as chosen. ``beneath_mm`` is the thickness of all that is worn under it."""

    style: str
    layer: Layer = "middle"
    length: Landmark | float | Span = "knee"
    body: Body = Body()
    gores: tuple[Gore, ...] = ()
    sleeve: Sleeve = Sleeve()
    neck: Neck = Neck()
    splits: tuple[Split, ...] = ()
    closures: tuple[Closure, ...] = ()
    growth: Growth | None = None
    sewing: Sewing = Sewing()
    beneath_mm: float = 0.0
    date: int | None = None
    region: str | None = None
