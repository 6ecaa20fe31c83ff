"""Drawn figures whose truth is known: a body and a garment in space, bent, drawn as artists do, seen by a camera.

Everything is drawn at random: how many heads high the artist makes it (6 to 9), how far each landmark slips, the stoop
and how well it is stated, the camera's distance, height and tilt (a pinhole in three dimensions), the picture's lean
and scale, and the hand that marks it.  Nothing here is taken from the reading that it tests.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from ellwand.model.wearer import Wearer


@dataclass(frozen=True)
class Garment:
    """What a garment is like on its wearer (cm): hem and belt above the floor, depth of the neck, height of the split,
    the sleeve as a share of the arm, the width of its opening, the hem all round."""

    hem: float
    belt: float
    neck: float
    split: float
    sleeve: float
    opening: float
    sweep: float


def garment_on(wearer: Wearer, rng: np.random.Generator) -> Garment:
    """A garment at random."""
    hem = rng.uniform(4.0, wearer["knee_to_floor"] + 12.0)
    return Garment(
        hem=hem,
        belt=wearer["waist_to_floor"] + rng.uniform(-6.0, 4.0),
        neck=rng.uniform(7.0, 22.0),
        split=rng.uniform(15.0, max(20.0, wearer["hip_to_floor"] - hem)),
        sleeve=rng.uniform(0.3, 1.05),
        opening=rng.uniform(12.0, 60.0),
        sweep=rng.uniform(1.2, 3.2) * wearer["hip_girth"],
    )


def hem_width(sweep: float, rng: np.random.Generator) -> float:
    """How wide a hem of that length looks: a folded oval, its length and width summed along it."""
    angle = np.linspace(0.0, 2 * math.pi, 2000)
    ratio, folds, deep = rng.uniform(0.45, 0.8), rng.integers(6, 13), rng.uniform(0.0, 0.1)
    radius = 1.0 + deep * np.cos(folds * angle + rng.uniform(0, 6))
    x, y = radius * np.cos(angle), ratio * radius * np.sin(angle)
    around = float(np.hypot(np.diff(x), np.diff(y)).sum())
    return sweep / around * float(x.max() - x.min())


def figure(wearer: Wearer, garment: Garment, rng: np.random.Generator, *, bent: bool) -> dict[str, Any]:
    """The file of marks of one drawn figure."""
    tall = wearer["height"]
    chin = tall * (1.0 - rng.normal(0.130, 0.005))
    heads = rng.uniform(6.0, 9.0)
    shoulder = wearer["nape_to_floor"] - 0.02 * tall
    half = 0.5 * wearer["across_shoulder"] * rng.normal(1.0, 0.04)
    wide = hem_width(garment.sweep, rng)
    arm = wearer["arm_length"]
    aside = math.radians(rng.uniform(8.0, 40.0))

    def at_arm(share: float) -> tuple[float, float]:
        return half + math.sin(aside) * share * arm, shoulder - math.cos(aside) * share * arm

    end = at_arm(garment.sleeve)
    # the opening hangs across the arm's direction
    across = garment.opening / 2 * math.cos(aside), garment.opening / 2 * math.sin(aside)
    space = {
        "crown": (0.0, chin + chin / (heads - 1.0)),
        "chin": (0.0, chin),
        "floor": (0.0, 0.0),
        "shoulder_left": (-half, shoulder),
        "shoulder_right": (half, shoulder),
        "wrist": at_arm(1.0),
        "sleeve_end": end,
        "opening_top": (end[0] - across[0], end[1] - across[1]),
        "opening_bottom": (end[0] + across[0], end[1] + across[1]),
        "neck_depth": (0.0, wearer["nape_to_floor"] - garment.neck),
        "belt": (0.0, garment.belt),
        "hem": (0.0, garment.hem),
        "hem_left": (-wide / 2, garment.hem),
        "hem_right": (wide / 2, garment.hem),
        "split_top": (0.0, garment.hem + garment.split),
    }
    moved = {"neck_depth", "belt", "hem", "split_top"}
    slipped = {
        name: (x, y + (rng.normal(0.0, 0.0125 * tall) if name in moved else 0.0)) for name, (x, y) in space.items()
    }
    stoop = rng.uniform(0.0, 35.0) if bent else 0.0
    seen = _seen(slipped, wearer["hip_to_floor"], math.radians(stoop), tall, rng)
    lean, scale = math.radians(rng.uniform(-8.0, 8.0)), rng.uniform(1.0, 8.0)
    turned = {
        name: (
            scale * (x * math.cos(lean) + y * math.sin(lean)) + 500.0,
            2000.0 - scale * (y * math.cos(lean) - x * math.sin(lean)),
        )
        for name, (x, y) in seen.items()
    }
    high = math.dist(turned["crown"], turned["floor"])
    points = {
        name: [x + rng.normal(0, 0.006 * high), y + rng.normal(0, 0.006 * high)] for name, (x, y) in turned.items()
    }
    stated = max(0.0, stoop + rng.normal(0.0, 5.0)) if stoop else 0.0
    return {"points": points, "stoop": min(stated, 60.0), "lean": math.degrees(lean)}


def _seen(
    points: dict[str, tuple[float, float]], hip: float, stoop: float, tall: float, rng: np.random.Generator
) -> dict[str, tuple[float, float]]:
    """As a camera sees them, the trunk bent toward it at the hip: in units that are cm where the body stands."""
    far, high, tilt = rng.uniform(3.0, 8.0) * tall, rng.uniform(0.4, 1.1) * tall, math.radians(rng.uniform(-8.0, 8.0))
    out = {}
    for name, (x, y) in points.items():
        z = 0.0
        if y > hip and not name.startswith("hem"):
            y, z = hip + (y - hip) * math.cos(stoop), (y - hip) * math.sin(stoop)
        up, ahead = y - high, far - z
        along = ahead * math.cos(tilt) + up * math.sin(tilt)
        risen = up * math.cos(tilt) - ahead * math.sin(tilt)
        out[name] = (x / along * far, risen / along * far)
    return out
