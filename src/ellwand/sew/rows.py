"""The rows of stitching that a seam, an edge or something sewn on takes, with their thread and time."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final, Literal

from ellwand.model.choices import Sewing
from ellwand.model.stitch import Stitching, StitchName
from ellwand.sew.pace import minutes, summed
from ellwand.sew.stitches import STITCHES, STRESSED, edge_stitch, main_stitch, raw_edge_stitch, stitch_length
from ellwand.sew.thread import ratio, with_waste

LAYER: Final = 0.06
"""One layer of medium cloth (cm): common practice, no source."""
BAR: Final = 1.0
"""Length of a bar (cm): common practice, no source."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a finish: what it does, and through how many layers of cloth."""

    work: Literal["seam", "fold", "through", "raw edge"]
    layers: int


_SEAM: Final = Row("seam", 2)
ROWS: Final[Mapping[str, tuple[Row, ...]]] = {
    "plain": (_SEAM,),
    "run and fell": (_SEAM, Row("fold", 3)),
    "french": (_SEAM, _SEAM),
    "overcast": (_SEAM, Row("raw edge", 1), Row("raw edge", 1)),
    "flat-felled": (_SEAM, Row("through", 4)),
    "open and stitched down": (_SEAM, Row("through", 2), Row("through", 2)),
}
"""The rows of each finish; a fell goes through the folded allowance and the cloth beneath, the second row of a
flat-felled seam through both folded allowances, those of an opened seam through an allowance and the cloth."""
CAUGHT: Final = 2
"""A hem or fell stitch by hand catches the cloth and the edge of the fold."""
HEM: Final = Row("fold", 3)
"""A hem turned twice, sewn down at its fold."""


def seam_rows(
    length: float, kind: str, finish: str, sewing: Sewing, *, thickness: float = LAYER, runs: int = 1
) -> tuple[Stitching, ...]:
    """The rows of ``length`` cm of seam of that kind; ``thickness`` of one layer (cm), ``runs``: how many seams."""
    stressed = kind in STRESSED
    return _rows(ROWS[finish], length, sewing, thickness, runs, stressed)


def edge_rows(length: float, sewing: Sewing, *, thickness: float = LAYER, runs: int = 1) -> tuple[Stitching, ...]:
    """The row that finishes ``length`` cm of open edge, turned twice and sewn down."""
    return _rows((HEM,), length, sewing, thickness, runs)


def applied_rows(
    seamed: float, turned: float, sewing: Sewing, *, thickness: float = LAYER, runs: int = 1
) -> tuple[Stitching, ...]:
    """The rows that put something on: ``seamed`` cm sewn on by a seam, ``turned`` cm of edge turned under and felled.

    A facing or strip has both; a band is ``turned`` along both its edges, an appliqué all round.
    """
    on = _rows((_SEAM,), seamed, sewing, thickness, runs) if seamed else ()
    down = _rows((HEM,), turned, sewing, thickness, runs) if turned else ()
    return merged((*on, *down))


def bar_rows(count: int, sewing: Sewing, *, thickness: float = LAYER) -> tuple[Stitching, ...]:
    """So many bars across points that take strain, worked by hand."""
    return (stitching("bar", count * BAR, 2 * thickness, sewing),) if count else ()


def stitching(name: StitchName, length: float, thickness: float, sewing: Sewing, runs: int = 1) -> Stitching:
    """A row of one stitch, ``thickness`` cm sewn through."""
    low, high = ratio(name, thickness, sewing)
    return Stitching(
        stitch=name,
        iso=STITCHES[name].iso,
        per_cm=1 / stitch_length(name, sewing),
        length=length,
        thread_m=with_waste((low * length, high * length)),
        minutes=minutes(name, length, sewing, runs),
    )


def merged(rows: Iterable[Stitching]) -> tuple[Stitching, ...]:
    """Rows of the same stitch told as one."""
    of: dict[tuple[StitchName, float], list[Stitching]] = {}
    for row in rows:
        of.setdefault((row.stitch, row.per_cm), []).append(row)
    return tuple(
        each[0]
        if len(each) == 1
        else Stitching(
            stitch=name,
            iso=STITCHES[name].iso,
            per_cm=per_cm,
            length=sum(row.length for row in each),
            thread_m=summed(row.thread_m for row in each),
            minutes=summed(row.minutes for row in each),
        )
        for (name, per_cm), each in of.items()
    )


def _rows(
    rows: Iterable[Row], length: float, sewing: Sewing, thickness: float, runs: int, stressed: bool = False
) -> tuple[Stitching, ...]:
    return merged(
        stitching(_stitch(row, sewing, stressed), length, _layers(row, sewing) * thickness, sewing, runs)
        for row in rows
    )


def _layers(row: Row, sewing: Sewing) -> int:
    return CAUGHT if row.work == "fold" and sewing.by == "hand" else row.layers


def _stitch(row: Row, sewing: Sewing, stressed: bool) -> StitchName:
    if row.work == "fold":
        return edge_stitch(sewing)
    if row.work == "raw edge":
        return raw_edge_stitch(sewing)
    return main_stitch(sewing, stressed and row.work == "seam")
