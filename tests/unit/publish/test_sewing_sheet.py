"""The sewing order read back with pdfplumber (pdfminer), which shares no code with what wrote it."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any, Final

import pytest

import ellwand
from ellwand import prove_sheet
from ellwand.cli.commands import in_large_type
from ellwand.depict import words as say
from ellwand.depict.words.step_asking import finishing
from ellwand.depict.words.step_names import step_named
from ellwand.loading import load_sheet
from ellwand.model.garment import Garment
from ellwand.publish.sewing_sheet import sewing_pdf
from printed import letters, on_each_other, outside, pages
from sheets import sheet

EXAMPLES: Final = Path(ellwand.__file__).parent / "examples"
SHEETS: Final[dict[str, dict[str, Any]]] = {
    **{style: {"style": style} for style in ("hood", "cloak", "breeches", "coif", "apron")},
    "divided": {"division": {"by": "per pale", "tinctures": ["or", "gules"]}},
}


def garment(name: str) -> Garment:
    if name in SHEETS:
        return prove_sheet(sheet(SHEETS[name]))
    (path,) = EXAMPLES.glob(f"{name}-*.toml")
    return prove_sheet(load_sheet(path))


def plain(text: str) -> str:
    return re.sub(r"\s+", "", text)


@pytest.mark.parametrize("name", ["joan", "piers", "wat", "ailith", "hob", *SHEETS])
def test_every_step_stands_there_and_nothing_lies_on_anything(name: str) -> None:
    done = garment(name)
    read = pages(sewing_pdf(done))
    # the sentences stand in the right-hand column, where no lettering of pictures comes between their lines
    told = "".join(plain(page.crop((page.width * 0.45, 0, page.width, page.height)).extract_text()) for page in read)
    at = -1
    for step in done.steps:
        head = plain(f"{step.n}  {step_named(step.code)}")
        said = say.step(step, done.draft, done.wearer.unit).removesuffix(finishing(done.choices.sewing.finish))
        there = told.find(head + plain(said))
        assert there > at, (name, step.code)
        at = there
    for page in read:
        found = letters(page)
        assert not list(on_each_other(found)) and not outside(page, found)


def test_how_a_seam_is_finished_is_told_once() -> None:
    done = garment("joan")
    told = plain("".join(page.extract_text() for page in pages(sewing_pdf(done))))
    assert told.count(plain(finishing(done.choices.sewing.finish))) == 1


def test_the_same_bytes_each_time() -> None:
    done = garment("hood")
    assert sewing_pdf(done) == sewing_pdf(done)


@pytest.mark.parametrize("name", ["joan", "piers", "divided", "cloak"])
def test_in_large_type_no_letter_is_under_14_points_and_nothing_runs_into_anything(name: str) -> None:
    """Large print begins at 14 points (common practice, no source)."""
    read = pages(sewing_pdf(in_large_type(garment(name))))
    for page in read:
        found = letters(page)
        assert not list(on_each_other(found)) and not outside(page, found)
        assert min(letter.size for letter in found) > 13.5
