"""Blocks: small sets of pieces that share a rectangle, and the rectangles that they fill best.

A gore and its fellow head to tail, a strip of interlocked gores, two sleeves, a gore with a gusset in its corner.
Positions are looked for where pieces touch: at the corners of no-fit polygons (of convex outlines: Minkowski sums),
where two of their sides cross, and where a piece comes flush with a side of the rectangle.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from ellwand.lay.hulls import hull
from ellwand.lay.task import Pose
from ellwand.lay.tear.kinds import Counts, Kind, more, sets_of

Array = NDArray[np.float64]

GRID: Final = 0.1
"""Blocks are torn to whole millimetres."""
TOUCH: Final = 1e-6
"""Nearer than this (cm) pieces only touch."""
KEPT: Final = 6
"""Rectangles kept of one set, none of which is smaller both ways than another."""
LARGE: Final = 3
"""So many kinds are large: what they leave of the width is worth filling."""
WORTH: Final = 0.9
"""A rectangle joins a block when that grows by less than this part of it; else it is better torn by itself."""
FULL: Final = 0.6
"""The part of its rectangle that a block fills at least."""


@dataclass(frozen=True, slots=True)
class Member:
    """One piece of a block: the kind's number, its pose's, and its least corner in the rectangle (cm)."""

    kind: int
    pose: int
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Packed:
    """A rectangle (cm) and how a set lies in it."""

    width: float
    height: float
    members: tuple[Member, ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """A set of pieces and the rectangles it can fill."""

    counts: Counts
    ways: tuple[Packed, ...]


def library(kinds: Sequence[Kind], width: float, most: int) -> tuple[Entry, ...]:
    """Every set worth tearing out as one rectangle, single pieces first; at most ``most`` sets are tried."""
    packer = _Packer(kinds, width)
    none = (0,) * len(kinds)
    found: dict[Counts, tuple[Packed, ...]] = {}
    for k in range(len(kinds)):
        found[more(none, k)] = packer.alone(k)
    for counts in sets_of(kinds):
        if len(found) >= most:
            break
        if counts in found:
            continue
        tried = [
            way
            for k in range(len(kinds))
            if counts[k] and (before := found.get(more(counts, k, -1)))
            for packed in before
            for way in packer.added(packed, k)
            if not kinds[k].boxes or _fuller(packed, way, kinds[k].area)
        ]
        if ways := _best(tried, packer.rooms):
            found[counts] = ways
    full = [sum(n * kind.area for n, kind in zip(counts, kinds, strict=True)) for counts in found]
    out = []
    for (counts, ways), cloth in zip(found.items(), full, strict=True):
        good = tuple(w for w in ways if sum(counts) == 1 or cloth >= FULL * w.width * w.height)
        if good:
            out.append(Entry(counts, good))
    return tuple(out)


def _fuller(before: Packed, after: Packed, added: float) -> bool:
    """Whether a rectangle goes into the room between the others for the most part."""
    return after.width * after.height - before.width * before.height < WORTH * added


def _best(ways: Sequence[Packed], rooms: Sequence[float] = ()) -> tuple[Packed, ...]:
    """Those none of which is smaller both ways than another, narrowest first.

    Where they are many: the tightest, the narrowest and the lowest, and the lowest that goes into each room.
    """
    out: list[Packed] = []
    for way in sorted(ways, key=lambda w: (round(w.width, 4), round(w.height, 4))):
        if not out or way.height < out[-1].height - TOUCH * 10:
            out.append(way)
    if len(out) <= KEPT:
        return tuple(out)
    kept = {0, len(out) - 1}
    kept |= {max(fit) for room in rooms if (fit := [i for i, w in enumerate(out) if w.width <= room + TOUCH])}
    tightest = sorted(range(len(out)), key=lambda i: round(out[i].width * out[i].height, 3))
    kept |= set(tightest[:KEPT])
    return tuple(out[i] for i in sorted(kept))


class _Packer:
    """Adds a piece to a packed rectangle, in every way worth it."""

    def __init__(self, kinds: Sequence[Kind], width: float) -> None:
        self.kinds, self.width = kinds, width
        self.known: dict[tuple[int, int, int, int], Array] = {}
        self.rooms = _rooms(kinds, width)

    def alone(self, kind: int) -> tuple[Packed, ...]:
        poses = self.kinds[kind].poses
        return _best([Packed(p.width, p.height, (Member(kind, i, 0.0, 0.0),)) for i, p in enumerate(poses)])

    def added(self, packed: Packed, kind: int) -> list[Packed]:
        return [way for pose in range(len(self.kinds[kind].poses)) for way in self._with(packed, kind, pose)]

    def _with(self, packed: Packed, kind: int, number: int) -> list[Packed]:
        pose = self.kinds[kind].poses[number]
        rings = [self._no_fit(m, kind, number) for m in packed.members]
        moves = np.repeat([(m.x, m.y) for m in packed.members], [len(ring) for ring in rings], axis=0)
        sides = np.concatenate(rings)
        starts, ends, inward = sides[:, 0:2] + moves, sides[:, 2:4] + moves, sides[:, 4:6]
        at = np.concatenate([starts, self._flush(starts, ends, packed, pose), _crossings(starts, ends)])
        deep = at @ inward.T - (inward * starts).sum(axis=1)
        firsts = np.cumsum([0, *(len(ring) for ring in rings[:-1])])
        at = at[(np.minimum.reduceat(deep, firsts, axis=1) <= TOUCH).all(axis=1)]
        left, low = np.minimum(at[:, 0], 0.0), np.minimum(at[:, 1], 0.0)
        wide = np.maximum(at[:, 0] + pose.width, packed.width) - left
        high = np.maximum(at[:, 1] + pose.height, packed.height) - low
        order = np.lexsort((at[:, 1].round(4), at[:, 0].round(4), high.round(4), wide.round(4)))
        out, least = [], math.inf
        for i in order[wide[order] <= self.width + TOUCH]:
            if high[i] >= least - TOUCH:
                continue
            least = float(high[i])
            dx, dy = float(left[i]), float(low[i])
            moved = [Member(m.kind, m.pose, m.x - dx, m.y - dy) for m in packed.members]
            moved.append(Member(kind, number, float(at[i, 0]) - dx, float(at[i, 1]) - dy))
            out.append(Packed(float(wide[i]), least, tuple(moved)))
        return out

    def _flush(self, starts: Array, ends: Array, packed: Packed, pose: Pose) -> Array:
        """Where the piece touches another and is flush with a side, or fills a width that is worth filling."""
        across = {0.0, packed.width - pose.width}
        across |= {room - pose.width for room in self.rooms if room > packed.width}
        across |= {packed.width - room for room in self.rooms if room > packed.width}
        upright = _on_lines(starts, ends, sorted(across), 0)
        level = _on_lines(starts, ends, sorted({0.0, packed.height - pose.height}), 1)
        return np.concatenate([upright, level])

    def _no_fit(self, member: Member, kind: int, number: int) -> Array:
        """Where the new piece's least corner may not lie, about the member's: sides by start, end and inward normal."""
        key = (member.kind, member.pose, kind, number)
        if key not in self.known:
            fixed = np.array(self.kinds[member.kind].outlines[member.pose])
            moving = np.array(self.kinds[kind].outlines[number])
            sums = (fixed[:, None] - moving[None]).reshape(-1, 2)
            ring = np.array(hull([(float(x), float(y)) for x, y in sums.round(9)]))
            ends = np.roll(ring, -1, axis=0)
            step = (ends - ring) / np.hypot(*(ends - ring).T)[:, None]
            self.known[key] = np.column_stack([ring, ends, -step[:, 1], step[:, 0]])
        return self.known[key]


def _rooms(kinds: Sequence[Kind], width: float) -> list[float]:
    """Widths worth filling: the whole, half of it, and what the large pieces leave beside them."""
    large = sorted(kinds, key=lambda kind: -kind.area)[:LARGE]
    widths = {round(pose.width, 4) for kind in large for pose in kind.poses}
    taken = {0.0, width / 2} | widths | {a + b for a in widths for b in widths}
    return sorted(round(width - t, 4) for t in taken if t < width - min(widths) / 4)


def _on_lines(starts: Array, ends: Array, values: Sequence[float], axis: int) -> Array:
    """Points of the sides at these values of x (axis 0) or y."""
    a, b = starts[:, None, axis], ends[:, None, axis]
    at = np.array(values)[None]
    crosses = (np.minimum(a, b) < at) & (at < np.maximum(a, b))
    share = (at - a) / np.where(crosses, b - a, 1.0)
    side, which = np.nonzero(crosses)
    points = starts[side] + share[side, which][:, None] * (ends - starts)[side]
    points[:, axis] = np.array(values)[which]
    return np.asarray(points)


def _crossings(starts: Array, ends: Array) -> Array:
    """Where sides cross each other."""
    step = ends - starts
    turn = step[:, None, 0] * step[None, :, 1] - step[:, None, 1] * step[None, :, 0]
    gap = starts[None] - starts[:, None]
    safe = np.where(np.abs(turn) > 1e-9, turn, np.inf)
    here = (gap[..., 0] * step[None, :, 1] - gap[..., 1] * step[None, :, 0]) / safe
    there = (gap[..., 0] * step[:, None, 1] - gap[..., 1] * step[:, None, 0]) / safe
    meet = np.isfinite(safe) & (here > 0) & (here < 1) & (there > 0) & (there < 1)
    i, j = np.nonzero(np.triu(meet, 1))
    return np.asarray(starts[i] + here[i, j][:, None] * step[i])
