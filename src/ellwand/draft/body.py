"""Front and back: whole or in halves, in one length over the shoulder or with a shoulder seam.

Frame while drawing: the centre line is x = 0, the wearer's left is x > 0; the front runs from its hem at y = 0
up to the shoulder line at y = L, the back on from there to its hem at y = 2L.  The back is drawn in its own
frame (hem at 0, seen from outside) and turned by half a turn about (0, L).
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from dataclasses import replace
from typing import Final, Literal

from ellwand.draft.blank import Blank, Book, Run, climb, walked_back
from ellwand.draft.plan import Plan
from ellwand.draft.seamline import HALF_SLIT, SeamLine, Segment
from ellwand.geometry.lines import Line, Point, backwards, chain, length, mirror, shift, split, turn
from ellwand.model.draft import EdgeRef
from ellwand.model.piece import EdgeKind, Guide, Level
from ellwand.model.wearer import HANDS

Face = Literal["front", "back"]
NECK_ALLOWANCE: Final = 1.0
"""A wider allowance will not turn on a tight curve (cm): common practice, no source."""

Sides = dict[tuple[str, str, str], dict[str, EdgeRef]]
"""(place, hand, the viewer's side of the line) -> its edges by tag."""
Spots = dict[tuple[str, str, str], EdgeRef]
"""(face, hand, what) -> armhole, gusset, shoulder."""


def allowance_for(plan: Plan, kind: EdgeKind) -> float:
    """Allowance (cm) outside an edge of this kind."""
    sewing = plan.choices.sewing
    if kind == "hem":
        return sewing.hem
    if kind == "cuff":
        return min(sewing.hem, 2.0)
    if kind == "neck":
        return min(sewing.allowance, NECK_ALLOWANCE)
    return sewing.allowance


def opposite(hand: str) -> str:
    """The other hand, or the viewer's other side."""
    return "right" if hand == "left" else "left"


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


# --- runs -----------------------------------------------------------------------------------------------


def _side(plan: Plan, face: Face, hand: str) -> list[Run]:
    """The wearer's left side of a face from the hem to the shoulder, with the edges of ``hand``, named plainly."""
    x, y = plan.trunk.panel / 2, 0.0
    segments: list[Segment] = []
    if plan.side_panels:
        line = plan.lines[f"side-{face}", hand]
        segments += [(f"{line.place}-{tag}", kind, size) for tag, kind, size in line.segments()]
    else:
        line = plan.lines["side", hand]
        segments += [(f"side-{tag}", kind, size) for tag, kind, size in line.segments()]
        if plan.arm.gusset:
            segments.append(("gusset", "gusset", plan.arm.gusset))
    segments.append(("armhole", "armhole", plan.dimensions.armhole))
    out = []
    for name, kind, size in segments:
        out.append(Run(f"{face}-{name}", kind, ((x, y), (x, y + size)), allowance_for(plan, kind)))
        y += size
    return out


def _to_back(runs: Iterable[Run], length_: float) -> list[Run]:
    """Runs of the back's left side, drawn upward at x > 0, brought into the common frame (still upward)."""
    return [
        replace(run, points=tuple((x, 2 * length_ - y) for x, y in backwards(run.points)))
        for run in reversed(list(runs))
    ]


def _other_side(runs: list[Run]) -> list[Run]:
    """The mirror image of a left side, walked downward."""
    return [replace(run, points=backwards(mirror(run.points))) for run in reversed(runs)]


def _named(runs: Iterable[Run], hand: str) -> list[Run]:
    """The same runs with the hand in their names, for a panel that holds both sides."""
    return [replace(run, id=run.id.replace("-", f"-{hand}-", 1)) for run in runs]


def _slits(plan: Plan, face: Face, half: bool) -> list[tuple[float, SeamLine, str]]:
    """Slits cut into this face from the hem: (x in the face's own frame, line, hand), from left to right."""
    out = []
    quarter = plan.trunk.panel / 4
    left = 1 if face == "front" else -1
    for hand, sign in (("left", left), ("right", -left)):
        line = plan.lines[f"panel-{face}", hand]
        if line.has_lips() and not (half and hand == "right"):
            out.append((sign * quarter, line, hand))
    centre = plan.lines[f"centre-{face}", ""]
    if centre.has_lips() and not plan.in_seam(centre.place):
        out.append((0.0, centre, ""))
    return sorted(out, key=lambda slit: slit[0])


def _hem(plan: Plan, face: Face, half: bool) -> list[Run]:
    """The lower edge in the face's own frame from left to right, with the lips of its slits."""
    reach = plan.trunk.panel / 2
    start, end = -reach, reach
    if half:
        start, end = (0.0, reach) if face == "front" else (-reach, 0.0)
    out: list[Run] = []
    x = start
    slits = _slits(plan, face, half)
    for i, (at, line, hand) in enumerate(slits):
        out.append(_hem_run(plan, face, i if slits else None, x, at - HALF_SLIT))
        height = max(line.filled, line.split)
        stem = f"{face}-{line.place}" + (f"-{hand}" if hand and not half else "")
        out += _lip(stem + "-viewer-left", line, ((at - HALF_SLIT, 0.0), (at, height)))
        out += _lip(stem + "-viewer-right", line, ((at + HALF_SLIT, 0.0), (at, height)), down=True)
        x = at + HALF_SLIT
    out.append(_hem_run(plan, face, len(slits) if slits else None, x, end))
    return out


def _hem_run(plan: Plan, face: Face, number: int | None, start: float, end: float) -> Run:
    name = f"{face}-hem" if number is None else f"{face}-hem-{number + 1}"
    return Run(name, "hem", ((start, 0.0), (end, 0.0)), plan.choices.sewing.hem, turned=True)


def _lip(stem: str, line: SeamLine, up: Line, *, down: bool = False) -> list[Run]:
    """One lip of a slit cut into a panel: no allowance of its own."""
    runs = climb(stem, up, line.lips(), 0.0)
    return walked_back(runs) if down else runs


def _neck(plan: Plan, face: Face) -> Line:
    """The wearer's left half of the neck on this face in the common frame, from the centre front backward."""
    return shift(plan.neck.front if face == "front" else plan.neck.back, 0.0, plan.dimensions.length)


def _neck_runs(plan: Plan, curve: Line, name: str, slit_x: float | None) -> list[Run]:
    """A stretch of neck as runs, with a slit cut down from it at ``slit_x`` (None: no slit here)."""
    allowance = allowance_for(plan, "neck")
    if slit_x is None:
        return [Run(name, "neck", curve, allowance)]
    mouth = [_crossing(curve, slit_x - HALF_SLIT), _crossing(curve, slit_x + HALF_SLIT)]
    lengths = sorted(at for at, _ in mouth)
    first, _, last = split(curve, lengths)
    top = 0.5 * (first[-1][1] + last[0][1])
    tip: Point = (slit_x, top - plan.neck.slit)
    return [
        Run(f"{name}-1", "neck", first, allowance),
        Run(f"{name}-slit-1", "neck slit", (first[-1], tip), 0.0),
        Run(f"{name}-slit-2", "neck slit", (tip, last[0]), 0.0),
        Run(f"{name}-2", "neck", last, allowance),
    ]


def _crossing(curve: Line, x: float) -> tuple[float, Point]:
    """Where the front of a neck curve first passes ``x``, lowest point first: (length along it, point)."""
    walked = 0.0
    best: tuple[float, Point] | None = None
    for a, b in itertools.pairwise(curve):
        step = length((a, b))
        if min(a[0], b[0]) <= x <= max(a[0], b[0]) and abs(b[0] - a[0]) > 1e-12:
            t = (x - a[0]) / (b[0] - a[0])
            point = (x, a[1] + (b[1] - a[1]) * t)
            if best is None or point[1] < best[1][1]:
                best = (walked + step * t, point)
        walked += step
    if best is None:
        raise ValueError("the slit misses the neck")
    return best


# --- rings ----------------------------------------------------------------------------------------------


def _back_runs(runs: list[Run], length_: float) -> list[Run]:
    """Runs drawn in the back's own frame, brought into the common frame."""
    return [replace(run, points=shift(turn(run.points, 180), 0.0, 2 * length_)) for run in runs]


def _whole(plan: Plan, faces: tuple[Face, ...]) -> Blank:
    size = plan.dimensions.length
    ring: list[Run] = []
    holes: tuple[tuple[Run, ...], ...] = ()
    slit_x = plan.neck.slit_x if plan.neck.slit and not _slit_in_seam(plan) else None
    left = {face: _side(plan, face, "left") for face in faces}
    right = {face: _side(plan, face, "right") for face in faces}
    if faces == ("front", "back"):
        ring += _hem(plan, "front", False) + _named(left["front"], "left")
        ring += _named(_to_back(left["back"], size), "left")
        ring += _back_runs(_hem(plan, "back", False), size)
        ring += _other_side(_named(_to_back(right["back"], size), "right"))
        ring += _other_side(_named(right["front"], "right"))
        half = chain([_neck(plan, "front"), _neck(plan, "back")])
        # clockwise from the centre back: down the wearer's left to the front, up the right
        around = chain([backwards(half), mirror(half)])
        holes = (tuple(_close_neck(_neck_runs(plan, around, "neck", slit_x))),)
    elif faces == ("front",):
        curve = chain([backwards(_neck(plan, "front")), mirror(_neck(plan, "front"))])
        ring += _hem(plan, "front", False) + _named(left["front"], "left")
        ring += _shoulder_and_neck(plan, "front", curve, slit_x)
        ring += _other_side(_named(right["front"], "right"))
    else:
        curve = chain([mirror(_neck(plan, "back")), backwards(_neck(plan, "back"))])
        ring += _named(_to_back(left["back"], size), "left") + _back_runs(_hem(plan, "back", False), size)
        ring += _other_side(_named(_to_back(right["back"], size), "right"))
        ring += _shoulder_and_neck(plan, "back", curve, None)
        ring = _back_runs(ring, size)
    return Blank(
        faces[0] if len(faces) == 1 else "body",
        "body",
        tuple(ring),
        holes,
        _levels(plan, faces),
        _guides(plan, faces, False),
    )


def _close_neck(runs: list[Run]) -> list[Run]:
    """A neck hole starts at the centre back; with a slit its last run and its first are one edge."""
    if len(runs) == 1:
        return runs
    first, *middle, last = runs
    return [*middle, replace(first, id="neck", points=chain([last.points, first.points]))]


def _shoulder_and_neck(plan: Plan, face: Face, curve: Line, slit_x: float | None) -> list[Run]:
    """Along the top of a front (from the wearer's left) or of a back (from the wearer's right)."""
    size, reach = plan.dimensions.length, plan.trunk.panel / 2
    allowance = allowance_for(plan, "shoulder")
    first, second = ("left", "right") if face == "front" else ("right", "left")
    sign = 1.0 if face == "front" else -1.0
    return [
        Run(f"{face}-{first}-shoulder", "shoulder", ((sign * reach, size), curve[0]), allowance),
        *_neck_runs(plan, curve, f"{face}-neck", slit_x),
        Run(f"{face}-{second}-shoulder", "shoulder", (curve[-1], (-sign * reach, size)), allowance),
    ]


def _slit_in_seam(plan: Plan) -> bool:
    return plan.in_seam("centre-front") and plan.neck.slit_x == 0


def _half(plan: Plan, faces: tuple[Face, ...], hand: str) -> Blank:
    """The wearer's left half of one face or both, with the edges of ``hand``."""
    size, reach = plan.dimensions.length, plan.trunk.panel / 2
    slit_here = plan.neck.slit and plan.neck.slit_x * (1 if hand == "left" else -1) > 0
    slit_x = abs(plan.neck.slit_x) if slit_here else None
    ring: list[Run] = []
    if "front" in faces:
        ring += _hem(plan, "front", True) + _side(plan, "front", hand)
    if "back" in faces:
        ring += _to_back(_side(plan, "back", hand), size)
        ring += _back_runs(_hem(plan, "back", True), size)
        ring += _centre(plan, "back")
    allowance = allowance_for(plan, "shoulder")
    if faces == ("front", "back"):
        curve = backwards(chain([_neck(plan, "front"), _neck(plan, "back")]))
        ring += _neck_runs(plan, curve, "neck", slit_x) + _centre(plan, "front")
    elif faces == ("front",):
        curve = backwards(_neck(plan, "front"))
        ring.append(Run("front-shoulder", "shoulder", ((reach, size), curve[0]), allowance))
        ring += _neck_runs(plan, curve, "front-neck", slit_x) + _centre(plan, "front")
    else:
        curve = backwards(_neck(plan, "back"))
        ring += _neck_runs(plan, curve, "back-neck", None)
        ring.append(Run("back-shoulder", "shoulder", (curve[-1], (reach, size)), allowance))
        ring = _back_runs(ring, size)
    name = f"{faces[0]} half" if len(faces) == 1 else "body half"
    if slit_here and "front" in faces:
        name += " with the slit"
    return Blank(name, "body", tuple(ring), (), _levels(plan, faces), _guides(plan, faces, True))


def _centre(plan: Plan, face: Face) -> list[Run]:
    """The centre edge of a left half, walked toward the neck at the back and away from it at the front."""
    size = plan.dimensions.length
    line = plan.lines[f"centre-{face}", ""]
    runs, y = [], 0.0
    for tag, kind, step in line.segments():
        runs.append(Run(f"{line.place}-{tag}", kind, ((0.0, y), (0.0, y + step)), allowance_for(plan, kind)))
        y += step
    if face == "front":
        return walked_back(runs)
    return [replace(run, points=tuple((0.0, 2 * size - at) for _, at in run.points)) for run in runs]


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
    if not plan.side_panels and plan.arm.gusset:
        spots[face, hand, "gusset"] = EdgeRef(part, f"{stem}gusset")


def _enter_slits(plan: Plan, face: Face, part: str, sides: Sides, half_of: str | None) -> None:
    for _, line, hand in _slits(plan, face, half_of is not None):
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
