"""Hatching and colours: each tincture in its own way, nothing outside its shape; and the view of the garment."""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Sequence
from typing import Any, get_args

import pytest
from shapely import LineString, Point, Polygon, unary_union

from ellwand import prove_sheet
from ellwand.adorn.division.field import tincture_at
from ellwand.depict.tinctures import filled, hatched
from ellwand.depict.view import garment_view
from ellwand.model.draft import Draft
from ellwand.model.drawing import Role, Stroke
from ellwand.model.heraldry import Face, Tincture
from ellwand.publish.pens import PENS
from ellwand.publish.svg import svg_stroke
from ellwand.publish.typst_text import PRELUDE, compile_pdf, picture
from sheets import sheet

TINCTURES = get_args(Tincture)
SHAPE = Polygon([(-20, 3), (14, 0), (31, 40), (3, 22), (-17, 44)], [[(0, 6), (6, 7), (5, 13), (-1, 12)]])
"""Hollow, slanting and with a hole."""

# Petra Sancta's system of 1638 (Chambers's Encyclopaedia, heraldry): what each line runs through from (0, 0), x to the
# viewer's right, y upward.  The dexter chief is the viewer's upper left: from there lines fall to the lower right.
UPRIGHT, LEVEL, FALLING, RISING = (0.0, 1.0), (1.0, 0.0), (1.0, -1.0), (1.0, 1.0)
LINES = {
    "argent": set(),
    "gules": {UPRIGHT},
    "azure": {LEVEL},
    "sable": {UPRIGHT, LEVEL},
    "vert": {FALLING},
    "purpure": {RISING},
    "tenné": {RISING, LEVEL},
    "sanguine": {RISING, FALLING},
}


def way(stroke: Stroke) -> tuple[float, float]:
    (ax, ay), (bx, by) = stroke.points
    dx, dy = bx - ax, by - ay
    big = max(abs(dx), abs(dy))
    sign = -1 if dx < -1e-9 * big or (abs(dx) < 1e-9 * big and dy < 0) else 1
    return round(sign * dx / big, 6) + 0.0, round(sign * dy / big, 6) + 0.0


@pytest.mark.parametrize("tincture", LINES)
@pytest.mark.parametrize("apart", [0.9, 2.3])
def test_each_tinctures_lines_run_its_way_within_its_shape(tincture: Tincture, apart: float) -> None:
    strokes = hatched(SHAPE, tincture, apart)
    assert {way(stroke) for stroke in strokes} == LINES[tincture]
    assert {stroke.role for stroke in strokes} <= {"hatch"}
    within = SHAPE.buffer(1e-6)
    assert all(within.covers(LineString(stroke.points)) for stroke in strokes)


@pytest.mark.parametrize("tincture", [t for t in LINES if LINES[t]])
def test_lines_are_evenly_apart_and_cover_the_shape(tincture: Tincture) -> None:
    apart = 1.7
    strokes = hatched(SHAPE, tincture, apart)
    for direction in LINES[tincture]:
        size = math.hypot(*direction)
        dx, dy = direction[0] / size, direction[1] / size
        offs = sorted({round(s.points[0][1] * dx - s.points[0][0] * dy, 6) for s in strokes if way(s) == direction})
        gaps = [b - a for a, b in itertools.pairwise(offs)]
        assert gaps == pytest.approx([apart] * len(gaps))
        lines = unary_union([LineString(s.points) for s in strokes if way(s) == direction])
        # as much line as the shape has area for
        assert lines.length * apart == pytest.approx(SHAPE.area, rel=0.06)


def test_or_is_dotted_with_whole_dots() -> None:
    dots = hatched(SHAPE, "or", 1.2)
    assert len(dots) == pytest.approx(SHAPE.area / 1.2**2, rel=0.15)
    assert all(stroke.role == "hatch dot" and stroke.closed for stroke in dots)
    assert all(SHAPE.covers(Polygon(stroke.points)) for stroke in dots)


@pytest.mark.parametrize("tincture", TINCTURES)
def test_a_colour_fills_just_its_shape(tincture: Tincture) -> None:
    (stroke,) = filled(SHAPE, tincture)
    assert stroke.role == tincture
    assert Polygon(stroke.points, stroke.holes).symmetric_difference(SHAPE).area < 1e-9
    colour = PENS[stroke.role].colour
    assert f'fill="{colour}"' in svg_stroke(stroke, lambda point: point)


def test_every_role_has_a_pen_and_no_two_tinctures_one_colour() -> None:
    assert set(PENS) == set(get_args(Role))
    assert len({PENS[tincture].colour for tincture in TINCTURES}) == len(TINCTURES)


# --- the view ---------------------------------------------------------------------------------------------

FACES: tuple[Face, ...] = ("front", "back")


def draft(**garment: Any) -> Draft:
    return prove_sheet(sheet(garment)).draft


@pytest.mark.parametrize(
    "garment", [{}, {"body": {"cut": "shoulder panels"}}, {"sleeve": {"shape": "none"}, "length": "ankle"}]
)
@pytest.mark.parametrize("face", FACES)
def test_a_garment_of_one_cloth_is_drawn_the_same_for_paper_and_screen(garment: dict[str, Any], face: Face) -> None:
    plain = draft(**garment)
    view = garment_view(plain, face)
    assert view == garment_view(plain, face, "colours")
    assert not {stroke.role for stroke in view.strokes} & {*TINCTURES, "hatch", "hatch dot", "charge"}


def seen_at(strokes: Sequence[Stroke], at: Point) -> str:
    """The tincture that is drawn last at a point."""
    shown = ""
    for stroke in strokes:
        if stroke.role in TINCTURES and Polygon(stroke.points, stroke.holes).contains(at):
            shown = stroke.role
    return shown


@pytest.mark.parametrize(
    "by", ["per pale", "per fess", "quarterly", "per bend", "per chevron", "per saltire", "gyronny", "paly", "lozengy"]
)
def test_the_view_shows_each_point_in_its_tincture_dexter_behind_at_the_viewers_right(by: str) -> None:
    divided = draft(division={"by": by, "tinctures": ["gules", "or"]}, sleeve={"shape": "none"}, gores=[])
    adorned = divided.adornment.field
    assert adorned is not None
    field, dice = adorned.front, random.Random(by)
    for face, sign in (("front", 1), ("back", -1)):
        strokes = garment_view(divided, face, "colours").strokes  # type: ignore[arg-type]
        right = 0
        for _ in range(60):
            x, y = dice.uniform(-field.half, field.half), dice.uniform(5.0, field.top - 22)
            near = [tincture_at(adorned.division, field, (sign * x + dx, y + dy)) for dx in (-1, 1) for dy in (-1, 1)]
            if len(set(near)) == 1:
                assert seen_at(strokes, Point(x, y)) == near[0]
                right += 1
        assert right > 12


def test_hatching_stays_within_the_body_and_its_sleeves() -> None:
    divided = draft(
        division={"by": "quarterly", "tinctures": ["gules", "azure"]},
        gores=[{"place": "side"}, {"place": "centre-front"}],
        charges=[{"ordinary": "fess", "tincture": "or", "on": "both"}],
    )
    for face in FACES:
        strokes = garment_view(divided, face).strokes
        body = unary_union([Polygon(s.points).buffer(0) for s in strokes if s.role == "garment" and s.closed])
        hatch = [LineString(s.points) for s in strokes if s.role in ("hatch", "hatch dot")]
        assert len(hatch) > 100
        assert all(body.buffer(0.01).covers(line) for line in hatch)


def test_gores_take_the_tincture_of_what_they_are_set_into() -> None:
    divided = draft(division={"by": "per pale", "tinctures": ["gules", "or"]}, gores=[{"place": "side", "base": 60}])
    strokes = garment_view(divided, "front", "colours").strokes
    half = divided.dimensions.panel_width / 2
    assert seen_at(strokes, Point(-half - 5, 8)) == "gules"
    assert seen_at(strokes, Point(half + 5, 8)) == "or"


def test_a_sleeve_is_of_its_sides_tincture() -> None:
    divided = draft(division={"by": "per pale", "tinctures": ["gules", "or"]})
    half, top = divided.dimensions.panel_width / 2, divided.dimensions.length
    for face, sign in (("front", 1), ("back", -1)):
        strokes = garment_view(divided, face, "colours").strokes  # type: ignore[arg-type]
        # the wearer's right sleeve hangs at the viewer's left of the front
        assert seen_at(strokes, Point(-sign * (half + 10), top - 15)) == "gules"
        assert seen_at(strokes, Point(sign * (half + 10), top - 15)) == "or"


def test_charges_are_drawn_where_they_are_sewn_on() -> None:
    charges = [
        {"ordinary": "bend", "tincture": "gules", "on": "both"},
        {"motif": "annulet", "tincture": "or", "number": 3, "on": "back"},
    ]
    found = draft(charges=charges, gores=[])
    for face in FACES:
        strokes = garment_view(found, face).strokes
        shown = unary_union([Polygon(s.points, s.holes) for s in strokes if s.role == "charge" and s.closed])
        sewn = unary_union(
            [Polygon(r.ring, r.holes) for c in found.adornment.charges if c.face == face for r in c.regions]
        )
        assert sewn.area > 100
        assert shown.symmetric_difference(sewn).area < 1e-3 * sewn.area


def test_both_ways_of_showing_it_can_be_printed() -> None:
    divided = draft(division={"by": "chequy", "tinctures": ["tenné", "argent"]}, length="hip", gores=[])
    parts = [picture(garment_view(divided, "front", shown), 0.05) for shown in ("hatching", "colours")]
    assert compile_pdf("\n".join([PRELUDE, *parts])).startswith(b"%PDF")
    assert f'rgb("{PENS["tenné"].colour}")' in parts[1] and "rgb(" not in parts[0]
