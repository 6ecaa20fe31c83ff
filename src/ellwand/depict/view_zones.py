"""The places of the garment in its picture that one points at to choose something for them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from ellwand.depict.setting_in import Face, SetIn
from ellwand.depict.tinctures import polygons_of, ring_of
from ellwand.depict.view_arm import Arm
from ellwand.depict.view_bands import SleeveSeen, bands_on_body, bands_on_sleeve, body_seen
from ellwand.depict.view_others import other_view
from ellwand.depict.view_seams import seams_of
from ellwand.depict.view_trunk import Trunk
from ellwand.geometry.lines import Line, Point, mirror
from ellwand.model.draft import Draft
from ellwand.model.drawing import Stroke
from ellwand.model.finding import Finding
from ellwand.model.wearer import HANDS

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

FINGER: Final = 5.0
"""A line is pointed at within so much of it (cm of the garment)."""
DEEP: Final = 0.07
"""The hem is pointed at within this share of the garment's length, or a finger's breadth."""
STEPS: Final = 8


@dataclass(frozen=True, slots=True)
class Zone:
    """A place with the line round it (cm, as in the garment's picture); its name is that of what is chosen there."""

    name: str
    outline: Line


def zones(draft: Draft, face: Face) -> tuple[Zone, ...]:
    """What can be pointed at on one face; where two lie over each other, the later one lies above."""
    if draft.choices.other is not None:
        return tuple(_other(draft, face))
    return tuple(_sewn(draft, face))


def _other(draft: Draft, face: Face) -> Iterator[Zone]:
    from shapely import Polygon, unary_union

    strokes = [s for s in other_view(draft, face).strokes if s.closed and s.role == "garment"]
    yield from _zones(draft.choices.style, unary_union([Polygon(stroke.points).buffer(0) for stroke in strokes]))


def _sewn(draft: Draft, face: Face) -> Iterator[Zone]:
    from shapely import LineString, Polygon, unary_union

    trunk = Trunk(draft, face)
    outline = Polygon(trunk.outline()).buffer(0)
    yield from _zones("body", outline)
    arms = [Arm(draft, hand, face, trunk) for hand in HANDS] if draft.choices.sleeve.shape != "none" else []
    for arm in arms:
        yield from _zones("sleeve", Polygon(arm.outline()).buffer(0).difference(outline))
    gores = [_gore(trunk, place) for place in trunk.places if place.gores]
    for gore in gores:
        yield from _zones("gores", gore)
    hem = LineString((*reversed(mirror(trunk.hem())), *trunk.hem()[1:]))
    deep = max(FINGER, DEEP * draft.dimensions.length)
    yield from _zones("hem", hem.buffer(deep).intersection(outline))
    seams = seams_of(trunk)
    openings = [stroke.points for stroke in seams if stroke.role == "opening"]
    low = [line for line in openings if max(y for _, y in line) < trunk.arm]
    for line in low:
        yield from _zones("splits", LineString(line).buffer(FINGER / 2))
    for line in _closed(draft, face, trunk, arms, [line for line in openings if line not in low]):
        yield from _zones("closures", LineString(line).buffer(FINGER / 2))
    neck = (*reversed(mirror(trunk.neck)), *trunk.neck[1:])
    yield from _zones("neck", unary_union([LineString(neck).buffer(FINGER), Polygon(neck).buffer(0)]))
    bands = _bands(draft, face, trunk, arms, seams)
    yield from _zones("bands", unary_union([Polygon(stroke.points).buffer(1.0) for stroke in bands]))


def _gore(trunk: Trunk, place: SetIn) -> BaseGeometry:
    """What is set in at a place, on both sides of the middle."""
    from shapely import Polygon, unary_union

    shares = [i / STEPS for i in range(STEPS + 1)]
    radii = [place.blunt + (place.radius - place.blunt) * i / STEPS for i in range(STEPS)]
    line: list[Point] = [trunk.at(place, far, 0.0) for far in radii]
    line += [trunk.at(place, trunk.reach(place, share), share) for share in shares]
    line += [trunk.at(place, far, 1.0) for far in reversed(radii)]
    half = Polygon(line).buffer(0.01)
    return unary_union([half, Polygon(mirror(line)).buffer(0.01)])


def _bands(draft: Draft, face: Face, trunk: Trunk, arms: Sequence[Arm], seams: Sequence[Stroke]) -> list[Stroke]:
    """Every band that is seen on this face."""
    if not draft.adornment.bands:
        return []
    body = body_seen(draft, face, trunk.outline(), trunk.hem(), trunk.neck, trunk.edge(), seams)
    out = bands_on_body(draft, body)
    for arm in arms:
        out += bands_on_sleeve(draft, arm.hand, SleeveSeen(arm.outline(), arm.at, arm.long, arm.cuff()))
    return out


def _closed(draft: Draft, face: Face, trunk: Trunk, arms: Sequence[Arm], openings: Sequence[Line]) -> Iterator[Line]:
    """The openings that something closes."""
    at = {closure.at for closure in draft.choices.closures}
    if "cuffs" in at:
        yield from (arm.cuff() for arm in arms)
    if "side" in at:
        edge = trunk.edge()[:2]
        yield edge if face == "front" else mirror(edge)
    if at - {"cuffs", "side"}:
        yield from openings


def _zones(name: str, ground: BaseGeometry) -> Iterator[Zone]:
    """A zone for each part of the ground, holes closed."""
    for part in polygons_of(ground.simplify(0.05)):
        if part.area > 1:
            yield Zone(name, ring_of(part)[0])


def spot(found: Sequence[Zone], name: str) -> Point | None:
    """Where a mark for the place stands: inside the largest part of it that no other of the face's places covers."""
    from shapely import Polygon, unary_union

    mine = [i for i, zone in enumerate(found) if zone.name == name]
    if not mine:
        return None
    above = unary_union([Polygon(zone.outline) for zone in found[mine[-1] + 1 :]])
    parts = [part for i in mine for part in polygons_of(Polygon(found[i].outline).difference(above)) if part.area > 1]
    if not parts:
        return None
    at = max(parts, key=lambda part: (round(part.area), part.centroid.x)).representative_point()
    return at.x, at.y


AT: Final[Mapping[str, str]] = {
    **dict.fromkeys(("neck-opens", "neck-passes", "neck-tight", "neck-too-small", "neck-by-estimate"), "neck"),
    **dict.fromkeys(("shoulder-strip", "neck-width", "slit-depth", "layer-neck", "head-by-estimate"), "neck"),
    **dict.fromkeys(("cuff", "cuff-opened", "cuff-too-small", "cuff-by-estimate"), "sleeve"),
    **dict.fromkeys(("reaching", "overhead", "overhead-held", "elbow-room", "underarm-room"), "sleeve"),
    **dict.fromkeys(("sleeve-length", "layer-sleeve", "layer-sleeve-room"), "sleeve"),
    **dict.fromkeys(("over-head", "over-head-opens", "stepped-into", "fits", "fits-by-estimate"), "body"),
    **dict.fromkeys(("fits-open", "sitting", "sitting-open", "layer-girth", "panel-narrowed"), "body"),
    **dict.fromkeys(("fold-with-one-centre-seam", "fold-with-open-shoulder", "pieced", "put-together"), "body"),
    **dict.fromkeys(("walking", "walking-open", "riding", "hem-clears", "layer-hem", "trailing"), "hem"),
    **dict.fromkeys(("bloused", "lasts", "other-hem", "hang-hem", "hang-trips"), "hem"),
    **dict.fromkeys(("hang-belt", "hang-pulls"), "body"),
    **dict.fromkeys(("gore-room", "gore-in-slit", "gore-at-opening", "gore-to-armpit", "corners-hang"), "gores"),
    **dict.fromkeys(("walking-split", "riding-open", "split-top"), "splits"),
    **dict.fromkeys(("centre-seam-for-closure",), "closures"),
    **dict.fromkeys(("band-bends", "band-taken-up"), "bands"),
    **dict.fromkeys(("tincture-rule", "tincture-lost"), "division"),
    **dict.fromkeys(("allowance-for-finish",), "sewing"),
}
"""Where the finding of a code belongs that does not say it by the head of its code."""
HEADS: Final[Mapping[str, str]] = {
    "cloth": "cloth",
    "hood": "hood",
    "cloak": "cloak",
    "coif": "coif",
    "apron": "apron",
    "breeches": "breeches",
    "slip": "wearer",
}


def zone_of(draft: Draft, finding: Finding) -> str:
    """The place that a finding belongs to: one of the zones, or 'sewing', 'cloth', 'wearer' or 'garment'."""
    other = draft.choices.other
    found = AT.get(finding.code) or HEADS.get(finding.code.partition("-")[0], "garment")
    if other is not None and found not in ("cloth", "wearer", "sewing", "bands", "garment"):
        return draft.choices.style
    return found
