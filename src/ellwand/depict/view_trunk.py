"""The body of the garment in its picture: how its cloth hangs, its outline, hem and neck."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from typing import Final

from ellwand.depict.setting_in import Face, SetIn, fan, hem_drop, inner_turn, set_in
from ellwand.depict.view_neck import neck_curves
from ellwand.depict.view_panels import Panel, finely, middle_of, nudged, panels
from ellwand.depict.view_turning import Bend, highest_first, hung
from ellwand.geometry.lines import Line, Point, backwards, mirror
from ellwand.model.draft import Draft

STEP: Final = 0.06
"""Hems of gores turn by at most so much (radians) from point to point."""


class Trunk:
    """Half the body as lines of the cloth that run down, turned aside by what is set in inside them."""

    def __init__(self, draft: Draft, face: Face) -> None:
        self.draft, self.face = draft, face
        self.places = sorted(set_in(draft, face), key=lambda place: place.x)
        size = draft.dimensions
        self.length = size.length
        self.half = size.panel_width / 2
        self.arm = size.length - size.armhole - size.shoulder_slope
        self.wide = self.half + (size.side_panel / 2)
        self.flare = draft.choices.body.flare / 2 if size.side_panel else 0.0
        opposite = set_in(draft, "back" if face == "front" else "front")
        own, other = inner_turn(self.places), inner_turn(opposite)
        # front and back lie on each other, so that what one adds is shared by the other
        self.share = (own + other) / 2 / own if own else 1.0
        self.spare = (max((p.gores for p in opposite if p.name != "side"), default=0.0), other / 2 if not own else 0.0)
        self.panels = [panel for panel in panels(draft) if face in panel.faces()]
        self.bend = Bend(
            tuple((place.x, place.gores, self.fan_of(place)) for place in self.places if place.name != "side")
        )
        self.middles: dict[str, float] = {}
        self.necks = neck_curves(draft)
        self.neck = self.necks[face]
        self.armhole = self._armhole()

    def fan_of(self, place: SetIn) -> float:
        """The turn of a place as it lies."""
        return fan(place) * (1.0 if place.name == "side" else self.share)

    def _flared(self, x: float, y: float) -> float:
        """``x`` where a side panel is wider below."""
        if not self.flare or x <= self.half or y >= self.arm:
            return x
        return x + self.flare * (self.arm - y) / self.arm * (x - self.half) / (self.wide - self.half)

    def at(self, place: SetIn, far: float, share: float) -> Point:
        """A point of what is set in at a place: ``far`` cm below its point, ``share`` of its width from its inner side
        (of half of what lies in the middle, from the middle; of half of what lies at the side, from the panel)."""
        turns = [*self.bend.within(place.x), (place.gores, share * self.fan_of(place))]
        if place.name == "side" and self.spare[1]:
            turns.append((self.spare[0], share * self.spare[1]))
        y = place.gores - far
        return hung(self._flared(place.x, y), y, highest_first(turns))

    def at_side(self, inward: float, y: float) -> Point:
        """A point of the flat side panel, ``inward`` cm from the side."""
        return hung(self._flared(self.wide, y) - inward, y, self.bend.within(self.wide))

    def reach(self, place: SetIn, share: float) -> float:
        """How far below its point the hem of what is set in lies, at a share of its width as in ``at`` (cm)."""
        if not place.straight:
            return place.radius
        fan = self.fan_of(place)
        whole, at = {True: (2 * fan, (1 + share) * fan), False: (fan, share * fan)}[place.x == 0]
        if place.name == "side":
            whole, at = 2 * fan, share * fan
        # each gore has a chord of its own
        own = whole / place.count
        middle = at - own * (min(place.count - 1, math.floor(at / own + 1e-9)) + 0.5)
        return place.radius * math.cos(own / 2) / math.cos(middle)

    def edge(self) -> Line:
        """The right outer edge from the armpit down to the hem."""
        turns = self.bend.within(self.wide)
        side = next((place for place in self.places if place.name == "side" and place.gores), None)
        if side:
            turns.append((side.gores, self.fan_of(side)))
        if self.spare[1]:
            turns.append(self.spare)
        turns = highest_first(turns)
        foot = side.gores - self.reach(side, 1.0) if side else 0.0
        heights = [self.arm, *(y for y in sorted({y for y, _ in turns}, reverse=True) if foot < y < self.arm), foot]
        return tuple(hung(self._flared(self.wide, y), y, turns) for y in heights)

    def _armhole(self) -> Line:
        """The right armhole as the panel is cut, from the shoulder down; straight where it has none of its own."""
        found = {
            (round(x, 4), round(y, 4))
            for panel in self.panels
            for edge in panel.piece.edges
            if edge.kind == "armhole"
            for line in panel.lines(edge, self.face)
            for x, y in line
            if x > 0
        }
        line = sorted(found, key=lambda point: -point[1])
        return tuple(line) or ((self.half, self.length), (self.half, self.arm))

    def right(self) -> Line:
        """The right half of the outline, from the middle of the hem round to the middle of the neck."""
        edge, armhole = self.edge(), backwards(self.armhole)
        armhole = armhole[1:] if math.dist(armhole[0], edge[0]) < 1e-3 else armhole
        return (*self.hem(), *backwards(edge)[1:], *armhole, *backwards(self.neck))

    def outline(self) -> Line:
        """The whole outline, counter-clockwise from the middle of the hem."""
        right = self.right()
        return (*right, *backwards(mirror(p for p in right if p[0] > 1e-6)))

    def contours(self, armholes: bool, gusset: float = 0.0) -> Iterator[Line]:
        """What is drawn heavier of the outline: hem, sides below a gusset that goes so far down (cm), shoulders and
        neck; armholes that nothing is sewn into."""
        edge, armhole, hem = self.edge(), self.armhole, self.hem()
        if gusset:
            below = self.arm - gusset
            edge = ((self.wide, below), *(point for point in edge[1:] if point[1] < below - 1e-6))
        side = (*hem, *backwards(edge)[1:])
        collar = self.draft.choices.neck.collar
        rise = (self.neck[-1],) if collar else ()
        upper = (armhole[0], *rise, *((x, y + collar) for x, y in backwards(self.neck)))
        if armholes:
            right = (*side, *backwards(armhole), *upper[1:])
            yield (*backwards(mirror(right))[:-1], *right) if hem[0][0] == 0 else right
            return
        yield (*backwards(mirror(side)), *side[1:])
        yield (*upper, *backwards(mirror(upper))[1:])

    def hem(self, up: float = 0.0) -> Line:
        """From the centre to the side: the panels' own line, gores in arcs about their points; ``up`` cm higher."""
        out: list[Point] = []
        at = 0.0
        for place in self.places:
            if not place.gores:
                continue
            out += self._level(at, place.x, up)
            steps = place.count * max(2, math.ceil(self.fan_of(place) / STEP / place.count))
            out += [self.at(place, self.reach(place, i / steps) - up, i / steps) for i in range(steps + 1)]
            at = place.x
        out += self._level(at, self.wide, up)
        end = self.edge()[-1]
        if not up:
            if math.dist(out[-1], end) > 0.5:
                out.append(end)
            else:
                out[-1] = end
        line = [point for i, point in enumerate(out) if i == 0 or math.dist(point, out[i - 1]) > 1e-6]
        return ((0.0, line[0][1]), *(line[1:] if abs(line[0][0]) < 1e-6 else line))

    def _level(self, start: float, end: float, up: float) -> Line:
        """The hem of the cloth between two places."""
        if end - start < 1e-3:
            return ()
        dips = self.draft.dimensions.back_dip and self.face == "back" and start < self.half
        cuts = [start, *(x for x in (self.half,) if start < x < end), end]
        line: list[Point] = []
        for a, b in itertools.pairwise(cuts):
            steps = max(1, math.ceil((b - a) / 3.0)) if dips and a < self.half else 1
            for i in range(steps + 1):
                x = a + (b - a) * i / steps
                y = up - hem_drop(self.draft, self.face, x)
                inside = (start + end) / 2
                line.append(hung(self._flared(x, y), y, self.bend.within(inside)))
        return tuple(line)

    def lie(self, panel: Panel, line: Line) -> Line:
        """A line that lies flat on the face, as it hangs in the picture."""
        fine = finely(line, [top for _, top, turn in self.bend.turns if turn])
        middle = self.middles.get(panel.part)
        if middle is None:
            middle = self.middles[panel.part] = middle_of(panel, self.face)
        return tuple(self.bend(point) for point in nudged(fine, middle))

    def spot(self, panel: Panel, point: Point) -> Point:
        """Where a point of a panel's piece lies in the picture."""
        (there,) = self.lie(panel, (panel.seen(point, self.face),))
        return there

    def back_neck(self) -> Line:
        """The inside of the back, seen through the front neck."""
        right = (*self.neck, *backwards(self.necks["back"]))
        return (*right, *backwards(mirror(p for p in right if p[0] > 1e-6)))

    def collar(self) -> Line:
        """The band as it stands on this face's neck."""
        neck = (*backwards(mirror(p for p in self.neck if p[0] > 1e-6)), *self.neck)
        return (*neck, *((x, y + self.draft.choices.neck.collar) for x, y in backwards(neck)))
