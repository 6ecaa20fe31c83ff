"""Does it hold: shoulders, points, slits and lengths that last and stay where they belong."""

from __future__ import annotations

import math
import re
from typing import Final

from ellwand.geometry.lines import length
from ellwand.model.draft import EdgeRef, whole_part
from ellwand.model.finding import Finding
from ellwand.model.wearer import HANDS
from ellwand.prove.sewn import Sewn, edges_of, hem_height, level_of, opens_through, splits_of

SHOULDER_STRIP: Final = 4.0
"""A narrower shoulder tears and rolls (cm): common practice, no source."""
NECK_INSIDE: Final = 8.0
"""A neck wider than the shoulders less this slips off (cm): common practice, no source."""
GORE_ROOM: Final = 3.0
"""Plain seam wanted above a gore's point (cm): common practice, no source."""
UNDERARM: Final = 5.0
"""Plain underarm seam wanted between gusset and cuff or opening (cm): common practice, no source."""
LONGEST_SLEEVE: Final = 1.3
"""A narrow sleeve longer than this share of the arm hampers the hand: common practice, no source."""
SAME: Final = 0.01


def holds(sewn: Sewn) -> tuple[Finding, ...]:
    """Shoulder, gores, slits and splits, underarm, sleeve and hem."""
    return (
        *_shoulder(sewn),
        *_gores(sewn),
        *_slit(sewn),
        *_splits(sewn),
        *_arm(sewn),
        *_hanging_corners(sewn),
        _hem(sewn),
    )


def _found(code: str, subject: str, good: bool, measured: float, needed: float, **values: float | str) -> Finding:
    return Finding(code, subject, "sound" if good else "look again", measured, needed, values=values)


def _shoulder(sewn: Sewn) -> tuple[Finding, Finding]:
    panel = sewn.draft.dimensions.panel_width
    half = 0.0
    for part in {ref.part for ref, _ in edges_of(sewn, "neck")}:
        piece = sewn.pieces[part]
        xs = [x for edge in piece.edges if edge.kind == "neck" for x, _ in edge.points]
        across = [x for x, _ in piece.sewn]
        whole = max(across) - min(across) > 0.75 * panel
        half = max(half, (max(xs) - min(xs)) / (2 if whole else 1))
    strip, limit = panel / 2 - half, sewn.wearer["across_shoulder"] - NECK_INSIDE
    shape = sewn.draft.choices.neck.shape
    return (
        _found("shoulder-strip", "shoulder", strip >= SHOULDER_STRIP - SAME, strip, SHOULDER_STRIP, shape=shape),
        _found("neck-width", "neck", 2 * half <= limit + SAME, 2 * half, limit, shape=shape),
    )


def _gores(sewn: Sewn) -> list[Finding]:
    to_look_at: dict[str, Finding] = {}
    room: dict[str, float] = {}
    to_armpit = {note.subject for note in sewn.draft.notes if note.code == "gore-to-armpit"}
    places = sorted((gore.place for gore in sewn.draft.choices.gores), key=len, reverse=True)
    for seam in sewn.draft.seams:
        if seam.kind != "gore to panel":
            continue
        gore, panel = (seam.a, seam.b) if seam.a.part.startswith("gore") else (seam.b, seam.a)
        place = next((place for place in places if gore.part.startswith(f"gore-{place}")), "")
        if sewn.edges[panel].allowance == 0:
            to_look_at[place] = Finding("gore-in-slit", place, "look again", length(sewn.edges[panel].points))
        elif left := _above(sewn, panel, "seam"):
            room[place] = min(left, room.get(place, math.inf))
        elif _above(sewn, panel, "opening"):
            to_look_at[place] = Finding("gore-at-opening", place, "look again")
        elif place not in to_armpit and not _above(sewn, panel, "split"):
            room[place] = 0.0
    grid = sewn.draft.dimensions.grid
    splits: set[str] = {split.place for split in sewn.draft.choices.splits}
    return [
        *to_look_at.values(),
        *(
            _found(
                "gore-room",
                place,
                left >= GORE_ROOM - SAME,
                left,
                GORE_ROOM,
                rounding=grid,
                splits=float(place in splits),
            )
            for place, left in room.items()
        ),
    ]


def _above(sewn: Sewn, panel: EdgeRef, tag: str) -> float:
    """The length (cm) of the edges of another kind on the line that a gore is set in; pieced panels counted whole."""
    stem = re.sub(r"(gore|slot)(-\d+)*$", "", panel.edge)
    wanted = re.compile(re.escape(stem + tag) + r"(-\d+)*$")
    whole = whole_part(panel.part)
    return math.fsum(
        length(edge.points)
        for ref, edge in sewn.edges.items()
        if whole_part(ref.part) == whole and wanted.fullmatch(ref.edge)
    )


def _hanging_corners(sewn: Sewn) -> list[Finding]:
    """How far the corners of gores cut straight below hang beneath the hem."""
    out: dict[str, float] = {}
    places = sorted((gore.place for gore in sewn.draft.choices.gores), key=len, reverse=True)
    for ref, edge in edges_of(sewn, "hem"):
        place = next((place for place in places if ref.part.startswith(f"gore-{place}")), "")
        if place and "corner" in ref.edge:
            out[place] = max(out.get(place, 0.0), length(edge.points))
    return [Finding("corners-hang", place, "look again", much) for place, much in out.items()]


def _slit(sewn: Sewn) -> list[Finding]:
    """The bottom of a neck slit against the waist."""
    tips = [
        level_of(sewn.pieces[ref.part], point) for ref, edge in edges_of(sewn, "neck slit") for point in edge.points
    ]
    if not tips:
        return []
    waist = sewn.draft.dimensions.levels["waist"]
    return [_found("slit-depth", "neck", min(tips) >= waist, min(tips) - waist, 0.0)]


def _splits(sewn: Sewn) -> list[Finding]:
    """Every split's top against the waist; one that runs on into an open front has none."""
    waist = sewn.draft.dimensions.levels["waist"]
    ends = {p: top for p, top in splits_of(sewn).items() if p != f"centre-{opens_through(sewn)}"}
    return [_found("split-top", place, top <= waist + SAME, top, waist) for place, top in ends.items()]


def _arm(sewn: Sewn) -> list[Finding]:
    choices, size = sewn.draft.choices, sewn.draft.dimensions
    if choices.sleeve.shape == "none":
        return []
    # the sleeve that is longest for its arm
    hand = max(HANDS, key=lambda each: (size.shoulder_drop + size.sleeve_lengths[each]) / sewn.wearer.arm(each))
    arm = sewn.wearer.arm(hand)
    reach, longest = size.shoulder_drop + size.sleeve_lengths[hand], LONGEST_SLEEVE * arm
    out = [_found("sleeve-length", "sleeves", reach <= longest + SAME, reach, longest, arm=arm, rounding=size.grid)]
    if size.gusset:
        seam = min(length(edge.points) for ref, edge in edges_of(sewn, "underarm seam"))
        values = {"gusset": size.gusset, "rounding": size.grid}
        out.append(_found("underarm-room", "sleeves", seam >= UNDERARM - SAME, seam, UNDERARM, **values))
    return out


def _hem(sewn: Sewn) -> Finding:
    height, size = hem_height(sewn), sewn.draft.dimensions
    if sewn.draft.choices.train:
        return Finding("trailing", "hem", "sound", size.back_dip, values={"trail": size.back_dip - height})
    height -= size.back_dip
    return _found("hem-clears", "hem", height >= 0, height, 0.0, length=size.length, rounding=size.grid)
