"""A hood: two sides, in one length over the crown or in two, with gores that widen it below the neck.

The Skjoldehamn hood (D. H. Løvlid 2009, as told at thepurplelotus.org and by S. Gjessing 1938): a main piece 58 × 60.3
and two squares of about 28 set on the corner, three pieces, hem about 138; the face slit stops 2.5 short.  We read it
as two sides of 29 × 60.3 in one length over the crown: level with the straight lower edges the hood is then
58 + 2 · 28 · √2 = 137.2 round.  Gores on the shoulders: Nockert's type 3 (11 hoods, cape 10 to 15, tail 47 to 68 × 2
to 6).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from ellwand.draft.blank import Blank, Book, Run
from ellwand.draft.others.shapes import Leg, walk
from ellwand.draft.seamline import HALF_SLIT
from ellwand.errors import CannotDraft
from ellwand.geometry.flare import flare
from ellwand.language import _
from ellwand.model.choices import Sewing, girth_over
from ellwand.model.draft import EdgeRef
from ellwand.model.others import Hood, HoodSize, round_shoulders
from ellwand.model.piece import Guide
from ellwand.model.wearer import HANDS, Wearer, upper
from ellwand.units import format_length, round_near, round_up

CROWN_EASE: Final = 7.0
"""From crown to neck the hood is so much longer than from crown to nape (cm): the Skjoldehamn hood's 60.3 less its
gore of 28 leaves 32.3, on a usual head of 25."""
CHIN: Final = 2.5
"""Seam below the face before the gores begin (cm): where the Skjoldehamn face slit stops."""
SHOULDER_EASE: Final = 6.0
"""The cape's girth over the shoulders (cm): common practice, no source."""
LEAST_GORE: Final = 8.0
"""A narrower triangle is not worth its seams (cm): common practice, no source."""


def draw_hood(hood: Hood, sewing: Sewing, beneath_mm: float, wearer: Wearer, book: Book) -> HoodSize:
    """Enter the hood's pieces and seams; returns its sizes (cm).

    Raises CannotDraft where gores, cape and liripipe leave no hood.
    """
    size = _sized(hood, sewing.chalk, beneath_mm, wearer)
    draw = _folded if hood.cut == "folded" else _halves
    draw(hood, size, sewing, book)
    if hood.liripipe:
        _tail(hood, sewing, book)
    return size


def _sized(hood: Hood, grid: float, beneath_mm: float, wearer: Wearer) -> HoodSize:
    width = round_up((upper(wearer.measures["head_girth"]) + hood.ease + girth_over(beneath_mm)) / 2, grid)
    cape = round_near(hood.cape, grid)
    height = round_near(wearer["height"] - wearer["nape_to_floor"] + CROWN_EASE + cape, grid)
    gore = _gore(hood, cape, 2 * width, grid, beneath_mm, wearer)
    if hood.gores == "squares" and gore > cape + CHIN:
        raise CannotDraft(
            "garment.hood.gore",
            _(
                "a square of {gore} reaches up into the face of a cape {cape} long",
                gore=format_length(gore),
                cape=format_length(cape),
            ),
            _("make it {most} or less, or the cape longer", most=format_length(math.floor(cape))),
        )
    if hood.gores == "shoulder" and gore > 2 * cape:
        raise CannotDraft(
            "garment.hood.gore",
            _("{gore} is too wide for a gore {cape} long", gore=format_length(gore), cape=format_length(cape)),
            _("make it {most} or less, or the cape longer", most=format_length(math.floor(2 * cape))),
        )
    if hood.liripipe and 2 * hood.liripipe_width > height - cape:
        raise CannotDraft(
            "garment.hood.liripipe_width", _("the tail is wider than the back of the head"), _("narrow it")
        )
    added = {"squares": gore * math.sqrt(2), "shoulder": gore, "none": 0.0}[hood.gores]
    return HoodSize(
        grid=grid,
        width=width,
        height=height,
        cape=cape,
        face=height - cape - CHIN,
        gore=gore,
        neck=2 * width,
        hem=2 * width + 2 * added,
    )


def _gore(hood: Hood, cape: float, neck: float, grid: float, beneath_mm: float, wearer: Wearer) -> float:
    if hood.gores == "none":
        return 0.0
    if hood.gore is not None:
        return round_near(hood.gore, grid)
    if hood.gores == "squares":
        return cape
    need = round_shoulders(wearer, cape) + SHOULDER_EASE + girth_over(beneath_mm)
    return min(round_up(max(LEAST_GORE, (need - neck) / 2), grid), 2 * cape)


def _hem(hood: Hood, size: HoodSize, sewing: Sewing, ends: tuple[str, str]) -> list[Leg]:
    """The lower edge of one side from x = 0 to its width, with a slit for a gore on the shoulder."""
    if hood.gores != "shoulder":
        return [Leg("hem", "hem", ((size.width, 0.0),), sewing.hem, True)]
    mid, first, second = size.width / 2, *ends
    return [
        Leg(f"hem-{first}", "hem", ((mid - HALF_SLIT, 0.0),), sewing.hem),
        Leg(f"gore-{first}", "gore seam", ((mid, size.cape),), 0.0),
        Leg(f"gore-{second}", "gore seam", ((mid + HALF_SLIT, 0.0),), 0.0),
        Leg(f"hem-{second}", "hem", ((size.width, 0.0),), sewing.hem),
    ]


def _named(runs: tuple[Run, ...], hand: str) -> list[Run]:
    return [Run(f"{run.id}-{hand}", run.kind, run.points, run.allowance, run.turned) for run in runs]


def _turned(runs: list[Run], width: float, height: float) -> list[Run]:
    """The same turned half round, lying above: the other side of a hood in one length."""
    return [
        Run(run.id, run.kind, tuple((width - x, height - y) for x, y in run.points), run.allowance, run.turned)
        for run in runs
    ]


def _folded(hood: Hood, size: HoodSize, sewing: Sewing, book: Book) -> None:
    """One length over the crown: the wearer's left side below, the face at the viewer's left."""
    w, h, seam = size.width, size.height, sewing.allowance
    square, tail = _square(hood, size), hood.liripipe_width if hood.liripipe else 0.0
    left = walk((0.0, 0.0), _hem(hood, size, sewing, ("front", "back")))
    up = walk(
        (w, 0.0),
        [
            Leg("gore-back-left", "gore seam", ((w, square),), seam),
            Leg("back-left", "neck seam", ((w, h - tail),), seam),
            Leg("tail-left", "tail seam", ((w, h),), seam),
            Leg("tail-right", "tail seam", ((w, h + tail),), seam),
            Leg("back-right", "neck seam", ((w, 2 * h - square),), seam),
            Leg("gore-back-right", "gore seam", ((w, 2 * h),), seam),
        ],
    )
    right = walk((0.0, 0.0), _hem(hood, size, sewing, ("back", "front")))
    down = walk(
        (0.0, 2 * h),
        [
            Leg("gore-front-right", "gore seam", ((0.0, 2 * h - square),), seam),
            Leg("front-right", "neck seam", ((0.0, h + size.face),), seam),
            Leg("face", "face", ((0.0, h - size.face),), seam),
            Leg("front-left", "neck seam", ((0.0, square),), seam),
            Leg("gore-front-left", "gore seam", ((0.0, 0.0),), seam),
        ],
    )
    ring = (*_named(left, "left"), *up, *_turned(_named(right, "right"), w, 2 * h), *down)
    part = book.add("hood", Blank("hood", "other", ring, guides=(Guide("fold", ((0.0, h), (w, h))),)))
    _sew(hood, size, sewing, book, lambda edge, hand: EdgeRef(part, f"{edge}-{hand}"))


def _halves(hood: Hood, size: HoodSize, sewing: Sewing, book: Book) -> None:
    """Two sides; the wearer's left is drawn, the face at the viewer's left."""
    w, h, seam = size.width, size.height, sewing.allowance
    square, tail = _square(hood, size), hood.liripipe_width if hood.liripipe else 0.0
    ring = walk(
        (0.0, 0.0),
        [
            *_hem(hood, size, sewing, ("front", "back")),
            Leg("gore-back", "gore seam", ((w, square),), seam),
            Leg("back", "neck seam", ((w, h - tail),), seam),
            Leg("tail", "tail seam", ((w, h),), seam),
            Leg("crown", "crown seam", ((0.0, h),), seam),
            Leg("face", "face", ((0.0, h - size.face),), seam),
            Leg("front", "neck seam", ((0.0, square),), seam),
            Leg("gore-front", "gore seam", ((0.0, 0.0),), seam),
        ],
    )
    parts: dict[str, str] = {
        hand: book.add(f"hood-{hand}", Blank("hood side", "other", ring), mirrored=hand == "right") for hand in HANDS
    }
    book.sew(EdgeRef(parts["left"], "crown"), EdgeRef(parts["right"], "crown"), "crown seam")
    _sew(hood, size, sewing, book, lambda edge, hand: EdgeRef(parts[hand], edge))


def _square(hood: Hood, size: HoodSize) -> float:
    return size.gore if hood.gores == "squares" else 0.0


At = Callable[[str, str], EdgeRef]
"""An edge of one side of the hood, by its name and the wearer's hand."""


def _sew(hood: Hood, size: HoodSize, sewing: Sewing, book: Book, at: At) -> None:
    """Front and back seams, gores, tail."""
    if size.height - size.face > _square(hood, size) + 1e-6:
        book.sew(at("front", "left"), at("front", "right"), "neck seam")
    book.sew(at("back", "left"), at("back", "right"), "neck seam")
    if hood.gores == "squares":
        _squares(size.gore, sewing, book, at)
    if hood.gores == "shoulder":
        _shoulder_gores(size, sewing, book, at)
    if hood.liripipe:
        for hand in HANDS:
            book.sew(at("tail", hand), EdgeRef("liripipe", f"root-{hand}"), "tail to hood")


def _squares(side: float, sewing: Sewing, book: Book, at: At) -> None:
    """A square in front and behind, its sewn corner up; right and left of it are the viewer's."""
    ring = walk(
        (0.0, 0.0),
        [
            Leg("hem-right", "hem", ((side, 0.0),), sewing.hem, True),
            Leg("right", "gore seam", ((side, side),), sewing.allowance),
            Leg("left", "gore seam", ((0.0, side),), sewing.allowance),
            Leg("hem-left", "hem", ((0.0, 0.0),), sewing.hem, True),
        ],
    )
    for face in ("front", "back"):
        gore = book.add(f"gore-{face}", Blank("square gore", "other", ring, small=True))
        for hand, opposite in (("left", "right"), ("right", "left")):
            # seen from in front the wearer's left is at the viewer's right
            viewer = opposite if face == "front" else hand
            book.sew(at(f"gore-{face}", hand), EdgeRef(gore, viewer), "square gore")


def _shoulder_gores(size: HoodSize, sewing: Sewing, book: Book, at: At) -> None:
    """A triangle in each slit; right and left of it are the viewer's, outside up."""
    cut = flare(0.0, math.hypot(HALF_SLIT, size.cape), size.gore)
    hem = cut.hem()
    ring = (
        Run("hem", "hem", hem, sewing.hem),
        Run("right", "gore seam", (hem[-1], cut.point), sewing.allowance),
        Run("left", "gore seam", (cut.point, hem[0]), sewing.allowance),
    )
    for hand in HANDS:
        gore = book.add(f"gore-{hand}", Blank("shoulder gore", "other", ring, small=True))
        # on the wearer's left side the front lies at the viewer's left
        front, back = ("left", "right") if hand == "left" else ("right", "left")
        book.sew(EdgeRef(gore, front), at("gore-front", hand), "shoulder gore")
        book.sew(EdgeRef(gore, back), at("gore-back", hand), "shoulder gore")


def _tail(hood: Hood, sewing: Sewing, book: Book) -> None:
    """The liripipe: a strip folded along its middle, its root below."""
    w, tall, seam = hood.liripipe_width, hood.liripipe, sewing.allowance
    ring = walk(
        (0.0, 0.0),
        [
            Leg("root-right", "tail seam", ((w, 0.0),), seam),
            Leg("root-left", "tail seam", ((2 * w, 0.0),), seam),
            Leg("side-left", "tail seam", ((2 * w, tall),), seam),
            Leg("tip-left", "tail seam", ((w, tall),), seam),
            Leg("tip-right", "tail seam", ((0.0, tall),), seam),
            Leg("side-right", "tail seam", ((0.0, 0.0),), seam),
        ],
    )
    book.add("liripipe", Blank("liripipe", "other", ring, small=True))
    for each in ("side", "tip"):
        book.sew(EdgeRef("liripipe", f"{each}-left"), EdgeRef("liripipe", f"{each}-right"), "tail seam")
