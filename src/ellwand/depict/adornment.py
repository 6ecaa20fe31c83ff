"""All that is put on the garment, as rows of text: what it is, and what to do for it."""

from __future__ import annotations

from collections.abc import Iterator

from ellwand.depict.naming import numbers
from ellwand.depict.words.bands import band_title, band_work
from ellwand.depict.words.painting import painting_rows
from ellwand.depict.words.repeats import repeat_texts
from ellwand.model.garment import Garment


def adornment_rows(garment: Garment) -> tuple[tuple[str, str], ...]:
    """One row for each band, then those of the repeated motifs; arms are told with the views."""
    return (*_bands(garment), *_repeats(garment), *_motifs(garment))


def _bands(garment: Garment) -> Iterator[tuple[str, str]]:
    draft, unit = garment.draft, garment.wearer.unit
    piece_of = {part.id: part.piece for part in draft.applied}
    key = numbers(draft.pieces)
    for number, choice in enumerate(garment.choices.bands, 1):
        bands = [band for band in draft.adornment.bands if band.number == number]
        pieces = sorted({key[piece_of[part]] for band in bands for part in band.parts})
        if bands:
            yield band_title(bands), band_work(bands, draft.adornment, choice.height, pieces, unit)


def _repeats(garment: Garment) -> Iterator[tuple[str, str]]:
    yield from repeat_texts(garment.draft.adornment.repeats, garment.wearer.unit)


def _motifs(garment: Garment) -> Iterator[tuple[str, str]]:
    yield from painting_rows(garment)
