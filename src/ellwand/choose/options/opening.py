"""What is left open, and how it is closed again."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, PlainValidator

from ellwand.choose.fields import measure
from ellwand.choose.options.table import Table, choice

SPLIT_PLACES = ("centre-front", "centre-back", "side")
CLOSURE_PLACES = ("neck slit", "cuffs", "centre-front", "side")
CLOSURES = ("ties", "lacing", "buttons", "loops", "hooks", "pins")


class SplitTable(Table):
    """[[garment.splits]]: left open from the hem up."""

    place: Annotated[str, choice(*SPLIT_PLACES)] = Field(..., description="where it is open")
    height: Annotated[str | float, PlainValidator(measure(2, 200, "hip", "crotch", "knee"))] = Field(
        "hip", description="how high: a landmark, or a height above the hem"
    )


class ClosureTable(Table):
    """[[garment.closures]]: how an opening is closed again."""

    at: Annotated[str, choice(*CLOSURE_PLACES)] = Field(
        ...,
        description="which opening; centre-front opens the whole front, side a stretch of the left side seam",
    )
    by: Annotated[str, choice(*CLOSURES)] = Field("ties", description="what closes it")
