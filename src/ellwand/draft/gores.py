"""Gores: flared pieces set into a line, whole or in halves, side by side and of any heights.

Where neighbours end at different heights, the taller goes on above the other's point against whatever stands next:
the panel, or the next tall one.  So at every height the panels and the gores that reach there stand in one row, and
each is sewn to its neighbour.

A blunt gore's top is sewn to both panels, which stand back beside it by half its width: the seam opens into a slot.
"""

from __future__ import annotations

import itertools
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ellwand.draft.blank import Book
from ellwand.draft.cutline import Cut
from ellwand.draft.flared import Allowances, Tops, flared, half_flared, hanging, shape_of
from ellwand.draft.joins import Sides, opposite
from ellwand.draft.piecing import pieced
from ellwand.draft.plan import Plan
from ellwand.draft.seamline import SeamLine, Segment, lowered
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import bounds
from ellwand.language import _
from ellwand.model.draft import Draft, EdgeRef
from ellwand.units import round_near

Refs = dict[tuple[int, str], dict[str, EdgeRef]]
"""(number in the row, the viewer's side) -> edges by tag; the panels are −1 and the number of gores."""
TIP_SHARE = 1 / 3
"""A pieced gore's tip is its upper third: common practice, no source."""


def draw_gores(plan: Plan, book: Book, sides: Sides) -> None:
    """Set the gores into every line that has them, and sew them to the panels and to each other.

    Raises CannotDraft where a split would run between a gore and a panel.
    """
    for (place, hand), line in plan.lines.items():
        if not line.wedges:
            continue
        row = _row(line)
        refs: Refs = {
            (-1, "right"): sides[place, hand, "left"],
            (len(line.wedges), "left"): sides[place, hand, "right"],
        }
        halves = 0
        for i, wedge in enumerate(line.wedges):
            first = wedge.half and halves % 2 == 0
            halves += wedge.half
            both = row.sides[i, "left"], row.sides[i, "right"]
            refs |= {(i, side): named for side, named in _gore(plan, book, line, hand, i, first, both).items()}
        for (i, one), (j, other) in row.seams:
            kind = "gore to panel" if i < 0 or j == len(line.wedges) else "gore to gore"
            book.sew(refs[i, "right"][one], refs[j, "left"][other], kind)
        if line.slot:
            book.sew(refs[-1, "right"]["slot"], refs[0, "left"]["top"], "gore to panel")
            book.sew(
                refs[len(line.wedges) - 1, "right"]["top"], refs[len(line.wedges), "left"]["slot"], "gore to panel"
            )


# --- who stands beside whom -----------------------------------------------------------------------------

End = tuple[int, str]
"""A gore's or panel's number, and the tag of its edge."""


@dataclass(frozen=True, slots=True)
class Row:
    """The edges of every gore's sides from the hem up, and which are sewn together."""

    sides: dict[tuple[int, str], list[Segment]]
    seams: list[tuple[End, End]]


def _row(line: SeamLine) -> Row:
    sides: dict[tuple[int, str], list[Segment]] = defaultdict(list)
    seams: list[tuple[End, End]] = []
    count, low = len(line.wedges), 0.0
    for n, (panel_tag, _edge, size) in enumerate(line.rises()):
        here = [-1, *(i for i, wedge in enumerate(line.wedges) if wedge.start > low + 1e-6), count]
        for i, j in itertools.pairwise(here):
            in_middle = i < count / 2 <= j
            opened = min(size, max(0.0, line.split - low)) if in_middle else 0.0
            if opened and (i < 0 or j == count):
                raise CannotDraft(
                    "garment.splits",
                    _("the split at the {place} would run up between a gore and its panel", place=line.place),
                    _("let the gores on both sides of it start at one height"),
                )
            number = f"-{n + 1}" if n else ""
            stretches: list[Segment] = [
                (f"split{number}", "split", opened),
                (f"seam{number}", "gore seam", size - opened),
            ]
            stretches = [each for each in stretches if each[2] > 1e-6]
            if i >= 0:
                sides[i, "right"] += stretches
            if j < count:
                sides[j, "left"] += stretches
            if size - opened > 1e-6:
                seams.append(
                    ((i, panel_tag if i < 0 else f"seam{number}"), (j, panel_tag if j == count else f"seam{number}"))
                )
        low += size
    return Row({key: lowered(each, line.dip) for key, each in sides.items()}, seams)


# --- the pieces -----------------------------------------------------------------------------------------


def _gore(
    plan: Plan,
    book: Book,
    line: SeamLine,
    hand: str,
    i: int,
    first: bool,
    both: tuple[list[Segment], list[Segment]],
) -> dict[str, dict[str, EdgeRef]]:
    """Add one gore to the book; its edges by the viewer's side."""
    wedge, edges = line.wedges[i], Allowances.of(plan)
    number = [str(i + 1)] if len(line.wedges) > 1 else []
    part = "-".join(["gore", line.place, *([hand] if hand else []), *number])
    name = "pieced gore" if wedge.tip else "gore"
    times = 2 if wedge.half else 1
    top, base, side = wedge.top * times, wedge.base * times, wedge.start + line.dip
    shape = shape_of(top, side, base, wedge.hem, line.dip)
    corner: list[Segment] = [("corner", "hem", hanging(side, top, base))] if wedge.hem == "straight" else []
    left, right = both
    if not wedge.half:
        tops: Tops = [("left-top", "gore seam"), ("right-top", "gore seam")] if top else []
        book.add(part, flared(name, shape, corner + left, corner + right, tops, edges), where=line.place)
        return {stem: _refs(part, stem, each) for stem, each in (("left", left), ("right", right))}
    # a half is drawn with its straight edge at the left; the viewer's left half is its mirror image
    inner, outer = (right, left) if first else (left, right)
    blank = half_flared(
        f"half {name}", shape, inner, corner + outer, [("slanted-top", "gore seam")] if top else [], edges
    )
    book.add(part, blank, mirrored=first, where=line.place)
    outside = "left" if first else "right"
    return {opposite(outside): _refs(part, "straight", inner), outside: _refs(part, "slanted", outer)}


def _refs(part: str, stem: str, segments: Sequence[Segment]) -> dict[str, EdgeRef]:
    return {tag: EdgeRef(part, f"{stem}-{tag}") for tag in (*(tag for tag, _, _ in segments), "top")}


def tips_apart(draft: Draft) -> Draft:
    """Every gore that was to be pieced with its tip a piece of its own."""
    for piece in draft.pieces:
        if not piece.id.startswith("pieced-gore"):
            continue
        _, low, _, high = bounds(piece.sewn)
        size = round_near((high - low) * TIP_SHARE, draft.choices.sewing.chalk)
        draft = _first_that_goes(draft, piece.id, (high - size * share for share in (1.0, 0.9, 1.1)))
    return draft


def _first_that_goes(draft: Draft, piece: str, heights: Iterator[float]) -> Draft:
    refused: CannotDraft | None = None
    for y in heights:
        try:
            return pieced(draft, piece, Cut("y", y, "high", "tip"))
        except CannotDraft as error:
            refused = refused or error
    raise CannotDraft("garment.gores", refused.problem if refused else "", _('choose make = "whole"'))
