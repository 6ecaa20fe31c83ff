"""A company's report in tables: who needs a look, what is bought, the work, the shared lengths, and sizes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from ellwand.depict.words.lays import cloth_named
from ellwand.language import N_, _, plural
from ellwand.model.company import Company, Done, Need, Shared, Stage
from ellwand.model.names import named
from ellwand.model.table import Table
from ellwand.units import CM_PER, Unit, decimal, format_length

STAGES: Final[dict[Stage, str]] = {
    "seams": N_("seams: joining the pieces"),
    "adornment": N_("bands, motifs and charges"),
    "edges": N_("edges, hems and facings"),
    "closures": N_("closures"),
}
STEPS: Final = {
    "laid": N_("{length} for the lays"),
    "straightening": N_("{length} to straighten both ends"),
    "spare": N_("{length} to spare"),
    "shrinkage": N_("{length} that washing takes off"),
    "rounding": N_("{length} because of how it is sold"),
}


def tables(company: Company) -> tuple[Table, ...]:
    """All that are not empty, in the order in which they are wanted."""
    every = (looks(company), order(company), work(company), lays(company), sizes(company), everyone(company))
    return tuple(table for table in every if table.rows)


def looks(company: Company) -> Table:
    """Who needs a look before anything is cut, and why: what cannot be cut, what will not work, what to look at."""
    rows = [row for number, done in sorted(company.done.items()) for row in _looks(number, done)]
    rows.sort(key=lambda row: row[0])
    head = (_("no."), _("name"), _("garment"), _("why"), _("what would do"))
    return Table(_("Look at these before you cut"), head, tuple(row for _rank, row in rows))


def _looks(number: int, done: Done) -> Iterator[tuple[int, tuple[str, ...]]]:
    who = (str(number), done.name, named(done.garment))
    if done.trouble:
        yield 0, (*who, _("cannot be cut: {why}", why=done.trouble), "")
    for each in done.said:
        rank = 1 if each.outcome == "will not work" else 2
        yield rank, (*who, f"{_(each.outcome)}: {each.why}", each.mend)


def order(company: Company) -> Table:
    """What is bought for all together, and how that is made up."""
    unit, money = company.order.unit, any(need.cost is not None for need in company.order.needs)
    behind = f" {company.order.currency}" if company.order.currency else ""
    rows = []
    for need in company.order.needs:
        cost = "" if need.cost is None else f"{decimal(need.cost, 2)}{behind}"
        rows.append((need_named(need, unit), amount_said(need, unit), made_up(need, unit), *([cost] if money else [])))
    if money:
        total = math.fsum(need.cost for need in company.order.needs if need.cost is not None)
        rows.append((_("in all, as far as prices are known"), "", "", f"{decimal(total, 2)}{behind}"))
    head = (_("what"), _("how much"), _("made up of"), *([_("cost")] if money else []))
    return Table(_("One order"), head, tuple(rows))


def need_named(need: Need, unit: Unit) -> str:
    """What it is; of a cloth its name, colour and width."""
    if need.cloth is None:
        return _(need.what)
    name = _("cloth") if need.cloth.name == "main" else _("{cloth} cloth", cloth=cloth_named(need.cloth.name))
    width = _("{width} wide", width=format_length(need.cloth.width, unit))
    return ", ".join(part for part in (name, need.colour, width) if part)


def amount_said(need: Need, unit: Unit) -> str:
    """So much of it."""
    if need.unit == "cm":
        return bought_length(need.amount, unit)
    if not need.unit:
        return f"{need.amount:.0f}"
    much, named_so = (need.amount, "m") if unit == "cm" else (need.amount * CM_PER["m"] / CM_PER["yd"], "yd")
    much = math.ceil(much * 10 - 1e-6) / 10
    return f"{decimal(much, 0 if much == round(much) else 1)}\u00a0{named_so}"


def bought_length(cm: float, unit: Unit) -> str:
    """A length of cloth as it is asked for: '22.4 m', '24 3/8 yd'."""
    if unit == "cm":
        return f"{decimal(cm / CM_PER['m'], 2).rstrip('0').rstrip('.,')}\u00a0m"
    return f"{format_length(cm / CM_PER['yd'] * CM_PER['in'], 'in', mark=False)}\u00a0yd"


def made_up(need: Need, unit: Unit) -> str:
    """What makes up the length of a cloth; and what is missing where there is not enough at hand."""
    least = 0.05 if unit == "cm" else 0.16
    said = [_(STEPS[what], length=format_length(cm, unit)) for what, cm in need.parts if cm >= least]
    if need.cloth is not None and need.cloth.length is not None:
        here = {"whole": format_length(need.cloth.length, unit)}
        missing = need.amount - need.cloth.length
        if missing > 0:
            said.append(_("{whole} are at hand: {missing} too little", missing=format_length(missing, unit), **here))
        else:
            said.append(_("{whole} are at hand", **here))
    return ", ".join(said)


def work(company: Company) -> Table:
    """Hours of sewing by stage, and how long the crew is at it."""
    told = company.order
    rows = [(_(STAGES[each.stage]), *_hours(each.hours)) for each in told.work]
    if rows:
        low = math.fsum(each.hours[0] for each in told.work)
        high = math.fsum(each.hours[1] for each in told.work)
        rows.append((_("all sewing"), *_hours((low, high))))
        crew = plural("until all is sewn by {n} pair of hands", "until all is sewn by {n} pairs of hands", told.crew)
        rows.append((crew, *_hours(told.days)))
    return Table(_("Hours of work"), (_("stage"), _("a quick hand"), _("one new to it")), tuple(rows))


def _hours(hours: tuple[float, float]) -> tuple[str, str]:
    low, high = (f"{each:.0f}" if each >= 10 else decimal(each, 1) for each in hours)
    return f"{low}\u00a0h", f"{high}\u00a0h"


def lays(company: Company) -> Table:
    """The lengths of cloth that several garments are cut from together, and what that saves."""
    unit = company.order.unit
    rows = [_lay(each, unit) for each in company.shared if each.pieces]
    if rows:
        alone, takes = saved(company)
        rows.append(
            (
                _("all"),
                "",
                "",
                "",
                format_length(takes, unit),
                format_length(alone, unit),
                _("{share}%", share=decimal(100 * (1 - takes / alone), 1)),
                "",
            )
        )
    head = (
        _("lay no."),
        _("cloth"),
        _("garments"),
        _("layers"),
        _("length"),
        _("laid one by one"),
        _("saved"),
        _("used"),
    )
    return Table(_("Cut together"), head, tuple(rows))


def saved(company: Company) -> tuple[float, float]:
    """The cloth that all garments take one by one, and together (cm); torn cloth aside."""
    return math.fsum(each.alone for each in company.shared), math.fsum(each.takes for each in company.shared)


def _lay(each: Shared, unit: Unit) -> tuple[str, ...]:
    cloth = ", ".join(part for part in ("" if each.cloth == "main" else cloth_named(each.cloth), each.colour) if part)
    return (
        str(each.number),
        cloth or _("cloth"),
        stacks_said(each.stacks),
        str(each.layers),
        format_length(each.length, unit),
        format_length(each.alone, unit),
        _("{share}%", share=decimal(100 * (1 - each.takes / each.alone), 1)),
        _("{share}%", share=decimal(100 * each.use)),
    )


def stacks_said(stacks: Sequence[tuple[int, ...]]) -> str:
    """The garments' numbers; those that are cut alike, in one stack, are joined: '3, 7 = 12'."""
    return ", ".join(" = ".join(map(str, stack)) for stack in sorted(stacks))


def sizes(company: Company) -> Table:
    """The size sets: who would wear which size, and what that saves."""
    unit = company.order.unit
    rows = []
    for each in company.sizes:
        told = {"n": len(each.sizes), "all": sum(len(size.wearers) for size in each.sizes)}
        for k, size in enumerate(each.sizes, 1):
            who = ", ".join(f"{number} {company.done[number].name}" for number in size.wearers)
            pattern = f"{size.pattern} {company.done[size.pattern].name}"
            rows.append((named(each.garment), f"{k} / {len(each.sizes)}", _("cut as {whose}", whose=pattern), who))
        more = each.length - each.alone
        cloth = (
            _("{length} more cloth", length=format_length(more, unit))
            if more >= 0
            else _("{length} less cloth", length=format_length(-more, unit))
        )
        chalk = format_length(each.line_alone - each.line, unit)
        said = (
            _("{n} sizes serve all {all}; no fewer will", **told)
            if each.fewest
            else _("{n} sizes serve all {all}", **told)
        )
        rows.append((named(each.garment), "", said, _("{cloth}, {chalk} less line to chalk", cloth=cloth, chalk=chalk)))
    return Table(
        _("If you would rather cut in sizes"), (_("garment"), _("size"), _("its pieces"), _("for whom")), tuple(rows)
    )


def cloth_said(done: Done, unit: Unit) -> str:
    """The lengths that a garment's cloths take when it is laid by itself, by name where there are several."""
    several = len(done.laid) > 1
    said = (f"{cloth_named(each.cloth)} " if several else "" for each in done.laid)
    return ", ".join(f"{name}{format_length(each.length, unit)}" for name, each in zip(said, done.laid, strict=True))


def everyone(company: Company) -> Table:
    """Every garment: its number, for whom, its colour, pieces, cloth by itself, and the folder of its papers."""
    unit = company.order.unit
    rows = [
        (
            str(number),
            done.name,
            named(done.garment),
            done.colour,
            str(done.pieces) if done.pieces else "–",
            cloth_said(done, unit) or "–",
            company.places.get(number, "") if done.files else "–",
        )
        for number, done in sorted(company.done.items())
    ]
    head = (_("no."), _("name"), _("garment"), _("colour"), _("pieces"), _("laid by itself"), _("papers"))
    return Table(_("Every garment"), head, tuple(rows))
