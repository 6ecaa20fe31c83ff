"""One garment of the company reckoned, whichever machine does it: nothing is read or written here."""

from __future__ import annotations

import hashlib
import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Final

from ellwand.choose import Sheet
from ellwand.depict import words
from ellwand.depict.naming import numbers
from ellwand.depict.shopping import bill, purchases
from ellwand.errors import BadInput
from ellwand.geometry.lines import area, length
from ellwand.language import _, speaking
from ellwand.model.company import Done, Laid, Said, Stage, Work
from ellwand.model.cost import CostLine
from ellwand.model.garment import Garment
from ellwand.model.names import named
from ellwand.model.step import Step
from ellwand.pipeline import make
from ellwand.sew.pace import summed, totals
from ellwand.units import Unit

PAPERS: Final = re.compile(r"card\.pdf|sewing\.pdf|garment\.json|(chalk|tears|blocks)(-\d+)?\.csv")
"""What everyone is given."""


@dataclass(frozen=True, slots=True)
class How:
    """How it is done: search this much for each lay (``effort``), show lengths in ``unit`` (None: the wearer's), in
    this ``language``, and write everyone's ``papers`` or only reckon."""

    effort: int = 1
    seed: int = 1
    unit: Unit | None = None
    language: str = "en"
    papers: bool = True


Files = Mapping[str, bytes]


def key_of(*what: object) -> str:
    """What tells one job from every other: the same for the same sheet, settings and Ellwand."""
    return hashlib.sha256(f"{_ourselves()} {what!r}".encode()).hexdigest()[:32]


@cache
def _ourselves() -> str:
    """Which Ellwand this is: a change of its code may change what it reckons."""
    digest = hashlib.sha256()
    package = Path(__file__).parents[1]
    for file in sorted((*package.rglob("*.py"), *package.rglob("*.po"))):
        digest.update(file.read_bytes())
    return digest.hexdigest()


def alone(sheet: Sheet) -> Sheet:
    """The sheet with as much of each cloth as it needs: left-overs and what is at hand are for all."""
    return replace(sheet, cloths=tuple(replace(cloth, length=None, remnants=()) for cloth in sheet.cloths))


def reckoned(sheet: Sheet, name: str, garment: str, colour: str, how: How) -> tuple[Done, Files]:
    """What the garment comes to, and the papers for its maker; why it cannot be cut where that is so."""
    with speaking(how.language):
        try:
            made = make(alone(sheet), seconds=0.0, effort=how.effort, seed=how.seed, unit=how.unit)
        except BadInput as error:
            return Done(name, garment, colour, str(error)), {}
        except Exception as error:
            # one garment's fault must not end the work on all others
            why = _(
                "a fault in Ellwand itself ({fault}); please tell its makers", fault=f"{type(error).__name__}: {error}"
            )
            return Done(name, garment, colour, why), {}
        files = dict(_papers(made)) if how.papers else {}
        return replace(_done(made, colour), name=name, cloths=sheet.cloths, files=tuple(files)), files


def _papers(garment: Garment) -> Iterator[tuple[str, bytes]]:
    from ellwand.publish.all_files import files_of

    for file, written in files_of(garment).items():
        if PAPERS.fullmatch(file):
            yield file, written()


def _done(garment: Garment, colour: str) -> Done:
    unit = garment.wearer.unit
    pieces = garment.draft.pieces
    return Done(
        name=garment.wearer.name,
        garment=garment.title,
        colour=colour,
        said=tuple(
            Said(each.outcome, words.why(each, unit), words.mend(each, unit))
            for each in garment.proof.findings
            if each.outcome != "sound"
        ),
        checks=len(garment.proof.findings),
        laid=tuple(_laid(garment)),
        bought=tuple(_bought(garment)),
        work=tuple(_work(garment.steps)),
        thread=totals(garment.steps).thread_m[1],
        line=math.fsum(piece.count * length((*piece.cut, piece.cut[0])) for piece in pieces),
        pieces=sum(piece.count for piece in pieces),
        listed=tuple(_listed(garment)),
        cut=_cut(garment),
    )


def _listed(garment: Garment) -> Iterator[str]:
    """Each piece by its number on the card, and how many are cut of it."""
    for piece, number in zip(garment.draft.pieces, numbers(garment.draft.pieces).values(), strict=True):
        yield f"{number} {named(piece.name)}" + (f" ×\u00a0{piece.count}" if piece.count > 1 else "")


def _cut(garment: Garment) -> str:
    """The same for garments whose pieces are cut alike, to a tenth of a millimetre."""
    rings = sorted(
        (piece.cloth, piece.count, [[(round(x, 2), round(y, 2)) for x, y in r] for r in (piece.cut, *piece.cut_holes)])
        for piece in garment.draft.pieces
    )
    return hashlib.sha256(repr(rings).encode()).hexdigest()[:16]


def _laid(garment: Garment) -> Iterator[Laid]:
    for cloth in garment.cloths:
        lays = [lay for lay in garment.lays if lay.cloth == cloth.name]
        cut = math.fsum(p.count * abs(area(p.cut)) for p in garment.draft.pieces if p.cloth == cloth.name)
        if lays:
            yield Laid(cloth.name, math.fsum(lay.length for lay in lays), cut)


def _bought(garment: Garment) -> Iterator[CostLine]:
    """Everything on the bill but its cloths, which stand first, and thread."""
    cloths = sum(1 for _one, asked in purchases(garment.lays, garment.cloths) if asked.laid)
    yield from (line for line in bill(garment).lines[cloths:] if line.what != "thread")


def _work(steps: tuple[Step, ...]) -> Iterator[Work]:
    by_stage: dict[Stage, list[Step]] = {}
    for step in steps:
        by_stage.setdefault(stage_of(step), []).append(step)
    for stage, own in by_stage.items():
        low, high = summed(row.minutes for step in own for row in step.rows)
        yield Work(stage, (low / 60, high / 60))


def stage_of(step: Step) -> Stage:
    """What kind of work a step is."""
    if step.code == "closures":
        return "closures"
    if step.trims:
        return "adornment"
    return "seams" if step.seams and step.code != "mark" else "edges"
