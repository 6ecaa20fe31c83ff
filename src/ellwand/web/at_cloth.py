"""One garment as it is chalked: what lies on each cloth, piece by piece from its end on."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from ellwand.depict.chalk import ChalkRow, chalk_rows, corner_letters
from ellwand.depict.chalk_notes import half_on_cloth
from ellwand.depict.lay_sheet import laid_size
from ellwand.depict.naming import cut_how, numbers, part_name, part_said
from ellwand.depict.pieces import piece_drawing
from ellwand.depict.placed import by_id, in_chalk_order, lie_ring
from ellwand.depict.sizes import chalked, extent, is_traced
from ellwand.depict.tearing import block_chalk, tear_rows
from ellwand.depict.words.lays import how_it_lies, lay_name, measured_from
from ellwand.geometry.lines import Line, bounds
from ellwand.language import _
from ellwand.model.garment import Garment
from ellwand.model.lay import Lay, Placement
from ellwand.model.names import named
from ellwand.model.piece import Piece
from ellwand.publish.card_lays import chalk_text
from ellwand.units import format_length
from ellwand.web.drawn import plain_svg

WIDE: Final = 4.6
HIGH: Final = 6.4
"""A piece is drawn on so much paper (cm), which fills a phone: its lettering is then twice as large as on the card."""
SAME: Final = 0.05
"""Widths that differ by less (cm) are one."""


@dataclass(frozen=True, slots=True)
class OnCloth:
    """One lay: how it lies, and how it is torn where it is; drawn lying, its cut end to the left, ``size`` cm."""

    name: str
    how: str
    tears: tuple[str, ...]
    along: str
    across: str
    size: tuple[float, float]
    outlines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Turn:
    """One piece's turn at the cloth. ``where``: on which ``OnCloth``; ``mine``: which of its outlines.

    ``near`` and ``beside``: from where the corners' distances count; ``letters``: where its corners are in the picture.
    """

    n: int
    key: str
    where: int
    mine: int
    number: int
    name: str
    how: str
    sizes: tuple[tuple[str, str], ...]
    place: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]
    near: str
    beside: str
    letters: tuple[tuple[str, float, float], ...]
    corners: tuple[tuple[str, str, str], ...]
    drawing: str


def on_cloths(garment: Garment) -> tuple[tuple[OnCloth, ...], tuple[Turn, ...]]:
    """Every lay, and every piece in the order that it is chalked in."""
    cloths, turns = [], list[Turn]()
    for where, lay in enumerate(garment.lays):
        placed = in_chalk_order(lay.placements, garment.draft.pieces)
        rings = _rings(lay, placed, garment.draft.pieces)
        cloths.append(_on_cloth(garment, lay, rings))
        turns += _turns(garment, lay, where, placed, rings, len(turns))
    return tuple(cloths), tuple(turns)


def mark_of(garment: Garment) -> str:
    """The same for the same pieces lying in the same places, and for no others."""
    cut = [
        (piece.id, [[f"{x:.2f} {y:.2f}" for x, y in ring] for ring in _cut(piece)]) for piece in garment.draft.pieces
    ]
    lies = [
        (
            lay.cloth,
            lay.remnant,
            lay.fold,
            [(p.part, f"{p.x:.2f} {p.y:.2f} {p.turn:.1f}", p.flip) for p in lay.placements],
        )
        for lay in garment.lays
    ]
    return hashlib.sha256(repr((cut, lies)).encode()).hexdigest()[:20]


def _cut(piece: Piece) -> tuple[Line, ...]:
    return (piece.cut, *piece.cut_holes)


def _rings(lay: Lay, placed: Sequence[Placement], pieces: Sequence[Piece]) -> list[Line]:
    """What is chalked of each; of one on the fold the half that lies on the cloth."""
    known = by_id(pieces)
    whole = [(each, lie_ring(chalked(known[each.piece]), each)) for each in placed]
    return [half_on_cloth(ring, lay) if each.on_fold else ring for each, ring in whole]


def _on_cloth(garment: Garment, lay: Lay, rings: Sequence[Line]) -> OnCloth:
    unit = garment.wearer.unit
    along, across = measured_from(lay)
    plan = next((plan for plan in garment.tears if plan.lay == lay), None)
    width, length = laid_size(lay)
    name = lay_name(lay, garment.lays)
    return OnCloth(
        f"{name[:1].upper()}{name[1:]}",
        how_it_lies(lay, unit),
        tuple(row.words for row in tear_rows(plan, unit)) if plan else (),
        along,
        across,
        (length, width),
        tuple(" ".join(f"{y:.1f},{x:.1f}" for x, y in ring) for ring in rings),
    )


def _turns(
    garment: Garment, lay: Lay, where: int, placed: Sequence[Placement], rings: Sequence[Line], before: int
) -> Iterator[Turn]:
    """Each piece of a lay, counted on from those of the lays ``before`` it."""
    unit, pieces = garment.wearer.unit, garment.draft.pieces
    known, key = by_id(pieces), numbers(pieces)
    along, across = measured_from(lay)
    rows = _chalked_at(garment, lay, placed)
    for i, (placement, ring) in enumerate(zip(placed, rings, strict=True)):
        piece = known[placement.piece]
        block, own = rows[i]
        x0, y0, _x1, _y1 = bounds(ring)
        corners = [row for row in own if row.what == "corner"]
        rest = [row for row in own if row.what not in ("corner", "neck point")]
        notes = [row.note for row in corners if row.note]
        if block and not own:
            notes.append(_("torn to its own size: nothing to chalk"))
        yield Turn(
            n=before + i + 1,
            key=f"{lay.cloth}-{lay.remnant}-{placement.part}",
            where=where,
            mine=i,
            number=key[piece.id],
            name=f"{named(piece.name)} {part_said(part_name(placement.part, piece))}".strip(),
            how=cut_how(garment.draft, piece),
            sizes=tuple((name, format_length(cm, unit, mark=False)) for name, cm in _sizes(piece, placement, lay)),
            place=(("", _("block {name}", name=block)),)
            if block
            else (
                (_("from {place}", place=along), format_length(y0, unit, mark=False)),
                (_("from {place}", place=across), format_length(x0, unit, mark=False)),
            ),
            letters=tuple((letter, round(y, 1), round(x, 1)) for letter, (x, y) in corner_letters(ring)),
            near=_("the lower end of the block") if block else along,
            beside=_("the left edge of the block") if block else across,
            notes=(*notes, *([chalk_text(rest, unit)] if rest else [])),
            corners=tuple(
                (row.letter, format_length(row.along, unit, mark=False), format_length(row.across, unit, mark=False))
                for row in corners
            ),
            drawing=_drawn(garment, piece),
        )


def _chalked_at(garment: Garment, lay: Lay, placed: Sequence[Placement]) -> list[tuple[str, list[ChalkRow]]]:
    """What is chalked for each piece; of a cloth that is torn, in which block, and from where that begins."""
    unit, pieces = garment.wearer.unit, garment.draft.pieces
    plan = next((plan for plan in garment.tears if plan.lay == lay), None)
    if plan is None:
        rows = chalk_rows(lay, pieces, unit)
        return [("", [row for row in rows if row.step == step]) for step in range(1, len(placed) + 1)]
    block_of = {part: block.name for block in plan.blocks for part in block.parts}
    known, key = by_id(pieces), numbers(pieces)
    chalk: dict[tuple[str, int, str], list[ChalkRow]] = {}
    for block, found in block_chalk(plan, pieces, unit):
        for row in found:
            chalk.setdefault((block.name, row.key, row.part), []).append(row)
    out = []
    for each in placed:
        name = block_of.get(each.part, "")
        out.append((name, chalk.get((name, key[each.piece], part_name(each.part, known[each.piece])), [])))
    return out


def _sizes(piece: Piece, placement: Placement, lay: Lay) -> Iterator[tuple[str, float]]:
    """The numbers to chalk it by, as it lies: length along the grain, then widths."""
    x0, y0, x1, y1 = bounds(chalked(piece))
    size = extent(piece)
    on_length, on_width = (placement.on_fold and lay.fold == way for way in ("crosswise", "lengthwise"))
    yield (_("long, from the fold"), (y1 - y0) / 2) if on_length else (_("long"), y1 - y0)
    half = 2 if on_width else 1
    yield (_("wide, from the fold"), (x1 - x0) / 2) if on_width else (_("wide"), x1 - x0)
    if is_traced(piece):
        return
    for name, cm in ((_("wide below"), size.bottom_width), (_("wide above"), size.top_width)):
        if abs(cm - (x1 - x0)) > SAME and cm > SAME:
            yield name, cm / half
    if size.side > SAME:
        yield _("slanted side"), size.side


def _drawn(garment: Garment, piece: Piece) -> str:
    x0, y0, x1, y1 = bounds(piece.cut)
    scale = min(WIDE / (x1 - x0), HIGH / (y1 - y0))
    number = numbers(garment.draft.pieces)[piece.id]
    return plain_svg(piece_drawing(piece, garment.wearer.unit, number=number, scale=scale), scale, named(piece.name))
