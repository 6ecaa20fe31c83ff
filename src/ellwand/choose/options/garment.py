"""The garment as a whole."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, PlainValidator

from ellwand.choose.fields import measure, number, text
from ellwand.choose.options.bands import BandTable
from ellwand.choose.options.body import BodyTable, GoreTable
from ellwand.choose.options.heraldry import ChargeTable, DivisionTable
from ellwand.choose.options.neck import NeckTable
from ellwand.choose.options.opening import ClosureTable, SplitTable
from ellwand.choose.options.others import ApronTable, BreechesTable, CloakTable, CoifTable, HoodTable
from ellwand.choose.options.repeats import RepeatTable
from ellwand.choose.options.sleeve import SleeveTable
from ellwand.choose.options.table import Table, choice
from ellwand.language import N_
from ellwand.model.choices import Span

LAYERS = ("skin", "middle", "outer", "armour")
LANDMARKS = ("hip", "mid-thigh", "knee", "mid-calf", "ankle", "floor")
TAKEN_UP = ("deep hem", "tucks")
TAKES = ("least cloth", "balanced", "fullest")


class GrowthTable(Table):
    """[garment.growth]: room for a child to grow into; the wearer's age must be given."""

    months: Annotated[float, PlainValidator(number(1, 48))] = Field(
        12.0, description=N_("how long it shall last: width for that, and length taken up until it is needed")
    )
    by: Annotated[str, choice(*TAKEN_UP)] = Field(
        "deep hem", description=N_("the spare length is turned up in the hems, or sewn into tucks above them")
    )


class BeneathTable(Table):
    """An entry of garment.over: something worn beneath."""

    thickness_mm: Annotated[float, PlainValidator(number(0, 60))] = Field(..., description=N_("its thickness in mm"))


class GarmentTable(Table):
    """[garment]: what is made."""

    style: Annotated[str, PlainValidator(text)] = Field(
        "tunic", description=N_("a starting point; every choice below overrides it")
    )
    layer: Annotated[str, choice(*LAYERS)] = Field(
        "middle", description=N_("what it is worn over; sets the usual ease")
    )
    over: tuple[BeneathTable, ...] = Field((), description=N_("what is worn beneath: sheets, or {thickness_mm = 4}"))
    length: Annotated[str | float | Span, PlainValidator(measure(30, 400, *LANDMARKS, span=True))] = Field(
        "knee",
        description=N_("a landmark, or a length from the shoulder line at the neck; a range is settled by `take`"),
    )
    take: Annotated[str, choice(*TAKES)] = Field(
        "balanced", description=N_("where ranges are settled: at their least, their middle or their most")
    )
    blouse: Annotated[float, PlainValidator(measure(0, 60))] = Field(
        0.0, description=N_("worn bloused over a belt: length added for what the belt draws up")
    )
    belt: Annotated[str | float, PlainValidator(measure(20, 180, "none", "waist", "hip"))] = Field(
        "none",
        description=N_("where it is belted when it is hung: a level, or a height above the floor; bloused: the waist"),
    )
    train: Annotated[float, PlainValidator(measure(0, 600))] = Field(
        0.0, description=N_("how much longer the back hangs, to trail on the floor (length floor only)")
    )
    date: Annotated[int | None, PlainValidator(number(500, 1600, nothing=True, what="year"))] = Field(
        None, description=N_("the year it is meant for")
    )
    region: Annotated[str | None, PlainValidator(text)] = Field(None, description=N_("the region it is meant for"))
    body: BodyTable = Field(default_factory=BodyTable, description=N_("the trunk"))
    gores: tuple[GoreTable, ...] = Field((), description=N_("triangles set in for width at the hem"))
    sleeve: SleeveTable = Field(default_factory=SleeveTable, description=N_("the sleeves"))
    neck: NeckTable = Field(default_factory=NeckTable, description=N_("the neck opening"))
    splits: tuple[SplitTable, ...] = Field((), description=N_("seams or panels left open from the hem up"))
    closures: tuple[ClosureTable, ...] = Field((), description=N_("how openings are closed"))
    division: DivisionTable | None = Field(
        None, description=N_("its field divided between tinctures; left out: it is not")
    )
    bands: tuple[BandTable, ...] = Field((), description=N_("bands that are sewn on along edges, seams and rings"))
    charges: tuple[ChargeTable, ...] = Field((), description=N_("shapes of another tincture that are sewn on"))
    repeats: tuple[RepeatTable, ...] = Field((), description=N_("motifs that repeat along a line of the garment"))
    growth: GrowthTable | None = Field(
        None, description=N_("room for a child to grow into; left out: cut as it is now")
    )
    hood: HoodTable | None = Field(None, description=N_("style hood only"))
    cloak: CloakTable | None = Field(None, description=N_("style cloak only"))
    coif: CoifTable | None = Field(None, description=N_("style coif only"))
    apron: ApronTable | None = Field(None, description=N_("style apron only"))
    breeches: BreechesTable | None = Field(None, description=N_("style breeches only"))
