"""The commands about the maker's freedom: what a cloth gives, and what each structure and each range costs."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Final

import typer

from ellwand.cli.commands import AsJson, InUnit, SheetFile
from ellwand.cli.reading import named, read_sheet_file, unit_of
from ellwand.errors import BadInput
from ellwand.language import N_, _
from ellwand.units import decimal

if TYPE_CHECKING:
    from ellwand.choose import Sheet
    from ellwand.model.freedom import Aim, Stretched, TradeOff, Tried
    from ellwand.units import Unit

AIMS: Final[tuple[Aim, ...]] = ("longest", "fullest", "most")
STOPS: Final = (N_("least cloth"), N_("balanced"), N_("best bargain"), N_("fullest"))
"""The names of stops on the trade-off curve."""

For = Annotated[
    str | None,
    typer.Option("--for", help="longest, fullest or most; left out: all that apply", show_default=False),
]
Effort = Annotated[
    int, typer.Option(min=0, max=600, help="search so much longer where it is close; the same answer every time")
]
Into = Annotated[
    Path | None,
    typer.Option("--out", help="the folder to write the trade-off curve into", show_default=False),
]


def stretch(sheet: SheetFile, aim: For = None, effort: Effort = 0, as_json: AsJson = False, unit: InUnit = None) -> int:
    """The question turned round: the longest or fullest garment, or the most of them, from the cloth at hand."""
    from ellwand.plan.stretching import stretch as run

    if aim is not None and aim not in AIMS:
        raise BadInput("--for", _("{aim!r} is nothing to ask for", aim=aim), _("choose longest, fullest or most"))
    with named(sheet):
        read = read_sheet_file(sheet)
        shown = unit_of(unit) or ("in" if read.wearer.get("unit") == "in" else "cm")
        asked = [each for each in AIMS if each == aim or (aim is None and _applies(read, each))]
        found = [run(read, each, effort=effort) for each in asked]
    if as_json:
        print(json.dumps([_answer(each) for each in found], indent=1, ensure_ascii=False))
    else:
        print("\n".join(_said(each, shown) for each in found), end="")
    return 0


def freedom(sheet: SheetFile, out: Into = None, as_json: AsJson = False, unit: InUnit = None) -> int:
    """What the sheet leaves open: what each way to put the garment together saves, and what each cm of cloth buys."""
    from ellwand.plan.structures import best_structure, what_if
    from ellwand.plan.trading import trade_off

    with named(sheet):
        read = read_sheet_file(sheet)
        shown = unit_of(unit) or ("in" if read.wearer.get("unit") == "in" else "cm")
        tried, advice, curve = best_structure(read), what_if(read), trade_off(read)
    if as_json:
        print(json.dumps(_freedom(tried, advice, curve), indent=1, ensure_ascii=False))
    else:
        print("\n".join([*_ways(tried, shown), *_advice(tried, advice, shown), *_curve(curve, shown)]))
    if out is not None and curve is not None:
        from ellwand.cli.writing import write_files
        from ellwand.depict.trade_off import trade_off_drawing
        from ellwand.publish.svg import svg

        picture = svg(trade_off_drawing(curve, shown), 1.0, _("cloth against garment"))
        written = write_files({"trade-off.svg": picture.encode()}, out)
        print(_("Written into {folder}: {files}", folder=out, files=", ".join(written)))
    return 0


def _applies(sheet: Sheet, aim: Aim) -> bool:
    choices = sheet.choices
    return aim == "most" or (choices.other is None and (aim == "longest" or bool(choices.gores)))


def _said(found: Stretched, unit: Unit) -> str:
    from ellwand.depict.words.freedom import stretched_said

    first, *others = stretched_said(found, unit)
    return "\n".join([first, *(f"  {line}" for line in others)]) + "\n"


def _answer(found: Stretched) -> dict[str, Any]:
    return {
        "for": found.aim,
        "value": round(found.value, 3),
        "at_most": round(found.most, 3),
        "at_hand": round(found.at_hand, 3),
        "used": round(found.used, 3),
        "left": round(found.left, 3),
        "limit": found.limit,
        "next_needs": round(found.next_needs, 3),
        "length": round(found.garment.draft.dimensions.length, 3) if found.garment.choices.other is None else None,
        "gores": [{"place": where, "base": round(base, 3)} for where, base in found.bases],
        "changes": [each.code for each in found.changes],
    }


# --- freedom --------------------------------------------------------------------------------------------


def _ways(tried: Sequence[Tried], unit: Unit) -> list[str]:
    from ellwand.depict.words.freedom import changes_said
    from ellwand.units import format_length

    if not tried:
        return [_("No way to put it together lies on this cloth.")]
    lines = [_("Ways the sheet leaves open (laid at once; ellwand make searches on from the best):")]
    for each in tried[:6]:
        how = changes_said(each.way.changes, unit) or _("as plain as it can be")
        cloth, seams = f"{format_length(each.length, unit):>10}", _long(each.seams, unit)
        lines.append(f"  {_('{cloth} of cloth, {seams} of seams: {how}', cloth=cloth, seams=seams, how=how)}")
    return lines


def _advice(tried: Sequence[Tried], advice: Sequence[Tried], unit: Unit) -> list[str]:
    from ellwand.depict.words.freedom import changes_said, to_write
    from ellwand.units import format_length

    plain = next((each for each in tried if not each.way.changes), None)
    if plain is None or not advice:
        return []
    lines = [
        "",
        _("What the sheet settles, and what it would save to settle it otherwise (the same garment when sewn):"),
    ]
    for each in advice[:5]:
        saved = f"{format_length(plain.length - each.length, unit):>10}"
        said = _("{saved} less with {changes}", saved=saved, changes=changes_said(each.way.changes, unit))
        lines.append(f"  {said}")
        lines.append(f"  {'':>10} ({to_write(each.way.changes, unit)})")
    return lines


def _curve(curve: TradeOff | None, unit: Unit) -> list[str]:
    from ellwand.units import format_length

    if curve is None or not curve.points:
        return []
    names = {i: name for name, i in curve.stops}
    lines = ["", _("Within the ranges given, cloth against garment:")]
    for i, point in enumerate(curve.points):
        settings = ", ".join(
            f"{path.removeprefix('garment.')} {format_length(cm, unit)}" for path, cm in point.settings
        )
        said = _(
            "{cloth}: length {length}, hem {hem}, {area} ({settings})",
            cloth=f"{format_length(point.cloth, unit):>10}",
            length=format_length(point.length, unit),
            hem=format_length(point.sweep, unit),
            area=_area(point.area, unit),
            settings=settings,
        )
        lines.append(f"  {said}" + (f"  <- {_(names[i])}" if i in names else ""))
    if len(curve.points) == 1:
        lines.append(f"  {_('Nothing in these ranges takes less cloth than that: take the fullest.')}")
    return lines


def _long(cm: float, unit: Unit) -> str:
    return f"{decimal(cm / 100, 1)} m" if unit == "cm" else f"{decimal(cm / 91.44, 1)} yd"


def _area(cm2: float, unit: Unit) -> str:
    if unit == "cm":
        return f"{decimal(cm2 / 1e4, 2)} m²"
    return _("{area} sq yd", area=decimal(cm2 / 91.44**2, 2))


def _freedom(tried: Sequence[Tried], advice: Sequence[Tried], curve: TradeOff | None) -> dict[str, Any]:
    def way(each: Tried) -> dict[str, Any]:
        changes = [{"change": c.code, "where": c.where, "cm": c.cm} for c in each.way.changes]
        return {"changes": changes, "cloth": round(each.length, 3), "seams": round(each.seams, 1), "area": each.area}

    names = {i: name for name, i in curve.stops} if curve else {}
    points = curve.points if curve else ()
    return {
        "ways": [way(each) for each in tried],
        "what_if": [way(each) for each in advice],
        "trade_off": [
            {
                "cloth": round(point.cloth, 3),
                "area": round(point.area, 1),
                "sweep": round(point.sweep, 2),
                "length": round(point.length, 2),
                "settings": dict(point.settings),
                "stop": names.get(i),
            }
            for i, point in enumerate(points)
        ],
    }
