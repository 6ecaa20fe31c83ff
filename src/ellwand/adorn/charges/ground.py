"""Where on a face charges may lie: the panel between its seams, clear of neck, hem, gores, splits and openings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from ellwand.geometry.lines import Line
from ellwand.model.draft import Draft, piece_of
from ellwand.model.heraldry import Face
from ellwand.model.neckline import necklines, slit_span

if TYPE_CHECKING:
    from shapely.geometry import LineString
    from shapely.geometry.base import BaseGeometry

CLEAR: Final = 1.0
"""Left free beside neck, hem, gores and openings (cm): common practice, no source."""
SMOOTH: Final = 0.01
"""Curves are drawn to this (cm): points that lie closer to the line between their neighbours are left out."""
FAR: Final = 1000.0


@dataclass(frozen=True, slots=True)
class Ground:
    """One face as it is seen (cm), from ``low`` up.

    ``room``: where motifs are set; ``cut``: what all shapes are cut to; ``seams``: the panel's edges that a charge is
    caught in.
    """

    low: float
    room: BaseGeometry
    cut: BaseGeometry
    seams: tuple[LineString, ...]


def ground_of(draft: Draft, face: Face) -> Ground:
    """Where charges may lie on a face."""
    from shapely import unary_union
    from shapely.geometry import LineString, Polygon, box

    size, choices = draft.dimensions, draft.choices
    half, top, drop = size.panel_width / 2, size.length, size.shoulder_slope
    neck = necklines(draft)[face]
    at_neck = max(x for x, _ in neck)
    low = choices.sewing.hem + CLEAR + (draft.taken_up.body if draft.taken_up else 0.0)
    panel = Polygon(
        ((-half, low), (half, low), (half, top - drop), (at_neck, top), (-at_neck, top), (-half, top - drop))
    )
    taken: list[BaseGeometry] = [_opening(neck).buffer(CLEAR).simplify(SMOOTH)]
    taken += [_beside(x, high) for x, high in _set_in(draft, face)]
    if size.neck_slit and face == ("back" if choices.neck.slit == "back" else "front"):
        left, right = slit_span(draft, at_neck)
        deep = min(y for _, y in neck) - size.neck_slit
        taken.append(box(left - CLEAR, deep - CLEAR, right + CLEAR, FAR))
    taken += _free_sides(draft)
    room = panel.difference(unary_union(taken))
    opened = [box(-CLEAR, -FAR, CLEAR, FAR)] if _opens(draft, face) else []
    seams = [LineString(((x, -FAR), (x, FAR))) for x in (-half, half)]
    if choices.body.shoulder == "seam":
        seams += [LineString(((sign * at_neck, top), (sign * half, top - drop))) for sign in (-1, 1)]
    return Ground(low, room, room.difference(unary_union(opened)), tuple(seams))


def _opening(neck: Line) -> BaseGeometry:
    """What the neck leaves open, up to above the shoulders."""
    from shapely.geometry import Polygon

    widest = max(x for x, _ in neck)
    right = [*neck, (widest, FAR)]
    return Polygon([*right, *((-x, y) for x, y in reversed(right) if x > 0)]).buffer(0)


def _set_in(draft: Draft, face: Face) -> list[tuple[float, float]]:
    """(x, height of its top) of every gore and split inside the panel or at its edges, on both sides."""
    size, choices = draft.dimensions, draft.choices
    half = size.panel_width / 2
    at = {f"centre-{face}": (0.0,), f"panel-{face}": (-half / 2, half / 2)}
    out = [(x, _height(draft, gore.start)) for gore in choices.gores for x in at.get(gore.place, ())]
    out += [(x, _height(draft, split.height)) for split in choices.splits for x in at.get(split.place, ())]
    if not size.side_panel:
        sides = [split for split in choices.splits if split.place == "side"]
        out += [(x, _height(draft, split.height)) for split in sides for x in (-half, half)]
    return out


def _height(draft: Draft, height: float | str) -> float:
    """Of a landmark or a number, as drafted: it may be rounded up to the grid."""
    size = draft.dimensions
    return (size.levels[height] if isinstance(height, str) else height) + size.grid


def _beside(x: float, high: float) -> BaseGeometry:
    from shapely.geometry import box

    return box(x - CLEAR, -FAR, x + CLEAR, high + CLEAR)


def _free_sides(draft: Draft) -> list[BaseGeometry]:
    """Armholes without sleeves, hollowed armholes, and sides that open."""
    from shapely.geometry import box

    size, choices = draft.dimensions, draft.choices
    half = size.panel_width / 2
    below = size.length - size.shoulder_slope - size.armhole
    hollow = max(
        (
            max(x for x, _ in edge.points) - min(x for x, _ in edge.points)
            for part in draft.parts
            if not part.id.startswith(("side", "sleeve", "gore", "gusset"))
            for edge in piece_of(draft, part.id).edges
            if edge.kind == "armhole"
        ),
        default=0.0,
    )
    inset = hollow + (CLEAR if choices.sleeve.shape == "none" or hollow else 0.0)
    out = [box(x0, below - CLEAR, x0 + inset, FAR) for x0 in (-half, half - inset)] if inset else []
    if not size.side_panel and any(closure.at == "side" for closure in choices.closures):
        out += [box(x0, -FAR, x0 + CLEAR, below) for x0 in (-half, half - CLEAR)]
    return out


def _opens(draft: Draft, face: Face) -> bool:
    """Whether the centre of a face is open below the neck."""
    return any(closure.at == f"centre-{face}" for closure in draft.choices.closures)
