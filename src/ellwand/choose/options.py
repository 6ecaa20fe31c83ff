"""Every option of the sheet, described once: name, meaning, values, default.

The sheet's reference (docs/sheet.md) is generated from these classes.
"""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, PlainValidator

from ellwand.choose.fields import measure, number, text, word, yes_no
from ellwand.model.choices import Span


class Table(BaseModel):
    """One table of the sheet: unknown keys are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def _choice(*words: str) -> PlainValidator:
    return PlainValidator(word(*words))


LAYERS = ("skin", "middle", "outer", "armour")
LANDMARKS = ("hip", "mid-thigh", "knee", "mid-calf", "ankle", "floor")
CUTS = ("wide panels", "shoulder panels")
SHOULDERS = ("fold", "seam")
CENTRE_SEAMS = ("none", "front", "back", "both")
SIDE_PANELS = ("auto", "whole", "halves")
GORE_PLACES = ("side", "centre-front", "centre-back", "side-front", "side-back", "panel-front", "panel-back")
MAKES = ("whole", "halves", "either")
SLEEVES = ("none", "straight", "tapered", "fitted forearm", "wide")
SLEEVE_LENGTHS = ("cap", "elbow", "three-quarter", "wrist", "over-hand")
CUFFS = ("auto", "hand", "close")
NECKS = ("round", "oval", "rectangle", "boat", "keyhole")
SLITS = ("auto", "none", "centre", "left", "right")
SPLIT_PLACES = ("centre-front", "centre-back", "side")
CLOSURE_PLACES = ("neck slit", "cuffs", "centre-front", "side")
CLOSURES = ("ties", "lacing", "buttons", "loops", "hooks", "pins")
FINISHES = ("plain", "run and fell", "french", "overcast")


class BodyTable(Table):
    """[garment.body]: the trunk."""

    cut: Annotated[str, _choice(*CUTS)] = Field(
        "wide panels",
        description="front and back half the body girth wide, or as wide as the shoulders with side panels",
    )
    shoulder: Annotated[str, _choice(*SHOULDERS)] = Field(
        "fold",
        description="front and back in one length folded over the shoulder, or two with a shoulder seam",
    )
    centre_seam: Annotated[str, _choice(*CENTRE_SEAMS)] = Field(
        "none", description="where front or back is cut in two halves"
    )
    side_panel: Annotated[str, _choice(*SIDE_PANELS)] = Field(
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

    place: Annotated[str, _choice(*GORE_PLACES)] = Field(..., description="the seam or panel the gore is set in")
    start: Annotated[str | float, PlainValidator(measure(5, 200, "hip", "waist"))] = Field(
        "hip", description="where its point lies: hip, waist, or a height above the hem"
    )
    base: Annotated[float | Span, PlainValidator(measure(2, 400, span=True))] = Field(
        40.0, description="the width it adds, measured along the hem; a range is settled at its middle"
    )
    make: Annotated[str, _choice(*MAKES)] = Field(
        "either", description="one triangle, or two halves with a seam; either: whole where it can be"
    )


class SleeveTable(Table):
    """[garment.sleeve]."""

    shape: Annotated[str, _choice(*SLEEVES)] = Field("tapered", description="the sleeve's shape")
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


class NeckTable(Table):
    """[garment.neck]."""

    shape: Annotated[str, _choice(*NECKS)] = Field("keyhole", description="the opening's shape")
    slit: Annotated[str, _choice(*SLITS)] = Field(
        "auto",
        description="a slit lets the opening lie close to the neck (the wearer's left or right); auto: centre for a"
        " keyhole, else none",
    )
    ease: Annotated[float | None, PlainValidator(measure(0, 120, nothing=True))] = Field(
        None,
        description="added to the neck base girth (with a slit) or the head girth (without); left out: 2 cm",
    )


class SplitTable(Table):
    """[[garment.splits]]: left open from the hem up."""

    place: Annotated[str, _choice(*SPLIT_PLACES)] = Field(..., description="where it is open")
    height: Annotated[str | float, PlainValidator(measure(2, 200, "hip", "crotch", "knee"))] = Field(
        "hip", description="how high: a landmark, or a height above the hem"
    )


class ClosureTable(Table):
    """[[garment.closures]]: how an opening is closed again."""

    at: Annotated[str, _choice(*CLOSURE_PLACES)] = Field(
        ...,
        description="which opening; centre-front opens the whole front, side a stretch of the left side seam",
    )
    by: Annotated[str, _choice(*CLOSURES)] = Field("ties", description="what closes it")


class BeneathTable(Table):
    """An entry of garment.over: something worn beneath."""

    thickness_mm: Annotated[float, PlainValidator(number(0, 60))] = Field(..., description="its thickness in mm")


class GarmentTable(Table):
    """[garment]: what is made."""

    style: Annotated[str, PlainValidator(text)] = Field(
        "tunic", description="a starting point; every choice below overrides it"
    )
    layer: Annotated[str, _choice(*LAYERS)] = Field("middle", description="what it is worn over; sets the usual ease")
    over: tuple[BeneathTable, ...] = Field((), description="what is worn beneath: sheets, or {thickness_mm = 4}")
    length: Annotated[str | float | Span, PlainValidator(measure(30, 400, *LANDMARKS, span=True))] = Field(
        "knee",
        description="a landmark, or a length from the shoulder line at the neck; a range is settled at its middle",
    )
    date: Annotated[int | None, PlainValidator(number(500, 1600, nothing=True, what="year"))] = Field(
        None, description="the year it is meant for"
    )
    region: Annotated[str | None, PlainValidator(text)] = Field(None, description="the region it is meant for")
    body: BodyTable = Field(default_factory=BodyTable, description="the trunk")
    gores: tuple[GoreTable, ...] = Field((), description="triangles set in for width at the hem")
    sleeve: SleeveTable = Field(default_factory=SleeveTable, description="the sleeves")
    neck: NeckTable = Field(default_factory=NeckTable, description="the neck opening")
    splits: tuple[SplitTable, ...] = Field((), description="seams or panels left open from the hem up")
    closures: tuple[ClosureTable, ...] = Field((), description="how openings are closed")


class SewingTable(Table):
    """[sewing]: allowances and finish."""

    allowance: Annotated[float | None, PlainValidator(measure(0, 5, nothing=True))] = Field(
        None, description="seam allowance; left out: 1.5 cm, or 5/8 in"
    )
    hem: Annotated[float | None, PlainValidator(measure(0, 20, nothing=True))] = Field(
        None, description="hem allowance; left out: 3 cm, or 1 1/4 in"
    )
    finish: Annotated[str, _choice(*FINISHES)] = Field("run and fell", description="how seams are finished")
    by: Annotated[str, _choice("hand", "machine")] = Field("hand", description="how it is sewn")
    chalk: Annotated[float | None, PlainValidator(measure(0.1, 2.6, nothing=True))] = Field(
        None, description="the chalk grid that sizes are rounded to; left out: 0.5 cm, or 1/4 in"
    )


class FaultTable(Table):
    """An entry of faults: a hole or stain."""

    x: Annotated[float, PlainValidator(measure(0, 1000))] = Field(..., description="from the left selvedge")
    y: Annotated[float, PlainValidator(measure(0, 100000))] = Field(..., description="from the cut end")
    width: Annotated[float, PlainValidator(measure(0, 1000))] = Field(..., description="across the cloth")
    length: Annotated[float, PlainValidator(measure(0, 100000))] = Field(..., description="along the cloth")


class RemnantTable(Table):
    """[[cloth.remnants]]: left-over pieces of the same cloth."""

    width: Annotated[float, PlainValidator(measure(1, 1000))] = Field(..., description="across the cloth")
    length: Annotated[float, PlainValidator(measure(1, 100000))] = Field(..., description="along the cloth")


class ClothTable(Table):
    """[cloth.main]: the cloth on the table or to be bought."""

    unit: Annotated[str, _choice("cm", "in")] = Field("cm", description="the unit of plain numbers in this table")
    width: Annotated[float, PlainValidator(measure(15, 1000))] = Field(..., description="from selvedge to selvedge")
    length: Annotated[str | float, PlainValidator(measure(10, 100000, "at need"))] = Field(
        "at need", description="all there is, or at need: still to be bought"
    )
    selvedge: Annotated[float, PlainValidator(measure(0, 20))] = Field(1.0, description="lost along each selvedge")
    nap: Annotated[bool, PlainValidator(yes_no)] = Field(
        False, description="a pile or one-way pattern: every piece lies the same way up"
    )
    reversible: Annotated[bool, PlainValidator(yes_no)] = Field(True, description="both faces alike")
    crosswise: Annotated[str, _choice("never", "small pieces", "any")] = Field(
        "small pieces", description="which pieces may lie across the grain"
    )
    fold: Annotated[str, _choice("flat", "lengthwise", "crosswise", "either")] = Field(
        "either", description="how the cloth may lie on the table (laid flat for now)"
    )
    shrink_warp: Annotated[float, PlainValidator(number(0, 0.5, what="fraction"))] = Field(
        0.04, description="part of the length lost in washing"
    )
    shrink_weft: Annotated[float, PlainValidator(number(0, 0.5, what="fraction"))] = Field(
        0.02, description="part of the width lost in washing"
    )
    washed: Annotated[bool, PlainValidator(yes_no)] = Field(False, description="already washed and pressed")
    grams: Annotated[float | None, PlainValidator(number(10, 3000, nothing=True))] = Field(
        None, description="weight in grams per square metre"
    )
    thickness_mm: Annotated[float, PlainValidator(number(0.05, 30))] = Field(
        0.6, description="thickness in mm, for what is worn over it"
    )
    price: Annotated[float | None, PlainValidator(number(0, 1e6, nothing=True))] = Field(None, description="per metre")
    faults: tuple[FaultTable, ...] = Field((), description="holes and stains")
