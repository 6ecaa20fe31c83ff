"""The card's part on cloth: what to buy, every lay as large as there is room for, and its chalk list."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from ellwand.depict.chalk import ChalkRow, chalk_rows
from ellwand.depict.lay_lengths import BETWEEN, cuts_for, in_lengths, lengths_for
from ellwand.depict.lay_sheet import laid_size
from ellwand.depict.laying import lay_drawing
from ellwand.depict.naming import part_said
from ellwand.depict.shopping import shopping_rows
from ellwand.depict.tearing import block_chalk, tear_drawing, tear_rows
from ellwand.depict.words.lays import how_it_lies, how_short, lay_name, measured_from
from ellwand.language import N_, _
from ellwand.model.drawing import Drawing
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.names import named
from ellwand.model.piece import Piece
from ellwand.model.tearing import TearPlan
from ellwand.publish.card_type import CardType, heading
from ellwand.publish.typst_text import table, words
from ellwand.units import Unit, format_length

MARGINS: Final = 2.7
"""What stands to the left and right of a lay on paper (cm)."""
LARGEST: Final = 0.1
"""A lay's largest scale: one to ten."""


@dataclass(frozen=True, slots=True)
class LayPart:
    """One lay's part of the card: what stands above its picture, the picture, and what stands below.

    ``whole``: the picture for a scale (paper cm per cm), lying or upright; lying it is cut up at ``cuts``.
    """

    lay: Lay
    pieces: tuple[Piece, ...]
    above: str
    below: str
    whole: Callable[[float, bool], Drawing]
    cuts: tuple[float, ...] = ()

    @property
    def lengths(self) -> int:
        """In how many lengths it is shown."""
        return len(self.cuts) + 1

    @property
    def lying(self) -> bool:
        """Whether it is longer than wide, so that it goes across the page."""
        width, length = laid_size(self.lay)
        return length > width

    def size(self, lying: bool) -> tuple[float, float]:
        """How wide and how high what lies on the table is on the page (cm of cloth)."""
        width, length = laid_size(self.lay)
        longest = max(b - a for a, b in itertools.pairwise((0.0, *self.cuts, length)))
        return (longest, width * self.lengths) if lying else (width, length)

    def draw(self, scale: float, lying: bool) -> Drawing:
        """The picture for a scale (paper cm per cm)."""
        drawn = self.whole(scale, lying)
        return in_lengths(drawn, self.lay, self.pieces, self.cuts if lying else (), scale)

    def fit_for(self, width: float, height: float) -> LayPart:
        """The same in as many lengths as make it largest there (cm on paper)."""
        count = lengths_for(self.lay, width - MARGINS, height)
        return replace(self, cuts=cuts_for(self.lay, self.pieces, count))


def lay_parts(garment: Garment, sizes: CardType) -> tuple[LayPart, ...]:
    """Every lay's part, in order."""
    torn = {plan.lay: plan for plan in garment.tears}
    return tuple(
        _torn_part(garment, torn[lay], sizes) if lay in torn else _chalked_part(garment, lay, sizes)
        for lay in garment.lays
    )


def buying(garment: Garment, sizes: CardType) -> str:
    """What to buy."""
    buy = " ".join(
        f"{words(f'{what[0].upper()}{what[1:]}: ', bold=True)} + {words(text)} + h(0.9em) +"
        for what, text in shopping_rows(garment)
    )
    return f"{heading(_('To buy'), sizes)}\n#par({buy} [])"


def scale_for(parts: Sequence[LayPart], room: float, most: float) -> float:
    """One scale for all lays: each at most as wide as the ``room`` and ``most`` cm high, upright a quarter more."""
    scales = [LARGEST]
    for part in parts:
        across, up = part.size(part.lying)
        high = most - BETWEEN * (part.lengths - 1) if part.lying else 1.25 * most
        scales.append(min((room - MARGINS) / across, high / up))
    return min(scales)


def _chalked_part(garment: Garment, lay: Lay, sizes: CardType) -> LayPart:
    unit, pieces = garment.wearer.unit, garment.draft.pieces
    cloth = next(each for each in garment.cloths if each.name == lay.cloth)
    along, aside = measured_from(lay)
    intro = " ".join(
        said
        for said in (
            how_it_lies(lay, unit),
            how_short(lay, unit),
            _("The small figures are distances: from {along} / from {aside}.", along=along, aside=aside),
        )
        if said
    )
    name = lay_name(lay, garment.lays)
    several = len(garment.lays) > 1
    chalk = _(_CHALK, along=along, across=aside)
    above = [heading(f"{name[0].upper()}{name[1:]}", sizes), f"#block(sticky: true, {words(intro)})"]
    below = [
        heading(_("Chalk list: {lay}", lay=name) if several else _("Chalk list"), sizes),
        f"#block(sticky: true, {words(chalk)})",
        _chalk_table(garment, lay, sizes),
    ]

    def draw(scale: float, lying: bool) -> Drawing:
        return lay_drawing(lay, pieces, unit, cloth=cloth, scale=scale, lying=lying)

    return LayPart(lay, pieces, "\n".join(above), "\n".join(below), draw)


def _torn_part(garment: Garment, plan: TearPlan, sizes: CardType) -> LayPart:
    """A cloth that is torn: its tears drawn and told, then what is chalked in the blocks, piece by piece."""
    unit, pieces = garment.wearer.unit, garment.draft.pieces
    cloth = next(each for each in garment.cloths if each.name == plan.lay.cloth)
    name = lay_name(plan.lay, garment.lays)
    tears = [[words(str(row.n)), words(row.words)] for row in tear_rows(plan, unit)]
    above = [
        heading(f"{name[0].upper()}{name[1:]}", sizes),
        f"#block(sticky: true, {words(f'{how_it_lies(plan.lay, unit)} {how_short(plan.lay, unit)}')})",
    ]
    below = [
        heading(_("Tear in this order"), sizes),
        table(["auto", "1fr"], ["", _("tear")], tears, sizes.rows, air=sizes.air),
    ]
    blocks = block_chalk(plan, pieces, unit)
    if blocks:
        cells = [
            [words(block.name, bold=True), words(f"{row[0].key} {named(row[0].piece)}"), words(chalk_text(row, unit))]
            for block, rows in blocks
            for row in _by_step([replace(row, note="" if row.what == "corner" else row.note) for row in rows])
        ]
        below += [
            heading(_("Then chalk and cut in the torn blocks"), sizes),
            f"#block(sticky: true, {words(_(_IN_BLOCKS))})",
            table(["auto", "auto", "1fr"], [_("block"), _("piece"), _("chalk at")], cells, sizes.rows, air=sizes.air),
        ]

    def draw(scale: float, lying: bool) -> Drawing:
        return tear_drawing(plan, pieces, unit, cloth=cloth, scale=scale, lying=lying)

    return LayPart(plan.lay, pieces, "\n".join(above), "\n".join(below), draw)


def _by_step(rows: Sequence[ChalkRow]) -> list[list[ChalkRow]]:
    steps: dict[int, list[ChalkRow]] = {}
    for row in rows:
        steps.setdefault(row.step, []).append(row)
    return list(steps.values())


_IN_BLOCKS = N_(
    "Every corner: its letter, distance from the block's lower end / distance from its left edge, as the block lay in"
    " the cloth. Blocks that are not named here are torn to the pieces' own size."
)

_CHALK = N_(
    "In this order. Every corner: its letter, distance from {along} / distance from {across}. The letters run"
    " counter-clockwise from the corner nearest {along}. Join them with straight lines; swing arcs with a string."
)


def _chalk_table(garment: Garment, lay: Lay, sizes: CardType) -> str:
    unit = garment.wearer.unit
    cells = []
    for rows in _by_step(chalk_rows(lay, garment.draft.pieces, unit)):
        first = rows[0]
        name = f"{named(first.piece)} {part_said(first.part)}".strip()
        cells.append(
            [words(str(first.step)), words(str(first.key), bold=True), words(name), words(chalk_text(rows, unit))]
        )
    head = ["", _("no."), _("piece"), _("chalk at")]
    return table(["auto", "auto", "auto", "1fr"], head, cells, sizes.rows, air=sizes.air)


def chalk_text(rows: list[ChalkRow], unit: Unit) -> str:
    """One piece's rows in words; no pair of distances is broken at a line's end."""
    nbsp = "\u00a0"

    def at(along: float, across: float) -> str:
        pair = f"{format_length(along, unit, mark=False)} / {format_length(across, unit, mark=False)}"
        return pair.replace(" ", nbsp)

    parts = []
    corners = [f"{row.letter}{nbsp}{at(row.along, row.across)}" for row in rows if row.what == "corner"]
    if corners:
        parts.append("   ".join(corners))
    parts += [row.note for row in rows if row.what == "corner" and row.note]
    curves = [row for row in rows if row.what == "curve"]
    for ends in dict.fromkeys(row.letter for row in curves):
        spots = ", ".join(at(row.along, row.across) for row in curves if row.letter == ends)
        parts.append(_("curve {ends} through {spots}", ends=ends, spots=spots))
    for row in rows:
        spot = at(row.along, row.across)
        if row.what == "arc":
            said = _(
                "arc {ends}: radius {radius} about {spot}",
                ends=row.letter,
                radius=format_length(row.radius, unit),
                spot=spot,
            )
            off = min(row.along, row.across) < 0
            parts.append(said + " " + _("(off the cloth, where the string is pinned to the table)") if off else said)
        elif row.what == "slit":
            to = at(row.to_along, row.to_across)
            if row.note:
                parts.append(_("slit {note}: {spot} to {to}", note=row.note, spot=spot, to=to))
            else:
                parts.append(_("slit: {spot} to {to}", spot=spot, to=to))
        elif row.what == "neck":
            parts.append(_("{neck}, which is at {spot}", neck=row.note, spot=spot))
        elif row.what == "facing":
            parts.append(row.note)
    return ".  ".join(parts) + "."
