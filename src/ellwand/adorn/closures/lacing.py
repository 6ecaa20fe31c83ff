"""How long a lace must be.

The eyelets lie in two rows, the distance between the rows as worn (``gap``) is twice their inset where the edges
meet.  Cloth is taken as thin.  All lengths in cm, without the ends left to tie.
"""

from __future__ import annotations

import math

from ellwand.model.choices import Lacing


def rows(lacing: Lacing, count: int, pitch: float) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Where the eyelets sit on each edge, from the first: ``count`` on the one.

    Spiral: the other row is half a pitch lower, but for level eyelets at the top and bottom (so one more there).
    """
    one = tuple(i * pitch for i in range(count))
    if lacing != "spiral":
        return one, one
    between = tuple((i + 0.5) * pitch for i in range(count - 1))
    return one, (0.0, *between, one[-1])


def lace_length(lacing: Lacing, count: int, pitch: float, gap: float) -> float:
    """The lace's path through ``count`` eyelets on the one edge, ``pitch`` apart.

    With n eyelets, pitch p and gap w, from the geometry of each way:
    spiral (one end; level pairs at top and bottom): 2 w + 2 (n − 1) √(w² + (p/2)²);
    crossed (two ends): w + 2 (n − 1) √(w² + p²);
    ladder (one end; a bar at each pair, then down one edge): n w + (n − 1) p.
    """
    if lacing == "spiral":
        return 2 * gap + 2 * (count - 1) * math.hypot(gap, pitch / 2)
    if lacing == "crossed":
        return gap + 2 * (count - 1) * math.hypot(gap, pitch)
    return count * gap + (count - 1) * pitch
