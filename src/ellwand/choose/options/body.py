"""The trunk and what is set into it."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, PlainValidator

from ellwand.choose.fields import measure
from ellwand.choose.options.table import Table, choice
from ellwand.model.choices import Span

CUTS = ("wide panels", "shoulder panels")
SHOULDERS = ("fold", "seam")
CENTRE_SEAMS = ("none", "front", "back", "both")
SIDE_PANELS = ("auto", "whole", "halves")
GORE_PLACES = ("side", "centre-front", "centre-back", "side-front", "side-back", "panel-front", "panel-back")
MAKES = ("whole", "halves", "either")


class BodyTable(Table):
    """[garment.body]: the trunk."""

    cut: Annotated[str, choice(*CUTS)] = Field(
        "wide panels",
        description="front and back half the body girth wide, or as wide as the shoulders with side panels",
    )
    shoulder: Annotated[str, choice(*SHOULDERS)] = Field(
        "fold",
        description="front and back in one length folded over the shoulder, or two with a shoulder seam",
    )
    centre_seam: Annotated[str, choice(*CENTRE_SEAMS)] = Field(
        "none", description="where front or back is cut in two halves"
    )
    side_panel: Annotated[str, choice(*SIDE_PANELS)] = Field(
        "auto",
        description="side panels whole, or in two halves with a side seam; auto: halves where something is set"
        " into the side seam (shoulder panels only)",
    )
    ease: Annotated[float | None, PlainValidator(measure(0, 120, nothing=True))] = Field(
        None, description="added to the largest body girth; left out: 10, 14, 22 or 26 cm by layer"
    )
    flare: Annotated[float, PlainValidator(measure(0, 200))] = Field(
        0.0, description="extra width of each side panel at the hem (shoulder panels only)"
    )


class GoreTable(Table):
    """[[garment.gores]]: any number of them."""

    place: Annotated[str, choice(*GORE_PLACES)] = Field(..., description="the seam or panel the gore is set in")
    start: Annotated[str | float, PlainValidator(measure(5, 200, "hip", "waist"))] = Field(
        "hip", description="where its point lies: hip, waist, or a height above the hem"
    )
    base: Annotated[float | Span, PlainValidator(measure(2, 400, span=True))] = Field(
        40.0,
        description="the width it adds, measured along the hem; a range is settled at its middle, or below it where"
        " the gore is short",
    )
    make: Annotated[str, choice(*MAKES)] = Field(
        "either", description="one triangle, or two halves with a seam; either: whole where it can be"
    )
