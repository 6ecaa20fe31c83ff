"""How the search's inner functions are compiled, and the tables that they read."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, TypeVar

import numpy as np
from numba import njit
from numpy.typing import NDArray

from ellwand.lay.search.kept import forget_old

Reals = NDArray[np.float64]
Counts = NDArray[np.int64]
Work = TypeVar("Work", bound=Callable[..., object])

forget_old()


def compiled(work: Work) -> Work:
    """The function as machine code, kept on disk between runs; other threads go on while it works."""
    done: Work = njit(work, cache=True, nogil=True, error_model="numpy")
    return done


class Sums(NamedTuple):
    """Where one pose may not have its least corner while another lies with its own at (0, 0).

    Pair ``lying * poses + coming`` has the convex outlines ``outlines[pair]`` to ``outlines[pair + 1]``, each with
    its box and its edges (outward normal x, y, and the offset along it), and the ``tracks`` that bound their union.
    """

    outlines: Counts
    edges: Counts
    box: Reals
    edge: Reals
    tracks: Counts
    track: Reals


class Poses(NamedTuple):
    """Each pose's width and height, least and greatest x, mark (1 if any, x, y), share of the whole area."""

    size: Reals
    reach: Reals
    mark: Reals
    share: Reals


class Ground(NamedTuple):
    """What all lays of a task have in common.

    ``faults``: how many outlines lie before the first piece; ``highest``: their highest corner; ``length``:
    infinite on a strip; ``repeat``: across, along, and where it starts; ``pull``: for each rule how much x and y
    count; ``starts``: each kind's first pose; ``drag``: what the mean height of the pieces counts against the
    length; ``miss``: what leaving out everything would count (infinite where all must lie).
    """

    faults: int
    highest: float
    length: float
    repeat: Reals
    pull: Reals
    starts: Counts
    drag: float
    miss: float


class Lying(NamedTuple):
    """What lies where: pose and least corner of each, faults first."""

    pose: Counts
    x: Reals
    y: Reals
