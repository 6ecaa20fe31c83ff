"""Blocks whose pieces a straight line parts are torn further; only pieces that interlock stay together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from ellwand.lay.tear.blocks import Member, Packed
from ellwand.lay.tear.kinds import Kind
from ellwand.lay.tear.sequence import Strip, joined_all
from ellwand.model.tearing import Way

NOTHING: Final = 0.1
"""What is left of a strip is not torn off when it is narrower (cm): it is the millimetre that sizes are rounded to."""
HAIR: Final = 1e-6


def parted(strip: Strip, kinds: Sequence[Kind]) -> Strip:
    """The strip with every block in it torn as far as straight tears go."""
    if strip.waste:
        return strip
    if strip.block is None:
        return joined_all(strip.rect, strip.way, [parted(part, kinds) for part in strip.parts])
    ways: tuple[Way, Way] = ("across", "along")
    for way in ways:
        parts = _parts(strip, strip.block, kinds, 1 if way == "across" else 0)
        if len(parts) > 1:
            return joined_all(strip.rect, way, [p if p.waste else parted(p, kinds) for p in parts])
    return strip


def _parts(strip: Strip, packed: Packed, kinds: Sequence[Kind], axis: int) -> list[Strip]:
    """The parts from one end to the other, waste between and beyond them."""
    whole = strip.rect[2 + axis]
    groups: list[tuple[float, float, list[Member]]] = []
    for m in sorted(packed.members, key=lambda m: (m.x, m.y)[axis]):
        pose = kinds[m.kind].poses[m.pose]
        start = (m.x, m.y)[axis]
        end = start + (pose.width, pose.height)[axis]
        if groups and start < groups[-1][1] - HAIR:
            first, last, members = groups[-1]
            groups[-1] = (first, max(last, end), [*members, m])
        else:
            groups.append((start, end, [m]))
    if len(groups) == 1 and not all(kinds[m.kind].boxes for m in groups[0][2]):
        return [strip]
    out: list[Strip] = []
    at = 0.0
    for i, (start, end, members) in enumerate(groups):
        if start > at + NOTHING:
            out.append(Strip(_slice(strip, axis, at, start)))
            at = start
        last = i == len(groups) - 1 and whole - end <= NOTHING
        after = whole if last else end
        away = (at, 0.0) if axis == 0 else (0.0, at)
        inside = tuple(replace(m, x=m.x - away[0], y=m.y - away[1]) for m in members)
        rect = _slice(strip, axis, at, after)
        out.append(Strip(rect, block=Packed(rect[2], rect[3], inside)))
        at = after
    if whole > at:
        out.append(Strip(_slice(strip, axis, at, whole)))
    return out


def _slice(strip: Strip, axis: int, start: float, end: float) -> tuple[float, float, float, float]:
    x, y, width, height = strip.rect
    return (x + start, y, end - start, height) if axis == 0 else (x, y + start, width, end - start)
