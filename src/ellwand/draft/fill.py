"""What is set into each line down the body: gores, splits, openings, the neck slit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from ellwand.draft.arm import Arm
from ellwand.draft.neck import NeckLine
from ellwand.draft.seamline import SeamLine, Wedge
from ellwand.draft.size import Sized
from ellwand.errors import CannotDraft
from ellwand.language import _
from ellwand.model.draft import Note
from ellwand.model.names import named
from ellwand.model.piece import EdgeKind
from ellwand.model.wearer import HANDS
from ellwand.units import format_length

PAIRED: Final = ("side", "side-front", "side-back", "panel-front", "panel-back")
"""Places that a garment has on both its sides."""
SIDE_OPENING: Final = 25.0
"""A side opening runs this far down from the armpit (cm), or as far as the seam allows: common practice."""
SHORTEST_OPENING: Final = 8.0
"""A shorter opening lets nothing through (cm): common practice, no source."""
NEAREST_POINTS: Final = 1.0
"""Gores in one seam whose points were to lie nearer to each other than this (cm) start alike: our own figure."""
SHORTEST_SEAM: Final = 3.0
"""A shorter seam below an opening is not worth closing (cm): common practice, no source."""

Key = tuple[str, str]
"""(place, hand); hand is '' on the centre lines."""


def lines_of(
    length: float,
    slope: float,
    armhole: float,
    arm: Arm,
    neck: NeckLine,
    gores: list[Sized],
    splits: dict[str, float],
    halves: dict[str, bool],
    side_panels: str,
    open_at: Mapping[str, float],
    notes: list[Note],
) -> Mapping[Key, SeamLine]:
    """Every line down the body with what is set into it.

    ``slope``: how far the shoulder point lies below the neck (cm); ``open_at``: the places that are closed by a
    closure, with the height above the hem that a centre opens down to (cm).
    """
    tops: dict[str, tuple[EdgeKind, float]] = {
        "side": ("side seam", length - slope - armhole - arm.kite.body),
        "side-front": ("panel seam", length - slope - armhole),
        "side-back": ("panel seam", length - slope - armhole),
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
        through = place.startswith("centre-") and open_at.get(place, length) <= 0
        line = _fill(place, kind, top, gores, splits, through, notes)
        if place.startswith("centre-") and place in open_at:
            line = _opened_down(line, open_at[place])
            _middle_must_open(line)
        elif place == f"centre-{neck.slit_face}":
            line = _with_neck_slit(line, neck, halves[neck.slit_face])
        for hand in HANDS if place in PAIRED else ("",):
            here = line
            if place == "side" and hand == "left" and "side" in open_at:
                here = _with_side_opening(line)
            out[place, hand] = here
    return MappingProxyType(out)


def _fill(
    place: str,
    kind: EdgeKind,
    top: float,
    gores: list[Sized],
    splits: dict[str, float],
    through: bool,
    notes: list[Note],
) -> SeamLine:
    """``through``: it will be open from the neck to the hem, so that a gore left open in its make comes in halves."""
    here = [gore for gore in gores if gore.place == place]
    split = splits.get(place, 0.0)
    if split > top - 1:
        raise CannotDraft(
            "garment.splits",
            _(
                "a split {split} high at the {place} runs past the top of its seam, {top} above the hem",
                split=format_length(split),
                place=place,
                top=format_length(top),
            ),
            _("make it lower"),
        )
    wedges: list[Wedge] = []
    for gore in here:
        if gore.top:
            _can_be_blunt(gore, top, len(here))
        start = _start(gore, top, notes)
        # points side by side are one point
        start = next((each.start for each in wedges if abs(each.start - start) < NEAREST_POINTS), start)
        wedges += _wedges(gore, start, (through or bool(split)) and len(here) == 1)
    line = SeamLine(place, kind, top, tuple(wedges), split)
    _middle_must_open(line)
    return line


def _start(gore: Sized, top: float, notes: list[Note]) -> float:
    """How high the gore reaches: a side gore that would go past the armpit ends there."""
    if gore.start <= top - 1:
        return gore.start
    if gore.place not in ("side", "side-front", "side-back"):
        raise CannotDraft(
            "garment.gores",
            _(
                "a gore {start} high at the {place} runs into the neck",
                start=format_length(gore.start),
                place=gore.place,
            ),
            _("start it lower"),
        )
    note = Note("gore-to-armpit", gore.place, {"asked": gore.start, "start": top})
    if note not in notes:
        notes.append(note)
    return top


def _can_be_blunt(gore: Sized, top: float, count: int) -> None:
    """A blunt end needs a slot between two straight edges, with seam above it."""
    if count > 1:
        raise CannotDraft(
            "garment.gores",
            _(
                "gores side by side at the {place} come to points, for a seam between them ends in one",
                place=gore.place,
            ),
            _("leave top out, or set in one gore"),
        )
    if gore.start > top - 1:
        raise CannotDraft(
            "garment.gores",
            _("a gore with a blunt top that reaches the armpit is a side panel"),
            _('choose body.cut = "shoulder panels" with a flare, or start it lower'),
        )


def _wedges(gore: Sized, start: float, split: bool) -> list[Wedge]:
    """The one piece of a gore, or its two halves."""
    if gore.make == "halves" or (gore.make == "either" and split):
        return [Wedge(start, gore.base / 2, True, gore.top / 2, gore.hem)] * 2
    return [Wedge(start, gore.base, False, gore.top, gore.hem, gore.make == "pieced")]


def _middle_must_open(line: SeamLine) -> None:
    if line.split and len(line.wedges) % 2:
        raise CannotDraft(
            "garment.splits",
            _("the split at the {place} would run up the middle of a whole gore", place=line.place),
            _('choose make = "halves" for that gore'),
        )


def _with_neck_slit(line: SeamLine, neck: NeckLine, seam: bool) -> SeamLine:
    if not neck.slit:
        return line
    room = line.top - max(line.filled, line.split) - neck.slit
    if neck.slit_x == 0 and room < 3:
        raise CannotDraft(
            "garment.neck.slit",
            _(
                "the neck slit, {slit} long, runs into what is set below it at the {place}",
                slit=format_length(neck.slit),
                place=named(f"centre {neck.slit_face}"),
            ),
            _("lower the gore or split, or move the slit to the left or right"),
        )
    return replace(line, slit=neck.slit) if seam and neck.slit_x == 0 else line


def _opened_down(line: SeamLine, low: float) -> SeamLine:
    """A centre seam open from the neck down to ``low`` above the hem (cm), or to what is set in or split below it."""
    below = max(line.filled, line.split)
    if low > 0 and low - below < SHORTEST_SEAM:
        low = below
    if low <= 0:
        return replace(line, split=line.top)
    if line.top - low < SHORTEST_OPENING:
        raise CannotDraft(
            "garment.closures",
            _(
                "only {left} of the {place} is left to open above the gore or split",
                left=format_length(line.top - low),
                place=line.place,
            ),
            _("start the gore lower or open the garment elsewhere"),
        )
    return replace(line, opening=line.top - low)


def stays_whole(lines: Mapping[Key, SeamLine]) -> None:
    """Raises CannotDraft where front and back both open from the neck to the hem, and leave two halves."""
    if all(_opens_through(lines[f"centre-{face}", ""]) for face in ("front", "back")):
        raise CannotDraft(
            "garment.closures",
            _("open from the neck to the hem in front and behind it falls into two halves"),
            _('close one of them below: to = "hip" without a split there'),
        )


def _opens_through(line: SeamLine) -> bool:
    return line.split >= line.top - line.opening - 1e-6


def _with_side_opening(line: SeamLine) -> SeamLine:
    # above a blunt gore some seam is left, to close the corners of its slot
    slot = SHORTEST_SEAM if any(wedge.top for wedge in line.wedges) else 0.0
    room = line.top - max(line.filled, line.split) - slot
    opening = min(SIDE_OPENING, room)
    if opening < SHORTEST_OPENING:
        raise CannotDraft(
            "garment.closures",
            _("no side seam is left to open above the gore or split"),
            _("start the gore lower or open the garment elsewhere"),
        )
    return replace(line, opening=opening)
