"""A tear plan as files: its drawing as SVG, and the tears with what is chalked in the blocks as CSV."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from ellwand.depict.tearing import block_chalk, tear_drawing, tear_rows
from ellwand.model.cloth import Cloth
from ellwand.model.piece import Piece
from ellwand.model.tearing import TearPlan
from ellwand.publish.svg import svg
from ellwand.units import CM_PER, Unit

SCALE = 0.1
"""Paper cm per cm of the drawing."""
TEAR_HEAD = ("tear", "of", "way", "distance", "comes_off", "left", "unit", "do")
BLOCK_HEAD = (
    "block",
    "step",
    "no",
    "piece",
    "part",
    "what",
    "corner",
    "from_lower_end",
    "from_left_edge",
    "radius",
    "to_from_lower_end",
    "to_from_left_edge",
    "unit",
    "note",
)


def tear_svg(plan: TearPlan, pieces: Sequence[Piece], cloth: Cloth, unit: Unit, title: str) -> str:
    """The tears on the cloth at one to ten, its cut end at the left."""
    return svg(tear_drawing(plan, pieces, unit, cloth=cloth, scale=SCALE, lying=True), SCALE, title)


def tear_csv(plan: TearPlan, unit: Unit) -> str:
    """The tears in their order; distances in ``unit`` as decimals."""
    rows = tear_rows(plan, unit)
    return _csv(
        TEAR_HEAD,
        [(r.n, r.of, r.way, _decimal(r.distance, unit), r.comes_off, r.left, unit, r.words) for r in rows],
    )


def block_csv(plan: TearPlan, pieces: Sequence[Piece], unit: Unit) -> str:
    """What to chalk in each torn block before scissors go in, from the block's own lower end and left edge."""
    out: list[tuple[object, ...]] = []
    for block, rows in block_chalk(plan, pieces, unit):
        for r in rows:
            to = (_decimal(r.to_along, unit), _decimal(r.to_across, unit)) if r.what == "slit" else ("", "")
            place = (_decimal(r.along, unit), _decimal(r.across, unit), _decimal(r.radius, unit) if r.radius else "")
            out.append(
                (block.name, r.step, r.key, r.piece, r.part, r.what, r.letter, *place, *to, unit, r.note),
            )
    return _csv(BLOCK_HEAD, out)


def _csv(head: Sequence[str], rows: Sequence[Sequence[object]]) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(head)
    writer.writerows(rows)
    return out.getvalue()


def _decimal(cm: float, unit: Unit) -> str:
    return f"{round(cm / CM_PER[unit], 3) + 0.0:.3f}".rstrip("0").rstrip(".")
