"""The garment as it hangs, to be looked at: its surfaces in their colours, from before, the side and behind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from ellwand.depict.shaded import Shown, faced, painted, turned
from ellwand.model.garment import Garment
from ellwand.model.mesh import Hang, Reals

BODY: Final = (0.80, 0.74, 0.68)
CLOTH: Final = (0.78, 0.76, 0.70)
PAPER: Final = (1.0, 1.0, 1.0)
COLOURS: Final[Mapping[str, tuple[float, float, float]]] = {
    "or": (0.85, 0.66, 0.20),
    "argent": (0.90, 0.90, 0.88),
    "gules": (0.68, 0.16, 0.14),
    "azure": (0.16, 0.30, 0.58),
    "sable": (0.16, 0.16, 0.17),
    "vert": (0.18, 0.42, 0.24),
    "purpure": (0.42, 0.20, 0.46),
    "tenné": (0.72, 0.42, 0.18),
    "sanguine": (0.48, 0.10, 0.14),
}
"""Of cloth in daylight: our own choice."""
ROUND: Final = 4.0
"""Left free round what is seen (cm)."""
VIEWS: Final = (0.0, 90.0, 180.0)


def surfaces(garment: Garment, hung: Hang) -> tuple[Shown, ...]:
    """The form's surfaces, then the garment's."""
    body = [
        Shown(each.points, each.corners, np.tile(BODY, (len(each.points), 1)), faced(each.points, each.corners))
        for each in hung.form
    ]
    return (*body, _cloth(garment, hung))


def _cloth(garment: Garment, hung: Hang) -> Shown:
    """Every part has points of its own, so that two colours meet sharply in their seam."""
    mesh, points = hung.mesh, hung.points
    pieces = {piece.id: piece for piece in garment.draft.pieces}
    tint = [pieces[part.piece].tincture or _of_cloth(garment, pieces[part.piece].cloth) for part in garment.draft.parts]
    colours = np.array([COLOURS.get(name, CLOTH) for name in tint])
    facing = faced(points, mesh.corners)
    key, corners = np.unique(mesh.part[:, None] * mesh.count + mesh.corners, return_inverse=True)
    part, point = key // mesh.count, key % mesh.count
    return Shown(points[point], corners.reshape(-1, 3), colours[part], facing[point])


def _of_cloth(garment: Garment, name: str) -> str:
    return next((cloth.tincture for cloth in garment.cloths if cloth.name == name), "")


def pictures(garment: Garment, hung: Hang, high: int = 900) -> NDArray[np.uint8]:
    """Front, the wearer's left side and back beside each other, ``high`` pixels high."""
    return np.concatenate(_seen(garment, hung, VIEWS, high), axis=1)


def turning(garment: Garment, hung: Hang, count: int = 24, high: int = 400) -> list[NDArray[np.uint8]]:
    """Once round in ``count`` pictures, from the front over the wearer's left."""
    return _seen(garment, hung, [360.0 * n / count for n in range(count)], high)


def _seen(garment: Garment, hung: Hang, ways: Sequence[float], high: int) -> list[NDArray[np.uint8]]:
    shown = surfaces(garment, hung)
    every: Reals = np.concatenate([each.points for each in shown])
    half = float(np.max(np.hypot(every[:, 0], every[:, 1]))) + ROUND
    box = (-half, min(0.0, float(np.min(every[:, 2]))) - ROUND, half, float(np.max(every[:, 2])) + ROUND)
    return [painted([turned(each, way) for each in shown], box, high, PAPER) for way in ways]
