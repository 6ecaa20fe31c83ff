"""Garments worn over each other: does each clear the one beneath, and do sleeves, hems and necks step?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from ellwand.model.choices import girth_over
from ellwand.model.draft import Dimensions, Draft
from ellwand.model.finding import Finding, Outcome
from ellwand.model.others import CloakSize
from ellwand.model.wearer import HANDS, Hand, Wearer
from ellwand.prove.fits import LEVELS, reached
from ellwand.prove.sewn import (
    Sewn,
    edges_of,
    girth_at,
    hem_height,
    level_of,
    rounding,
    sewn_up,
    sleeve_girth,
    sleeve_levels,
    sleeves_of,
)

FOLDS: Final = 4.0
"""So much of the cloth beneath lies in folds without being felt (cm round): common practice, no source."""
STEP: Final = (2.0, 6.0)
"""Each outer sleeve is so much shorter than the one beneath, that it shows (cm): common practice, no source."""
SHOWS: Final = 2.0
"""Two hems nearer to each other than this (cm) look like a mistake: common practice, no source."""
NEARLY: Final = 0.5
"""Necks within this of each other (cm) lie edge to edge."""
SAME: Final = 0.01
HAIR: Final = 1e-4
STATIONS: Final = 24
"""Places along the arm that are looked at."""
Values = Mapping[str, float | str]


def layers(outer: Draft, beneath: Sequence[Draft], wearer: Wearer) -> tuple[Finding, ...]:
    """The garment over each of those worn beneath it, all drafted for this wearer."""
    over = sewn_up(outer, wearer)
    return tuple(finding for under in beneath for finding in _pair(over, sewn_up(under, wearer), under.choices.style))


def _pair(over: Sewn, under: Sewn, style: str) -> list[Finding]:
    heights = _hem_at(over), _hem_at(under)
    out = [_hems(over, heights[0], heights[1], style)] if heights[0] is not None and heights[1] is not None else []
    if isinstance(over.draft.settled, Dimensions) and isinstance(under.draft.settled, Dimensions):
        out = [_girths(over, under, style), *_sleeves(over, under, style), *out, _necks(over, under, style)]
    return out


def _between(over: Sewn, under: Sewn) -> float:
    """Extra girth (cm) for the cloth from the one beneath up to this: 2π × its thickness."""
    return girth_over(max(0.0, over.draft.choices.beneath_mm - under.draft.choices.beneath_mm))


def _outcome(good: bool) -> Outcome:
    return "sound" if good else "look again"


# --- girths ---------------------------------------------------------------------------------------------


def _girths(over: Sewn, under: Sewn, style: str) -> Finding:
    """The level at which this garment is closest to the one beneath."""
    rows = []
    for at in LEVELS:
        mine, theirs = reached(over, at), reached(under, at)
        if mine is not None and theirs is not None:
            rows.append((girth_at(over, mine) - girth_at(under, theirs), girth_at(over, mine), at))
    room, girth, at = min(rows)
    extra = _between(over, under)
    needed = girth - room + extra - FOLDS
    values: Values = {"under": style, "at": at, "inner": girth - room, "thick": extra, "rounding": rounding(over)}
    return Finding("layer-girth", style, _outcome(girth >= needed - SAME), girth, needed, values=values)


# --- sleeves --------------------------------------------------------------------------------------------


def _sleeves(over: Sewn, under: Sewn, style: str) -> list[Finding]:
    mine, theirs = over.draft.choices.sleeve.shape, under.draft.choices.sleeve.shape
    if "none" in (mine, theirs):
        return []
    out = [_sleeve_room(over, under, style)]
    if mine != "wide":
        out.append(_sleeve_step(over, under, style))
    return out


def _reach(sewn: Sewn, hand: Hand) -> float:
    """Where a sleeve ends, from the shoulder point (cm)."""
    size = sewn.draft.dimensions
    return size.shoulder_drop + size.sleeve_lengths[hand]


def _sleeve_step(over: Sewn, under: Sewn, style: str) -> Finding:
    """How much of the sleeve beneath shows; of two unlike arms, where it is least."""
    hand = min(HANDS, key=lambda each: _reach(under, each) - _reach(over, each))
    step = _reach(under, hand) - _reach(over, hand)
    wanted = over.draft.dimensions.sleeve_lengths[hand] + step - sum(STEP) / 2
    values: Values = {"under": style, "length": wanted}
    return Finding("layer-sleeve", style, _outcome(step >= STEP[0] - SAME), step, STEP[0], values=values)


def _sleeve_room(over: Sewn, under: Sewn, style: str) -> Finding:
    """The place along the arm at which the outer sleeve is closest to the inner, both whole tubes."""
    mine, theirs = sleeves_of(over), sleeves_of(under)
    rows = []
    for hand in HANDS:
        tubes = [(each, *sleeve_levels(each[hand])) for each in (mine, theirs)]
        drops = [sewn.draft.dimensions.shoulder_drop for sewn in (over, under)]
        start = max(drop + top for drop, (_, top, _) in zip(drops, tubes, strict=True))
        end = min(drop + cuff for drop, (_, _, cuff) in zip(drops, tubes, strict=True))
        # a hair inside both, so that a straight top or cuff counts as cloth
        for i in range(STATIONS + 1):
            down = start + HAIR + (max(end - start, 3 * HAIR) - 2 * HAIR) * i / STATIONS
            outer, inner = (
                sleeve_girth(each[hand], down - drop) for drop, (each, _, _) in zip(drops, tubes, strict=True)
            )
            rows.append((outer - inner, outer, down))
    room, outer, down = min(rows)
    needed = outer - room + _between(over, under) - FOLDS
    values: Values = {"under": style, "inner": outer - room, "down": down, "shape": under.draft.choices.sleeve.shape}
    return Finding("layer-sleeve-room", style, _outcome(outer >= needed - SAME), outer, needed, values=values)


# --- hems and necks -------------------------------------------------------------------------------------


def _hem_at(sewn: Sewn) -> float | None:
    """Height of the hem above the floor (cm), of garments that hang from the shoulders."""
    size = sewn.draft.settled
    if isinstance(size, CloakSize):
        return sewn.wearer["nape_to_floor"] - size.length
    return hem_height(sewn) if isinstance(size, Dimensions) else None


def _hems(over: Sewn, mine: float, theirs: float, style: str) -> Finding:
    """A hem that stops short of the one beneath, or covers it."""
    step = mine - theirs
    key = "cloak.length" if isinstance(over.draft.settled, CloakSize) else "length"
    wanted = over.wearer["nape_to_floor"] - theirs - 2 * SHOWS
    values: Values = {"under": style, "length": wanted, "key": key}
    return Finding("layer-hem", style, _outcome(abs(step) >= SHOWS - SAME), step, SHOWS, values=values)


def _necks(over: Sewn, under: Sewn, style: str) -> Finding:
    """A neck that shows the one beneath all round, or covers it all round."""
    (wide, deep), (inner_wide, inner_deep) = _neck(over), _neck(under)
    wider, deeper = wide - inner_wide, deep - inner_deep
    mixed = wider * deeper < 0 and min(abs(wider), abs(deeper)) > NEARLY
    values: Values = {"under": style, "wider": wider, "deeper": deeper}
    return Finding("layer-neck", style, _outcome(not mixed), values=values)


def _neck(sewn: Sewn) -> tuple[float, float]:
    """Half the width of the neck and its depth in front (cm)."""
    size = sewn.draft.dimensions
    half = low = 0.0
    for ref, edge in edges_of(sewn, "neck"):
        piece = sewn.pieces[ref.part]
        across = [x for x, _ in piece.sewn]
        middle = (min(across) + max(across)) / 2
        whole = max(across) - min(across) > 0.75 * size.panel_width
        neck = [x for other in piece.edges if other.kind == "neck" for x, _ in other.points]
        half = max(half, max(abs(x - middle) for x in neck) if whole else max(neck) - min(neck))
        low = max(low, *(size.length - level_of(piece, point) for point in edge.points))
    return half, low
