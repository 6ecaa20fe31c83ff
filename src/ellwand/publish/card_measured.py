"""The parts of a card as Typst content, and how high each of them is: measured once, before anything is placed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, NamedTuple

from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.publish.card_adornment import adornment_section
from ellwand.publish.card_closing import findings, sewing
from ellwand.publish.card_front import head, key, title_of
from ellwand.publish.card_hang import hang_section
from ellwand.publish.card_lays import LayPart, buying, lay_parts
from ellwand.publish.card_type import ABOVE, CardType
from ellwand.publish.paper import Paper, paper_for
from ellwand.publish.typst_text import FONT, PRELUDE, heights, quoted, words

FLOW: Final = 0.25
"""Between a paragraph and a picture (cm)."""
SHARED: Final = 9.0
"""How high the lays may be together on a page that they share (cm)."""


class Block(NamedTuple):
    """A part of the card as Typst content, and how high it is (cm)."""

    text: str
    high: float


class End(NamedTuple):
    """What follows the lays."""

    sewing: Block
    adornment: Block
    findings: Block


@dataclass(frozen=True, slots=True)
class Measured:
    """The parts of a card, measured.  ``around``: of each lay all above its picture, and all below."""

    setting: str
    paper: Paper
    front: Block
    key: Block
    buying: Block
    lays: tuple[LayPart, ...]
    around: tuple[tuple[Block, Block], ...]
    end: End

    @property
    def room(self) -> float:
        """The height between the margins of a page (cm)."""
        return self.paper.height - 2 * self.paper.margin

    @property
    def told(self) -> float:
        """How high all that is said of the lays is, with the air about it (cm)."""
        return sum(2 * FLOW for _ in self.around) + sum(stacked(each) for each in self.around)


def stacked(blocks: Iterable[Block]) -> float:
    """How high blocks that begin with a heading are below each other (cm)."""
    return sum(block.high + ABOVE for block in blocks if block.text)


def measured(garment: Garment, sizes: CardType) -> Measured:
    """All parts of the card, measured in one run."""
    paper = paper_for(garment.wearer.unit)
    setting = _setting(garment, paper, sizes)
    lays = tuple(part.fit_for(paper.room, SHARED / max(1, len(garment.lays))) for part in lay_parts(garment, sizes))
    texts = [head(garment, paper, sizes), key(garment, sizes), buying(garment, sizes)]
    texts += [text for part in lays for text in (part.above, part.below)]
    closing = "\n".join(text for text in (findings(garment, sizes), hang_section(garment, sizes)) if text)
    texts += [sewing(garment, sizes), adornment_section(garment, sizes), closing]
    blocks = [Block(*each) for each in zip(texts, heights(setting, texts, paper.room), strict=True)]
    (front, under, bought), told, end = blocks[:3], blocks[3:-3], End(*blocks[-3:])
    around = tuple(zip(told[::2], told[1::2], strict=True))
    return Measured(setting, paper, front, under, bought, lays, around, end)


def _setting(garment: Garment, paper: Paper, sizes: CardType) -> str:
    title = title_of(garment)
    pages = _("{n} of {count}", n="#counter(page).display()", count="#counter(page).final().first()")
    return "\n".join(
        [
            f"#set document(title: {quoted(title)}, date: none)",
            f"#set page(width: {paper.width}cm, height: {paper.height}cm, margin: {paper.margin}cm,"
            f" footer-descent: 2mm, footer: context align(right, text(size: {sizes.foot}pt, [#{words(title)},"
            f" {pages}])))",
            f'#set text(font: "{FONT}", size: {sizes.text}pt, hyphenate: false)',
            "#set par(leading: 0.45em, spacing: 0.6em)",
            "#set table(align: left + horizon)",
            "#set table.cell(breakable: false)",
            PRELUDE,
        ]
    )
