"""The neck of the garment as it lies flat, its slit and open shoulders, and how far a centre opens."""

from __future__ import annotations

import math
from collections.abc import Mapping

from ellwand.depict.setting_in import Face
from ellwand.geometry.lines import Line, Point
from ellwand.model.draft import Draft, piece_of
from ellwand.model.neckline import necklines


def neck_curves(draft: Draft) -> Mapping[Face, Line]:
    """The sewn necks of both faces, right halves from the centre out."""
    if draft.adornment.field is not None:
        return {face: tuple(sorted(line)) for face, line in necklines(draft).items()}
    faces: tuple[Face, Face] = ("front", "back")
    return {face: tuple(sorted(neck_curve(draft, face, draft.dimensions.length))) for face in faces}


def neck_curve(draft: Draft, face: Face, length: float) -> list[Point]:
    """The sewn neck of a face, right half, with the shoulder line at y = ``length`` and the centre at x = 0."""
    if draft.adornment.field is not None:
        return [(x, y + length - draft.dimensions.length) for x, y in necklines(draft)[face]]
    for piece in draft.pieces:
        edges = [edge for edge in piece.edges if edge.kind == "neck"]
        if not edges or not piece.name.startswith(("body", face)):
            continue
        points = [p for edge in edges for p in edge.points]
        whole = not piece.name.startswith((f"{face} half", "body half"))
        xs = [x for x, _ in points]
        fold = next((g.points[0][1] for g in piece.guides if g.name == "shoulder fold"), None)
        # the centre of a half lies opposite its shoulder: at its left, but for the half of a back
        at_left = fold is not None or max(points, key=lambda p: p[1])[0] > (min(xs) + max(xs)) / 2
        middle = (min(xs) + max(xs)) / 2 if whole else (min(xs) if at_left else max(xs))
        top = fold if fold is not None else max(y for _, y in points)
        if fold is None or face == "front":
            sign = 1.0 if whole or at_left else -1.0
            kept = [(sign * (x - middle), length + y - top) for x, y in points if y <= top + 1e-6]
        else:
            kept = [(x - middle, length - (y - top)) for x, y in points if y >= top - 1e-6]
        kept = [(max(0.0, x), y) for x, y in kept if x > -1e-6]
        low = min(y for _, y in kept)
        return sorted({*kept, (0.0, low)})
    raise ValueError("a garment without neck")


def opened_down(draft: Draft, face: Face, whole: float) -> float:
    """How far down from the neck a closure opens the centre (cm); ``whole`` where it is open to the hem."""
    stem = f"centre-{face}-opening"
    return next(
        (
            abs(edge.points[-1][1] - edge.points[0][1])
            for part in draft.parts
            for edge in piece_of(draft, part.id).edges
            if edge.id.startswith(stem)
        ),
        whole,
    )


def open_shoulders(draft: Draft, face: Face) -> list[tuple[int, float]]:
    """Which side of the picture (1 right, −1 left) a shoulder is open beside the neck, and how far (cm)."""
    left = 1 if face == "front" else -1
    return [
        (left if "left" in f"{part.id}-{edge.id}".split("-") else -left, math.dist(edge.points[0], edge.points[-1]))
        for part in draft.parts
        for edge in piece_of(draft, part.id).edges
        if edge.kind == "shoulder opening" and face in f"{part.id}-{edge.id}".split("-")
    ]
