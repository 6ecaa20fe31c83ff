"""The one table from what a line or text is to how it is drawn; safe in black and white."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from ellwand.model.drawing import Role, TextRole


@dataclass(frozen=True, slots=True)
class Pen:
    """``width`` in points, grey levels 0 (black) … 255 (white), dashes in points, fill of closed shapes."""

    width: float
    grey: int = 0
    dash: tuple[float, ...] = ()
    fill: int | None = None


PENS: Final[dict[Role, Pen]] = {
    "cut": Pen(1.1, fill=255),
    "sewn": Pen(0.5, 40, (2.4, 1.6)),
    "fold": Pen(0.6, 0, (6.0, 1.8, 1.0, 1.8)),
    "grain": Pen(0.7),
    "dimension": Pen(0.4),
    "leader": Pen(0.3, 60),
    "cloth": Pen(0.8, fill=255),
    "selvedge": Pen(2.2),
    "waste": Pen(0.35, 80),
    "blank": Pen(0.3, 255, fill=255),
    "fault": Pen(0.6, fill=255),
    "stripe": Pen(0.5, 0, (0.6, 2.4)),
    "bound": Pen(0.8, 0, (1.0, 2.0)),
    "garment": Pen(1.1, fill=255),
    "garment back": Pen(0.8, fill=225),
    "seam": Pen(0.6, 30, (3.0, 1.2)),
    "opening": Pen(1.3),
    "mark": Pen(0.9),
    "body": Pen(0.6, 90, fill=232),
    "body line": Pen(0.4, 150),
    "tape": Pen(1.5),
    "trim": Pen(0.7, 0, (5.0, 3.5)),
    "join": Pen(1.0, 0, (0.1, 4.0)),
    "register": Pen(0.7),
    "tear": Pen(1.7, 0, (5.0, 1.5)),
}


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
