"""Sleeves and gussets."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, PlainValidator

from ellwand.choose.fields import measure
from ellwand.choose.options.table import Table, choice
from ellwand.language import N_

SLEEVES = ("none", "straight", "tapered", "fitted forearm", "wide")
SLEEVE_LENGTHS = ("cap", "elbow", "three-quarter", "wrist", "over-hand")
CUFFS = ("auto", "hand", "close")
GUSSET_SHAPES = ("square", "triangles", "diamond", "either")
SLEEVE_PIECES = ("auto", "one", "two")
SLEEVE_SEAMS = ("under", "back")
HEADS = ("straight", "shaped")


class SleeveTable(Table):
    """[garment.sleeve]."""

    shape: Annotated[str, choice(*SLEEVES)] = Field("tapered", description=N_("the sleeve's shape"))
    length: Annotated[str | float, PlainValidator(measure(3, 150, *SLEEVE_LENGTHS))] = Field(
        "wrist", description=N_("where it ends, or its own length from armhole seam to cuff")
    )
    cuff: Annotated[str | float, PlainValidator(measure(8, 400, *CUFFS))] = Field(
        "auto",
        description=N_(
            "hand: the closed hand passes; close: near the arm, with an opening if need be; a girth; auto: as"
            " the shape usually has it"
        ),
    )
    gusset: Annotated[str | float, PlainValidator(measure(0, 40, "auto", "none"))] = Field(
        "auto", description=N_("side of the square under the arm; auto: none where the sleeve is wide enough")
    )
    gusset_shape: Annotated[str, choice(*GUSSET_SHAPES)] = Field(
        "square",
        description=N_(
            "square; triangles: the same in two, with a seam from the underarm seam to the side seam; diamond:"
            " half as long again down the body; either: the square, or triangles where they save cloth"
        ),
    )
    pieces: Annotated[str, choice(*SLEEVE_PIECES)] = Field(
        "auto",
        description=N_(
            "two: a front and a back half with a seam along the top of the arm; auto: two where that saves"
            " cloth, or the cloth is too narrow for one"
        ),
    )
    seam: Annotated[str, choice(*SLEEVE_SEAMS)] = Field(
        "under", description=N_("the long seam under the arm, or behind it (where there is no gusset)")
    )
    head: Annotated[str, choice(*HEADS)] = Field(
        "straight", description=N_("the sleeve's top: straight, or a shaped head in a hollowed armhole")
    )
    head_ease: Annotated[float, PlainValidator(measure(0, 6))] = Field(
        0.0, description=N_("how much longer a shaped head is than its armhole")
    )
    drop: Annotated[float, PlainValidator(measure(0, 80))] = Field(
        0.0, description=N_("how much lower a wide sleeve's opening hangs under the arm than over it")
    )
    elbow_gore: Annotated[float, PlainValidator(measure(0, 60))] = Field(
        0.0, description=N_("width at the cuff of a gore let into the long seam from the elbow down; 0: none")
    )
