"""How far an arm lifts in a sleeve before the cloth under it is taut.

A plane model of two rigid links and cloth that does not stretch.  Trunk and arm are straight lines hinged at the
shoulder S; the arm's root is a circle about S, as big round as the upper arm, whose top touches the shoulder line.
The cloth under the arm meets in one point M: where side seam and underarm seam meet, or the middle of a gusset or of a
side panel's top.  M is held by three lengths of cloth, none of which can be exceeded:

* to the waist W, at the belt: the side seam, and from its top to M;
* to the elbow E on the under edge of the sleeve: the underarm seam, and from its top to M;
* to the shoulder: the loop of armhole and half the breadth under the arm, which goes round the arm's root before it
  hangs.  A loop of half length l about a circle of radius r hangs to h from its middle, where
  √(h² − r²) + r (π − arccos(r / h)) = l  (a string round a circle, drawn tight to a point).

With m = |SM| ≤ h the triangles S-M-W and S-M-E open at S by at most the angles that the law of cosines gives for their
three sides.  So the arm lifts to θ = max over m of (angle in S-M-W + angle in S-M-E) + the angle by which the sleeve's
under edge hangs below the arm.  Cloth drawn up from below the waist lengthens the first length: that is the lift of
the hem.

A gusset takes a off the side seam and b off the underarm seam but gives breadth from armpit to armpit: it pays for the
thickness of the arm, which otherwise draws up the sides as soon as the arm is level.  Overhead, where only the length
from waist to elbow counts, a deep armhole and a large gusset cost length, and the hem rises more.

Angles are degrees from the hanging arm: 90 level, 180 overhead.  What the model leaves out: the shoulder's own slope
and rise, stretch, and the sleeve's riding up the arm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

LEVEL: Final = 90.0
OVERHEAD: Final = 180.0
LITTLE: Final = 1.0
"""A hem that rises by so much (cm) is not noticed: our own figure; with it the gussets come out as makers cut them."""
RISES: Final = 3.0
"""A hem that rises more than this (cm) with the arm level pulls at the armhole: our own figure."""
ELBOW_SHARE: Final = 0.56
"""Where the elbow is as a share of the arm: survey means of shoulder-elbow over shoulder-elbow-wrist (0.563 female,
0.556 male, ANSUR II 2012)."""
RIDES_UP: Final = 4.0
"""A sleeve that ends less than this below the elbow (cm) rides up the arm when it is lifted: common practice."""
STEPS: Final = 200

Row = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Reach:
    """The cloth and the arm, in cm.

    ``half_loop``: half the armhole and half the breadth under the arm; ``waist``: from the shoulder line down to the
    belt; ``to_waist``, ``to_elbow``: cloth from M to waist and elbow; ``arm``: girth of the arm with what is beneath;
    ``elbow``: how far out along the arm the sleeve's elbow lies; ``elbow_half``: half the sleeve's girth there.  A
    sleeve that ends above the elbow rides up freely: then ``to_elbow`` is None.
    """

    half_loop: float
    waist: float
    to_waist: float
    arm: float
    to_elbow: float | None = None
    elbow: float = 0.0
    elbow_half: float = 0.0


def hanging(half_loop: float, radius: float) -> float:
    """How far from a circle's middle (cm) the lowest point of a loop round it hangs; the radius when it is tight."""
    spare = half_loop - math.pi * radius
    if spare <= 0:
        return radius
    # s = √(h² − r²), the straight run: s − r arctan(s / r) = spare by Newton's steps, which come down from above
    straight = spare + radius * math.pi / 2
    while (over := straight - radius * math.atan2(straight, radius) - spare) > 1e-12:
        straight -= over * (1 + (radius / straight) ** 2)
    return math.hypot(radius, straight)


def angle_reached(reach: Reach, lift: float = LITTLE) -> float:
    """How far the arm lifts (degrees) while the hem rises by at most ``lift`` cm; 0: it rises more even then."""
    m, at_arm = _at_arm(reach)
    angles = _corner(m, _trunk(reach), reach.to_waist + lift) + at_arm
    return min(OVERHEAD, math.degrees(np.max(angles, initial=0.0)))


def hem_lift(reach: Reach, angle: float) -> float:
    """How far the hem rises at the side (cm) when the arm lifts to ``angle`` degrees.

    Infinite where the sleeve itself holds the arm below it, however far the hem rises.
    """
    m, at_arm = _at_arm(reach)
    at_trunk = np.maximum(0.0, math.radians(angle) - at_arm)
    m, at_trunk, trunk = m[at_trunk <= math.pi], at_trunk[at_trunk <= math.pi], _trunk(reach)
    # the cloth from M to W with which S-M-W opens so far: the law of cosines
    squares = (m - trunk) ** 2 + 4 * m * trunk * np.sin(at_trunk / 2) ** 2
    return max(0.0, math.sqrt(np.min(squares, initial=math.inf)) - reach.to_waist)


def _trunk(reach: Reach) -> float:
    """From S to W (cm)."""
    return reach.waist - reach.arm / (2 * math.pi)


def _at_arm(reach: Reach) -> tuple[Row, Row]:
    """The lengths m that are tried, and the angle by which the arm lies off S-M with each: −∞ where it cannot."""
    radius = reach.arm / (2 * math.pi)
    m = hanging(reach.half_loop, radius) * np.arange(1, STEPS + 1) / STEPS
    down = hanging(reach.elbow_half, radius)
    arm, droop = math.hypot(reach.elbow, down), math.atan2(down, reach.elbow)
    angles = np.full_like(m, math.pi) if reach.to_elbow is None else _corner(m, arm, reach.to_elbow)
    return m, angles + droop


def _corner(m: Row, bone: float, cloth: float) -> Row:
    """The widest angle between two sides of a triangle whose third is at most ``cloth``; −∞ where none will do."""
    cosine = (m * m + bone * bone - cloth * cloth) / (2 * m * bone)
    return np.where(cosine > 1, -np.inf, np.arccos(np.clip(cosine, -1.0, 1.0)))


def reach_of(
    *,
    armhole: float,
    side_panel: float,
    gusset: tuple[float, float],
    waist: float,
    spare: float,
    arm: float,
    underarm: float | None,
    elbow: float,
    elbow_half: float,
) -> Reach:
    """The cloth under the arm of one garment (cm).

    ``gusset``: its sides along body and sleeve, (0, 0) without; ``spare``: bloused over the belt; ``underarm``: the
    underarm edge from armhole to elbow as if there were no gusset, None for a sleeve that ends above the elbow.
    """
    a, b = gusset
    square = a * a + b * b
    # seen from the armpit, with one side of the gusset along each axis, M is the foot of its fold (a right kite)
    x, y = (a * b * b / square, a * a * b / square) if square else (0.0, 0.0)
    return Reach(
        half_loop=armhole + side_panel / 2 + math.hypot(x, y),
        waist=waist,
        to_waist=_way(waist - armhole, a, x, y) + spare,
        arm=arm,
        to_elbow=None if underarm is None else _way(underarm, b, y, x),
        elbow=elbow,
        elbow_half=elbow_half,
    )


def _way(edge: float, side: float, along: float, across: float) -> float:
    """From a point ``edge`` cm down a seam to M: round the gusset's corner, or over the gusset if it reaches so far."""
    if edge >= side:
        return edge - side + math.hypot(side - along, across)
    return math.hypot(edge - along, across)
