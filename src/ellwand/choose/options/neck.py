"""The neck opening."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, PlainValidator

from ellwand.choose.fields import measure
from ellwand.choose.options.table import Table, choice
from ellwand.language import N_

NECKS = ("round", "oval", "rectangle", "square", "V", "boat", "keyhole")
SLITS = ("auto", "none", "centre", "left", "right", "back")
BACKS = ("round", "pointed")
OPENINGS = ("none", "shoulder left", "shoulder right", "both shoulders")
FACINGS = ("none", "strip", "shaped")


class NeckTable(Table):
    """[garment.neck]."""

    shape: Annotated[str, choice(*NECKS)] = Field("keyhole", description=N_("the opening's shape"))
    slit: Annotated[str, choice(*SLITS)] = Field(
        "auto",
        description=N_(
            "a slit lets the opening lie close to the neck (the wearer's left or right, where it runs on from"
            " a rectangle's side; or the centre back); auto: centre for a keyhole, else none"
        ),
    )
    ease: Annotated[float | None, PlainValidator(measure(0, 120, nothing=True))] = Field(
        None,
        description=N_(
            "added to the neck base girth (with a slit or open shoulder) or the head girth (without); left out: 2 cm"
        ),
    )
    front_drop: Annotated[float | None, PlainValidator(measure(1, 60, nothing=True))] = Field(
        None, description=N_("how deep it is in front of the shoulder line; left out: as the shape usually has it")
    )
    back_drop: Annotated[float | None, PlainValidator(measure(0.5, 40, nothing=True))] = Field(
        None, description=N_("how deep it is behind the shoulder line; left out: 2.5 cm")
    )
    back: Annotated[str, choice(*BACKS)] = Field("round", description=N_("the back of a V neck"))
    opening: Annotated[str, choice(*OPENINGS)] = Field(
        "none", description=N_("shoulder seams left open beside the neck, in place of a slit")
    )
    facing: Annotated[str, choice(*FACINGS)] = Field(
        "none", description=N_("strip: a strip cut to length; shaped: a ring that follows the opening")
    )
    facing_width: Annotated[float, PlainValidator(measure(2, 12))] = Field(
        4.0, description=N_("finished width of a shaped facing, cut width of a strip")
    )
    collar: Annotated[float, PlainValidator(measure(0, 15))] = Field(
        0.0, description=N_("height of a straight band on the neck, doubled; 0: none")
    )
