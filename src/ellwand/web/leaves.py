"""The chalk list as leaves, one for each piece on the cloth, to be read from beside it."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final
from xml.sax.saxutils import escape, quoteattr

from ellwand.depict.chalk import ChalkRow, chalk_rows
from ellwand.depict.lay_sheet import laid_size
from ellwand.depict.naming import cut_how, part_said
from ellwand.depict.placed import by_id, in_chalk_order, lie_ring
from ellwand.depict.sizes import chalked
from ellwand.depict.tables import WHAT
from ellwand.depict.words.lays import lay_name
from ellwand.geometry.lines import Line, Point, bounds
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay
from ellwand.model.names import named
from ellwand.publish.text import clean
from ellwand.units import Unit, format_length

ROUND: Final = 0.18
"""So much of a piece's size is left free around it for the letters of its corners."""
LETTER: Final = 0.085
"""The size of those letters, as a share of the picture's larger side."""


@dataclass(frozen=True, slots=True)
class Row:
    """One point to chalk: what it is, and how far from the cut end and from the left selvedge."""

    what: str
    along: str
    across: str
    more: str


@dataclass(frozen=True, slots=True)
class Leaf:
    """One piece where it lies; ``close`` and ``whole`` are drawings of it and of the cloth with it picked out."""

    number: int
    key: int
    name: str
    how: str
    cloth: str
    close: str
    whole: str
    rows: tuple[Row, ...]


def leaves(garment: Garment) -> tuple[Leaf, ...]:
    """Every piece on every cloth, in the order in which they are chalked."""
    out: list[Leaf] = []
    for lay in garment.lays:
        out += _of_lay(garment, lay, len(out))
    return tuple(out)


def mark_of(found: Sequence[Leaf]) -> str:
    """The same for the same leaves: what was ticked off belongs to these and no others."""
    held = [(leaf.name, leaf.cloth, leaf.rows) for leaf in found]
    return hashlib.sha256(repr(held).encode()).hexdigest()[:16]


def _of_lay(garment: Garment, lay: Lay, before: int) -> list[Leaf]:
    unit, pieces = garment.wearer.unit, garment.draft.pieces
    known = by_id(pieces)
    rings = [lie_ring(chalked(known[each.piece]), each) for each in in_chalk_order(lay.placements, pieces)]
    found = groupby(chalk_rows(lay, pieces, unit), key=lambda row: row.step)
    out = []
    for ring, (step, held) in zip(rings, found, strict=True):
        rows = list(held)
        name = f"{named(rows[0].piece)} {part_said(rows[0].part)}".strip()
        piece = next(each for each in pieces if each.name == rows[0].piece)
        out.append(
            Leaf(
                before + step,
                rows[0].key,
                name,
                cut_how(garment.draft, piece),
                lay_name(lay, garment.lays),
                _close(ring, rows, name),
                _whole(lay, rings, step - 1),
                tuple(_row(row, unit) for row in rows),
            )
        )
    return out


def _row(row: ChalkRow, unit: Unit) -> Row:
    def said(cm: float) -> str:
        return format_length(cm, unit, mark=False)

    more = [_("radius {radius}", radius=said(row.radius))] if row.radius else []
    if row.what == "slit":
        more.append(_("to {along} and {across}", along=said(row.to_along), across=said(row.to_across)))
    if row.note:
        more.append(row.note)
    what = row.letter if row.what == "corner" else f"{_(WHAT[row.what])} {row.letter}".strip()
    return Row(what, said(row.along), said(row.across), "; ".join(more))


def _close(ring: Line, rows: Sequence[ChalkRow], name: str) -> str:
    """The piece as it lies, the cut end at the left and the left selvedge above, its corners lettered."""
    points = [(y, x) for x, y in ring]
    x0, y0, x1, y1 = bounds(points)
    size = max(x1 - x0, y1 - y0)
    room, letter = ROUND * size, LETTER * size
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    texts = [_letter(row, middle, letter) for row in rows if row.what == "corner"]
    box = f"{x0 - room:.2f} {y0 - room:.2f} {x1 - x0 + 2 * room:.2f} {y1 - y0 + 2 * room:.2f}"
    said = quoteattr(clean(_("{piece} as it lies", piece=name)))
    return (
        f'<svg class="close" viewBox="{box}" role="img" aria-label={said}>'
        f'<path class="here" d="{_path(points)}" vector-effect="non-scaling-stroke"/>{"".join(texts)}</svg>'
    )


def _letter(row: ChalkRow, middle: Point, size: float) -> str:
    """A corner's letter, a little outside of it."""
    x, y = row.along, row.across
    out_x, out_y = (1 if x > middle[0] else -1), (1 if y > middle[1] else -1)
    return (
        f'<text x="{x + out_x * size * 0.7:.2f}" y="{y + out_y * size * 0.7:.2f}" dy="0.35em" text-anchor="middle"'
        f' font-size="{size:.2f}">{escape(row.letter)}</text>'
    )


def _whole(lay: Lay, rings: Sequence[Line], at: int) -> str:
    """The cloth with all pieces, this one picked out."""
    width, length = laid_size(lay)
    paths = [
        f'<path class="{"here" if n == at else "other"}" d="{_path([(y, x) for x, y in ring])}"'
        ' vector-effect="non-scaling-stroke"/>'
        for n, ring in enumerate(rings)
    ]
    return (
        f'<svg class="whole" viewBox="-1 -1 {length + 2:.2f} {width + 2:.2f}" aria-hidden="true">'
        f'<rect width="{length:.2f}" height="{width:.2f}" vector-effect="non-scaling-stroke"/>{"".join(paths)}</svg>'
    )


def _path(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{x:.2f} {y:.2f}" for x, y in points) + "Z"
