"""Runs along seams: what is sewn end to end, from part to part."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from ellwand.adorn.runs.making import edge_stretch, height_in, made
from ellwand.model.draft import EdgeRef, Seam
from ellwand.model.run import Run, begun_at, reversed_run, starts
from ellwand.model.surface import Surface, cloth_angle, corner_after

POINT: Final = 120.0
"""Where two seams meet at a smaller angle than this (degrees) they are the sides of a point, and no one line."""


def seam_runs(surface: Surface, name: str, seams: Sequence[Seam], *, round_points: bool = False) -> list[Run]:
    """The seams chained where no third one of them meets two others; each from its upper end where it has one.

    Told along the body's edges where they join it to something else.
    """
    among = {seam.id for seam in seams}
    left = {ref for seam in seams for ref in (seam.a, seam.b)}
    out = []
    for seam in seams:
        if seam.a not in left:
            continue
        on_body = surface.pieces[seam.a.part].place == "body" or surface.pieces[seam.b.part].place != "body"
        chain, closed = _chain(surface, seam.a if on_body else seam.b, among, round_points)
        for ref in chain:
            left -= {ref, surface.across[ref][0]}
        stretches = [edge_stretch(surface, ref) for ref in chain]
        run = made(name, stretches, [0.0] * (len(chain) - (not closed)), closed=closed, along="seam")
        out.append(run if closed else _from_above(surface, run))
    return out


def armhole_seams(surface: Surface, seams: Sequence[Seam]) -> list[Run]:
    """Round each arm where the sleeve, or its gusset, is sewn to the body; from the side under the arm."""
    mine = [seam for seam in seams if seam.kind == "armhole" or _is_body_gusset(surface, seam)]
    out = []
    for run in seam_runs(surface, "armhole", mine, round_points=True):
        out.append(_from_under(surface, run) if run.closed else run)
    return out


def _is_body_gusset(surface: Surface, seam: Seam) -> bool:
    places = {surface.pieces[ref.part].place for ref in (seam.a, seam.b)}
    return seam.kind == "gusset" and places == {"body", "gusset"}


def _from_under(surface: Surface, run: Run) -> Run:
    """Begun where the side seam, a gore or the gusset's corner lies under the arm: at the lowest of its joints."""
    begins = starts(run)
    low = [height_in(surface.pieces[each.part], each.points[0]) for each in run.stretches]
    return begun_at(run, begins[min(range(len(low)), key=low.__getitem__)])


def _chain(surface: Surface, ref: EdgeRef, among: set[str], round_points: bool) -> tuple[list[EdgeRef], bool]:
    chain = [ref]
    while (then := _only_one(surface, chain[-1], among, round_points)) is not None:
        if then == ref:
            return chain, True
        chain.append(then)
    # back along the other side from where it began
    back = [surface.across[ref][0]]
    while (then := _only_one(surface, back[-1], among, round_points)) is not None:
        back.append(then)
    before = [surface.across[each][0] for each in reversed(back[1:])]
    return [*before, *chain], False


def _only_one(surface: Surface, ref: EdgeRef, among: set[str], round_points: bool) -> EdgeRef | None:
    """The seam's edge that alone goes on where this one ends."""
    back = surface.across[ref][0]
    found = {
        each
        for each in _leaving(surface, ref)
        if each != back and each in surface.across and surface.across[each][1].id in among
    }
    then = found.pop() if len(found) == 1 else None
    if then is None or round_points:
        return then
    both = _between(surface, ref, then), _between(surface, surface.across[then][0], back)
    return None if min(both) < POINT else then


def _leaving(surface: Surface, ref: EdgeRef) -> Iterator[EdgeRef]:
    """Every edge that begins in the corner in which this one ends."""
    begun = [begins for _, begins in corner_after(surface, ref)]
    yield from begun
    if begun[-1] in surface.across:
        return
    # the corner lies on a rim: round it the other way too
    begins = surface.across[ref][0]
    while True:
        yield begins
        ends = surface.before[begins]
        if ends not in surface.across:
            return
        begins = surface.across[ends][0]


def _between(surface: Surface, one: EdgeRef, other: EdgeRef) -> float:
    """The cloth's angle (degrees) on the left hand where one edge ends and the other begins; 360 across an opening."""
    total = 0.0
    for ends, begins in corner_after(surface, one):
        total += cloth_angle(surface, ends, begins)
        if begins == other:
            return total
    return 360.0


def _from_above(surface: Surface, run: Run) -> Run:
    """From its upper end; of a shoulder from the neck; else as it is."""
    first, last = run.stretches[0], run.stretches[-1]
    pieces = surface.pieces
    if pieces[first.part].levels and pieces[last.part].levels:
        rise = height_in(pieces[last.part], last.points[-1]) - height_in(pieces[first.part], first.points[0])
        if abs(rise) > 1.0 and not _at_neck(surface, run):
            return reversed_run(run) if rise > 0 else run
    return reversed_run(run) if _at_neck(surface, reversed_run(run)) else run


def _at_neck(surface: Surface, run: Run) -> bool:
    """Whether it begins at the neck, or at what is open beside it."""
    first = run.stretches[0]
    return any(
        math.dist(first.points[0], point) < 1e-6
        for edge in surface.pieces[first.part].edges
        if edge.kind in ("neck", "shoulder opening", "neck slit")
        for point in (edge.points[0], edge.points[-1])
    )
