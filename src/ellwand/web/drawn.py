"""Drawings as parts of a page: the garment with the places one points at, and the plain ones."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal
from xml.sax.saxutils import escape, quoteattr

from ellwand.depict.setting_in import Face
from ellwand.depict.spread import drawing_bounds
from ellwand.depict.view import garment_view
from ellwand.depict.view_zones import Zone, spot, zones
from ellwand.geometry.lines import Line, Point
from ellwand.model.draft import Draft
from ellwand.model.drawing import Drawing
from ellwand.publish.svg import svg_label, svg_stroke
from ellwand.publish.text import clean

HIGH: Final = 150.0
WIDE: Final = 170.0
"""A face of the garment is drawn as if at most so large on paper (mm): pens keep the weight they have on the card."""
MARGIN: Final = 5.0
DISC: Final = 4.2
"""Radius of the mark that carries a finding's number (mm)."""

Weight = Literal["look", "fails"]


@dataclass(frozen=True, slots=True)
class Mark:
    """A finding's number beside the place it speaks of."""

    zone: str
    number: int
    weight: Weight


def on_page(
    drawing: Drawing, scale: float, many: float, margin: float
) -> tuple[Callable[[Point], Point], float, float]:
    """Where a point of the drawing stands, and how wide and high that is: ``many`` units per cm within a ``margin``;
    ``scale``: that of its lettering."""
    x0, y0, x1, y1 = drawing_bounds(drawing, scale)

    def there(point: Point) -> Point:
        return (point[0] - x0) * many + margin, (y1 - point[1]) * many + margin

    return there, (x1 - x0) * many + 2 * margin, (y1 - y0) * many + 2 * margin


def _face_scale(drawing: Drawing) -> float:
    """Units per cm at which a face of the garment fills its room."""
    x0, y0, x1, y1 = drawing_bounds(drawing, 1.0)
    return min(HIGH / (y1 - y0), WIDE / (x1 - x0))


def face_svg(
    draft: Draft, face: Face, label: str, open_zone: str, names: Mapping[str, str], marks: Sequence[Mark]
) -> str:
    """One face of the garment; each zone is a link to its choices."""
    drawing = garment_view(draft, face, "colours")
    there, wide, high = on_page(drawing, 1.0, _face_scale(drawing), MARGIN)
    found = zones(draft, face)
    return "\n".join(
        [
            f'<svg viewBox="0 0 {wide:.2f} {high:.2f}" role="group" aria-label={quoteattr(clean(label))}>',
            *(svg_stroke(each, there) for each in drawing.strokes),
            *(svg_label(each, there) for each in drawing.labels),
            *(_link(zone, zone.name == open_zone, names[zone.name], there) for zone in found if zone.name in names),
            *_marks(found, marks, there),
            "</svg>",
        ]
    )


def plain_face(draft: Draft, label: str, face: Face = "front") -> str:
    """One face of the garment, only to be looked at."""
    drawing = garment_view(draft, face, "colours")
    return plain_svg(drawing, _face_scale(drawing) / 10, label)


def _link(zone: Zone, is_open: bool, name: str, there: Callable[[Point], Point]) -> str:
    """The place of some choices, to be pointed at or tabbed to."""
    here = ' aria-current="true"' if is_open else ""
    said = quoteattr(clean(name))
    return (
        f'<a class="zone" href="#z-{zone.name}" data-zone="{zone.name}" aria-label={said}{here}>'
        f'<title>{escape(clean(name))}</title><path d="{_closed(zone.outline, there)}"/></a>'
    )


def _closed(line: Line, there: Callable[[Point], Point]) -> str:
    return "M" + "L".join(f"{x:.2f} {y:.2f}" for x, y in map(there, line)) + "Z"


def _marks(found: Sequence[Zone], marks: Sequence[Mark], there: Callable[[Point], Point]) -> list[str]:
    """The numbers of findings, beside each other where one zone has several."""
    out: list[str] = []
    taken: dict[str, int] = {}
    for mark in marks:
        at = spot(found, mark.zone)
        if at is None:
            continue
        x, y = there(at)
        x += taken.get(mark.zone, 0) * 2.3 * DISC
        taken[mark.zone] = taken.get(mark.zone, 0) + 1
        grave = " grave" if mark.weight == "fails" else ""
        out.append(
            f'<g class="spot{grave}" aria-hidden="true"><circle cx="{x:.2f}" cy="{y:.2f}" r="{DISC}"/>'
            f'<text x="{x:.2f}" y="{y:.2f}" dy="0.35em" font-size="{1.35 * DISC:.2f}">{mark.number}</text></g>'
        )
    return out


def plain_svg(drawing: Drawing, scale: float, label: str) -> str:
    """A drawing at ``scale`` (paper cm per cm), named for who reads by ear."""
    there, wide, high = on_page(drawing, scale, 10 * scale, 1.0)
    body = [svg_stroke(each, there) for each in drawing.strokes] + [svg_label(each, there) for each in drawing.labels]
    return (
        f'<svg viewBox="0 0 {wide:.2f} {high:.2f}" width="{wide * 4:.0f}" height="{high * 4:.0f}" role="img"'
        f" aria-label={quoteattr(clean(label))}>" + "\n".join(body) + "</svg>"
    )
