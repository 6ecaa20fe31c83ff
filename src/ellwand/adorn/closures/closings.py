"""Every closure in numbers: how many fastenings, where they sit, what cord they take."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from ellwand.adorn.applied.collar import collar, underlaps
from ellwand.adorn.applied.facings import neck_facings, split_strips
from ellwand.adorn.closures.lacing import lace_length, rows
from ellwand.adorn.closures.openings import CENTRES, Lip, Opening, openings_at
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Point, length
from ellwand.language import _
from ellwand.model.choices import Closure, ClosureBy
from ellwand.model.closing import Closing
from ellwand.model.draft import Draft, piece_of
from ellwand.model.piece import Mark, MarkKind, Piece, edge_of
from ellwand.units import format_length, round_near


@dataclass(frozen=True, slots=True)
class Kind:
    """What is usual of one kind of fastening (cm): spacing, the first from the top, inset from the edge, cord of each
    beyond what goes round it; how wide a button or toggle is."""

    spacing: float
    first: float
    inset: float
    cord: float
    mark: MarkKind
    size: float = 0.0


KINDS: Final[dict[ClosureBy, Kind]] = {
    "buttons": Kind(2.0, 1.0, 1.0, 0.0, "button", 1.2),
    "hooks": Kind(2.0, 0.5, 0.5, 0.0, "hook"),
    "lacing": Kind(2.5, 1.0, 1.0, 0.0, "eyelet"),
    "loops": Kind(4.0, 1.0, 0.5, 3.0, "toggle", 1.6),
    "pins": Kind(8.0, 1.0, 1.0, 0.0, "pin"),
    "ties": Kind(10.0, 0.0, 0.0, 50.0, "tie"),
}
"""Buttons: buttonholes of two gowns from Herjolfsnes lie 1.8 cm (no. 63) and 2.25 cm (no. 64) apart; holes near the
edge (Thursfield, The Medieval Tailor's Assistant).  Ties: points 20 to 25 cm long, at most 10 cm apart (the same), so
a pair takes two of 25 cm.  A loop goes round its toggle, and 1.5 cm of each of its ends is sewn down.  The rest is
common practice, no source."""
CLOSE: Final = 0.8
"""Where buttons are set closer than the usual one is wide, they take so much of the distance: our own figure."""
CLOTH_BUTTONS: Final = ((0.6, 2.5), (1.5, 6.0))
"""(Width finished, width of the circle of cloth) of the least and the largest cloth button (cm): Thursfield, The
Medieval Tailor's Assistant."""
TAIL: Final = 20.0
"""Left at each end of a lace to tie (cm): common practice, no source."""
OVERLAP: Final = 3.0
"""How far an underlap lies beneath (cm): common practice, no source."""


def adorn(draft: Draft) -> Draft:
    """The draft with its closings, their places marked on its pieces, and its facings, collar and underlaps.

    Raises CannotDraft where an opening cannot be closed, or a neck faced, as asked.
    """
    closings: list[Closing] = []
    marks: dict[str, list[Mark]] = {}
    for closure in draft.choices.closures:
        found = openings_at(draft, closure.at)
        if not found:
            continue
        closing = _closing(draft, closure, found)
        closings.append(closing)
        for opening in found:
            for lip, places in ((opening.one, closing.one), (opening.other, closing.other)):
                piece = piece_of(draft, lip.ref.part)
                marks.setdefault(piece.id, []).extend(_marks(lip, places, KINDS[closure.by], piece, closing))
    pieces = tuple(replace(piece, marks=_once(marks.get(piece.id, []))) for piece in draft.pieces)
    placed = tuple(closings)
    put_on = [*neck_facings(draft), *split_strips(draft), *collar(draft, placed), *underlaps(draft, placed)]
    return replace(
        draft,
        pieces=(*pieces, *(each.piece for each in put_on)),
        applied=tuple(part for each in put_on for part in each.parts),
        closings=placed,
    )


def _closing(draft: Draft, closure: Closure, found: list[Opening]) -> Closing:
    kind = KINDS[closure.by]
    long, open_end = min(_run(draft, opening) for opening in found)
    spacing = kind.spacing if closure.spacing is None else closure.spacing
    if closure.by == "lacing" and closure.lap == "overlap":
        raise CannotDraft(
            "garment.closures",
            _("a lace draws the edges of the {at} together, so they cannot overlap", at=closure.at),
            _('choose lap = "edge to edge", or by = "buttons"'),
        )
    fine = _fine(draft.choices.sewing.chalk)
    first = round_near(kind.first, fine)
    count, pitch = _spread(long - first, spacing, open_end, 2 if closure.by == "lacing" else 1)
    pitch = math.floor(pitch / fine + 1e-6) * fine
    one, other = rows(closure.lacing if closure.by == "lacing" else "ladder", count, pitch)
    if not pitch or one[-1] + first > long + 1e-6:
        raise CannotDraft(
            "garment.closures",
            _(
                "the opening at the {at}, {long} long, is too short for {by}",
                at=closure.at,
                long=format_length(long),
                by=closure.by,
            ),
            _("choose another closure, or leave it out"),
        )
    size = _size(closure, kind, pitch if count > 1 else math.inf, fine)
    cord = count * (kind.cord + (math.pi * size if kind.cord else 0.0))
    pieces = count
    if closure.by == "lacing":
        pieces = len(one) + len(other)
        cord = lace_length(closure.lacing, count, pitch, 2 * kind.inset) + 2 * TAIL
    overlap = (OVERLAP if closure.overlap is None else closure.overlap) if closure.lap == "overlap" else 0.0
    return Closing(
        at=closure.at,
        by=closure.by,
        openings=len(found),
        length=long,
        start=found[0].start,
        count=count,
        pitch=pitch if count > 1 else 0.0,
        edges=found[0].edges,
        one=tuple(first + at for at in one),
        other=tuple(first + at for at in other),
        pieces=pieces,
        cord=cord,
        lacing=closure.lacing if closure.by == "lacing" else None,
        lap=closure.lap,
        overlap=overlap,
        size=size,
        circle=cloth_circle(size) if closure.by == "buttons" and closure.buttons == "cloth" else 0.0,
    )


def _size(closure: Closure, kind: Kind, pitch: float, fine: float) -> float:
    """How wide a button or toggle is: as asked, or the usual one, smaller where they are set close; 0 for the rest.

    Raises CannotDraft where those asked for do not fit beside each other.
    """
    if not kind.size or closure.size is None:
        return kind.size if kind.size < pitch else max(fine, math.floor(CLOSE * pitch / fine + 1e-6) * fine)
    if closure.size > pitch:
        wide, apart = format_length(closure.size), format_length(pitch)
        raise CannotDraft(
            "garment.closures",
            _("toggles {size} wide do not fit {pitch} apart", size=wide, pitch=apart)
            if closure.by == "loops"
            else _("buttons {size} wide do not fit {pitch} apart", size=wide, pitch=apart),
            _("choose smaller ones, or a wider spacing"),
        )
    return closure.size


def cloth_circle(button: float) -> float:
    """How wide (cm) the circle of cloth is for a cloth button that wide: straight between the two of CLOTH_BUTTONS.

    Raises CannotDraft where no such button is made.
    """
    (least, small), (most, large) = CLOTH_BUTTONS
    if not least - 1e-9 <= button <= most + 1e-9:
        raise CannotDraft(
            "garment.closures",
            _("cloth buttons {button} wide are not made", button=format_length(button)),
            _(
                'make them {least} to {most} wide, or choose buttons = "bought"',
                least=format_length(least),
                most=format_length(most),
            ),
        )
    return small + (large - small) * (button - least) / (most - least)


def _run(draft: Draft, opening: Opening) -> tuple[float, bool]:
    """(length that is closed, whether it is open at its far end too); what is open to the hem is closed to the hip."""
    long = min(length(opening.one.points), length(opening.other.points))
    lip = opening.one
    piece = piece_of(draft, lip.ref.part)
    if opening.at not in CENTRES or edge_of(piece, lip.ref.edge).kind != "split":
        return long, False
    below = max(0.0, draft.dimensions.levels["hip"])
    high = min((lip.points[0][1] - level.base_y) * level.up for level in piece.levels)
    return min(long, max(1.0, high - below)), True


def _spread(run: float, spacing: float, open_end: bool, least: int) -> tuple[int, float]:
    """(how many, how far apart, at most ``spacing``); the next would fall on the closed end, or on the hip."""
    gaps = max(1, math.ceil(run / spacing - 1e-6))
    if open_end:
        return max(least, gaps + 1), run / max(least - 1, gaps)
    return max(least, gaps), run / max(least, gaps)


def _fine(grid: float) -> float:
    """What distances on a row are rounded down to (cm), so that they add up: 1/8 in on an inch grid, else 1 mm."""
    eighth = 0.3175
    return eighth if abs(grid / eighth - round(grid / eighth)) < 1e-6 else 0.1


def _marks(lip: Lip, places: tuple[float, ...], kind: Kind, piece: Piece, closing: Closing) -> Iterator[Mark]:
    uneven = closing.one != closing.other and piece.count > 1 and closing.edges == ("left", "right")
    for place in places:
        at = _inside(lip, place, kind.inset)
        yield Mark(kind.mark, at, lip.ref.edge, place, lip.ref.part if uneven else "")


def _inside(lip: Lip, along: float, inset: float) -> Point:
    """The point so far along a lip and so far into the cloth."""
    walked = 0.0
    steps = list(itertools.pairwise(lip.points))
    for n, (a, b) in enumerate(steps):
        step = math.dist(a, b)
        if walked + step >= along - 1e-9 or n == len(steps) - 1:
            t = (along - walked) / step
            dx, dy = (b[0] - a[0]) / step, (b[1] - a[1]) / step
            sign = lip.inward
            return (a[0] + dx * t * step - dy * inset * sign, a[1] + dy * t * step + dx * inset * sign)
        walked += step
    raise ValueError("an opening without length")


def _once(marks: list[Mark]) -> tuple[Mark, ...]:
    """Each mark once: two parts cut alike are marked alike."""
    return tuple(dict.fromkeys(marks))
