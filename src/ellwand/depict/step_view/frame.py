"""What of a layout is seen, and how large: all of it, or the part round the seams where the pieces are far larger."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from ellwand.geometry.lines import Line, Point, bounds

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

    from ellwand.depict.step_view.layout import Layout

CLOSER: Final = 1.3
"""Only a part is shown where that draws it at least so many times larger."""
AROUND: Final = 0.22
"""What is shown round it, as a share of its greater side."""
ROUND_EDGES: Final = 0.4
"""The same round edges that are finished, which have nothing beside them."""


@dataclass(frozen=True, slots=True)
class Frame:
    """A window on the cloth (cm) and the paper cm for each cm of it; ``cut`` where pieces run on beyond it."""

    box: tuple[float, float, float, float]
    scale: float
    cut: bool

    def at(self, point: Point) -> Point:
        """A point on paper (cm from the window's lower left corner)."""
        return (point[0] - self.box[0]) * self.scale, (point[1] - self.box[1]) * self.scale

    def line(self, line: Iterable[Point]) -> Line:
        """A line on paper."""
        return tuple(self.at(point) for point in line)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height on paper (cm)."""
        x0, y0, x1, y1 = self.box
        return (x1 - x0) * self.scale, (y1 - y0) * self.scale


def frame(
    shapes: Sequence[Polygon | MultiPolygon],
    apart: Sequence[Polygon | MultiPolygon],
    bold: Sequence[Line],
    edges: bool,
    width: float,
    height: float,
) -> Frame:
    """The window for these shapes and the lines that matter, fitted to ``width`` × ``height`` (paper cm).

    Of those ``apart``, which are about to be joined, small ones are seen whole.
    """
    whole = hull([shape.bounds for shape in shapes if not shape.is_empty])
    all_of_it = _fit(whole, width, height)
    if not bold:
        return Frame(whole, all_of_it, False)
    near = bounds([point for line in bold for point in line])
    reach = _greater(near)
    small = [shape.bounds for shape in apart if not shape.is_empty and _greater(shape.bounds) <= max(1.25 * reach, 6.0)]
    near = hull([near, *small])
    pad = max((ROUND_EDGES if edges else AROUND) * _greater(near), 3.0)
    x0, y0, x1, y1 = near
    box = (
        max(whole[0], x0 - pad),
        max(whole[1], y0 - pad),
        min(whole[2], x1 + pad),
        min(whole[3], y1 + pad),
    )
    closer = _fit(box, width, height)
    if closer <= CLOSER * all_of_it:
        return Frame(whole, all_of_it, False)
    (low_x, high_x), (low_y, high_y) = (
        _filled((box[i], box[i + 2]), (whole[i], whole[i + 2]), room / closer) for i, room in ((0, width), (1, height))
    )
    return Frame((low_x, low_y, high_x, high_y), closer, True)


def _filled(span: tuple[float, float], whole: tuple[float, float], room: float) -> tuple[float, float]:
    """The span made as long as there is room, as far as there is anything to see."""
    low, high = span
    spare = max(0.0, room - (high - low))
    below, above = low - whole[0], whole[1] - high
    down = min(below, max(spare / 2, spare - above))
    return low - down, high + min(above, spare - down)


def _fit(box: tuple[float, float, float, float], width: float, height: float) -> float:
    return min(width / max(box[2] - box[0], 1.0), height / max(box[3] - box[1], 1.0))


def _greater(box: tuple[float, float, float, float]) -> float:
    return max(box[2] - box[0], box[3] - box[1])


def hull(boxes: Sequence[tuple[float, float, float, float]]) -> tuple[float, float, float, float]:
    """The least box round several."""
    return (
        min(box[0] for box in boxes),
        min(box[1] for box in boxes),
        max(box[2] for box in boxes),
        max(box[3] for box in boxes),
    )


def shapes_of(made: Layout) -> list[Polygon | MultiPolygon]:
    """Everything that is seen, the layers beneath among it."""
    under = [each.beneath() for each in made.laid.values()]
    return [*[each.shape() for each in made.laid.values()], *[shape for shape in under if shape is not None]]
