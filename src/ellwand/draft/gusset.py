"""The gusset: a square of cloth between sleeve and body, whole, in two triangles, or drawn out into a diamond.

Its corners are the front armpit, the top of the side seam, the back armpit and the top of the underarm seam.  Two
sides lie along the body (a), two along the sleeve (b), and the corners at the armpits are right angles: so, folded
from side seam to underarm seam, it fills the corner between body and sleeve exactly.  Square: a = b.  Diamond: a kite,
a = 1.5 b, longer down the side where the cloth has to give.  A rhombus cannot do that: its sides are equal.
Fold = √(a² + b²), breadth from armpit to armpit = 2ab / fold, area = ab (plane geometry of a right kite).

Triangles are the square cut along that fold.  Each is set in while sleeve and body lie flat; the seam that joins them
carries the underarm seam on into the side seam, so that all three are sewn in one run.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from ellwand.draft.blank import Blank, Run
from ellwand.draft.size import beneath
from ellwand.geometry.lines import Point
from ellwand.geometry.reach import LEVEL, LITTLE, RIDES_UP, RISES, angle_reached, reach_of
from ellwand.model.choices import Choices, GussetShape
from ellwand.model.wearer import Wearer
from ellwand.units import round_up

DRAWN_OUT: Final = 1.5
"""A diamond's sides along the body over those along the sleeve: common practice, no source."""
SMALLEST_GUSSET: Final = 6.0
"""A smaller gusset is not worth sewing (cm): common practice, no source."""
NEARLY: Final = 0.25
"""A larger gusset must lift the arm by more than this (degrees) to be worth its cloth: our own figure."""
LARGEST_GUSSET_SHARE: Final = 0.4
"""A gusset's side as a share of the upper arm's girth, at most: 12 cm on an arm of 30. Makers cut 8 to 12 (Thursfield,
The Medieval Tailor's Assistant, 2001)."""


@dataclass(frozen=True, slots=True)
class Kite:
    """A gusset's numbers (cm)."""

    body: float
    sleeve: float

    @property
    def fold(self) -> float:
        """From the top of the side seam to the top of the underarm seam."""
        return math.hypot(self.body, self.sleeve)

    @property
    def breadth(self) -> float:
        """From armpit to armpit."""
        return 2 * self.area / self.fold if self.fold else 0.0

    @property
    def area(self) -> float:
        """In cm²."""
        return self.body * self.sleeve


def kite_of(shape: GussetShape, side: float) -> Kite:
    """The gusset of this shape whose sides along the sleeve are ``side`` cm."""
    return Kite(side * DRAWN_OUT if shape == "diamond" else side, side)


def arm_lifts(
    choices: Choices,
    wearer: Wearer,
    armhole: float,
    side_panel: float,
    length: float,
    elbow_height: float,
    high: float,
    top: float,
    at_elbow: float,
) -> Callable[[float, float], float]:
    """How far the arm lifts (degrees) with a gusset of a side along the sleeve, while the hem rises so far (cm)."""
    out = length - elbow_height
    rides = elbow_height < RIDES_UP or out < RIDES_UP
    underarm = math.hypot(max(high - elbow_height, 0.0), (top - at_elbow) / 2)

    def angle(side: float, lift: float) -> float:
        kite = kite_of(choices.sleeve.gusset_shape, side)
        return angle_reached(
            reach_of(
                armhole=armhole,
                side_panel=side_panel,
                gusset=(kite.body, kite.sleeve),
                waist=wearer["nape_to_floor"] - wearer["waist_to_floor"],
                spare=choices.blouse,
                arm=wearer["upper_arm_girth"] + beneath(choices),
                underarm=None if rides else underarm,
                elbow=max(out, 0.0),
                elbow_half=at_elbow / 2,
            ),
            lift,
        )

    return angle


def gusset_side(choices: Choices, wearer: Wearer, grid: float, angle: Callable[[float, float], float]) -> float:
    """The side of the gusset along the sleeve (cm).

    By itself: the smallest with which the arm lifts level, or else the smallest with which it lifts as far as it can,
    but for NEARLY; where the hem rises even for the hanging arm, it may rise a little more.
    """
    chosen = choices.sleeve.gusset
    if isinstance(chosen, float):
        return round_up(chosen, grid)
    if chosen == "none" or angle(0.0, LITTLE) >= LEVEL:
        return 0.0
    least, most = round_up(SMALLEST_GUSSET, grid), LARGEST_GUSSET_SHARE * wearer["upper_arm_girth"]
    sides = [least + grid * i for i in range(max(0, int((most - least) / grid)) + 1)]
    for lift in (LITTLE, RISES, 2 * RISES):
        angles = [angle(side, lift) for side in sides]
        furthest = max(angles)
        if furthest > angle(0.0, lift):
            wanted = LEVEL if furthest >= LEVEL else furthest - NEARLY
            return next(side for side, each in zip(sides, angles, strict=True) if each >= wanted)
    return 0.0


def gusset_pieces(shape: GussetShape, kite: Kite, allowance: float) -> dict[str, Blank]:
    """By the face they lie on ('' for both): the pieces of a gusset, for the wearer's left."""
    if shape == "triangles":
        return {"front": _triangle(kite.body, allowance), "back": _triangle(kite.body, allowance)}
    a, b, fold = kite.body, kite.sleeve, kite.fold
    if shape == "square":
        corners: list[Point] = [(0.0, 0.0), (a, 0.0), (a, a), (0.0, a)]
    else:
        # upright: the top of the side seam below, that of the underarm seam above
        x, y = a * b / fold, a * a / fold
        corners = [(-x, y), (0.0, 0.0), (x, y), (0.0, fold)]
    names = ["body-front", "body-back", "sleeve-back", "sleeve-front"]
    ring = [
        Run(name, "gusset", (p, q), allowance)
        for name, p, q in zip(names, corners, [*corners[1:], corners[0]], strict=True)
    ]
    return {"": Blank("gusset", "gusset", tuple(ring), small=True)}


def _triangle(side: float, allowance: float) -> Blank:
    """Half a square: the right angle at the armpit; its edges are the body's, the long one and the sleeve's."""
    armpit, seam, arm = (0.0, 0.0), (side, 0.0), (0.0, side)
    ring = (
        Run("body", "gusset", (armpit, seam), allowance),
        Run("long", "gusset seam", (seam, arm), allowance),
        Run("sleeve", "gusset", (arm, armpit), allowance),
    )
    return Blank("half gusset", "gusset", ring, small=True)
