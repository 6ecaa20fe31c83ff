"""The one road: sheet, wearer, draft, proof, lay, sewing."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

from ellwand.choose import Sheet, read_sheet
from ellwand.draft import draft, draft_to_grow
from ellwand.errors import BadInput, CannotDraft
from ellwand.lay import lay_out
from ellwand.measure import check_human, doubts, estimate, grown, grows, read_people, read_raw
from ellwand.model.choices import Choices
from ellwand.model.draft import Draft
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.wearer import Wearer
from ellwand.prove import cautions, prove
from ellwand.prove.lasting import lasts
from ellwand.prove.on_cloth import prove_on_cloth
from ellwand.sew import sew
from ellwand.units import Unit

Progress = Callable[[str], None]
DEEPEST = 8
"""No one wears more garments over each other than this."""


def _silent(_: str) -> None:
    return None


def load_sheet(path: Path) -> Sheet:
    """The sheet in a file.

    Raises BadInput naming the file, the key and the mend.
    """
    return _load(path, 0)


def read_file(path: Path, what: str) -> bytes:
    """The bytes of a file that should be ``what`` ('a sheet (a .toml file)').

    Raises BadInput naming the file and what would do.
    """
    try:
        if path.is_dir():
            raise BadInput(str(path), "this is a folder", f"name {what}")
        return path.read_bytes()
    except OSError as error:
        why = "there is no such file" if isinstance(error, FileNotFoundError) else "the file cannot be read"
        raise BadInput(str(path), why, f"name {what}") from None


def _load(path: Path, depth: int) -> Sheet:
    data = read_file(path, "a sheet (a .toml file)")

    def beneath(name: str) -> float:
        if depth >= DEEPEST:
            raise BadInput("garment.over", "the sheets are worn over each other without end", "break the circle")
        under = _load(path.parent / name, depth + 1)
        return under.cloth.thickness_mm + under.choices.beneath_mm

    try:
        sheet = read_sheet(data, beneath)
        return replace(sheet, wearer=_from_list(sheet.wearer, path.parent)) if "list" in sheet.wearer else sheet
    except BadInput as error:
        raise error if depth else error.inside(str(path)) from None


def _from_list(wearer: Mapping[str, object], folder: Path) -> Mapping[str, object]:
    """The wearer of that name out of the list of people it names; what the sheet itself says goes before."""
    file, name = wearer["list"], wearer.get("name")
    if not isinstance(file, str) or not isinstance(name, str):
        raise BadInput("wearer.list", "a list needs a file and a name", 'write list = "class.csv" and name = "Joan"')
    people = read_people(read_file(folder / file, "a list of people (a .csv file)")).tables
    found = [table for table in people if str(table["name"]).casefold() == name.strip().casefold()]
    if len(found) != 1:
        why = f"{name!r} is not in {file}" if not found else f"{name!r} is {len(found)} times in {file}"
        near = difflib.get_close_matches(name, [str(table["name"]) for table in people], n=1)
        raise BadInput("wearer.name", why, f"perhaps {near[0]!r} was meant" if near else "name one person of the list")
    return {**found[0], **{key: value for key, value in wearer.items() if key not in ("list", "name")}}


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
    try:
        lay = _laid(garment.draft, sheet, seconds, seed)
    except CannotDraft:
        halved = _gores_in_halves(sheet.choices)
        if halved == sheet.choices:
            raise
        # the maker left it open whether gores are whole: on a cloth too narrow for that they come in halves
        garment = _proved(sheet, halved, garment.wearer, garment.questions)
        lay = _laid(garment.draft, sheet, seconds, seed)
    found = prove_on_cloth(lay, garment.draft.pieces, sheet.cloth)
    return replace(
        garment,
        lays=(lay,),
        proof=replace(garment.proof, findings=garment.proof.findings + found),
    )


def _laid(drafted: Draft, sheet: Sheet, seconds: float, seed: int) -> Lay:
    return lay_out(drafted.pieces, drafted.parts, sheet.cloth, seconds=seconds, seed=seed)


def _gores_in_halves(choices: Choices) -> Choices:
    return replace(
        choices,
        gores=tuple(replace(gore, make="halves") if gore.make == "either" else gore for gore in choices.gores),
    )


def _proved(sheet: Sheet, choices: Choices, wearer: Wearer, questions: tuple[Finding, ...]) -> Garment:
    """Drafted and proved on the wearer, or on the body that a child is to grow into."""
    body, growth = wearer, choices.growth
    if growth is None:
        drafted = draft(choices, wearer, sheet.cloth.name)
    else:
        body = grown(wearer, growth.months)
        drafted = draft_to_grow(choices, growth, wearer, body, sheet.cloth.name)
    proof = prove(drafted, body)
    found = (*questions, *proof.findings)
    if grows(wearer):
        found = (*found, lasts(drafted, wearer, lambda months: grown(wearer, months)))
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
