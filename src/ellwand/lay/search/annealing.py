"""Changing a lay's order, poses and rules at random, ever more choosily (simulated annealing).

Kirkpatrick, Gelatt and Vecchi, 'Optimization by simulated annealing', Science 220, 1983.
"""

from __future__ import annotations

import numpy as np

from ellwand.lay.search.compiled import Counts, Ground, Lying, Poses, Reals, Sums, compiled
from ellwand.lay.search.kernel import build


@compiled
def draw(seed: Counts) -> float:
    """The next number from 0 to 1 (xorshift64*: Vigna, ACM Transactions on Mathematical Software 42, 2016)."""
    s = np.uint64(seed[0])
    s ^= s >> np.uint64(12)
    s ^= s << np.uint64(25)
    s ^= s >> np.uint64(27)
    seed[0] = np.int64(s)
    return float((s * np.uint64(2685821657736338717)) >> np.uint64(11)) / 9007199254740992.0


@compiled
def pick(seed: Counts, count: int) -> int:
    """One of the numbers from 0 to ``count`` less 1."""
    return min(int(draw(seed) * count), count - 1)


@compiled
def move(genes: Counts, seed: Counts, highest: int, rules: int, ground: Ground) -> None:
    """One change to the rows kind, pose and rule: two change places, a few move, one lies otherwise."""
    n = genes.shape[1]
    what = draw(seed)
    if what < 0.3:
        i, j = pick(seed, n), pick(seed, n)
        for row in range(3):
            genes[row, i], genes[row, j] = genes[row, j], genes[row, i]
    elif what < 0.7:
        size = min(n, 1 if draw(seed) < 0.7 else 2 + pick(seed, 2))
        i = min(highest if draw(seed) < 0.3 else pick(seed, n), n - size)
        j = pick(seed, n - size + 1)
        moving = genes[:, i : i + size].copy()
        if i < j:
            for k in range(i, j):
                genes[:, k] = genes[:, k + size]
        else:
            for k in range(i - 1, j - 1, -1):
                genes[:, k + size] = genes[:, k]
        genes[:, j : j + size] = moving
    if what >= 0.6:
        i = pick(seed, n)
        kind = genes[0, i]
        if draw(seed) < 0.6:
            genes[1, i] = ground.starts[kind] + pick(seed, ground.starts[kind + 1] - ground.starts[kind])
        else:
            genes[2, i] = pick(seed, rules)


@compiled
def anneal(
    now: Counts, lying: Lying, best: Counts, best_lying: Lying, worth: Reals, seed: Counts, heat: Reals, rules: int,
    until: int, sums: Sums, poses: Poses, ground: Ground, runs: Reals, work: Counts,
) -> bool:  # fmt: skip
    """Goes on until ``work`` reaches ``until`` (False) or a lay is better than the best (True).

    ``worth``: what the lay now counts, and the best length; ``heat``: hot, cold, and the work at which each is.
    """
    n = now.shape[1]
    new = now.copy()
    new_lying = Lying(lying.pose.copy(), lying.x.copy(), lying.y.copy())
    while work[0] < until:
        part = min(1.0, (work[0] - heat[2]) / (heat[3] - heat[2]))
        warm = heat[0] * (heat[1] / heat[0]) ** part
        highest = 0
        for k in range(1, n):
            a, b = ground.faults + k, ground.faults + highest
            if lying.y[a] + poses.size[lying.pose[a], 1] > lying.y[b] + poses.size[lying.pose[b], 1]:
                highest = k
        new[:] = now
        move(new, seed, highest, rules, ground)
        work[0] += 10
        start = 0
        while start < n and new[1, start] == now[1, start] and new[2, start] == now[2, start]:
            start += 1
        if start == n:
            continue
        for k in range(ground.faults + start):
            new_lying.pose[k], new_lying.x[k], new_lying.y[k] = lying.pose[k], lying.x[k], lying.y[k]
        limit = worth[0] - warm * np.log(1.0 - draw(seed)) + 1e-9
        count, length = build(start, new[0], new[1], new[2], new_lying, limit, sums, poses, ground, runs, work)
        if count > limit:
            continue
        now[:] = new
        lying.pose[:], lying.x[:], lying.y[:] = new_lying.pose, new_lying.x, new_lying.y
        worth[0] = count
        if length < worth[1] - 1e-6:
            worth[1] = length
            best[:] = new
            best_lying.pose[:], best_lying.x[:], best_lying.y[:] = lying.pose, lying.x, lying.y
            return True
    return False
