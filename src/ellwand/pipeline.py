"""The one road: sheet, wearer, draft, proof, lay, sewing."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import Literal

from ellwand.adorn import adorn, divided, trimmed
from ellwand.adorn.charges.charged import Room
from ellwand.choose import Sheet
from ellwand.depict.words.searching import found_said
from ellwand.draft import draft, draft_to_grow, pieced_to_fit
from ellwand.errors import BadInput, CannotDraft, InternalFault
from ellwand.geometry.lines import area
from ellwand.language import _, language, speaking
from ellwand.lay import INSTANT, Budget, Found, Report, Stop, lay_out, never, shapes_of, unheard, usable_width
from ellwand.lay.shapes import may_lie_crosswise
from ellwand.lay.tear import tear_plan
from ellwand.measure import check_human, doubts, estimate, grown, grows, read_raw
from ellwand.model.choices import Choices, plainest
from ellwand.model.cloth import Cloth, cloth_for, length_on_table
from ellwand.model.draft import Draft
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.names import named
from ellwand.model.tearing import TearPlan
from ellwand.model.wearer import Wearer
from ellwand.prove import cautions, prove
from ellwand.prove.bands import bands_lie
from ellwand.prove.evidence import evidence
from ellwand.prove.lasting import lasts
from ellwand.prove.layers import layers
from ellwand.prove.on_cloth import prove_on_cloth
from ellwand.prove.pieced import prove_pieced
from ellwand.prove.pinned import pinned
from ellwand.prove.tinctures import tinctures
from ellwand.prove.washed_sewn import washed_sewn
from ellwand.sew import sew
from ellwand.units import Unit

Progress = Callable[[str], None]
Pieced = Literal["as chosen", "wide", "long"]
"""What is pieced to fit the cloth: what the choices say, all that is too wide, or also all that is too long."""
FOR = " for "
"""Between an engine's name and the cloth's that it lays, where there are several."""
TORN = 3
"""The effort for a tear plan where seconds are given: the clock has no say in it."""


def _silent(text: str) -> None:
    return None


def prove_sheet(sheet: Sheet, *, unit: Unit | None = None) -> Garment:
    """Draft and prove only.

    Raises BadInput (CannotDraft among it) with one sentence.
    """
    return proved(sheet, sheet.choices, *read_wearer(sheet, unit))


def read_wearer(sheet: Sheet, unit: Unit | None = None) -> tuple[Wearer, tuple[Finding, ...]]:
    """The wearer, estimated where need be, and the questions about improbable measurements.

    Raises BadInput with one sentence.
    """
    raw = read_raw(sheet.wearer)
    check_human(raw)
    questions = doubts(raw)
    wearer = estimate(raw, questions)
    return wearer if unit is None else replace(wearer, unit=unit), questions


def make(
    sheet: Sheet,
    *,
    seconds: float = 5.0,
    effort: int = 0,
    seed: int = 1,
    unit: Unit | None = None,
    progress: Progress = _silent,
    stop: Stop = never,
) -> Garment:
    """The whole job for one garment, nothing written.

    ``seconds``: for the search of the lay; or ``effort``, which gives the same lay every time.  ``progress`` hears of
    each step and of shorter lays; ``stop`` ends the search with what it has.
    Raises BadInput (CannotDraft among it) with one sentence.
    """
    progress(_("drafting and proving"))
    garment = prove_sheet(sheet, unit=unit)
    progress(_("laying {count} pieces on the cloth", count=sum(piece.count for piece in garment.draft.pieces)))
    budget = Budget(0.0 if effort else seconds, effort, seed)
    garment = _laid(garment, sheet, budget, said(progress, garment.wearer.unit), stop)
    found = prove_on_cloth(garment.draft, garment.lays, sheet.cloths)
    return replace(garment, proof=replace(garment.proof, findings=garment.proof.findings + found))


def hung(garment: Garment, *, progress: Progress = _silent, stop: Stop = never) -> Garment:
    """The garment with how it hangs on its wearer.

    Raises BadInput for a garment without a body.
    """
    from ellwand.drape import hang, hang_findings

    found = hang(garment.draft, garment.wearer, garment.cloths, progress=progress, stop=stop)
    findings = (*garment.proof.findings, *hang_findings(found))
    return replace(garment, hang=found, proof=replace(garment.proof, findings=findings))


def prepare() -> None:
    """Compiles what is not compiled yet, for searching lays and for hanging (a minute or two of one core), and keeps it
    on disk."""
    from ellwand.choose import read_tables
    from ellwand.depict.hang import pictures
    from ellwand.drape import hang
    from ellwand.lay.search import prepare as search

    search()
    wearer = {"height": 170, "bust_girth": 96}
    tables = {"wearer": wearer, "garment": {"belt": "waist"}, "cloth": {"width": 150}}
    garment = prove_sheet(read_tables(tables, lambda name: 0.0))
    pictures(garment, hang(garment.draft, garment.wearer, garment.cloths, finer=1), 90)


def said(progress: Progress, unit: Unit) -> Report:
    """Tells of shorter lays in sentences, two a second at most, in the language spoken now: engines have threads of
    their own, where no language was chosen."""
    last, tongue = -1.0, language()

    def report(found: Found) -> None:
        nonlocal last
        if found.after - last >= 0.5 or found.after < last:
            last = found.after
            engine, _for, cloth = found.engine.partition(FOR)
            with speaking(tongue):
                progress(found_said(found.after, found.length, engine, cloth, unit))

    return report


def lay_garment(
    draft: Draft, cloths: Sequence[Cloth], budget: Budget = INSTANT, report: Report = unheard, stop: Stop = never
) -> tuple[Lay, ...]:
    """The pieces on their cloths, which share the search by the cloth that is cut from each.

    Raises CannotDraft when a piece is wider than its cloth.
    """
    return _lays_of(_on_cloths(draft, cloths, budget, report, stop))


def _lays_of(found: Iterable[tuple[Lay, ...] | TearPlan]) -> tuple[Lay, ...]:
    """The lays of all cloths, torn ones among them."""
    return tuple(lay for each in found for lay in ((each.lay,) if isinstance(each, TearPlan) else each))


def _on_cloths(
    draft: Draft, cloths: Sequence[Cloth], budget: Budget, report: Report, stop: Stop
) -> Iterator[tuple[Lay, ...] | TearPlan]:
    """Of each cloth that is needed: its lays, or the plan that it is torn by."""
    parts = (*draft.parts, *draft.applied)
    of = [(cloth, [piece for piece in draft.pieces if piece.cloth == cloth.name]) for cloth in cloths]
    areas = [sum(piece.count * abs(area(piece.cut)) for piece in pieces) for _, pieces in of]
    for cloth, pieces in of:
        shapes_of(pieces, parts, cloth)
    for (cloth, pieces), cut in zip(of, areas, strict=True):
        share = cut / sum(areas)
        own = replace(budget, seconds=budget.seconds * share, effort=math.ceil(budget.effort * share))
        if pieces and cloth.cut == "torn":
            yield tear_plan(pieces, parts, cloth, effort=own.effort or (TORN if own.seconds else 1))
        elif pieces:
            tell = report if len(cloths) == 1 else _of(cloth, report)
            yield lay_out(pieces, parts, cloth, own, tell, stop, draft.seams)


def _with_lays(garment: Garment, cloths: Sequence[Cloth], budget: Budget, report: Report, stop: Stop) -> Garment:
    """The garment on its cloths."""
    found = tuple(_on_cloths(garment.draft, cloths, budget, report, stop))
    return replace(garment, lays=_lays_of(found), tears=tuple(each for each in found if isinstance(each, TearPlan)))


def _of(cloth: Cloth, report: Report) -> Report:
    """The report with the cloth's name."""
    return lambda found: report(replace(found, engine=f"{found.engine}{FOR}{cloth.name}"))


def _laid(garment: Garment, sheet: Sheet, budget: Budget, report: Report, stop: Stop) -> Garment:
    """The garment on the cloth; where that is too narrow or too short for a piece, in more pieces as far as the maker
    left it open.

    What has not enough cloth even so is laid unpieced: the lay tells how much it needs.
    Raises CannotDraft, of the garment as it was first, where no way of piecing lets it lie on the cloth.
    """
    first: CannotDraft | None = None
    too_long: Garment | None = None
    for way in (lambda: garment, *_in_more_pieces(sheet, garment)):
        try:
            tried = way()
            if _fits_length(tried.draft, sheet.cloths) and (
                too_long is None or _nearly_fits(tried.draft, sheet.cloths)
            ):
                return _with_lays(tried, sheet.cloths, budget, report, stop)
            too_long = too_long or tried
        except CannotDraft as error:
            first = first or error
    if too_long is not None:
        return _with_lays(too_long, sheet.cloths, budget, report, stop)
    raise first or InternalFault("no way was tried")


def _fits_length(draft: Draft, cloths: Sequence[Cloth]) -> bool:
    """Whether no piece is longer than all there is of its cloth, or lies on a left-over that is long enough.

    Raises CannotDraft when one is wider.
    """
    parts = (*draft.parts, *draft.applied)
    for cloth in cloths:
        shapes = shapes_of([piece for piece in draft.pieces if piece.cloth == cloth.name], parts, cloth)
        length = length_on_table(cloth)
        if length is None or all(min(p.height for p in s.poses) <= length + cloth.gap + 1e-6 for s in shapes):
            continue
        if not cloth.remnants or _main_length(draft, cloth) > length:
            return False
    return True


def _main_length(draft: Draft, cloth: Cloth) -> float:
    """What the instant engine takes of the cloth, left-overs aside (cm)."""
    return math.fsum(lay.length for lay in lay_garment(draft, (cloth,)) if not lay.remnant)


def _nearly_fits(draft: Draft, cloths: Sequence[Cloth]) -> bool:
    """Whether a search may find a lay as short as the cloth: the instant one is at most a quarter over the shortest."""
    for cloth in cloths:
        length = length_on_table(cloth)
        if length is not None and _main_length(draft, cloth) > 1.25 * length:
            return False
    return True


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
            yield partial(proved, sheet, way, garment.wearer, garment.questions)
    # what is too wide, then what is too long as well
    for pieced in ("wide", "long") if any(cloth.length is not None for cloth in sheet.cloths) else ("wide",):
        for way in dict.fromkeys((two(whole), whole)):
            yield partial(proved, sheet, way, garment.wearer, garment.questions, pieced=pieced)


def _worn_beneath(sheet: Sheet, body: Wearer) -> list[Draft]:
    """The garments beneath, drafted for the same body."""
    out = []
    for under in sheet.beneath:
        try:
            out.append(draft(under.choices, body, under.cloth.name))
        except BadInput as error:
            raise error.inside(_("garment.over: the {style} beneath", style=named(under.choices.style))) from None
    return out


def proved(
    sheet: Sheet,
    choices: Choices,
    wearer: Wearer,
    questions: tuple[Finding, ...],
    *,
    pieced: Pieced = "as chosen",
) -> Garment:
    """Drafted, adorned and proved on the wearer, or on the body that a child is to grow into.

    ``pieced``: with strips pieced on where the cloth is too narrow for some of its pieces, and ends and tips too where
    it is too short.
    """
    choices = plainest(choices)
    body, growth = wearer, choices.growth
    if growth is None:
        drafted = draft(choices, wearer, sheet.cloth.name)
    else:
        body = grown(wearer, growth.months)
        drafted = draft_to_grow(choices, growth, wearer, body, sheet.cloth.name)
    whole = _on_their_cloths(adorn(drafted), sheet.cloths)
    proof, drafted = prove(whole, body), divided(whole)
    if pieced != "as chosen" or isinstance(choices.body.pieced, float):
        for cloth in sheet.cloths:
            drafted = pieced_to_fit(
                drafted,
                usable_width(cloth),
                length_on_table(cloth) if pieced == "long" else None,
                crosswise=partial(may_lie_crosswise, cloth=cloth),
                cloth=cloth.name,
            )
    if drafted is not whole:
        proof = prove_pieced(proof, drafted, body)
    rooms = {} if pieced == "as chosen" else _rooms(sheet.cloths)
    drafted = _on_their_cloths(trimmed(drafted, rooms), sheet.cloths)
    found = (*questions, *proof.findings, *evidence(drafted), *tinctures(drafted, sheet.cloth), *bands_lie(drafted))
    if grows(wearer) and choices.other is None:
        found = (*found, lasts(whole, wearer, lambda months: grown(wearer, months)))
    found = (*found, *layers(whole, _worn_beneath(sheet, body), body))
    found = (*found, *washed_sewn(drafted.pieces, proof.girths, sheet.cloths))
    return Garment(
        title=choices.style,
        wearer=wearer,
        choices=choices,
        cloths=sheet.cloths,
        draft=drafted,
        proof=replace(proof, findings=found),
        lays=(),
        steps=sew(drafted, sheet.cloths),
        cautions=(*cautions(drafted, wearer), *pinned(drafted, sheet.cloths)),
        questions=questions,
        prices=sheet.prices,
    )


def _rooms(cloths: Sequence[Cloth]) -> dict[str, Room]:
    """How wide what is sewn on may be, of each tincture."""
    return {
        each.tincture: Room(usable_width(each), each.crosswise != "never" and not each.nap and each.repeat is None)
        for each in cloths
        if each.tincture
    }


def _on_their_cloths(drafted: Draft, cloths: Sequence[Cloth]) -> Draft:
    """The draft with each piece cut from the cloth that is for it."""
    if len(cloths) == 1:
        return drafted
    return replace(drafted, pieces=tuple(replace(p, cloth=cloth_for(p, cloths).name) for p in drafted.pieces))
