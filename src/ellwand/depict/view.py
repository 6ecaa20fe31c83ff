"""The sewn garment lying flat, drawn from the draft's own numbers."""

from __future__ import annotations

import math

from ellwand.depict.setting_in import Face, SetIn, fan, inner_turn, set_in
from ellwand.geometry.lines import Line, Point, arc, backwards, mirror
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing, Stroke
from ellwand.model.wearer import Hand

ARM_ANGLE = 38.0
"""How far the sleeves hang below the shoulder line in the picture (degrees)."""


def garment_view(draft: Draft, face: Face) -> Drawing:
    """The garment laid flat, seen from the front or from behind, hem at y ≈ 0, in cm.

    Gores fan out from their points: each half of the width they add turns the cloth beside it aside.
    """
    size = draft.dimensions
    strokes: list[Stroke] = []
    places = set_in(draft, face)
    trunk = _Trunk(draft, face, places)
    # the wearer's left lies at the viewer's right of the front
    sides: dict[Hand, int] = {"left": 1, "right": -1} if face == "front" else {"left": -1, "right": 1}
    sleeved = draft.choices.sleeve.shape != "none"
    if sleeved:
        for hand, sign in sides.items():
            strokes += _sleeve(draft, hand, sign)
    strokes.append(Stroke("garment", trunk.outline(), True))
    if face == "front":
        strokes.append(Stroke("garment back", trunk.back_neck(), True))
    strokes += trunk.seams()
    if sleeved and size.gusset:
        strokes += [_gusset(draft, hand, sign) for hand, sign in sides.items()]
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
        return tuple(sorted(_neck_curve(self.draft, face, self.length)))

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

    def back_neck(self) -> Line:
        """The inside of the back, seen through the front neck."""
        front, back = self._neck("front"), self._neck("back")
        right = (*front, *backwards(back))
        return (*right, *backwards(mirror(p for p in right if p[0] > 1e-6)))

    def seams(self) -> list[Stroke]:
        out: list[Stroke] = []
        draft, size = self.draft, self.draft.dimensions

        def both(role: str, line: Line) -> None:
            out.append(Stroke(role, line))  # type: ignore[arg-type]
            if any(abs(x) > 1e-6 for x, _ in line):
                out.append(Stroke(role, mirror(line)))  # type: ignore[arg-type]

        neck_y = self._neck(self.face)[0][1]
        if draft.choices.body.centre_seam in (self.face, "both"):
            both("seam", ((0.0, neck_y), (0.0, max((p.gores for p in self.places if p.x == 0), default=0.0))))
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
        if self.face == "front" and size.neck_slit:
            x = _slit_x(draft)
            top = min(_neck_curve(draft, "front", self.length), key=lambda p: abs(p[0] - abs(x)))[1]
            out.append(Stroke("opening", ((x, top), (x, top - size.neck_slit))))
        return out


def _neck_curve(draft: Draft, face: Face, length: float) -> list[Point]:
    """The sewn neck of a face, right half, with the shoulder line at y = ``length`` and the centre at x = 0."""
    for piece in draft.pieces:
        edges = [edge for edge in piece.edges if edge.kind == "neck"]
        if not edges or not piece.name.startswith(("body", face)):
            continue
        points = [p for edge in edges for p in edge.points]
        whole = not piece.name.startswith((f"{face} half", "body half"))
        xs = [x for x, _ in points]
        middle = (min(xs) + max(xs)) / 2 if whole else min(xs)
        fold = next((g.points[0][1] for g in piece.guides if g.name == "shoulder fold"), None)
        top = fold if fold is not None else max(y for _, y in points)
        if fold is None or face == "front":
            kept = [(x - middle, length + y - top) for x, y in points if y <= top + 1e-6]
        else:
            kept = [(x - middle, length - (y - top)) for x, y in points if y >= top - 1e-6]
        kept = [(max(0.0, x), y) for x, y in kept if x > -1e-6]
        low = min(y for _, y in kept)
        return sorted({*kept, (0.0, low)})
    raise ValueError("a garment without neck")


def _slit_x(draft: Draft) -> float:
    """Where the neck slit lies in the picture of the front: the wearer's left is at the viewer's right."""
    choice = draft.choices.neck.slit
    if choice not in ("left", "right"):
        return 0.0
    half = max(x for x, _ in _neck_curve(draft, "front", 0.0))
    return 0.6 * half if choice == "left" else -0.6 * half


def _sleeve(draft: Draft, hand: Hand, sign: int) -> list[Stroke]:
    """One sleeve, folded along its top, hanging from the shoulder; with the gusset showing under the arm."""
    size, long = draft.dimensions, draft.dimensions.sleeve_lengths[hand]
    a = math.radians(ARM_ANGLE)
    along, under = (math.cos(a), -math.sin(a)), (-math.sin(a), -math.cos(a))
    top: Point = (size.panel_width / 2, size.length)

    def at(far: float, deep: float) -> Point:
        x = top[0] + along[0] * far + under[0] * deep
        return (sign * x, top[1] + along[1] * far + under[1] * deep)

    cuff = [at(long, 0.0), at(long, size.cuff / 2)]
    lower = [at(long * 0.5, size.elbow_width / 2)] if size.elbow_width else []
    arm: Point = (sign * size.panel_width / 2, size.length - size.armhole)
    body: Point = (sign * (size.panel_width / 2 + size.side_panel / 2), size.length - size.armhole)
    return [Stroke("garment", (at(0.0, 0.0), *cuff, *lower, *([body] if size.side_panel else []), arm), True)]


def _gusset(draft: Draft, hand: Hand, sign: int) -> Stroke:
    """The gusset folded cornerwise under the arm: along the body's side and along the sleeve's under edge."""
    size, long = draft.dimensions, draft.dimensions.sleeve_lengths[hand]
    x, y = size.panel_width / 2 + size.side_panel / 2, size.length - size.armhole
    a = math.radians(ARM_ANGLE)
    cuff = (
        size.panel_width / 2 + math.cos(a) * long - math.sin(a) * size.cuff / 2,
        size.length - math.sin(a) * long - math.cos(a) * size.cuff / 2,
    )
    share = min(1.0, size.gusset / math.dist((x, y), cuff))
    tip = (x + (cuff[0] - x) * share, y + (cuff[1] - y) * share)
    return Stroke("garment", ((sign * x, y), (sign * x, y - size.gusset), (sign * tip[0], tip[1])), True)
