"""Which step each unsewn edge is finished in, and each piece that is sewn on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from typing import Final

from ellwand.model.draft import EdgeRef
from ellwand.model.piece import Edge
from ellwand.sew.bench import Bench
from ellwand.sew.others import other_edge_step

_STEP_OF: Final[Mapping[str, str]] = {
    "neck": "neck",
    "shoulder opening": "neck",
    "hem": "hem",
    "split": "splits",
    "cuff": "cuffs",
    "armhole": "armhole edges",
}


def edge_steps(bench: Bench) -> dict[str, list[EdgeRef]]:
    """Step -> the unsewn edges finished in it."""
    out: dict[str, list[EdgeRef]] = defaultdict(list)
    for ref, edge in bench.edges.items():
        if ref not in bench.sewn:
            tunic = bench.is_tunic
            out[_edge_step(ref, edge, bench) if tunic else other_edge_step(ref.part, edge.kind, bench.draft)].append(
                ref
            )
    return out


def _edge_step(ref: EdgeRef, edge: Edge, bench: Bench) -> str:
    neck = bench.draft.choices.neck
    if edge.kind == "neck" and neck.collar and neck.facing == "none":
        # the collar takes the raw edge between its two layers
        return "collar"
    if edge.kind == "neck slit":
        # a shaped facing faces slit and neck in one
        return "neck slit" if edge.allowance == 0 and neck.facing != "shaped" else "neck"
    if edge.kind == "split" and edge.allowance == 0:
        return "split slits"
    if edge.kind == "opening":
        if edge.id.startswith("centre"):
            return "neck"
        return "cuffs" if ref.part.startswith("sleeve") else "openings"
    return _STEP_OF[edge.kind]


def applied_steps(bench: Bench) -> dict[str, list[str]]:
    """Step -> the facings, strips, collar and underlaps sewn on in it; bands and charges are told with their own."""
    trims = bench.draft.adornment
    apart = {part for charge in trims.charges for part in charge.parts} | {
        part for band in trims.bands for part in band.parts
    }
    names = {piece.id: piece.name for piece in bench.draft.pieces}
    out: dict[str, list[str]] = defaultdict(list)
    for part in bench.draft.applied:
        if part.id not in apart:
            out[_applied_step(names[part.piece])].append(part.id)
    return out


def _applied_step(name: str) -> str:
    if name == "collar":
        return "collar"
    if name.endswith("underlap"):
        return "underlaps"
    if "split" in name:
        return "split slits" if "facing" in name else "splits"
    if name == "slit facing":
        return "neck slit"
    if "neck" in name or name.startswith(("slit", "shoulder")):
        return "neck"
    return "bands round"
