"""A garment hung on its wearer: meshed, wrapped round the form, let down step by step, refined."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from ellwand.drape.equilibrium import NO_BELT, Settled, Task, settled, task_of
from ellwand.drape.field import Field, field_of, skin
from ellwand.drape.figures import Figures, figures_of
from ellwand.drape.form import form_of
from ellwand.drape.meeting import NONE, Pairs
from ellwand.drape.meshing import mesh_of, refined
from ellwand.drape.placing import begun, belt_above_floor, hem_above_floor
from ellwand.drape.readings import read
from ellwand.drape.touching import distances
from ellwand.language import _
from ellwand.model.cloth import Cloth
from ellwand.model.draft import Draft
from ellwand.model.mesh import Hang, Mesh, Reals
from ellwand.model.piece import Piece
from ellwand.model.wearer import Wearer

FIRST: Final = 600
"""Points of the first, coarse mesh; each refinement has four times as many."""
EASING: Final = ((30.0, 20), (100.0, 20))
"""The first stiffnesses against stretching (gf/cm) and the steps taken with them."""
SLIMMER: Final = 0.9
"""The form is so much slimmer (cm) under the first mesh: its sleeves are prisms of few sides."""
TIGHTENING: Final = (0.7, 0.45, 0.25, 0.1)
"""A belt is drawn tight in these steps, in shares of how far off the form the cloth begins."""
CLOSE: Final = 0.2
"""So far off the form a tight belt lets the cloth be, beside the layer between (cm)."""
BELT: Final = 4.0
"""How wide a belt is (cm)."""
GRIP: Final = 8.0
"""How hard a belt holds the cloth by friction (gf/cm²): a pull of 1 kg round a waist, half of that lost: our own
figure."""
MOST: Final = (60, 40, 25)
"""Steps on each mesh at most."""
RESTS: Final = 0.1
"""Left over of the weight when it is at rest."""


def hang(
    draft: Draft,
    wearer: Wearer,
    cloths: Sequence[Cloth],
    *,
    finer: int = 2,
    progress: Callable[[str], None] = lambda text: None,
    stop: Callable[[], bool] = lambda: False,
) -> Hang:
    """The garment at rest on its wearer; ``finer``: how often its first mesh of some 600 points is refined.

    Raises BadInput for a garment without a body.
    """
    form = form_of(wearer, draft.choices.beneath_mm / 10)
    field = field_of(form)
    mesh = mesh_of(draft, math.sqrt(cloth_area(draft) / (0.866 * FIRST)))
    start = begun(draft, mesh, form, field, wearer)
    points, level = start.points, start.level
    belt = belt_above_floor(draft, wearer)
    at = None if belt is None else belt - hem_above_floor(draft, wearer)
    figures = _by_part(draft, cloths)
    steps = 0
    done: Settled | None = None
    for fine in range(finer + 1):
        if fine:
            mesh, between = refined(mesh)
            points = np.vstack([points, points[between].mean(1)])
            level = np.concatenate([level, level[between].mean(1)])
        round_ = field if fine or not finer else replace(field, away=field.away + SLIMMER, trunk=field.trunk + SLIMMER)
        task = replace(_task(mesh, figures, round_), meets=_on_trunk(mesh))
        pairs = NONE
        girded = np.zeros(mesh.count, bool) if at is None else _under(level, at, task)
        progress(_("hanging it: {count} points", count=mesh.count))
        if not fine:
            for taut, most in EASING:
                soft = replace(_belted(task, girded, NO_BELT), stiff=task.stiff * (taut / float(np.max(task.stiff))))
                eased = settled(soft, points, most=most, enough=RESTS, pairs=pairs, stop=stop)
                points, pairs = eased.points, eased.pairs
                steps += len(eased.energies)
            points, pairs, taken = _tightened(task, points, girded, pairs, stop)
            steps += taken
        task = _belted(task, girded, CLOSE)
        done = settled(task, points, most=MOST[min(fine, 2)], enough=RESTS, pairs=pairs, stop=stop)
        points = done.points
        steps += len(done.energies)
    assert done is not None
    away = np.empty(len(points))
    distances(points, field.low, field.cell, field.away, away)
    stretch = strains(mesh, points)
    heights = {name: wearer[f"{name}_to_floor"] for name in ("waist", "hip")}
    readings = read(mesh, points, level, stretch, task.area, heights, belt)
    return Hang(mesh, points, skin(form), done.residual, steps, max(0.0, -float(np.min(away))), stretch, readings)


def _under(level: Reals, at: float, task: Task) -> NDArray[np.bool_]:
    """The body's points that a belt at that level lies on: at least one row of them."""
    wide = max(BELT / 2, 0.6 * math.sqrt(float(np.median(task.own))))
    return np.asarray(np.abs(level - at) <= wide)


def _belted(task: Task, girded: NDArray[np.bool_], loose: float) -> Task:
    """With a belt that lets what is under it be ``loose`` (cm) off the form, and holds it."""
    return replace(
        task,
        belt=np.where(girded, task.gap + loose, NO_BELT),
        grip=np.where(girded, GRIP * task.own, 0.0),
    )


def _tightened(
    task: Task, points: Reals, girded: NDArray[np.bool_], pairs: Pairs, stop: Callable[[], bool]
) -> tuple[Reals, Pairs, int]:
    """The belt drawn tight in steps."""
    if not girded.any() or task.field is None:
        return points, pairs, 0
    away = np.empty(len(points))
    field, steps = task.field, 0
    distances(points, field.low, field.cell, field.trunk, away)
    loosest = float(np.max(away[girded]))
    for share in TIGHTENING:
        done = settled(_belted(task, girded, share * loosest), points, most=8, enough=RESTS, pairs=pairs, stop=stop)
        points, pairs = done.points, done.pairs
        steps += len(done.energies)
    return points, pairs, steps


def _on_trunk(mesh: Mesh) -> NDArray[np.bool_]:
    """The points that lie on no sleeve or gusset: there cloth does not go through cloth."""
    out = np.ones(mesh.count, bool)
    limb = np.array([bool({"sleeve", "gusset"} & set(name.split("-"))) for name in mesh.parts])
    out[mesh.corners[limb[mesh.part]]] = False
    return out


def strains(mesh: Mesh, points: Reals) -> Reals:
    """Of each triangle how much longer its weft and its warp are than flat, as a share, and the sine of its shear."""
    u, v = mesh.flat[:, 1] - mesh.flat[:, 0], mesh.flat[:, 2] - mesh.flat[:, 0]
    shape = np.linalg.inv(np.stack([u, v], 2))
    a, b, c = (points[mesh.corners[:, n]] for n in range(3))
    drawn = np.stack([b - a, c - a], 2) @ shape
    weft, warp = np.linalg.norm(drawn[:, :, 0], axis=1), np.linalg.norm(drawn[:, :, 1], axis=1)
    shear = (drawn[:, :, 0] * drawn[:, :, 1]).sum(1) / np.maximum(weft * warp, 1e-9)
    return np.stack([weft - 1, warp - 1, shear], 1)


def cloth_area(draft: Draft) -> float:
    """Of all parts as they are sewn (cm²)."""
    from ellwand.geometry.lines import area

    pieces = {piece.id: piece for piece in draft.pieces}
    return math.fsum(
        abs(area(pieces[part.piece].sewn)) - sum(abs(area(hole)) for hole in pieces[part.piece].sewn_holes)
        for part in draft.parts
    )


def _by_part(draft: Draft, cloths: Sequence[Cloth]) -> Mapping[str, Figures]:
    pieces: dict[str, Piece] = {piece.id: piece for piece in draft.pieces}
    by_name = {cloth.name: figures_of(cloth) for cloth in cloths}
    return {part.id: by_name[pieces[part.piece].cloth] for part in draft.parts}


def _task(mesh: Mesh, figures: Mapping[str, Figures], field: Field) -> Task:
    each = [figures[name] for name in mesh.parts]
    stiff = np.array([one.stretching for one in each])[mesh.part]
    bends = np.array([one.bending for one in each])[mesh.part]
    grams = np.array([one.weight for one in each])[mesh.part]
    return task_of(mesh, stiff, bends, grams, field)
