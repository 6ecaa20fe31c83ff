"""Bands: whether they lie flat along what they are sewn to, and where a child's garment is taken up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from ellwand.model.band import Band
from ellwand.model.draft import Draft
from ellwand.model.finding import Finding

EASES: Final[Mapping[str, float]] = {
    **dict.fromkeys(("straight", "bought", "tablet woven", "inkle woven"), 0.05),
    **dict.fromkeys(("bias", "braid"), 0.15),
}
"""How much longer than its other side one side of a band may be, as a share, to lie flat when it is eased on or
stretched with the iron, by how it is cut or made; a cord goes round anything: common practice, no source."""


def bands_lie(draft: Draft) -> tuple[Finding, ...]:
    """What asks for a second look; of bands that are alike on both hands once."""
    found = (each for band in draft.adornment.bands for each in _of(draft, band))
    return tuple({(each.code, each.values["number"]): each for each in found}.values())


def _of(draft: Draft, band: Band) -> Iterator[Finding]:
    said = {"number": float(band.number), "at": band.at, "width": band.width}
    eases = EASES.get(band.cut or band.make)
    if eases is not None and band.bent > eases + 1e-9:
        yield Finding(
            "band-bends",
            _subject(draft, band),
            "look again",
            band.eased,
            0.0,
            "cm",
            {
                **said,
                "bent": band.bent,
                "most": band.width * eases / band.bent,
                "cut": band.cut or band.make,
                "edge": float(band.run.along == "edge"),
            },
        )
    taken = draft.taken_up
    up = 0.0 if taken is None else taken.body if band.at == "hem" else max(taken.sleeves.values(), default=0.0)
    if taken is not None and taken.by == "deep hem" and band.at in ("hem", "cuffs") and up:
        yield Finding("band-taken-up", _subject(draft, band), "look again", up, 0.0, "cm", said)


def _subject(draft: Draft, band: Band) -> str:
    alike = [number for number, each in enumerate(draft.choices.bands, 1) if each.at == band.at]
    return band.at if len(alike) == 1 else f"{band.at} {alike.index(band.number) + 1}"
