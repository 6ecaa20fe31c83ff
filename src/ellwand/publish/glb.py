"""Surfaces as GLB, the binary form of glTF 2.0 (ISO/IEC 12113): one buffer, a mesh for each surface."""

from __future__ import annotations

import json
import struct
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from ellwand.model.mesh import Counts, Reals

MAGIC: Final = 0x46546C67
FLOAT: Final = 5126
UNSIGNED: Final = 5125
VERTICES: Final = 34962
INDICES: Final = 34963


@dataclass(frozen=True, slots=True)
class Solid:
    """A named surface (cm; x to the right of who wears it, y forward, z up) with colours (0 to 1) at its points."""

    name: str
    points: Reals
    corners: Counts
    normal: Reals
    colour: Reals


def glb(solids: Sequence[Solid]) -> bytes:
    """The file, in metres, upright along y, facing along z."""
    data = bytearray()
    views: list[dict[str, Any]] = []
    accessors: list[dict[str, Any]] = []

    def add(values: Any, kind: int, shape: str, target: int, *, bounded: bool = False) -> int:
        views.append({"buffer": 0, "byteOffset": len(data), "byteLength": values.nbytes, "target": target})
        entry: dict[str, Any] = {
            "bufferView": len(views) - 1,
            "componentType": kind,
            "count": len(values),
            "type": shape,
        }
        if bounded:
            entry["min"], entry["max"] = values.min(0).tolist(), values.max(0).tolist()
        accessors.append(entry)
        data.extend(values.tobytes())
        return len(accessors) - 1

    meshes = []
    for solid in solids:
        attributes = {
            "POSITION": add(_upright(solid.points) / np.float32(100), FLOAT, "VEC3", VERTICES, bounded=True),
            "NORMAL": add(_unit(_upright(solid.normal)), FLOAT, "VEC3", VERTICES),
            "COLOR_0": add(_linear(solid.colour), FLOAT, "VEC3", VERTICES),
        }
        indices = add(solid.corners.astype(np.uint32).ravel(), UNSIGNED, "SCALAR", INDICES)
        meshes.append(
            {"name": solid.name, "primitives": [{"attributes": attributes, "indices": indices, "material": 0}]}
        )
    document = {
        "asset": {"version": "2.0", "generator": "Ellwand"},
        "scene": 0,
        "scenes": [{"nodes": list(range(len(solids)))}],
        "nodes": [{"name": solid.name, "mesh": n} for n, solid in enumerate(solids)],
        "meshes": meshes,
        "materials": [
            {"name": "matt", "doubleSided": True, "pbrMetallicRoughness": {"metallicFactor": 0, "roughnessFactor": 0.9}}
        ],
        "buffers": [{"byteLength": len(data)}],
        "bufferViews": views,
        "accessors": accessors,
    }
    text = json.dumps(document, separators=(",", ":")).encode()
    text += b" " * (-len(text) % 4)
    data.extend(b"\0" * (-len(data) % 4))
    whole = 12 + 8 + len(text) + 8 + len(data)
    return b"".join(
        (
            struct.pack("<III", MAGIC, 2, whole),
            struct.pack("<I4s", len(text), b"JSON"),
            text,
            struct.pack("<I4s", len(data), b"BIN\0"),
            bytes(data),
        )
    )


def _upright(points: Reals) -> Any:
    return np.ascontiguousarray(np.column_stack([-points[:, 0], points[:, 2], points[:, 1]]), np.float32)


def _unit(vectors: Any) -> Any:
    long = np.linalg.norm(vectors, axis=1, keepdims=True)
    return np.where(long > 1e-9, vectors / np.maximum(long, 1e-9), np.array([0, 1, 0], np.float32)).astype(np.float32)


def _linear(colour: Reals) -> Any:
    """From sRGB (IEC 61966-2-1) to the linear light of glTF."""
    return np.where(colour <= 0.04045, colour / 12.92, ((colour + 0.055) / 1.055) ** 2.4).astype(np.float32)
