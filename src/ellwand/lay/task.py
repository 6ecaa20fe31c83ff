"""The words that the engines share: shapes in their poses, the ground they lie on, and what was found."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ellwand.geometry.lines import Line, Point


@dataclass(frozen=True, slots=True)
class Pose:
    """One way a piece may lie: its cut outline turned, slits closed, its least corner moved to (0, 0).

    ``origin`` is where the piece's own origin then lies (cm).  ``past``: how far its box may pass the ground's
    left and right edge, where it has a straight side to lie on the selvedge.  ``on_fold``: its left side lies on
    the ground's left edge and nowhere else.  ``mark``: the point that must meet the cloth's pattern, if any.
    """

    turn: float
    flip: bool
    ring: Line
    origin: Point
    width: float
    height: float
    past: tuple[float, float] = (0.0, 0.0)
    on_fold: bool = False
    mark: Point | None = None


@dataclass(frozen=True, slots=True)
class Shape:
    """One thing to cut out: a part of a piece, and the poses that are allowed and fit the width.

    ``layers`` is 2 where it is cut from folded cloth, two at once; ``partner`` is then the other part's name,
    empty where the shape is half of one part that lies on the fold.
    """

    piece: str
    part: str
    poses: tuple[Pose, ...]
    layers: int = 1
    partner: str = ""


@dataclass(frozen=True, slots=True)
class Spot:
    """A shape in one of its poses, the least corner at (x, y); x from the ground's left edge (cm)."""

    shape: Shape
    pose: Pose
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Ground:
    """Cloth to lay on, (0, 0) its lower left usable corner (cm).

    ``length`` is None for a strip that is to be as short as may be.  ``blocked``: convex outlines, counter-clockwise,
    that no shape may touch (faults).  ``repeat``: the pattern's repeat across and along, 0 where it has none;
    marks of poses lie at whole repeats from ``pattern``.
    """

    width: float
    length: float | None = None
    blocked: tuple[Line, ...] = ()
    repeat: tuple[float, float] = (0.0, 0.0)
    pattern: Point = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Task:
    """Shapes to lay on a ground."""

    shapes: tuple[Shape, ...]
    ground: Ground

    @property
    def plain(self) -> bool:
        """Whether it is a strip with nothing but poses and width to heed, as general packers know it."""
        ground = self.ground
        easy = all(pose.past == (0.0, 0.0) and not pose.on_fold for shape in self.shapes for pose in shape.poses)
        return easy and ground.length is None and not ground.blocked and ground.repeat == (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Budget:
    """How long to search: wall-clock ``seconds``, or ``effort`` that gives the same lay to the last digit every time.

    With neither only the instant engine answers.  ``effort`` 1 is about what one second of one core does.
    """

    seconds: float = 0.0
    effort: int = 0
    seed: int = 1


@dataclass(frozen=True, slots=True)
class Found:
    """A lay of all of a task's shapes: its length (cm), who found it, and after how long (s).

    ``bound``: a length that no lay of the task undercuts, as far as that was proved on the way, and ``why``.
    """

    spots: tuple[Spot, ...]
    length: float
    engine: str
    after: float = 0.0
    bound: float = 0.0
    why: str = ""


Report = Callable[[Found], None]
"""Told of every improvement, from the searching thread."""

Stop = Callable[[], bool]
"""Asked often; true when the search is to end with what it has."""


def unheard(_: Found) -> None:
    """A report that tells nobody."""


def never() -> bool:
    """A stop that never says so."""
    return False


def length_of(spots: Sequence[Spot]) -> float:
    """How much of the ground's length the spots take (cm)."""
    return max((s.y + s.pose.height for s in spots), default=0.0)
