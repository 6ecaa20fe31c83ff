"""The gussets in words: set into the corner that sleeve and body make, or first sewn to one of the two."""

from __future__ import annotations

from ellwand.depict.words.step_asking import back_stitch, faces, folds, gusset_corners, lengths
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
    allowance = format_length(draft.choices.sewing.allowance, unit)
    shape, sewing = draft.choices.sleeve.gusset_shape, draft.choices.sewing
    cm, stop = (
        lengths(step, draft, unit),
        f"Stop {allowance}, one allowance, short of every corner and work a bar there.",
    )
    if sewing.sleeves == "in the round":
        if shape == "triangles":
            how = "sew the half gussets together along their long edges; then set each pair into the gap under the arm"
        else:
            how = "set the gussets into the gap that is left under each arm"
        return (
            f"{faces(draft)}, {how}, square corners at the front and the back armpit, two sides to the sleeve and two"
            f" to the body{cm}{back_stitch(draft)}. {stop}{folds(step, draft)}"
        )
    if shape == "triangles":
        return (
            f"{faces(draft)}, set in the half gussets{back_stitch(draft)} while all lies flat: the square corner at the"
            f" armpit, one of the sides beside it to the body, the other to the sleeve{cm}. Stop {allowance}, one"
            f" allowance, short of the armpit and work a bar there.{folds(step, draft)}"
        )
    if shape == "diamond":
        return (
            f"{faces(draft)}, set in the gussets{back_stitch(draft)}: the square corners at the front and the back"
            f" armpit, the long sides to the body, the short ones to the sleeve{cm}. {stop}{folds(step, draft)}"
        )
    return (
        f"{faces(draft)}, set in the gussets{back_stitch(draft)}: one corner at the front armpit, the opposite at the"
        f" back, two sides to the sleeve and two to the body{cm}. {stop}{folds(step, draft)}"
    )


def _first(step: Step, draft: Draft, unit: Unit) -> str:
    """Sewn to sleeve or body first: one side of a square, or one of each triangle."""
    on, shape = gusset_side(draft), draft.choices.sleeve.gusset_shape
    edges = (
        "the back edge of its sleeve, at the top" if on == "sleeve" else "the side edge of the back, below its armhole"
    )
    which = "one side of each gusset"
    if shape == "triangles":
        which = "a short side of each half gusset"
        edges = "each edge of its sleeve, at the top" if on == "sleeve" else "the side edges, below the armholes"
        edges += ", the square corner up"
    elif shape == "diamond":
        which = f"a {'short' if on == 'sleeve' else 'long'} side of each gusset"
    return (
        f"{faces(draft)}, sew {which}{back_stitch(draft)} to {edges}{lengths(step, draft, unit)}, while it lies flat:"
        f" the other sides follow with the long seams.{gusset_corners(step)}"
        f"{folds(step, draft)}"
    )


def along_gusset(step: Step, draft: Draft) -> str:
    """How the seam of the armhole goes on along a gusset that is on sleeve or body already."""
    other = "body" if gusset_side(draft) == "sleeve" else "sleeve"
    if draft.choices.sewing.sleeves == "in the round":
        sides = "both its free sides"
    elif draft.choices.sleeve.gusset_shape == "triangles":
        sides = "the next side of each half"
    else:
        sides = "its next side, behind,"
    return f" Go on round the corner along the gusset, {sides} to the {other}.{gusset_corners(step)}"
