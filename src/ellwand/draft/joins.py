"""What every part of the draft needs to meet the others: where edges are entered, and their allowances."""

from __future__ import annotations

from typing import Literal

from ellwand.draft.neck import neck_allowance
from ellwand.draft.plan import Plan
from ellwand.model.draft import EdgeRef
from ellwand.model.piece import EdgeKind

Face = Literal["front", "back"]

Sides = dict[tuple[str, str, str], dict[str, EdgeRef]]
"""(place, hand, the viewer's side of the line) -> its edges by tag."""
Spots = dict[tuple[str, str, str], EdgeRef]
"""(face, hand, what) -> armhole, gusset, shoulder."""


def allowance_for(plan: Plan, kind: EdgeKind) -> float:
    """Allowance (cm) outside an edge of this kind."""
    sewing = plan.choices.sewing
    if kind == "hem":
        return sewing.hem
    if kind == "cuff":
        return min(sewing.hem, 2.0)
    if kind == "neck":
        return neck_allowance(plan.choices)
    return sewing.allowance


def opposite(hand: str) -> str:
    """The other hand, or the viewer's other side."""
    return "right" if hand == "left" else "left"
