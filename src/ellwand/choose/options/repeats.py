"""Motifs that repeat along the garment's lines."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Any, Final

from pydantic import Field, PlainValidator, ValidationInfo

from ellwand.choose.fields import Takes, measure, nearest, quoted, taking, text, yes_no
from ellwand.choose.options.table import Table, choice
from ellwand.errors import BadInput
from ellwand.language import N_, _
from ellwand.model.choices import Span
from ellwand.model.motif import Motif
from ellwand.model.repeat import MOTIFS, PLACES, REPEATED_BY, RINGS, RepeatChoice

USUAL_SIZE: Final = (5.0, 7.0)


def motif_named(value: Any, info: ValidationInfo) -> str | Motif:
    """Reads the name of one of our motifs; a drawing that was read from its file stays as it is."""
    if isinstance(value, Motif) or (isinstance(value, str) and value in MOTIFS):
        return value
    if not isinstance(value, str):
        raise BadInput("", _("{value!r} is not a motif", value=str(value)[:40]), _('name one, as in motif = "roundel"'))
    raise BadInput(
        "",
        _("{value!r} is none of the motifs", value=value[:60]),
        _("{nearest}, or name an SVG file", nearest=nearest(value, MOTIFS)),
    )


taking(motif_named, Takes("word", quoted(MOTIFS) + ", or an SVG file", MOTIFS))


class RepeatTable(Table):
    """[[garment.repeats]]: a motif that repeats along a line of the garment."""

    motif: Annotated[str | Motif, PlainValidator(motif_named)] = Field(
        ..., description=N_("one of ours, or your own drawing: an SVG file beside the sheet, its name ending in .svg")
    )
    along: Annotated[str, choice(*PLACES)] = Field(
        ...,
        description=N_("which line; the rings need a height: above the hem, above the cuff, below the shoulder point"),
    )
    height: Annotated[float | None, PlainValidator(measure(0.5, 200, nothing=True))] = Field(
        None, description=N_("how far the middle of a ring's motifs lies from hem, cuff or shoulder point")
    )
    size: Annotated[float | Span | None, PlainValidator(measure(0.5, 60, span=True, nothing=True))] = Field(
        None, description=N_("how wide a motif is along the line; left out: 5 cm to 7 cm, whichever comes out even")
    )
    gap: Annotated[float | Span | None, PlainValidator(measure(0, 100, span=True, nothing=True))] = Field(
        None,
        description=N_(
            "from one to the next; left out: none for chevron, key and vine-scroll, which join, for others a"
            " quarter of the size to the whole of it"
        ),
    )
    inset: Annotated[float, PlainValidator(measure(0, 60))] = Field(
        1.0, description=N_("from the edge to the motif; rings and lines inside the cloth have none")
    )
    by: Annotated[str, choice(*REPEATED_BY)] = Field("stencil", description=N_("how it is put on"))
    colour: Annotated[str | None, PlainValidator(text)] = Field(None, description=N_("its colour, in your own word"))
    clear_of_seams: Annotated[bool, PlainValidator(yes_no)] = Field(
        False, description=N_("no motif lies across a seam, so that each can be put on before the pieces are sewn")
    )
    mirrored: Annotated[bool, PlainValidator(yes_no)] = Field(
        False,
        description=N_("the wearer's right half mirrors the left, from the middle of the front to that of the back"),
    )
    corners: Annotated[bool, PlainValidator(yes_no)] = Field(
        True, description=N_("where the line turns a square corner, a motif of its own stands there")
    )


def repeat_choices(tables: Sequence[RepeatTable]) -> tuple[RepeatChoice, ...]:
    """The repeats as they are chosen.

    Raises BadInput where a ring has no height, or another line has one.
    """
    out = []
    for i, table in enumerate(tables):
        if (table.along in RINGS) != (table.height is not None):
            where = f"garment.repeats[{i + 1}].height"
            if table.along in RINGS:
                raise BadInput(where, _("{along} needs one", along=table.along), _("give a height, as in height = 20"))
            raise BadInput(where, _("{along} has none", along=table.along), _("leave it out"))
        drawn = table.motif if isinstance(table.motif, Motif) else None
        out.append(
            RepeatChoice(
                motif=table.motif if isinstance(table.motif, str) else table.motif.name,
                along=table.along,
                height=table.height,
                size=_range(table.size) or USUAL_SIZE,
                gap=_range(table.gap),
                inset=table.inset,
                by=table.by,  # type: ignore[arg-type]
                colour=table.colour or "",
                clear_of_seams=table.clear_of_seams,
                mirrored=table.mirrored,
                corners=table.corners,
                drawn=drawn,
            )
        )
    return tuple(out)


def _range(value: float | Span | None) -> tuple[float, float] | None:
    if value is None:
        return None
    return (value.low, value.high) if isinstance(value, Span) else (value, value)
