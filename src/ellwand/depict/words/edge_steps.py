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


def _split_slits(step: Step, draft: Draft, unit: Unit) -> str:
    own = any("split facing" in piece.name for piece in draft.pieces)
    lie = "its facing" if own else "a straight strip"
    return (
        f"Face each split that is cut into a panel before you cut it: lay {lie} on it, right sides together, line on"
        " line; sew up one side to the point and down the other, close to the line. Cut between the rows, turn the"
        f" {'facing' if own else 'strip'} to the inside, turn its edges under and fell. Work a bar across the point."
    )


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
    if any(edge.allowance for edge in edges):
        if any("split strip" in piece.name for piece in draft.pieces):
            bare = any(split.facing == "none" for split in draft.choices.splits)
            rest = "; where a split has no strips turn its edges twice and hem them" if bare else ""
            out.append(
                "Face the edges of each split with its strips: sew each on, right sides together, turn it to the"
                f" inside, turn its edge under and fell{rest}."
            )
        else:
            out.append("Turn the edges of each split that ends a seam twice and hem them.")
    if step.reinforce:
        where = "across the top of each split" if edges else "over each point of a gore at the open edge"
        out.append(f"Work a bar or sew a small patch {where}.")
    return " ".join(out)


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


def _underlaps(step: Step, draft: Draft, unit: Unit) -> str:
    """Strips beneath openings that overlap; which side lies uppermost is told with the closures."""
    each = [closing for closing in draft.closings if closing.overlap]
    where = " and ".join(dict.fromkeys(closing.at.replace("-", " ") for closing in each))
    wide = " and ".join(dict.fromkeys(format_length(closing.overlap, unit) for closing in each))
    return (
        f"Make the underlap of the {where}: fold each strip lengthwise, right sides together, sew across its ends and"
        f" turn it. Sew its open side inside the {each[0].edges[1]} edge of the opening, so that it reaches {wide}"
        " beneath the other, and fell the raw edges down."
    )


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
        "split slits": _split_slits,
        "splits": _splits,
        "hang": always(
            "Hang the garment for a day so that the slanting edges settle, then level the hem from the floor."
        ),
        "hem": _hem,
        "take up": _take_up,
        "underlaps": _underlaps,
        "closures": _closures,
    }
)
