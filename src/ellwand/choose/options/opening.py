"""What is left open, and how it is closed again."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, PlainValidator

from ellwand.choose.fields import measure
from ellwand.choose.options.table import Table, choice
from ellwand.language import N_

SPLIT_PLACES = ("centre-front", "centre-back", "side")
CLOSURE_PLACES = ("neck slit", "cuffs", "centre-front", "centre-back", "side", "shoulder")
OPENS_TO = ("auto", "hem", "hip", "waist")
CLOSURES = ("ties", "lacing", "buttons", "loops", "hooks", "pins")
LACINGS = ("spiral", "ladder", "crossed")
LAPS = ("edge to edge", "overlap")
BUTTONS = ("bought", "cloth")
SPLIT_FACINGS = ("none", "strip")


class SplitTable(Table):
    """[[garment.splits]]: left open from the hem up."""

    place: Annotated[str, choice(*SPLIT_PLACES)] = Field(..., description=N_("where it is open"))
    height: Annotated[str | float, PlainValidator(measure(2, 200, "hip", "crotch", "knee"))] = Field(
        "hip", description=N_("how high: a landmark, or a height above the hem")
    )
    facing: Annotated[str, choice(*SPLIT_FACINGS)] = Field(
        "none", description=N_("strip: its edges are faced with straight strips; none: turned and hemmed")
    )


class ClosureTable(Table):
    """[[garment.closures]]: how an opening is closed again."""

    at: Annotated[str, choice(*CLOSURE_PLACES)] = Field(
        ...,
        description=N_(
            "which opening; centre-front opens the whole front, centre-back the back down to the hip, side a"
            " stretch of the left side seam, shoulder what neck.opening leaves open"
        ),
    )
    by: Annotated[str, choice(*CLOSURES)] = Field(
        "ties", description=N_("what closes it; loops: toggles and loops; hooks: hooks and eyes")
    )
    spacing: Annotated[float | None, PlainValidator(measure(0.5, 40, nothing=True))] = Field(
        None,
        description=N_(
            "from one to the next, at most; left out: buttons and hooks 2 cm, eyelets 2.5 cm, loops 4 cm,"
            " pins 8 cm, ties 10 cm"
        ),
    )
    lacing: Annotated[str, choice(*LACINGS)] = Field("spiral", description=N_("the lace's way through the eyelets"))
    lap: Annotated[str, choice(*LAPS)] = Field(
        "edge to edge", description=N_("overlap: a strip is sewn to one edge and lies beneath the other")
    )
    overlap: Annotated[float | None, PlainValidator(measure(0.5, 15, nothing=True))] = Field(
        None, description=N_("how far it lies beneath; left out: 3 cm")
    )
    to: Annotated[str, choice(*OPENS_TO)] = Field(
        "auto",
        description=N_("how far down a centre-front or centre-back opens; auto: a front to the hem, a back to the hip"),
    )
    size: Annotated[float | None, PlainValidator(measure(0.4, 5, nothing=True))] = Field(
        None, description=N_("how wide a button or toggle is; left out: buttons 1.2 cm, toggles 1.6 cm")
    )
    buttons: Annotated[str, choice(*BUTTONS)] = Field(
        "bought", description=N_("cloth: each is made of a circle of cloth cut from scraps; 6 to 15 mm wide")
    )
