"""A sheet's text to a wearer's table, choices and cloths."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from ellwand.choose.bill import read_prices
from ellwand.choose.cloths import read_cloths
from ellwand.choose.drawings import ReadDrawing, no_drawings, with_drawings
from ellwand.choose.fields import nearest, one_of
from ellwand.choose.heraldry import charges_of, division_of, with_tinctures
from ellwand.choose.options.bands import band_choices
from ellwand.choose.options.cloth import SewingTable
from ellwand.choose.options.garment import GarmentTable
from ellwand.choose.options.others import other_of, refuse_strangers
from ellwand.choose.options.repeats import repeat_choices
from ellwand.choose.styles import STYLES
from ellwand.choose.validated import table_of, validated
from ellwand.errors import BadInput
from ellwand.language import _, known, speaking_unless_chosen
from ellwand.model.choices import (
    Body,
    Choices,
    Closure,
    Gore,
    Growth,
    Neck,
    Sewing,
    Sleeve,
    Split,
    Timed,
)
from ellwand.model.cloth import Cloth, width_on_table
from ellwand.model.cost import Prices
from ellwand.units import Unit

LARGEST: Final = 1_000_000
"""No honest sheet is longer (bytes)."""
TABLES: Final = ("wearer", "garment", "sewing", "cloth", "prices")


@dataclass(frozen=True, slots=True)
class Sheet:
    """What a sheet says. ``wearer`` is still the raw table; everything else is settled as far as it can be.

    ``beneath``: the sheets of what is worn under it, the innermost first; ``language``: of everything that is written,
    None where the sheet does not say.
    """

    wearer: Mapping[str, object]
    choices: Choices
    cloths: tuple[Cloth, ...]
    beneath: tuple[Sheet, ...] = ()
    language: str | None = None
    prices: Prices | None = None

    @property
    def cloth(self) -> Cloth:
        """The main one."""
        return self.cloths[0]


Beneath = Callable[[str], float]
"""From the name of a sheet worn beneath to its thickness in mm, all it is worn over included."""


def read_sheet(data: bytes, beneath: Beneath, drawing: ReadDrawing = no_drawings) -> Sheet:
    """Read a sheet (TOML, UTF-8); ``drawing`` gives the text of an SVG file that it names.

    Raises BadInput with one sentence: where, what is wrong, what would do.
    """
    return read_tables(sheet_tables(data), beneath, drawing)


def read_tables(given: Mapping[str, Any], beneath: Beneath, drawing: ReadDrawing = no_drawings) -> Sheet:
    """The same of the tables of a sheet; [picture], which remembers where its choices come from, changes nothing.

    Raises BadInput with one sentence: where, what is wrong, what would do.
    """
    tables = dict(given)
    table_of({"picture": {}, **tables}, "picture")
    tables.pop("picture", None)
    for key in tables:
        if key not in (*TABLES, "language"):
            raise BadInput(key[:60], _("no such table"), nearest(key, TABLES))
    spoken = tables.pop("language", None)
    if spoken is not None and not isinstance(spoken, str):
        raise BadInput("language", _("this should be a word"), _('write it as in language = "de"'))
    with speaking_unless_chosen(None if spoken is None else known(spoken)):
        return replace(_settled(tables, beneath, drawing), language=spoken)


def _settled(tables: Mapping[str, Any], beneath: Beneath, drawing: ReadDrawing) -> Sheet:
    """The sheet of these tables."""
    wearer = table_of(tables, "wearer", _("give at least height and bust_girth"))
    unit: Unit = "in" if wearer.get("unit") == "in" else "cm"
    garment = _with_style(table_of(tables, "garment") if "garment" in tables else {})
    garment = {**garment, "over": _over(garment.get("over", []), beneath)}
    garment = with_drawings(garment, drawing)
    chosen = validated(GarmentTable, garment, "garment", unit)
    sewing = validated(SewingTable, table_of(tables, "sewing") if "sewing" in tables else {}, "sewing", unit)
    cloths = read_cloths(tables)
    choices = replace(
        _choices(chosen, sewing, unit), other=other_of(chosen, width_on_table(cloths[0]) - 2 * cloths[0].selvedge)
    )
    cloths = with_tinctures(cloths, choices.division, [charge.tincture for charge in choices.charges])
    prices = read_prices(tables, unit)
    return Sheet(wearer, choices, cloths, prices=prices)


def sheet_tables(data: bytes) -> dict[str, Any]:
    """The tables of a sheet as they are written.

    Raises BadInput with one sentence where it is none.
    """
    if len(data) > LARGEST:
        raise BadInput("", _("the file is too large for a sheet"), _("a sheet is a short text of a few tables"))
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise BadInput("", _("this is not a text file in UTF-8"), _("save the sheet as plain text")) from None
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadInput(
            "", _("the sheet cannot be read: {error}", error=str(error).rstrip(".")), _("mend that line")
        ) from None
    except RecursionError:
        raise BadInput("", _("the sheet is nested too deeply"), _("a sheet is a short text of a few tables")) from None
    return tables


def _with_style(garment: dict[str, Any]) -> dict[str, Any]:
    style = garment.get("style", "tunic")
    if not isinstance(style, str) or style not in STYLES:
        hint = nearest(style, STYLES) if isinstance(style, str) else _("choose one of {names}", names=one_of(STYLES))
        raise BadInput("garment.style", _("{style!r} is not a style", style=style), hint)
    refuse_strangers(style, garment)
    out: dict[str, Any] = {**STYLES[style], "style": style}
    if "sleeve" in garment and isinstance(garment["sleeve"], dict) and "closures" not in garment:
        # a style's closures belong to its own sleeve
        out.pop("closures", None)
    for key, value in garment.items():
        base = out.get(key)
        out[key] = {**base, **value} if isinstance(base, dict) and isinstance(value, dict) else value
    return out


def _over(over: Any, beneath: Beneath) -> Any:
    """The list of what is worn beneath, sheets turned into their thickness."""
    if not isinstance(over, list):
        return over
    return [{"thickness_mm": beneath(entry)} if isinstance(entry, str) else entry for entry in over]


def _choices(table: GarmentTable, sewing: SewingTable, unit: Unit) -> Choices:
    inches = unit == "in"
    usual = (
        {"allowance": 1.5875, "hem": 3.175, "chalk": 0.635} if inches else {"allowance": 1.5, "hem": 3.0, "chalk": 0.5}
    )
    given = {key: value for key, value in sewing.model_dump().items() if value is not None}
    timed = None if sewing.timed is None else Timed(**sewing.timed.model_dump())
    return Choices(
        style=table.style,
        layer=table.layer,  # type: ignore[arg-type]
        length=table.length,  # type: ignore[arg-type]
        take=table.take,  # type: ignore[arg-type]
        blouse=table.blouse,
        belt=table.belt,
        train=table.train,
        body=Body(**table.body.model_dump()),
        gores=tuple(Gore(**dict(gore)) for gore in table.gores),
        sleeve=Sleeve(**table.sleeve.model_dump()),
        neck=Neck(**table.neck.model_dump()),
        splits=tuple(Split(**split.model_dump()) for split in table.splits),
        closures=tuple(Closure(**closure.model_dump()) for closure in table.closures),
        repeats=repeat_choices(table.repeats),
        division=division_of(table.division),
        bands=band_choices(table.bands),
        charges=charges_of(table.charges),
        growth=None if table.growth is None else Growth(**table.growth.model_dump()),
        sewing=Sewing(**{**usual, **given, "timed": timed}),
        beneath_mm=sum(each.thickness_mm for each in table.over),
        date=None if table.date is None else int(table.date),
        region=table.region,
    )
