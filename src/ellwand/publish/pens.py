"""The one table from what a line or text is to how it is drawn; safe in black and white."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from ellwand.model.drawing import Role, TextRole


@dataclass(frozen=True, slots=True)
class Pen:
    """``width`` in points, grey levels 0 (black) … 255 (white), dashes in points, fill of closed shapes.

    ``colour``: of line and fill alike, as '#rrggbb', for what is only drawn on screens.
    """

    width: float
    grey: int = 0
    dash: tuple[float, ...] = ()
    fill: int | None = None
    colour: str = ""


PENS: Final[dict[Role, Pen]] = {
    "cut": Pen(1.1, fill=255),
    "sewn": Pen(0.5, 40, (2.4, 1.6)),
    "fold": Pen(0.6, 0, (6.0, 1.8, 1.0, 1.8)),
    "grain": Pen(0.7),
    "dimension": Pen(0.4),
    "leader": Pen(0.4, 40),
    "cloth": Pen(0.8, fill=255),
    "selvedge": Pen(2.2),
    "waste": Pen(0.35, 80),
    "blank": Pen(0.3, 255, fill=255),
    "fault": Pen(0.6, fill=255),
    "stripe": Pen(0.5, 0, (0.6, 2.4)),
    "bound": Pen(0.8, 0, (1.0, 2.0)),
    "garment": Pen(0.5, fill=255),
    "garment back": Pen(0.5, fill=225),
    "outline": Pen(1.0),
    "seam": Pen(0.5, 30),
    "stitching": Pen(0.35, 60, (1.3, 1.0)),
    "fastening": Pen(0.5, fill=255),
    "lace": Pen(0.6),
    "opening": Pen(0.9),
    "mark": Pen(0.9),
    "body": Pen(0.6, 90, fill=232),
    "body line": Pen(0.4, 150),
    "tape": Pen(1.5),
    "trim": Pen(0.7, 0, (5.0, 3.5)),
    "join": Pen(1.0, 0, (0.1, 4.0)),
    "register": Pen(0.7),
    "tear": Pen(1.7, 0, (5.0, 1.5)),
    "piece": Pen(0.8),
    "beneath": Pen(0.6, 60, fill=215),
    "joined": Pen(0.5, 0, (2.6, 1.3)),
    "sew here": Pen(2.6),
    "gathers": Pen(0.9, 0, (1.6, 1.6)),
    "way": Pen(0.9, fill=0),
    "link": Pen(0.6),
    "wrong side": Pen(0.3, 70),
    "layer": Pen(1.3),
    "stitch": Pen(1.0),
    "hatch": Pen(0.35),
    "hatch dot": Pen(0.1, fill=0),
    "charge": Pen(0.9, fill=255),
    "band": Pen(0.7, fill=200),
    "band line": Pen(0.4, 60, (0.6, 1.4)),
    "motif": Pen(0.1, 140, fill=190),
    "or": Pen(0.2, colour="#dbab3c"),
    "argent": Pen(0.2, colour="#f2eee3"),
    "gules": Pen(0.2, colour="#a83a30"),
    "azure": Pen(0.2, colour="#46668f"),
    "sable": Pen(0.2, colour="#4b4744"),
    "vert": Pen(0.2, colour="#5f8049"),
    "purpure": Pen(0.2, colour="#7c4b73"),
    "tenné": Pen(0.2, colour="#b5713a"),
    "sanguine": Pen(0.2, colour="#7d3036"),
}
"""The tinctures' colours are our own choice, as of cloth dyed with weld, madder, woad and walnut."""


@dataclass(frozen=True, slots=True)
class Face:
    """Weight of a lettering; ``halo``: on white, so that it stays readable over lines."""

    bold: bool = False
    italic: bool = False
    halo: bool = False


FACES: Final[dict[TextRole, Face]] = {
    "name": Face(bold=True),
    "dimension": Face(halo=True),
    "edge": Face(italic=True),
    "chalk": Face(halo=True),
    "note": Face(),
    "number": Face(bold=True),
}
