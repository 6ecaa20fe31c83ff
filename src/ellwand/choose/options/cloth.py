"""Sewing, and the cloth."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, PlainValidator

from ellwand.choose.fields import corners, length_or_part, measure, number, word, words, yes_no
from ellwand.choose.options.table import Table, choice
from ellwand.geometry.lines import Point
from ellwand.language import N_
from ellwand.model.cloth import CUTS
from ellwand.model.heraldry import TINCTURES

FINISHES = ("plain", "run and fell", "flat-felled", "french", "overcast", "open and stitched down")


class TimedTable(Table):
    """[sewing.timed]: one seam sewn with a watch, which says how fast the maker sews the way `by` says."""

    length: Annotated[float, PlainValidator(measure(5, 1000))] = Field(
        ..., description=N_("how long the seam was: one row of running stitch by hand, or one plain seam by machine")
    )
    minutes: Annotated[float, PlainValidator(number(0.1, 600))] = Field(
        ..., description=N_("how many minutes it took, by machine with its pinning")
    )


class SewingTable(Table):
    """[sewing]: allowances and finish."""

    allowance: Annotated[float | None, PlainValidator(measure(0, 5, nothing=True))] = Field(
        None, description=N_("seam allowance; left out: 1.5 cm, or 5/8 in")
    )
    hem: Annotated[float | None, PlainValidator(measure(0, 20, nothing=True))] = Field(
        None, description=N_("hem allowance; left out: 3 cm, or 1 1/4 in")
    )
    finish: Annotated[str, choice(*FINISHES)] = Field("run and fell", description=N_("how seams are finished"))
    by: Annotated[str, choice("hand", "machine")] = Field("hand", description=N_("how it is sewn"))
    sleeves: Annotated[str, choice("flat", "in the round")] = Field(
        "flat",
        description=N_("sleeves are sewn on while all lies flat, or closed first and set into the closed armholes"),
    )
    gussets: Annotated[str, choice("in the corner", "on the sleeve", "on the body")] = Field(
        "in the corner",
        description=N_("gussets are set into the corner that sleeve and body make, or first sewn to one of the two"),
    )
    chalk: Annotated[float | None, PlainValidator(measure(0.1, 2.6, nothing=True))] = Field(
        None, description=N_("the chalk grid that sizes are rounded to; left out: 0.5 cm, or 1/4 in")
    )
    stitch: Annotated[float | None, PlainValidator(measure(0.1, 1, nothing=True))] = Field(
        None, description=N_("how long one stitch is; left out: 3 mm by hand, 2.5 mm by machine")
    )
    machine: Annotated[str, choice("lockstitch", "chain", "double chain")] = Field(
        "lockstitch",
        description=N_("by machine: the stitch it sews seams with; chain has one thread, double chain two"),
    )
    neaten: Annotated[str, choice("zigzag", "overedge")] = Field(
        "zigzag",
        description=N_("by machine: what raw edges are overcast with; overedge is an overlocker's three threads"),
    )
    overedge_constant: Annotated[float | None, PlainValidator(number(1, 10, nothing=True))] = Field(
        None,
        description=N_(
            "overedge takes so many times the seam's length of thread, and what goes round the edge besides;"
            " left out: 3 to 5, as handbooks differ"
        ),
    )
    large_type: Annotated[bool, PlainValidator(yes_no)] = Field(
        False,
        description=N_(
            "card and sewing order in large type: no letter under 14 points, drawings as large as the paper allows"
        ),
    )
    timed: TimedTable | None = Field(None, description=N_("the maker's own pace; left out: of a slow and a quick hand"))


class FaultTable(Table):
    """An entry of faults: a hole or stain."""

    x: Annotated[float, PlainValidator(measure(0, 1000))] = Field(..., description=N_("from the left selvedge"))
    y: Annotated[float, PlainValidator(measure(0, 100000))] = Field(..., description=N_("from the cut end"))
    width: Annotated[float, PlainValidator(measure(0, 1000))] = Field(..., description=N_("across the cloth"))
    length: Annotated[float, PlainValidator(measure(0, 100000))] = Field(..., description=N_("along the cloth"))


class RemnantTable(Table):
    """[[cloth.remnants]]: left-over pieces, without selvedges."""

    width: Annotated[float | None, PlainValidator(measure(1, 1000, nothing=True))] = Field(
        None, description=N_("across the cloth")
    )
    length: Annotated[float | None, PlainValidator(measure(1, 100000, nothing=True))] = Field(
        None, description=N_("along the cloth")
    )
    outline: Annotated[tuple[Point, ...], PlainValidator(corners)] = Field(
        (), description=N_("the corners of one that is no rectangle, instead of width and length; y along the cloth")
    )
    cloth: str = Field("main", description=N_("the name of the cloth that it is left over from"))


class RepeatTable(Table):
    """repeat: a stripe or check that pieces are laid to.

    Every piece lies with its middle, or its centre seam, on the middle of a stripe, and with the level of its hem; so
    equal panels meet alike at their seams, and left and right parts look alike.
    """

    across: Annotated[float, PlainValidator(measure(0, 200))] = Field(
        0.0, description=N_("its repeat across the cloth")
    )
    along: Annotated[float, PlainValidator(measure(0, 200))] = Field(0.0, description=N_("its repeat along the cloth"))
    x: Annotated[float, PlainValidator(measure(0, 1000))] = Field(
        0.0, description=N_("from the left selvedge to the middle of a stripe")
    )
    y: Annotated[float, PlainValidator(measure(0, 1000))] = Field(
        0.0, description=N_("from the cut end to the middle of a stripe")
    )


class ClothTable(Table):
    """[cloth.main]: the cloth on the table or to be bought."""

    unit: Annotated[str, choice("cm", "in")] = Field("cm", description=N_("the unit of plain numbers in this table"))
    width: Annotated[float, PlainValidator(measure(15, 1000))] = Field(..., description=N_("from selvedge to selvedge"))
    length: Annotated[str | float, PlainValidator(measure(10, 100000, "at need"))] = Field(
        "at need", description=N_("all there is, or at need: still to be bought")
    )
    selvedge: Annotated[float, PlainValidator(measure(0, 20))] = Field(1.0, description=N_("lost along each selvedge"))
    nap: Annotated[bool, PlainValidator(yes_no)] = Field(
        False, description=N_("a pile or one-way pattern: every piece lies the same way up")
    )
    reversible: Annotated[bool, PlainValidator(yes_no)] = Field(True, description=N_("both faces alike"))
    crosswise: Annotated[str, choice("never", "small pieces", "any")] = Field(
        "small pieces", description=N_("which pieces may lie across the grain")
    )
    fold: Annotated[str, choice("flat", "lengthwise", "crosswise", "either")] = Field(
        "either", description=N_("how the cloth lies on the table; either is flat, as no folded lay is shorter")
    )
    shrink_warp: Annotated[float, PlainValidator(number(0, 0.5, what="fraction"))] = Field(
        0.04, description=N_("part of the length lost in washing")
    )
    shrink_weft: Annotated[float, PlainValidator(number(0, 0.5, what="fraction"))] = Field(
        0.02, description=N_("part of the width lost in washing")
    )
    washed: Annotated[bool, PlainValidator(yes_no)] = Field(False, description=N_("already washed and pressed"))
    wash: Annotated[str, choice("before", "after")] = Field(
        "before", description=N_("cloth not washed yet is washed before it is cut, or only after it is sewn")
    )
    grams: Annotated[float | None, PlainValidator(number(10, 3000, nothing=True))] = Field(
        None, description=N_("weight in grams per square metre")
    )
    bends_warp: Annotated[float | None, PlainValidator(measure(0.2, 20, nothing=True))] = Field(
        None, description=N_("bending length along the warp: half of what droops to 41.5° over an edge")
    )
    bends_weft: Annotated[float | None, PlainValidator(measure(0.2, 20, nothing=True))] = Field(
        None, description=N_("bending length along the weft; left out: as along the warp")
    )
    bends_bias: Annotated[float | None, PlainValidator(measure(0.2, 20, nothing=True))] = Field(
        None, description=N_("bending length on the bias; left out: from those along warp and weft")
    )
    gives_warp: Annotated[float | None, PlainValidator(number(0.02, 60, nothing=True))] = Field(
        None, description=N_("in 100, how much longer a strip 5 cm wide along the warp gets with 500 g hung on it")
    )
    gives_weft: Annotated[float | None, PlainValidator(number(0.02, 60, nothing=True))] = Field(
        None, description=N_("in 100, how much longer a strip 5 cm wide along the weft gets with 500 g hung on it")
    )
    thickness_mm: Annotated[float, PlainValidator(number(0.05, 30))] = Field(
        0.6, description=N_("thickness in mm, for what is worn over it")
    )
    price: Annotated[float | None, PlainValidator(number(0, 1e6, nothing=True))] = Field(
        None, description=N_("for a metre, or for a yard where the unit is in")
    )
    sold_by: Annotated[float | None, PlainValidator(measure(0.1, 10000, nothing=True))] = Field(
        None,
        description=N_("the step in length that the seller cuts to; left out: 10 cm, or 1/8 yd where the unit is in"),
    )
    straighten: Annotated[float, PlainValidator(measure(0, 50))] = Field(
        2.0, description=N_("bought for each end, to bring it square to the threads")
    )
    spare: Annotated[float, PlainValidator(length_or_part)] = Field(
        0.0, description=N_("bought over what is needed: a part of it below 1 (0.1 is a tenth), or a length")
    )
    faults: tuple[FaultTable, ...] = Field((), description=N_("holes and stains"))
    gap: Annotated[float, PlainValidator(measure(0, 10))] = Field(0.0, description=N_("left between any two pieces"))
    selvedge_edges: Annotated[bool, PlainValidator(yes_no)] = Field(
        False, description=N_("straight seam edges along the grain may lie in the selvedge")
    )
    repeat: RepeatTable | None = Field(None, description=N_("a stripe or check"))
    table: Annotated[float | None, PlainValidator(measure(30, 10000, nothing=True))] = Field(
        None, description=N_("the length of the table that it is cut on, where it is shorter than the cloth")
    )
    cut: Annotated[str, choice("free", "torn")] = Field(
        "free",
        description=N_("freely, or torn from edge to edge into blocks and only what is slanted cut with scissors"),
    )
    tears: Annotated[bool | None, PlainValidator(yes_no)] = Field(
        None,
        description=N_("whether it tears straight: plain-woven linen or cotton does, twill or fulled wool does not"),
    )
    pieces: Annotated[tuple[str, ...], PlainValidator(words(*CUTS))] = Field(
        (), description=N_("beside the main cloth: what is cut from this one")
    )
    tincture: Annotated[str | None, PlainValidator(word(*TINCTURES, nothing=True))] = Field(
        None,
        description=N_("its colour by its heraldic name: what is of that tincture in a divided field is cut from it"),
    )
