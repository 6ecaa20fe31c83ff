"""Where the panels of a body lie in its field, as they are worn.

In the field of both faces x runs from the wearer's right to the wearer's left with 0 at the centre line, and y upward
from the hem; so the back's field is the front's, and a line that is mirrored behind meets itself at both sides and on
the shoulders.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from ellwand.geometry.lines import Line, Point, backwards, bounds
from ellwand.model.draft import Draft, Part
from ellwand.model.heraldry import Face, Field
from ellwand.model.piece import Level, Piece

FACES: Final[tuple[Face, Face]] = ("front", "back")
BEYOND: Final = 1000.0
"""Lines go on so far outside the field (cm): a back that is longer hangs below it."""


@dataclass(frozen=True, slots=True)
class Frame:
    """How a panel's drawing lies in the field: x of the piece = ``centre`` + ``across`` · x of the field.

    ``levels``: each face that it is of, the front first, with its hem's height in the drawing.
    """

    centre: float
    across: int
    levels: tuple[tuple[Face, Level], ...]
    top: float

    def seen(self, point: Point) -> tuple[Face, Point]:
        """The face that a point of the drawing lies on, and where in its field."""
        face, level = self.levels[0]
        if len(self.levels) == 2 and (point[1] - level.base_y) * level.up > self.top:
            face, level = self.levels[1]
        return face, ((point[0] - self.centre) * self.across, (point[1] - level.base_y) * level.up)

    def drawn(self, line: Line, level: Level) -> Line:
        """A line of the field in the drawing."""
        return tuple((self.centre + self.across * x, level.base_y + level.up * y) for x, y in line)


def field_of(draft: Draft) -> Field:
    """The field of a garment's front: its panel from hem to shoulder (cm)."""
    size = draft.dimensions
    return Field(size.panel_width / 2, 0.0, size.length)


def is_panel(part: str) -> bool:
    """Whether a part is a front, a back, or both in one."""
    return part.split("-")[0] in ("body", *FACES)


def frame_of(part: Part, piece: Piece, field: Field) -> Frame:
    """The frame of a panel.

    Halves are drawn as the wearer's left; a back of its own is drawn as it is seen from behind, one that is cut in one
    with the front as it lies beyond the shoulder.
    """
    words = part.id.split("-")
    low, _, high, _ = bounds(piece.sewn)
    names: Sequence[Face] = FACES if words[0] == "body" else ("back",) if words[0] == "back" else ("front",)
    behind = words[0] == "back"
    half = len(words) > 1
    centre = (high if behind else low) if half else (low + high) / 2
    across = (-1 if behind else 1) * (-1 if part.mirrored else 1)
    return Frame(centre, across, tuple(zip(names, piece.levels, strict=True)), field.top)


def lines_on(frame: Frame, lines: Sequence[Line], field: Field) -> list[Line]:
    """The field's lines on a panel's drawing; over a shoulder without a seam each goes on from front to back."""
    if len(frame.levels) == 1:
        return [frame.drawn(_longer(line), frame.levels[0][1]) for line in lines]
    out: list[Line] = []
    (_, front), (_, back) = frame.levels
    for line in lines:
        down = line if line[0][1] >= line[-1][1] else backwards(line)
        if down[0][1] < field.top - 1e-9:
            out += [frame.drawn(_longer(line), level) for level in (front, back)]
            continue
        lower = (*down[:-1], _longer(down)[-1])
        out.append((*backwards(frame.drawn(lower, front)), *frame.drawn(lower, back)[1:]))
    return out


def _longer(line: Line) -> Line:
    """The line with both its ends drawn out straight."""
    return (_out(line[1], line[0]), *line[1:-1], _out(line[-2], line[-1]))


def _out(before: Point, end: Point) -> Point:
    dx, dy = end[0] - before[0], end[1] - before[1]
    scale = BEYOND / (dx * dx + dy * dy) ** 0.5
    return end[0] + dx * scale, end[1] + dy * scale
