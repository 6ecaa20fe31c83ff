"""What the maker chose, in centimetres; still symbolic where it depends on the wearer."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from ellwand.model.band import BandChoice
from ellwand.model.heraldry import ChargeChoice, Division
from ellwand.model.others import Other
from ellwand.model.repeat import RepeatChoice

Layer = Literal["skin", "middle", "outer", "armour"]
Landmark = Literal["hip", "mid-thigh", "knee", "mid-calf", "ankle", "floor"]
Cut = Literal["wide panels", "shoulder panels"]
Shoulder = Literal["fold", "seam", "either"]
CentreSeam = Literal["none", "front", "back", "both", "either"]
SidePanel = Literal["auto", "whole", "halves"]
GorePlace = Literal["side", "centre-front", "centre-back", "side-front", "side-back", "panel-front", "panel-back"]
GoreStart = Literal["hip", "waist"]
Make = Literal["whole", "halves", "either", "pieced"]
GoreHem = Literal["arc", "straight"]
Pieced = Literal["auto", "never", "freely"]
SleeveShape = Literal["none", "straight", "tapered", "fitted forearm", "wide"]
SleeveLength = Literal["cap", "elbow", "three-quarter", "wrist", "over-hand"]
Cuff = Literal["auto", "hand", "close"]
GussetChoice = Literal["auto", "none"]
GussetShape = Literal["square", "triangles", "diamond", "either"]
SleevePieces = Literal["auto", "one", "two"]
SleeveSeam = Literal["under", "back"]
SleeveHead = Literal["straight", "shaped"]
NeckShape = Literal["round", "oval", "rectangle", "square", "V", "boat", "keyhole"]
BackNeck = Literal["round", "pointed"]
Slit = Literal["auto", "none", "centre", "left", "right", "back"]
ShoulderOpening = Literal["none", "shoulder left", "shoulder right", "both shoulders"]
NeckFacing = Literal["none", "strip", "shaped"]
SplitFacing = Literal["none", "strip"]
SplitPlace = Literal["centre-front", "centre-back", "side"]
SplitHeight = Literal["hip", "crotch", "knee"]
ClosurePlace = Literal["neck slit", "cuffs", "centre-front", "centre-back", "side", "shoulder"]
OpensTo = Literal["auto", "hem", "hip", "waist"]
ClosureBy = Literal["ties", "lacing", "buttons", "loops", "hooks", "pins"]
Lacing = Literal["spiral", "ladder", "crossed"]
Lap = Literal["edge to edge", "overlap"]
Buttons = Literal["bought", "cloth"]
Finish = Literal["plain", "run and fell", "flat-felled", "french", "overcast", "open and stitched down"]
SewnBy = Literal["hand", "machine"]
SleevesSewn = Literal["flat", "in the round"]
GussetsSewn = Literal["in the corner", "on the sleeve", "on the body"]
MachineStitch = Literal["lockstitch", "chain", "double chain"]
Neaten = Literal["zigzag", "overedge"]
TakenUpBy = Literal["deep hem", "tucks"]
Take = Literal["least cloth", "balanced", "fullest"]


@dataclass(frozen=True, slots=True)
class Span:
    """A length the maker leaves open between ``low`` and ``high`` (cm)."""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Body:
    """The trunk (cm). ``ease`` over the largest girth, or None for the layer's usual ease.

    ``pieced``: a number is the widest that any panel, gore or sleeve is cut in one piece; ``back_longer``: how far the
    back's hem hangs below the front's; ``shoulder_slope``: how far the shoulder point lies below the neck point.
    """

    cut: Cut = "wide panels"
    shoulder: Shoulder = "fold"
    centre_seam: CentreSeam = "none"
    side_panel: SidePanel = "auto"
    ease: float | None = None
    flare: float = 0.0
    pieced: Pieced | float = "auto"
    back_longer: float = 0.0
    shoulder_slope: float = 0.0


@dataclass(frozen=True, slots=True)
class Gore:
    """Gores at one place; ``start`` and ``base`` in cm: height above the hem, and width along the hem.

    ``top``: the width (cm) of a blunt upper end, 0 for a point; ``hem``: the base swung as an arc, or straight.
    """

    place: GorePlace
    start: GoreStart | float = "hip"
    base: float | Span = 40.0
    make: Make = "either"
    top: float = 0.0
    hem: GoreHem = "arc"


@dataclass(frozen=True, slots=True)
class Sleeve:
    """A sleeve; a number for ``length`` is the sewn sleeve's own length from armhole to cuff.

    In cm: ``head_ease``, how much longer a shaped head is than its armhole; ``drop``, how much lower the opening hangs
    at the underarm; ``elbow_gore``, the width of a gore from elbow to cuff.
    """

    shape: SleeveShape = "tapered"
    length: SleeveLength | float = "wrist"
    cuff: Cuff | float = "auto"
    gusset: GussetChoice | float = "auto"
    gusset_shape: GussetShape = "square"
    pieces: SleevePieces = "auto"
    seam: SleeveSeam = "under"
    head: SleeveHead = "straight"
    head_ease: float = 0.0
    drop: float = 0.0
    elbow_gore: float = 0.0


@dataclass(frozen=True, slots=True)
class Neck:
    """The neck opening (cm). ``ease`` over the neck or head, and the drops, are None for the shape's usual ones.

    ``back`` shapes a V; ``collar`` is the height of a band, 0 without.
    """

    shape: NeckShape = "keyhole"
    slit: Slit = "auto"
    ease: float | None = None
    front_drop: float | None = None
    back_drop: float | None = None
    back: BackNeck = "round"
    opening: ShoulderOpening = "none"
    facing: NeckFacing = "none"
    facing_width: float = 4.0
    collar: float = 0.0


@dataclass(frozen=True, slots=True)
class Split:
    """A seam or panel left open from the hem up."""

    place: SplitPlace
    height: SplitHeight | float = "hip"
    facing: SplitFacing = "none"


@dataclass(frozen=True, slots=True)
class Closure:
    """How an opening is closed again; ``spacing`` and ``overlap`` in cm, None for the usual ones.

    ``to``: how far down a centre opens: a front to the hem, a back to the hip, unless told otherwise.  ``size``: how
    wide a button or toggle is, None for the usual one; ``buttons``: bought, or made of circles of cloth.
    """

    at: ClosurePlace
    by: ClosureBy = "ties"
    spacing: float | None = None
    lacing: Lacing = "spiral"
    lap: Lap = "edge to edge"
    overlap: float | None = None
    to: OpensTo = "auto"
    size: float | None = None
    buttons: Buttons = "bought"


@dataclass(frozen=True, slots=True)
class Growth:
    """Room for a child to grow into: ``months`` of it, its length taken up until then."""

    months: float = 12.0
    by: TakenUpBy = "deep hem"


@dataclass(frozen=True, slots=True)
class Timed:
    """One seam that the maker sewed with a watch: ``length`` in cm, and the ``minutes`` it took."""

    length: float
    minutes: float


@dataclass(frozen=True, slots=True)
class Sewing:
    """Allowances and finish in cm; ``chalk`` is the maker's grid.

    ``stitch``: the length of a stitch, None for the usual one.  ``machine``: the stitch that it makes, ``neaten``: what
    it goes over raw edges with; ``overedge_constant``: a term of that stitch's thread, None for all that it may be.
    ``timed``: how fast the maker sews that way.  ``sleeves``: sewn on while all lies flat, or closed first and set into
    closed armholes; ``gussets``: set into the corner that sleeve and body make, or first to one of the two.
    ``large_type``: the card is printed for who does not read small letters.
    """

    allowance: float = 1.5
    hem: float = 3.0
    finish: Finish = "run and fell"
    by: SewnBy = "hand"
    chalk: float = 0.5
    stitch: float | None = None
    machine: MachineStitch = "lockstitch"
    neaten: Neaten = "zigzag"
    overedge_constant: float | None = None
    timed: Timed | None = None
    sleeves: SleevesSewn = "flat"
    gussets: GussetsSewn = "in the corner"
    large_type: bool = False


@dataclass(frozen=True, slots=True)
class Choices:
    """One garment as chosen. ``beneath_mm`` is the thickness of all that is worn under it.

    ``blouse``: length (cm) given back to what a belt draws up; ``belt``: the level or height (cm) of one when hung;
    ``train``: how far (cm) the back trails on the floor.
    ``take``: where in its ranges the garment is settled.
    ``other``: a hood, cloak, coif, apron or breeches; then what is said of a tunic stays unused.
    """

    style: str
    layer: Layer = "middle"
    length: Landmark | float | Span = "knee"
    take: Take = "balanced"
    blouse: float = 0.0
    belt: str | float = "none"
    train: float = 0.0
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
    other: Other | None = None
    division: Division | None = None
    charges: tuple[ChargeChoice, ...] = ()
    bands: tuple[BandChoice, ...] = ()
    repeats: tuple[RepeatChoice, ...] = ()


def plainest(choices: Choices) -> Choices:
    """The choices with what was left open settled as the plainest garment has it: fewest seams, or as others need it.

    Gores and sleeves stay open: they are whole where the seam they are set in, or the cloth, lets them be.
    """
    body, sleeve = choices.body, choices.sleeve
    if "either" not in (body.shoulder, body.centre_seam, sleeve.gusset_shape):
        return choices
    if body.shoulder == "either":
        shaped = body.cut == "wide panels" and sleeve.shape != "none" and sleeve.head == "shaped"
        seam = body.shoulder_slope > 0 or shaped or choices.neck.opening != "none"
        body = replace(body, shoulder="seam" if seam else "fold")
    if body.centre_seam == "either":
        body = replace(body, centre_seam="none")
    if sleeve.gusset_shape == "either":
        sleeve = replace(sleeve, gusset_shape="square")
    return replace(choices, body=body, sleeve=sleeve)


def girth_over(thickness_mm: float) -> float:
    """Extra girth (cm) over something that thick: 2π × thickness (a circle grown by that thickness)."""
    return 2 * math.pi * thickness_mm / 10
