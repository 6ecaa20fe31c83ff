"""The report on a whole company: everything in tables, to be printed or read as Markdown."""

from __future__ import annotations

from typing import Final

from ellwand.depict.company import saved, tables
from ellwand.language import _, plural
from ellwand.model.company import Company
from ellwand.model.table import Table
from ellwand.publish.paper import Paper, paper_for
from ellwand.publish.tables import tables_md
from ellwand.publish.typst_text import FONT, PRELUDE, compile_pdf, quoted, table, words
from ellwand.units import decimal

NARROW: Final = 9
"""A column whose longest cell has no more signs than this is as wide as it needs."""


def report_md(company: Company) -> str:
    """The report as Markdown."""
    return tables_md(_("Company: one order for all"), tables(company))


def report_pdf(company: Company) -> bytes:
    """The report on A4, or on Letter for who reads inches, lying; the same bytes each time."""
    paper = paper_for(company.order.unit)
    out = [_setting(paper), f"#block(below: 3mm, {words(_('Company: one order for all'), size=20, bold=True)})"]
    out.append(f"#block(below: 4mm, {words(summed_up(company), size=12)})")
    for each in tables(company):
        out.append(f"#block(above: 5mm, below: 2mm, sticky: true, {words(each.title, size=14, bold=True)})")
        out.append(_table(each))
    return compile_pdf("\n".join(out))


def summed_up(company: Company) -> str:
    """In a few sentences: how many, how they stand, and what cutting together saves."""
    count = len(company.done)
    fails = sum(1 for each in company.done.values() if each.fails)
    look = sum(1 for each in company.done.values() if each.said and not each.fails)
    said = [plural("{n} garment.", "{n} garments.", count)]
    if fails:
        said.append(plural("{n} cannot be made as it is.", "{n} cannot be made as they are.", fails))
    if look:
        said.append(plural("{n} is to be looked at again.", "{n} are to be looked at again.", look))
    if not fails and not look:
        said.append(_("All is sound."))
    alone, takes = saved(company)
    if takes < alone:
        share = decimal(100 * (1 - takes / alone), 1)
        said.append(_("Cut together they take {share}% less cloth than one by one.", share=share))
    return " ".join(said)


def _setting(paper: Paper) -> str:
    pages = _("{page} of {pages}", page="#counter(page).display()", pages="#counter(page).final().first()")
    return "\n".join(
        [
            f"#set document(title: {quoted(_('Company: one order for all'))}, date: none)",
            f"#set page(width: {paper.height}cm, height: {paper.width}cm, margin: (x: {paper.margin}cm, top: 1.4cm,"
            f" bottom: 1.6cm), footer-descent: 4mm, footer: context align(right, text(size: 9pt, [{pages}])))",
            f'#set text(font: "{FONT}", size: 10pt, hyphenate: false)',
            "#set table(align: left + top)",
            PRELUDE,
        ]
    )


def _table(each: Table) -> str:
    longest = [max(len(row[k]) for row in (each.head, *each.rows)) for k in range(len(each.head))]
    columns = ["auto" if most <= NARROW else f"{min(most, 60)}fr" for most in longest]
    rows = [[words(cell) for cell in row] for row in each.rows]
    return table(columns, each.head, rows, 10.0)
