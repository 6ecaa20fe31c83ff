"""A class reckoned together in one process: what each one's garment comes to, and one order for all."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from ellwand.choose import Sheet
from ellwand.company.ordering import order_of
from ellwand.company.reckoning import Files, How, reckoned
from ellwand.company.running import LAYS
from ellwand.company.sharing import groups, shared
from ellwand.depict.company import order
from ellwand.errors import BadInput
from ellwand.language import _, language
from ellwand.model.company import Company, Done
from ellwand.model.cost import Prices
from ellwand.publish.letters import plain_name
from ellwand.publish.tables import table_csv
from ellwand.units import Unit
from ellwand.web.work.archive import Archive
from ellwand.web.work.at_once import sheet_of

Tell = Callable[[str, Any], None]
EFFORT: Final = 1
"""For the lays that are shared, in an archive of papers; everyone's own is quickly laid."""


@dataclass(frozen=True, slots=True)
class _Member:
    """One in the class: the sheet, None where it cannot be read; what came of it."""

    sheet: Sheet | None
    done: Done
    files: Files


def company_of(sheets: Sequence[Mapping[str, Any]], tell: Tell) -> Company:
    """What the sheets of a class come to together, each laid quickly and by itself."""
    members = _members(sheets, How(0, language=language(), papers=False), tell)
    return _company(members)


def pack_of(sheets: Sequence[Mapping[str, Any]], tell: Tell) -> bytes:
    """Everyone's papers, the lays that they share, the report, the order and labels in one archive; who cannot be cut
    for is named in the report."""
    from ellwand.publish.company import labels_pdf, report_pdf

    members = _members(sheets, How(0, language=language()), tell)
    how = How(EFFORT, language=language())
    archive = Archive(BadInput("", _("all papers together are too large for one archive"), _("make two classes of it")))
    for number, member in members.items():
        for file, data in member.files.items():
            archive.add(f"{number:02d}-{plain_name(member.done.name, 40, 'wearer')}/{file}", data)
    company = _company(members)
    laid = []
    sharing = groups(company.done)
    for group in sharing:
        tell("said", _("lay {n} of {all}", n=group.number, all=len(sharing)))
        own = {stack[0]: sheet for stack in group.stacks if (sheet := members[stack[0]].sheet) is not None}
        one, files = shared(group, own, how)
        laid.append(one)
        for file, data in files.items():
            archive.add(f"{LAYS}/{file}", data)
    company = replace(
        company, shared=tuple(laid), order=order_of(company.done, laid, _prices(members), company.order.unit)
    )
    archive.add("report.pdf", report_pdf(company))
    archive.add("labels.pdf", labels_pdf(company))
    archive.add("order.csv", table_csv(order(company)).encode())
    return archive.whole()


def _members(sheets: Sequence[Mapping[str, Any]], how: How, tell: Tell) -> dict[int, _Member]:
    """Everyone by number, or the sentence that tells why nothing can be cut."""
    out = {}
    for number, tables in enumerate(sheets, 1):
        name = str(tables["wearer"].get("name", number))
        tell("said", _("{n} of {all}: {name}", n=number, all=len(sheets), name=name))
        try:
            sheet = sheet_of(tables)
        except BadInput as error:
            out[number] = _Member(None, Done(name, "", trouble=str(error)), {})
        else:
            out[number] = _Member(sheet, *reckoned(sheet, name, sheet.choices.style, "", how))
    return out


def _prices(members: Mapping[int, _Member]) -> Prices | None:
    return next((each.sheet.prices for each in members.values() if each.sheet and each.sheet.prices), None)


def _company(members: Mapping[int, _Member]) -> Company:
    inches = any(each.sheet is not None and each.sheet.wearer.get("unit") == "in" for each in members.values())
    unit: Unit = "in" if inches else "cm"
    done = {number: each.done for number, each in members.items()}
    places = {number: f"{number:02d}-{plain_name(each.done.name, 40, 'wearer')}" for number, each in members.items()}
    return Company(done, (), order_of(done, (), _prices(members), unit), (), places)
