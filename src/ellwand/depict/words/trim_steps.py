"""Sewing steps of what adorns a garment in words: its colours, bands, motifs and charges."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final

from ellwand.depict.words.heraldry import sewing_on
from ellwand.depict.words.step_asking import Say, faces, folds, joined, lengths, listed, paired
from ellwand.language import N_, _
from ellwand.model.band import Band
from ellwand.model.draft import Draft
from ellwand.model.heraldry import Face
from ellwand.model.names import named
from ellwand.model.repeat import RepeatBy
from ellwand.model.step import Step
from ellwand.units import Unit, format_length

FLAT: Final[Mapping[RepeatBy, str]] = {
    "stencil": N_(
        "While all still lies flat: paint the motifs through the stencil along {lines}; let each dry before its"
        " neighbour is laid on."
    ),
    "block": N_("While all still lies flat: stamp the motifs along {lines}; try the block on a scrap first."),
    "embroidery": N_("While all still lies flat: embroider the motifs along {lines}."),
    "appliqué": N_(
        "While all still lies flat: sew the motifs on along {lines}: turn their edges under and hem them down."
    ),
}
PUT_ON: Final[Mapping[RepeatBy, str]] = {
    "stencil": N_("Paint the motifs through the stencil along {lines}; let each dry before its neighbour is laid on."),
    "block": N_("Stamp the motifs along {lines}; try the block on a scrap first."),
    "embroidery": N_("Embroider the motifs along {lines}."),
    "appliqué": N_("Sew the motifs on along {lines}: turn their edges under and hem them down."),
}


def _divisions(step: Step, draft: Draft, unit: Unit) -> str:
    return joined(
        _(
            "{faces}, sew the colours of each piece to each other along the lines that divide the field{lengths}, mark"
            " to mark. From here on each piece is handled as one.",
            faces=faces(draft),
            lengths=lengths(step, draft, unit),
        ),
        folds(step, draft),
    )


def _bands_flat(step: Step, draft: Draft, unit: Unit) -> str:
    bands = [draft.adornment.bands[i] for i in step.trims]
    on_sleeves = any(stretch.part.startswith("sleeve") for band in bands for stretch in band.run.stretches)
    if len(bands) == 1:
        how = N_(
            "Sew the band to {places} ({wide} wide) while all lies flat and within reach: the outer edge first, then"
            " the inner, without drawing the cloth in."
        )
    else:
        how = N_(
            "Sew the bands to {places} ({wide} wide) while all lies flat and within reach: the outer edge first, then"
            " the inner, without drawing the cloth in."
        )
    return joined(
        _(how, places=_named(band.at for band in bands), wide=_wide(bands, unit)),
        _("On a sleeve let its ends be caught in the seam that closes it.") if on_sleeves else "",
    )


def _bands_round(step: Step, draft: Draft, unit: Unit) -> str:
    bands = [draft.adornment.bands[i] for i in step.trims]
    rings = [band.run.closed for band in bands]
    ends = _("turn both ends under")
    if all(rings):
        ends = _("begin where the join will show least and turn the last end under over the first")
    elif any(rings):
        ends = _(
            "begin where the join of a ring will show least and turn the last end under over the first, and turn both"
            " ends of a band that is no ring under"
        )
    if len(bands) == 1:
        how = N_(
            "Sew the band to {places} ({wide} wide), now that what is beneath is closed and hemmed: the outer edge"
            " first, then the inner; {ends}."
        )
    else:
        how = N_(
            "Sew the bands to {places} ({wide} wide), now that what is beneath is closed and hemmed: the outer edge"
            " first, then the inner; {ends}."
        )
    return _(how, places=_named(band.at for band in bands), wide=_wide(bands, unit), ends=ends)


def _motifs(step: Step, draft: Draft, unit: Unit) -> str:
    repeats = [draft.adornment.repeats[i] for i in step.trims]
    said = [] if step.code == "motifs" else [_("Slip a board inside the garment.")]
    for by in dict.fromkeys(repeat.chosen.by for repeat in repeats):
        words = FLAT if step.code == "motifs" and not said else PUT_ON
        said.append(_(words[by], lines=_named(repeat.chosen.along for repeat in repeats if repeat.chosen.by == by)))
    return joined(*said)


_BORNE: Final[Mapping[tuple[Face, ...], str]] = {
    ("front",): N_("Sew on what the front bears while it lies flat."),
    ("back",): N_("Sew on what the back bears while it lies flat."),
    ("front", "back"): N_("Sew on what the front and the back bears while it lies flat."),
    ("back", "front"): N_("Sew on what the back and the front bears while it lies flat."),
}


def _charges(step: Step, draft: Draft, unit: Unit) -> str:
    faces_ = tuple(dict.fromkeys(charge.face for charge in draft.adornment.charges))
    return joined(_(_BORNE[faces_]), sewing_on(draft, unit))


def _named(places: Iterable[str]) -> str:
    return listed(list(dict.fromkeys(_("the {place}", place=named(place.replace("-", " "))) for place in places)))


def _wide(bands: Iterable[Band], unit: Unit) -> str:
    return paired(list(dict.fromkeys(format_length(band.width, unit) for band in bands)))


TRIM_STEPS: Final[Mapping[str, Say]] = MappingProxyType(
    {
        "divisions": _divisions,
        "charges": _charges,
        "bands flat": _bands_flat,
        "bands round": _bands_round,
        "motifs": _motifs,
        "motifs round": _motifs,
    }
)
