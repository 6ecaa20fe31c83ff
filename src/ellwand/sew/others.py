"""The order of work for hood, cloak, coif, apron and breeches."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.model.draft import Draft
from ellwand.model.others import Apron, Breeches, Cloak, CloakSize, Coif

OTHER_NEEDS: Final[Mapping[str, tuple[str, ...]]] = {
    "strips": ("mark", "piecing"),
    "let hang": ("strips",),
    "shoulder gores": ("mark", "piecing"),
    "crown": ("mark", "piecing", "shoulder gores"),
    "front and back": ("crown", "shoulder gores"),
    "square gores": ("front and back",),
    "tail": ("mark", "piecing"),
    "tail on": ("tail", "front and back"),
    "outer edges": ("piecing", "strips", "crown", "let hang"),
    "inside legs": ("piecing",),
    "crotch gusset": ("inside legs",),
    "rise": ("inside legs", "crotch gusset"),
    "face edge": ("front and back", "square gores"),
    "lower edge": ("piecing", "square gores", "front and back", "let hang"),
    "casing": ("rise",),
    "gather": ("outer edges", "casing", "rise"),
    "leg hems": ("inside legs",),
    "band": ("gather", "outer edges", "lower edge"),
    "fasten": ("outer edges", "lower edge", "casing", "band"),
}
"""Each step and the steps it cannot do without, as NEEDS has them for a tunic."""

SEAM_STEP: Final[Mapping[str, str]] = {
    "piecing seam": "piecing",
    "strip seam": "strips",
    "shoulder gore": "shoulder gores",
    "crown seam": "crown",
    "neck seam": "front and back",
    "square gore": "square gores",
    "tail seam": "tail",
    "tail to hood": "tail on",
    "band seam": "gather",
    "inside leg seam": "inside legs",
    "crotch gusset": "crotch gusset",
    "rise": "rise",
}
EDGE_STEP: Final[Mapping[str, str]] = {
    "face": "face edge",
    "edge": "outer edges",
    "hem": "lower edge",
    "waist": "casing",
    "leg": "leg hems",
}


def other_edge_step(part: str, kind: str, draft: Draft) -> str:
    """The step an unsewn edge is finished in."""
    if part == "band" and isinstance(draft.choices.other, (Apron, Breeches)):
        return "band"
    return EDGE_STEP[kind]


def steps_without_seams(draft: Draft) -> set[str]:
    """What is done besides seams and edges."""
    out = set()
    if isinstance(draft.choices.other, (Cloak, Coif, Apron, Breeches)):
        out.add("fasten")
    if isinstance(draft.settled, CloakSize) and draft.settled.angle:
        out.add("let hang")
    return out
