"""Sleeves and gussets.  Drawn for the wearer's left: front edge at the left, cuff below; the right is mirrored.

A sleeve is a tube cut open along its long seam.  Its top and its cuff are walked in the same share of their widths:
the shoulder line lies ``behind`` from the back edge, the underarm half a width further on.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shapely import Polygon

from ellwand.draft.arm import Arm
from ellwand.draft.blank import Blank, Book, Run, climb
from ellwand.draft.gusset import gusset_pieces
from ellwand.draft.head import head_line
from ellwand.draft.joins import Spots, allowance_for
from ellwand.draft.plan import Plan
from ellwand.draft.seamline import Segment
from ellwand.errors import CannotDraft
from ellwand.geometry.flare import flare
from ellwand.geometry.lines import Line, Point, backwards, chain, length, mirror, shift
from ellwand.language import _
from ellwand.model.draft import EdgeRef
from ellwand.model.wearer import HANDS, Hand


def draw_sleeves(plan: Plan, book: Book, spots: Spots) -> None:
    """Add both sleeves, their elbow gores and gussets, and enter their edges."""
    for hand in HANDS:
        _add_sleeve(plan, book, spots, hand)
        if plan.arms[hand].gore:
            _add_gore(plan, book, spots, hand)
    if plan.arm.gusset:
        _add_gussets(plan, book, spots)


def _add_sleeve(plan: Plan, book: Book, spots: Spots, hand: Hand) -> None:
    drawn = _Drawn(plan, plan.arms[hand])
    if plan.choices.sleeve.pieces != "two":
        ring = (*drawn.cuff(), *drawn.back_edge(), *drawn.top_behind(), *drawn.top_before(), *drawn.front_edge())
        _does_not_cross(ring)
        part = book.add(f"sleeve-{hand}", Blank("sleeve", "sleeve", ring), mirrored=hand == "right", where=hand)
        _enter(spots, hand, part, ring)
        return
    arms_differ = plan.arms["left"] != plan.arms["right"]
    alike = abs(drawn.arm.behind - drawn.arm.top / 2) < 1e-6
    for face, ring in (("front", drawn.front_half()), ("back", drawn.back_half())):
        _does_not_cross(ring)
        # alike halves are mirror images, so their edges are named without telling front from back
        plain = tuple(replace(run, id=_plain(run.id, face)) for run in ring) if alike else ring
        words = ([hand] if arms_differ else []) + ([] if alike else [face])
        blank = Blank("half sleeve", "sleeve", plain)
        mirrored = (hand == "right") != (alike and face == "back")
        drawn_as = replace(blank, ring=_mirrored(plain)) if alike and face == "back" else blank
        part = book.add(f"sleeve-{hand}-{face}", drawn_as, mirrored=mirrored, where=" ".join(words))
        for run, named in zip(ring, plain, strict=True):
            spots["sleeve", hand, run.id] = EdgeRef(part, named.id)


def _does_not_cross(ring: Sequence[Run]) -> None:
    """Raises CannotDraft where a sleeve is too short for its head."""
    if not Polygon(chain([run.points for run in ring])).is_valid:
        raise CannotDraft(
            "garment.sleeve.length",
            _("the sleeve is so short that its shaped head would run into its cuff"),
            _('choose a longer sleeve, or head = "straight"'),
        )


def _plain(name: str, face: str) -> str:
    return "-".join(word for word in name.split("-") if word != face)


def _mirrored(ring: Sequence[Run]) -> tuple[Run, ...]:
    """The mirror image of a ring, again walked with the cloth on the left hand."""
    return tuple(replace(run, points=backwards(mirror(run.points))) for run in reversed(ring))


def _enter(spots: Spots, hand: Hand, part: str, ring: Sequence[Run]) -> None:
    for run in ring:
        spots["sleeve", hand, run.id] = EdgeRef(part, run.id)


class _Drawn:
    """One sleeve's edges as runs, in the order they are walked; x = 0 is the middle of the whole piece."""

    def __init__(self, plan: Plan, arm: Arm) -> None:
        self.plan, self.arm = plan, arm
        self.armhole, self.low = (arm.top - plan.dimensions.side_panel) / 2, plan.dimensions.side_panel / 2
        self.high = arm.length - arm.rise
        self.seam = allowance_for(plan, "underarm seam")

    def _at_cuff(self, x: float) -> Point:
        """Where the line that starts at ``x`` on the top comes to the cuff."""
        shoulder = self.arm.top / 2 - self.arm.behind
        away = abs(x - shoulder) / (self.arm.top / 2)
        return (x * self.arm.cuff / self.arm.top, -self.arm.drop * (away if away <= 1 else 2 - away))

    def cuff(self) -> list[Run]:
        """From front to back: lowest under the arm, highest over it."""
        half, shoulder = self.arm.top / 2, self.arm.top / 2 - self.arm.behind
        xs = [-half, shoulder, half]
        if shoulder > 1e-6:
            xs.insert(1, shoulder - half)
        return [self._cuff_run("cuff", xs if self.arm.drop else [-half, half])]

    def _cuff_run(self, name: str, xs: list[float]) -> Run:
        points = tuple(self._at_cuff(x) for x in xs)
        return Run(name, "cuff", points, allowance_for(self.plan, "cuff"), turned=True)

    def back_edge(self) -> list[Run]:
        """The long seam's back edge, upward."""
        arm = self.arm
        corner, end = self._at_cuff(arm.top / 2), (arm.top / 2, self.high)
        bend = (arm.elbow / 2, arm.elbow_height)
        up: Line = (corner, bend, end) if arm.elbow else (corner, end)
        gore = self.gore_side(up)
        segments: list[Segment] = [
            ("opening", "opening", arm.opening),
            ("gore", "underarm seam", gore),
            ("seam", "underarm seam", length(up) - arm.opening - gore - arm.gusset),
            ("gusset", "gusset", arm.gusset),
        ]
        return climb("underarm-back", up, [each for each in segments if each[2] > 1e-6], self.seam)

    def gore_side(self, up: Line | None = None) -> float:
        """How far up the long seam the elbow gore reaches (cm)."""
        arm = self.arm
        if not arm.gore:
            return 0.0
        if up is None:
            up = tuple(point for run in self.back_edge() for point in run.points)
        if arm.elbow:
            return length(up[:2])
        return length(up) * arm.elbow_height / self.high

    def front_edge(self) -> list[Run]:
        """The same in front, downward."""
        return [replace(run, id=run.id.replace("back", "front")) for run in _mirrored(self.back_edge())]

    def _run(self, name: str, points: Line) -> list[Run]:
        return [Run(name, "armhole", points, self.seam)] if length(points) > 1e-6 else []

    def top_behind(self) -> list[Run]:
        """The top from the back edge to the shoulder line."""
        crown = self.arm.top / 2 - self.arm.behind
        if self.arm.behind > self.armhole + 1e-6:
            armpit = crown + self.armhole
            low = self._run("armhole-back-low", ((self.arm.top / 2, self.high), (armpit, self.high)))
            return [*low, *self._run("armhole-back", self._rise(crown))]
        if self.arm.behind < self.armhole - 1e-6:
            return self._run("armhole-back", ((self.arm.top / 2, self.high), (crown, self.high)))
        return self._run("armhole-back", self._rise(crown))

    def _rise(self, crown: float) -> Line:
        return shift(head_line(self.armhole, self.arm.rise), crown, self.high)

    def top_before(self) -> list[Run]:
        """The top from the shoulder line to the front edge: beyond the underarm lies what is sewn to the back."""
        crown, end = self.arm.top / 2 - self.arm.behind, -self.arm.top / 2
        fall = tuple((2 * crown - x, y) for x, y in backwards(self._rise(crown)))
        xs = [crown - self.armhole, crown - self.armhole - self.low]
        out = [*self._run("armhole-front", fall), *self._level("armhole-front-low", xs[0], max(xs[1], end))]
        if xs[1] > end + 1e-6:
            name = "armhole-back-low" if self.low else "armhole-behind"
            out += self._level(name, xs[1], end)
        return out

    def _level(self, name: str, start: float, end: float) -> list[Run]:
        return self._run(name, ((start, self.high), (end, self.high)))

    # --- in two halves, joined along the shoulder line

    def _over(self) -> Line:
        """The seam along the top of the arm, upward."""
        crown = self.arm.top / 2 - self.arm.behind
        return (self._at_cuff(crown), (crown, self.arm.length))

    def front_half(self) -> tuple[Run, ...]:
        """From the front edge to the shoulder line."""
        half, crown = self.arm.top / 2, self.arm.top / 2 - self.arm.behind
        xs = [-half, crown] if crown <= 1e-6 or not self.arm.drop else [-half, crown - half, crown]
        over = Run("over-front", "sleeve seam", self._over(), self.seam)
        return (self._cuff_run("cuff-front", xs), over, *self.top_before(), *self.front_edge())

    def back_half(self) -> tuple[Run, ...]:
        """From the shoulder line to the back edge."""
        half, crown = self.arm.top / 2, self.arm.top / 2 - self.arm.behind
        over = Run("over-back", "sleeve seam", backwards(self._over()), self.seam)
        return (self._cuff_run("cuff-back", [crown, half]), *self.back_edge(), *self.top_behind(), over)


def _add_gore(plan: Plan, book: Book, spots: Spots, hand: Hand) -> None:
    """A gore from the elbow down: its sides as long as the stretch of seam they enter, its base an arc."""
    arm = plan.arms[hand]
    drawn = _Drawn(plan, arm)
    side = length(next(run.points for run in drawn.back_edge() if run.id.endswith("gore")))
    shape = flare(0.0, side, arm.gore)
    hem, point = shape.hem(), shape.corner()
    ring = (
        Run("cuff", "cuff", hem, allowance_for(plan, "cuff")),
        Run("gore-right", "underarm seam", (hem[-1], point), drawn.seam),
        Run("gore-left", "underarm seam", (point, hem[0]), drawn.seam),
    )
    part = book.add(f"sleeve-{hand}-gore", Blank("elbow gore", "sleeve", ring), mirrored=hand == "right", where=hand)
    # walking round the arm from front to back one comes to the sleeve's back edge, then to the gore's left
    spots["gore", hand, "back"], spots["gore", hand, "front"] = EdgeRef(part, "gore-left"), EdgeRef(part, "gore-right")


def _add_gussets(plan: Plan, book: Book, spots: Spots) -> None:
    shape = plan.choices.sleeve.gusset_shape
    blanks = gusset_pieces(shape, plan.arm.kite, allowance_for(plan, "gusset"))
    for hand in HANDS:
        for face, blank in blanks.items():
            part = book.add(
                "-".join(["gusset", hand, *([face] if face else [])]),
                blank,
                mirrored=(hand == "right") != (face == "back"),
            )
            for run in blank.ring:
                spots["gusset", hand, f"{run.id}-{face}" if face else run.id] = EdgeRef(part, run.id)
