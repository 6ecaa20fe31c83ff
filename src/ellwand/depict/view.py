"""The sewn garment lying flat, drawn from the draft's own numbers."""

from __future__ import annotations

import math

from ellwand.depict.setting_in import Face, SetIn, fan, inner_turn, set_in
from ellwand.depict.view_bands import SleeveSeen, bands_on_body, bands_on_sleeve, body_seen
from ellwand.depict.view_field import (
    Bend,
    Shown,
    apart,
    bending,
    charge_strokes,
    field_strokes,
    in_tincture,
    sleeve_tinctures,
)
from ellwand.depict.view_motifs import motifs_on_body, motifs_on_sleeve
from ellwand.depict.view_neck import neck_curve, open_shoulders, opened_down, slit_x
from ellwand.depict.view_other_bands import bands_on_other
from ellwand.depict.view_others import other_view
from ellwand.geometry.lines import Line, Point, arc, backwards, mirror, shift
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing, Role, Stroke
from ellwand.model.wearer import Hand

ARM_ANGLE = 38.0
"""How far the sleeves hang below the shoulder line in the picture (degrees)."""


def garment_view(draft: Draft, face: Face, shown: Shown = "hatching") -> Drawing:
    """The garment laid flat, seen from the front or from behind, hem at y ≈ 0, in cm.

    Gores fan out from their points: each half of the width they add turns the cloth beside it aside.
    ``shown``: how tinctures are told apart where there are any, in hatching for paper or in colours for screens.
    """
    if draft.choices.other is not None:
        drawn = other_view(draft, face).strokes
        return Drawing((*drawn, *bands_on_other(draft, face, drawn)) if draft.adornment.bands else drawn, ())
    size = draft.dimensions
    strokes: list[Stroke] = []
    places = set_in(draft, face)
    trunk = _Trunk(draft, face, places)
    # the wearer's left lies at the viewer's right of the front
    sides: dict[Hand, int] = {"left": 1, "right": -1} if face == "front" else {"left": -1, "right": 1}
    sleeved = draft.choices.sleeve.shape != "none"
    outline = trunk.outline()
    step, tinctures = apart(outline), sleeve_tinctures(draft)
    if sleeved:
        for hand, sign in sides.items():
            arm, *lines = _Arm(draft, hand, sign).outline(face)
            strokes += [arm, *in_tincture(arm.points, tinctures.get(hand), shown, step), *lines]
    strokes.append(Stroke("garment", outline, True))
    strokes += field_strokes(draft, face, outline, trunk.bend, shown)
    if face == "front":
        strokes.append(Stroke("garment back", trunk.back_neck(), True))
    if collar := draft.choices.neck.collar:
        if face == "front":
            strokes.append(Stroke("garment back", shift(trunk.back_neck(), 0.0, collar), True))
        strokes.append(Stroke("garment", trunk.collar(), True))
    strokes += charge_strokes(draft, face, outline, trunk.bend, shown)
    seams = trunk.seams()
    if draft.adornment.bands or draft.adornment.repeats:
        strokes += trunk.bands(outline, seams)
        for hand, sign in sides.items():
            strokes += _Arm(draft, hand, sign).bands(hand) if sleeved else []
    strokes += seams
    if sleeved and size.gusset:
        strokes += [_Arm(draft, hand, sign).gusset() for hand, sign in sides.items()]
    return Drawing(tuple(strokes), ())


class _Trunk:
    """Half the body as rays: each line of the cloth runs down, turned aside by what is set in inside it."""

    def __init__(self, draft: Draft, face: Face, places: list[SetIn]) -> None:
        self.draft, self.face, self.places = draft, face, places
        size = draft.dimensions
        self.length = size.length
        self.half = size.panel_width / 2
        self.arm = size.length - size.armhole
        self.wide = self.half + (size.side_panel / 2)
        own, other = (inner_turn(set_in(draft, f)) for f in (face, "back" if face == "front" else "front"))
        self.share = (own + other) / 2 / own if own else 1.0
        self.spare = 0.0 if own else other / 2

    @property
    def bend(self) -> Bend:
        """From the flat cloth to where it lies in the picture."""
        return bending([(place.x, place.gores, self._fan(place)) for place in self.places if place.name != "side"])

    def _fan(self, place: SetIn) -> float:
        """The turn of a place as it lies: both faces lie on each other, so what one adds is shared by the other."""
        return fan(place) * (1.0 if place.name == "side" else self.share)

    def ray(self, x: float, top: float, turn: float, pivot: float) -> Line:
        """Down the line at ``x`` from ``top``, turned aside by ``turn`` below ``pivot``."""
        run = pivot
        foot = (x + run * math.sin(turn), pivot - run * math.cos(turn))
        return ((x, top), (x, pivot), foot) if top - pivot > 1e-6 else ((x, pivot), foot)

    def _stations(self) -> list[tuple[float, float, float, bool]]:
        """(x, pivot, turn, seam) of the drawn lines of the right half, from the centre out."""
        out: list[tuple[float, float, float, bool]] = []
        turn = 0.0
        for place in sorted(self.places, key=lambda p: p.x):
            before = turn
            if place.name == "side":
                turn += self._fan(place)
                out.append((place.x, place.gores, before, True))
                out.append((place.x, place.gores, turn, False))
            elif place.x == 0:
                turn += self._fan(place)
                out.append((0.0, place.gores, turn, True))
            else:
                turn += self._fan(place)
                out.append((place.x, place.gores, before, True))
                out.append((place.x, place.gores, turn, True))
        return out

    def _edge(self) -> Line:
        """The right outer edge from the armpit down to the hem."""
        flare = self.draft.choices.body.flare / 2 if self.draft.dimensions.side_panel else 0.0
        inner = self.spare + sum(self._fan(p) for p in self.places if p.name != "side")
        side = next((p for p in self.places if p.name == "side"), None)
        own = self._fan(side) if side else 0.0
        if own or inner:
            both = [*set_in(self.draft, "front"), *set_in(self.draft, "back")]
            pivot = min(self.arm, side.gores if own and side else max(p.gores for p in both))
        else:
            pivot = self.arm
        turn = inner + own
        reach = pivot * math.sin(turn) + flare
        return (
            (self.wide, self.arm),
            (self.wide, pivot),
            (self.wide + reach, pivot - pivot * math.cos(turn)),
        )

    def _neck(self, face: Face) -> Line:
        """Right half of the neck from the centre to the shoulder line."""
        return tuple(sorted(neck_curve(self.draft, face, self.length)))

    def outline(self) -> Line:
        """The whole outline, counter-clockwise from the centre of the hem."""
        right = self._right()
        return (*right, *backwards(mirror(p for p in right if p[0] > 1e-6)))

    def _right(self) -> Line:
        edge = self._edge()
        hem_end = edge[-1]
        hem = self._hem(hem_end)
        neck = self._neck(self.face)
        shoulder: list[Point] = [(self.half, self.arm)] if self.draft.dimensions.side_panel else []
        return (*hem, *backwards(edge)[1:], *shoulder, (self.half, self.length), *backwards(neck))

    def _hem(self, end: Point) -> Line:
        """Panels level, gores in arcs about their points, from the centre to the side."""
        out: list[Point] = [(0.0, 0.0)]
        turn = 0.0
        for place in sorted(self.places, key=lambda p: p.x):
            if not place.gores:
                continue
            after = turn + self._fan(place)
            out += arc((place.x, place.gores), place.gores, turn - math.pi / 2, after - math.pi / 2)
            turn = after
        if not out[1:] or math.dist(out[-1], end) > 0.5:
            out.append(end)
        else:
            out[-1] = end
        return tuple(point for i, point in enumerate(out) if i == 0 or math.dist(point, out[i - 1]) > 1e-6)

    def bands(self, outline: Line, seams: list[Stroke]) -> list[Stroke]:
        """What is put on the body."""
        hem = self._hem(self._edge()[-1])
        seen = body_seen(self.draft, self.face, outline, hem, self._neck(self.face), self._edge(), seams)
        return [*bands_on_body(self.draft, seen), *motifs_on_body(self.draft, self.face, seen)]

    def back_neck(self) -> Line:
        """The inside of the back, seen through the front neck."""
        front, back = self._neck("front"), self._neck("back")
        right = (*front, *backwards(back))
        return (*right, *backwards(mirror(p for p in right if p[0] > 1e-6)))

    def collar(self) -> Line:
        """The band as it stands on this face's neck."""
        right = self._neck(self.face)
        neck = (*backwards(mirror(p for p in right if p[0] > 1e-6)), *right)
        return (*neck, *((x, y + self.draft.choices.neck.collar) for x, y in backwards(neck)))

    def seams(self) -> list[Stroke]:
        out: list[Stroke] = []
        draft, size = self.draft, self.draft.dimensions

        def both(role: str, line: Line) -> None:
            out.append(Stroke(role, line))  # type: ignore[arg-type]
            if any(abs(x) > 1e-6 for x, _ in line):
                out.append(Stroke(role, mirror(line)))  # type: ignore[arg-type]

        neck_y = self._neck(self.face)[0][1]
        seam_from = neck_y
        if any(closure.at == f"centre-{self.face}" for closure in draft.choices.closures):
            seam_from = max(0.0, neck_y - opened_down(draft, self.face, self.length))
            both("opening", ((0.0, neck_y), (0.0, seam_from)))
        seam_to = max((p.gores for p in self.places if p.x == 0), default=0.0)
        if (seam_from < neck_y or draft.choices.body.centre_seam in (self.face, "both")) and seam_from > seam_to:
            both("seam", ((0.0, seam_from), (0.0, seam_to)))
        if size.side_panel:
            pivot = next((p.gores for p in self.places if p.name == f"side-{self.face}"), 0.0)
            inner = sum(self._fan(p) for p in self.places if p.x < self.half)
            both(
                "seam",
                self.ray(
                    self.half,
                    self.arm,
                    inner,
                    min(self.arm, pivot or (self.arm if not inner else self._edge()[1][1])),
                ),
            )
        if self.draft.choices.sleeve.shape != "none":
            both("seam", ((self.half, self.length), (self.half, self.arm)))
        for x, pivot, turn, seam in self._stations():
            if pivot and seam:
                both("seam", self.ray(x, pivot, turn, pivot))
        for place in self.places:
            if place.split:
                turn = sum(self._fan(p) for p in self.places if p.x < place.x)
                line = self.ray(place.x, place.split, turn + (self._fan(place) / 2 if place.x else 0.0), place.split)
                both("opening", line)
            if place.count > 1 and place.x == 0 and place.gores:
                both("seam", ((0.0, place.gores), (0.0, 0.0)))
        if size.neck_slit and self.face == ("back" if draft.choices.neck.slit == "back" else "front"):
            x = slit_x(draft)
            top = min(neck_curve(draft, self.face, self.length), key=lambda p: (abs(p[0] - abs(x)), p[1]))[1]
            out.append(Stroke("opening", ((x, top + draft.choices.neck.collar), (x, top - size.neck_slit))))
        edge = max(x for x, _ in self._neck(self.face))
        for x, opened in open_shoulders(draft, self.face):
            out.append(Stroke("opening", ((x * edge, self.length), (x * (edge + opened), self.length))))
        return out


class _Arm:
    """One sleeve, folded along its top, hanging from the shoulder."""

    def __init__(self, draft: Draft, hand: Hand, sign: int) -> None:
        size, self.sleeve = draft.dimensions, draft.choices.sleeve
        self.draft, self.size, self.sign, self.long = draft, size, sign, size.sleeve_lengths[hand]
        self.armpit: Point = (size.panel_width / 2 + size.side_panel / 2, size.length - size.armhole)

    def at(self, far: float, deep: float) -> Point:
        """A point ``far`` along the top of the arm and ``deep`` below it, on the right of the picture."""
        a = math.radians(ARM_ANGLE)
        x = self.size.panel_width / 2 + math.cos(a) * far - math.sin(a) * deep
        return (x, self.size.length - math.sin(a) * far - math.cos(a) * deep)

    def _stroke(self, role: Role, line: Line, closed: bool) -> Stroke:
        return Stroke(role, tuple((self.sign * x, y) for x, y in line), closed)

    def _under_cuff(self) -> Point:
        return self.at(self.long + self.sleeve.drop, (self.size.cuff + self.sleeve.elbow_gore) / 2)

    def outline(self, face: Face) -> list[Stroke]:
        """The sleeve; from behind also the seam behind the arm."""
        size = self.size
        lower = [self.at(self.long * 0.5, size.elbow_width / 2)] if size.elbow_width else []
        side = [self.armpit] if size.side_panel else []
        arm = (size.panel_width / 2, self.armpit[1])
        line = (self.at(0.0, 0.0), self.at(self.long, 0.0), self._under_cuff(), *lower, *side, arm)
        out = [self._stroke("garment", line, True)]
        if self.sleeve.seam == "back" and face == "back":
            share = 1.0 if size.side_panel else 0.5
            deep = size.cuff / 2 * share * 2 * size.armhole / size.sleeve_top
            start = (size.panel_width / 2, size.length - share * size.armhole)
            out.append(self._stroke("seam", (start, self.at(self.long, deep)), False))
        return out

    def bands(self, hand: Hand) -> list[Stroke]:
        """What is put on the sleeve."""
        outline = self.outline("front")[0].points
        cuff = tuple((self.sign * x, y) for x, y in (self.at(self.long, 0.0), self._under_cuff()))

        def at(far: float, deep: float) -> Point:
            x, y = self.at(far, deep)
            return self.sign * x, y

        seen = SleeveSeen(outline, at, self.long, cuff)
        return [*bands_on_sleeve(self.draft, hand, seen), *motifs_on_sleeve(self.draft, hand, seen)]

    def gusset(self) -> Stroke:
        """The gusset folded under the arm: along the body's side and along the sleeve's under edge."""
        x, y = self.armpit
        edges = [edge for piece in self.draft.pieces if piece.place == "gusset" for edge in piece.edges]
        sides = {edge.id.split("-")[0]: math.dist(edge.points[0], edge.points[-1]) for edge in edges}
        cuff = self._under_cuff()
        share = min(1.0, sides["sleeve"] / math.dist((x, y), cuff))
        tip = (x + (cuff[0] - x) * share, y + (cuff[1] - y) * share)
        return self._stroke("garment", ((x, y), (x, y - sides["body"]), tip), True)
