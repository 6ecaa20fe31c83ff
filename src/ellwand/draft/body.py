"""Front and back: whole or in halves, in one length over the shoulder or with a shoulder seam.

The centre line is x = 0, the wearer's left is x > 0; in a body cut in one length the front runs from its hem at y = 0
up to the shoulder line at y = L, the back on from there to its hem at y = 2L.

A back that is longer dips below the front's hem level in the middle of its own hem only: both side seams stay equal,
and no shoulder seam is moved forward, which would take the neck and the sleeves with it.  On a sloped shoulder the
panels' edges are shorter by the slope below the armhole, whose depth stays.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from ellwand.draft.blank import Blank, Book, Run, walked_back
from ellwand.draft.joins import Face, Sides, Spots, allowance_for, opposite
from ellwand.draft.plan import Plan
from ellwand.draft.runs import (
    back_runs,
    centre_runs,
    half_neck,
    hem_runs,
    named,
    neck_runs,
    other_side,
    side_runs,
    slits,
    to_back,
)
from ellwand.geometry.lines import Line, backwards, chain, length, mirror, split
from ellwand.model.draft import EdgeRef
from ellwand.model.piece import Guide, Level
from ellwand.model.wearer import HANDS


def draw_body(plan: Plan, book: Book, sides: Sides, spots: Spots) -> None:
    """Add front and back to the book and enter every edge that something else is sewn to."""
    if plan.fold and plan.halves["front"]:
        for hand in HANDS:
            blank = _half(plan, ("front", "back"), hand)
            _enter_half(plan, book, blank, ("front", "back"), hand, f"body-{hand}", sides, spots)
        return
    if plan.fold:
        book.add("body", _whole(plan, ("front", "back")))
        for face in _FACES:
            _enter_whole(plan, face, "body", sides, spots)
        return
    for face in _FACES:
        if plan.halves[face]:
            for hand in HANDS:
                _enter_half(plan, book, _half(plan, (face,), hand), (face,), hand, f"{face}-{hand}", sides, spots)
        else:
            book.add(face, _whole(plan, (face,)))
            _enter_whole(plan, face, face, sides, spots)


_FACES: Final[tuple[Face, Face]] = ("front", "back")


# --- rings ----------------------------------------------------------------------------------------------


def _whole(plan: Plan, faces: tuple[Face, ...]) -> Blank:
    size = plan.dimensions.length
    ring: list[Run] = []
    holes: tuple[tuple[Run, ...], ...] = ()
    slit_x = plan.neck.slit_x if plan.neck.slit_face in faces and plan.neck.slit and not _slit_in_seam(plan) else None
    left = {face: side_runs(plan, face, "left") for face in faces}
    right = {face: side_runs(plan, face, "right") for face in faces}
    if faces == ("front", "back"):
        ring += hem_runs(plan, "front", False) + named(left["front"], "left")
        ring += named(to_back(left["back"], size), "left")
        ring += back_runs(hem_runs(plan, "back", False), size)
        ring += other_side(named(to_back(right["back"], size), "right"))
        ring += other_side(named(right["front"], "right"))
        half = chain([half_neck(plan, "front"), half_neck(plan, "back")])
        # clockwise, starting opposite the slit: down the wearer's left to the front, up the right to the back
        down, up = backwards(half), mirror(half)
        around = chain([up, down] if plan.neck.slit_face == "back" else [down, up])
        holes = (tuple(_close_neck(neck_runs(plan, around, "neck", slit_x))),)
    elif faces == ("front",):
        curve = chain([backwards(half_neck(plan, "front")), mirror(half_neck(plan, "front"))])
        ring += hem_runs(plan, "front", False) + named(left["front"], "left")
        ring += _shoulder_and_neck(plan, "front", curve, slit_x)
        ring += other_side(named(right["front"], "right"))
    else:
        curve = chain([mirror(half_neck(plan, "back")), backwards(half_neck(plan, "back"))])
        ring += named(to_back(left["back"], size), "left") + back_runs(hem_runs(plan, "back", False), size)
        ring += other_side(named(to_back(right["back"], size), "right"))
        ring += _shoulder_and_neck(plan, "back", curve, slit_x)
        ring = back_runs(ring, size)
    return Blank(
        faces[0] if len(faces) == 1 else "body",
        "body",
        tuple(ring),
        holes,
        _levels(plan, faces),
        _guides(plan, faces, False),
    )


def _close_neck(runs: list[Run]) -> list[Run]:
    """A neck hole starts opposite its slit; so with a slit its last run and its first are one edge."""
    if len(runs) == 1:
        return runs
    first, *middle, last = runs
    return [*middle, replace(first, id="neck", points=chain([last.points, first.points]))]


def _shoulder_and_neck(plan: Plan, face: Face, curve: Line, slit_x: float | None) -> list[Run]:
    """Along the top of a front (from the wearer's left) or of a back (from the wearer's right)."""
    reach, low = plan.trunk.panel / 2, _shoulder_point(plan, face)
    first, second = ("left", "right") if face == "front" else ("right", "left")
    sign = 1.0 if face == "front" else -1.0
    return [
        *_shoulder(plan, f"{face}-{first}-shoulder", first, ((sign * reach, low), curve[0])),
        *neck_runs(plan, curve, f"{face}-neck", slit_x),
        *walked_back(_shoulder(plan, f"{face}-{second}-shoulder", second, ((-sign * reach, low), curve[-1]))),
    ]


def _shoulder_point(plan: Plan, face: Face) -> float:
    """Its height in the common frame, where the back hangs upward."""
    slope = plan.dimensions.shoulder_slope
    return plan.dimensions.length + (-slope if face == "front" else slope)


def _shoulder(plan: Plan, name: str, hand: str, line: Line) -> list[Run]:
    """A shoulder from the arm to the neck: its seam, and beside the neck what is left open."""
    opened = plan.neck.open_shoulders.get(hand, 0.0)
    allowance = allowance_for(plan, "shoulder")
    if not opened:
        return [Run(name, "shoulder", line, allowance)]
    seam, beside = split(line, [length(line) - opened])
    return [Run(name, "shoulder", seam, allowance), Run(f"{name}-opening", "shoulder opening", beside, allowance)]


def _slit_in_seam(plan: Plan) -> bool:
    return plan.in_seam(f"centre-{plan.neck.slit_face}") and plan.neck.slit_x == 0


def _half(plan: Plan, faces: tuple[Face, ...], hand: str) -> Blank:
    """The wearer's left half of one face or both, with the edges of ``hand``."""
    size, reach = plan.dimensions.length, plan.trunk.panel / 2
    slit_here = plan.neck.slit and plan.neck.slit_x * (1 if hand == "left" else -1) > 0
    slit_x = abs(plan.neck.slit_x) if slit_here else None
    ring: list[Run] = []
    if "front" in faces:
        ring += hem_runs(plan, "front", True) + side_runs(plan, "front", hand)
    if "back" in faces:
        ring += to_back(side_runs(plan, "back", hand), size)
        ring += back_runs(hem_runs(plan, "back", True), size)
        ring += centre_runs(plan, "back")
    if faces == ("front", "back"):
        curve = backwards(chain([half_neck(plan, "front"), half_neck(plan, "back")]))
        ring += neck_runs(plan, curve, "neck", slit_x) + centre_runs(plan, "front")
    elif faces == ("front",):
        curve = backwards(half_neck(plan, "front"))
        ring += _shoulder(plan, "front-shoulder", hand, ((reach, _shoulder_point(plan, "front")), curve[0]))
        ring += neck_runs(plan, curve, "front-neck", slit_x) + centre_runs(plan, "front")
    else:
        curve = backwards(half_neck(plan, "back"))
        ring += neck_runs(plan, curve, "back-neck", None)
        ring += walked_back(_shoulder(plan, "back-shoulder", hand, ((reach, _shoulder_point(plan, "back")), curve[-1])))
        ring = back_runs(ring, size)
    name = f"{faces[0]} half" if len(faces) == 1 else "body half"
    if slit_here and "front" in faces:
        name += " with the slit"
    return Blank(name, "body", tuple(ring), (), _levels(plan, faces), _guides(plan, faces, True))


def _levels(plan: Plan, faces: tuple[Face, ...]) -> tuple[Level, ...]:
    if len(faces) == 2:
        return (Level(0.0, 1), Level(2 * plan.dimensions.length, -1))
    return (Level(0.0, 1),)


def _guides(plan: Plan, faces: tuple[Face, ...], half: bool) -> tuple[Guide, ...]:
    if len(faces) == 1:
        return ()
    reach, size = plan.trunk.panel / 2, plan.dimensions.length
    edge = plan.neck.at_shoulder
    out = [Guide("shoulder fold", ((edge, size), (reach, size)))]
    if not half:
        out.append(Guide("shoulder fold", ((-reach, size), (-edge, size))))
    return tuple(out)


# --- what is sewn to what -------------------------------------------------------------------------------


def _enter_side(plan: Plan, face: Face, hand: str, part: str, stem: str, sides: Sides, spots: Spots) -> None:
    place = f"side-{face}" if plan.side_panels else "side"
    line = plan.lines[place, hand]
    # seen from the wearer's left the front lies at the viewer's left, from the wearer's right at the right
    viewer = hand if face == "front" else opposite(hand)
    sides[place, hand, viewer] = {tag: EdgeRef(part, f"{stem}{place}-{tag}") for tag, _, _ in line.segments()}
    spots[face, hand, "armhole"] = EdgeRef(part, f"{stem}armhole")
    if face == "back" and plan.behind:
        spots[face, hand, "armhole-behind"] = EdgeRef(part, f"{stem}armhole-behind")
    if not plan.side_panels and plan.arm.gusset:
        spots[face, hand, "gusset"] = EdgeRef(part, f"{stem}gusset")


def _enter_slits(plan: Plan, face: Face, part: str, sides: Sides, half_of: str | None) -> None:
    for _, line, hand in slits(plan, face, half_of is not None):
        stem = f"{face}-{line.place}" + (f"-{hand}" if hand and half_of is None else "")
        wearers = half_of or hand
        for viewer in HANDS:
            # a mirrored half carries its viewer's sides the other way round
            drawn = opposite(viewer) if half_of == "right" else viewer
            sides[line.place, wearers, viewer] = {
                tag: EdgeRef(part, f"{stem}-viewer-{drawn}-{tag}") for tag, _, _ in line.lips()
            }


def _enter_whole(plan: Plan, face: Face, part: str, sides: Sides, spots: Spots) -> None:
    for hand in HANDS:
        _enter_side(plan, face, hand, part, f"{face}-{hand}-", sides, spots)
        if not plan.fold:
            spots[face, hand, "shoulder"] = EdgeRef(part, f"{face}-{hand}-shoulder")
    _enter_slits(plan, face, part, sides, None)


def _enter_half(
    plan: Plan,
    book: Book,
    blank: Blank,
    faces: tuple[Face, ...],
    hand: str,
    part: str,
    sides: Sides,
    spots: Spots,
) -> None:
    book.add(part, blank, mirrored=hand == "right")
    for face in faces:
        _enter_side(plan, face, hand, part, f"{face}-", sides, spots)
        if not plan.fold:
            spots[face, hand, "shoulder"] = EdgeRef(part, f"{face}-shoulder")
        _enter_slits(plan, face, part, sides, hand)
        line = plan.lines[f"centre-{face}", ""]
        viewer = opposite(hand) if face == "front" else hand
        sides[line.place, "", viewer] = {tag: EdgeRef(part, f"{line.place}-{tag}") for tag, _, _ in line.segments()}
