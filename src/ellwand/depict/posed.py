"""Somebody dressed, drawn as an old picture might: the garment without its seams, folds where its cut makes them, head
and feet; so many heads high as the artist likes."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from ellwand.depict.spread import joined, moved
from ellwand.depict.view import garment_view
from ellwand.geometry.lines import Line, Point, arc
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing, Stroke
from ellwand.model.wearer import Wearer

SEEN: Final = frozenset({"garment", "garment back", "outline", "opening", "fastening", "lace"})
"""What of the garment's flat drawing a picture shows: no seams."""
HEAD_WIDE: Final = 0.72
"""Breadth of a head as a share of its height: from memory (anthropometric handbooks)."""
CHIN: Final = 0.870
"""Height of the chin as a share of standing height (Drillis and Contini, 1966; from memory)."""
FOOT: Final = (5.0, 3.5)
BELOW_NECK: Final = 14.0
"""A seam down the middle begins so far below the shoulders (cm): the neck and its slit are above it."""
DRAWN_IN: Final = 2 / 2.57
"""Width of an oval 0.62 times as deep (its girth is 2.57 times that, by Ramanujan), against half its girth."""
LEG: Final = 7.0
"""Half a foot's breadth and height as drawn, and how far a foot is from the middle (cm)."""


def posed(draft: Draft, wearer: Wearer, heads: float) -> Drawing:
    """The figure from the front, the floor at y = 0 (cm)."""
    length = draft.dimensions.length
    hem = wearer["nape_to_floor"] - length
    flat = garment_view(draft, "front")
    worn = Drawing(tuple(_hung(each, draft) for each in flat.strokes if each.role in SEEN), ())
    folds = Drawing(tuple(Stroke("link", line) for line in _folds(draft)), ())
    middle = Drawing(tuple(Stroke("seam", line) for line in _middle(draft)), ())
    dressed = moved(joined([worn, folds, middle]), 0.0, hem)
    return replace(joined([Drawing(tuple(_body(wearer, heads, hem)), ()), dressed]), labels=())


def _hung(stroke: Stroke, draft: Draft) -> Stroke:
    """A line of the flat garment as it hangs: the skirt is drawn in to an oval, its corners drop to the hem's level.

    Spread flat a skirt is half its hem wide; as an oval 0.62 times as deep as wide it is less.
    """
    sized = draft.dimensions
    waist = sized.levels["waist"]
    edge = [point for each in garment_view(draft, "front").strokes if each.role == "outline" for point in each.points]
    corner = max(
        (point for point in edge if point[1] < waist), key=lambda point: point[0] - point[1], default=(0.0, 0.0)
    )

    def hang(point: Point) -> Point:
        x, y = point
        if y >= waist or corner[0] <= 0.0:
            return point
        lift = corner[1] * min(1.0, abs(x) / corner[0]) ** 2
        low = max(0.0, waist * (y - lift) / (waist - lift))
        return x * (1.0 + (DRAWN_IN - 1.0) * (1.0 - low / waist)), low

    return replace(
        stroke, points=tuple(map(hang, stroke.points)), holes=tuple(tuple(map(hang, h)) for h in stroke.holes)
    )


def _body(wearer: Wearer, heads: float, hem: float) -> list[Stroke]:
    """Head, neck and feet, behind what is worn."""
    chin = CHIN * wearer["height"]
    high = chin / (heads - 1.0)
    neck = 0.3 * high
    oval = tuple((HEAD_WIDE * x, y) for x, y in arc((0.0, 0.0), high / 2, 0.0, 2 * math.pi)[:-1])
    out = [
        Stroke(
            "body",
            ((-neck, wearer["nape_to_floor"] - 3), (neck, wearer["nape_to_floor"] - 3), (neck, chin), (-neck, chin)),
            True,
        ),
        Stroke("body", tuple((x, y + chin + high / 2) for x, y in oval), True),
    ]
    for side in (-1, 1):
        if hem > FOOT[1]:
            leg = (
                (side * LEG - 3.5, hem),
                (side * LEG - 3.5, FOOT[1]),
                (side * LEG + 3.5, FOOT[1]),
                (side * LEG + 3.5, hem),
            )
            out.append(Stroke("body", leg, True))
        shoe = tuple(
            (side * LEG + FOOT[0] * x, FOOT[1] * max(y, 0.0)) for x, y in arc((0.0, 0.0), 1.0, 0.0, 2 * math.pi)
        )
        out.append(Stroke("body", shoe, True))
    return out


def _folds(draft: Draft) -> list[Line]:
    """Folds that fan out from where gores begin; a hem without gores hangs without any."""
    out: list[Line] = []
    levels = draft.dimensions.levels
    half = draft.dimensions.body_girth / 4
    for gore in draft.choices.gores:
        start = gore.start if isinstance(gore.start, float) else levels[gore.start]
        base = gore.base if isinstance(gore.base, float) else 40.0
        if gore.place == "side":
            places = [(side * half, side * base / 4 * share) for side in (-1, 1) for share in (0.3, 0.8)]
        elif "front" in gore.place:
            places = [(0.0, base / 2 * share) for share in (-0.6, -0.2, 0.2, 0.6)]
        else:
            continue
        out += [_fold((x, start - 3.0), (x + spread, 2.0)) for x, spread in places]
    return out


def _fold(top: Point, low: Point) -> Line:
    """A line that hangs from the top and swings out a little below."""
    return tuple(
        (top[0] + (low[0] - top[0]) * share**1.3, top[1] + (low[1] - top[1]) * share)
        for share in (k / 8 for k in range(9))
    )


def _middle(draft: Draft) -> list[Line]:
    if draft.choices.body.centre_seam not in ("front", "both"):
        return []
    return [((0.0, 1.0), (0.0, draft.dimensions.length - BELOW_NECK))]
