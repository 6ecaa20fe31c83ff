"""What the signs in the pictures of steps mean, as a drawing on paper (cm)."""

from __future__ import annotations

from typing import Final

from ellwand.depict.lettering import text_width
from ellwand.depict.step_view.signs import arrow, back_stitches, cross_bar, dot, hatch
from ellwand.language import N_, _
from ellwand.model.drawing import Drawing, Label, Stroke

SIZE: Final = 9.0
ROW: Final = 0.62
COLUMN: Final = 6.1
LETTERED: Final = N_("thin lines and like letters: these ends meet")


def legend(columns: int = 3) -> Drawing:
    """The signs in so many columns, each with its meaning."""
    from shapely import MultiLineString, box

    tone = hatch(box(0.0, -0.2, 0.9, 0.2), MultiLineString())
    frame = ((0.0, -0.2), (0.9, -0.2), (0.9, 0.2), (0.0, 0.2), (0.0, -0.2))
    signs: list[tuple[list[Stroke], str]] = [
        ([Stroke("sew here", ((0.0, 0.0), (0.9, 0.0)))], _("sew or finish this edge")),
        ([Stroke("joined", ((0.0, 0.0), (0.9, 0.0)))], _("sewn already")),
        ([Stroke("fold", ((0.0, 0.0), (0.9, 0.0)))], _("fold")),
        (
            [dot((0.08, 0.0)), *arrow(((0.3, 0.0), (0.9, 0.0)))],
            _("start; sew this way"),
        ),
        (
            [
                Stroke("sew here", ((0.3, -0.2), (0.3, 0.2))),
                Stroke("sew here", ((0.55, -0.2), (0.55, 0.2))),
                *arrow(((0.05, 0.0), (0.85, 0.0))),
            ],
            _("the allowances go this way"),
        ),
        (cross_bar((0.45, 0.0), 1.5708), _("work a bar: it takes strain")),
        (back_stitches((0.45, 0.0)), _("a few back stitches: it takes strain")),
        ([*tone, Stroke("piece", frame)], _("wrong side (plain: right side)")),
        ([Stroke("link", ((0.3, -0.2), (0.3, 0.2)))], _(LETTERED)),
    ]
    strokes: list[Stroke] = []
    labels: list[Label] = []
    for i, (sign, text) in enumerate(signs):
        x, y = COLUMN * (i % columns), -ROW * (i // columns)
        strokes += [Stroke(s.role, tuple((px + x, py + y) for px, py in s.points), s.closed) for s in sign]
        labels.append(Label("note", text, (x + 1.1, y), "start", SIZE))
    return Drawing(tuple(strokes), tuple(labels))


def width() -> float:
    """How wide the legend is (cm)."""
    return 2 * COLUMN + 1.1 + text_width(_(LETTERED), SIZE)
