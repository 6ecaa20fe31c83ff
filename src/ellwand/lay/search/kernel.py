"""Laying pieces one after the other, each at its best free place."""

from __future__ import annotations

import math

import numpy as np

from ellwand.lay.search.compiled import Counts, Ground, Lying, Poses, Reals, Sums, compiled

SLIP = 1e-11
"""Nearer than this (cm) to a rim is on it."""


@compiled
def clipped(lo: float, hi: float, at: float, enters: bool) -> tuple[float, float]:
    """What is left of a way from ``lo`` to ``hi`` where it enters or leaves at ``at``."""
    return (max(lo, at), hi) if enters else (lo, min(hi, at))


@compiled
def add_run(
    runs: Reals, count: int, track: tuple[float, float, float, float], low: Reals, high: Reals, px: float, py: float
) -> int:
    """Notes the part of a track between the least and greatest corners, its better end first; how many there are."""
    x, y, to_x, to_y = track
    if max(x, to_x) < low[0] or min(x, to_x) > high[0] or max(y, to_y) < low[1] or min(y, to_y) > high[1]:
        return count
    dx, dy = to_x - x, to_y - y
    lo, hi = 0.0, 1.0
    if min(x, to_x) < low[0]:
        lo, hi = clipped(lo, hi, (low[0] - x) / dx, dx > 0)
    if max(x, to_x) > high[0]:
        lo, hi = clipped(lo, hi, (high[0] - x) / dx, dx < 0)
    if min(y, to_y) < low[1]:
        lo, hi = clipped(lo, hi, (low[1] - y) / dy, dy > 0)
    if max(y, to_y) > high[1]:
        lo, hi = clipped(lo, hi, (high[1] - y) / dy, dy < 0)
    if lo > hi:
        return count
    if px * dx + py * dy < 0:
        lo, hi = hi, lo
    x, y, dx, dy = x + lo * dx, y + lo * dy, (hi - lo) * dx, (hi - lo) * dy
    runs[0, count], runs[5, count] = px * x + py * y, px * dx + py * dy
    runs[1, count], runs[2, count], runs[3, count], runs[4, count] = x, y, dx, dy
    return count + 1


@compiled
def next_mark(at: float, offset: float, repeat: float) -> float:
    """The first place from ``at`` on that is a whole number of repeats from ``offset``."""
    return offset + math.ceil((at - offset) / repeat - 1e-7) * repeat


@compiled
def gather(
    p: int, low: Reals, high: Reals, px: float, py: float, lying: Lying, count: int, sums: Sums, poses: Poses,
    ground: Ground, runs: Reals,
) -> int:  # fmt: skip
    """All runs along which pose ``p`` touches something, or its mark meets the pattern; how many."""
    across, along = ground.repeat[0], ground.repeat[1]
    found = 0
    if poses.mark[p, 0] > 0 and across > 0:
        x = next_mark(low[0], ground.repeat[2] - poses.mark[p, 1], across)
        while x <= high[0] + 1e-6:
            inside = min(max(x, low[0]), high[0])
            found = add_run(runs, found, (inside, low[1], inside, high[1]), low, high, px, py)
            x += across
        return found
    if poses.mark[p, 0] > 0 and along > 0:
        y = next_mark(low[1], ground.repeat[3] - poses.mark[p, 2], along)
        while y <= high[1] + 1e-6:
            inside = min(max(y, low[1]), high[1])
            found = add_run(runs, found, (low[0], inside, high[0], inside), low, high, px, py)
            y += along
        return found
    found = add_run(runs, found, (low[0], low[1], high[0], low[1]), low, high, px, py)
    found = add_run(runs, found, (low[0], low[1], low[0], high[1]), low, high, px, py)
    found = add_run(runs, found, (high[0], low[1], high[0], high[1]), low, high, px, py)
    found = add_run(runs, found, (low[0], high[1], high[0], high[1]), low, high, px, py)
    for k in range(count):
        pair = lying.pose[k] * len(poses.size) + p
        x, y = lying.x[k], lying.y[k]
        for t in range(sums.tracks[pair], sums.tracks[pair + 1]):
            track = (x + sums.track[t, 0], y + sums.track[t, 1], x + sums.track[t, 2], y + sums.track[t, 3])
            found = add_run(runs, found, track, low, high, px, py)
    return found


@compiled
def walk(
    p: int, start_x: float, start_y: float, dx: float, dy: float, most: float, offset: float, repeat: float,
    lying: Lying, count: int, first: int, sums: Sums, poses: int,
) -> tuple[float, int, int]:  # fmt: skip
    """How far along (dx, dy) pose ``p`` first lies free, over ``most`` if nowhere; and how many outlines were tested.

    With a ``repeat`` the way leads up, and y must be a whole number of repeats from ``offset``.
    """
    way, k, clear, tests, moved = 0.0, first, 0, 0, True
    last = first
    while True:
        if moved and repeat > 0:
            rest = next_mark(start_y + way * dy, offset, repeat) - start_y
            way = rest / dy if dy > 0 else (0.0 if rest < 1e-6 else np.inf)
        if clear == count or way > most:
            return way, tests, last
        pair = lying.pose[k] * poses + p
        x, y = start_x + way * dx - lying.x[k], start_y + way * dy - lying.y[k]
        moved = False
        for s in range(sums.outlines[pair], sums.outlines[pair + 1]):
            tests += 1
            if x <= sums.box[s, 0] or x >= sums.box[s, 2] or y <= sums.box[s, 1] or y >= sums.box[s, 3]:
                continue
            step = np.inf
            for z in range(sums.edges[s], sums.edges[s + 1]):
                room = sums.edge[z, 2] - sums.edge[z, 0] * x - sums.edge[z, 1] * y
                if room <= SLIP:
                    step = -1.0
                    break
                rate = sums.edge[z, 0] * dx + sums.edge[z, 1] * dy
                if rate > 1e-7:
                    step = min(step, room / rate)
            if step >= 0.0:
                way += step + 1e-13
                if way > most:
                    return way, tests, k
                x, y = start_x + way * dx - lying.x[k], start_y + way * dy - lying.y[k]
                moved = True
        if moved:
            clear, last = 0, k
        else:
            clear += 1
        k = k + 1 if k + 1 < count else 0


@compiled
def place(
    p: int, rule: int, lying: Lying, count: int, top: float, limit: float, sums: Sums, poses: Poses, ground: Ground,
    runs: Reals, work: Counts,
) -> tuple[bool, float, float]:  # fmt: skip
    """The free place of pose ``p`` with the least pull among ``count`` that lie; whether there is one, x, y."""
    low, high = np.empty(2), np.empty(2)
    low[0], high[0], low[1] = poses.reach[p, 0], poses.reach[p, 1], 0.0
    along = ground.repeat[1] if poses.mark[p, 0] > 0 else 0.0
    high[1] = min(max(top, ground.highest) + along, limit - poses.size[p, 1])
    if high[0] < low[0] or high[1] < 0.0:
        return False, 0.0, 0.0
    snap = along if ground.repeat[0] > 0 else 0.0
    offset = ground.repeat[3] - poses.mark[p, 2]
    px, py = ground.pull[rule, 0], ground.pull[rule, 1]
    found = gather(p, low, high, px, py, lying, count, sums, poses, ground, runs)
    best = np.inf
    best_x = best_y = 0.0
    tests = found
    blocker = 0
    while True:
        pick, least = -1, best - 1e-9
        for k in range(found):
            if runs[0, k] < least:
                pick, least = k, runs[0, k]
        if pick < 0:
            break
        start_x, start_y, dx, dy, rise = runs[1, pick], runs[2, pick], runs[3, pick], runs[4, pick], runs[5, pick]
        found -= 1
        for row in range(6):
            runs[row, pick] = runs[row, found]
        most = 1.0 if rise < 1e-12 else min(1.0, (best - least) / rise)
        way, looked, blocker = walk(
            p,
            start_x,
            start_y,
            dx,
            dy,
            most,
            offset,
            snap,
            lying,
            count,
            blocker,
            sums,
            len(poses.size),
        )
        tests += looked
        if way <= most and least + way * rise < best:
            best = least + way * rise
            best_x, best_y = start_x + way * dx, start_y + way * dy
    work[0] += tests
    return best < np.inf, best_x, best_y


@compiled
def build(
    start: int, kind: Counts, pose: Counts, rule: Counts, lying: Lying, limit: float, sums: Sums, poses: Poses,
    ground: Ground, runs: Reals, work: Counts,
) -> tuple[float, float]:  # fmt: skip
    """Lays the pieces from number ``start`` on, those before lie.  A pose below 0 is whichever ends lowest.

    What the lay counts (infinite as soon as it is over ``limit``), and its length with what is left out.
    """
    top = extra = missing = 0.0
    for k in range(len(kind)):
        at = ground.faults + k
        first, after = pose[k], pose[k] + 1
        if first < 0:
            first, after = ground.starts[kind[k]], ground.starts[kind[k] + 1]
        if k >= start:
            end = ground.length if ground.miss < np.inf else min(ground.length, limit - extra)
            lying.pose[at], lying.x[at], lying.y[at] = first, 0.0, -1e9
            least = np.inf
            for p in range(first, after):
                free, x, y = place(p, rule[k], lying, at, top, end, sums, poses, ground, runs, work)
                count = max(top, y + poses.size[p, 1]) + 1e-3 * y
                if free and count < least:
                    least = count
                    lying.pose[at], lying.x[at], lying.y[at] = p, x, y
        p = lying.pose[at]
        if lying.y[at] < 0.0:
            missing += ground.miss * poses.share[p]
        else:
            ends = lying.y[at] + poses.size[p, 1]
            top = max(top, ends)
            extra += ground.drag * poses.share[p] * ends
        if top + extra + missing > limit or missing == np.inf:
            return np.inf, np.inf
    return top + extra + missing, top + missing
