"""Seams and edges cut across: each layer of cloth a line, each row of stitches a short bar through it.

The inside of the garment is above.  Sizes are cm on paper and show the order of the layers, not their measure.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.geometry.lines import Line
from ellwand.language import N_, _
from ellwand.model.drawing import Drawing, Label, Stroke

Rows = tuple[Line, ...]
SIZE: Final = 8.0
"""Of the lettering, in points."""


def _up(x: float, low: float, high: float) -> Line:
    return ((x, low), (x, high))


def _level(y: float, left: float, right: float) -> Line:
    return ((left, y), (right, y))


_OPEN: Final[Rows] = (
    ((-1.2, 0.0), (-0.05, 0.0), (-0.05, 0.13), (-0.6, 0.13)),
    ((1.2, 0.0), (0.05, 0.0), (0.05, 0.13), (0.6, 0.13)),
)
_SEAM: Final = _level(0.065, -0.14, 0.14)
_FELLED: Final[Rows] = (
    ((-1.2, 0.0), (-0.05, 0.0), (-0.05, 0.12), (-0.4, 0.12)),
    ((1.2, 0.0), (0.05, 0.0), (0.05, 0.34), (-0.72, 0.34), (-0.72, 0.22), (-0.3, 0.22)),
)
_FRENCH: Final[Rows] = (
    ((-1.2, 0.0), (-0.16, 0.0), (-0.16, 0.62), (-0.05, 0.62), (-0.05, 0.3)),
    ((1.2, 0.0), (0.16, 0.0), (0.16, 0.62), (0.05, 0.62), (0.05, 0.3)),
)
_FLAT: Final[Rows] = (
    ((-1.2, 0.0), (0.36, 0.0), (0.36, 0.12), (-0.22, 0.12)),
    ((1.2, 0.24), (-0.36, 0.24), (-0.36, 0.06), (-0.3, 0.06)),
)
_WHIPPED: Final[Rows] = tuple(
    line for x in (-0.6, 0.6) for line in (((x - 0.09, 0.05), (x + 0.09, 0.22)), ((x - 0.09, 0.22), (x + 0.09, 0.05)))
)
_TWICE: Final[Line] = ((-1.2, 0.0), (0.9, 0.0), (0.9, 0.26), (-0.1, 0.26), (-0.1, 0.13), (0.5, 0.13))

SEAMS: Final[Mapping[str, tuple[Rows, Rows]]] = {
    "plain": (_OPEN, (_SEAM,)),
    "overcast": (_OPEN, (_SEAM, *_WHIPPED)),
    "open and stitched down": (_OPEN, (_SEAM, _up(-0.38, -0.08, 0.21), _up(0.38, -0.08, 0.21))),
    "run and fell": (_FELLED, (_SEAM, _up(-0.62, -0.08, 0.42))),
    "french": (_FRENCH, (_level(0.54, -0.22, 0.22), _level(0.12, -0.24, 0.24))),
    "flat-felled": (_FLAT, (_up(-0.26, -0.08, 0.32), _up(0.26, -0.08, 0.32))),
}
"""Finish -> its layers and its rows of stitches."""
EDGES: Final[Mapping[str, tuple[Rows, Rows]]] = {
    "turned twice": ((_TWICE,), (_up(0.0, -0.08, 0.34),)),
    "faced": (
        (
            ((-1.2, 0.0), (0.9, 0.0), (0.9, 0.12), (0.45, 0.12)),
            ((0.45, 0.22), (0.82, 0.22), (0.82, 0.36), (-0.4, 0.36), (-0.4, 0.24), (0.0, 0.24)),
        ),
        (_up(0.64, 0.05, 0.29), _up(-0.3, -0.08, 0.44)),
    ),
    "casing with its cord": (
        (
            ((-1.2, 0.0), (0.9, 0.0), (0.9, 0.42), (-0.3, 0.42), (-0.3, 0.13), (-0.05, 0.13)),
            ((0.4, 0.1), (0.52, 0.1), (0.58, 0.21), (0.52, 0.32), (0.4, 0.32), (0.34, 0.21), (0.4, 0.1)),
        ),
        (_up(-0.18, -0.08, 0.5),),
    ),
    "tuck": (
        (((-1.2, 0.0), (-0.06, 0.0), (-0.06, 0.55), (0.06, 0.55), (0.06, 0.0), (1.2, 0.0)),),
        (_level(0.1, -0.16, 0.16),),
    ),
    "hem turned up again": (
        (((-1.2, 0.0), (0.95, 0.0), (0.95, 0.4), (-0.5, 0.4), (-0.5, 0.14), (0.55, 0.14), (0.55, 0.26), (-0.1, 0.26)),),
        (_up(-0.38, -0.08, 0.48),),
    ),
    "band over the gathers": (
        (
            ((-1.2, 0.17), (-1.0, 0.21), (-0.8, 0.14), (-0.6, 0.21), (-0.4, 0.14), (-0.2, 0.19), (0.1, 0.17)),
            (
                (0.1, 0.08),
                (-0.3, 0.08),
                (-0.3, -0.04),
                (0.9, -0.04),
                (0.9, 0.4),
                (-0.3, 0.4),
                (-0.3, 0.28),
                (0.1, 0.28),
            ),
        ),
        (_up(-0.1, -0.12, 0.48),),
    ),
}
"""What is done to an edge -> its layers and its rows of stitches."""


NAMES: Final = (
    N_("band over the gathers"),
    N_("casing with its cord"),
    N_("faced"),
    N_("hem turned up again"),
    N_("tuck"),
    N_("turned twice"),
)
"""What each of EDGES is called; finishes of seams have their names where their words are."""


def section(name: str, caption: str = "") -> Drawing:
    """A seam or an edge cut across, with its name (or ``caption``) below.

    Raises KeyError for one that is neither in SEAMS nor in EDGES.
    """
    layers, rows = SEAMS[name] if name in SEAMS else EDGES[name]
    strokes = [Stroke("layer", line) for line in layers] + [Stroke("stitch", line) for line in rows]
    top = max(y for line in layers for _, y in line)
    labels = [
        Label("note", _("inside"), (-1.2, top + 0.28), "start", SIZE - 0.5),
        Label("note", _("outside"), (-1.2, -0.28), "start", SIZE - 0.5),
        Label("name", caption or _(name), (0.0, -0.68), "middle", SIZE),
    ]
    return Drawing(tuple(strokes), tuple(labels))
