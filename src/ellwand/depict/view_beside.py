"""Side panels and gores in the picture: where points of their pieces lie, and the seams across them."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from typing import Final

from ellwand.depict.setting_in import SetIn, gore_at
from ellwand.depict.view_panels import moves_of
from ellwand.depict.view_trunk import Trunk
from ellwand.geometry.lines import Line, Point
from ellwand.model.draft import Draft, Part, whole_part
from ellwand.model.drawing import Stroke
from ellwand.model.piece import Piece
from ellwand.model.surface import CUT_APART

OFTEN: Final = 8


class Beside:
    """The parts beside the panels."""

    def __init__(self, draft: Draft, trunk: Trunk) -> None:
        self.draft, self.trunk = draft, trunk
        self.pieces = {piece.id: piece for piece in draft.pieces}
        self.parts = {part.id: part for part in draft.parts}
        self.gores: dict[str, tuple[SetIn, Point, Point, bool]] = {}
        for place in trunk.places:
            self._spread(place)

    def _spread(self, place: SetIn) -> None:
        """Every gore, with its point."""
        groups: dict[str, list[Part]] = {}
        for part in self.draft.parts:
            if gore_at(part.id, place.name):
                groups.setdefault(whole_part(part.id), []).append(part)
        for group in groups.values():
            moves = moves_of(self.draft, [part.id for part in group])
            first = next((part for part in group if part.id == whole_part(part.id)), group[0])
            levels = self.pieces[first.piece].levels
            centre = levels[0].centre if levels else None
            if centre is None or not place.radius:
                continue
            dx, dy = moves[first.id]
            for part in group:
                self.gores[part.id] = (place, (centre[0] + dx, centre[1] + dy), moves[part.id], part.mirrored)

    def seams(self) -> Iterator[Stroke]:
        """Where gores were pieced."""
        seen = set()
        for name in self.gores:
            for edge in self.pieces[self.parts[name].piece].edges:
                if edge.kind in CUT_APART:
                    line = [self._gore(name, point) for point in _often(edge.points)]
                    shown = [point for point in line if point is not None]
                    key = tuple((round(x, 1), round(y, 1)) for x, y in sorted((shown[0], shown[-1]))) if shown else ()
                    if len(shown) > 1 and key not in seen:
                        seen.add(key)
                        yield Stroke("seam", tuple(shown))

    def _gore(self, name: str, point: Point) -> Point | None:
        """Where a point of a gore lies, None where that is behind the fold at the side."""
        place, (ax, ay), (dx, dy), mirrored = self.gores[name]
        x, y = point[0] + dx - ax, point[1] + dy - ay
        far = math.hypot(x, y)
        # as it is seen from outside
        angle = math.atan2(-x if mirrored else x, -y) / (self._true(place) or 1.0)
        left = "left" in whole_part(name).split("-")
        behind = self.trunk.face == "back"
        if place.name == "side":
            # the front's half lies at the left of the wearer's left gore
            inward = -angle if left != behind else angle
            if inward < -1e-6:
                return None
            x, y = self.trunk.at(place, far, 1.0 - 2 * inward)
            return (x if left != behind else -x), y
        if place.x == 0:
            x, y = self.trunk.at(place, far, 2 * abs(angle))
            return math.copysign(x, angle), y
        right = left != behind
        x, y = self.trunk.at(place, far, 0.5 + (angle if right else -angle))
        return (x if right else -x), y

    def _true(self, place: SetIn) -> float:
        """The angle (radians) of a whole gore as it is cut."""
        return place.base / place.radius if place.radius else 0.0

    def spot(self, part: str, point: Point) -> Point | None:
        """Where a point of a gore or of half a side panel lies; None for a whole one, or for the other face's."""
        if part in self.gores:
            return self._gore(part, point)
        words = part.split("-")
        if words[:2] != ["side", "panel"] or self.trunk.face not in words:
            return None
        piece = self.pieces[self.parts[part].piece]
        x, y = _from_side(piece, point)
        sign = 1 if ("left" in words) == (self.trunk.face == "front") else -1
        there = self.trunk.at_side(x, y)
        return sign * there[0], there[1]


def _often(line: Line) -> Line:
    """The line at close steps, as straight ones become curved where their gore is opened or closed a little."""
    return tuple(
        (a[0] + (b[0] - a[0]) * i / OFTEN, a[1] + (b[1] - a[1]) * i / OFTEN)
        for a, b in itertools.pairwise(line)
        for i in range(OFTEN + 1)
    )


def _from_side(piece: Piece, point: Point) -> Point:
    """(cm from the edge at the side, height above the hem) of a point of half a side panel."""
    side = next(edge for edge in piece.edges if edge.id.startswith("straight"))
    level = piece.levels[0]
    return abs(point[0] - side.points[0][0]), point[1] - level.base_y
