"""What the words of a sewing step ask about it: its seams and their lengths, and where allowances go.

Which side a felled or French seam folds to is common practice, no source, but for the gusset: the allowances of a
Herjolfsnes gown (no. 45) are folded into it.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from typing import Final

from ellwand.geometry.lines import length
from ellwand.model.draft import Draft, EdgeRef, Seam, edge_at, piece_of, whole_part
from ellwand.model.piece import Edge
from ellwand.model.step import Step
from ellwand.units import Unit, format_length

Say = Callable[[Step, Draft, Unit], str]

FINISH: Final[Mapping[str, str]] = {
    "plain": "Sew every seam right sides together and press it open.",
    "run and fell": (
        "Sew every seam right sides together, press it to the side named, trim the under allowance by half, fold the"
        " other over it and fell."
    ),
    "french": (
        "Sew every seam wrong sides together, trim, turn and sew again round the edges; press it to the side named."
    ),
    "overcast": "Sew every seam right sides together, press it open and overcast each edge.",
}


def seams_of(step: Step, draft: Draft) -> list[Seam]:
    """The seams sewn in this step."""
    ids = set(step.seams)
    return [seam for seam in draft.seams if seam.id in ids]


def cm_of(seam: Seam, draft: Draft) -> float:
    """How long a seam is (cm)."""
    return length(edge_at(draft, seam.a).points)


def said(each: Iterable[float], unit: Unit) -> str:
    """Lengths, each once, as in ' (46 cm each)' or ' (57 cm and 80 cm)'; nothing when there are many."""
    cms = sorted(each)
    words = list(dict.fromkeys(format_length(cm, unit) for cm in cms))
    if not words or len(words) > 3:
        return ""
    return f" ({' and '.join(words)}{' each' if len(words) == 1 and len(cms) > 1 else ''})"


def lengths(step: Step, draft: Draft, unit: Unit) -> str:
    """Each seam's length; where a piecing seam or a point meets it on the way, it is still one."""
    whole: dict[tuple[str, ...], float] = defaultdict(float)
    for seam in seams_of(step, draft):
        whole[tuple(name for ref in (seam.a, seam.b) for name in _plainly(ref))] += cm_of(seam, draft)
    return said(whole.values(), unit)


def _plainly(ref: EdgeRef) -> tuple[str, str]:
    return whole_part(ref.part), re.sub(r"(-\d+)+$", "", ref.edge)


def per_sleeve(step: Step, draft: Draft, unit: Unit) -> str:
    """How far each sleeve is sewn here, all its seams together."""
    sums: dict[str, float] = defaultdict(float)
    for seam in seams_of(step, draft):
        sleeve = seam.a.part if seam.a.part.startswith("sleeve") else seam.b.part
        # a sleeve in two halves is one sleeve
        sums["-".join(sleeve.split("-")[:2])] += cm_of(seam, draft)
    return said(sums.values(), unit)


def edges_of(draft: Draft, kind: str) -> list[tuple[EdgeRef, Edge]]:
    """Every edge of this kind in the whole garment."""
    return [
        (EdgeRef(part.id, edge.id), edge)
        for part in draft.parts
        for edge in piece_of(draft, part.id).edges
        if edge.kind == kind
    ]


def opening_at(draft: Draft, place: str) -> list[Edge]:
    """Both edges of an opening in a seam of the body."""
    return [edge for _, edge in edges_of(draft, "opening") if f"{place}-opening" in edge.id]


def folds(draft: Draft, toward: str) -> str:
    """Where this seam's allowances go; open seams were told once, at the start."""
    return {"run and fell": f" Fell toward {toward}.", "french": f" Press toward {toward}."}.get(
        draft.choices.sewing.finish, ""
    )


def always(words: str) -> Say:
    """The same words for every garment."""
    return lambda step, draft, unit: words


def back_stitch(draft: Draft) -> str:
    """For seams that take the strain."""
    return " in back stitch" if draft.choices.sewing.by == "hand" else ""
