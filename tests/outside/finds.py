"""Extant garments rebuilt from choices: what each number of theirs is, what ours is, and docs/finds.md.

``python tests/outside/finds.py > docs/finds.md`` (with src and tests on the path).
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from ellwand import Garment, prove_sheet
from ellwand.depict import words
from ellwand.geometry.lines import length
from ellwand.model.others import CloakSize, HoodSize
from ellwand.prove.sewn import edges_of, hem_sweep, sewn_up
from sheets import sheet

DATA = Path(__file__).with_name("finds.toml")
MEASURES: Mapping[str, Callable[[Garment], float]] = {
    "hem": lambda g: hem_sweep(sewn_up(g.draft, g.wearer)),
    "neck": lambda g: math.fsum(rim.length for rim in g.proof.shell.rims if "neck" in rim.opens_to),
    "neck back": lambda g: _neck_behind(g),
    "slit": lambda g: g.draft.dimensions.neck_slit,
    "armhole": lambda g: _armhole(g),
    "sleeve top": lambda g: g.draft.dimensions.sleeve_top,
    "cuff": lambda g: g.draft.dimensions.cuff,
    "cuff opening": lambda g: g.draft.dimensions.cuff_opening,
    "length": lambda g: g.draft.dimensions.length,
    "body parts": lambda g: float(
        sum(part.piece == piece.id for part in g.draft.parts for piece in g.draft.pieces if piece.place == "body")
    ),
    "hood hem": lambda g: _hood(g).hem,
    "cloak width": lambda g: _cloak(g).width,
}
"""By the name that the data give it (cm, or a count)."""


@dataclass(frozen=True, slots=True)
class Number:
    """One number of a find beside ours; ``tolerance`` is what the residual may be, either way."""

    what: str
    find: float
    ours: float
    tolerance: float
    basis: str
    note: str

    @property
    def residual(self) -> float:
        """Ours less the find's."""
        return self.ours - self.find


@dataclass(frozen=True, slots=True)
class Find:
    """One extant garment: what the pages say of it, what we make of its choices."""

    name: str
    place: str
    source: str
    words: str
    difference: str
    missing: tuple[str, ...]
    undated: frozenset[str]
    garment: Garment
    numbers: tuple[Number, ...]


@cache
def finds() -> tuple[Find, ...]:
    """Every find of the data, drafted and proved."""
    data = tomllib.loads(DATA.read_text("utf-8"))
    return tuple(_find(raw, data["wearer"]) for raw in data["find"])


def _find(raw: Mapping[str, Any], wearers: Mapping[str, Any]) -> Find:
    sewing = {"chalk": 0.1, **raw.get("sewing", {})}
    made = prove_sheet(sheet(raw["garment"], wearer=wearers[raw["wearer"]], sewing=sewing, cloth={"width": 400}))
    numbers = tuple(
        Number(
            each["what"],
            each["find"],
            MEASURES[each["measure"]](made),
            each["tolerance"],
            each["basis"],
            each.get("note", ""),
        )
        for each in raw["numbers"]
    )
    return Find(
        raw["name"],
        raw["place"],
        raw["source"],
        raw["words"],
        raw.get("difference", ""),
        tuple(raw["missing"]),
        frozenset(raw.get("undated", ())),
        made,
        numbers,
    )


def _armhole(garment: Garment) -> float:
    """Girth (cm) of the hole that a sleeve and its gusset fill, from the body's own edges; one of two."""
    sewn = sewn_up(garment.draft, garment.wearer)
    return (
        math.fsum(
            length(edge.points)
            for ref, edge in sewn.edges.items()
            if sewn.pieces[ref.part].place == "body" and edge.kind in ("armhole", "gusset")
        )
        / 2
    )


def _neck_behind(garment: Garment) -> float:
    """The neck's length (cm) behind the shoulder seams."""
    sewn = sewn_up(garment.draft, garment.wearer)
    return math.fsum(length(edge.points) for ref, edge in edges_of(sewn, "neck") if ref.part.startswith("back"))


def _hood(garment: Garment) -> HoodSize:
    assert isinstance(garment.draft.settled, HoodSize)
    return garment.draft.settled


def _cloak(garment: Garment) -> CloakSize:
    assert isinstance(garment.draft.settled, CloakSize)
    return garment.draft.settled


def doubts(find: Find) -> tuple[str, ...]:
    """What our own proof says of it, where it is not sound, in words."""
    return tuple(words.why(each, "cm") for each in find.garment.proof.findings if each.outcome != "sound")


# --- docs/finds.md ----------------------------------------------------------------------------------------

HEAD = """# Extant garments, rebuilt from choices

Each find is entered as the sheet's choices, and drafted. A number that a choice was given is never checked. What is
left is: *geometry*, which follows from the choices alone, and *wearer*, which also rests on a wearer we had to assume
(men of 175 or 180 cm, a woman of 165, others of 165 and 143), so that its residual says more about that body than about
the drafting. Residual: ours less the find's. Centimetres.

The figures come from public web pages that report the publications named; those were not seen in print. The choices
are in `tests/outside/finds.toml`, and `tests/outside/test_finds.py` holds every residual to its tolerance, and none of
these garments, all of which were once worn, may be found to be one that 'will not work'.

This page is generated: `python tests/outside/finds.py > docs/finds.md`.

## In numbers

| find | number | find's | ours | residual | may be | rests on | note |
| --- | --- | ---: | ---: | ---: | ---: | --- | --- |
"""


def page() -> str:
    """docs/finds.md."""
    rows = [_row(find, number) for find in finds() for number in find.numbers]
    return HEAD + "\n".join(rows) + "\n\n## The finds\n" + "".join(_section(find) for find in finds())


def _row(find: Find, number: Number) -> str:
    cells = (
        find.name,
        number.what,
        f"{number.find:g}",
        f"{number.ours:.1f}".removesuffix(".0"),
        f"{number.residual + 0.0:+.1f}".replace("-", "−").replace("+0.0", "0"),
        f"{number.tolerance:g}",
        number.basis,
        number.note,
    )
    return "| " + " | ".join(cells) + " |"


def _section(find: Find) -> str:
    lines = [f"\n### {find.name}\n", f"{find.place}. Source: {find.source}.\n", f"Choices: {find.words}.\n"]
    if find.difference:
        lines.append(f"Not published, so found by difference or assumed: {find.difference}.\n")
    if find.missing:
        lines.append(f"What the choices cannot say: {'; '.join(find.missing)}.\n")
    lines += ["Our proof would look again at:\n", *(f"- {each}" for each in doubts(find)), ""] if doubts(find) else []
    return "\n".join(lines)


if __name__ == "__main__":
    print(page(), end="")
