"""What is put beside the pieces that lie apart, where there is room: facings, strips, collar, the sewn garment."""

from __future__ import annotations

from typing import Final

from ellwand.depict.lettering import shape_of, text_width
from ellwand.depict.naming import numbers
from ellwand.depict.spread import drawing_bounds, joined
from ellwand.geometry.lines import Line, Point, bounds, shift, turn
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.model.names import named
from ellwand.model.piece import Piece

STEPS: Final = 28
"""So many places are tried across and down."""
AROUND: Final = 0.2
"""What is kept free round them (cm on paper)."""
SIZE: Final = 8.0
LINE: Final = 0.42


class Room:
    """What is free of a drawing on paper (cm)."""

    def __init__(self, drawing: Drawing) -> None:
        from shapely import LineString, Polygon, STRtree

        taken = [
            Polygon(stroke.points) if stroke.closed and len(stroke.points) > 3 else LineString(stroke.points)
            for stroke in drawing.strokes
        ]
        self.tree: STRtree = STRtree([*taken, *(shape_of(label, 1.0) for label in drawing.labels)])
        self.box = drawing_bounds(drawing, 1.0)

    def spot(self, wide: float, high: float, near: Point | None = None) -> Point | None:
        """The lower left corner of a free place of that size within the drawing, the nearest to ``near``; or None."""
        import numpy as np
        from shapely import box

        x0, y0, x1, y1 = self.box
        if wide > x1 - x0 or high > y1 - y0:
            return None
        xs, ys = (np.linspace(low, top, STEPS) for low, top in ((x0, x1 - wide), (y0, y1 - high)))
        across, up = (each.ravel() for each in np.meshgrid(xs, ys))
        boxes = box(across - AROUND, up - AROUND, across + wide + AROUND, up + high + AROUND)
        hit = set(self.tree.query(boxes, predicate="intersects")[0].tolist())
        free = [i for i in range(len(boxes)) if i not in hit]
        if not free:
            return None
        if near is None:
            return float(across[free[0]]), float(up[free[0]])
        best = min(free, key=lambda i: (across[i] + wide / 2 - near[0]) ** 2 + (up[i] + high / 2 - near[1]) ** 2)
        return float(across[best]), float(up[best])


def with_applied(draft: Draft, drawing: Drawing, scale: float) -> Drawing:
    """The drawing (cm of paper) with what is sewn on to the shell: pieces at ``scale``, those for the neck near it."""
    pieces = {piece.id: piece for piece in draft.pieces}
    neck = _neck(draft, drawing)
    for part in draft.applied:
        piece = pieces[part.piece]
        ring = piece.sewn
        x0, y0, x1, y1 = bounds(ring)
        if y1 - y0 > 2 * (x1 - x0):
            # a strip lies as it lies in the hand
            ring = turn(ring, 90.0)
            x0, y0, x1, y1 = bounds(ring)
        name = f"{numbers(draft.pieces)[piece.id]} {named(piece.name)}"
        long = text_width(name, SIZE)
        wide, high = max((x1 - x0) * scale, long), (y1 - y0) * scale + LINE
        ground = Room(drawing)
        spot = ground.spot(wide, high, neck if "neck" in piece.name else None)
        x, y = spot or (ground.box[0], ground.box[1] - high - AROUND)
        drawing = joined([drawing, _drawn(piece, ring, name, (x + wide / 2, y), scale)])
    return drawing


def _drawn(piece: Piece, ring: Line, name: str, foot: Point, scale: float) -> Drawing:
    """A piece with its name below, its foot's middle there."""
    x0, y0, x1, _ = bounds(ring)
    dx, dy = foot[0] - (x0 + x1) / 2 * scale, foot[1] + LINE - y0 * scale
    placed = shift(((px * scale, py * scale) for px, py in ring), dx, dy)
    label = Label("number", name, (foot[0], foot[1] + LINE / 2), size=SIZE)
    return Drawing((Stroke("piece", placed, True),), (label,))


def _neck(draft: Draft, drawing: Drawing) -> Point:
    """About where the neck is: at the top of what was laid first."""
    x0, y0, x1, y1 = bounds(drawing.strokes[0].points)
    return (x0 + x1) / 2, (y0 + y1) / 2 if drawing.strokes[0].holes else y1
