"""Starting points, as the tables a maker would write; every one of their choices can be overridden."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, Final

STYLES: Final[Mapping[str, Mapping[str, Any]]] = MappingProxyType(
    {
        "shift": {
            "layer": "skin",
            "length": "mid-calf",
            "gores": [{"place": "side", "start": "hip", "base": ["20 cm", "50 cm"]}],
            "sleeve": {"shape": "tapered", "length": "wrist"},
            "neck": {"shape": "keyhole"},
        },
        "tunic": {
            "layer": "middle",
            "length": "knee",
            "gores": [{"place": "side", "start": "hip", "base": ["30 cm", "70 cm"]}],
            "sleeve": {"shape": "tapered", "length": "wrist"},
            "neck": {"shape": "keyhole"},
        },
        "wide-sleeved gown": {
            "layer": "middle",
            "length": "ankle",
            "gores": [
                {"place": "side", "start": "waist", "base": ["40 cm", "80 cm"]},
                {"place": "centre-front", "start": "waist", "base": ["25 cm", "55 cm"]},
                {"place": "centre-back", "start": "waist", "base": ["25 cm", "55 cm"]},
            ],
            "body": {"shoulder": "seam", "centre_seam": "both"},
            "sleeve": {"shape": "wide", "length": "wrist"},
            "neck": {"shape": "keyhole"},
        },
        "gored gown": {
            "layer": "middle",
            "length": "floor",
            "body": {"cut": "shoulder panels", "shoulder": "seam", "centre_seam": "both"},
            "gores": [
                {"place": "side", "start": "waist", "base": ["40 cm", "80 cm"]},
                {"place": "centre-front", "start": "waist", "base": ["30 cm", "70 cm"]},
                {"place": "centre-back", "start": "waist", "base": ["30 cm", "70 cm"]},
            ],
            "sleeve": {"shape": "fitted forearm", "length": "wrist"},
            "closures": [{"at": "cuffs", "by": "buttons"}],
            "neck": {"shape": "oval"},
        },
        "riding surcote": {
            "layer": "outer",
            "length": "mid-calf",
            "body": {"shoulder": "seam"},
            "gores": [{"place": "side", "start": "hip", "base": ["40 cm", "80 cm"]}],
            "splits": [
                {"place": "centre-front", "height": "crotch"},
                {"place": "centre-back", "height": "crotch"},
            ],
            "sleeve": {"shape": "none"},
            "neck": {"shape": "round"},
        },
        "hood": {"layer": "outer", "hood": {}},
        "cloak": {"layer": "outer", "cloak": {}},
        "coif": {"layer": "skin", "coif": {}},
        "apron": {"layer": "outer", "apron": {}},
        "breeches": {"layer": "skin", "breeches": {}},
    }
)
"""Style name -> the [garment] table it stands for. Lengths carry their unit, so any sheet's unit will do."""
