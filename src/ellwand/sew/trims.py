"""When bands, motifs and charges go on: on the flat cloth wherever that can be."""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from typing import Final

from ellwand.geometry.lines import Line, Point
from ellwand.model.band import Band
from ellwand.model.draft import EdgeRef, Seam
from ellwand.model.repeat import Repeat
from ellwand.model.run import Run, Stretch
from ellwand.sew.bench import Bench
from ellwand.sew.joins import seam_step

ON: Final = 0.1
"""A run crosses a seam where it ends nearer to it than this (cm)."""


@dataclass(frozen=True, slots=True)
class Trims:
    """``parts``: step -> what is sewn on, and on which parts; ``needs``: step -> what must be sewn before.

    ``which``: step -> the numbers of the bands, repeats or charges.
    """

    parts: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    needs: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    which: Mapping[str, tuple[int, ...]] = field(default_factory=dict)


def trims_of(bench: Bench, edge_step: Mapping[EdgeRef, str], late: Collection[str]) -> Trims:
    """The steps of all that adorns; ``late``: what closes the garment, and all that waits for it."""
    trims = bench.draft.adornment
    parts: dict[str, dict[str, None]] = defaultdict(dict)
    needs: dict[str, dict[str, None]] = defaultdict(dict)
    which: dict[str, list[int]] = defaultdict(list)
    for i, band in enumerate(trims.bands):
        wanted = _band_needs(band, bench, edge_step)
        code = "bands flat" if band.on_flat and not late & wanted.keys() else "bands round"
        if code == "bands round":
            wanted |= dict.fromkeys(_crossed(band.run, bench))
        which[code].append(i)
        needs[code] |= wanted
        parts[code] |= dict.fromkeys(stretch.part for stretch in band.run.stretches)
        parts[code] |= dict.fromkeys(band.parts)
    for i, repeat in enumerate(trims.repeats):
        wanted = _repeat_needs(repeat, bench, edge_step, late)
        code = "motifs round" if late & wanted.keys() else "motifs"
        which[code].append(i)
        needs[code] |= wanted
        parts[code] |= dict.fromkeys(stretch.part for stretch in repeat.run.stretches)
    for i, charge in enumerate(trims.charges):
        which["charges"].append(i)
        parts["charges"] |= dict.fromkeys(part for part in bench.pieces if _is_of(part, charge.face, bench))
        parts["charges"] |= dict.fromkeys(charge.parts)
    return Trims(
        {code: tuple(each) for code, each in parts.items()},
        {code: tuple(each) for code, each in needs.items()},
        {code: tuple(each) for code, each in which.items()},
    )


def _is_of(part: str, face: str, bench: Bench) -> bool:
    """Whether a part of the body lies on that face: a body cut in one lies on both."""
    words = part.split("-")
    return bench.pieces[part].place == "body" and ("body" in words or face in words)


def _band_needs(band: Band, bench: Bench, edge_step: Mapping[EdgeRef, str]) -> dict[str, None]:
    """What is sewn before a band: the seams that it lies over or along, and the edges that it covers.

    Sewn on flat, its ends are caught in the seams that close a sleeve or a side, so those are left out.
    """
    out = {step: None for step in _crossed(band.run, bench) if step not in _ENDS_CAUGHT}
    for stretch in band.run.stretches:
        out |= _followed(stretch, bench, edge_step)
    return out


_ENDS_CAUGHT: Final = frozenset({"underarm and sides", "sleeve seams"})


def _followed(stretch: Stretch, bench: Bench, edge_step: Mapping[EdgeRef, str]) -> dict[str, None]:
    """The step that sews or finishes the edge a stretch follows; none where that edge may as well wait for the band."""
    ref = EdgeRef(stretch.part, stretch.edge)
    if ref not in bench.edges:
        return {}
    if ref in bench.sewn:
        return {seam_step(bench.sewn[ref], bench): None}
    if bench.edges[ref].kind == "cuff" and bench.is_tunic and not bench.draft.dimensions.cuff_opening:
        # its hem is turned behind the band
        return {}
    return {edge_step[ref]: None}


def _repeat_needs(
    repeat: Repeat, bench: Bench, edge_step: Mapping[EdgeRef, str], late: Collection[str]
) -> dict[str, None]:
    """The seams that the run crosses; one that closes the garment only where a motif lies over it.

    Along a hem that is levelled once it has hung, motifs wait for that.
    """
    out = {step: None for step in _crossed(repeat.run, bench) if step not in late}
    middles = [each.at for each in repeat.placements]
    out |= dict.fromkeys(_crossed(repeat.run, bench, middles, repeat.size / 2))
    for stretch in repeat.run.stretches:
        ref = EdgeRef(stretch.part, stretch.edge)
        if ref in bench.sewn:
            out[seam_step(bench.sewn[ref], bench)] = None
        elif ref in bench.edges and bench.edges[ref].kind == "hem" and bench.hangs_first:
            out[edge_step[ref]] = None
    return out


def _crossed(run: Run, bench: Bench, near: Collection[float] | None = None, within: float = 0.0) -> list[str]:
    """The steps of the seams that a run goes over: all, or those ``within`` cm of places so far along it."""
    stretches = run.stretches
    ends = list(itertools.accumulate(stretch.length for stretch in stretches))
    joints = list(zip(stretches, (*stretches[1:], stretches[0]), ends, strict=True))
    if not run.closed:
        joints = joints[:-1]
    whole = ends[-1]
    out: dict[str, None] = {}
    for one, other, end in joints:
        if near is None or any(abs((end - at + whole / 2) % whole - whole / 2) < within for at in near):
            out |= {seam_step(seam, bench): None for seam in _between(one, other, bench)}
    return list(out)


def _between(one: Stretch, other: Stretch, bench: Bench) -> list[Seam]:
    """The seams that join one stretch's end to the other's beginning."""
    end, start = one.points[-1], other.points[0]
    return [
        seam
        for seam in bench.draft.seams
        for a, b in ((seam.a, seam.b), (seam.b, seam.a))
        if (a.part, b.part) == (one.part, other.part)
        and _near(end, bench.edges[a].points)
        and _near(start, bench.edges[b].points)
    ]


def _near(point: Point, line: Line) -> bool:
    return any(_distance(point, a, b) < ON for a, b in itertools.pairwise(line))


def _distance(point: Point, a: Point, b: Point) -> float:
    """From a point to a straight line between two others (cm)."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    along = ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / ((dx * dx + dy * dy) or 1.0)
    along = min(1.0, max(0.0, along))
    return math.hypot(point[0] - a[0] - along * dx, point[1] - a[1] - along * dy)
