"""Sewing steps of what adorns a garment in words: its colours, bands, motifs and charges."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from ellwand.depict.words.heraldry import sewing_on
from ellwand.depict.words.step_asking import Say, faces, folds, lengths
from ellwand.model.band import Band
from ellwand.model.draft import Draft
from ellwand.model.repeat import RepeatBy
from ellwand.model.step import Step
from ellwand.units import Unit, format_length

PUT_ON: Final[Mapping[RepeatBy, str]] = {
    "stencil": "Paint the motifs through the stencil along {where}; let each dry before its neighbour is laid on.",
    "block": "Stamp the motifs along {where}; try the block on a scrap first.",
    "embroidery": "Embroider the motifs along {where}.",
    "appliqué": "Sew the motifs on along {where}: turn their edges under and hem them down.",
}


def _divisions(step: Step, draft: Draft, unit: Unit) -> str:
    return (
        f"{faces(draft)}, sew the colours of each piece to each other along the lines that divide the field"
        f"{lengths(step, draft, unit)}, mark to mark. From here on each piece is handled as one.{folds(step, draft)}"
    )


def _bands_flat(step: Step, draft: Draft, unit: Unit) -> str:
    bands = [draft.adornment.bands[i] for i in step.trims]
    on_sleeves = any(stretch.part.startswith("sleeve") for band in bands for stretch in band.run.stretches)
    caught = " On a sleeve let its ends be caught in the seam that closes it." if on_sleeves else ""
    return (
        f"{_sew(bands, unit)} while all lies flat and within reach: the outer edge first, then the inner, without"
        f" drawing the cloth in.{caught}"
    )


def _bands_round(step: Step, draft: Draft, unit: Unit) -> str:
    bands = [draft.adornment.bands[i] for i in step.trims]
    ends = []
    rings = [band.run.closed for band in bands]
    if any(rings):
        which = "" if all(rings) else "of a ring "
        ends.append(f"begin where the join {which}will show least and turn the last end under over the first")
    if not all(rings):
        which = "of a band that is no ring " if any(rings) else ""
        ends.append(f"turn both ends {which}under")
    return (
        f"{_sew(bands, unit)}, now that what is beneath is closed and hemmed: the outer edge first, then the inner;"
        f" {', and '.join(ends)}."
    )


def _motifs(step: Step, draft: Draft, unit: Unit) -> str:
    when = "While all still lies flat: " if step.code == "motifs" else "Slip a board inside the garment. "
    repeats = [draft.adornment.repeats[i] for i in step.trims]
    said = []
    for by in dict.fromkeys(repeat.chosen.by for repeat in repeats):
        where = _named(repeat.chosen.along for repeat in repeats if repeat.chosen.by == by)
        said.append(PUT_ON[by].format(where=where))
    text = " ".join(said)
    return f"{when}{text[0].lower()}{text[1:]}" if step.code == "motifs" else f"{when}{text}"


def _charges(step: Step, draft: Draft, unit: Unit) -> str:
    faces_ = dict.fromkeys(charge.face for charge in draft.adornment.charges)
    return f"Sew on what the {' and the '.join(faces_)} bears while it lies flat. {sewing_on(draft, unit)}"


def _sew(bands: Sequence[Band], unit: Unit) -> str:
    what = "band" if len(bands) == 1 else "bands"
    return f"Sew the {what} to {_named(band.at for band in bands)} ({_wide(bands, unit)})"


def _named(places: Iterable[str]) -> str:
    names = list(dict.fromkeys(f"the {place.replace('-', ' ')}" for place in places))
    return " and ".join(", ".join(each) for each in (names[:-1], names[-1:]) if each)


def _wide(bands: Iterable[Band], unit: Unit) -> str:
    return " and ".join(dict.fromkeys(format_length(band.width, unit) for band in bands)) + " wide"


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
