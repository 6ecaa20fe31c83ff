"""Sleeves and gussets.  Drawn for the wearer's left: front edge at the left, cuff below; the right is mirrored."""

from __future__ import annotations

from dataclasses import replace

from ellwand.draft.arm import Arm
from ellwand.draft.blank import Blank, Book, Run, climb
from ellwand.draft.body import Spots, allowance_for
from ellwand.draft.plan import Plan
from ellwand.draft.seamline import Segment
from ellwand.geometry.lines import Line, backwards, length, mirror
from ellwand.model.draft import EdgeRef
from ellwand.model.wearer import HANDS


def draw_sleeves(plan: Plan, book: Book, spots: Spots) -> None:
    """Add both sleeves and gussets and enter their edges."""
    for hand in HANDS:
        blank = _sleeve(plan, plan.arms[hand])
        part = book.add(f"sleeve-{hand}", blank, mirrored=hand == "right", where=hand)
        for run in blank.ring:
            spots["sleeve", hand, run.id] = EdgeRef(part, run.id)
    if not plan.arm.gusset:
        return
    square = _gusset(plan)
    for hand in HANDS:
        part = book.add(f"gusset-{hand}", square, mirrored=hand == "right")
        for run in square.ring:
            spots["gusset", hand, run.id] = EdgeRef(part, run.id)


def _sleeve(plan: Plan, arm: Arm) -> Blank:
    armhole = plan.dimensions.armhole
    half_top, half_cuff = arm.top / 2, arm.cuff / 2
    corner = (half_cuff, 0.0)
    up: Line = (corner, (half_top, arm.length))
    if arm.elbow:
        up = (corner, (arm.elbow / 2, arm.elbow_height), (half_top, arm.length))
    whole = length(up)
    segments: list[Segment] = [
        ("opening", "opening", arm.opening),
        ("seam", "underarm seam", whole - arm.opening - arm.gusset),
        ("gusset", "gusset", arm.gusset),
    ]
    segments = [segment for segment in segments if segment[2] > 1e-6]
    seam = allowance_for(plan, "underarm seam")
    back = climb("underarm-back", up, segments, seam)
    front = [
        replace(run, id=run.id.replace("back", "front"), points=backwards(mirror(run.points))) for run in reversed(back)
    ]
    xs = [half_top, armhole, 0.0, -armhole, -half_top]
    names = ["armhole-back-low", "armhole-back", "armhole-front", "armhole-front-low"]
    top = [
        Run(name, "armhole", ((a, arm.length), (b, arm.length)), seam)
        for name, a, b in zip(names, xs, xs[1:], strict=False)
        if a - b > 1e-6
    ]
    cuff = Run("cuff", "cuff", ((-half_cuff, 0.0), (half_cuff, 0.0)), allowance_for(plan, "cuff"), turned=True)
    return Blank("sleeve", "sleeve", (cuff, *back, *top, *front))


def _gusset(plan: Plan) -> Blank:
    side, seam = plan.arm.gusset, allowance_for(plan, "gusset")
    corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side), (0.0, 0.0)]
    # round from the front armpit: the top of the side seam, the back armpit, the top of the underarm seam
    names = ["body-front", "body-back", "sleeve-back", "sleeve-front"]
    ring = [Run(name, "gusset", (a, b), seam) for name, a, b in zip(names, corners, corners[1:], strict=False)]
    return Blank("gusset", "gusset", tuple(ring), small=True)
