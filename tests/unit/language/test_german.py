"""German through and through: no English word is left in what a maker reads.

The check knows nothing of the catalogue: it looks for the commonest English words, those of any running text and those
of sewing, in what is printed, outside of what stays as the sheet has it: keys, their values in quotation marks, names.
"""

from __future__ import annotations

import io
import re
import threading
import tomllib
from collections import Counter
from collections.abc import Callable
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any, Final

import pdfplumber
import pytest

from broken_sheets import BROKEN, CLOTH, JOAN
from ellwand.cli.show import findings, lay_table, widths_table
from ellwand.depict.tables import pieces_table, shopping_table, steps_table
from ellwand.errors import BadInput, CannotDraft
from ellwand.language import is_chosen, speaking
from ellwand.lay import Found
from ellwand.loading import load_sheet
from ellwand.model.garment import Garment
from ellwand.pipeline import make, said
from ellwand.plan.widths import at_widths
from ellwand.publish import card_pdf, sewing_md
from ellwand.publish.garment_json import garment_json
from ellwand.publish.tables import tables_md
from sweep import garment_at, made

WORDS: Final = """
the of and with to is are for from at by on it be that this each or than then into its as which one two cut sew sewn
seam seams sleeve gore gores cloth fold edge edges piece pieces turn press stitch needle thread both where when sides
front back through first until along left right wide long length
"""
ENGLISH: Final = frozenset(WORDS.split())
"""Sixty of the commonest words of English running text and of English sewing; none of them is German."""
AS_WRITTEN: Final = (
    re.compile(r"[\w.\[\]]+ = (?:\"[^\"\n]*\"|\[[^\n]*?\]|[\w.]+)"),
    re.compile(r"\"[^\"\n]*\"|'[^'\n]*'|`[^`\n]*`"),
    re.compile(r"„[^“ ]*(?: [^“ ]*){0,2}“"),
    re.compile(r"\w+(?:\[\d+\])?(?:[._]\w+(?:\[\d+\])?)+"),
    re.compile(r"\[+[\w.]+\]+"),
)
"""What stays as the sheet has it: keys with values, values in quotation marks, tables, keys of several words, files."""
CHALK_LIST: Final = re.compile(r"^(?:step,|\d+,).*$", re.MULTILINE)
"""The chalk list is data for other programs."""
EXAMPLES: Final = sorted(Path(str(files("ellwand").joinpath("examples"))).glob("*.toml"))
SWEEP: Final = 20261126


def english(text: str) -> list[str]:
    """The lines of a text in which English words are left."""
    for source in _sources():
        text = text.replace(source, "")
    out = []
    for line in text.splitlines():
        plain = line
        for pattern in AS_WRITTEN:
            plain = pattern.sub(" ", plain)
        if ENGLISH & {word.lower() for word in re.findall(r"[^\W\d_]+", plain)}:
            out.append(line)
    return out


@cache
def _sources() -> tuple[str, ...]:
    """Titles of books and finds that a dated choice rests on: they are cited as they are called."""
    table = tomllib.loads(files("ellwand.prove").joinpath("evidence.toml").read_text(encoding="utf-8"))
    return tuple(sorted(table["sources"].values(), key=len, reverse=True))


def card_text(garment: Garment) -> str:
    """All that stands upright on the cut card; names along slanting lines come apart into letters when read."""
    with pdfplumber.open(io.BytesIO(card_pdf(garment))) as pdf:
        return "\n".join(page.filter(_stands).extract_text() for page in pdf.pages)


def _stands(thing: dict[str, Any]) -> bool:
    return "matrix" not in thing or abs(thing["matrix"][1]) < 1e-6


def tables(garment: Garment) -> str:
    """Pieces, what to buy and the order of sewing, as tables."""
    return tables_md("", (pieces_table(garment), shopping_table(garment), steps_table(garment)))


def test_there_are_sixty_words() -> None:
    assert len(ENGLISH) == 60


def test_the_check_finds_english() -> None:
    garment = make(load_sheet(EXAMPLES[0]), seconds=0)
    lines = findings(garment).splitlines()
    assert len(english("\n".join(lines))) > 0.9 * len(lines)
    assert not english('Den Keil tiefer beginnen: to = "the hem", garment.over[1], „left“, "cut end".')
    assert english("Die Naht „runs along the edge of it“ liegt gut.")


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_examples_are_german(path: Path) -> None:
    with speaking("de"):
        garment = make(load_sheet(path), seconds=0)
        left = {
            "findings": english(findings(garment)),
            "sewing": english(sewing_md(garment)),
            "tables": english(tables(garment)),
            "lay": english(CHALK_LIST.sub("", lay_table(garment))),
            "card": english(card_text(garment)),
        }
    assert {name: lines for name, lines in left.items() if lines} == {}


@cache
def swept(count: int) -> tuple[Garment, ...]:
    """Garments from the whole choice space, made in German; refusals on the way are German too."""
    out: list[Garment] = []
    i = 0
    with speaking("de"):
        while len(out) < count:
            try:
                out.append(made(*garment_at(SWEEP, i)))
            except CannotDraft as error:
                assert english(str(error)) == [], garment_at(SWEEP, i)
            i += 1
    return tuple(out)


@pytest.mark.parametrize("read", [findings, sewing_md, tables])
def test_garments_of_every_kind_are_german(read: Callable[[Garment], str]) -> None:
    with speaking("de"):
        left = [english(read(garment)) for garment in swept(60)]
    assert [lines for lines in left if lines] == []


def test_data_for_other_programs_stays_english() -> None:
    plain = garment_json(make(load_sheet(EXAMPLES[2]), seconds=0))
    with speaking("de"):
        assert garment_json(make(load_sheet(EXAMPLES[2]), seconds=0)) == plain


def test_cloths_side_by_side_are_german() -> None:
    with speaking("de"):
        sheet = load_sheet(EXAMPLES[2])
        table = widths_table(tuple(at_widths(sheet, (20.0, 150.0))), "cm", 9.5)
    assert english(table) == []


def refused(text: str, folder: Path) -> BadInput:
    """What a sheet is refused with."""
    path = folder / "sheet.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(BadInput) as error:
        make(load_sheet(path), seconds=0)
    return error.value


def code_in(sentence: str) -> Counter[str]:
    """What a sentence quotes of the sheet: keys with their values, words in quotation marks, tables."""
    return Counter(re.findall(r"\w+ = (?:\d+|\"[^\"]*\"|\[.*?\])|\"[^\"]*\"|'[^']*'|\[+[\w.]*\]+", sentence))


@pytest.mark.parametrize("text", BROKEN, ids=range(len(BROKEN)))
def test_a_broken_sheet_is_refused_in_german(text: str, tmp_path: Path) -> None:
    plain = refused(text, tmp_path)
    with speaking("de"):
        german = refused(text, tmp_path)
    assert german.where == plain.where
    assert german.problem != plain.problem
    for one, other in ((plain.problem, german.problem), (plain.mend, german.mend)):
        # what the TOML reader itself says stays as it is
        assert english(other.split("nicht lesen: ")[0]) == []
        assert bool(one) == bool(other)
        assert code_in(one) == code_in(other)


def test_a_sheet_is_refused_in_its_own_language(tmp_path: Path) -> None:
    backwards = f"{JOAN}[garment]\nlength = [60, 40]\n{CLOTH}"
    assert "write the least first" in str(refused(backwards, tmp_path))
    assert "zuerst schreiben" in str(refused(f'language = "de"\n{backwards}', tmp_path))
    with speaking("en"):
        assert "write the least first" in str(refused(f'language = "de"\n{backwards}', tmp_path))
    assert not is_chosen()


def test_a_list_of_people_is_refused_in_the_language_of_its_sheet(tmp_path: Path) -> None:
    (tmp_path / "class.csv").write_text("Name,Height,Bust\nJoan,164,96\n", encoding="utf-8")
    asked = f'language = "de"\n[wearer]\nlist = "class.csv"\nname = "Jon"\n{CLOTH}'
    assert "steht nicht in class.csv; vielleicht war 'Joan' gemeint" in str(refused(asked, tmp_path))
    assert not is_chosen()


def test_engines_in_other_threads_are_heard_in_the_language_spoken() -> None:
    heard: list[str] = []
    with speaking("de"):
        report = said(heard.append, "cm")
    thread = threading.Thread(target=report, args=(Found((), 123.5, "search, polished for wool", 0.6),))
    thread.start()
    thread.join()
    assert heard == ["0,6 s: 123,5 cm (Suche, nachgebessert), Stoff wool"]
