"""The lay that is being changed, the best so far, and the start orders."""

from __future__ import annotations

import math
import time
from collections.abc import Iterator
from typing import Final

import numpy as np

from ellwand.lay.search.annealing import anneal
from ellwand.lay.search.compiled import Counts, Lying
from ellwand.lay.search.kernel import build
from ellwand.lay.search.tables import Tables
from ellwand.lay.task import Found, length_of

NAME: Final = "search"

HOT: Final = 0.03
COLD: Final = 0.0001
"""How much longer a lay may become at the start and at the end of a cooling, as part of its length."""

ANY: Final = -1
"""A pose to be chosen when the piece is laid."""


class State:
    """One search; all of its numbers come from the seed."""

    def __init__(self, tables: Tables, seed: int) -> None:
        self.tables = tables
        self._seed = np.array([(seed * 2_654_435_761 + 88_172_645_463_325_252) % (1 << 62) + 1], dtype=np.int64)
        self._work = np.zeros(1, dtype=np.int64)
        self._worth = np.array([math.inf, math.inf])
        kinds = [number for number, kind in enumerate(tables.kinds) for _ in kind.shapes]
        self._now = np.zeros((3, len(kinds)), dtype=np.int64)
        self._now[0] = kinds
        self._best = self._now.copy()
        self._lying, self._best_lying = self._nothing(), self._nothing()
        self._start = self._best, self._best_lying
        self._heat = np.zeros(4)
        self._rules = 1
        self.ends = 0

    @property
    def done(self) -> int:
        """Tests made so far."""
        return int(self._work[0])

    @property
    def least(self) -> float:
        """The best length (cm), with what is left out; infinite while there is no lay."""
        return float(self._worth[1])

    def start(self) -> None:
        """Lays the pieces in a few sensible orders."""
        for genes in self._orders():
            lying = self._nothing()
            count, length = self._build(genes, lying)
            if count < self._worth[0]:
                self._worth[:] = count, length
                # poses chosen in laying stay as they were chosen
                genes[1] = lying.pose[self.tables.ground.faults :]
                self._now, self._lying = genes, lying
        self._best, self._best_lying = self._now.copy(), _copied(self._lying)
        self._start = self._best.copy(), _copied(self._lying)

    def begin(self, tests: int, rules: int, *, anew: bool) -> None:
        """The next cooling: how many tests it takes, how many of the rules, from the best lay or from the start."""
        genes, lying = self._start if anew else (self._best, self._best_lying)
        self._now, self._lying = genes.copy(), _copied(lying)
        self._worth[0] = self._build(self._now, self._lying, len(self._now[0]))[0]
        self._heat = np.array([HOT * self._worth[1], COLD * self._worth[1], self.done, self.done + tests])
        self._rules = rules
        self.ends = self.done + tests

    def cool(self, until: int) -> None:
        """Goes on with the cooling to this count of tests, or to the next better lay."""
        t = self.tables
        anneal(
            self._now, self._lying, self._best, self._best_lying, self._worth, self._seed, self._heat, self._rules,
            min(until, self.ends), t.sums, t.table, t.ground, t.runs, self._work,
        )  # fmt: skip

    def found(self, begun: float) -> Found:
        """The best lay, found after the time since ``begun``."""
        spots = self.tables.spots(self._best, self._best_lying)
        return Found(spots, length_of(spots), NAME, time.monotonic() - begun)

    def _orders(self) -> Iterator[Counts]:
        """Longest, widest, largest first, in the pose that ends lowest or in the first."""
        table, ground = self.tables.table, self.tables.ground
        kinds = self._now[0]
        leads = ground.starts[kinds]
        wide, tall = table.size[leads].T
        for sizes in (tall, wide, table.share[leads], -tall):
            order = np.lexsort((kinds, -table.share[leads], -sizes))
            for poses in (np.full(len(kinds), ANY), leads):
                genes = np.zeros_like(self._now)
                genes[0], genes[1] = kinds[order], poses[order]
                yield genes

    def _build(self, genes: Counts, lying: Lying, start: int = 0) -> tuple[float, float]:
        t = self.tables
        return build(
            start, genes[0], genes[1], genes[2], lying, math.inf, t.sums, t.table, t.ground, t.runs, self._work
        )

    def _nothing(self) -> Lying:
        """Only the faults, and room for the pieces."""
        faults, poses = self.tables.ground.faults, len(self.tables.table.size)
        size = faults + self._now.shape[1]
        lying = Lying(np.zeros(size, dtype=np.int64), np.zeros(size), np.zeros(size))
        lying.pose[:faults] = np.arange(poses, poses + faults)
        return lying


def _copied(lying: Lying) -> Lying:
    return Lying(lying.pose.copy(), lying.x.copy(), lying.y.copy())
