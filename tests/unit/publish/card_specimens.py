"""Whole garments for the card, one of every kind."""

from __future__ import annotations

from functools import cache

from ellwand.model.garment import Garment
from ellwand.pipeline import make
from sheets import JOAN, sheet

TUNIC = {
    "length": "knee",
    "gores": [{"place": p, "start": "waist", "base": 40} for p in ("side", "centre-front", "centre-back")],
}
NARROW = {
    "length": "knee",
    "body": {"cut": "shoulder panels", "side_panel": "whole", "flare": 20, "ease": 6},
    "gores": [{"place": "centre-front", "start": "waist", "base": 30}],
}
GOWN = {
    "length": "floor",
    "body": {"centre_seam": "both"},
    "gores": [{"place": "side", "start": "waist", "base": 60}, {"place": "centre-front", "start": "waist", "base": 50}],
    "sleeve": {"shape": "wide"},
}
INCHES = {"name": "Sam Ropewalk", "unit": "in", "height": "5 ft 6 in", "bust_girth": 40, "head_girth": "22 1/2 in"}
CHILD = {"name": "Wat", "age": 7, "height": 122}

KINDS = ("tunic", "narrow", "gown", "inches", "child", "folded")


@cache
def garment(kind: str) -> Garment:
    """One finished garment of that kind."""
    sheets = {
        "tunic": lambda: sheet(TUNIC),
        "narrow": lambda: sheet(
            NARROW, wearer={**JOAN, "height": 156, "bust_girth": 82, "hip_girth": 90}, cloth={"width": 58}
        ),
        "gown": lambda: sheet(GOWN, cloth={"width": 140}),
        "inches": lambda: sheet({"gores": [{"place": "side", "start": "hip", "base": 20}]}, wearer=INCHES),
        "child": lambda: sheet(
            {"gores": [{"place": "side", "start": "waist", "base": 36}], "neck": {"slit": "left"}},
            wearer=CHILD,
            cloth={"width": 110, "price": 14},
        ),
        "folded": lambda: sheet(
            {"body": {"shoulder": "seam"}, "gores": [{"place": "side", "start": "hip", "base": 50}]},
            cloth={
                "fold": "lengthwise",
                "table": 120,
                "price": 9,
                "faults": [{"x": 20, "y": 60, "width": 6, "length": 4}],
            },
        ),
    }
    return make(sheets[kind](), seconds=0.5)
