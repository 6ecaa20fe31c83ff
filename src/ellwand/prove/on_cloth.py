"""The lays against the cloth at hand."""

from __future__ import annotations

import math
from collections.abc import Sequence

from shapely.geometry import Polygon, box

from ellwand.model.cloth import Cloth, length_on_table
from ellwand.model.draft import Draft
from ellwand.model.finding import Finding, Outcome
from ellwand.model.lay import Lay, lie, opened
from ellwand.model.on_table import moved_along
from ellwand.model.piece import Piece
from ellwand.prove.on_stripes import on_stripes
from ellwand.prove.tearing import tears_straight


def prove_on_cloth(draft: Draft, lays: Sequence[Lay], cloths: Sequence[Cloth]) -> tuple[Finding, ...]:
    """Of each cloth: is there enough, do faults fall into a piece, was it laid as asked, and do its stripes meet?"""
    out: list[Finding] = []
    for cloth in cloths:
        own = [lay for lay in lays if lay.cloth == cloth.name]
        if not own:
            out.append(Finding("cloth-not-needed", cloth.name, "look again", values={"for": _named(cloth)}))
            continue
        main = [lay for lay in own if not lay.remnant]
        out += _enough(main, cloth)
        out += tears_straight(cloth)
        out += _clear_of_faults(main, draft.pieces, cloth)
        out += _folded(main, cloth)
        out += _left_overs(own, cloth)
        out += _on_the_table(main, draft.pieces, cloth)
        if cloth.repeat is not None:
            out += on_stripes(draft, main, cloth)
    return tuple(out)


def _named(cloth: Cloth) -> str:
    """What the cloth is for."""
    return " and ".join(cloth.cuts) or "whatever has no cloth of its own"


def _enough(lays: Sequence[Lay], cloth: Cloth) -> list[Finding]:
    at_hand = length_on_table(cloth)
    if at_hand is None:
        return []
    length = math.fsum(lay.length for lay in lays)
    outcome: Outcome = "sound" if length <= at_hand + 0.05 else "will not work"
    return [Finding("cloth-enough", cloth.name, outcome, at_hand, length, values={"bought": cloth.length or 0.0})]


def _clear_of_faults(lays: Sequence[Lay], pieces: Sequence[Piece], cloth: Cloth) -> list[Finding]:
    by_id = {piece.id: piece for piece in pieces}
    laid = [
        (placed.part, lay.start, Polygon(lie(by_id[placed.piece].cut, placed)))
        for lay in map(opened, lays)
        for placed in lay.placements
    ]
    out = []
    for fault in cloth.faults:
        hole = box(*fault.spoils)
        hit = [part for part, y, cut in laid if cut.intersection(_lower(hole, y)).area > 1e-3]
        values: dict[str, float | str] = {"x": fault.x, "y": fault.y, "part": hit[0] if hit else ""}
        out.append(Finding("cloth-fault", cloth.name, "look again" if hit else "sound", values=values))
    return out


def _lower(hole: Polygon, by: float) -> Polygon:
    left, low, right, high = hole.bounds
    return box(left, low - by, right, high - by)


def _folded(lays: Sequence[Lay], cloth: Cloth) -> list[Finding]:
    """Why a fold that was asked for is not used."""
    if cloth.fold not in ("lengthwise", "crosswise") or any(lay.fold == cloth.fold for lay in lays):
        return []
    why = "narrow"
    if cloth.repeat is not None:
        why = "stripes"
    elif cloth.fold == "crosswise" and cloth.nap:
        why = "nap"
    elif cloth.fold == "crosswise" and cloth.faults:
        why = "faults"
    return [Finding("cloth-laid-flat", cloth.name, "look again", values={"asked": cloth.fold, "why": why})]


def _left_overs(lays: Sequence[Lay], cloth: Cloth) -> list[Finding]:
    if not cloth.remnants:
        return []
    used = sum(lay.remnant > 0 for lay in lays)
    values: dict[str, float | str] = {"count": float(len(cloth.remnants)), "used": float(used)}
    if used:
        return [Finding("cloth-remnants-used", cloth.name, "sound", values=values)]
    values["why"] = "stripes" if cloth.repeat is not None else "no gain"
    return [Finding("cloth-remnants-unused", cloth.name, "look again", values=values)]


def _on_the_table(lays: Sequence[Lay], pieces: Sequence[Piece], cloth: Cloth) -> list[Finding]:
    """Where the cloth is moved along a table that is shorter, and the part that lies across such a place."""
    out: list[Finding] = []
    for lay in lays if cloth.table is not None else ():
        moves, across = moved_along(lay, pieces, cloth.table or 0.0)
        values: dict[str, float | str] = {"moves": float(len(moves)), "part": across[0] if across else ""}
        values |= {f"move{n + 1}": lay.start + at for n, at in enumerate(moves)}
        out.append(Finding("cloth-table", cloth.name, "look again" if across else "sound", cloth.table, values=values))
    return out
