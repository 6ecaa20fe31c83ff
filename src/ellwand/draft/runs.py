"""The edges of front and back as runs: sides, hem with its slits, neck, centre.

Frame: the centre line is x = 0; a face is drawn with its hem at y = 0 and its shoulder line at y = L, seen from
outside.  In the common frame the front lies so, and the back turned by half a turn about (0, L), so that its hem is
at y = 2L.  A back that is longer dips below its hem level in the middle, by nothing at the side seams.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

from ellwand.draft.blank import Run, climb, walked_back
from ellwand.draft.head import armhole_line
from ellwand.draft.joins import Face, allowance_for
from ellwand.draft.plan import Plan
from ellwand.draft.seamline import HALF_SLIT, SeamLine, Segment
from ellwand.geometry.lines import Line, Point, backwards, length, mirror, shift, split, turn


def side_runs(plan: Plan, face: Face, hand: str) -> list[Run]:
    """The wearer's left side of a face from the hem to the shoulder, with the edges of ``hand``, named plainly."""
    line = plan.lines[f"side-{face}" if plan.side_panels else "side", hand]
    segments = [(f"{line.place}-{tag}", kind, size) for tag, kind, size in line.segments()]
    if plan.arm.gusset and not plan.side_panels:
        segments.append(("gusset", "gusset", plan.arm.kite.body))
    behind = plan.behind if face == "back" else 0.0
    if behind:
        segments.append(("armhole-behind", "armhole", behind))
    segments.append(("armhole", "armhole", plan.dimensions.armhole - behind))
    return _upward(plan, f"{face}-", segments, (plan.trunk.panel / 2 - line.slot, 0.0))


def _upward(plan: Plan, stem: str, segments: Sequence[Segment], start: Point, outward: float = 1.0) -> list[Run]:
    """Segments upward from ``start``: a blunt gore's slot steps aside, an armhole may be hollowed."""
    out, at = [], start
    for tag, kind, size in segments:
        x, y = at
        line: Line = (at, (x + outward * size, y) if tag.endswith("slot") else (x, y + size))
        if tag == "armhole" and plan.arm.hollow:
            line = shift(armhole_line(size, plan.arm.hollow), x, y)
        out.append(Run(f"{stem}{tag}", kind, line, allowance_for(plan, kind)))
        at = line[-1]
    return out


def centre_runs(plan: Plan, face: Face) -> list[Run]:
    """The centre edge of a left half, walked toward the neck at the back and away from it at the front."""
    line = plan.lines[f"centre-{face}", ""]
    runs = _upward(plan, f"{line.place}-", line.segments(), (line.slot, -line.dip), -1.0)
    if face == "front":
        return walked_back(runs)
    size = plan.dimensions.length
    return [replace(run, points=tuple((x, 2 * size - y) for x, y in run.points)) for run in runs]


def to_back(runs: Iterable[Run], length_: float) -> list[Run]:
    """Runs of the back's left side, drawn upward at x > 0, brought into the common frame (still upward)."""
    return [
        replace(run, points=tuple((x, 2 * length_ - y) for x, y in backwards(run.points)))
        for run in reversed(list(runs))
    ]


def back_runs(runs: list[Run], length_: float) -> list[Run]:
    """Runs drawn in the back's own frame, brought into the common frame."""
    return [replace(run, points=shift(turn(run.points, 180), 0.0, 2 * length_)) for run in runs]


def other_side(runs: list[Run]) -> list[Run]:
    """The mirror image of a left side, walked downward."""
    return [replace(run, points=backwards(mirror(run.points))) for run in reversed(runs)]


def named(runs: Iterable[Run], hand: str) -> list[Run]:
    """The same runs with the hand in their names, for a panel that holds both sides."""
    return [replace(run, id=run.id.replace("-", f"-{hand}-", 1)) for run in runs]


# --- the hem --------------------------------------------------------------------------------------------


def slits(plan: Plan, face: Face, half: bool) -> list[tuple[float, SeamLine, str]]:
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


def hem_runs(plan: Plan, face: Face, half: bool) -> list[Run]:
    """The lower edge in the face's own frame from left to right, with the lips of its slits."""
    side = f"side-{face}" if plan.side_panels else "side"
    end = plan.trunk.panel / 2 - plan.lines[side, "left"].slot
    start = -end
    if half:
        middle = plan.lines[f"centre-{face}", ""].slot
        start, end = (middle, end) if face == "front" else (start, -middle)
    out: list[Run] = []
    at_left: Point = (start, -plan.dip(face, start))
    cuts = slits(plan, face, half)
    for i, (at, line, hand) in enumerate(cuts):
        # both lips of a slit begin at one height
        left, right = ((at + aside, -plan.dip(face, at)) for aside in (-HALF_SLIT, HALF_SLIT))
        out.append(_hem_run(plan, face, i, at_left, left))
        stem = f"{face}-{line.place}" + (f"-{hand}" if hand and not half else "")
        tip = (at, max(line.filled, line.split))
        out += climb(stem + "-viewer-left", (left, tip), line.lips(), 0.0)
        out += walked_back(climb(stem + "-viewer-right", (right, tip), line.lips(), 0.0))
        at_left = right
    out.append(_hem_run(plan, face, len(cuts) if cuts else None, at_left, (end, -plan.dip(face, end))))
    return out


def _hem_run(plan: Plan, face: Face, number: int | None, start: Point, end: Point) -> Run:
    name = f"{face}-hem" if number is None else f"{face}-hem-{number + 1}"
    bits = max(4, math.ceil(end[0] - start[0])) if plan.dip(face, 0.0) else 1
    xs = [start[0] + (end[0] - start[0]) * i / bits for i in range(1, bits)]
    points = (start, *((x, -plan.dip(face, x)) for x in xs), end)
    return Run(name, "hem", points, plan.choices.sewing.hem, turned=bits == 1)


# --- the neck -------------------------------------------------------------------------------------------


def half_neck(plan: Plan, face: Face) -> Line:
    """The wearer's left half of the neck on this face in the common frame, from the centre front backward."""
    return shift(plan.neck.front if face == "front" else plan.neck.back, 0.0, plan.dimensions.length)


def neck_runs(plan: Plan, curve: Line, name: str, slit_x: float | None) -> list[Run]:
    """A stretch of neck in the common frame, with a slit cut from it toward the hem at ``slit_x`` (None: no slit)."""
    allowance = allowance_for(plan, "neck")
    if slit_x is None:
        return [Run(name, "neck", curve, allowance)]
    toward = -1.0 if plan.neck.slit_face == "front" else 1.0
    first, _, last = split(curve, sorted(_crossing(curve, x, toward) for x in (slit_x - HALF_SLIT, slit_x + HALF_SLIT)))
    mouth = 0.5 * (first[-1][1] + last[0][1])
    tip: Point = (slit_x, mouth + toward * plan.neck.slit)
    return [
        Run(f"{name}-1", "neck", first, allowance),
        Run(f"{name}-slit-1", "neck slit", (first[-1], tip), 0.0),
        Run(f"{name}-slit-2", "neck slit", (tip, last[0]), 0.0),
        Run(f"{name}-2", "neck", last, allowance),
    ]


def _crossing(curve: Line, x: float, toward: float) -> float:
    """How far along (cm) a neck curve passes ``x``; where it does so twice, on the face that lies ``toward``."""
    walked = 0.0
    found: list[tuple[float, float]] = []
    for a, b in itertools.pairwise(curve):
        step = length((a, b))
        if min(a[0], b[0]) <= x <= max(a[0], b[0]) and abs(b[0] - a[0]) > 1e-12:
            t = (x - a[0]) / (b[0] - a[0])
            found.append((toward * (a[1] + (b[1] - a[1]) * t), walked + step * t))
        walked += step
    if not found:
        raise ValueError("the slit misses the neck")
    return max(found, key=lambda each: each[0])[1]
