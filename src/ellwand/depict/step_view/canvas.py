"""A picture while it is made: the layout, what of it is seen, and the strokes so far."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from ellwand.depict.step_view.frame import Frame
from ellwand.depict.step_view.layout import Layout
from ellwand.depict.step_view.motion import Laid
from ellwand.model.draft import Draft
from ellwand.model.drawing import Stroke
from ellwand.model.step import Step

if TYPE_CHECKING:
    from shapely import Geometry, MultiPolygon, Polygon


@dataclass
class Picture:
    """The picture while it is made."""

    made: Layout
    step: Step
    draft: Draft
    seen: Frame
    strokes: list[Stroke] = field(default_factory=list)
    signs: list[Stroke] = field(default_factory=list)

    def paper(self, shape: Polygon | MultiPolygon) -> Polygon | MultiPolygon:
        """A shape of the cloth on paper."""
        from shapely.affinity import affine_transform

        (x0, y0, _, _), s = self.seen.box, self.seen.scale
        return affine_transform(shape, [s, 0, 0, s, -x0 * s, -y0 * s])

    def window(self) -> Polygon:
        """What of the paper is seen."""
        from shapely import box

        return box(0.0, 0.0, *self.seen.size)


def fold_line(picture: Picture, laid: Laid, shape: Polygon | MultiPolygon) -> Geometry | None:
    """Where a part is folded, as far as it lies on the edge of what is seen."""
    from shapely import LineString

    if laid.fold is None:
        return None
    (x, y), (nx, ny) = laid.fold.at, laid.fold.keep
    ends = laid.motion.of(((x - ny * 500, y + nx * 500), (x + ny * 500, y - nx * 500)))
    return LineString(picture.seen.line(ends)).intersection(shape.buffer(0.002)).intersection(picture.window())


def clipped(picture: Picture, shape: Polygon | MultiPolygon) -> list[Polygon]:
    from shapely import Polygon, get_parts

    return [p for p in get_parts(shape.intersection(picture.window())) if isinstance(p, Polygon) and p.area > 1e-4]
