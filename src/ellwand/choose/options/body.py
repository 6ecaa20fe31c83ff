"""The trunk and what is set into it."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, PlainValidator

from ellwand.choose.fields import measure
from ellwand.choose.options.table import Table, choice
from ellwand.language import N_
from ellwand.model.choices import Span

CUTS = ("wide panels", "shoulder panels")
SHOULDERS = ("fold", "seam", "either")
CENTRE_SEAMS = ("none", "front", "back", "both", "either")
SIDE_PANELS = ("auto", "whole", "halves")
GORE_PLACES = ("side", "centre-front", "centre-back", "side-front", "side-back", "panel-front", "panel-back")
MAKES = ("whole", "halves", "either", "pieced")
GORE_HEMS = ("arc", "straight")
PIECED = ("auto", "never", "freely")


class BodyTable(Table):
    """[garment.body]: the trunk."""

    cut: Annotated[str, choice(*CUTS)] = Field(
        "wide panels",
        description=N_("front and back half the body girth wide, or as wide as the shoulders with side panels"),
    )
    shoulder: Annotated[str, choice(*SHOULDERS)] = Field(
        "fold",
        description=N_(
            "front and back in one length folded over the shoulder, or two with a shoulder seam; either: the"
            " fold, or the seam where it saves cloth"
        ),
    )
    centre_seam: Annotated[str, choice(*CENTRE_SEAMS)] = Field(
        "none", description=N_("where front or back is cut in two halves; either: none, or where it saves cloth")
    )
    side_panel: Annotated[str, choice(*SIDE_PANELS)] = Field(
        "auto",
        description=N_(
            "side panels whole, or in two halves with a side seam; auto: halves where something is set"
            " into the side seam (shoulder panels only)"
        ),
    )
    ease: Annotated[float | None, PlainValidator(measure(0, 120, nothing=True))] = Field(
        None, description=N_("added to the largest body girth; left out: 10, 14, 22 or 26 cm by layer")
    )
    flare: Annotated[float, PlainValidator(measure(0, 200))] = Field(
        0.0, description=N_("extra width of each side panel at the hem (shoulder panels only)")
    )
    pieced: Annotated[str | float, PlainValidator(measure(15, 400, *PIECED))] = Field(
        "auto",
        description=N_(
            "what is too wide or too long for the cloth is pieced (a strip down the side, a gore's corner or"
            " tip); never: it is refused; freely: also where it saves cloth; a width: nothing is cut wider in one piece"
        ),
    )
    back_longer: Annotated[float, PlainValidator(measure(0, 60))] = Field(
        0.0, description=N_("how far the back's hem dips below the front's at its centre; the side seams stay equal")
    )
    shoulder_slope: Annotated[float, PlainValidator(measure(0, 10))] = Field(
        0.0, description=N_("how far the shoulder point lies below the neck point (shoulder seams only)")
    )


class GoreTable(Table):
    """[[garment.gores]]: any number of them."""

    place: Annotated[str, choice(*GORE_PLACES)] = Field(..., description=N_("the seam or panel the gore is set in"))
    start: Annotated[str | float, PlainValidator(measure(5, 200, "hip", "waist"))] = Field(
        "hip", description=N_("where its point lies: hip, waist, or a height above the hem")
    )
    base: Annotated[float | Span, PlainValidator(measure(2, 400, span=True))] = Field(
        40.0,
        description=N_(
            "the width it adds, measured along the hem; a range is settled by garment.take, or narrower where"
            " the gore is short"
        ),
    )
    make: Annotated[str, choice(*MAKES)] = Field(
        "either",
        description=N_(
            "one triangle, or two halves with a seam; either: whole, or halves where they save cloth; pieced:"
            " its upper third a piece of its own"
        ),
    )
    top: Annotated[float, PlainValidator(measure(0, 20))] = Field(
        0.0,
        description=N_("width of a blunt upper end, 2 to 10 cm, instead of a point (in a side or centre seam only)"),
    )
    hem: Annotated[str, choice(*GORE_HEMS)] = Field(
        "arc", description=N_("the base swung about the point, or cut straight: then its corners hang and are trimmed")
    )
