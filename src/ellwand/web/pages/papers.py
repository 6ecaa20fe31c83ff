"""All that there is of one garment on paper and in files, with what each is for."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from starlette.requests import Request
from starlette.responses import Response

from ellwand.language import N_, _
from ellwand.web.making import laid_for
from ellwand.web.rendering import page
from ellwand.web.state import read_state

SHELVES: Final = (
    (
        N_("To print"),
        {
            "card.pdf": (N_("Cut card"), N_("what to buy, every piece, the cloth with its chalk distances")),
            "sewing.pdf": (N_("Order of work"), N_("every step drawn")),
            "workbook.pdf": (N_("Workbook"), N_("the whole garment explained, page by page")),
            "workbook-booklet.pdf": (N_("Workbook to fold"), N_("two pages to a sheet, both sides")),
            "handout.pdf": (N_("Class handout"), N_("one sheet for a beginner, with blanks to fill in")),
            "pattern.pdf": (N_("Full-size pattern, A4"), N_("sheets to join by their marks")),
            "pattern-letter.pdf": (N_("Full-size pattern, Letter"), N_("sheets to join by their marks")),
            "pattern-long.pdf": (N_("Full-size pattern, roll"), N_("one long sheet, 90 cm wide")),
            "stencils.pdf": (N_("Stencils"), N_("full size, to cut out")),
        },
    ),
    (
        N_("Drawings"),
        {
            "garment.svg": (N_("The garment"), N_("front and back")),
            "exploded.svg": (N_("How it is built"), N_("the pieces round the garment")),
            "pieces.svg": (N_("The pieces"), N_("with their sizes")),
            "lay.svg": (N_("On the cloth"), N_("to scale, with chalk distances")),
            "tears.svg": (N_("Where to tear"), N_("to scale, in order")),
            "stencil.svg": (N_("Stencil"), N_("full size")),
        },
    ),
    (
        N_("Tables"),
        {
            "chalk.csv": (N_("Chalk list"), N_("where each corner lies on the cloth")),
            "pieces.csv": (N_("Pieces"), N_("sizes, and how many")),
            "shopping.csv": (N_("To buy"), N_("cloth, thread and the rest")),
            "steps.csv": (N_("Steps"), N_("seams, stitches, thread, time")),
            "tears.csv": (N_("Tears"), N_("in order")),
            "blocks.csv": (N_("Torn blocks"), N_("what is cut from each")),
            "tables.md": (N_("All tables"), N_("as plain text")),
            "sewing.md": (N_("Order of work"), N_("as plain text")),
        },
    ),
    (
        N_("For other programs and machines"),
        {
            "pattern.svg": (N_("Full-size pattern"), N_("drawing in layers, in millimetres")),
            "pattern.dxf": (N_("Full-size pattern"), N_("by ASTM D6673")),
            "pattern-cutter.dxf": (N_("Outlines for a cutter"), N_("plain DXF")),
            "garment.json": (N_("Everything"), N_("all figures of the garment")),
        },
    ),
)
"""Each file by its name without its number: what it is, and what it is for."""


@dataclass(frozen=True, slots=True)
class File:
    """A file to be had."""

    name: str
    label: str
    use: str


def shelves(names: Iterable[str]) -> list[tuple[str, list[File]]]:
    """The files in their groups, several of a kind told apart by their number."""
    by_kind: dict[str, list[str]] = {}
    for name in names:
        by_kind.setdefault(re.sub(r"-\d+\.", ".", name), []).append(name)
    out = []
    for heading, kinds in SHELVES:
        files = [
            File(name, _(label) + (f" {number}" if len(by_kind[kind]) > 1 else ""), _(use))
            for kind, (label, use) in kinds.items()
            for number, name in enumerate(by_kind.get(kind, ()), 1)
        ]
        if files:
            out.append((_(heading), files))
    return out


def papers_page(request: Request) -> Response:
    """The list, each with what it is for."""
    from ellwand.publish.all_files import files_of

    state = read_state(request.query_params)
    garment = laid_for(state, request.app.state.store)
    return page(request, "papers.html", state=state, garment=garment, shelves=shelves(files_of(garment)))
