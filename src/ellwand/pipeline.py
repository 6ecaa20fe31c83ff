"""The one road: sheet, wearer, draft, proof, lay, sewing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from ellwand.choose import Sheet, read_sheet
from ellwand.draft import draft
from ellwand.errors import BadInput, CannotDraft
from ellwand.lay import lay_out
from ellwand.measure import wearer_from
from ellwand.model.choices import Choices
from ellwand.model.draft import Draft
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.wearer import Wearer
from ellwand.prove import cautions, prove
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


def _load(path: Path, depth: int) -> Sheet:
    try:
        if path.is_dir():
            raise BadInput("", "this is a folder", "name a sheet (a .toml file)")
        data = path.read_bytes()
    except OSError as error:
        why = "there is no such file" if isinstance(error, FileNotFoundError) else "the file cannot be read"
        raise BadInput(str(path), why, "name a sheet (a .toml file)") from None
    except BadInput as error:
        raise error.inside(str(path)) from None

    def beneath(name: str) -> float:
        if depth >= DEEPEST:
            raise BadInput("garment.over", "the sheets are worn over each other without end", "break the circle")
        under = _load(path.parent / name, depth + 1)
        return under.cloth.thickness_mm + under.choices.beneath_mm

    try:
        return read_sheet(data, beneath)
    except BadInput as error:
        raise error if depth else error.inside(str(path)) from None


def prove_sheet(sheet: Sheet, *, unit: Unit | None = None) -> Garment:
    """Draft and prove only.

    Raises BadInput (CannotDraft among it) with one sentence.
    """
    wearer = wearer_from(sheet.wearer)
    wearer = wearer if unit is None else replace(wearer, unit=unit)
    return _proved(sheet, sheet.choices, wearer, draft(sheet.choices, wearer, sheet.cloth.name))


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
        garment = _proved(sheet, halved, garment.wearer, draft(halved, garment.wearer, sheet.cloth.name))
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


def _proved(sheet: Sheet, choices: Choices, wearer: Wearer, drafted: Draft) -> Garment:
    return Garment(
        title=choices.style,
        wearer=wearer,
        choices=choices,
        cloths=(sheet.cloth,),
        draft=drafted,
        proof=prove(drafted, wearer),
        lays=(),
        steps=sew(drafted),
        cautions=cautions(drafted, wearer),
    )
