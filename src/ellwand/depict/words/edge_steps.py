"""Sewing steps of edges in words: hems, cuffs, splits, openings and what closes them."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from ellwand.depict.words.closings import closing
from ellwand.depict.words.step_asking import Say, always, edges_of, opening_at
from ellwand.errors import InternalFault
from ellwand.model.choices import Closure
from ellwand.model.draft import Draft, TakenUp
from ellwand.model.step import Step
from ellwand.units import Unit, format_length

CLOSERS: Final[Mapping[str, str]] = {
    "ties": "sew on the ties.",
    "lacing": "work the eyelets and thread the lace.",
    "buttons": "work the buttonholes and sew on the buttons.",
    "loops": "sew on the loops and what they close over.",
    "hooks": "sew on the hooks and eyes.",
    "pins": "close it with a pin when it is worn.",
}


def _cuffs(step: Step, draft: Draft, unit: Unit) -> str:
    if draft.dimensions.cuff_opening:
        return (
            "Face the edges of the sleeve openings with a straight strip, or turn them twice and hem; work a bar across"
            " the end of each. Then turn the cuffs twice and hem them."
        )
    return "Turn the cuffs twice and hem them."


def _splits(step: Step, draft: Draft, unit: Unit) -> str:
    closed = [each.at for each in draft.choices.closures if each.at.startswith("centre")]
    whole = [place for place in closed if not opening_at(draft, place)]
    edges = [
        edge for ref, edge in edges_of(draft, "split") if not any(place in f"{ref.part} {ref.edge}" for place in whole)
    ]
    out = [
        f"Turn the edges of the open {place.removeprefix('centre-')} twice and hem them, from the neck to the hem."
        for place in whole
    ]
    if any(not edge.allowance for edge in edges):
        what = "its facing" if any("split facing" in piece.name for piece in draft.pieces) else "a straight strip"
        out.append(f"Face each split that is cut into a panel with {what} before you cut it.")
    if any(edge.allowance for edge in edges):
        strips = any("split strip" in piece.name for piece in draft.pieces)
        turned = "Turn the edges of each split that ends a seam twice and hem them"
        out.append(f"{turned}, or face them with the split strips where these were cut." if strips else f"{turned}.")
    ends = [split for split in draft.choices.splits if not (split.place in closed and _runs_on(draft, split.place))]
    if edges and ends:
        out.append("Work a bar or sew a small patch across the top of each split.")
    return " ".join(out)


def _runs_on(draft: Draft, place: str) -> bool:
    """Whether a split at a centre that opens from the neck has no seam above it."""
    return not any(edge.id.startswith(f"{place}-seam") for _, edge in edges_of(draft, "centre seam"))


def _hem(step: Step, draft: Draft, unit: Unit) -> str:
    hem = format_length(draft.choices.sewing.hem, unit)
    round_ = any(level.centre for piece in draft.pieces for level in piece.levels)
    ease = ", easing in the fullness of the rounded parts," if round_ else ""
    return f"Turn up the hem allowance ({hem}){ease} and hem it."


def _take_up(step: Step, draft: Draft, unit: Unit) -> str:
    """Where the spare length of a child's garment goes."""
    spare = draft.taken_up
    if spare is None:
        raise InternalFault("nothing is taken up")
    amounts = {"the hem": spare.body, **_sleeves_taken(spare)}
    said = " and ".join(f"{format_length(cm, unit)} at {where}" for where, cm in amounts.items() if cm)
    if spare.by == "deep hem":
        how = "Turn the finished edges up inside once more along the chalk lines"
        end = "Fold what fullness there is into small pleats, and sew with long stitches that come out easily."
    else:
        how = "Fold a tuck to the inside so that its two chalk lines meet"
        end = "Sew through both along the lines with a running stitch and press the fold down."
    return f"{how}: it takes up {said}. {end} Let it down as the child grows, within {spare.months:g} months."


def _sleeves_taken(spare: TakenUp) -> dict[str, float]:
    left, right = spare.sleeves["left"], spare.sleeves["right"]
    return {"the cuffs": left} if left == right else {"the left cuff": left, "the right cuff": right}


def _closures(step: Step, draft: Draft, unit: Unit) -> str:
    numbered = {each.at: closing(each, unit) for each in draft.closings}
    return " ".join(numbered.get(c.at) or _unnumbered(c, draft) for c in draft.choices.closures)


def _unnumbered(closure: Closure, draft: Draft) -> str:
    """Where there is nothing to open, or the closures have not been placed yet."""
    if closure.at == "cuffs" and not draft.dimensions.cuff_opening:
        return "Cuffs: the hand passes through them as they are, so there is nothing to close."
    return f"{closure.at.capitalize()}: {CLOSERS[closure.by]}"


EDGE_STEPS: Final[Mapping[str, Say]] = MappingProxyType(
    {
        "armhole edges": always("Turn the armhole edges twice and hem them, or bind them."),
        "cuffs": _cuffs,
        "openings": always("Face the edges of the opening with a straight strip; work a bar across each end."),
        "splits": _splits,
        "hang": always(
            "Hang the garment for a day so that the slanting edges settle, then level the hem from the floor."
        ),
        "hem": _hem,
        "take up": _take_up,
        "closures": _closures,
    }
)
