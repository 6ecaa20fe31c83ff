"""Garments that are not cut as a tunic is; each has a table of its own."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Protocol

from pydantic import Field, PlainValidator

from ellwand.choose.fields import measure
from ellwand.choose.options.table import Table, choice
from ellwand.errors import BadInput
from ellwand.language import N_, _
from ellwand.model.others import KINDS, Apron, Breeches, Cloak, Coif, Hood, Other

LOW = ("knee", "mid-calf", "ankle")
COMMON = ("style", "layer", "over", "date", "region", "bands")
"""What every garment may be told, whatever its cut."""


class HoodTable(Table):
    """[garment.hood]: style hood."""

    gores: Annotated[str, choice("squares", "shoulder", "none")] = Field(
        "squares",
        description=N_(
            "what widens it below the neck: squares set on the corner in front and behind, a gore on each"
            " shoulder, or nothing"
        ),
    )
    cut: Annotated[str, choice("folded", "halves")] = Field(
        "folded", description=N_("both sides in one length over the crown, or two with a seam there")
    )
    cape: Annotated[float, PlainValidator(measure(3, 60))] = Field(
        25.0, description=N_("how far it hangs below the neck")
    )
    gore: Annotated[float | None, PlainValidator(measure(4, 80, nothing=True))] = Field(
        None,
        description=N_(
            "side of a square, or width of a shoulder gore along the hem; left out: as long as the cape, or as"
            " wide as the shoulders ask"
        ),
    )
    ease: Annotated[float, PlainValidator(measure(0, 30))] = Field(
        2.0, description=N_("added to the head's girth, which passes the closed neck")
    )
    liripipe: Annotated[float, PlainValidator(measure(0, 200))] = Field(
        0.0, description=N_("length of the tail at the back of the crown; 0: none")
    )
    liripipe_width: Annotated[float, PlainValidator(measure(1.5, 15))] = Field(
        4.0, description=N_("width of the sewn tail")
    )


class CloakTable(Table):
    """[garment.cloak]: style cloak."""

    shape: Annotated[str, choice("rectangle", "semicircle", "three-quarter")] = Field(
        "semicircle", description=N_("a rectangle, half a circle or three quarters of one")
    )
    length: Annotated[
        str | float, PlainValidator(measure(30, 200, "hip", "mid-thigh", "knee", "mid-calf", "ankle", "floor"))
    ] = Field("mid-calf", description=N_("from the nape down: a landmark or a length"))
    neck: Annotated[str, choice("cut", "straight")] = Field(
        "cut", description=N_("cut out to the neck's girth, or a straight edge (a rectangle's is always straight)")
    )
    width: Annotated[float | None, PlainValidator(measure(60, 500, nothing=True))] = Field(
        None, description=N_("of a rectangle, round the body; left out: twice its length")
    )
    strips: Annotated[str, choice("auto", "never")] = Field(
        "auto", description=N_("pieced from strips where the cloth is too narrow, or never")
    )


class CoifTable(Table):
    """[garment.coif]: style coif."""

    cut: Annotated[str, choice("halves", "band")] = Field(
        "halves", description=N_("two halves, or two sides and a band between them")
    )
    ease: Annotated[float, PlainValidator(measure(0, 15))] = Field(2.0, description=N_("added to the head's girth"))


class ApronTable(Table):
    """[garment.apron]: style apron."""

    top: Annotated[str, choice("gathered", "plain")] = Field(
        "gathered", description=N_("gathered to a band with ties, or a plain rectangle with ties")
    )
    length: Annotated[str | float, PlainValidator(measure(20, 140, *LOW))] = Field(
        "mid-calf", description=N_("from the waist down: a landmark or a length")
    )
    width: Annotated[float | None, PlainValidator(measure(20, 300, nothing=True))] = Field(
        None, description=N_("left out: twice the band, or 0.6 of the hip's girth")
    )


class BreechesTable(Table):
    """[garment.breeches]: style breeches."""

    length: Annotated[str | float, PlainValidator(measure(35, 140, *LOW))] = Field(
        "mid-calf", description=N_("from the waist down: a landmark or a length")
    )
    ease: Annotated[float, PlainValidator(measure(0, 80))] = Field(16.0, description=N_("added to the hip's girth"))
    gusset: Annotated[float, PlainValidator(measure(0, 30))] = Field(
        12.0, description=N_("side of the square between the legs; 0: none")
    )
    hem: Annotated[float | None, PlainValidator(measure(20, 200, nothing=True))] = Field(
        None, description=N_("girth of each leg at its hem; left out: as wide as above")
    )
    waist: Annotated[str, choice("casing", "band")] = Field(
        "casing", description=N_("turned down for a cord, or gathered to a band with a slit in front")
    )


class _Chosen(Protocol):
    @property
    def hood(self) -> HoodTable | None: ...
    @property
    def cloak(self) -> CloakTable | None: ...
    @property
    def coif(self) -> CoifTable | None: ...
    @property
    def apron(self) -> ApronTable | None: ...
    @property
    def breeches(self) -> BreechesTable | None: ...


def other_of(chosen: _Chosen, strip: float) -> Other | None:
    """The garment of its own cut that was chosen, or None. ``strip``: the widest strip (cm) of the cloth."""
    if chosen.cloak is not None:
        values = chosen.cloak.model_dump(exclude={"strips"})
        return Cloak(**values, strip=strip if chosen.cloak.strips == "auto" else None)
    makes: tuple[tuple[Table | None, type[Hood | Coif | Apron | Breeches]], ...] = (
        (chosen.hood, Hood),
        (chosen.coif, Coif),
        (chosen.apron, Apron),
        (chosen.breeches, Breeches),
    )
    return next((make(**table.model_dump()) for table, make in makes if table is not None), None)


def refuse_strangers(style: str, garment: Mapping[str, Any]) -> None:
    """Choices that make no sense for this style.

    Raises BadInput naming the first of them.
    """
    for key in garment:
        if style in KINDS and key in KINDS and key != style:
            raise BadInput(f"garment.{key}", _("this is no {key} but {style}", key=key, style=style), _("leave it out"))
        if style in KINDS and key not in (*COMMON, *KINDS):
            raise BadInput(
                f"garment.{key[:60]}",
                _("style {style!r} has no such choice", style=style),
                _("leave it out; see [garment.{style}]", style=style),
            )
        if style not in KINDS and key in KINDS:
            raise BadInput(
                f"garment.{key}",
                _("style {style!r} is no {key}", style=style, key=key),
                _('choose style = "{key}", or leave it out', key=key),
            )
