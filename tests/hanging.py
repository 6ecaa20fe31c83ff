"""Plain sheets of cloth to hang in trials: rectangles, discs and tubes as drafts of one or two pieces."""

from __future__ import annotations

import math

import numpy as np

from ellwand.drape.equilibrium import Task, task_of
from ellwand.drape.field import Field
from ellwand.drape.meshing import mesh_of
from ellwand.geometry.lines import Line
from ellwand.model.choices import Choices
from ellwand.model.draft import Draft, EdgeRef, Part, Seam
from ellwand.model.mesh import Mesh, Reals
from ellwand.model.others import CoifSize
from ellwand.model.piece import Edge, Piece


def piece(name: str, corners: Line) -> Piece:
    """A piece whose edges are the stretches between the corners, called by their number."""
    edges = tuple(
        Edge(str(n), "edge", (a, b), 0.0)
        for n, (a, b) in enumerate(zip(corners, (*corners[1:], corners[0]), strict=True))
    )
    return Piece(name, name, "main", 1, "other", corners, (), corners, (), edges)


def draft_of(*pieces: Piece, seams: tuple[tuple[str, str, str, str], ...] = ()) -> Draft:
    """A draft of these pieces; each seam: part, edge, part, edge."""
    return Draft(
        Choices("coif"),
        CoifSize(0.5, 1.0, 1.0, 1.0, 0.0, 0.0),
        pieces,
        tuple(Part(each.id, each.id) for each in pieces),
        tuple(
            Seam(f"seam-{n}", EdgeRef(a, b), EdgeRef(c, d), "plain", "plain") for n, (a, b, c, d) in enumerate(seams)
        ),
    )


def rectangle(wide: float, high: float, low: float = 0.0) -> Line:
    """Corners counter-clockwise, its lower edge at ``low``."""
    return ((0.0, low), (wide, low), (wide, low + high), (0.0, low + high))


def lifted(mesh: Mesh) -> Reals:
    """The points as they lie flat, at height 0; of one flat piece, or of several that lie beside each other."""
    out = np.zeros((mesh.count, 3))
    out[mesh.corners.ravel(), :2] = mesh.flat.reshape(-1, 2)
    return out


def task(
    mesh: Mesh,
    *,
    weight: float = 0.02,
    taut: float = 400.0,
    shear: float = 100.0,
    bends: tuple[float, float, float] = (0.2, 0.2, 0.2),
    field: Field | None = None,
) -> Task:
    """A task of one cloth all over."""
    many = len(mesh.corners)
    return task_of(
        mesh,
        np.tile((taut, taut, shear), (many, 1)),
        np.tile(bends, (many, 1)),
        np.full(many, weight),
        field,
    )


def disc(radius: float, around: int) -> Line:
    """A round piece."""
    return tuple(
        (radius * math.cos(2 * math.pi * n / around), radius * math.sin(2 * math.pi * n / around))
        for n in range(around)
    )


__all__ = ["disc", "draft_of", "lifted", "mesh_of", "piece", "rectangle", "task"]
