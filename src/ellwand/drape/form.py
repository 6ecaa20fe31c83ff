"""A dress form with the wearer's girths: level sections from crotch to crown, round limbs.

Breadths, depths and heights that no tape gives come from the means of a survey (ANSUR II, 2012: women, men) in share of
the girth or the height; the posture is that of the drawn figure, our own.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from ellwand.model.mesh import Reals
from ellwand.model.wearer import HANDS, Wearer

BREADTH: Final = {"bust_girth": (0.2844, 0.2734), "waist_girth": (0.3484, 0.3470), "hip_girth": (0.3465, 0.3391)}
DEPTH: Final = {"bust_girth": (0.2613, 0.2397), "waist_girth": (0.2474, 0.2528)}
"""Breadth and depth over girth, women and men: survey means; of the hip the survey has no depth."""
HIP_SHAPE: Final = 2.3
"""How full the hip's section is (2: an ellipse): our own figure."""
FULLEST: Final = 3.0
"""No section is fuller than this; then it is wider and deeper than the survey's: our own figure (the survey's chest
breadth leaves out what the arms rest on)."""
ACROMION: Final = 0.8203
"""Height of the shoulder point over standing height, women and men alike: survey means."""
UNDER_NAPE: Final = 0.037
"""The shoulder point is at least so far below the nape, over standing height: survey means."""
ELBOW: Final = 0.5635
"""Shoulder to elbow over shoulder to wrist: survey means (31.12/(31.12+24.13))."""
SPREAD: Final = 25.0
"""How far the arms hang off the body (degrees): our own figure; they must not touch it."""
SHOULDER_SHARE: Final = 0.48
"""Half the breadth between the shoulder points over the tape's way across the back: our own figure."""
ROUND: Final = 2.0
AROUND: Final = np.linspace(0.0, 2 * math.pi, 361)
"""Where a section is measured (radians)."""


@dataclass(frozen=True, slots=True)
class Section:
    """A level section (cm): half its breadth, half its depth before and behind ``middle``, and how full it is.

    |x/half|^full + |y/deep|^full = 1; 2 is an ellipse, more is nearer to a rectangle.
    """

    height: float
    half: float
    front: float
    behind: float
    middle: float
    full: float


@dataclass(frozen=True, slots=True)
class Limb:
    """A round limb: points along its middle (cm) and the radius at each."""

    middle: Reals
    radius: Reals


@dataclass(frozen=True, slots=True)
class Form:
    """The trunk with neck and head, from the crotch up; then arms and legs, the wearer's left (x < 0) first."""

    trunk: tuple[Section, ...]
    arms: tuple[Limb, ...]
    legs: tuple[Limb, ...]
    height: float


def perimeter(section: Section) -> float:
    """Length round a section (cm)."""
    x, y = outline(section, AROUND)
    return float(np.hypot(np.diff(x), np.diff(y)).sum())


def outline(section: Section, angle: Reals) -> tuple[Reals, Reals]:
    """Points of a section, from its front to the wearer's right."""
    s, c = np.sin(angle), np.cos(angle)
    power = 2.0 / section.full
    x = section.half * np.sign(s) * np.abs(s) ** power
    deep = np.where(c > 0, section.front, section.behind)
    return x, section.middle + deep * np.sign(c) * np.abs(c) ** power


def form_of(wearer: Wearer, layer: float = 0.0) -> Form:
    """The form of a wearer with a layer of that thickness (cm) all over the body."""
    h = wearer["height"]
    male = wearer.sex == "male"
    part = h / 169.0
    crotch, hip, waist = wearer["crotch_to_floor"], wearer["hip_to_floor"], wearer["waist_to_floor"]
    nape = wearer["nape_to_floor"]
    belly = waist - min(4.0, 0.3 * (waist - hip))
    axilla = nape - wearer["scye_depth"]
    bust = nape - 0.133 * h
    bust = min(bust, axilla - 1.0)
    tip = min(ACROMION * h, nape - UNDER_NAPE * h)
    neck_base = wearer["neck_base_girth"] / (2 * math.pi)
    neck = wearer["neck_girth"] / (2 * math.pi)
    shoulder = SHOULDER_SHARE * wearer["across_shoulder"]
    bust_at = _girthed(bust, wearer["bust_girth"], "bust_girth", male, 0.3 * part, 0.5 if male else 0.56)
    waist_at = _girthed(waist, wearer["waist_girth"], "waist_girth", male, 1.1 * part, 0.5)
    belly_at = _like(belly, wearer["belly_girth"], waist_at, 1.2 * part)
    hip_at = _hip(hip, wearer["hip_girth"], male, -1.2 * part)
    back = -1.5 * part
    chest_deep = bust_at.front + bust_at.behind
    sections = [
        _scaled_to(Section(crotch - 4.0 * part, hip_at.half, hip_at.front, hip_at.behind, 0.0, HIP_SHAPE), 0.80),
        _scaled_to(Section(crotch, hip_at.half, hip_at.front, hip_at.behind, -0.8 * part, HIP_SHAPE), 0.97),
        hip_at,
        belly_at,
        waist_at,
        bust_at,
        Section(axilla + 0.3 * (tip - axilla), 0.93 * shoulder, 0.40 * chest_deep, 0.44 * chest_deep, back * 0.5, 2.6),
        Section(tip - 1.5 * part, 0.9 * shoulder, 0.27 * chest_deep, 0.32 * chest_deep, back, 2.2),
        Section(tip + 0.3 * (nape - tip), 0.66 * shoulder, 0.25 * chest_deep, 0.29 * chest_deep, back, 2.1),
        Section(nape - 0.5, neck_base + 0.6, neck_base, neck_base, -0.9 * part, ROUND),
        Section(nape + 3.0 * part, neck, neck, neck, 0.2 * part, ROUND),
        Section(nape + 7.5 * part, neck, neck, neck, 1.0 * part, ROUND),
        *_head(wearer, nape, part),
    ]
    sections = [_grown(each, layer) if each.height < nape + part else each for each in sections]
    return Form(
        tuple(sections),
        tuple(_arm(wearer, sign, shoulder, tip, back, layer) for sign in (-1.0, 1.0)),
        tuple(_leg(wearer, sign, hip_at, layer) for sign in (-1.0, 1.0)),
        h,
    )


def _head(wearer: Wearer, nape: float, part: float) -> list[Section]:
    """Breadth 0.263 and length 0.338 of its girth in an ellipse that has the girth: survey means of women."""
    top = wearer["height"]
    widest = top - 0.45 * (top - nape - 8.0 * part)
    half, deep = 0.5 * 0.263, 0.5 * 0.338
    whole = _scaled(Section(widest, half, deep, deep, 1.0 * part, ROUND), wearer["head_girth"])
    chin = Section(nape + 8.5 * part, 0.75 * whole.half, 0.8 * whole.front, 0.6 * whole.behind, 1.8 * part, ROUND)
    tall = top - widest
    caps = []
    for up in (0.5, 0.8, 0.95, 1.0):
        share = max(math.sqrt(1 - up * up), 0.05)
        caps.append(
            Section(widest + up * tall, share * whole.half, share * whole.front, share * whole.behind, part, ROUND)
        )
    return [chin, whole, *caps]


def _girthed(height: float, girth: float, name: str, male: bool, middle: float, before: float) -> Section:
    """A section of that girth, its breadth and depth as the survey has them, as full as that takes,
    and no fuller than a body is."""
    half, deep = BREADTH[name][male] * girth / 2, DEPTH[name][male] * girth
    low, high = 1.8, FULLEST
    for _ in range(50):
        full = (low + high) / 2
        if perimeter(Section(height, half, before * deep, (1 - before) * deep, middle, full)) < girth:
            low = full
        else:
            high = full
    return _scaled(Section(height, half, before * deep, (1 - before) * deep, middle, full), girth)


def _hip(height: float, girth: float, male: bool, middle: float) -> Section:
    half = BREADTH["hip_girth"][male] * girth / 2
    low, high = 0.2 * half, 2.0 * half
    for _ in range(50):
        deep = (low + high) / 2
        if perimeter(Section(height, half, deep, deep, middle, HIP_SHAPE)) < girth:
            low = deep
        else:
            high = deep
    return Section(height, half, deep, deep, middle, HIP_SHAPE)


def _like(height: float, girth: float, other: Section, middle: float) -> Section:
    return _scaled(Section(height, other.half, other.front, other.behind, middle, other.full), girth)


def _scaled(section: Section, girth: float) -> Section:
    return _scaled_to(section, girth / perimeter(section))


def _scaled_to(section: Section, by: float) -> Section:
    return Section(
        section.height, section.half * by, section.front * by, section.behind * by, section.middle, section.full
    )


def _grown(section: Section, layer: float) -> Section:
    return Section(
        section.height,
        section.half + layer,
        section.front + layer,
        section.behind + layer,
        section.middle,
        section.full,
    )


def _arm(wearer: Wearer, sign: float, shoulder: float, tip: float, back: float, layer: float) -> Limb:
    """From the shoulder joint down: the upper arm's girth half way to the elbow, then wrist and hand."""
    upper, wrist = wearer["upper_arm_girth"] / (2 * math.pi), wearer["wrist_girth"] / (2 * math.pi)
    hand = wearer["hand_girth"] / (2 * math.pi)
    arm = wearer.arm(HANDS[0] if sign < 0 else HANDS[1])
    joint = np.array([sign * (shoulder - 0.5 * upper), back, tip - 1.1 * upper])
    out, down = math.sin(math.radians(SPREAD)), math.cos(math.radians(SPREAD))
    along = np.array([0.0, 0.25, 0.55 * ELBOW, ELBOW, ELBOW + 0.16, 1.0, 1.09, 1.25, 1.31]) * arm
    radius = np.array([1.0, 1.04, 1.0, 0.86, 0.87 * 1.0, 0.0, 0.0, 0.0, 0.0]) * upper
    radius[5:] = (wrist, 0.92 * hand, 0.75 * hand, 0.3 * hand)
    radius[4] = 0.35 * wrist + 0.65 * radius[2]
    forward = np.maximum(0.0, along - ELBOW * arm) * 0.12
    middle = joint + np.column_stack([sign * out * along, forward, -down * along])
    return Limb(middle, radius + layer * (along < 1.02 * arm))


def _leg(wearer: Wearer, sign: float, hip: Section, layer: float) -> Limb:
    """Thigh just below the fold of the seat, knee, calf, ankle; a plain foot."""
    thigh, calf = wearer["thigh_girth"] / (2 * math.pi), wearer["calf_girth"] / (2 * math.pi)
    ankle = 0.57 * calf
    knee = 0.5 * (0.62 * thigh + calf)
    crotch, at_knee = wearer["crotch_to_floor"], wearer["knee_to_floor"]
    # the thighs touch or nearly so
    inner = max(0.47 * hip.half, 0.97 * thigh * 0.8)
    heights = np.array([crotch + 2.0, crotch - 3.0, 0.5 * (crotch + at_knee), at_knee, 0.74 * at_knee, 9.0, 4.0, 3.2])
    radius = np.array([0.96 * thigh, thigh, 0.83 * thigh, knee, calf, ankle, 1.05 * ankle, ankle])
    x = sign * inner * np.array([1.0, 1.0, 0.98, 0.95, 0.95, 0.93, 0.93, 0.96])
    y = np.array([-1.0, -0.8, -0.3, 0.3, -1.2, -1.8, -0.8, 10.0])
    return Limb(np.column_stack([x, y, heights]), radius + layer * (heights > 8.0))
