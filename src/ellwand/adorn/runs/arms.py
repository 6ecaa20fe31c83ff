"""Rings round the sleeves."""

from __future__ import annotations

import itertools
import math

from ellwand.adorn.runs.chords import Chord, End, arcs, beyond, of_chords, point_on, straight, turned
from ellwand.adorn.runs.edges import cuffs, hand_of
from ellwand.adorn.runs.lines import CLEAR, NEAR
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Point, length
from ellwand.language import _
from ellwand.model.draft import EdgeRef
from ellwand.model.names import named
from ellwand.model.run import Run
from ellwand.model.surface import CUT_APART, Surface, cloth_angle


def arm_rings(surface: Surface, up: float | None, down: float | None, long: dict[str, float], name: str) -> list[Run]:
    """Round each sleeve, level on its pieces: so far ``up`` from the cuff or ``down`` from the shoulder point (cm).

    ``long``: from the shoulder point to the cuff, by hand.
    Raises CannotDraft where no ring goes round the arm there.
    """
    out = []
    for cuff in cuffs(surface):
        hand = hand_of(cuff)
        over = long[hand] - down if down is not None else (up or 0.0)
        out.append(_arm_ring(surface, cuff, over, f"{name}, {hand}"))
    return out


# --- inside ---------------------------------------------------------------------------------------------


def _arm_ring(surface: Surface, cuff: Run, up: float, name: str) -> Run:
    """``up``: above the cuff's edge over the arm (cm)."""
    rise = _over_arm(surface, cuff) + up
    start = _up_the_seam(surface, EdgeRef(cuff.stretches[0].part, cuff.stretches[0].edge), rise)
    if start is None or up <= 0:
        raise _no_ring(name)
    row: list[Chord] = []
    at: End | None = start
    while at is not None and (not row or not _same(at, start)):
        if len(row) > 50:
            raise _no_ring(name)
        row.append(_across_part(surface, at, name))
        at = beyond(surface, row[-1].last)
    return of_chords(surface, name, row, closed=at is not None)


def _same(one: End, other: End) -> bool:
    return one.ref == other.ref and abs(one.along - other.along) < NEAR


def _over_arm(surface: Surface, cuff: Run) -> float:
    """How much higher than where it begins the cuff's edge lies over the arm (cm)."""
    y, highest = 0.0, 0.0
    for stretch in cuff.stretches:
        if _is_elbow_gore(surface, stretch.part):
            continue
        start = stretch.points[0][1]
        highest = max(highest, *(y + point[1] - start for point in stretch.points))
        y += stretch.points[-1][1] - start
    return highest


def _up_the_seam(surface: Surface, cuff: EdgeRef, rise: float) -> End | None:
    """So high (cm) above the cuff's beginning on the edge that comes down to it; None past the sleeve's top."""
    ref = surface.before[cuff]
    climbed = 0.0
    while True:
        while surface.edges[ref].kind in CUT_APART:
            ref = surface.before[surface.across[ref][0]]
        if surface.edges[ref].kind not in ("underarm seam", "opening", "gusset"):
            return None
        edge, mirrored = surface.edges[ref], surface.mirrored[ref.part]
        down = tuple(reversed(edge.points)) if mirrored else edge.points
        walked = length(down)
        for b, a in itertools.pairwise(reversed(down)):
            high = a[1] - b[1]
            step = math.dist(a, b)
            if climbed + high > rise and high > 0:
                along = walked - step * (rise - climbed) / high
                return End(ref, min(max(along, 10 * CLEAR), length(down) - 10 * CLEAR))
            climbed += high
            walked -= step
        ref = surface.before[ref]


def _is_elbow_gore(surface: Surface, part: str) -> bool:
    return surface.pieces[part].place == "sleeve" and part.split("-")[2:3] == ["gore"]


def _across_part(surface: Surface, start: End, name: str) -> Chord:
    """The ring's way across a part from where it enters."""
    part = start.ref.part
    piece, at = surface.pieces[part], point_on(surface, start)
    if piece.place == "gusset":
        return _across_gusset(surface, start, at, name)
    if _is_elbow_gore(surface, part):
        apex = max((point for edge in piece.edges for point in edge.points), key=lambda point: point[1])
        chords = list(arcs(surface, part, piece, apex, math.dist(apex, at)))
    else:
        chords = list(straight(surface, part, piece, at[1], backward=surface.mirrored[part]))
    both = [*chords, *map(turned, chords)]
    found = min(
        (chord for chord in both if chord.first.ref == start.ref),
        key=lambda chord: abs(chord.first.along - start.along),
        default=None,
    )
    if found is None or piece.place != "sleeve" or surface.edges[found.last.ref].kind in ("armhole", "cuff"):
        raise _no_ring(name)
    return found


def _across_gusset(surface: Surface, start: End, at: Point, name: str) -> Chord:
    """At right angles to the gusset's fold: between its sides along the sleeve, or from one of them to the fold."""
    mine = surface.edges[start.ref]
    for other, gap, forward in (
        (surface.after[start.ref], length(mine.points) - start.along, True),
        (surface.before[start.ref], start.along, False),
    ):
        kinds = {mine.kind, surface.edges[other].kind}
        along_sleeve = _joins_sleeve(surface, other) or _joins_sleeve(surface, start.ref)
        if not along_sleeve or (kinds == {"gusset"} and not _joins_sleeve(surface, other)):
            continue
        slant = 1.0
        if kinds == {"gusset", "gusset seam"}:
            corner = cloth_angle(surface, *((start.ref, other) if forward else (other, start.ref)))
            slant = math.cos(math.radians(corner)) ** (1 if mine.kind == "gusset" else -1)
        whole, gap = length(surface.edges[other].points), gap * slant
        end = End(other, gap if forward else whole - gap)
        return Chord(start, end, (at, point_on(surface, end)))
    raise _no_ring(name)


def _joins_sleeve(surface: Surface, ref: EdgeRef) -> bool:
    joined = surface.across.get(ref)
    return joined is not None and surface.pieces[joined[0].part].place == "sleeve"


def _no_ring(name: str) -> CannotDraft:
    return CannotDraft(
        "height",
        _("the {name} would not go all round between cuff and armhole", name=named(name)),
        _("choose a height between the two"),
    )
