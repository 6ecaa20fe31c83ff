"""The paper that a lay is drawn on: strokes and letters while they are being made, upright or lying."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from shapely import Polygon, box

from ellwand.depict.chalk_notes import half_on_cloth
from ellwand.depict.lettering import CM_PER_POINT, Lettering, shape_of
from ellwand.depict.naming import numbers
from ellwand.depict.placed import by_id, lie_ring
from ellwand.depict.sizes import chalked
from ellwand.geometry.lines import Line, Point
from ellwand.model.cloth import Cloth
from ellwand.model.drawing import Drawing, Label, Role, Stroke
from ellwand.model.lay import Lay, Placement
from ellwand.model.piece import Piece
from ellwand.units import Unit, format_length


def laid_size(lay: Lay) -> tuple[float, float]:
    """Width and length (cm) of what lies on the table: half of the cloth where it is folded."""
    width = lay.width / 2 if lay.fold == "lengthwise" else lay.width
    length = lay.length / 2 if lay.fold == "crosswise" else lay.length
    return width, length


class LaySheet:
    """One lay's drawing in cloth coordinates, for ``scale`` paper cm per cm; ``lying``: a quarter turn clockwise."""

    def __init__(
        self, lay: Lay, pieces: Sequence[Piece], cloth: Cloth | None, unit: Unit, scale: float, lying: bool
    ) -> None:
        self.lay, self.cloth, self.unit, self.scale, self.lying = lay, cloth, unit, scale, lying
        self.width, self.length = laid_size(lay)
        self.pieces, self.known, self.key = pieces, by_id(pieces), numbers(pieces)
        self.strokes: list[Stroke] = []
        self.letters = Lettering(scale)

    def drawing(self) -> Drawing:
        """All that was drawn."""
        return Drawing(tuple(self.strokes), tuple(self.letters.labels))

    def paper(self, mm: float) -> float:
        """So many mm on paper, in cm of the cloth."""
        return mm / 10 / self.scale

    def say(self, value: float) -> str:
        """A length without its unit."""
        return format_length(value, self.unit, mark=False)

    def on_page(self, line: Iterable[Point]) -> Line:
        """A line of the cloth as it lies on the page."""
        return tuple((y, -x) for x, y in line) if self.lying else tuple(line)

    def point(self, at: Point) -> Point:
        """A point of the cloth as it lies on the page."""
        return self.on_page((at,))[0]

    def draw(self, role: Role, points: Line, *, closed: bool = False, holes: Iterable[Line] = ()) -> None:
        """A line of the cloth."""
        self.strokes.append(Stroke(role, self.on_page(points), closed, tuple(self.on_page(hole) for hole in holes)))

    def apart(self, label: Label) -> bool:
        """Far enough from its neighbours not to be read as one with them."""
        return self.letters.clear(shape_of(label, self.scale, self.paper(0.4)))

    def ground(self) -> Polygon:
        """The cloth that lies there."""
        return Polygon(self.lay.outline) if self.lay.outline else box(0.0, 0.0, self.width, self.length)

    def chalked(self, placement: Placement) -> Line:
        """What of a placed piece is chalked there: its outline, of one on the fold the half that lies on the cloth."""
        whole = lie_ring(chalked(self.known[placement.piece]), placement)
        return half_on_cloth(whole, self.lay) if placement.on_fold else whole

    def ring(self, placement: Placement) -> Line:
        """A placed piece's whole cut outline; of one on the fold half of it lies beyond the cloth."""
        return lie_ring(self.known[placement.piece].cut, placement)

    def label_height(self, size: float) -> float:
        """Height of lettering of ``size`` points, in cm of the cloth."""
        return size * 1.2 * CM_PER_POINT / self.scale
