"""A repeat's line laid out straight: every motif in its place, the seams, and the distances to chalk."""

from __future__ import annotations

from typing import Final

from ellwand.depict.lettering import CM_PER_POINT
from ellwand.geometry.lines import Line, backwards
from ellwand.model.drawing import Drawing, Label, Stroke
from ellwand.model.motif import placed_line
from ellwand.model.repeat import Placement, Repeat
from ellwand.model.run import starts
from ellwand.units import Unit, format_length

SMALL: Final = 8.0
"""Points."""


def line_drawing(repeat: Repeat, unit: Unit, scale: float) -> Drawing:
    """The line from end to end (cm), the cloth above it; a closed one with its beginning in the middle.

    Made to be shown at ``scale`` (paper cm per cm).
    """
    run, whole = repeat.run, repeat.run.length
    left = -whole / 2 if run.closed else 0.0
    high = repeat.motif.size[0 if repeat.upright else 1]
    middle = 0.0 if run.along == "line" else repeat.chosen.inset + high / 2
    step = SMALL * CM_PER_POINT / scale
    strokes = [Stroke("sewn", ((left, 0.0), (left + whole, 0.0)))]
    labels: list[Label] = []
    low, top = middle - high / 2, middle + high / 2
    for seam in run.seams:
        x = _there(seam, left, whole)
        strokes.append(Stroke("seam", ((x, min(0.0, low) - step), (x, top + step))))
    for name, x in _parts(repeat, left, whole):
        labels.append(Label("edge", name, (x, top + 1.6 * step), size=SMALL))
    for each in repeat.placements:
        if not each.again:
            strokes += _motif(repeat, each, (_there(each.at, left, whole), middle))
    base = min(0.0, low) - 1.8 * step
    strokes += _distances(repeat, left, base, step)
    for text, x in _said(repeat, left, unit):
        labels.append(Label("dimension", text, (x, base - 1.2 * step), size=SMALL))
    return Drawing(tuple(strokes), tuple(labels))


def _there(at: float, left: float, whole: float) -> float:
    """Where a place lies when the line starts at ``left``."""
    return at - whole if left < 0 and at > whole / 2 + 1e-6 else at


def _motif(repeat: Repeat, each: Placement, at: tuple[float, float]) -> list[Stroke]:
    """The motif as it stands on the line, seen from outside."""
    motif = repeat.corner if each.corner and repeat.corner else repeat.motif
    centre = (motif.size[0] / 2, motif.size[1] / 2)
    flips = repeat.chosen.mirrored and each.at > repeat.run.length / 2

    def there(line: Line) -> Line:
        moved = placed_line(line, centre, at, 90.0 if repeat.upright else 0.0, flips)
        return backwards(moved) if flips else moved

    return [
        Stroke("motif", there(region.ring), True, tuple(there(hole) for hole in region.holes))
        for region in motif.regions
    ]


def _parts(repeat: Repeat, left: float, whole: float) -> list[tuple[str, float]]:
    """What each stretch between two seams lies on, and its middle; neighbours on one part are one."""
    begins = starts(repeat.run)
    spans: list[tuple[float, float, str]] = []
    for stretch, low, high in zip(repeat.run.stretches, begins, begins[1:], strict=False):
        name = stretch.part.replace("-", " ")
        if left < 0 and high > whole / 2:
            spans.append((max(low, whole / 2) - whole, high - whole, name))
            high = whole / 2
        if high - low > 1e-6:
            spans.append((low, high, name))
    out: list[tuple[float, float, str]] = []
    for a, b, name in sorted(spans):
        if out and out[-1][2] == name:
            out[-1] = (out[-1][0], b, name)
        else:
            out.append((a, b, name))
    return [(name, (a + b) / 2) for a, b, name in out]


def _distances(repeat: Repeat, left: float, base: float, step: float) -> list[Stroke]:
    """A tick below every middle, on one line."""
    places = sorted(_there(at, left, repeat.run.length) for at in repeat.at)
    ends = (left, left + repeat.run.length)
    ticks = [Stroke("dimension", ((x, base - step / 3), (x, base + step / 3))) for x in (*places, *ends)]
    return [Stroke("dimension", ((ends[0], base), (ends[1], base))), *ticks]


def _said(repeat: Repeat, left: float, unit: Unit) -> list[tuple[str, float]]:
    """How far it is to the first middle, and from one to the next; the latter of every row that has its own."""
    whole, out = repeat.run.length, []
    told: list[float] = []
    for row in sorted(repeat.rows, key=lambda row: row.first % whole):
        first = _there(row.first % whole if repeat.run.closed else row.first, left, whole)
        if not told and abs(first) > 0.05:
            out.append((format_length(first, unit, mark=False), first / 2))
        if row.count > 1 and all(abs(row.pitch - other) > 0.05 for other in told):
            out.append((format_length(row.pitch, unit, mark=False), first + row.pitch * (1.5 if not told else 0.5)))
            told.append(row.pitch)
    return out
