"""What stands on a sheet beside the pieces: where to trim it, where to lay the next, and its name."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from ellwand.depict.lettering import CM_PER_POINT, shortened, text_width
from ellwand.depict.pattern import FullSize
from ellwand.geometry.lines import Line, Point
from ellwand.language import _
from ellwand.model.drawing import Drawing, Label, Role, Stroke
from ellwand.publish.pattern.sheets import MARGIN, OVERLAP, Side, Window, row_name

DIAMOND: Final = 0.4
"""Half a register mark (cm)."""
NAME: Final = 11.0
SMALL: Final = 8.5
UNDER: Final = 0.12
"""Between the window and the line below it (cm)."""


def sheet_marks(window: Window, pieces: Sequence[FullSize], count: str, title: str) -> Drawing:
    """Trim lines, register marks and the line below the window, on the plane (cm).

    A sheet is trimmed on the left and above and laid over its neighbours there, edge on dotted line; half of each
    register mark is on either sheet.  ``count``: '3 of 20'.
    """
    strokes = [stroke for side in sorted(window.joined) for stroke in _border(window, side)]
    return Drawing(tuple(strokes), (*_below(window, pieces, count, title), *_beside(window)))


def _border(window: Window, side: Side) -> list[Stroke]:
    x0, y0, x1, y1 = window.frame
    lay_x, lay_y = x1 - OVERLAP, y0 + OVERLAP
    ends: dict[Side, tuple[Point, Point]] = {
        "left": ((x0, y0), (x0, y1)),
        "right": ((lay_x, y0), (lay_x, y1)),
        "up": ((x0, y1), (x1, y1)),
        "down": ((x0, lay_y), (x1, lay_y)),
    }
    middle: Point = ((x0 + lay_x) / 2, (y1 + lay_y) / 2)
    (ax, ay), (bx, by) = ends[side]
    at = (ax, middle[1]) if ax == bx else (middle[0], ay)
    role: Role = "trim" if side in ("left", "up") else "join"
    return [Stroke(role, ((ax, ay), (bx, by))), Stroke("register", _diamond(at), True)]


def _diamond(at: Point) -> Line:
    x, y = at
    return ((x - DIAMOND, y), (x, y - DIAMOND), (x + DIAMOND, y), (x, y + DIAMOND))


def _below(window: Window, pieces: Sequence[FullSize], count: str, title: str) -> list[Label]:
    """The sheet's name, its place in the pile, its pieces and its garment, as far as they fit in one line."""
    x0, y0, x1, _ = window.frame
    y = y0 - UNDER - NAME * CM_PER_POINT / 2
    names = ", ".join(dict.fromkeys(f"{each.number} {each.name}" for each in pieces))
    after = x0 + text_width(window.name, NAME) * 1.15 + 0.25
    room = x1 - after - (4.0 if "down" in window.joined else 0.0)
    text = f"{count}   {names}   {title}"
    while text_width(text, SMALL) > room and len(text) > 2:
        text = shortened(text, len(text) - 1)
    return [
        Label("name", window.name, (x0, y), "start", NAME),
        Label("note", text, (after, y), "start", SMALL),
    ]


def _beside(window: Window) -> list[Label]:
    """What the neighbours to the right and below are called, in the margin."""
    out = []
    y0, x1, y1 = window.frame[1:]
    if "right" in window.joined:
        at = (x1 + 0.35 * MARGIN, (y0 + OVERLAP + y1) / 2)
        out.append(
            Label(
                "note", _("next {sheet}", sheet=f"{row_name(window.row)}{window.column + 2}"), at, size=SMALL, turn=90.0
            )
        )
    if "down" in window.joined:
        at = (x1, y0 - UNDER - NAME * CM_PER_POINT / 2)
        out.append(
            Label("note", _("below {sheet}", sheet=f"{row_name(window.row + 1)}{window.column + 1}"), at, "end", SMALL)
        )
    return out
