"""A class reckoned together: what each one's garment comes to, and one order for all."""

from __future__ import annotations

import csv
import io
import math
import zipfile
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Final

from ellwand.choose import read_tables
from ellwand.depict.shopping import purchases
from ellwand.depict.words import why
from ellwand.depict.words.lays import cloth_named
from ellwand.errors import BadInput
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.sew.costs import thread_to_buy
from ellwand.sew.pace import totals
from ellwand.units import Unit, format_length

LONG_AGO: Final = (1980, 1, 1, 0, 0, 0)
PAPERS: Final = ("card.pdf", "chalk.csv", "sewing.pdf")
"""What everyone in a class is given."""
Tell = Callable[[str, Any], None]


@dataclass(frozen=True, slots=True)
class Line:
    """One wearer in the class: ``trouble`` where nothing can be cut for them, else what there is to look at."""

    name: str
    trouble: str = ""
    looks: tuple[str, ...] = ()
    cloth: str = ""
    minutes: float = 0.0


@dataclass(frozen=True, slots=True)
class Order:
    """What the whole class needs: a line for each wearer, each cloth with its length, thread and hours."""

    lines: tuple[Line, ...]
    cloths: tuple[tuple[str, str, int], ...] = ()
    thread_m: int = 0
    hours: float = 0.0


@dataclass(slots=True)
class _Sum:
    """While it is reckoned."""

    unit: Unit = "cm"
    cloths: defaultdict[tuple[str, float], list[float]] = field(default_factory=lambda: defaultdict(list))
    thread: float = 0.0
    minutes: float = 0.0


def order_of(sheets: Sequence[Mapping[str, Any]], tell: Tell) -> Order:
    """The order for the sheets of a class, each laid quickly."""
    out, total = [], _Sum()
    for number, tables in enumerate(sheets, 1):
        name = str(tables["wearer"].get("name", number))
        tell("said", _("{n} of {all}: {name}", n=number, all=len(sheets), name=name))
        try:
            out.append(_line(name, _made(tables), total))
        except BadInput as error:
            out.append(Line(name, trouble=str(error)))
    cloths = tuple(
        (
            _("{cloth}, {width} wide", cloth=cloth, width=format_length(width, total.unit)),
            format_length(math.fsum(lengths), total.unit),
            len(lengths),
        )
        for (cloth, width), lengths in total.cloths.items()
    )
    return Order(tuple(out), cloths, math.ceil(total.thread), total.minutes / 60)


def _line(name: str, garment: Garment, total: _Sum) -> Line:
    unit = garment.wearer.unit
    whole = totals(garment.steps)
    by_hand = garment.choices.sewing.by == "hand"
    minutes = math.fsum(step.minutes_hand if by_hand else step.minutes_machine for step in garment.steps)
    bought = list(purchases(garment.lays, garment.cloths))
    for cloth, asked in bought:
        total.cloths[cloth_named(cloth.name), cloth.width].append(asked.length)
    total.unit = unit
    total.thread += thread_to_buy(whole)
    total.minutes += minutes
    looks = tuple(why(each, unit) for each in garment.proof.findings if each.outcome != "sound")
    lengths = ", ".join(format_length(asked.length, unit) for _cloth, asked in bought)
    return Line(name, looks=looks, cloth=lengths, minutes=minutes)


def pack_of(sheets: Sequence[Mapping[str, Any]], tell: Tell, most: int) -> bytes:
    """Everyone's papers and the order in one archive; who cannot be cut for is named in the order."""
    from ellwand.publish.all_files import files_of
    from ellwand.publish.letters import spelled

    out, size = io.BytesIO(), 0
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:

        def put(name: str, data: bytes) -> None:
            nonlocal size
            size += len(data)
            if size > most:
                raise BadInput("", _("all papers together are too large for one archive"), _("make two classes of it"))
            archive.writestr(zipfile.ZipInfo(name, LONG_AGO), data)

        for number, tables in enumerate(sheets, 1):
            name = str(tables["wearer"].get("name", number))
            tell("said", _("{n} of {all}: {name}", n=number, all=len(sheets), name=name))
            folder = f"{number:02d}-{_plain(spelled(name))}"
            try:
                garment = _made(tables)
            except BadInput:
                continue
            for file, made in files_of(garment).items():
                if file in PAPERS or file.startswith("chalk"):
                    put(f"{folder}/{file}", made())
        put("order.csv", order_csv(order_of(sheets, lambda kind, value: None)).encode())
    return out.getvalue()


def order_csv(order: Order) -> str:
    """The order as a table for a spreadsheet."""
    out = io.StringIO()
    write = csv.writer(out, lineterminator="\n")
    write.writerow([_("name"), _("cloth"), _("minutes"), _("look again")])
    for line in order.lines:
        write.writerow([line.name, line.cloth, round(line.minutes), line.trouble or " ".join(line.looks)])
    write.writerow([])
    for what, length, count in order.cloths:
        write.writerow([what, length, count])
    write.writerow([_("thread"), f"{order.thread_m} m"])
    return out.getvalue()


def _made(tables: Mapping[str, Any]) -> Garment:
    from ellwand.pipeline import make

    return make(read_tables(dict(tables), _alone), seconds=0.0)


def _alone(name: str) -> float:
    raise BadInput("garment.over", _("a garment on the bench cannot name another sheet"), _("give its thickness"))


def _plain(text: str) -> str:
    import re

    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")[:40] or "wearer"
