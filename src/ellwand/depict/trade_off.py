"""Cloth against garment: the trade-off curve with its stops."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Final

from ellwand.depict.lettering import CM_PER_POINT, Lettering
from ellwand.geometry.lines import Line, Point, arc
from ellwand.language import _
from ellwand.model.drawing import Anchor, Drawing, Label, Stroke
from ellwand.model.freedom import TradeOff, TradePoint
from ellwand.units import CM_PER, Unit, decimal, format_length

WIDTH, HEIGHT = 15.0, 9.0
"""Of the field between the axes, in paper cm; the drawing is made at full size."""
DOT: Final = 0.09
STOP: Final = 0.16
"""Radii of a point and of a stop (paper cm)."""
SMALL: Final = 8.0
Measure = tuple[str, Callable[[TradePoint], float], float]
"""What grows, how it is read off a point, and what is taken as one of it (cm or cm²)."""


def measure_of(found: TradeOff, unit: Unit) -> Measure:
    """What stands for the garment: its length or its hem where only that varies, else its net area."""
    points = found.points
    if all(abs(p.length - points[0].length) < 0.05 for p in points):
        return _("round the hem, {unit}", unit=unit), lambda p: p.sweep, CM_PER[unit]
    if len({len(p.settings) for p in points}) == 1 and len(points[0].settings) == 1:
        return _("length, {unit}", unit=unit), lambda p: p.length, CM_PER[unit]
    return (
        (_("in the garment, m²"), lambda p: p.area, 1e4) if unit == "cm" else (_("sq yd"), lambda p: p.area, 91.44**2)
    )


def trade_off_drawing(found: TradeOff, unit: Unit) -> Drawing:
    """The curve, cloth to the right and garment upward, its stops named with the cloth that each takes.

    In paper cm, to be drawn at scale 1.  The curve must have at least one point.
    """
    what, read, one = measure_of(found, unit)
    cloth = _scale([p.cloth / CM_PER[unit] for p in found.points], WIDTH)
    garment = _scale([read(p) / one for p in found.points], HEIGHT)
    spots = [(cloth.place(p.cloth / CM_PER[unit]), garment.place(read(p) / one)) for p in found.points]
    letters, strokes = Lettering(1.0), _axes(cloth.ticks, garment.ticks)
    for at, text in cloth.ticks:
        letters.put(Label("dimension", text, (at, -0.4), "middle", SMALL))
    for at, text in garment.ticks:
        letters.put(Label("dimension", text, (-0.25, at), "end", SMALL))
    letters.put(Label("edge", _("cloth on the table, {unit}", unit=unit), (WIDTH / 2, -1.0), "middle", 9.0))
    letters.put(Label("edge", what, (-1.5, HEIGHT / 2), "middle", 9.0, 90.0))
    strokes.append(Stroke("seam", _steps(spots)))
    named = {i: name for name, i in found.stops}
    for i, spot in enumerate(spots):
        strokes.append(Stroke("mark", _dot(spot, STOP if i in named else DOT), closed=True))
        letters.taken.append(_box(spot, STOP))
    for i, name in named.items():
        text = f"{_(name)}: {format_length(found.points[i].cloth, unit)}"
        _name(letters, text, spots[i], strokes)
    return Drawing(tuple(strokes), tuple(letters.labels))


class _Scale:
    def __init__(self, low: float, high: float, step: float, size: float) -> None:
        self.low, self.high, self.size = low, high, size
        count = round((high - low) / step)
        digits = max(0, -math.floor(math.log10(step)))
        self.ticks = [(self.place(low + i * step), decimal(low + i * step, digits)) for i in range(count + 1)]

    def place(self, value: float) -> float:
        return (value - self.low) / (self.high - self.low) * self.size


def _scale(values: Sequence[float], size: float) -> _Scale:
    """Round ticks about the values: steps of 1, 2 or 5."""
    low, high = min(values), max(values)
    span = max(high - low, abs(high) * 0.05, 1e-6)
    rough = span / 6
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * m for m in (1, 2, 5, 10) if power * m >= rough * (1 - 1e-9))
    return _Scale(math.floor(low / step) * step, math.ceil(high / step + 0.25) * step, step, size)


def _axes(across: Sequence[tuple[float, str]], up: Sequence[tuple[float, str]]) -> list[Stroke]:
    out = [Stroke("dimension", ((0.0, HEIGHT), (0.0, 0.0), (WIDTH, 0.0)))]
    out += [Stroke("dimension", ((at, 0.0), (at, -0.12))) for at, _ in across]
    out += [Stroke("dimension", ((0.0, at), (-0.12, at))) for at, _ in up]
    return out


def _steps(spots: Sequence[Point]) -> Line:
    """With so much cloth, so much garment: level until the next point's cloth is there."""
    line = [spots[0]]
    for x, y in spots[1:]:
        line += [(x, line[-1][1]), (x, y)]
    return tuple(line)


def _dot(at: Point, radius: float) -> Line:
    return arc(at, radius, 0.0, 2 * math.pi, 0.5)[:-1]


def _box(at: Point, radius: float):  # type: ignore[no-untyped-def]
    from shapely import box

    return box(at[0] - radius, at[1] - radius, at[0] + radius, at[1] + radius)


def _name(letters: Lettering, text: str, at: Point, strokes: list[Stroke]) -> None:
    """Beside its stop where there is room, else further off with a leader."""
    half = 9.0 * CM_PER_POINT
    for far in (0.35, 0.8, 1.3, 1.9, 2.6, 3.4):
        for dx, dy, anchor in _AROUND:
            spot = (at[0] + dx * far, at[1] + dy * far)
            if letters.first_free([Label("name", text, spot, anchor, 9.0)]):
                if far > 0.5:
                    strokes.append(Stroke("leader", (at, (spot[0], spot[1] + (half / 2 if dy < 0 else -half / 2)))))
                return
    letters.put(Label("name", text, (at[0], at[1] + 0.4), "middle", 9.0))


_AROUND: Final[tuple[tuple[float, float, Anchor], ...]] = (
    (-0.6, 0.8, "end"),
    (0.6, -0.8, "start"),
    (0.0, 1.0, "middle"),
    (0.0, -1.0, "middle"),
)
