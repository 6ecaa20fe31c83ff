"""One sleeve in the picture, folded along its top and hanging from the shoulder."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from typing import Final

from ellwand.depict.setting_in import Face
from ellwand.depict.view_panels import moves_of
from ellwand.depict.view_trunk import Trunk
from ellwand.geometry.lines import Line, Point, backwards, bounds
from ellwand.model.draft import Draft, Part
from ellwand.model.drawing import Role, Stroke
from ellwand.model.heraldry import TINCTURES, Tincture
from ellwand.model.piece import Piece
from ellwand.model.wearer import Hand

ARM_ANGLE: Final = 38.0
"""How far the sleeves hang below the level line in the picture (degrees)."""
SAME: Final = 1e-6


class Arm:
    """A sleeve's points by (cm down the arm, cm below its top)."""

    def __init__(self, draft: Draft, hand: Hand, face: Face, trunk: Trunk) -> None:
        self.draft, self.hand, self.face = draft, hand, face
        # the wearer's left lies at the viewer's right of the front
        self.sign = (1 if hand == "left" else -1) * (1 if face == "front" else -1)
        size, self.sleeve = draft.dimensions, draft.choices.sleeve
        self.size, self.long = size, size.sleeve_lengths[hand]
        self.armhole = trunk.armhole
        self.shoulder = self.armhole[0]
        self.armpit: Point = (trunk.wide, trunk.arm)
        self.spread = Spread(draft, hand)

    def at(self, far: float, deep: float) -> Point:
        """A point ``far`` along the top of the arm and ``deep`` below it, on this sleeve's side of the picture."""
        x, y = self._at(far, deep)
        return self.sign * x, y

    def _at(self, far: float, deep: float) -> Point:
        a = math.radians(ARM_ANGLE)
        x = self.shoulder[0] + math.cos(a) * far - math.sin(a) * deep
        return (x, self.shoulder[1] - math.sin(a) * far - math.cos(a) * deep)

    def _stroke(self, role: Role, line: Sequence[Point], closed: bool = False) -> Stroke:
        return Stroke(role, tuple((self.sign * x, y) for x, y in line), closed)

    def under_cuff(self) -> Point:
        """The lowest corner of the opening, on the right of the picture."""
        return self._at(self.long + self.sleeve.drop, (self.size.cuff + self.sleeve.elbow_gore) / 2)

    def _below(self) -> list[Point]:
        """The lower edge from the cuff to the armpit, both left out."""
        size = self.size
        gored = []
        if self.sleeve.elbow_gore:
            down = self.long - self.spread.gored(self.hand)
            if 0 < down < self.long:
                gored = [self._at(down, self.spread.girth_at(down, self.long) / 2)]
        if size.elbow_width and not gored:
            gored = [self._at(self.long * 0.5, size.elbow_width / 2)]
        return gored

    def outline(self) -> Line:
        """The whole sleeve; what lies within the body is covered by it."""
        side = [self.armpit] if self.size.side_panel else []
        arm = backwards(self.armhole[1:])
        line = (self._at(0.0, 0.0), self._at(self.long, 0.0), self.under_cuff(), *self._below(), *side, *arm)
        return tuple((self.sign * x, y) for x, y in line)

    def ground(self) -> Stroke:
        """The cloth of the sleeve."""
        return Stroke("garment", self.outline(), True)

    def contour(self) -> Stroke:
        """What is drawn heavier of it: along the arm, round the opening and back under the arm."""
        end = self._gusset()[-1] if self.size.gusset else self.armpit
        line = (self._at(0.0, 0.0), self._at(self.long, 0.0), self.under_cuff(), *self._below(), end)
        return self._stroke("outline", line)

    def cuff(self) -> Line:
        """The opening's edge from its top down."""
        return tuple((self.sign * x, y) for x, y in (self._at(self.long, 0.0), self.under_cuff()))

    def seams(self) -> Iterator[Stroke]:
        """Seams that run down or round this side of the sleeve, and the sides of an elbow gore."""
        for line in self.spread.seams(self.hand, self.face, self.long):
            yield Stroke("seam", tuple(self.at(far, deep) for far, deep in line))
        if self.sleeve.elbow_gore and (down := self.spread.gored(self.hand)):
            top = self.long - down
            start = (top, self.spread.girth_at(top, self.long) / 2)
            end = (self.long + self.sleeve.drop * (1 - self.sleeve.elbow_gore / self.size.cuff / 2), self.size.cuff / 2)
            yield Stroke("seam", (self.at(*start), self.at(*end)))

    def hem(self) -> Stroke | None:
        """The stitching round the opening."""
        up = self.spread.allowance
        if not up:
            return None
        end = self.under_cuff()
        over, under = self._at(self.long - up, 0.0), self._below()[0] if self._below() else self.armpit
        run = math.dist(end, under)
        share = min(1.0, up / run) if run else 0.0
        low = (end[0] + (under[0] - end[0]) * share, end[1] + (under[1] - end[1]) * share)
        return self._stroke("stitching", (over, low))

    def _gusset(self) -> tuple[Point, Point, Point]:
        """Its corner at the armpit, the end of its side on the body, and of that on the sleeve."""
        x, y = self.armpit
        edges = [edge for piece in self.draft.pieces if piece.place == "gusset" for edge in piece.edges]
        sides = {edge.id.split("-")[0]: math.dist(edge.points[0], edge.points[-1]) for edge in edges}
        end = self._below()[0] if self._below() else self.under_cuff()
        share = min(1.0, sides["sleeve"] / math.dist((x, y), end))
        tip = (x + (end[0] - x) * share, y + (end[1] - y) * share)
        return (x, y), (x, y - sides["body"]), tip

    def gusset(self) -> tuple[Stroke, Stroke]:
        """The gusset folded under the arm, along the body's side and along the sleeve's under edge; and its fold."""
        corners = self._gusset()
        return self._stroke("garment", corners, True), self._stroke("outline", corners[1:])

    def gusset_tincture(self) -> Tincture | None:
        """The gusset's tincture, if it has one."""
        by_id = {piece.id: piece for piece in self.draft.pieces}
        found = (
            by_id[part.piece].tincture
            for part in self.draft.parts
            if part.id.startswith("gusset-") and self.hand in part.id.split("-")
        )
        held = set(found)
        return next((tincture for tincture in TINCTURES if tincture in held), None)


class Spread:
    """A sleeve's piece as it is spread: where its points come to lie when it is folded along the top of the arm."""

    def __init__(self, draft: Draft, hand: Hand) -> None:
        self.draft = draft
        by_id = {piece.id: piece for piece in draft.pieces}
        self.parts = [p for p in draft.parts if p.id.startswith("sleeve-") and hand in p.id.split("-")]
        self.pieces: dict[str, Piece] = {part.id: by_id[part.piece] for part in self.parts}
        self.allowance = next(
            (edge.allowance for piece in self.pieces.values() for edge in piece.edges if edge.kind == "cuff"), 0.0
        )
        body = [part for part in self.parts if "gore" not in part.id.split("-")]
        self.halves = any({"front", "back"} & set(part.id.split("-")) for part in body)
        self.body = body
        self.moves = {} if self.halves else moves_of(draft, [part.id for part in body])
        self._measure()

    def _measure(self) -> None:
        """The sides of the whole sleeve, as (height, x) rising, and where the top of the arm meets them."""
        self.left: list[Point] = []
        self.right: list[Point] = []
        self.top = self.low = 0.0
        self.over = 0.5
        if self.halves or not self.body:
            return
        points: list[Point] = []
        crown: Point | None = None
        for part in self.body:
            dx, dy = self.moves[part.id]
            for edge in self.pieces[part.id].edges:
                placed = [(x + dx, y + dy) for x, y in edge.points]
                points += placed
                front = [p for p in placed if edge.kind == "armhole" and edge.id.startswith("armhole-front")]
                if front and "low" not in edge.id:
                    best = max(front, key=lambda p: p[0])
                    crown = best if crown is None or best[0] > crown[0] else crown
                sides = edge.kind in ("underarm seam", "opening", "gusset") or edge.kind == "gusset seam"
                if sides:
                    (self.right if "back" in edge.id else self.left).extend((y, x) for x, y in placed)
        x0, y0, x1, y1 = bounds(points)
        self.low, self.top = y0, y1
        self.left, self.right = sorted(set(self.left)), sorted(set(self.right))
        if not self.left or not self.right:
            self.left, self.right = [(y0, x0), (y1, x0)], [(y0, x1), (y1, x1)]
        if crown is not None:
            a, b = _along(self.left, crown[1]), _along(self.right, crown[1])
            self.over = (crown[0] - a) / (b - a) if b - a > SAME else 0.5

    @property
    def folds(self) -> bool:
        """Whether the sleeve is one whole that can be folded."""
        return bool(self.left)

    def girth_at(self, far: float, long: float) -> float:
        """The width of the spread sleeve so far down the arm (cm), without a gore."""
        size = self.draft.dimensions
        if not self.folds:
            return size.sleeve_top + (size.cuff - size.sleeve_top) * far / (long or 1.0)
        y = self.low + long - far
        return _along(self.right, y) - _along(self.left, y)

    def gored(self, hand: Hand) -> float:
        """How long the side of an elbow gore is (cm)."""
        for part in self.parts:
            if "gore" in part.id.split("-"):
                edges = self.pieces[part.id].edges
                return max(math.dist(e.points[0], e.points[-1]) for e in edges if e.kind == "underarm seam")
        return 0.0

    def place(self, part: Part, point: Point, face: Face, long: float) -> Point | None:
        """(cm down the arm, cm below its top) of a point of the piece, or None where it lies on the other side."""
        if self.halves:
            words = part.id.split("-")
            if face not in words:
                return None
            piece = self.pieces[part.id]
            over = max(x for x, _ in piece.sewn)
            low = min(y for _, y in piece.sewn)
            return long - (point[1] - low), over - point[0]
        if part.id not in self.moves:
            return None
        dx, dy = self.moves[part.id]
        x, y = point[0] + dx, point[1] + dy
        a, b = _along(self.left, y), _along(self.right, y)
        girth = b - a
        around = ((x - a) / girth - self.over if girth > SAME else 0.0) * girth
        # on beyond the line under the arm it is the other side
        if around > girth / 2 + SAME:
            around -= girth
        elif around < -girth / 2 - SAME:
            around += girth
        if abs(around) > SAME and abs(abs(around) - girth / 2) > SAME and (around < 0) != (face == "front"):
            return None
        return long - (y - self.low), abs(around)

    def seams(self, hand: Hand, face: Face, long: float) -> Iterator[Line]:
        """Seams on this side, by (cm down the arm, cm below its top); not those along its upper or lower fold."""
        for part in self.body:
            for edge in self.pieces[part.id].edges:
                if edge.kind not in ("piecing seam", "division seam", "underarm seam", "sleeve seam"):
                    continue
                placed = [self.place(part, point, face, long) for point in edge.points]
                line = [each for each in placed if each is not None]
                if len(line) != len(placed) or edge.id.startswith("underarm-front"):
                    continue
                if edge.kind == "sleeve seam" and all(deep < 0.01 for _, deep in line):
                    continue
                half = [self.girth_at(far, long) / 2 for far, _ in line]
                if edge.kind == "underarm seam" and (self.halves or all(map(_near, (d for _, d in line), half))):
                    continue
                yield tuple(line)


def _near(deep: float, half: float) -> bool:
    return abs(deep - half) < 0.05


def _along(side: Sequence[Point], y: float) -> float:
    """x of a side (points (height, x), rising) at a height; beyond its ends as at them."""
    if y <= side[0][0]:
        return side[0][1]
    for (low, a), (high, b) in itertools.pairwise(side):
        if y <= high:
            return a + (b - a) * (y - low) / (high - low) if high - low > SAME else b
    return side[-1][1]
