"""The wearer's girths between the levels that are measured."""

from __future__ import annotations

import math

from ellwand.model.wearer import Wearer

CALF_SHARE = 0.75
"""The fullest part of the calf as a share of the knee's height: common practice, no source."""


def leg_girth_at(wearer: Wearer, height: float) -> float:
    """One leg's girth (cm) at ``height`` cm above the floor: straight from thigh to calf, then as the calf."""
    calf, crotch = CALF_SHARE * wearer["knee_to_floor"], wearer["crotch_to_floor"]
    share = min(1.0, max(0.0, (height - calf) / (crotch - calf)))
    return wearer["calf_girth"] + (wearer["thigh_girth"] - wearer["calf_girth"]) * share


def body_girth_at(wearer: Wearer, height: float) -> float:
    """The girth (cm) round everything at ``height`` cm above the floor, feet together.

    Below the crotch it is the band round two equal circles that touch, g + 2 g / π (plane geometry); above,
    straight between the measured levels.
    """
    waist, hip, crotch = wearer["waist_to_floor"], wearer["hip_to_floor"], wearer["crotch_to_floor"]
    if height < crotch:
        return leg_girth_at(wearer, height) * (1 + 2 / math.pi)
    share = min(1.0, max(0.0, (height - hip) / (waist - hip)))
    return wearer["hip_girth"] + (wearer["waist_girth"] - wearer["hip_girth"]) * share
