"""Sewing steps of edges in words: hems, cuffs, splits, openings and what closes them."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from ellwand.depict.words.closings import closing
from ellwand.depict.words.step_asking import Say, always, edges_of, joined, opening_at, paired
from ellwand.errors import InternalFault
from ellwand.language import N_, _, decimal_mark
from ellwand.model.choices import Closure, ClosureBy
from ellwand.model.draft import Draft, TakenUp
from ellwand.model.names import named
from ellwand.model.step import Step
from ellwand.units import Unit, format_length

CLOSERS: Final[Mapping[ClosureBy, str]] = {
    "ties": N_("{place}: sew on the ties."),
    "lacing": N_("{place}: work the eyelets and thread the lace."),
    "buttons": N_("{place}: work the buttonholes and sew on the buttons."),
    "loops": N_("{place}: sew on the loops and what they close over."),
    "hooks": N_("{place}: sew on the hooks and eyes."),
    "pins": N_("{place}: close it with a pin when it is worn."),
}


def _cuffs(step: Step, draft: Draft, unit: Unit) -> str:
    if draft.dimensions.cuff_opening:
        return _(
            "Face the edges of the sleeve openings with a straight strip, or turn them twice and hem; work a bar across"
            " the end of each. Then turn the cuffs twice and hem them."
        )
    return _("Turn the cuffs twice and hem them.")


def _split_slits(step: Step, draft: Draft, unit: Unit) -> str:
    if any("split facing" in piece.name for piece in draft.pieces):
        return _(
            "Face each split that is cut into a panel before you cut it: lay its facing on it, right sides together,"
            " line on line; sew up one side to the point and down the other, close to the line. Cut between the rows,"
            " turn the facing to the inside, turn its edges under and fell. Work a bar across the point."
        )
    return _(
        "Face each split that is cut into a panel before you cut it: lay a straight strip on it, right sides together,"
        " line on line; sew up one side to the point and down the other, close to the line. Cut between the rows, turn"
        " the strip to the inside, turn its edges under and fell. Work a bar across the point."
    )


_OPEN_CENTRE: Final[Mapping[str, str]] = {
    "centre-front": N_("Turn the edges of the open front twice and hem them, from the neck to the hem."),
    "centre-back": N_("Turn the edges of the open back twice and hem them, from the neck to the hem."),
}


def _splits(step: Step, draft: Draft, unit: Unit) -> str:
    closed = [each.at for each in draft.choices.closures if each.at.startswith("centre")]
    whole = [place for place in closed if not opening_at(draft, place)]
    edges = [
        edge for ref, edge in edges_of(draft, "split") if not any(place in f"{ref.part} {ref.edge}" for place in whole)
    ]
    out = [_(_OPEN_CENTRE[place]) for place in whole]
    if any(edge.allowance for edge in edges):
        out.append(_split_edges(draft))
    if step.reinforce:
        out.append(
            _("Work a bar or sew a small patch across the top of each split.")
            if edges
            else _("Work a bar or sew a small patch over each point of a gore at the open edge.")
        )
    return joined(*out)


def _split_edges(draft: Draft) -> str:
    """What is done to the edges of splits that end a seam."""
    if not any("split strip" in piece.name for piece in draft.pieces):
        return _("Turn the edges of each split that ends a seam twice and hem them.")
    if any(split.facing == "none" for split in draft.choices.splits):
        return _(
            "Face the edges of each split with its strips: sew each on, right sides together, turn it to the inside,"
            " turn its edge under and fell; where a split has no strips turn its edges twice and hem them."
        )
    return _(
        "Face the edges of each split with its strips: sew each on, right sides together, turn it to the inside, turn"
        " its edge under and fell."
    )


def _hem(step: Step, draft: Draft, unit: Unit) -> str:
    hem = format_length(draft.choices.sewing.hem, unit)
    if any(level.centre for piece in draft.pieces for level in piece.levels):
        return _("Turn up the hem allowance ({hem}), easing in the fullness of the rounded parts, and hem it.", hem=hem)
    return _("Turn up the hem allowance ({hem}) and hem it.", hem=hem)


def _take_up(step: Step, draft: Draft, unit: Unit) -> str:
    """Where the spare length of a child's garment goes."""
    spare = draft.taken_up
    if spare is None:
        raise InternalFault("nothing is taken up")
    amounts = {N_("{length} at the hem"): spare.body, **_sleeves_taken(spare)}
    said = paired([_(words, length=format_length(cm, unit)) for words, cm in amounts.items() if cm])
    if spare.by == "deep hem":
        how = _(
            "Turn the finished edges up inside once more along the chalk lines: it takes up {lengths}.", lengths=said
        )
        end = _("Fold what fullness there is into small pleats, and sew with long stitches that come out easily.")
    else:
        how = _("Fold a tuck to the inside so that its two chalk lines meet: it takes up {lengths}.", lengths=said)
        end = _("Sew through both along the lines with a running stitch and press the fold down.")
    months = f"{spare.months:g}".replace(".", decimal_mark())
    return joined(how, end, _("Let it down as the child grows, within {months} months.", months=months))


def _sleeves_taken(spare: TakenUp) -> dict[str, float]:
    left, right = spare.sleeves["left"], spare.sleeves["right"]
    if left == right:
        return {N_("{length} at the cuffs"): left}
    return {N_("{length} at the left cuff"): left, N_("{length} at the right cuff"): right}


_INSIDE: Final[Mapping[str, str]] = {
    "left": N_(
        "Sew its open side inside the left edge of the opening, so that it reaches {width} beneath the other, and fell"
        " the raw edges down."
    ),
    "right": N_(
        "Sew its open side inside the right edge of the opening, so that it reaches {width} beneath the other, and"
        " fell the raw edges down."
    ),
    "front": N_(
        "Sew its open side inside the front edge of the opening, so that it reaches {width} beneath the other, and"
        " fell the raw edges down."
    ),
    "back": N_(
        "Sew its open side inside the back edge of the opening, so that it reaches {width} beneath the other, and fell"
        " the raw edges down."
    ),
}


def _underlaps(step: Step, draft: Draft, unit: Unit) -> str:
    """Strips beneath openings that overlap; which side lies uppermost is told with the closures."""
    each = [closing for closing in draft.closings if closing.overlap]
    where = paired([named(at.replace("-", " ")) for at in dict.fromkeys(closing.at for closing in each)])
    wide = paired(list(dict.fromkeys(format_length(closing.overlap, unit) for closing in each)))
    return joined(
        _(
            "Make the underlap of the {place}: fold each strip lengthwise, right sides together, sew across its ends"
            " and turn it.",
            place=where,
        ),
        _(_INSIDE[each[0].edges[1]], width=wide),
    )


def _closures(step: Step, draft: Draft, unit: Unit) -> str:
    numbered = {each.at: closing(each, unit) for each in draft.closings}
    return joined(*(numbered.get(c.at) or _unnumbered(c, draft) for c in draft.choices.closures))


def _unnumbered(closure: Closure, draft: Draft) -> str:
    """Where there is nothing to open, or the closures have not been placed yet."""
    if closure.at == "cuffs" and not draft.dimensions.cuff_opening:
        return _("Cuffs: the hand passes through them as they are, so there is nothing to close.")
    place = named(closure.at)
    return _(CLOSERS[closure.by], place=f"{place[:1].upper()}{place[1:]}")


EDGE_STEPS: Final[Mapping[str, Say]] = MappingProxyType(
    {
        "armhole edges": always(N_("Turn the armhole edges twice and hem them, or bind them.")),
        "cuffs": _cuffs,
        "openings": always(N_("Face the edges of the opening with a straight strip; work a bar across each end.")),
        "split slits": _split_slits,
        "splits": _splits,
        "hang": always(
            N_("Hang the garment for a day so that the slanting edges settle, then level the hem from the floor.")
        ),
        "hem": _hem,
        "take up": _take_up,
        "underlaps": _underlaps,
        "closures": _closures,
    }
)
