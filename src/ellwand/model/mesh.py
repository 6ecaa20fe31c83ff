"""The sewn garment as triangles, hung on a form, and what is read from it (cm, gf: the weight of a gram).

Axes of what hangs: x to the wearer's right, y forward, z up from the floor.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Reals = NDArray[np.float64]
Counts = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Mesh:
    """Triangles whose corners are welded along all seams.

    ``corners``: of each triangle three points, counter-clockwise seen from outside; ``flat``: where those corners lie
    on their part's cloth (weft, warp; a mirrored part's as it is turned); ``part``: each triangle's part, by its number
    in ``parts``; ``rims``: by the kind of the edge, pairs of points along what is left open; ``seams``: pairs of points
    along what is sewn; ``count``: how many points there are.
    """

    corners: Counts
    flat: Reals
    part: Counts
    parts: tuple[str, ...]
    rims: Mapping[str, Counts]
    seams: Counts
    count: int


@dataclass(frozen=True, slots=True)
class Surface3:
    """Any triangles in space."""

    points: Reals
    corners: Counts


@dataclass(frozen=True, slots=True)
class Hem:
    """The hem as it hangs: directions (degrees from the front over the wearer's left) and heights above the floor."""

    directions: tuple[float, ...]
    heights: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Readings:
    """``girths``: what a tape reads as it is worn (cm); ``over_belt``: how far cloth hangs down over the belt (cm);
    ``pulls``: the part that is stretched most along a thread, ``pull``: by that share."""

    hem: Hem
    folds: int
    girths: Mapping[str, float]
    over_belt: float
    pulls: str
    pull: float


@dataclass(frozen=True, slots=True)
class Hang:
    """A garment at rest on a form.

    ``residual``: the sum of all forces left over, over the weight; ``deepest``: how far the deepest point lies inside
    the form (cm, 0: none); ``stretch``: of each triangle its strains along weft and warp, and its shear.
    """

    mesh: Mesh
    points: Reals
    form: tuple[Surface3, ...]
    residual: float
    steps: int
    deepest: float
    stretch: Reals
    readings: Readings
