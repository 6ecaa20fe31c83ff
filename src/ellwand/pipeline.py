"""The one road: sheet, wearer, draft, proof, lay, sewing."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial

from ellwand.adorn import adorn
from ellwand.choose import Sheet
from ellwand.draft import draft, draft_to_grow, pieced_to_fit
from ellwand.errors import BadInput, CannotDraft, InternalFault
from ellwand.lay import lay_out, usable_width
from ellwand.measure import check_human, doubts, estimate, grown, grows, read_raw
from ellwand.model.choices import Choices
from ellwand.model.cloth import length_on_table
from ellwand.model.draft import Draft
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.wearer import Wearer
from ellwand.prove import cautions, prove
from ellwand.prove.evidence import evidence
from ellwand.prove.lasting import lasts
from ellwand.prove.layers import layers
from ellwand.prove.on_cloth import prove_on_cloth
from ellwand.prove.pieced import prove_pieced
from ellwand.sew import sew
from ellwand.units import Unit

Progress = Callable[[str], None]


def _silent(_: str) -> None:
    return None


def prove_sheet(sheet: Sheet, *, unit: Unit | None = None) -> Garment:
    """Draft and prove only.

    Raises BadInput (CannotDraft among it) with one sentence.
    """
    raw = read_raw(sheet.wearer)
    check_human(raw)
    questions = doubts(raw)
    wearer = estimate(raw, questions)
    wearer = wearer if unit is None else replace(wearer, unit=unit)
    return _proved(sheet, sheet.choices, wearer, questions)


def make(
    sheet: Sheet,
    *,
    seconds: float = 5.0,
    seed: int = 1,
    unit: Unit | None = None,
    progress: Progress = _silent,
) -> Garment:
    """The whole job for one garment, nothing written. ``seconds``: for the search of the lay.

    Raises BadInput (CannotDraft among it) with one sentence.
    """
    progress("drafting and proving")
    garment = prove_sheet(sheet, unit=unit)
    progress(f"laying {sum(piece.count for piece in garment.draft.pieces)} pieces on the cloth")
    garment, lay = _laid(garment, sheet, seconds, seed)
    found = prove_on_cloth(lay, garment.draft.pieces, sheet.cloth)
    return replace(
        garment,
        lays=(lay,),
        proof=replace(garment.proof, findings=garment.proof.findings + found),
    )


def _laid(garment: Garment, sheet: Sheet, seconds: float, seed: int) -> tuple[Garment, Lay]:
    """The garment on the cloth; where that is too narrow for a piece, in more pieces as far as the maker left it open.

    Raises CannotDraft, of the garment as it was first, where no way of piecing lets it lie on the cloth.
    """
    first: CannotDraft | None = None
    for way in (lambda: garment, *_in_more_pieces(sheet, garment)):
        try:
            tried = way()
            parts = (*tried.draft.parts, *tried.draft.applied)
            return tried, lay_out(tried.draft.pieces, parts, sheet.cloth, seconds=seconds, seed=seed)
        except CannotDraft as error:
            first = first or error
    raise first or InternalFault("no way was tried")


def _in_more_pieces(sheet: Sheet, garment: Garment) -> Iterator[Callable[[], Garment]]:
    """Gores in halves, then sleeves in two, then both, then strips and tips pieced on wherever they must be."""
    whole = sheet.choices
    halves = replace(
        whole,
        gores=tuple(replace(gore, make="halves") if gore.make == "either" else gore for gore in whole.gores),
    )

    def two(choices: Choices) -> Choices:
        sleeve = choices.sleeve
        return replace(choices, sleeve=replace(sleeve, pieces="two")) if sleeve.pieces == "auto" else choices

    for way in dict.fromkeys((halves, two(whole), two(halves))):
        if way != whole:
            yield partial(_proved, sheet, way, garment.wearer, garment.questions)
    for way in dict.fromkeys((two(whole), whole)):
        yield partial(_proved, sheet, way, garment.wearer, garment.questions, pieced=True)


def _worn_beneath(sheet: Sheet, body: Wearer) -> list[Draft]:
    """The garments beneath, drafted for the same body."""
    out = []
    for under in sheet.beneath:
        try:
            out.append(draft(under.choices, body, under.cloth.name))
        except BadInput as error:
            raise error.inside(f"garment.over: the {under.choices.style} beneath") from None
    return out


def _proved(
    sheet: Sheet,
    choices: Choices,
    wearer: Wearer,
    questions: tuple[Finding, ...],
    *,
    pieced: bool = False,
) -> Garment:
    """Drafted, adorned and proved on the wearer, or on the body that a child is to grow into.

    ``pieced``: with strips and tips pieced on, where the cloth is too narrow or too short for some of its pieces.
    """
    body, growth = wearer, choices.growth
    if growth is None:
        drafted = draft(choices, wearer, sheet.cloth.name)
    else:
        body = grown(wearer, growth.months)
        drafted = draft_to_grow(choices, growth, wearer, body, sheet.cloth.name)
    drafted = adorn(drafted)
    proof = prove(drafted, body)
    if pieced:
        cloth = sheet.cloth
        crosswise = cloth.crosswise == "any" and not cloth.nap
        drafted = pieced_to_fit(drafted, usable_width(cloth), length_on_table(cloth), crosswise=crosswise)
        proof = prove_pieced(proof, drafted, body)
    found = (*questions, *proof.findings, *evidence(drafted))
    if grows(wearer) and choices.other is None:
        found = (*found, lasts(drafted, wearer, lambda months: grown(wearer, months)))
    found = (*found, *layers(drafted, _worn_beneath(sheet, body), body))
    return Garment(
        title=choices.style,
        wearer=wearer,
        choices=choices,
        cloths=(sheet.cloth,),
        draft=drafted,
        proof=replace(proof, findings=found),
        lays=(),
        steps=sew(drafted),
        cautions=cautions(drafted, wearer),
        questions=questions,
    )
