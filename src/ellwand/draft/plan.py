"""The plan of one garment: all its numbers, and what is set into each line down the body."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

from ellwand.draft.arm import Arm, arm_of
from ellwand.draft.neck import NeckLine, neck_of, slit_of
from ellwand.draft.seamline import SeamLine
from ellwand.draft.size import (
    Sized,
    Trunk,
    armhole_of,
    gore_of,
    heights_above_floor,
    length_of,
    trunk_of,
)
from ellwand.errors import CannotDraft
from ellwand.model.choices import Choices
from ellwand.model.draft import Dimensions, Note
from ellwand.model.piece import EdgeKind
from ellwand.model.wearer import HANDS, Hand, Wearer
from ellwand.units import format_length, round_near

PAIRED: Final = ("side", "side-front", "side-back", "panel-front", "panel-back")
"""Places that a garment has on both its sides."""
SIDE_OPENING: Final = 25.0
"""A side opening runs this far down from the armpit (cm), or as far as the seam allows: common practice."""

Key = tuple[str, str]
"""(place, hand); hand is '' on the centre lines."""


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything that the drawing needs; lengths in cm."""

    choices: Choices
    dimensions: Dimensions
    trunk: Trunk
    arms: Mapping[Hand, Arm]
    neck: NeckLine
    fold: bool
    halves: Mapping[str, bool]
    side_panels: str
    lines: Mapping[Key, SeamLine]
    notes: tuple[Note, ...]

    @property
    def arm(self) -> Arm:
        """What both arms share: the sleeve's top and the gusset; the length of the longer."""
        return max(self.arms.values(), key=lambda arm: arm.length)

    def in_seam(self, place: str) -> bool:
        """Whether a line is a seam; otherwise it is a slit cut into a panel."""
        if place.startswith("panel"):
            return False
        if place == "centre-front":
            return self.halves["front"]
        if place == "centre-back":
            return self.halves["back"]
        return True


def plan_of(choices: Choices, wearer: Wearer) -> Plan:
    """Settle every number.

    Raises CannotDraft, naming the choice to change, when no such garment can be cut.
    """
    grid = choices.sewing.chalk
    notes: list[Note] = []
    length = length_of(choices, wearer, grid)
    above_floor = heights_above_floor(wearer)
    hem_height = wearer["nape_to_floor"] - length
    levels = {name: height - hem_height for name, height in above_floor.items()}
    armhole = armhole_of(choices, wearer, grid)
    if length < armhole + 12:
        raise CannotDraft(
            "garment.length",
            f"{format_length(length)} from the shoulder ends too near the armhole, which is"
            f" {format_length(armhole)} deep",
            f"make it at least {format_length(math.ceil(armhole + 12))}",
        )
    gores = [gore_of(gore, levels, grid, f"garment.gores[{i + 1}]") for i, gore in enumerate(choices.gores)]
    splits = _splits(choices, levels, grid)
    side_panels = _side_panels(choices)
    _closures_have_openings(choices)
    open_at: set[str] = {closure.at for closure in choices.closures}
    halves = _halves(choices, open_at, notes)
    fold = choices.body.shoulder == "fold"
    if fold and halves["front"] != halves["back"]:
        fold = False
        notes.append(Note("fold-with-one-centre-seam", "body"))
    hip = levels["hip"]
    widened = _widened(gores, choices, length - armhole, hip)
    hip_counts = hip > -grid and not any(height >= hip for height in splits.values())
    trunk = trunk_of(choices, wearer, grid, widened, hip_counts, notes)
    drop = (trunk.panel - wearer["across_shoulder"]) / 2
    arms = {
        hand: arm_of(choices, wearer, grid, armhole, trunk.side_panel, drop, side_panels == "halves", wearer.arm(hand))
        for hand in HANDS
    }
    arm = max(arms.values(), key=lambda each: each.length)
    neck = neck_of(choices, wearer, grid, notes)
    if 2 * neck.half_width > trunk.panel - 4:
        raise CannotDraft(
            "garment.neck",
            f"the opening, {format_length(2 * neck.half_width)} wide, leaves no shoulder on a panel of"
            f" {format_length(trunk.panel)}",
            'choose less ease, or shape = "keyhole"',
        )
    lines = _lines(choices, length, armhole, arm, neck, gores, splits, halves, side_panels, open_at, notes)
    dimensions = Dimensions(
        grid=grid,
        length=length,
        panel_width=trunk.panel,
        side_panel=trunk.side_panel,
        armhole=armhole,
        sleeve_top=arm.top,
        sleeve_lengths=MappingProxyType({hand: each.length for hand, each in arms.items()}),
        elbow_width=arm.elbow,
        cuff=arm.cuff,
        cuff_opening=max(each.opening for each in arms.values()),
        gusset=arm.gusset,
        neck_target=neck.target,
        neck_slit=neck.slit,
        shoulder_drop=drop,
        levels=MappingProxyType(levels),
        body_girth=trunk.girth,
    )
    return Plan(
        choices,
        dimensions,
        trunk,
        MappingProxyType(arms),
        neck,
        fold,
        MappingProxyType(halves),
        side_panels,
        lines,
        tuple(notes),
    )


def _splits(choices: Choices, levels: Mapping[str, float], grid: float) -> dict[str, float]:
    out: dict[str, float] = {}
    for i, split in enumerate(choices.splits):
        where = f"garment.splits[{i + 1}]"
        if split.place in out:
            raise CannotDraft(f"{where}.place", f"{split.place} is split twice", "name each place once")
        height = split.height if isinstance(split.height, float) else levels[split.height]
        height = round_near(height, grid)
        if height < 2:
            raise CannotDraft(
                f"{where}.height",
                f"the hem lies at or above the {split.height}, so nothing is left to split"
                if isinstance(split.height, str)
                else f"{format_length(height)} is too short for a split",
                "lengthen the garment or leave the split out",
            )
        out[split.place] = height
    return out


def _closures_have_openings(choices: Choices) -> None:
    at = [closure.at for closure in choices.closures]
    twice = next((place for place in at if at.count(place) > 1), None)
    if twice:
        raise CannotDraft("garment.closures", f"the {twice} is closed twice", "name each opening once")
    if "neck slit" in at and slit_of(choices.neck) == "none":
        raise CannotDraft(
            "garment.closures",
            "there is no neck slit to close",
            'choose neck.shape = "keyhole", or leave the closure out',
        )
    if "cuffs" in at and choices.sleeve.shape == "none":
        raise CannotDraft("garment.closures", "without sleeves there are no cuffs to close", "leave the closure out")


def _halves(choices: Choices, open_at: set[str], notes: list[Note]) -> dict[str, bool]:
    seam = choices.body.centre_seam
    front = seam in ("front", "both")
    if "centre-front" in open_at and not front:
        front = True
        notes.append(Note("centre-seam-for-closure", "body"))
    return {"front": front, "back": seam in ("back", "both")}


def _side_panels(choices: Choices) -> str:
    """'' for wide panels, else 'whole' or 'halves'."""
    body = choices.body
    if body.cut == "wide panels":
        wrong = [g.place for g in choices.gores if g.place in ("side-front", "side-back")]
        if wrong:
            raise CannotDraft(
                "garment.gores",
                f"wide panels have no {wrong[0]} seam",
                'choose place = "side", or cut = "shoulder panels"',
            )
        if body.flare:
            raise CannotDraft(
                "garment.body.flare",
                "only side panels can flare",
                'choose cut = "shoulder panels", or set gores',
            )
        return ""
    needs = [f"garment.gores place = {g.place!r}" for g in choices.gores if g.place == "side"]
    needs += [f"garment.splits place = {s.place!r}" for s in choices.splits if s.place == "side"]
    needs += ["garment.closures at = 'side'" for c in choices.closures if c.at == "side"]
    if isinstance(choices.sleeve.gusset, float) and choices.sleeve.gusset > 0 and choices.sleeve.shape != "none":
        needs.append("garment.sleeve.gusset")
    if body.side_panel == "whole" and needs:
        raise CannotDraft(
            "garment.body.side_panel",
            f"a whole side panel has no seam for {needs[0]}",
            'choose side_panel = "halves"',
        )
    return "halves" if body.side_panel == "halves" or needs else "whole"


def _widened(gores: list[Sized], choices: Choices, side: float, hip: float) -> float:
    """What gores and flares add to the girth at the height ``hip`` above the hem (cm)."""
    if hip <= 0:
        return 0.0
    total = sum(
        gore.base * (gore.start - hip) / gore.start * (2 if gore.place in PAIRED else 1)
        for gore in gores
        if gore.start > hip
    )
    return total + 2 * choices.body.flare * max(0.0, side - hip) / side


def _lines(
    choices: Choices,
    length: float,
    armhole: float,
    arm: Arm,
    neck: NeckLine,
    gores: list[Sized],
    splits: dict[str, float],
    halves: dict[str, bool],
    side_panels: str,
    open_at: set[str],
    notes: list[Note],
) -> Mapping[Key, SeamLine]:
    tops: dict[str, tuple[EdgeKind, float]] = {
        "side": ("side seam", length - armhole - arm.gusset),
        "side-front": ("panel seam", length - armhole),
        "side-back": ("panel seam", length - armhole),
        "centre-front": ("centre seam", length - neck.front_drop),
        "centre-back": ("centre seam", length - neck.back_drop),
        "panel-front": ("centre seam", length - neck.front_drop),
        "panel-back": ("centre seam", length - neck.back_drop),
    }
    places = ["centre-front", "centre-back", "panel-front", "panel-back"]
    places += ["side-front", "side-back"] if side_panels else []
    places += ["side"] if side_panels != "whole" else []
    out: dict[Key, SeamLine] = {}
    for place in places:
        kind, top = tops[place]
        line = _fill(place, kind, top, gores, splits, notes)
        if place == "centre-front":
            line = _with_neck_slit(line, neck, halves["front"])
            if "centre-front" in open_at:
                line = replace(line, split=line.top, slit=0.0)
            _middle_must_open(line)
        for hand in HANDS if place in PAIRED else ("",):
            here = line
            if place == "side" and hand == "left" and "side" in open_at:
                here = _with_side_opening(line)
            out[place, hand] = here
    return MappingProxyType(out)


def _fill(
    place: str, kind: EdgeKind, top: float, gores: list[Sized], splits: dict[str, float], notes: list[Note]
) -> SeamLine:
    here = [gore for gore in gores if gore.place == place]
    split = splits.get(place, 0.0)
    if split > top - 1:
        raise CannotDraft(
            "garment.splits",
            f"a split {format_length(split)} high at the {place} runs past the top of its seam,"
            f" {format_length(top)} above the hem",
            "make it lower",
        )
    if not here:
        return SeamLine(place, kind, top, split=split)
    starts = {gore.start for gore in here}
    if len(starts) > 1:
        raise CannotDraft(
            "garment.gores",
            f"the gores at the {place} start at different heights, so they cannot be sewn to each other",
            "give them one start",
        )
    start = starts.pop()
    if start > top - 1:
        if place in ("side", "side-front", "side-back"):
            notes.append(Note("gore-to-armpit", place, {"asked": start, "start": top}))
            start = top
        else:
            raise CannotDraft(
                "garment.gores",
                f"a gore {format_length(start)} high at the {place} runs into the neck",
                "start it lower",
            )
    bases: list[tuple[float, bool]] = []
    for gore in here:
        if gore.make == "halves" or (gore.make == "either" and split and len(here) == 1):
            bases += [(gore.base / 2, True), (gore.base / 2, True)]
        else:
            bases.append((gore.base, False))
    line = SeamLine(place, kind, top, start, tuple(bases), split)
    _middle_must_open(line)
    return line


def _middle_must_open(line: SeamLine) -> None:
    if line.split and len(line.bases) % 2:
        raise CannotDraft(
            "garment.splits",
            f"the split at the {line.place} would run up the middle of a whole gore",
            'choose make = "halves" for that gore',
        )


def _with_neck_slit(line: SeamLine, neck: NeckLine, seam: bool) -> SeamLine:
    if not neck.slit:
        return line
    room = line.top - max(line.filled, line.split) - neck.slit
    if neck.slit_x == 0 and room < 3:
        raise CannotDraft(
            "garment.neck.slit",
            f"the neck slit, {format_length(neck.slit)} long, runs into what is set below it at the centre front",
            "lower the gore or split, or move the slit to the left or right",
        )
    return replace(line, slit=neck.slit) if seam and neck.slit_x == 0 else line


def _with_side_opening(line: SeamLine) -> SeamLine:
    room = line.top - max(line.filled, line.split)
    opening = min(SIDE_OPENING, room)
    if opening < 8:
        raise CannotDraft(
            "garment.closures",
            "no side seam is left to open above the gore or split",
            "start the gore lower or open the garment elsewhere",
        )
    return replace(line, opening=opening)
