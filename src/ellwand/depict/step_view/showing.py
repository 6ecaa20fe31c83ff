"""Which kinds of step are drawn how."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.naming import all_parts
from ellwand.model.draft import Draft, EdgeRef
from ellwand.model.others import BreechesSize
from ellwand.model.piece import EdgeKind
from ellwand.model.step import Step

FOLDED: Final = frozenset(
    {
        "underarm and sides",
        "sleeve seams",
        "inside legs",
        "front and back",
        "tail",
        "rise",
        "square gores",
        "crotch gusset",
    }
)
"""Steps that close a tube: one half lies on the other, wrong side up."""
ROUND: Final = frozenset({"neck", "face edge", "collar"})
"""Edges that are seen whole, all the way round."""
BOTH_FACES: Final = frozenset({"cuffs", "armhole edges", "openings", "underlaps"})
"""Edges of which both lips are shown."""
TRIMMED: Final = frozenset({"bands flat", "bands round", "motifs", "motifs round"})
"""Steps that put something on along a line."""
EDGES: Final[Mapping[str, tuple[EdgeKind, ...]]] = {
    "neck slit": ("neck slit",),
    "collar": ("neck",),
    "underlaps": ("neck slit", "opening", "shoulder opening"),
    "neck": ("neck", "shoulder opening", "neck slit"),
    "armhole edges": ("armhole",),
    "cuffs": ("cuff", "opening"),
    "openings": ("opening",),
    "splits": ("split",),
    "hem": ("hem",),
    "take up": ("hem", "cuff"),
    "outer edges": ("edge",),
    "face edge": ("face",),
    "lower edge": ("hem",),
    "casing": ("waist",),
    "leg hems": ("leg",),
}
"""The edges that a step finishes, where it does not name them itself."""


def edges_shown(step: Step, draft: Draft) -> list[EdgeRef]:
    """The edges that the step finishes."""
    if step.edges:
        return list(step.edges)
    kinds = EDGES.get(step.code, ())
    sewn = {ref for seam in draft.seams for ref in (seam.a, seam.b)}
    pieces = {piece.id: piece for piece in draft.pieces}
    wanted = set(step.parts)
    applied = {part.id for part in draft.applied}
    found = [
        (EdgeRef(part.id, edge.id), edge)
        for part in all_parts(draft)
        if part.id in wanted and part.id not in applied
        for edge in pieces[part.piece].edges
        if edge.kind in kinds or (step.code == "band" and part.id == "band")
    ]
    return [ref for ref, _ in found if ref not in sewn]


def edge_section(step: Step, draft: Draft) -> str:
    """How the edge of this step looks cut across, as a name in EDGES of sections; '' where no edge is finished."""
    if step.code == "take up" and draft.taken_up is not None:
        return "tuck" if draft.taken_up.by == "tucks" else "hem turned up again"
    if step.code == "neck" and draft.choices.neck.facing != "none":
        return "faced"
    if step.code == "casing" and isinstance(draft.settled, BreechesSize) and draft.settled.band:
        return "turned twice"
    return _SECTIONS.get(step.code, "")


_SECTIONS: Final[Mapping[str, str]] = {
    "neck slit": "faced",
    "split slits": "faced",
    "openings": "faced",
    "casing": "casing with its cord",
    "band": "band over the gathers",
    **dict.fromkeys(
        (
            "neck",
            "armhole edges",
            "cuffs",
            "splits",
            "hem",
            "outer edges",
            "face edge",
            "lower edge",
            "leg hems",
        ),
        "turned twice",
    ),
}
