"""Bands that are sewn on along edges, seams and rings."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Annotated, Final, get_args

from pydantic import Field, PlainValidator

from ellwand.choose.fields import measure, number, text, whole
from ellwand.choose.options.table import Table, choice
from ellwand.language import N_
from ellwand.model.band import BandChoice, BandCorners, BandCut, BandMake, BandPlace

PLACES: Final = get_args(BandPlace)
WIDE: Final = {"braid": 1.0, "cord": 0.5}
"""Usual widths (cm), of all others 4: our own figures."""


class BandTable(Table):
    """[[garment.bands]]: a strip of cloth, a woven band or a braid that is sewn on to the outside."""

    at: Annotated[str, choice(*PLACES)] = Field(
        ...,
        description=N_("where: inside an edge; centred on a seam; or centred on a ring round the skirt or the arms"),
    )
    height: Annotated[float | None, PlainValidator(measure(0.5, 200, nothing=True))] = Field(
        None,
        description=N_(
            "of a ring, to its middle: a skirt ring above the hem, an arm ring above the cuff, an upper arm"
            " ring below the shoulder point"
        ),
    )
    width: Annotated[float | None, PlainValidator(measure(0.3, 40, nothing=True))] = Field(
        None, description=N_("finished width; left out: 4 cm, of a braid 1 cm, of a cord 0.5 cm")
    )
    make: Annotated[str, choice(*get_args(BandMake))] = Field(
        "cloth", description=N_("cut from cloth, bought ready, or made of yarn: what to cut, buy or warp is told")
    )
    cut: Annotated[str, choice(*get_args(BandCut))] = Field(
        "auto",
        description=N_(
            "of a cloth band: strips along the thread, on the bias, or shaped like the edge; auto: as straight"
            " as the edge lets it be"
        ),
    )
    corners: Annotated[str, choice(*get_args(BandCorners))] = Field(
        "mitred", description=N_("how it turns corners: folded aslant, or with one end square against the other's side")
    )
    turned: Annotated[float | None, PlainValidator(measure(0, 3, nothing=True))] = Field(
        None,
        description=N_(
            "of a cloth band: turned under along each side; left out: 1 cm, or less where the allowance or half"
            " the width is less"
        ),
    )
    colour: Annotated[str | None, PlainValidator(text)] = Field(
        None, description=N_("its colour in your own words, for the card")
    )
    ends: Annotated[int | None, PlainValidator(whole(2, 600, nothing=True))] = Field(
        None,
        description=N_(
            "of a woven band: threads of the warp; of a braid or cord: strands; left out: as many as the width takes"
        ),
    )
    wraps: Annotated[float, PlainValidator(number(2, 40))] = Field(
        12.0, description=N_("of its yarn: how often it goes round a ruler in 1 cm, side by side")
    )
    grams: Annotated[float, PlainValidator(number(1, 500))] = Field(
        25.0, description=N_("of its yarn: what 100 m of it weigh")
    )
    take_up: Annotated[float | None, PlainValidator(number(0, 5, nothing=True))] = Field(
        None,
        description=N_("how much longer than the band its threads are, as a share; left out: as is usual for its make"),
    )
    loom_waste: Annotated[float | None, PlainValidator(measure(0, 200, nothing=True))] = Field(
        None, description=N_("what of each thread cannot be woven; left out: as is usual for its make")
    )


def band_choices(tables: Iterable[BandTable]) -> tuple[BandChoice, ...]:
    """The bands as they are asked for, each with a width."""
    return tuple(
        BandChoice(**{**table.model_dump(), "width": table.width or WIDE.get(table.make, 4.0)}) for table in tables
    )
