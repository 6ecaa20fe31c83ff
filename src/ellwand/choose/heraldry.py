"""[garment.division]: what its options say together, and the cloths that its tinctures are cut from."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from ellwand.choose.options.heraldry import ChargeTable, DivisionTable
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.model.cloth import Cloth
from ellwand.model.heraldry import IN_FOUR, LEVELLED, USUAL_COUNT, ChargeChoice, Division, Tincture
from ellwand.model.motif import Motif

EVEN = ("gyronny", "paly", "barry", "bendy")


def charges_of(tables: Iterable[ChargeTable]) -> tuple[ChargeChoice, ...]:
    """The charges as chosen."""
    out = []
    for table in tables:
        given = dict(table)
        drawn = given.pop("motif")
        own = drawn if isinstance(drawn, Motif) else None
        out.append(ChargeChoice(**given, motif=drawn if own is None else own.name, drawn=own))
    return tuple(out)


def division_of(table: DivisionTable | None) -> Division | None:
    """The division as chosen.

    Raises BadInput where an option means nothing beside the others.
    """
    if table is None:
        return None
    by, count, at = table.by, table.count, table.at
    wanted = (2, 4) if by in IN_FOUR else (2,)
    if len(table.tinctures) not in wanted:
        told = {"by": by, "wanted": _("2 or 4") if by in IN_FOUR else "2"}
        problem = {
            0: _("{by} takes {wanted} different tinctures, and there are none", **told),
            1: _("{by} takes {wanted} different tinctures, and there is one", **told),
        }.get(
            given := len(table.tinctures),
            _("{by} takes {wanted} different tinctures, and there are {given}", given=given, **told),
        )
        raise BadInput("garment.division.tinctures", problem, _('write them as in tinctures = ["gules", "or"]'))
    if count is not None and by not in USUAL_COUNT:
        raise BadInput("garment.division.count", _("a field {by} is not counted", by=by), _("leave it out"))
    if count is not None and by in EVEN and (count % 2 or count < 4):
        raise BadInput(
            "garment.division.count",
            _("a field {by} is of an even number, 4 or more", by=by),
            _("choose {count}", count=_even(count)),
        )
    if at is not None and by not in LEVELLED:
        raise BadInput("garment.division.at", _("a field {by} has no level line", by=by), _("leave it out"))
    return Division(by, table.tinctures, count or 0, at)  # type: ignore[arg-type]


def _even(count: int) -> int:
    return max(4, count + count % 2)


def with_tinctures(
    cloths: tuple[Cloth, ...], division: Division | None, others: Iterable[Tincture]
) -> tuple[Cloth, ...]:
    """The cloths, and one for each tincture that none is of: like the main one, and still to be bought.

    Of a divided field the first tincture is cut from the main cloth, unless that is of another.
    ``others``: the tinctures of what is sewn on.
    """
    tinctures = () if division is None else division.tinctures
    main, *rest = cloths
    if tinctures and not main.tincture and not any(cloth.tincture == tinctures[0] for cloth in rest):
        main = replace(main, tincture=tinctures[0])
    out = [main, *rest]
    for tincture in (*tinctures, *others):
        if not any(cloth.tincture == tincture and not cloth.cuts for cloth in out):
            name = _unused(tincture, out)
            out.append(
                replace(main, name=name, tincture=tincture, cuts=(), length=None, remnants=(), faults=(), repeat=None)
            )
    return tuple(out)


def _unused(name: str, cloths: Iterable[Cloth]) -> str:
    taken = {cloth.name for cloth in cloths}
    return name if name not in taken else f"{name} cloth"
