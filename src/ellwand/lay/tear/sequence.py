"""The tears one after the other, and the blocks that they leave."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from string import ascii_lowercase, ascii_uppercase

from ellwand.lay.tear.blocks import Packed
from ellwand.lay.tear.search import Cell
from ellwand.model.tearing import LAY, REST, SELVEDGES, WHOLE, Tear, Way

Rect = tuple[float, float, float, float]
"""x, y, width, height (cm) on the whole cloth."""


@dataclass(frozen=True, slots=True)
class Strip:
    """What one kind of tear makes of a rectangle: its parts one after the other, or a block, or waste (neither)."""

    rect: Rect
    way: Way = "across"
    parts: tuple[Strip, ...] = ()
    block: Packed | None = None

    @property
    def waste(self) -> bool:
        """Nothing lies in it."""
        return self.block is None and not self.parts


def moved(strip: Strip, dx: float, dy: float = 0.0) -> Strip:
    """The strip elsewhere."""
    x, y, width, height = strip.rect
    parts = tuple(moved(part, dx, dy) for part in strip.parts)
    return replace(strip, rect=(x + dx, y + dy, width, height), parts=parts)


def strip_of(cell: Cell) -> Strip:
    """The cell as it is torn; tears of one direction that follow each other are taken together."""
    rect = (cell.x, cell.y, cell.width, cell.height)
    if cell.packed is None:
        return Strip(rect)
    right = strip_of(cell.right) if cell.right else None
    above = strip_of(cell.above) if cell.above else None
    x, y, width, height = rect
    if cell.along_first or above is None:
        inner = Strip((x, y, right.rect[0] - x if right else width, height))
        return joined(rect, "along", joined(inner.rect, "across", _block(inner, above, cell), above), right)
    inner = Strip((x, y, width, above.rect[1] - y))
    return joined(rect, "across", joined(inner.rect, "along", _block(inner, right, cell), right), above)


def _block(around: Strip, beside: Strip | None, cell: Cell) -> Strip:
    x, y, width, height = around.rect
    if beside is not None and beside.rect[0] > x:
        width = beside.rect[0] - x
    elif beside is not None:
        height = beside.rect[1] - y
    return Strip((x, y, width, height), block=cell.packed)


def joined(rect: Rect, way: Way, first: Strip, second: Strip | None) -> Strip:
    """Two parts of a rectangle, side by side or on top of each other; the first alone where there is no second."""
    return first if second is None else joined_all(rect, way, (first, second))


def joined_all(rect: Rect, way: Way, strips: Sequence[Strip]) -> Strip:
    """The strips as parts of a rectangle; those torn the same way give their own parts instead."""
    if len(strips) == 1:
        return replace(strips[0], rect=rect)
    return Strip(rect, way, tuple(p for s in strips for p in (s.parts if s.parts and s.way == way else (s,))))


@dataclass
class Tearing:
    """The list of tears while it is being written."""

    tears: list[Tear] = field(default_factory=list)
    blocks: list[tuple[str, Strip]] = field(default_factory=list)

    def tear_lay(self, lengths: Sequence[Strip], width: float, selvedge: float) -> None:
        """All of it: the lay off the cloth, the selvedges off the lay, then each length from the cut end on.

        ``lengths`` lie on top of each other without gaps and are as wide as the cloth between its selvedges.
        """
        end = lengths[-1].rect[1] + lengths[-1].rect[3]
        several = sum(not strip.waste for strip in lengths) > 1
        name = LAY if several else "A"
        self._add(WHOLE, "across", end, name, REST, (0.0, end), (width, end))
        inside = width - 2 * selvedge
        if selvedge:
            left, right = SELVEDGES
            self._add(name, "along", selvedge, left, name, (selvedge, 0.0), (selvedge, end))
            self._add(name, "along", inside, name, right, (width - selvedge, 0.0), (width - selvedge, end))
        self._tear(name, joined_all((selvedge, 0.0, inside, end), "across", lengths))

    def _tear(self, name: str, strip: Strip) -> None:
        """Tear the parts off, the nearest first; what has not been torn off keeps the name."""
        if strip.block is not None:
            self.blocks.append((name, strip))
            return
        named = list(zip(strip.parts, _names(name, strip.parts), strict=True))
        for i, ((part, gives), (_, after)) in enumerate(pairwise(named)):
            x, y, width, height = part.rect
            leaves = after if i == len(named) - 2 else name
            if strip.way == "across":
                start, end = (x, y + height), (x + strip.rect[2], y + height)
                self._add(name, "across", height, gives, leaves, start, end)
            else:
                start, end = (x + width, y), (x + width, y + strip.rect[3])
                self._add(name, "along", width, gives, leaves, start, end)
        for part, part_name in named:
            if not part.waste:
                self._tear(part_name, part)

    def _add(
        self,
        of: str,
        way: Way,
        distance: float,
        gives: str,
        leaves: str,
        start: tuple[float, float],
        end: tuple[float, float],
    ) -> None:
        a, b = ((round(x, 6), round(y, 6)) for x, y in (start, end))
        self.tears.append(Tear(len(self.tears) + 1, of, way, round(distance, 6), gives, leaves, a, b))


def _names(name: str, parts: Sequence[Strip]) -> list[str]:
    """A letter or a number more for each part, none for waste; a part that is the only one keeps the name."""
    if sum(not part.waste for part in parts) == 1:
        return ["" if part.waste else name for part in parts]
    out, n = [], 0
    for part in parts:
        if name == LAY:
            more = _letters(n, ascii_uppercase)
        else:
            more = name + (_letters(n, ascii_lowercase) if name[-1].isdigit() else str(n + 1))
        out.append("" if part.waste else more)
        n += not part.waste
    return out


def _letters(i: int, alphabet: str) -> str:
    return alphabet[i] if i < 26 else alphabet[i // 26 - 1] + alphabet[i % 26]
