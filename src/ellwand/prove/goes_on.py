"""Does it go on: head through the neck, hands through the cuffs, the body through the shell?"""

from __future__ import annotations

import math

from ellwand.geometry.lines import length
from ellwand.model.finding import Finding
from ellwand.model.piece import Piece
from ellwand.model.wearer import Measure, upper
from ellwand.prove.sewn import Sewn, body_top, girth_at, opens_in_front, rounding, sleeves_of, widths

NECK_EASE = 1.0
"""A neck is comfortable with this much over the head (cm): common practice, no source."""
OVER_HEAD_EASE = 4.0
"""What the narrowest part of the shell needs over bust or head to be pulled on (cm): common practice, no source."""
DRAWN_SLIT = 0.25
"""A slit is drawn 0.2 cm wide, which its neck edge lacks; a knife cut has no width."""
SAME = 0.01


def goes_on(sewn: Sewn) -> tuple[Finding, ...]:
    """Neck, the closer of both cuffs, and the whole over the head."""
    sleeves = sleeves_of(sewn).values()
    cuffs = [_cuff(sewn, *min(map(_narrowest, sleeves)))] if sleeves else []
    return (_neck(sewn), *cuffs, _over_head(sewn))


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
    if opens_in_front(sewn):
        return Finding("neck-opens", "neck", "sound")
    rims = [rim for rim in sewn.shell.rims if "neck" in rim.opens_to]
    return neck_passes(math.fsum(rim.length for rim in rims), sewn.wearer.measures["head_girth"])


def _narrowest(sleeve: Piece) -> tuple[float, bool]:
    """The narrowest girth (cm) of a sleeve, above the opening in its seam, and whether it has one."""
    ys = sorted({y for _, y in sleeve.sewn})
    openings = [edge for edge in sleeve.edges if edge.kind == "opening"]
    end = max((y for edge in openings for _, y in edge.points), default=ys[0])
    inside = [widths(sleeve, y) for y in ys[:-1] if y >= end - SAME]
    top = math.fsum(length(edge.points) for edge in sleeve.edges if edge.kind == "armhole")
    return min([*inside, top]), bool(openings)


def _cuff(sewn: Sewn, narrowest: float, opens: bool) -> Finding:
    hand = sewn.wearer.measures["hand_girth"]
    values = {"hand": hand.value, "sd": hand.sd, "opening": sewn.draft.dimensions.cuff_opening}
    code = "cuff-opened" if opens else "cuff"
    if narrowest < hand.value - SAME:
        return Finding("cuff-too-small", "cuffs", "will not work", narrowest, hand.value, values=values)
    if narrowest < upper(hand) - SAME:
        return Finding("cuff-by-estimate", "cuffs", "look again", narrowest, upper(hand), values=values)
    return Finding(code, "cuffs", "sound", narrowest, upper(hand), values=values)


def _over_head(sewn: Sewn) -> Finding:
    if opens_in_front(sewn):
        return Finding("over-head-opens", "", "sound", values={"at": "centre front"})
    if any(closure.at == "side" for closure in sewn.draft.choices.closures):
        return Finding("over-head-opens", "", "sound", values={"at": "side"})
    top = body_top(sewn)
    levels = [0.0, top, *(h for h in sewn.draft.dimensions.levels.values() if 0 < h < top)]
    narrowest = min(girth_at(sewn, level) for level in levels)
    beneath = 2 * math.pi * sewn.draft.choices.beneath_mm / 10
    # the heads of the smallest children are larger than their chests
    bust, head = sewn.wearer["bust_girth"], upper(sewn.wearer.measures["head_girth"])
    widest = max(bust + beneath, head)
    values = {"bust": bust, "beneath": beneath, "rounding": rounding(sewn)}
    if head > bust + beneath:
        values = {"head": head, "beneath": 0.0, "rounding": rounding(sewn)}
    if narrowest < widest - SAME:
        return Finding("over-head", "", "will not work", narrowest, widest + OVER_HEAD_EASE, values=values)
    roomy = narrowest >= widest + OVER_HEAD_EASE - SAME
    return Finding(
        "over-head", "", "sound" if roomy else "look again", narrowest, widest + OVER_HEAD_EASE, values=values
    )
