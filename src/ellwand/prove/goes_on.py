"""Does it go on: head through the neck, hands through the cuffs, the body through the shell?"""

from __future__ import annotations

import math

from ellwand.geometry.lines import length
from ellwand.model.finding import Finding
from ellwand.model.piece import Piece
from ellwand.model.wearer import Hand, Measure, upper
from ellwand.prove.putting_on import putting_on
from ellwand.prove.sewn import (
    Sewn,
    depths,
    elbow_gore_at,
    from_top,
    opens_through,
    sleeve_girth,
    sleeve_levels,
    sleeves_of,
)

NECK_EASE = 1.0
"""A neck is comfortable with this much over the head (cm): common practice, no source."""
DRAWN_SLIT = 0.45
"""A slit is drawn 0.2 cm wide, which its neck edge lacks, and twice that in the point of a V; a knife cut has no
width."""
SAME = 0.01


def goes_on(sewn: Sewn) -> tuple[Finding, ...]:
    """Neck, the closer of both cuffs, and the whole over the head or however it opens."""
    sleeves = sleeves_of(sewn).items()
    cuffs = [_cuff(sewn, *min(_narrowest(sewn, *each) for each in sleeves))] if sleeves else []
    return (_neck(sewn), *cuffs, putting_on(sewn))


def neck_passes(around: float, head: Measure) -> Finding:
    """A neck opening ``around`` cm in length (both lips of its slit counted) against the head."""
    values = {"head": head.value, "sd": head.sd}
    needed = upper(head)
    if around < head.value - SAME:
        return Finding("neck-too-small", "neck", "will not work", around, head.value, values=values)
    if head.source == "estimated":
        return Finding("neck-by-estimate", "neck", "look again", around, needed, values=values)
    if around < needed + NECK_EASE - DRAWN_SLIT:
        return Finding("neck-tight", "neck", "look again", around, needed + NECK_EASE, values=values)
    return Finding("neck-passes", "neck", "sound", around, needed, values=values)


def _neck(sewn: Sewn) -> Finding:
    if face := opens_through(sewn):
        return Finding("neck-opens", "neck", "sound", values={"face": face})
    rims = [rim for rim in sewn.shell.rims if "neck" in rim.opens_to]
    return neck_passes(math.fsum(rim.length for rim in rims), sewn.wearer.measures["head_girth"])


def _narrowest(sewn: Sewn, hand: Hand, sleeve: tuple[Piece, ...]) -> tuple[float, bool]:
    """The narrowest girth (cm) of a sleeve, above the opening in its seam, and whether it has one."""
    underarm, cuff = sleeve_levels(sleeve)
    opening = min(from_top(sleeve, "opening"), default=None)
    end = cuff if opening is None else opening
    bends = {down for piece in sleeve for down in depths(piece)}
    gore = sewn.pieces.get(f"sleeve-{hand}-gore")
    inside = [
        sleeve_girth(sleeve, down) + (elbow_gore_at(gore, end - down) if gore else 0.0)
        for down in bends
        if underarm + SAME < down <= end + SAME
    ]
    top = math.fsum(length(edge.points) for piece in sleeve for edge in piece.edges if edge.kind == "armhole")
    return min([*inside, top]), opening is not None


def _cuff(sewn: Sewn, narrowest: float, opens: bool) -> Finding:
    hand = sewn.wearer.measures["hand_girth"]
    values = {"hand": hand.value, "sd": hand.sd, "opening": sewn.draft.dimensions.cuff_opening}
    code = "cuff-opened" if opens else "cuff"
    if narrowest < hand.value - SAME:
        return Finding("cuff-too-small", "cuffs", "will not work", narrowest, hand.value, values=values)
    if narrowest < upper(hand) - SAME:
        return Finding("cuff-by-estimate", "cuffs", "look again", narrowest, upper(hand), values=values)
    return Finding(code, "cuffs", "sound", narrowest, upper(hand), values=values)
