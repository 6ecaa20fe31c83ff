"""Thread and time for a length of stitching.

Thread per length of seam, S stitches per cm and T the seam's thickness in cm:
hand running stitch 1 + T·S and hand back stitch 3 + 2·T·S (from the thread's own path), lockstitch (ISO 4915, 301)
2 + 2·T·S (textile trade handbooks), hem or fell stitch of bite b and pitch p (2·√(b² + (p/2)²) + 2·T) / p (path).
Waste of 10 to 15 % is usual in the trade; 12 % is taken.
Time by hand: 23 stitches a minute on fine linen, as counted in a sewing-machine maker's test of 1861 (quoted in
Cooper, The Invention of the Sewing Machine).
"""

from __future__ import annotations

import math
from typing import Final

WASTE: Final = 0.12
HAND_RATE: Final = 23.0
"""Stitches a minute."""
HAND_STITCH: Final = 0.3
"""Length of a hand stitch (cm): finds have 2 to 4 mm (Crowfoot, Pritchard and Staniland on London)."""
MACHINE_STITCH: Final = 0.25
"""Length of a machine stitch (cm): common practice, no source."""
MACHINE_RATE: Final = 600.0
"""Stitches a minute of a careful home machinist: common practice, no source."""
HANDLING: Final = 1.5
"""Minutes to pin, turn and end each seam: common practice, no source."""
THICKNESS: Final = 0.12
"""Two layers of medium cloth (cm): common practice, no source."""
BITE: Final = 0.2
"""How far a fell stitch reaches in (cm): common practice, no source."""


def running(thickness: float, per_cm: float) -> float:
    """Thread over seam of a hand running stitch."""
    return 1 + thickness * per_cm


def back_stitch(thickness: float, per_cm: float) -> float:
    """Thread over seam of a hand back stitch, and of a chain stitch (ISO 4915, 101)."""
    return 3 + 2 * thickness * per_cm


def lockstitch(thickness: float, per_cm: float) -> float:
    """Thread over seam of a machine lockstitch (ISO 4915, 301)."""
    return 2 + 2 * thickness * per_cm


def fell(thickness: float, pitch: float, bite: float = BITE) -> float:
    """Thread over seam of a hem, fell or overcast stitch."""
    return (2 * math.hypot(bite, pitch / 2) + 2 * thickness) / pitch


def hand_minutes(rows_cm: float, stitch: float = HAND_STITCH) -> float:
    """Minutes to sew ``rows_cm`` of stitching by hand."""
    return rows_cm / stitch / HAND_RATE


def machine_minutes(rows_cm: float, seams: int) -> float:
    """Minutes to sew ``rows_cm`` of stitching by machine, with the handling of ``seams`` seams."""
    return rows_cm / MACHINE_STITCH / MACHINE_RATE + seams * HANDLING


ROWS: Final = {"plain": (1, 0), "run and fell": (1, 1), "french": (2, 0), "overcast": (1, 2)}
"""Finish -> rows of seam stitching, rows of felling or overcasting."""


STRESSED: Final = frozenset({"armhole", "gusset"})
"""Kinds of seam sewn in back stitch by hand: finds keep it for stressed places (Crowfoot, Pritchard and Staniland)."""


def seam_thread(length: float, kind: str, finish: str, by: str) -> float:
    """Metres of thread for ``length`` cm of a seam of that kind with its finish, waste included."""
    rows, fells = ROWS[finish]
    if by == "machine":
        ratio = (rows + fells) * lockstitch(THICKNESS, 1 / MACHINE_STITCH)
    else:
        row = back_stitch if kind in STRESSED else running
        ratio = rows * row(THICKNESS, 1 / HAND_STITCH) + fells * fell(THICKNESS, HAND_STITCH)
    return length * ratio * (1 + WASTE) / 100


def edge_thread(length: float, by: str) -> float:
    """Metres of thread to hem ``length`` cm of edge, waste included."""
    ratio = lockstitch(THICKNESS, 1 / MACHINE_STITCH) if by == "machine" else fell(THICKNESS, HAND_STITCH)
    return length * ratio * (1 + WASTE) / 100
