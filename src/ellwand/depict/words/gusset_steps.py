"""The gussets in words: set into the corner that sleeve and body make, or first sewn to one of the two."""

from __future__ import annotations

from typing import Final

from ellwand.depict.words.step_asking import back_stitch, faces, folds, gusset_corners, joined, lengths
from ellwand.language import N_, _
from ellwand.model.draft import Draft
from ellwand.model.step import Step
from ellwand.units import Unit, format_length


def gusset_side(draft: Draft) -> str:
    """'sleeve' or 'body', where the gussets are sewn to that first; '' where they are set into the corner, or none."""
    way = draft.choices.sewing.gussets
    return "" if way == "in the corner" or not draft.dimensions.gusset else way.removeprefix("on the ")


def gussets(step: Step, draft: Draft, unit: Unit) -> str:
    """The step that sets them in, or sews them to what they go on first."""
    if gusset_side(draft):
        return _first(step, draft, unit)
    shape, round_ = draft.choices.sleeve.gusset_shape, draft.choices.sewing.sleeves == "in the round"
    stop = _STOP
    if round_ and shape == "triangles":
        how = N_(
            "{faces}, sew the half gussets together along their long edges; then set each pair into the gap under the"
            " arm, square corners at the front and the back armpit, two sides to the sleeve and two to the"
            " body{lengths}{stitch}."
        )
    elif round_:
        how = N_(
            "{faces}, set the gussets into the gap that is left under each arm, square corners at the front and the"
            " back armpit, two sides to the sleeve and two to the body{lengths}{stitch}."
        )
    elif shape == "triangles":
        how = N_(
            "{faces}, set in the half gussets{stitch} while all lies flat: the square corner at the armpit, one of the"
            " sides beside it to the body, the other to the sleeve{lengths}."
        )
        stop = N_("Stop {allowance}, one allowance, short of the armpit and work a bar there.")
    elif shape == "diamond":
        how = N_(
            "{faces}, set in the gussets{stitch}: the square corners at the front and the back armpit, the long sides"
            " to the body, the short ones to the sleeve{lengths}."
        )
    else:
        how = N_(
            "{faces}, set in the gussets{stitch}: one corner at the front armpit, the opposite at the back, two sides"
            " to the sleeve and two to the body{lengths}."
        )
    return joined(
        _(how, faces=faces(draft), lengths=lengths(step, draft, unit), stitch=back_stitch(draft)),
        _(stop, allowance=format_length(draft.choices.sewing.allowance, unit)),
        folds(step, draft),
    )


_STOP: Final = N_("Stop {allowance}, one allowance, short of every corner and work a bar there.")


def _first(step: Step, draft: Draft, unit: Unit) -> str:
    """Sewn to sleeve or body first: one side of a square, or one of each triangle."""
    on_sleeve, shape = gusset_side(draft) == "sleeve", draft.choices.sleeve.gusset_shape
    which = _("one side of each gusset")
    to = _("to the side edge of the back, below its armhole")
    if on_sleeve:
        to = _("to the back edge of its sleeve, at the top")
    if shape == "triangles":
        which = _("a short side of each half gusset")
        to = _("to the side edges, below the armholes, the square corner up")
        if on_sleeve:
            to = _("to each edge of its sleeve, at the top, the square corner up")
    elif shape == "diamond":
        which = _("a short side of each gusset") if on_sleeve else _("a long side of each gusset")
    return joined(
        _(
            "{faces}, sew {side}{stitch} {to}{lengths}, while it lies flat: the other sides follow with the long"
            " seams.",
            faces=faces(draft),
            side=which,
            stitch=back_stitch(draft),
            to=to,
            lengths=lengths(step, draft, unit),
        ),
        gusset_corners(step),
        folds(step, draft),
    )


def along_gusset(step: Step, draft: Draft) -> str:
    """How the seam of the armhole goes on along a gusset that is on sleeve or body already."""
    to_body = gusset_side(draft) == "sleeve"
    if draft.choices.sewing.sleeves == "in the round":
        on_body = N_("Go on round the corner along the gusset, both its free sides to the body.")
        on_sleeve = N_("Go on round the corner along the gusset, both its free sides to the sleeve.")
    elif draft.choices.sleeve.gusset_shape == "triangles":
        on_body = N_("Go on round the corner along the gusset, the next side of each half to the body.")
        on_sleeve = N_("Go on round the corner along the gusset, the next side of each half to the sleeve.")
    else:
        on_body = N_("Go on round the corner along the gusset, its next side, behind, to the body.")
        on_sleeve = N_("Go on round the corner along the gusset, its next side, behind, to the sleeve.")
    return joined(_(on_body if to_body else on_sleeve), gusset_corners(step))
