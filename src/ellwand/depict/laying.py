"""The lay: the cloth with every piece on it, and the distances to chalk them by."""

from __future__ import annotations

from collections.abc import Sequence

from ellwand.depict.lay_ground import draw_cloth, draw_margins, draw_over
from ellwand.depict.lay_pieces import draw_names, draw_outlines
from ellwand.depict.lay_sheet import LaySheet
from ellwand.model.cloth import Cloth
from ellwand.model.drawing import Drawing
from ellwand.model.lay import Lay
from ellwand.model.piece import Piece
from ellwand.units import Unit


def lay_drawing(
    lay: Lay,
    pieces: Sequence[Piece],
    unit: Unit,
    *,
    cloth: Cloth | None = None,
    scale: float = 0.05,
    lying: bool = False,
) -> Drawing:
    """The lay in cloth coordinates, for ``scale`` (paper cm per cm); ``lying``: a quarter turn clockwise.

    Upright the cut end is below and the left selvedge at the left; lying, the cut end is at the left and the
    left selvedge above.  ``cloth`` tells of faults, nap and pattern, which are left out without it.  Folded cloth is
    drawn as it lies on the table, from the fold on.
    """
    sheet = LaySheet(lay, pieces, cloth, unit, scale, lying)
    draw_cloth(sheet)
    draw_outlines(sheet)
    draw_over(sheet)
    draw_names(sheet)
    draw_margins(sheet)
    return sheet.drawing()
