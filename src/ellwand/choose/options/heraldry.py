"""The divided field, and what is set on it."""

from __future__ import annotations

from typing import Annotated, Any, Final, get_args

from pydantic import Field, PlainValidator, ValidationInfo

from ellwand.choose.fields import Takes, measure, nearest, quoted, taking, whole, word, words
from ellwand.choose.fields import number as a_number
from ellwand.choose.options.table import Table, choice
from ellwand.errors import BadInput
from ellwand.language import N_, _
from ellwand.model.heraldry import PLAIN_CHARGES, DivisionLevel, FieldPoint, Ordinary, Partition, Tincture
from ellwand.model.motif import Motif
from ellwand.model.repeat import MOTIFS

TINCTURES: Final = get_args(Tincture)
MAY_BE_CHARGES: Final = tuple(dict.fromkeys((*PLAIN_CHARGES, *MOTIFS)))


def charge_named(value: Any, info: ValidationInfo) -> str | Motif | None:
    """Reads the name of a charge; a drawing that was read from its file stays as it is."""
    if value is None or isinstance(value, Motif) or (isinstance(value, str) and value in MAY_BE_CHARGES):
        return value
    if not isinstance(value, str):
        raise BadInput(
            "", _("{value!r} is not a charge", value=str(value)[:40]), _('name one, as in motif = "roundel"')
        )
    raise BadInput(
        "",
        _("{value!r} is none of our charges", value=value[:60]),
        _("{nearest}, or name an SVG file", nearest=nearest(value, MAY_BE_CHARGES)),
    )


taking(charge_named, Takes("word", quoted(MAY_BE_CHARGES) + ", or an SVG file", MAY_BE_CHARGES, nothing=True))


class DivisionTable(Table):
    """[garment.division]: the garment's field divided between cloths of several tinctures."""

    by: Annotated[str, choice(*get_args(Partition))] = Field(
        ..., description=N_("how it is divided, front and back alike; dexter is the wearer's right")
    )
    tinctures: Annotated[tuple[str, ...], PlainValidator(words(*TINCTURES))] = Field(
        ...,
        description=N_("two, the first in the dexter chief or in chief; or four of a field quarterly or per saltire"),
    )
    count: Annotated[int | None, PlainValidator(whole(3, 24, nothing=True))] = Field(
        None, description=N_("how many stripes, gyrons, or columns of checks or lozenges; left out: 6, or 8 gyrons")
    )
    at: Annotated[str | float | None, PlainValidator(measure(5, 400, *get_args(DivisionLevel), nothing=True))] = Field(
        None,
        description=N_(
            "where a level line or the point of a chevron lies: a level of the body, or its height above the"
            " hem; left out: half way up, or two thirds for a chevron"
        ),
    )


class ChargeTable(Table):
    """[[garment.charges]]: an ordinary or a motif that is sewn on to the front or back; later ones lie over earlier."""

    ordinary: Annotated[str | None, PlainValidator(word(*get_args(Ordinary), nothing=True))] = Field(
        None, description=N_("a plain shape across the field; or give a motif")
    )
    motif: Annotated[str | Motif | None, PlainValidator(charge_named)] = Field(
        None,
        description=N_("a shape of ours, or your own drawing in an SVG file beside the sheet; or give an ordinary"),
    )
    tincture: Annotated[str, choice(*TINCTURES)] = Field(..., description=N_("its colour, by its heraldic name"))
    on: Annotated[str, choice("front", "back", "both")] = Field("front", description=N_("where it is sewn on"))
    width: Annotated[float | None, PlainValidator(a_number(0.03, 0.9, nothing=True))] = Field(
        None,
        description=N_(
            "of an ordinary: its share of the field's height (chief, fess) or width (all others); left out: as"
            " the manuals have it, a third or a fifth"
        ),
    )
    size: Annotated[float | None, PlainValidator(a_number(0.03, 0.9, nothing=True))] = Field(
        None, description=N_("of a motif: its height as a share of the field's; left out: as large as sits well")
    )
    place: Annotated[str, choice(*get_args(FieldPoint))] = Field(
        "fess point", description=N_("where a single motif sits; dexter is the wearer's right")
    )
    number: Annotated[int, PlainValidator(whole(1, 6))] = Field(
        1, description=N_("how many of a motif: 2 one above the other, 3 two and one, 4, 5 or 6 (three, two and one)")
    )
