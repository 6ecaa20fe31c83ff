"""Sleeves and gussets."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, PlainValidator

from ellwand.choose.fields import measure
from ellwand.choose.options.table import Table, choice

SLEEVES = ("none", "straight", "tapered", "fitted forearm", "wide")
SLEEVE_LENGTHS = ("cap", "elbow", "three-quarter", "wrist", "over-hand")
CUFFS = ("auto", "hand", "close")


class SleeveTable(Table):
    """[garment.sleeve]."""

    shape: Annotated[str, choice(*SLEEVES)] = Field("tapered", description="the sleeve's shape")
    length: Annotated[str | float, PlainValidator(measure(3, 150, *SLEEVE_LENGTHS))] = Field(
        "wrist", description="where it ends, or its own length from armhole seam to cuff"
    )
    cuff: Annotated[str | float, PlainValidator(measure(8, 400, *CUFFS))] = Field(
        "auto",
        description="hand: the closed hand passes; close: near the arm, with an opening if need be; a girth; auto: as"
        " the shape usually has it",
    )
    gusset: Annotated[str | float, PlainValidator(measure(0, 40, "auto", "none"))] = Field(
        "auto", description="side of the square under the arm; auto: none where the sleeve is wide enough"
    )
