"""The card's part on cloth: what to buy, every lay as large as there is room for, and its chalk list."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from ellwand.depict.chalk import ChalkRow, chalk_rows
from ellwand.depict.lay_sheet import laid_size
from ellwand.depict.laying import lay_drawing
from ellwand.depict.shopping import shopping_rows
from ellwand.depict.tearing import block_chalk, tear_drawing, tear_rows
from ellwand.depict.words.lays import how_it_lies, how_short, lay_name, measured_from
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.tearing import TearPlan
from ellwand.publish.paper import Paper
from ellwand.publish.typst_text import picture, table, words
from ellwand.units import Unit, format_length

MARGINS: Final = 2.7
"""What stands to the left and right of a lay on paper (cm)."""
LARGEST: Final = 0.1
"""A lay's largest scale: one to ten."""


def lays(garment: Garment, paper: Paper, tall: float) -> str:
    """What to buy, and the lays at one scale, each up to ``tall`` cm high on paper."""
    scale = min((_scale(lay, paper, tall) for lay in garment.lays), default=LARGEST)
    torn = {plan.lay: plan for plan in garment.tears}
    return "\n".join(
        [
            _buying(garment),
            *(
                _torn_section(garment, torn[lay], scale) if lay in torn else _lay_section(garment, lay, scale)
                for lay in garment.lays
            ),
        ]
    )


def heading(text: str) -> str:
    """A heading of the card."""
    return f"#block(above: 4mm, below: 2mm, sticky: true, {words(text, size=12.5, bold=True)})"


def _buying(garment: Garment) -> str:
    buy = " ".join(
        f"{words(f'{what[0].upper()}{what[1:]}: ', bold=True)} + {words(text)} + h(0.9em) +"
        for what, text in shopping_rows(garment)
    )
    return f"{heading('To buy')}\n#par({buy} [])"


def _scale(lay: Lay, paper: Paper, most: float) -> float:
    """Paper cm per cm, so that the lay is as wide as the page or ``most`` cm high, upright a quarter more."""
    width, length = laid_size(lay)
    across, up, high = (length, width, most) if length > width else (width, length, 1.25 * most)
    return min((paper.room - MARGINS) / across, high / up, LARGEST)


def _lay_section(garment: Garment, lay: Lay, scale: float) -> str:
    unit = garment.wearer.unit
    width, length = laid_size(lay)
    lying = length > width
    cloth = next(each for each in garment.cloths if each.name == lay.cloth)
    drawing = lay_drawing(lay, garment.draft.pieces, unit, cloth=cloth, scale=scale, lying=lying)
    along, aside = measured_from(lay)
    intro = " ".join(
        said
        for said in (
            how_it_lies(lay, unit),
            how_short(lay, unit),
            f"The small figures are distances: from {along} / from {aside}.",
        )
        if said
    )
    name = lay_name(lay, garment.lays)
    several = len(garment.lays) > 1
    chalk = _CHALK.format(along=along, across=aside)
    return "\n".join(
        [
            heading(f"{name[0].upper()}{name[1:]}"),
            f"#block(sticky: true, {words(intro)})",
            f"#align(center)[{picture(drawing, scale)}]",
            heading(f"Chalk list: {name}" if several else "Chalk list"),
            f"#block(sticky: true, {words(chalk)})",
            _chalk_table(garment, lay),
        ]
    )


def _torn_section(garment: Garment, plan: TearPlan, scale: float) -> str:
    """A cloth that is torn: its tears drawn and told, then what is chalked in the blocks, piece by piece."""
    unit, pieces = garment.wearer.unit, garment.draft.pieces
    width, length = laid_size(plan.lay)
    cloth = next(each for each in garment.cloths if each.name == plan.lay.cloth)
    drawing = tear_drawing(plan, pieces, unit, cloth=cloth, scale=scale, lying=length > width)
    name = lay_name(plan.lay, garment.lays)
    tears = [[words(str(row.n)), words(row.words)] for row in tear_rows(plan, unit)]
    out = [
        heading(f"{name[0].upper()}{name[1:]}"),
        f"#block(sticky: true, {words(f'{how_it_lies(plan.lay, unit)} {how_short(plan.lay, unit)}')})",
        f"#align(center)[{picture(drawing, scale)}]",
        heading("Tear in this order"),
        table(["auto", "1fr"], ["", "tear"], tears, 9),
    ]
    blocks = block_chalk(plan, pieces, unit)
    if blocks:
        cells = [
            [words(block.name, bold=True), words(f"{row[0].key} {row[0].piece}"), words(chalk_text(row, unit))]
            for block, rows in blocks
            for row in _by_step([replace(row, note="" if row.what == "corner" else row.note) for row in rows])
        ]
        out += [
            heading("Then chalk and cut in the torn blocks"),
            f"#block(sticky: true, {words(_IN_BLOCKS)})",
            table(["auto", "auto", "1fr"], ["block", "piece", "chalk at"], cells, 9),
        ]
    return "\n".join(out)


def _by_step(rows: Sequence[ChalkRow]) -> list[list[ChalkRow]]:
    steps: dict[int, list[ChalkRow]] = {}
    for row in rows:
        steps.setdefault(row.step, []).append(row)
    return list(steps.values())


_IN_BLOCKS = (
    "Every corner: its letter, distance from the block's lower end / distance from its left edge, as the block lay in"
    " the cloth. Blocks that are not named here are torn to the pieces' own size."
)

_CHALK = (
    "In this order. Every corner: its letter, distance from {along} / distance from {across}. The letters run"
    " counter-clockwise from the corner nearest {along}. Join them with straight lines; swing arcs with a string."
)


def _chalk_table(garment: Garment, lay: Lay) -> str:
    unit = garment.wearer.unit
    cells = []
    for rows in _by_step(chalk_rows(lay, garment.draft.pieces, unit)):
        first = rows[0]
        name = f"{first.piece} {first.part}".strip()
        cells.append(
            [words(str(first.step)), words(str(first.key), bold=True), words(name), words(chalk_text(rows, unit))]
        )
    return table(["auto", "auto", "auto", "1fr"], ["", "no.", "piece", "chalk at"], cells, 9)


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
        parts.append(f"curve {ends} through {spots}")
    for row in rows:
        spot = at(row.along, row.across)
        if row.what == "arc":
            off = " (off the cloth, where the string is pinned to the table)" if min(row.along, row.across) < 0 else ""
            parts.append(f"arc {row.letter}: radius {format_length(row.radius, unit)} about {spot}{off}")
        elif row.what == "slit":
            parts.append(f"slit{' ' + row.note if row.note else ''}: {spot} to {at(row.to_along, row.to_across)}")
        elif row.what == "neck":
            parts.append(f"{row.note}, which is at {spot}")
        elif row.what == "facing":
            parts.append(row.note)
    return ".  ".join(parts) + "."
