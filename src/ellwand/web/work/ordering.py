"""A class reckoned together: what each one's garment comes to, and one order for all."""

from __future__ import annotations

import csv
import io
import math
import re
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from ellwand.depict.shopping import bill, purchases
from ellwand.depict.words import why
from ellwand.depict.words.lays import cloth_named
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.lay.buy import purchase
from ellwand.model.cloth import Cloth
from ellwand.model.garment import Garment
from ellwand.publish.text import clean
from ellwand.sew.costs import REEL
from ellwand.sew.pace import totals
from ellwand.units import Unit, decimal, format_length
from ellwand.web.naming import plain_name
from ellwand.web.work.archive import Archive
from ellwand.web.work.at_once import laid_at_once

PAPERS: Final = re.compile(r"card\.pdf|sewing\.pdf|(chalk|tears|blocks)(-\d+)?\.csv")
"""What everyone in a class is given."""
Tell = Callable[[str, Any], None]


@dataclass(frozen=True, slots=True)
class Line:
    """One wearer in the class: ``trouble`` where nothing can be cut for them; what will not work and what there is to
    look at again, in sentences; the cloth that their own lays take."""

    name: str
    trouble: str = ""
    fails: tuple[str, ...] = ()
    looks: tuple[str, ...] = ()
    cloth: str = ""


@dataclass(frozen=True, slots=True)
class Need:
    """What is bought for all together, and how that is made up."""

    what: str
    much: str
    made_up: str = ""


@dataclass(frozen=True, slots=True)
class Order:
    """What the whole class needs: a line for each wearer, what is bought, and hours of work."""

    lines: tuple[Line, ...]
    needs: tuple[Need, ...]
    hours: tuple[float, float]


def order_of(sheets: Sequence[Mapping[str, Any]], tell: Tell) -> Order:
    """The order for the sheets of a class, each laid quickly."""
    return _order(list(_each(sheets, tell)))


def pack_of(sheets: Sequence[Mapping[str, Any]], tell: Tell) -> bytes:
    """Everyone's papers and the order in one archive; who cannot be cut for is named in the order."""
    from ellwand.publish.all_files import files_of

    made = list[tuple[str, Garment | str]]()
    archive = Archive(BadInput("", _("all papers together are too large for one archive"), _("make two classes of it")))
    for number, (name, garment) in enumerate(_each(sheets, tell), 1):
        made.append((name, garment))
        files = {} if isinstance(garment, str) else files_of(garment)
        for file, written in files.items():
            if PAPERS.fullmatch(file):
                archive.add(f"{number:02d}-{plain_name(name, 40, 'wearer')}/{file}", written())
    archive.add("order.csv", order_csv(_order(made)).encode())
    return archive.whole()


def order_csv(order: Order) -> str:
    """The order as a table for a spreadsheet: what is bought, then each wearer."""
    out = io.StringIO()
    write = csv.writer(out, lineterminator="\n")
    write.writerow([_("what"), _("how much"), _("made up of")])
    write.writerows([need.what, need.much, need.made_up] for need in order.needs)
    write.writerow([])
    write.writerow([_("name"), _("cloth on the table"), _("will not work"), _("look again")])
    for line in order.lines:
        write.writerow([clean(line.name), line.cloth, line.trouble or " ".join(line.fails), " ".join(line.looks)])
    return out.getvalue()


def _each(sheets: Sequence[Mapping[str, Any]], tell: Tell) -> Iterator[tuple[str, Garment | str]]:
    """Everyone's name with their garment, or with the sentence that tells why there is none."""
    for number, tables in enumerate(sheets, 1):
        name = str(tables["wearer"].get("name", number))
        tell("said", _("{n} of {all}: {name}", n=number, all=len(sheets), name=name))
        try:
            yield name, laid_at_once(tables)
        except BadInput as error:
            yield name, str(error)


def _order(made: Sequence[tuple[str, Garment | str]]) -> Order:
    garments = [garment for _name, garment in made if isinstance(garment, Garment)]
    work = [totals(garment.steps) for garment in garments]
    return Order(
        tuple(_line(name, garment) for name, garment in made),
        tuple(_needs(garments)),
        (math.fsum(each.hours[0] for each in work), math.fsum(each.hours[1] for each in work)),
    )


def _line(name: str, garment: Garment | str) -> Line:
    if isinstance(garment, str):
        return Line(name, garment)
    unit = garment.wearer.unit
    fails, looks = (
        tuple(why(each, unit) for each in garment.proof.findings if each.outcome == outcome)
        for outcome in ("will not work", "look again")
    )
    several = len(garment.cloths) > 1
    laid = [
        (f"{cloth_named(cloth.name)} " if several else "") + format_length(asked.laid, unit)
        for cloth, asked in purchases(garment.lays, garment.cloths)
    ]
    return Line(name, "", fails, looks, ", ".join(laid))


def _needs(garments: Sequence[Garment]) -> Iterator[Need]:
    """Each cloth as one length, washed and straightened as one; then all else that is bought."""
    laid: defaultdict[Cloth, list[float]] = defaultdict(list)
    pieces: defaultdict[tuple[str, str], float] = defaultdict(float)
    thread = 0.0
    for garment in garments:
        cloths = [(cloth, asked.laid) for cloth, asked in purchases(garment.lays, garment.cloths) if asked.laid]
        for cloth, length in cloths:
            laid[cloth].append(length)
        for line in bill(garment).lines[len(cloths) :]:
            if line.what != "thread":
                pieces[line.what, line.unit] += line.amount
        thread += totals(garment.steps).thread_m[1]
    unit: Unit = garments[0].wearer.unit if garments else "cm"
    for cloth, lengths in laid.items():
        yield _cloth(cloth, lengths, unit)
    for (what, of), amount in pieces.items():
        yield Need(_(what), f"{decimal(math.ceil(amount * 10) / 10, 1)}\u00a0m" if of else f"{amount:.0f}")
    if thread:
        yield Need(_("thread"), f"{math.ceil(thread / REEL) * REEL:.0f}\u00a0m")


def _cloth(cloth: Cloth, lengths: Sequence[float], unit: Unit) -> Need:
    asked = purchase(math.fsum(lengths), cloth)
    name = _("cloth") if cloth.name == "main" else _("{cloth} cloth", cloth=cloth_named(cloth.name))

    def say(cm: float) -> str:
        return format_length(cm, unit)

    return Need(
        _("{cloth}, {width} wide", cloth=name, width=say(cloth.width)),
        say(asked.length),
        _(
            "{laid} for {count} lays, {shrinkage} that washing takes, {rest} to straighten, spare and round up",
            laid=say(asked.laid),
            count=len(lengths),
            shrinkage=say(asked.shrinkage),
            rest=say(asked.straightening + asked.spare + asked.rounding),
        ),
    )
