"""The cut card: everything needed to chalk, cut and sew one garment, on paper."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from math import ceil
from typing import Final

from ellwand.depict.spread import Sheet, drawing_bounds, pieces_sheets
from ellwand.model.drawing import Drawing
from ellwand.model.garment import Garment
from ellwand.publish.card_lays import LayPart, scale_for
from ellwand.publish.card_measured import FLOW, Block, Measured, measured, stacked
from ellwand.publish.card_type import ABOVE, LARGE, PLAIN, SMALLER, TIGHT
from ellwand.publish.typst_text import compile_pdf, picture

HIGHEST: Final = 9.0
"""How high a lay may be on a page that it shares with all that follows it (cm)."""
WAYS: Final = ((PLAIN, 6.4), (SMALLER, 5.6), (TIGHT, 5.0))
"""Sizes of type, best first, and how high the lay must still be with each for all to go on one page (cm)."""
FAR: Final = 4.0
"""Where so much has no room (cm), smaller type is of no use."""
TALL: Final = (12.5, 11.0, 9.5, 8.0, 6.4)
"""How high lays may be where there are more pages, best first (cm)."""
AIR: Final = 0.3
"""What is kept free on a page for roundings (cm)."""
NEAR: Final = 0.85
CLEAR: Final = 0.05
"""Other things may go on the first page where the pieces stay so large beside what they were, or at 1 to 20."""
ROW: Final = 1.4
"""What a table may leave free where a page ends (cm)."""

BREAK: Final = "#pagebreak(weak: true)"


def card_pdf(garment: Garment) -> bytes:
    """The card as PDF: A4, or Letter for who reads inches; the same bytes for the same garment.

    The lay is drawn as large as lets the card end on its second page; where that cannot be, on as few further pages as
    do.  In large type everything goes on as many pages as it needs.
    """
    return compile_pdf(_large(garment) if garment.choices.sewing.large_type else _plain(garment))


def _plain(garment: Garment) -> str:
    first = measured(garment, PLAIN)

    @cache
    def pieces(besides: float) -> tuple[Sheet, ...]:
        shared = first.room - first.front.high - besides - first.key.high - 4 * FLOW
        return pieces_sheets(garment.draft, garment.wearer.unit, first.paper.room, shared, first.room - AIR)

    apart = not _shares(first, pieces(0.0), ())
    for sizes, least in WAYS:
        made = first if sizes is PLAIN else measured(garment, sizes)
        free = 0.0
        for early in _early(made, apart=apart):
            before = [] if early else [made.buying]
            after = [block for block in made.end if block not in early]
            free = made.room - AIR - made.told - stacked([*before, *after])
            if _smallest(made, least) > free or not _still_readable(pieces(0.0), pieces(stacked(early))):
                continue
            if lays := _fitting(made, free, least):
                sheets = pieces(stacked(early))
                return _text([*_first_pages(made, sheets, early), *_texts(before), *_lays(made, *lays), *_texts(after)])
        if free < _smallest(made, least) - FAR:
            break
    early = _early(first, apart=apart)[0]
    before = [] if early else [first.buying]
    drawings, scale, fresh = _on_more_pages(first, before)
    front = _first_pages(first, pieces(0.0), early)
    return _text([*front, *_texts(before), *_lays(first, drawings, scale), BREAK * fresh, *_texts(first.end)])


def _early(made: Measured, *, apart: bool) -> list[list[Block]]:
    """What of the rest may go on the first page, best first; always what is bought, where the pieces are ``apart``."""
    bought = [[made.buying], [made.buying, made.end.adornment]]
    if apart and made.front.high + made.key.high + stacked([made.buying]) < made.room:
        return bought[:1]
    return [[], *bought] if made.end.adornment.text else [[], *bought[:1]]


def _text(parts: Sequence[str]) -> str:
    return "\n".join(part for part in parts if part)


def _texts(blocks: Iterable[Block]) -> list[str]:
    return [block.text for block in blocks]


def _still_readable(sheets: Sequence[Sheet], moved: Sequence[Sheet]) -> bool:
    return len(moved) == len(sheets) and moved[0].scale >= min(CLEAR, NEAR * sheets[0].scale)


def _shares(made: Measured, sheets: Sequence[Sheet], early: Sequence[Block]) -> bool:
    """Whether the pieces are on the first page."""
    free = made.room - made.front.high - made.key.high - stacked(early)
    return len(sheets) == 1 and sheets[0].height <= free


def _first_pages(made: Measured, sheets: Sequence[Sheet], early: Sequence[Block]) -> list[str]:
    """All up to the lays; ``early``: what of the rest goes on the first page."""
    front = [made.setting, made.front.text, *_texts(early)]
    centred = [f"#v(1fr)\n#align(center)[{picture(sheet.drawing, sheet.scale)}]\n#v(1fr)" for sheet in sheets]
    if _shares(made, sheets, early):
        return [*front, *centred, made.key.text, BREAK]
    return [*front, "#v(1fr)", made.key.text, BREAK, *(f"{each}\n{BREAK}" for each in centred)]


def _smallest(made: Measured, least: float) -> float:
    """How high the lays' cloth must be at least (cm)."""
    return scale_for(made.lays, made.paper.room, least) * sum(part.size(part.lying)[1] for part in made.lays)


def _drawn(made: Measured, scale: float) -> list[Drawing]:
    return [part.draw(scale, part.lying) for part in made.lays]


def _heights(drawings: Sequence[Drawing], scale: float) -> list[float]:
    out = []
    for drawing in drawings:
        _, y0, _, y1 = drawing_bounds(drawing, scale)
        out.append((y1 - y0) * scale)
    return out


def _fitting(made: Measured, free: float, least: float) -> tuple[list[Drawing], float] | None:
    """The lays at the largest scale at which all of them together are ``free`` cm high at most, and that scale."""
    scale, smallest = (scale_for(made.lays, made.paper.room, tall) for tall in (HIGHEST, least))
    cloth = sum(part.size(part.lying)[1] for part in made.lays)
    while scale >= smallest - 1e-9:
        drawings = _drawn(made, scale)
        high = sum(_heights(drawings, scale))
        if high <= free:
            return drawings, scale
        scale = min(0.99 * scale, (free - (high - cloth * scale)) / cloth)
    return None


def _on_more_pages(made: Measured, before: Sequence[Block]) -> tuple[list[Drawing], float, bool]:
    """The lays as large as lets the card end on as few pages as it can, their scale, and whether its end begins one."""
    scales = [scale_for(made.lays, made.paper.room, tall) for tall in TALL]
    largest = _drawn(made, scales[0])
    beside = [
        high - part.size(part.lying)[1] * scales[0]
        for part, high in zip(made.lays, _heights(largest, scales[0]), strict=True)
    ]
    after = {scale: _after_lays(made, scale, beside, stacked(before)) for scale in scales}
    end = stacked(made.end)
    scale = min(scales, key=lambda each: (ceil(_flowed(after[each], end, made.room) / made.room), -each))
    drawings = largest if scale == scales[0] else _drawn(made, scale)
    return drawings, scale, made.room - after[scale] % made.room < end <= made.room


def _after_lays(made: Measured, scale: float, beside: Sequence[float], at: float) -> float:
    """Where lays that begin at ``at`` end (cm from the top of their first page).

    ``beside``: what stands above and below each of them in its picture.
    """
    for part, (above, below), air in zip(made.lays, made.around, beside, strict=True):
        whole = ABOVE + above.high + 2 * FLOW + part.size(part.lying)[1] * scale + air
        left = made.room - at % made.room
        at += whole if whole <= left else left + whole
        at = _flowed(at, ABOVE + below.high, made.room)
    return at


def _flowed(at: float, high: float, room: float) -> float:
    """Where a table that begins at ``at`` ends; wherever a page ends it leaves something free."""
    return at + high + ROW * ((at % room + high) // room)


def _lays(made: Measured, drawings: Sequence[Drawing], scale: float) -> list[str]:
    return [
        "\n".join([part.above, f"#align(center)[{picture(drawing, scale)}]", part.below])
        for part, drawing in zip(made.lays, drawings, strict=True)
    ]


def _large(garment: Garment) -> str:
    """Everything below each other; the pieces and every lay as large as a page allows."""
    made = measured(garment, LARGE)
    many = LARGE.enlarged
    wide, high = made.paper.room / many, made.room / many
    sheets = pieces_sheets(garment.draft, garment.wearer.unit, wide, 0.0, high - AIR, large=True)
    out = [made.setting, made.front.text, made.key.text, made.buying.text, BREAK]
    out += [
        f"#v(1fr)\n#align(center)[{picture(each.drawing, each.scale, enlarged=many)}]\n#v(1fr)\n{BREAK}"
        for each in sheets
    ]
    for part, (above, _) in zip(made.lays, made.around, strict=True):
        room = (made.room - above.high - 2 * FLOW - AIR) / many
        drawing, scale = _on_a_page(part.fit_for(wide, room), wide, room)
        out += [BREAK, part.above, f"#align(center)[{picture(drawing, scale, enlarged=many)}]", part.below]
    return _text([*out, *_texts(made.end)])


def _on_a_page(part: LayPart, width: float, height: float) -> tuple[Drawing, float]:
    """The lay, lying or upright, as large as the page allows."""
    found = []
    for lying in (True, False):
        across, up = part.size(lying)
        scale = min(width / across, height / up)
        while True:
            drawing = part.draw(scale, lying)
            x0, y0, x1, y1 = drawing_bounds(drawing, scale)
            over = max((x1 - x0) * scale / width, (y1 - y0) * scale / height)
            if over <= 1.0:
                break
            beside, above = (x1 - x0 - across) * scale, (y1 - y0 - up) * scale
            scale = min(
                0.98 * scale, max((width - beside) / across, 0.1 * scale), max((height - above) / up, 0.1 * scale)
            )
        found.append((drawing, scale))
    return max(found, key=lambda each: each[1])
