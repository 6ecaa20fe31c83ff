"""One step of sewing."""

from __future__ import annotations

from dataclasses import dataclass

from ellwand.geometry.lines import Point
from ellwand.model.draft import EdgeRef
from ellwand.model.stitch import Stitching


@dataclass(frozen=True, slots=True)
class Reinforcement:
    """A place that takes strain, in its piece's coordinates (cm), and what holds it ('bar', 'back stitches')."""

    part: str
    at: Point
    by: str


@dataclass(frozen=True, slots=True)
class Totals:
    """Of a whole garment, least and most: hours of work, metres of thread with its waste."""

    hours: tuple[float, float]
    thread_m: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Step:
    """Step ``n`` joins ``seams`` of ``parts`` and finishes ``edges``, after every step in ``needs``.

    Length in cm, time in minutes, thread in m (the middle of their ranges, which ``rows`` has).  ``parts``: those that
    are worked on, and the applied ones that are sewn on.  ``folds``: where the allowances go ('open', 'the gusset'), ''
    for none; ``seam_iso``: the class of its seam or edge in ISO 4916; ``press``: what the iron does after it.
    ``selvedges``: seams of which both edges may be selvedges, of the whole garment in the first step.  ``trims``: which
    of the adornment's bands, repeats or charges go on, counted from 0.
    """

    n: int
    code: str
    subject: str
    parts: tuple[str, ...]
    seams: tuple[str, ...]
    needs: tuple[int, ...]
    length: float
    minutes_hand: float
    minutes_machine: float
    thread_m: float
    edges: tuple[EdgeRef, ...] = ()
    rows: tuple[Stitching, ...] = ()
    folds: str = ""
    seam_iso: str = ""
    press: str = ""
    reinforce: tuple[Reinforcement, ...] = ()
    selvedges: tuple[str, ...] = ()
    trims: tuple[int, ...] = ()
