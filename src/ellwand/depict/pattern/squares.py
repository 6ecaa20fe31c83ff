"""The squares that show whether a page came out at full size, and what stands about them."""

from __future__ import annotations

from typing import Final

from ellwand.depict.lettering import CM_PER_POINT, text_width
from ellwand.depict.pattern.fullsize import FullSize, full_sized
from ellwand.geometry.lines import Line
from ellwand.language import N_, _
from ellwand.model.drawing import Drawing, Label, Stroke

SQUARES: Final = ((10.0, "10 cm"), (10.16, "4 in"))
"""Side in cm and what it is called; an inch is 2.54 cm."""
GAP: Final = 1.0
FULL_SIZE: Final = N_(
    "Full size. Print at 100 % (actual size), not fitted to the page, and measure both squares before you cut."
)
KEY: Final = N_(
    "Full line: cut. Dashed: sew. Dash and dot: fold. Arrow: along the selvedge. Short bar across the allowance:"
    " mark it; there one seam ends and the next begins. Allowances are drawn."
)


def test_squares(*, stacked: bool) -> Drawing:
    """A square of 10 cm and one of 4 in, below or beside each other."""
    strokes, labels, right, low = [], [], 0.0, 0.0
    for side, name in SQUARES:
        x, y = (0.0, low - side) if stacked else (right, -side)
        strokes.append(Stroke("dimension", _square(x, y, side), True))
        labels.append(Label("name", name, (x + side / 2, y + side / 2), size=20.0))
        right, low = x + side + GAP, y - GAP
    return Drawing(tuple(strokes), tuple(labels))


def _square(x: float, y: float, side: float) -> Line:
    return ((x, y), (x + side, y), (x + side, y + side), (x, y + side))


def legend(title: str) -> FullSize:
    """Title, squares and key as one block, to lie among the pieces on a large sheet."""
    squares = test_squares(stacked=False)
    wide = sum(side for side, _ in SQUARES) + GAP
    labels, strokes, y = [], [], -max(side for side, _ in SQUARES) - 0.3
    for size, text in ((13.0, title), (10.0, _(FULL_SIZE)), (10.0, _(KEY))):
        for line in wrapped(text, size, wide):
            y -= 1.3 * size * CM_PER_POINT
            labels.append(Label("name" if text == title else "note", line, (0.0, y), "start", size))
        y -= 0.25
    frame: Line = ((-0.3, y - 0.3), (wide + 0.3, y - 0.3), (wide + 0.3, 0.3), (-0.3, 0.3))
    strokes.append(Stroke("waste", frame, True))
    drawing = Drawing((*squares.strokes, *strokes), (*squares.labels, *labels))
    return full_sized(0, "", "", drawing, frame)


def wrapped(text: str, size: float, wide: float) -> list[str]:
    """The text in lines of at most ``wide`` cm; a word that is longer than a line is broken."""
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if text_width(longer, 1.08 * size) <= wide:
            lines[-1] = longer
            continue
        if lines[-1]:
            lines.append("")
        for sign in word:
            if text_width(lines[-1] + sign, 1.08 * size) > wide:
                lines.append("")
            lines[-1] += sign
    return lines
