"""Sewing, and the cloth."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, PlainValidator

from ellwand.choose.fields import measure, number, yes_no
from ellwand.choose.options.table import Table, choice

FINISHES = ("plain", "run and fell", "french", "overcast")


class SewingTable(Table):
    """[sewing]: allowances and finish."""

    allowance: Annotated[float | None, PlainValidator(measure(0, 5, nothing=True))] = Field(
        None, description="seam allowance; left out: 1.5 cm, or 5/8 in"
    )
    hem: Annotated[float | None, PlainValidator(measure(0, 20, nothing=True))] = Field(
        None, description="hem allowance; left out: 3 cm, or 1 1/4 in"
    )
    finish: Annotated[str, choice(*FINISHES)] = Field("run and fell", description="how seams are finished")
    by: Annotated[str, choice("hand", "machine")] = Field("hand", description="how it is sewn")
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

    unit: Annotated[str, choice("cm", "in")] = Field("cm", description="the unit of plain numbers in this table")
    width: Annotated[float, PlainValidator(measure(15, 1000))] = Field(..., description="from selvedge to selvedge")
    length: Annotated[str | float, PlainValidator(measure(10, 100000, "at need"))] = Field(
        "at need", description="all there is, or at need: still to be bought"
    )
    selvedge: Annotated[float, PlainValidator(measure(0, 20))] = Field(1.0, description="lost along each selvedge")
    nap: Annotated[bool, PlainValidator(yes_no)] = Field(
        False, description="a pile or one-way pattern: every piece lies the same way up"
    )
    reversible: Annotated[bool, PlainValidator(yes_no)] = Field(True, description="both faces alike")
    crosswise: Annotated[str, choice("never", "small pieces", "any")] = Field(
        "small pieces", description="which pieces may lie across the grain"
    )
    fold: Annotated[str, choice("flat", "lengthwise", "crosswise", "either")] = Field(
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
