"""A cloak: a rectangle, half a circle or three quarters of one, pieced from strips of the cloth.

A sector of angle a (radians) between the radii r and R has the neck edge a·r, the hem a·R and the area a (R² − r²) / 2
(plane geometry).  Strips run along the grain, parallel to the front edge, as the Bocksten cloak's do (half a circle of
two loom widths).  Three quarters of a circle are half a circle and two front gores (S. Thursfield, The Medieval
Tailor's Assistant).  A rectangle is twice as wide as it is long: Grágás has a trade cloak of 4 ells by 2.
"""

from __future__ import annotations

import itertools
import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from ellwand.draft.blank import Blank, Book, Run
from ellwand.draft.others.shapes import down_to
from ellwand.errors import CannotDraft
from ellwand.geometry.lines import Line, arc, backwards, turn
from ellwand.language import _
from ellwand.model.choices import Sewing, girth_over
from ellwand.model.draft import EdgeRef
from ellwand.model.others import Cloak, CloakSize
from ellwand.model.wearer import Wearer
from ellwand.units import format_length

NECK_EASE: Final = 2.0
"""Over the neck base (cm): common practice, no source."""
NARROWEST_CLOTH: Final = 25.0
"""A cloth must leave at least this much of a strip between its seams (cm): our own figure."""
NARROWEST_STRIP: Final = 10.0
"""No strip is narrower than this (cm): common practice, no source."""
HAIR: Final = 1e-3
"""A cut keeps off corners by at least this (cm)."""
ANGLES: Final = {"semicircle": math.pi, "three-quarter": 1.5 * math.pi}


def draw_cloak(cloak: Cloak, sewing: Sewing, beneath_mm: float, wearer: Wearer, book: Book) -> CloakSize:
    """Enter the cloak's pieces and seams; returns its sizes (cm).

    Raises CannotDraft for a three-quarter circle without neck, and for a cloth too narrow for strips.
    """
    grid = sewing.chalk
    long = down_to(wearer, "nape_to_floor", cloak.length, grid)
    neck = wearer["neck_base_girth"] + NECK_EASE + girth_over(beneath_mm)
    if cloak.shape == "rectangle":
        width = 2 * long if cloak.width is None else cloak.width
        ring, cuts = _rectangle(width, long, sewing), _cuts(long, cloak, sewing)
        _pieces(ring, cuts, sewing, book)
        return CloakSize(grid, long, width, 0.0, 0.0, 0.0, width, width, _widths(cuts, long))
    angle = ANGLES[cloak.shape]
    if cloak.neck == "straight" and cloak.shape == "three-quarter":
        raise CannotDraft(
            "garment.cloak.neck",
            _("three quarters of a circle meet in a point at the neck"),
            _('choose neck = "cut", or shape = "semicircle"'),
        )
    inner = neck / angle if cloak.neck == "cut" else 0.0
    outer = inner + long
    cuts = _cuts(outer, cloak, sewing)
    if cloak.shape == "three-quarter":
        before = outer * math.sin(angle / 2 - math.pi / 2)
        # where the whole can be cut from one width there is no seam
        if _cuts(before + outer, cloak, sewing):
            cuts = [*(-cut for cut in reversed(_cuts(before, cloak, sewing))), 0.0, *cuts]
    _pieces(_sector(inner, outer, angle, sewing), cuts, sewing, book)
    return CloakSize(
        grid,
        long,
        2 * outer,
        math.degrees(angle),
        inner,
        outer,
        angle * inner if inner else 2 * outer,
        angle * outer,
        _widths([cut for cut in cuts if cut > 0], outer),
    )


def _widest(strip: float, sewing: Sewing) -> float:
    """The widest strip as sewn (cm), a hem or a seam on each side of it; on the chalk grid."""
    widest = strip - sewing.allowance - max(sewing.allowance, sewing.hem)
    if widest < NARROWEST_CLOTH:
        raise CannotDraft(
            "cloth.width",
            _("{strip} between the selvedges is too narrow for strips", strip=format_length(strip)),
            _("choose a wider cloth or smaller allowances"),
        )
    return math.floor(widest / sewing.chalk + 1e-9) * sewing.chalk


def _cuts(depth: float, cloak: Cloak, sewing: Sewing) -> list[float]:
    """How far in strips meet: the cloth's whole width first, the rest last, unless that were a sliver."""
    if cloak.strip is None:
        return []
    widest = _widest(cloak.strip, sewing)
    count = math.ceil(depth / widest - 1e-9)
    cuts = [widest * i for i in range(1, count)]
    if cuts and depth - cuts[-1] < NARROWEST_STRIP:
        cuts[-1] = depth - NARROWEST_STRIP
    return cuts


def _widths(cuts: Sequence[float], depth: float) -> tuple[float, ...]:
    stops = [0.0, *cuts, depth]
    return tuple(b - a for a, b in itertools.pairwise(stops))


# --- outlines: the neck towards −x, the wearer's right towards +y -----------------------------------------


def _rectangle(width: float, long: float, sewing: Sewing) -> list[Run]:
    half, edge = width / 2, sewing.allowance
    return [
        Run("neck", "edge", ((0.0, half), (0.0, -half)), edge),
        Run("front", "edge", ((0.0, -half), (long, -half)), edge),
        Run("hem", "hem", ((long, -half), (long, half)), sewing.hem),
        Run("front", "edge", ((long, half), (0.0, half)), edge),
    ]


def _sector(inner: float, outer: float, angle: float, sewing: Sewing) -> list[Run]:
    half, edge = angle / 2, sewing.allowance
    hem, neck = arc((0.0, 0.0), outer, -half, half), arc((0.0, 0.0), inner, half, -half)
    start, end = (neck[-1], neck[0]) if inner else ((0.0, 0.0), (0.0, 0.0))
    out = [
        Run("front", "edge", (start, hem[0]), edge),
        Run("hem", "hem", hem, sewing.hem),
        Run("front", "edge", (hem[-1], end), edge),
    ]
    return [*out, Run("neck", "edge", neck, edge)] if inner else out


# --- strips -------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Bit:
    """A stretch of an edge within one strip; ``seam``: which cut and stretch of it, or None."""

    run: Run
    seam: tuple[int, int] | None = None


def _pieces(ring: Sequence[Run], cuts: Sequence[float], sewing: Sewing, book: Book) -> None:
    """Cut the outline along the lines x = cut and enter every piece and the seams between them."""
    cuts = [_aside(cut, ring) for cut in cuts]
    strips: list[list[_Bit]] = [[] for _ in range(len(cuts) + 1)]
    for run in ring:
        for points in _split_at(run.points, cuts):
            strips[_strip_of(points, cuts)].append(_Bit(replace(run, points=points)))
    for k, cut in enumerate(cuts):
        for i, (low, high) in enumerate(_inside(ring, cut)):
            line: Line = ((cut, low), (cut, high))
            strips[k].append(_Bit(Run(f"seam-{k + 1}", "strip seam", line, sewing.allowance), (k, i)))
            strips[k + 1].append(_Bit(Run(f"seam-{k + 1}", "strip seam", backwards(line), sewing.allowance), (k, i)))
    joins: dict[tuple[int, int], list[EdgeRef]] = {}
    for part, name, bits in _named(strips):
        for bit, edge in _enter(part, bits, name, book):
            if bit.seam is not None:
                joins.setdefault(bit.seam, []).append(EdgeRef(part, edge))
    for a, b in joins.values():
        book.sew(a, b, "strip seam")


def _named(strips: Sequence[Sequence[_Bit]]) -> list[tuple[str, str, list[_Bit]]]:
    """Part, name and outline of every piece, from the front edge inward; fellows are told apart by the hand."""
    found = [(k, _name(k, len(strips), bits), list(bits)) for k, strip in enumerate(strips) for bits in _rings(strip)]
    out = []
    for k, name, bits in found:
        rows = sorted({other for other, alike, _ in found if alike == name})
        words = [*name.split(), *([str(rows.index(k) + 1)] if len(rows) > 1 else [])]
        if sum(other == k for other, _, _ in found) > 1:
            words.append("left" if _is_left(bits) else "right")
        out.append(("-".join(words), name, bits))
    return out


def _is_left(bits: Sequence[_Bit]) -> bool:
    return all(y < 1e-6 for bit in bits for _, y in bit.run.points)


def _aside(cut: float, ring: Sequence[Run]) -> float:
    """The cut moved a hair aside where it would meet a corner of the outline."""
    near = any(abs(x - cut) < HAIR for run in ring for x, _ in run.points)
    return cut + 2 * HAIR if near else cut


def _split_at(points: Line, cuts: Sequence[float]) -> Iterator[Line]:
    """The line in stretches that lie each in one strip."""
    current = [points[0]]
    for a, b in itertools.pairwise(points):
        between = sorted((c for c in cuts if min(a[0], b[0]) < c < max(a[0], b[0])), reverse=b[0] < a[0])
        for cut in between:
            at = (cut, a[1] + (b[1] - a[1]) * (cut - a[0]) / (b[0] - a[0]))
            yield (*current, at)
            current = [at]
        current.append(b)
    yield tuple(current)


def _strip_of(points: Line, cuts: Sequence[float]) -> int:
    middle = (min(x for x, _ in points) + max(x for x, _ in points)) / 2
    return sum(middle > cut for cut in cuts)


def _inside(ring: Sequence[Run], cut: float) -> Iterator[tuple[float, float]]:
    """The stretches of the line x = cut that lie on the cloth."""
    ys = sorted(
        a[1] + (b[1] - a[1]) * (cut - a[0]) / (b[0] - a[0])
        for run in ring
        for a, b in itertools.pairwise(run.points)
        if (a[0] <= cut) != (b[0] <= cut)
    )
    return zip(ys[::2], ys[1::2], strict=True)


def _rings(bits: Sequence[_Bit]) -> Iterator[list[_Bit]]:
    """The bits of one strip chained to closed outlines."""
    left = list(bits)
    while left:
        chained = [left.pop(0)]
        while math.dist(chained[-1].run.points[-1], chained[0].run.points[0]) > 1e-6:
            at = chained[-1].run.points[-1]
            after = min(left, key=lambda bit: math.dist(bit.run.points[0], at))
            left.remove(after)
            chained.append(after)
        yield chained


def _enter(part: str, bits: Sequence[_Bit], name: str, book: Book) -> list[tuple[_Bit, str]]:
    """Add one piece; a piece of the wearer's left is turned half round, so that it mirrors its fellow."""
    below = _is_left(bits)
    count = Counter(bit.run.id for bit in bits)
    start = min(range(len(bits)), key=lambda i: bits[i].run.id)
    runs, out, seen = list[Run](), list[tuple[_Bit, str]](), Counter[str]()
    for bit in (*bits[start:], *bits[:start]):
        run = bit.run
        points = turn(run.points, 180.0) if below else run.points
        seen[run.id] += 1
        # told apart by the hand, as worn
        hand = "right" if sum(y for _, y in run.points) > 0 else "left"
        edge = f"{run.id}-{hand}" if count[run.id] > 1 else run.id
        edge = edge if all(other.id != edge for other in runs) else f"{edge}-{seen[run.id]}"
        runs.append(replace(run, id=edge, points=points))
        out.append((bit, edge))
    book.add(part, Blank(name, "other", tuple(runs)))
    return out


def _name(k: int, strips: int, bits: Sequence[_Bit]) -> str:
    """What a piece is called, by where it lies."""
    if strips == 1:
        return "cloak"
    ids = {bit.run.id for bit in bits}
    xs = [x for bit in bits for x, _ in bit.run.points]
    if min(xs) < -3 * HAIR and max(xs) < 3 * HAIR:
        return "front gore"
    if k == strips - 1:
        return "hem strip" if min(xs) > 3 * HAIR else "half circle"
    return "neck strip" if "neck" in ids or min(xs) < 3 * HAIR else "middle strip"
