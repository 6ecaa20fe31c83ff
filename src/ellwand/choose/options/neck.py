"""The neck opening."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, PlainValidator

from ellwand.choose.fields import measure
from ellwand.choose.options.table import Table, choice

NECKS = ("round", "oval", "rectangle", "boat", "keyhole")
SLITS = ("auto", "none", "centre", "left", "right")


class NeckTable(Table):
    """[garment.neck]."""

    shape: Annotated[str, choice(*NECKS)] = Field("keyhole", description="the opening's shape")
    slit: Annotated[str, choice(*SLITS)] = Field(
        "auto",
        description="a slit lets the opening lie close to the neck (the wearer's left or right); auto: centre for a"
        " keyhole, else none",
    )
    ease: Annotated[float | None, PlainValidator(measure(0, 120, nothing=True))] = Field(
        None,
        description="added to the neck base girth (with a slit) or the head girth (without); left out: 2 cm",
    )
