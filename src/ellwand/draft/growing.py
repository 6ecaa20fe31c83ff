"""A child's garment with room to grow: cut for the body to come, its length taken up until then."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from shapely import LineString, Polygon, get_parts

from ellwand.draft.assemble import draft
from ellwand.draft.plan import plan_of
from ellwand.errors import BadInput
from ellwand.geometry.lines import Line, length
from ellwand.language import _
from ellwand.model.choices import Choices, Growth, Landmark, SleeveLength, Span
from ellwand.model.draft import Draft, TakenUp
from ellwand.model.piece import Guide, Level, Piece
from ellwand.model.wearer import HANDS, Wearer

TUCKS_ABOVE: Final = 5.0
"""Tucks lie this far above the hem or cuff (cm), where the cloth hangs straight: common practice, no source."""
SHORTEST: Final = 1.0
"""Less than this (cm) is not worth taking up: common practice, no source."""


def draft_to_grow(choices: Choices, growth: Growth, now: Wearer, later: Wearer, cloth: str = "main") -> Draft:
    """The garment drafted for the body to come, with what is to be taken up until the wearer has grown into it.

    Raises BadInput where the wearer does not grow, CannotDraft when no such garment can be cut.
    """
    if later is now:
        raise BadInput(
            "garment.growth", _("only a child whose age is given grows"), _("give wearer.age, or leave it out")
        )
    small = plan_of(choices, now).dimensions
    large = draft(_grown(choices, now, later), later, cloth)
    spare = TakenUp(
        growth.by,
        growth.months,
        _worth(large.dimensions.length - small.length),
        {hand: _worth(large.dimensions.sleeve_lengths[hand] - small.sleeve_lengths[hand]) for hand in HANDS},
    )
    return replace(large, pieces=tuple(_marked(large, piece, spare) for piece in large.pieces), taken_up=spare)


def _worth(cm: float) -> float:
    return cm if cm >= SHORTEST else 0.0


def _grown(choices: Choices, now: Wearer, later: Wearer) -> Choices:
    """Lengths that were given as numbers grow with the body; a landmark does so by itself."""
    taller = later["nape_to_floor"] / now["nape_to_floor"]
    longer = later["arm_length"] / now["arm_length"]
    sleeve = choices.sleeve
    sleeve_length: SleeveLength | float = sleeve.length
    if isinstance(sleeve_length, float):
        sleeve_length *= longer
    return replace(choices, length=_scaled(choices.length, taller), sleeve=replace(sleeve, length=sleeve_length))


def _scaled(chosen: Landmark | float | Span, factor: float) -> Landmark | float | Span:
    if isinstance(chosen, Span):
        return Span(chosen.low * factor, chosen.high * factor)
    return chosen * factor if isinstance(chosen, float) else chosen


def _marked(whole: Draft, piece: Piece, spare: TakenUp) -> Piece:
    """The piece with chalk lines: where a deep hem is turned up, or the two lines that a tuck brings together."""
    if piece.place == "body":
        amount, levels = spare.body, piece.levels
    elif piece.place == "sleeve":
        hand = next(
            h for h in HANDS if any(p.id.startswith(f"sleeve-{h}") and p.piece == piece.id for p in whole.parts)
        )
        amount = spare.sleeves[hand]
        levels = (Level(min(y for _, y in piece.sewn)),)
    else:
        return piece
    if not amount:
        return piece
    heights = {"tuck": TUCKS_ABOVE, "tuck top": TUCKS_ABOVE + amount} if spare.by == "tucks" else {"turn up": amount}
    lines = [
        Guide(name, line)
        for level in levels
        for name, height in heights.items()
        for line in _across(piece, level, height)
    ]
    return replace(piece, guides=(*piece.guides, *lines))


def _across(piece: Piece, level: Level, height: float) -> Iterator[Line]:
    """The level ``height`` cm above the hem, where it lies on the piece."""
    shape = Polygon(piece.sewn, piece.sewn_holes)
    low_x, _, high_x, _ = shape.bounds
    if level.centre is None:
        y = level.base_y + level.up * height
        line = LineString([(low_x - 1, y), (high_x + 1, y)])
    else:
        radius, (x, y) = level.radius - height, level.centre
        turns = [math.radians(180 + d) for d in range(181)]
        line = LineString([(x + radius * math.cos(t), y + radius * math.sin(t)) for t in turns])
    for part in get_parts(line.intersection(shape)):
        if isinstance(part, LineString) and length(tuple(part.coords)) > SHORTEST:
            yield tuple((px, py) for px, py in part.coords)
