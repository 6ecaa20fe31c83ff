"""One step of sewing."""

from __future__ import annotations

from dataclasses import dataclass

from ellwand.geometry.lines import Point
from ellwand.model.draft import EdgeRef
from ellwand.model.stitch import Stitching


@dataclass(frozen=True, slots=True)
class Reinforcement:
    """A place that takes strain, in its piece's coordinates (cm), and what holds it ('bar', 'patch')."""

    part: str
    at: Point
    by: str


@dataclass(frozen=True, slots=True)
class Step:
    """Step ``n`` joins ``seams`` of ``parts`` and finishes ``edges``, after every step in ``needs``.

    Length in cm, time in minutes, thread in m (the middle of their ranges, which ``rows`` has).  ``folds``: where the
    allowances go, '' for none; ``seam_iso``: the seam's class in ISO 4916; ``press``: what the iron does after it.
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
