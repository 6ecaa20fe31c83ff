"""Order of elimination: the points are halved again and again, and what parts the halves comes last.

Nested dissection (George, SIAM J. Numer. Anal. 10, 1973) by the places of the points, with the fronts of the
multifrontal method (Duff and Reid, ACM TOMS 9, 1983).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from ellwand.model.mesh import Counts, Reals

LEAF: Final = 48
"""So few points are eliminated together."""


@dataclass(frozen=True, slots=True)
class Front:
    """Points that are eliminated together, and what that changes.

    ``rows``: the points, then those after them that they are joined to, in their order of elimination; ``own``: how
    many are eliminated; ``slot``, ``low``, ``side``: which block of the matrix goes to which row and column of points;
    ``under``: fronts whose rest is added, each with where its rows are in these.
    """

    rows: Counts
    own: int
    slot: Counts
    low: Counts
    side: Counts
    under: tuple[tuple[int, Counts], ...]


def dissected(indptr: Counts, indices: Counts, points: Reals) -> tuple[Front, ...]:
    """The fronts of a symmetric pattern (rows of points), each after those under it."""
    count = len(indptr) - 1
    groups: list[Counts] = []
    inside: list[list[int]] = []

    def split(nodes: Counts) -> list[int]:
        """Adds the groups of these points; the numbers of the topmost ones."""
        if len(nodes) <= LEAF:
            groups.append(nodes)
            inside.append([])
            return [len(groups) - 1]
        at = points[nodes]
        spread = at - at.mean(0)
        _, vectors = np.linalg.eigh(spread.T @ spread)
        along = spread @ vectors[:, -1]
        left = np.zeros(count, bool)
        order = np.argsort(along, kind="stable")
        left[nodes[order[: len(nodes) // 2]]] = True
        member = np.zeros(count, bool)
        member[nodes] = True
        # those of the left half that touch the right one part them
        mine = nodes[left[nodes]]
        lengths = indptr[mine + 1] - indptr[mine]
        row = np.repeat(mine, lengths)
        start = np.repeat(indptr[mine] - np.concatenate([[0], np.cumsum(lengths)[:-1]]), lengths)
        beside = indices[start + np.arange(len(row))]
        touches = np.zeros(count, bool)
        touches[row[member[beside] & ~left[beside]]] = True
        parting = mine[touches[mine]]
        one, other = mine[~touches[mine]], nodes[~left[nodes]]
        if len(parting) == 0 or len(one) == 0 or len(parting) > 0.5 * len(nodes):
            groups.append(nodes)
            inside.append([])
            return [len(groups) - 1]
        below = split(one) + split(other)
        groups.append(parting)
        inside.append(below)
        return [len(groups) - 1]

    split(np.arange(count))
    place = np.empty(count, np.int64)
    place[np.concatenate(groups)] = np.arange(count)
    slots = np.arange(len(indices))
    fronts: list[Front] = []
    first = 0
    for nodes, below in zip(groups, inside, strict=True):
        last = first + len(nodes)
        lengths = indptr[nodes + 1] - indptr[nodes]
        start = np.repeat(indptr[nodes] - np.concatenate([[0], np.cumsum(lengths)[:-1]]), lengths)
        which = start + np.arange(int(lengths.sum()))
        column = np.repeat(nodes, lengths)
        joined = indices[which]
        later = place[joined] >= last
        rest = [place[joined[later]], *(place[fronts[n].rows[fronts[n].own :]] for n in below)]
        every = np.unique(np.concatenate(rest))
        every = every[every >= last]
        rows_at = np.concatenate([np.arange(first, last), every])
        lower = place[joined] >= place[column]
        low = np.searchsorted(rows_at, place[joined[lower]])
        side = place[column[lower]] - first
        under = tuple((n, np.searchsorted(rows_at, place[fronts[n].rows[fronts[n].own :]])) for n in below)
        fronts.append(Front(rows_at, len(nodes), slots[which[lower]], low, side, under))
        # rows are kept by their place until all places are known
        fronts[-1] = Front(_points(groups, rows_at), len(nodes), slots[which[lower]], low, side, under)
        first = last
    return tuple(fronts)


def _points(groups: list[Counts], places: Counts) -> Counts:
    return np.concatenate(groups)[places]
