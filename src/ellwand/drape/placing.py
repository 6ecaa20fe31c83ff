"""Where the garment begins: wrapped round the form, sleeves round the hanging arms.

On every part a height is known (of a body part above the hem, of a sleeve from the top of the arm); what its parts make
is wrapped round as a tube and laid on the form.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from ellwand.drape.field import Field
from ellwand.drape.form import SPREAD, Form, Limb
from ellwand.drape.touching import distances
from ellwand.drape.wrapping import radii, signed_angle, wrapped
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.model.draft import Draft
from ellwand.model.mesh import Counts, Mesh, Reals
from ellwand.model.names import named
from ellwand.model.piece import Level, Piece
from ellwand.model.surface import surface_of
from ellwand.model.wearer import HANDS, Wearer

LOOSE: Final = 1.5
"""The cloth begins so far above the shoulder (cm)."""
NEAR: Final = 9.0
"""So far from an armhole (cm) the body is laid anew when the sleeve is on the arm."""
WIDE: Final = 1.15
DEEP: Final = 0.80
"""A round tube is made so much wider and shallower to go round the body.  These are our own figures; the end does not
hang on them."""


@dataclass(frozen=True, slots=True)
class Start:
    """``points``: where each begins (cm); ``level``: how high each hangs above the hem of the body, nan on sleeves."""

    points: Reals
    level: Reals


def begun(draft: Draft, mesh: Mesh, form: Form, field: Field, wearer: Wearer) -> Start:
    """The garment round the form.

    Raises BadInput for a garment that has no body: a hood, cloak, coif, apron or breeches.
    """
    if draft.choices.other is not None:
        raise BadInput(
            "--hang",
            _("only a garment with a body can be hung, not a {style}", style=named(draft.choices.style)),
            _("leave it out"),
        )
    size = draft.dimensions
    surface = surface_of(draft)
    pieces = [surface.pieces[name] for name in mesh.parts]
    body = np.array([piece.place == "body" and bool(piece.levels) for piece in pieces])
    mirrored = np.array([surface.mirrored[name] for name in mesh.parts])
    level = _levels(mesh, pieces, body, mirrored)
    points = np.full((mesh.count, 3), np.nan)
    trunk = body[mesh.part]
    mine = np.unique(mesh.corners[trunk])
    sign = _front(mesh, trunk, pieces, mirrored)
    across, ahead = wrapped(mesh, trunk, level, sign, size.length - size.armhole)
    points[mine] = _on_body(draft, form, across[mine], ahead[mine], sign[mine], level[mine], wearer)
    points[mine] = _outside(points[mine], sign[mine], field)
    for hand in HANDS:
        _sleeve(mesh, form, pieces, points, hand)
    _filled(mesh, points)
    points[mine] = _outside(points[mine], sign[mine], field)
    return Start(points, level)


def hem_above_floor(draft: Draft, wearer: Wearer) -> float:
    """How high (cm) the hem is meant to hang."""
    return wearer["nape_to_floor"] - draft.dimensions.length + draft.choices.blouse


def belt_above_floor(draft: Draft, wearer: Wearer) -> float | None:
    """How high (cm) it is belted, None where it is not."""
    at = draft.choices.belt
    if isinstance(at, float | int):
        return float(at)
    if at == "hip":
        return wearer["hip_to_floor"]
    return wearer["waist_to_floor"] if at == "waist" or draft.choices.blouse else None


def _levels(mesh: Mesh, pieces: Sequence[Piece], wanted: Any, mirrored: Any) -> Reals:
    """Height above the hem (cm) of every point of the body's parts; the lowest of several."""
    out = np.full(mesh.count, np.inf)
    for n, piece in enumerate(pieces):
        if not wanted[n]:
            continue
        mine = mesh.part == n
        flat = mesh.flat[mine].reshape(-1, 2) * ((-1.0, 1.0) if mirrored[n] else (1.0, 1.0))
        np.minimum.at(out, mesh.corners[mine].ravel(), _height(piece.levels, flat))
    out[np.isinf(out)] = np.nan
    return out


def _height(levels: Sequence[Level], flat: Reals) -> Reals:
    every = [
        (flat[:, 1] - each.base_y) * each.up
        if each.centre is None
        else each.radius - np.hypot(flat[:, 0] - each.centre[0], flat[:, 1] - each.centre[1])
        for each in levels
    ]
    return np.asarray(np.min(every, axis=0))


def _front(mesh: Mesh, trunk: NDArray[np.bool_], pieces: Sequence[Piece], mirrored: NDArray[np.bool_]) -> Reals:
    """+1 on points of parts that are called front, −1 on those called back; a body in one by the half they hang in."""
    out = np.zeros(mesh.count)
    for n, name in enumerate(mesh.parts):
        mine = trunk & (mesh.part == n)
        words = name.split("-")
        sign: Reals | float = 1.0 if "front" in words else -1.0 if "back" in words else 0.0
        if len(pieces[n].levels) == 2:
            flat = mesh.flat[mine].reshape(-1, 2) * ((-1.0, 1.0) if mirrored[n] else (1.0, 1.0))
            one, other = (_height((each,), flat) for each in pieces[n].levels)
            sign = np.where(one < other, pieces[n].levels[0].up, pieces[n].levels[1].up).astype(float)
        np.add.at(out, mesh.corners[mine].ravel(), sign)
    return np.sign(out)


def _on_body(draft: Draft, form: Form, across: Reals, ahead: Reals, sign: Reals, level: Reals, wearer: Wearer) -> Reals:
    """The body's points: a tube below the armholes, above them before and behind the line of the shoulders."""
    size, blouse = draft.dimensions, draft.choices.blouse
    nape = wearer["nape_to_floor"]
    hem = hem_above_floor(draft, wearer)
    belt = belt_above_floor(draft, wearer) or wearer["waist_to_floor"]
    foot = size.length - size.armhole - size.shoulder_slope
    height = hem + level
    if blouse:
        # what is drawn up begins gathered between belt and shoulder
        over = level - (belt - hem)
        height = np.where(over > 0, belt + over * (nape - belt) / (nape - belt + blouse), height)
    neck, tip, shoulder = _shoulder(form)
    out, down = math.sin(math.radians(SPREAD)), math.cos(math.radians(SPREAD))
    line = np.array([(0.0, nape), (neck, nape), (shoulder + 0.5, tip), (shoulder + 0.5 + 60 * out, tip - 60 * down)])
    walked = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
    wide = np.abs(across)
    top_x = np.interp(wide, walked, line[:, 0]) * np.sign(across)
    top_z = np.interp(wide, walked, line[:, 1]) + LOOSE
    pit_x, pit_z = _armpit(form)
    share = np.clip((size.length - level) / max(size.length - foot, 1.0), 0.0, 1.0)
    low = min(float(np.interp(foot, np.sort(level), np.sort(height))), pit_z - 1.0)
    z = np.where(share < 1, (1 - share) * top_z + share * low, np.minimum(height, low + 0.3 * (height - low)))
    # under the arms it lies between arm and trunk
    arm = form.arms[1]
    inner = np.interp(-z, -arm.middle[:, 2], arm.middle[:, 0] - 1.1 * arm.radius)
    room = np.maximum(pit_x + 0.5, inner - 0.5)
    beneath = np.clip(WIDE * across, -room, room)
    x = np.where(share < 1, (1 - share) * top_x + share * beneath, beneath)
    swell = np.minimum(1.0, np.sqrt(1.3 * share))
    y = DEEP * ahead * swell - 1.0 * (1 - share) + sign * np.where(share < 1, 2.0 * swell, 0.0)
    return np.column_stack([-x, y, z])


def _outside(points: Reals, sign: Reals, field: Field) -> Reals:
    """What begins inside the form is moved forward or back out of it."""
    away = np.empty(len(points))
    out = points.copy()
    for _step in range(80):
        distances(out, field.low, field.cell, field.away, away)
        inside = (away < 0.5) & (sign != 0)
        if not inside.any():
            break
        out[inside, 1] += 0.5 * sign[inside]
    return out


def _armpit(form: Form) -> tuple[float, float]:
    """Where arm and trunk part: distance from the middle and height (cm)."""
    arm = form.arms[1]
    heights = np.linspace(form.trunk[5].height, arm.middle[0, 2], 60)
    known = [each.height for each in form.trunk]
    half = np.interp(heights, known, [each.half for each in form.trunk])
    inner = np.interp(-heights, -arm.middle[:, 2], arm.middle[:, 0] - 1.1 * arm.radius)
    apart = np.flatnonzero(inner > half)
    at = int(apart[-1]) if len(apart) else 0
    return float(half[at]), float(heights[at])


def _shoulder(form: Form) -> tuple[float, float, float]:
    """Half the neck's breadth, the shoulder point's height and its distance from the middle (cm)."""
    joint = form.arms[1]
    return form.trunk[-8].half, float(joint.middle[0, 2] + joint.radius[0]), float(joint.middle[0, 0]) + 2.0


def _sleeve(mesh: Mesh, form: Form, pieces: Sequence[Piece], points: Reals, hand: str) -> None:
    """One sleeve round its arm, from where the body's armhole hangs; it goes down as far as it is cut long."""
    names = [f"sleeve-{hand}"]
    mine_parts = [n for n, name in enumerate(mesh.parts) if name.startswith(names[0]) and pieces[n].place == "sleeve"]
    if not mine_parts:
        return
    mine = np.isin(mesh.part, mine_parts)
    below = np.full(mesh.count, np.inf)
    for n in mine_parts:
        rows = mesh.part == n
        y = mesh.flat[rows][:, :, 1]
        np.minimum.at(below, mesh.corners[rows].ravel(), (y.max() - y).ravel())
    own = np.unique(mesh.corners[mine])
    known = own[np.isfinite(points[own, 0])]
    arm = form.arms[0 if hand == "left" else 1]
    way = arm.middle[5] - arm.middle[0]
    way = way / np.linalg.norm(way)
    out = np.array([-way[2], 0.0, way[0]]) * (-1.0 if hand == "left" else 1.0)
    # the outermost points of the armhole lie on the outside of the arm
    sign = np.zeros(mesh.count)
    if len(known):
        top = points[known, 2]
        sign[known] = np.where(top > top.max() - 4.0, 1.0, 0.0)
        reach = float(((points[known[sign[known] > 0]] - arm.middle[0]) @ way).mean())
    else:
        sign[own[below[own] < 2.0]] = 1.0
        reach = 0.0
    angle = signed_angle(mesh, mine, -below, sign)
    radius = radii(mesh, mine, below)
    right = np.array([0.0, -1.0, 0.0]) * (1.0 if hand == "left" else -1.0)
    # below the arm it begins further down, where arm and trunk have parted
    walked = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(arm.middle, axis=0), axis=1))])
    clear = max(0.0, _parted(form, arm, walked, out) + 1.0 - reach)
    long = float(np.max(below[own]))
    under = clear * (1 - np.cos(angle[own])) / 2 * (1 - below[own] / long)
    along = reach + below[own] * (1 - 0.3 * clear / long) + under
    axis = np.column_stack([np.interp(along, walked, arm.middle[:, k]) for k in range(3)])
    axis += np.outer(np.maximum(along - walked[-1], 0.0), way)
    wide = np.maximum(radius[own], np.interp(along, walked, arm.radius) + 0.4)
    points[own] = axis + wide[:, None] * (np.outer(np.cos(angle[own]), out) + np.outer(np.sin(angle[own]), right))
    if len(known):
        _eased_round(mesh, points, known, own)


def _parted(form: Form, arm: Limb, walked: Reals, out: Reals) -> float:
    """How far down the arm (cm) its inner side is clear of the trunk."""
    steps = np.linspace(0.0, float(walked[3]), 40)
    axis = np.column_stack([np.interp(steps, walked, arm.middle[:, k]) for k in range(3)])
    inner = axis - np.outer(1.1 * np.interp(steps, walked, arm.radius), out)
    half = np.interp(inner[:, 2], [each.height for each in form.trunk], [each.half for each in form.trunk])
    clear = np.flatnonzero(np.abs(inner[:, 0]) > half + 0.5)
    return float(steps[clear[0]]) if len(clear) else float(steps[-1])


def _eased_round(mesh: Mesh, points: Reals, ring: Counts, sleeve: Counts) -> None:
    """The body's points near an armhole move with it: those within ``NEAR`` are laid anew between it and the rest."""
    from scipy.spatial import cKDTree

    on_sleeve = np.zeros(mesh.count, bool)
    on_sleeve[sleeve] = True
    body = np.flatnonzero(~on_sleeve & np.isfinite(points[:, 0]))
    away, _nearest = cKDTree(points[ring]).query(points[body])
    points[body[away < NEAR]] = np.nan


def _filled(mesh: Mesh, points: Reals) -> None:
    """What has no place yet (gussets, collars) goes in the middle of its neighbours."""
    from scipy.sparse import coo_array, diags_array
    from scipy.sparse.linalg import splu

    free = ~np.isfinite(points[:, 0])
    if not free.any():
        return
    i = mesh.corners[:, [0, 1, 2, 1, 2, 0]].ravel()
    j = mesh.corners[:, [1, 2, 0, 0, 1, 2]].ravel()
    beside = coo_array((np.ones(len(i)), (i, j)), (mesh.count, mesh.count)).tocsr()
    beside.data[:] = 1.0
    matrix = diags_array(np.asarray(beside.sum(axis=1)).ravel()) - beside
    right = -(matrix[free][:, ~free] @ points[~free])
    points[free] = splu(matrix[free][:, free].tocsc()).solve(right)
