"""The same garment on cloths of several widths, side by side."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from ellwand.choose import Sheet
from ellwand.errors import CannotDraft
from ellwand.lay import usable_width
from ellwand.lay.buy import purchase
from ellwand.model.cloth import Cloth
from ellwand.model.garment import Garment
from ellwand.model.others import Cloak
from ellwand.pipeline import make, prove_sheet
from ellwand.units import CM_PER, Unit

COMMON: Final = {
    "cm": (60.0, 90.0, 112.0, 140.0, 150.0, 160.0),
    "in": tuple(inches * CM_PER["in"] for inches in (27, 36, 45, 54, 60)),
}
"""Widths that shops sell, and the narrow ones of the finds and of old looms (cm): common practice, no source."""


@dataclass(frozen=True, slots=True)
class AtWidth:
    """The garment on cloth that is ``width`` cm wide in the shop (cm).

    ``laid`` and ``bought`` are lengths of the main cloth; ``cost`` is what its length would cost if the price followed
    the area, None where the sheet names no price.  ``pieced``: the pieces that it only has
    because the cloth is narrow: strips, halves.  ``refused``: why it cannot be
    cut from that width; then the rest is 0.
    """

    width: float
    laid: float = 0.0
    bought: float = 0.0
    use: float = 0.0
    gap: float = 0.0
    proved_best: bool = False
    cost: float | None = None
    pieced: tuple[str, ...] = ()
    refused: str = ""


def at_widths(
    sheet: Sheet,
    widths: Sequence[float],
    *,
    seconds: float = 0.0,
    effort: int = 0,
    seed: int = 1,
    unit: Unit | None = None,
    progress: Callable[[float], None] = lambda width: None,
) -> Iterator[AtWidth]:
    """The garment made on each width in turn, each with the same budget; nothing else of the sheet is changed.

    ``progress`` is told which width comes next.  Left-overs of the sheet's own cloth are left aside: they have its
    width.  Raises BadInput where the sheet cannot be drafted on any cloth.
    """
    plain = {piece.name for piece in prove_sheet(sheet, unit=unit).draft.pieces}
    for width in widths:
        progress(width)
        cloth = replace(sheet.cloth, width=width, length=None, remnants=(), faults=())
        try:
            garment = make(on_cloth(sheet, cloth), seconds=seconds, effort=effort, seed=seed, unit=unit)
        except CannotDraft as error:
            yield AtWidth(width, refused=error.problem)
            continue
        yield _told(garment, cloth, sheet.cloth.width, plain)


def on_cloth(sheet: Sheet, cloth: Cloth) -> Sheet:
    """The sheet with another main cloth; a cloak's strips are as wide as that allows."""
    other = sheet.choices.other
    if isinstance(other, Cloak) and other.strip is not None:
        other = replace(other, strip=usable_width(cloth))
    cloths = (cloth, *sheet.cloths[1:])
    return replace(sheet, cloths=cloths, choices=replace(sheet.choices, other=other))


def _told(garment: Garment, cloth: Cloth, own_width: float, plain: set[str]) -> AtWidth:
    lays = [lay for lay in garment.lays if lay.cloth == cloth.name]
    laid = sum(lay.length for lay in lays)
    asked = purchase(laid, cloth)
    main = max(lays, key=lambda lay: lay.length)
    return AtWidth(
        width=cloth.width,
        laid=laid,
        bought=asked.length,
        use=sum(lay.use * lay.length for lay in lays) / laid if laid else 0.0,
        gap=main.gap,
        proved_best=main.proved_best,
        cost=None if asked.cost is None else asked.cost * cloth.width / own_width,
        pieced=tuple(dict.fromkeys(piece.name for piece in garment.draft.pieces if piece.name not in plain)),
    )
