"""A neutral drawing in centimetres, y upward: recorded once, replayed to SVG or paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ellwand.geometry.lines import Line, Point

Role = Literal[
    "cut",
    "sewn",
    "fold",
    "grain",
    "dimension",
    "leader",
    "cloth",
    "selvedge",
    "waste",
    "blank",
    "fault",
    "stripe",
    "bound",
    "garment",
    "garment back",
    "outline",
    "stitching",
    "fastening",
    "lace",
    "seam",
    "opening",
    "mark",
    "body",
    "body line",
    "tape",
    "trim",
    "join",
    "register",
    "tear",
    "piece",
    "beneath",
    "joined",
    "sew here",
    "gathers",
    "way",
    "link",
    "wrong side",
    "layer",
    "stitch",
    "hatch",
    "hatch dot",
    "charge",
    "band",
    "band line",
    "motif",
    "or",
    "argent",
    "gules",
    "azure",
    "sable",
    "vert",
    "purpure",
    "tenné",
    "sanguine",
]
"""What a line is; each sink has one table from role to pen."""

TextRole = Literal["name", "dimension", "edge", "chalk", "note", "number"]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line, or a closed and filled shape with holes."""

    role: Role
    points: Line
    closed: bool = False
    holes: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True)
class Label:
    """Text centred vertically on ``at``; ``size`` in points on paper, ``turn`` in degrees counter-clockwise."""

    role: TextRole
    text: str
    at: Point
    anchor: Anchor = "middle"
    size: float = 9.0
    turn: float = 0.0


@dataclass(frozen=True, slots=True)
class Drawing:
    """Strokes and labels in cm of the real thing; the sink chooses the scale."""

    strokes: tuple[Stroke, ...]
    labels: tuple[Label, ...]
