"""Garments of their own cut: hood, cloak, coif, apron, breeches. What is chosen, and the sizes it comes to (cm)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from ellwand.model.wearer import Wearer

HoodGores = Literal["squares", "shoulder", "none"]
HoodCut = Literal["folded", "halves"]
CloakShape = Literal["rectangle", "semicircle", "three-quarter"]
CloakNeck = Literal["cut", "straight"]
Strips = Literal["auto", "never"]
CoifCut = Literal["halves", "band"]
ApronTop = Literal["gathered", "plain"]
BreechesWaist = Literal["casing", "band"]
LowLandmark = Literal["knee", "mid-calf", "ankle"]
CloakLandmark = Literal["hip", "mid-thigh", "knee", "mid-calf", "ankle", "floor"]


@dataclass(frozen=True, slots=True)
class Hood:
    """A hood (cm). ``cape`` is how far it hangs below the neck; None: as it comes from the wearer."""

    gores: HoodGores = "squares"
    cut: HoodCut = "folded"
    cape: float = 25.0
    gore: float | None = None
    ease: float = 2.0
    liripipe: float = 0.0
    liripipe_width: float = 4.0


@dataclass(frozen=True, slots=True)
class Cloak:
    """A cloak (cm). ``strip`` is the widest strip that can be cut, or None: never pieced."""

    shape: CloakShape = "semicircle"
    length: CloakLandmark | float = "mid-calf"
    neck: CloakNeck = "cut"
    width: float | None = None
    strip: float | None = None


@dataclass(frozen=True, slots=True)
class Coif:
    """A close cap (cm); ``ease`` over the head."""

    cut: CoifCut = "halves"
    ease: float = 2.0


@dataclass(frozen=True, slots=True)
class Apron:
    """An apron from the waist down (cm)."""

    top: ApronTop = "gathered"
    length: LowLandmark | float = "mid-calf"
    width: float | None = None


@dataclass(frozen=True, slots=True)
class Breeches:
    """Breeches of two straight legs (cm); ``hem``: the girth of each leg below, None: as wide as above."""

    length: LowLandmark | float = "mid-calf"
    ease: float = 16.0
    gusset: float = 12.0
    hem: float | None = None
    waist: BreechesWaist = "casing"


Other = Hood | Cloak | Coif | Apron | Breeches


@dataclass(frozen=True, slots=True)
class HoodSize:
    """``width``: of one side, ``height`` from crown to hem, ``face``: of one side from the crown down.

    ``neck``: girth at the neck; ``hem``: girth level with the straight lower edges; ``gore``: side of a square or
    hem of a triangle, 0 without.
    """

    grid: float
    width: float
    height: float
    cape: float
    face: float
    gore: float
    neck: float
    hem: float


@dataclass(frozen=True, slots=True)
class CloakSize:
    """``length``: neck to hem at the centre back; ``inner``, ``outer``: radii, 0 for a rectangle.

    ``neck``: length of the neck edge; ``sweep``: of the hem; ``strips``: widths as sewn from the front edge inward
    (a three-quarter circle: of its half circle), ``angle`` in degrees, 0 for a rectangle.
    """

    grid: float
    length: float
    width: float
    angle: float
    inner: float
    outer: float
    neck: float
    sweep: float
    strips: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class CoifSize:
    """``width``: of one half from face to back, ``height``: crown to lower edge, ``curve``: radius at the back.

    ``band``: width of the middle band, 0 without; ``over``: length from brow over the crown to the nape.
    """

    grid: float
    width: float
    height: float
    curve: float
    band: float
    over: float


@dataclass(frozen=True, slots=True)
class ApronSize:
    """``band``: length of the band (0 without), ``width`` and ``length`` of the cloth below."""

    grid: float
    width: float
    length: float
    band: float


@dataclass(frozen=True, slots=True)
class BreechesSize:
    """``leg``: girth of one leg above, ``hem``: below; ``length`` from waist to hem; ``rise``: waist to gusset.

    ``band``: length of the waistband, ``slit``: of the opening in front below it; 0 with a casing.
    """

    grid: float
    leg: float
    hem: float
    length: float
    rise: float
    gusset: float
    inside: float
    band: float
    slit: float


OtherSize = HoodSize | CloakSize | CoifSize | ApronSize | BreechesSize

KINDS: Final = ("hood", "cloak", "coif", "apron", "breeches")
"""The styles that have a table of their own, by its name."""


def kind_of(other: Other) -> str:
    """Its name, as in KINDS."""
    return type(other).__name__.lower()


SHOULDER_DROP: Final = 18.0
"""From the neck base down to where the shoulders and arms are widest round (cm): common practice, no source."""
BETWEEN_THE_LEGS: Final = 0.34
"""What the way between the legs is longer than twice waist to crotch, as a share of the hip's girth: common practice,
no source."""


def round_shoulders(wearer: Wearer, down: float) -> float:
    """The girth (cm) round shoulders and arms, ``down`` cm below the neck base: straight between the two measured."""
    share = min(1.0, max(0.0, down / SHOULDER_DROP))
    return wearer["neck_base_girth"] + (wearer["shoulder_girth"] - wearer["neck_base_girth"]) * share


def crotch_path(wearer: Wearer) -> float:
    """The way (cm) from the front of the waist between the legs to its back."""
    return 2 * (wearer["waist_to_floor"] - wearer["crotch_to_floor"]) + BETWEEN_THE_LEGS * wearer["hip_girth"]
