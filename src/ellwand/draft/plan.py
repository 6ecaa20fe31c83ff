"""The plan of one garment: all its numbers, and what is set into each line down the body."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from ellwand.draft.arm import Arm, arm_of
from ellwand.draft.back import deepest, dip_at, lowered_lines
from ellwand.draft.fill import PAIRED, Key, lines_of, stays_whole
from ellwand.draft.neck import NeckLine, leaves_shoulder, neck_of, slit_of
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
from ellwand.language import _
from ellwand.model.choices import Choices, plainest
from ellwand.model.draft import Dimensions, Note
from ellwand.model.wearer import HANDS, Hand, Wearer
from ellwand.units import format_length, round_near


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

    @property
    def behind(self) -> float:
        """How much of the back's armhole lies below a sleeve seam behind the arm (cm): only wide panels are cut so."""
        wide = not self.trunk.side_panel and self.arm.length > 0
        return max(0.0, self.arm.top / 2 - self.arm.behind) if wide else 0.0

    def dip(self, face: str, x: float) -> float:
        """How far (cm) the hem of a face lies below the front's level, ``x`` cm from the centre line."""
        side = "side-back" if self.side_panels else "side"
        reach = self.trunk.panel / 2 - self.lines[side, "left"].slot
        return dip_at(self.dimensions.back_dip, reach, x) if face == "back" else 0.0

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
    choices = plainest(choices)
    grid = choices.sewing.chalk
    notes: list[Note] = []
    length = length_of(choices, wearer, grid)
    above_floor = heights_above_floor(wearer)
    levels = _levels(choices, wearer, length, above_floor)
    slope = choices.body.shoulder_slope
    armhole = armhole_of(choices, wearer, grid)
    if length < armhole + slope + 12:
        raise CannotDraft(
            "garment.length",
            _(
                "{length} from the shoulder ends too near the armhole, which is {armhole} deep",
                length=format_length(length),
                armhole=format_length(armhole),
            ),
            _("make it at least {least}", least=format_length(math.ceil(armhole + slope + 12))),
        )
    gores = [
        gore_of(gore, levels, grid, f"garment.gores[{i + 1}]", choices.take) for i, gore in enumerate(choices.gores)
    ]
    splits = _splits(choices, levels, grid)
    side_panels = _side_panels(choices)
    _closures_have_openings(choices)
    open_at = _open_at(choices, levels, grid)
    halves = _halves(choices, open_at, notes)
    fold = choices.body.shoulder == "fold"
    if fold and halves["front"] != halves["back"]:
        fold = False
        notes.append(Note("fold-with-one-centre-seam", "body"))
    if fold and choices.neck.opening != "none":
        fold = False
        notes.append(Note("fold-with-open-shoulder", "body"))
    if fold and slope:
        raise CannotDraft(
            "garment.body.shoulder_slope",
            _("a body in one length has no seam to slope its shoulders by"),
            _('choose shoulder = "seam"'),
        )
    if choices.blouse:
        notes.append(Note("bloused", "body", {"blouse": choices.blouse, "length": length}))
    hip = levels["hip"]
    widened = _widened(gores, choices, length - slope - armhole, hip)
    hip_counts = hip > -grid and not any(height >= hip for height in splits.values())
    trunk = trunk_of(choices, wearer, grid, widened, hip_counts, notes)
    drop = (trunk.panel - wearer["across_shoulder"]) / 2
    arms = {
        hand: arm_of(choices, wearer, grid, armhole, trunk.side_panel, drop, side_panels == "halves", wearer.arm(hand))
        for hand in HANDS
    }
    arm = max(arms.values(), key=lambda each: each.length)
    neck = neck_of(choices, wearer, grid, notes)
    leaves_shoulder(neck, trunk.panel)
    _blunt_ones_in_seams(gores, halves, side_panels)
    lines = lines_of(length, slope, armhole, arm, neck, gores, splits, halves, side_panels, open_at, notes)
    stays_whole(lines)
    deep = deepest(choices)
    lines = lowered_lines(lines, deep, trunk.panel)
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
        shoulder_slope=slope,
        back_dip=deep,
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


def _blunt_ones_in_seams(gores: list[Sized], halves: Mapping[str, bool], side_panels: str) -> None:
    for gore in gores:
        face = gore.place.removeprefix("centre-")
        if gore.top and not (halves.get(face, False) or (gore.place == "side" and not side_panels)):
            raise CannotDraft(
                "garment.gores",
                _(
                    "a gore with a blunt top wants a slot between two straight panels, and the {place} has none",
                    place=gore.place,
                ),
                _(
                    'leave top out, choose body.centre_seam = "both" for the centres, or cut = "wide panels"'
                    " for the sides"
                ),
            )


def _levels(choices: Choices, wearer: Wearer, length: float, above_floor: Mapping[str, float]) -> dict[str, float]:
    """Heights of the body's levels above the hem (cm), on the cloth: a belt draws up cloth between bust and waist."""
    hem = wearer["nape_to_floor"] - length
    return {name: height - hem - (choices.blouse if name != "bust" else 0.0) for name, height in above_floor.items()}


def _splits(choices: Choices, levels: Mapping[str, float], grid: float) -> dict[str, float]:
    out: dict[str, float] = {}
    for i, split in enumerate(choices.splits):
        where = f"garment.splits[{i + 1}]"
        if split.place in out:
            raise CannotDraft(
                f"{where}.place", _("{place} is split twice", place=split.place), _("name each place once")
            )
        height = split.height if isinstance(split.height, float) else levels[split.height]
        height = round_near(height, grid)
        if height < 2:
            raise CannotDraft(
                f"{where}.height",
                _("the hem lies at or above the {level}, so nothing is left to split", level=split.height)
                if isinstance(split.height, str)
                else _("{height} is too short for a split", height=format_length(height)),
                _("lengthen the garment or leave the split out"),
            )
        out[split.place] = height
    return out


def _closures_have_openings(choices: Choices) -> None:
    at = [closure.at for closure in choices.closures]
    twice = next((place for place in at if at.count(place) > 1), None)
    if twice:
        raise CannotDraft(
            "garment.closures", _("the {place} is closed twice", place=twice), _("name each opening once")
        )
    if "neck slit" in at and slit_of(choices.neck) == "none":
        raise CannotDraft(
            "garment.closures",
            _("there is no neck slit to close"),
            _('choose neck.shape = "keyhole", or leave the closure out'),
        )
    if "shoulder" in at and choices.neck.opening == "none":
        raise CannotDraft(
            "garment.closures",
            _("there is no open shoulder to close"),
            _('choose neck.opening = "shoulder left", or leave the closure out'),
        )
    if "cuffs" in at and choices.sleeve.shape == "none":
        raise CannotDraft(
            "garment.closures", _("without sleeves there are no cuffs to close"), _("leave the closure out")
        )


def _open_at(choices: Choices, levels: Mapping[str, float], grid: float) -> dict[str, float]:
    """The places that are closed by a closure, with the height above the hem that a centre opens down to (cm)."""
    usual = {"centre-front": "hem", "centre-back": "hip"}
    ends = {each.at: usual.get(each.at, "hem") if each.to == "auto" else each.to for each in choices.closures}
    wrong = next((at for at, end in ends.items() if at not in usual and end != "hem"), None)
    if wrong:
        raise CannotDraft(
            "garment.closures",
            _("only a centre opens down to a level, not the {place}", place=wrong),
            _("leave to out of that closure"),
        )
    return {at: 0.0 if end == "hem" else max(0.0, round_near(levels[end], grid)) for at, end in ends.items()}


def _halves(choices: Choices, open_at: Mapping[str, float], notes: list[Note]) -> dict[str, bool]:
    seam = choices.body.centre_seam
    out = {face: seam in (face, "both") for face in ("front", "back")}
    opened = [face for face in out if f"centre-{face}" in open_at and not out[face]]
    if opened:
        notes.append(Note("centre-seam-for-closure", "body", {"face": " and ".join(opened)}))
    return {face: half or face in opened for face, half in out.items()}


def _side_panels(choices: Choices) -> str:
    """'' for wide panels, else 'whole' or 'halves'."""
    body = choices.body
    if body.cut == "wide panels":
        wrong = [g.place for g in choices.gores if g.place in ("side-front", "side-back")]
        if wrong:
            raise CannotDraft(
                "garment.gores",
                _("wide panels have no {place} seam", place=wrong[0]),
                _('choose place = "side", or cut = "shoulder panels"'),
            )
        if body.flare:
            raise CannotDraft(
                "garment.body.flare",
                _("only side panels can flare"),
                _('choose cut = "shoulder panels", or set gores'),
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
            _("a whole side panel has no seam for {key}", key=needs[0]),
            _('choose side_panel = "halves"'),
        )
    return "halves" if body.side_panel == "halves" or needs else "whole"


def _widened(gores: list[Sized], choices: Choices, side: float, hip: float) -> float:
    """What gores and flares add to the girth at the height ``hip`` above the hem (cm)."""
    if hip <= 0:
        return 0.0
    total = sum(
        (gore.base - gore.top) * (gore.start - hip) / gore.start * (2 if gore.place in PAIRED else 1)
        for gore in gores
        if gore.start > hip
    )
    return total + 2 * choices.body.flare * max(0.0, side - hip) / side
