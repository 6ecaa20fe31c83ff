"""The garment's picture: both faces beside each other, and in words for whoever reads by ear."""

from __future__ import annotations

import math
from typing import Final

from ellwand.depict.spread import drawing_bounds, joined, moved
from ellwand.depict.view import garment_view
from ellwand.depict.view_field import Shown
from ellwand.depict.view_others import view_names
from ellwand.depict.words.blazon import arms
from ellwand.depict.words.closings import HEAD
from ellwand.language import N_, _, plural
from ellwand.model.draft import Draft, whole_part
from ellwand.model.drawing import Drawing, Label
from ellwand.model.garment import Garment
from ellwand.model.names import named
from ellwand.units import Unit, format_length

BETWEEN: Final = 0.12
"""Between the two faces, as a share of the wider one."""
CAPTION: Final = 9.0
"""Height of what stands below them (points)."""
FROM: Final = {"front": N_("from the front"), "back": N_("from behind")}
"""How the faces are called where they stand alone."""
CM_PER_POINT: Final = 2.54 / 72


def both_faces(draft: Draft, scale: float, shown: Shown = "hatching") -> Drawing:
    """Front and back side by side, each with its name below, lettered for ``scale`` (paper cm per cm)."""
    front, back = (garment_view(draft, face, shown) for face in ("front", "back"))
    first, other = drawing_bounds(front, 1.0), drawing_bounds(back, 1.0)
    gap = BETWEEN * max(first[2] - first[0], other[2] - other[0])
    beside = moved(back, first[2] + gap - other[0], 0.0)
    low = min(first[1], other[1]) - 1.6 * CAPTION * CM_PER_POINT / scale
    middles = ((first[0] + first[2]) / 2, first[2] + gap + (other[2] - other[0]) / 2)
    names = [Label("note", name, (x, low), size=CAPTION) for name, x in zip(face_names(draft), middles, strict=True)]
    return joined([front, beside, Drawing((), tuple(names))])


def face_names(draft: Draft) -> tuple[str, str]:
    """How the two faces are called where they stand alone."""
    one, other = view_names(draft)
    return _(FROM.get(one, one)), _(FROM.get(other, other))


def shown_best(draft: Draft) -> Shown:
    """In colours where the field is divided or charged; else there is nothing to tell apart."""
    return "colours" if draft.adornment.field is not None or draft.adornment.charges else "hatching"


def title(garment: Garment) -> str:
    """The picture's name."""
    return _("{garment} for {wearer}, lying flat", garment=named(garment.title), wearer=garment.wearer.name)


def told(garment: Garment) -> str:
    """What the picture shows, in a few sentences."""
    draft, unit = garment.draft, garment.wearer.unit
    one, other = face_names(draft)
    out = [_("Two drawings in line, side by side: {one} and {other}.", one=one, other=other)]
    if draft.choices.other is None:
        out += _body(draft, unit)
    rows = arms(draft)
    for faces, blazon, _plain in rows:
        if len(rows) == 1:
            out.append(_("In heraldic words: {blazon}.", blazon=blazon))
        elif faces == "front":
            out.append(_("In heraldic words, in front: {blazon}.", blazon=blazon))
        else:
            out.append(_("In heraldic words, behind: {blazon}.", blazon=blazon))
    if draft.closings:
        places = ", ".join(_(HEAD[at]) for at in dict.fromkeys(closing.at for closing in draft.closings))
        out.append(_("It closes here: {places}.", places=places))
    return " ".join(out)


def _body(draft: Draft, unit: Unit) -> list[str]:
    size = draft.dimensions
    out = [
        _(
            "{length} long from the shoulder to the hem, {width} wide across the body.",
            length=format_length(size.length, unit),
            width=format_length(size.panel_width + size.side_panel, unit),
        )
    ]
    if gores := len({whole_part(part.id) for part in draft.parts if part.id.startswith("gore-")}):
        out.append(plural("{n} gore widens it below.", "{n} gores widen it below.", gores))
    long = max(size.sleeve_lengths.values())
    if draft.choices.sleeve.shape == "none":
        out.append(_("It has no sleeves."))
    else:
        sleeve, cuff = format_length(long, unit), format_length(size.cuff, unit)
        out.append(_("The sleeves are {length} long and {girth} round below.", length=sleeve, girth=cuff))
    if size.back_dip > math.ulp(1.0):
        dip = format_length(size.back_dip, unit)
        out.append(_("Behind it hangs {length} longer than in front.", length=dip))
    return out
