"""The figure and its tapes, against the means of a survey and the figure's own outline."""

from __future__ import annotations

import itertools
import json
import math
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiPoint, Polygon, box
from shapely import Point as Spot
from shapely.ops import unary_union

from ellwand.depict import figure_landmarks as body
from ellwand.depict.figure import VIEWS, View, best_view, figure, number, three_views
from ellwand.depict.figure_outline import outlines
from ellwand.depict.lettering import CM_PER_POINT, text_width
from ellwand.depict.smoothing import smooth
from ellwand.depict.tapes import TAPES
from ellwand.geometry.lines import bounds, length
from ellwand.model.drawing import Label
from ellwand.model.measurement import FIELDS, MEASUREMENTS

FLOOR_HEIGHTS = ("height", "nape_to_floor", "waist_to_floor", "hip_to_floor", "crotch_to_floor", "knee_to_floor")
DRAWN = [(view, field) for view in VIEWS for field in TAPES[view]]
POINTS = st.tuples(st.floats(-100, 100), st.floats(-100, 100))


def survey(column: str) -> float:
    """The mean (cm) of the means of women and men in ANSUR II, 2012."""
    stored = json.loads(files("ellwand.measure").joinpath("survey.json").read_text(encoding="utf-8"))
    place = stored["fields"].index(column)
    return float(stored["f"]["mean"][place] + stored["m"]["mean"][place]) / 2


def outline(view: View) -> Polygon:
    return unary_union([Polygon(ring) for ring in outlines(view)])


def ends(field: str, view: View) -> tuple[float, float]:
    """The heights of the first and the last point of a tape."""
    line = TAPES[view][field].lines[0]
    return line[0][1], line[-1][1]


def digits(label: Label, scale: float) -> Polygon:
    """What the figures of a number cover: 0.66 of their size high, the height of Source Sans capitals."""
    wide, high = text_width(label.text, label.size) / scale, 0.66 * label.size * CM_PER_POINT / scale
    x, y = label.at
    left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    return box(left, y - high / 2, left + wide, y + high / 2)


def test_every_measurement_is_drawn_with_its_number() -> None:
    for view in VIEWS:
        assert sorted(label.text for label in figure(view).labels) == sorted(str(number(f)) for f in TAPES[view])
    assert {field for view in VIEWS for field in TAPES[view]} == set(FIELDS)
    assert [number(field) for field in FIELDS] == list(range(1, len(FIELDS) + 1))


@pytest.mark.parametrize("field", FIELDS)
def test_one_measurement_alone_is_drawn_in_its_best_view(field: str) -> None:
    drawing = figure(best_view(field), [field])
    assert [label.text for label in drawing.labels] == [str(number(field))]
    assert any(stroke.role == "tape" for stroke in drawing.strokes)
    whole = figure(best_view(field))
    assert {s for s in drawing.strokes if s.role == "tape"} < {s for s in whole.strokes if s.role == "tape"}


@pytest.mark.parametrize(("view", "field"), DRAWN)
def test_the_tape_lies_on_the_body_or_runs_down_to_the_floor(view: View, field: str) -> None:
    tape = TAPES[view][field]
    if field in FLOOR_HEIGHTS:
        (top, foot), *_ = tape.lines
        assert top[0] == foot[0] and foot[1] == 0.0
    else:
        assert outline(view).buffer(0.5).covers(LineString(tape.lines[0]))


@pytest.mark.parametrize(("view", "field"), DRAWN)
def test_leaders_join_the_number_to_the_tape_or_the_tape_to_the_body(view: View, field: str) -> None:
    tape = TAPES[view][field]
    for leader in tape.leaders:
        assert min(Spot(leader[0]).distance(LineString(line)) for line in tape.lines) < 0.5 or outline(view).buffer(
            0.1
        ).covers(Spot(leader[0]))


@pytest.mark.parametrize(
    ("drawn", "column"),
    [
        (body.CROWN, "stature"),
        (body.NAPE, "cervicale_height"),
        (body.SHOULDER, "acromial_height"),
        (body.ARMPIT, "axilla_height"),
        (body.BUST, "chest_height"),
        (body.BELLY, "waist_height_omphalion"),
        (body.HIP, "buttock_height"),
        (body.CROTCH, "crotch_height"),
        (body.KNEE, "knee_height"),
    ],
)
def test_heights_are_the_surveys_means(drawn: float, column: str) -> None:
    assert drawn == pytest.approx(survey(column), abs=1.0)


def test_the_natural_waist_lies_above_the_navel_as_the_survey_is_translated() -> None:
    # 4.6 cm on women and 3.5 cm on men (measure/survey.py)
    assert body.WAIST - survey("waist_height_omphalion") == pytest.approx((4.6 + 3.5) / 2, abs=0.5)


@pytest.mark.parametrize(
    ("view", "field", "column"),
    [
        ("front", "bust_girth", "chest_breadth"),
        ("front", "belly_girth", "waist_breadth"),
        ("back", "hip_girth", "hip_breadth"),
        ("front", "head_girth", "head_breadth"),
        ("front", "shoulder_girth", "bideltoid_breadth"),
        ("side", "belly_girth", "waist_depth"),
        ("front", "hand_girth", "hand_breadth"),
    ],
)
def test_widths_are_the_surveys_or_slimmer(view: View, field: str, column: str) -> None:
    line = TAPES[view][field].lines[0]
    assert 0.7 * survey(column) < math.dist(line[0], line[-1]) < 1.1 * survey(column)


@pytest.mark.parametrize(
    ("view", "field", "expected"),
    [
        ("side", "arm_length", survey("shoulder_to_wrist") + 1.0),
        ("back", "nape_to_waist", survey("waist_back_length_omphalion") - 4.0),
        ("back", "scye_depth", survey("cervicale_height") - survey("axilla_height")),
        ("back", "across_shoulder", survey("biacromial_breadth")),
    ],
)
def test_lengths_are_near_the_surveys(view: View, field: str, expected: float) -> None:
    assert length(TAPES[view][field].lines[0]) == pytest.approx(expected, abs=3.5)


def test_the_levels_come_in_the_bodys_order() -> None:
    at = {field: max(ends(field, best_view(field))) for field in FIELDS}
    order = ["height", "head_girth", "neck_girth", "neck_base_girth", "shoulder_girth", "bust_girth"]
    order += ["waist_girth", "belly_girth", "hip_girth", "crotch_to_floor", "thigh_girth", "knee_to_floor"]
    order += ["calf_girth", "foot_girth"]
    heights = [at[field] for field in order]
    assert heights == sorted(heights, reverse=True)
    assert at["wrist_girth"] > at["hand_girth"]
    assert at["waist_to_floor"] == pytest.approx(at["waist_girth"])
    assert at["hip_to_floor"] == pytest.approx(at["hip_girth"])
    assert ends("nape_to_waist", "back") == pytest.approx((body.NAPE, body.WAIST))
    assert at["nape_to_floor"] == pytest.approx(body.NAPE)


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("scale", [0.042, 0.054, 0.1])
def test_numbers_keep_clear_of_each_other_and_of_tapes(view: View, scale: float) -> None:
    drawing = figure(view)
    shapes = {label.text: digits(label, scale) for label in drawing.labels}
    for (a, first), (b, second) in itertools.combinations(shapes.items(), 2):
        assert not first.intersects(second), (a, b)
    for stroke in drawing.strokes:
        if stroke.role == "tape":
            for text, shape in shapes.items():
                assert not shape.intersects(LineString(stroke.points)), text


@pytest.mark.parametrize("view", VIEWS)
def test_the_outline_is_whole_and_stands_on_the_floor(view: View) -> None:
    for ring in outlines(view):
        assert Polygon(ring).is_valid
    shape = outline(view)
    assert shape.geom_type == "Polygon"
    assert shape.bounds[1] == pytest.approx(0.0)
    assert shape.bounds[3] == pytest.approx(body.CROWN)
    if view != "side":
        mirrored = Polygon([(-x, y) for x, y in shape.exterior.coords])
        assert shape.symmetric_difference(mirrored).area == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("view", VIEWS)
def test_the_girths_number_stands_near_its_tape(view: View) -> None:
    for field, tape in TAPES[view].items():
        lines = [LineString(line) for line in (*tape.lines, *tape.leaders)]
        assert min(line.distance(Spot(tape.at)) for line in lines) < 7.0, MEASUREMENTS[field].label


def test_the_three_views_stand_beside_each_other() -> None:
    drawing = three_views()
    captions = [label for label in drawing.labels if label.role == "note"]
    assert [label.text for label in captions] == list(VIEWS)
    floors = [bounds(stroke.points) for stroke in drawing.strokes if stroke.role == "dimension"]
    assert all(a[2] < b[0] for a, b in itertools.pairwise(floors))


@given(st.lists(POINTS, min_size=3, max_size=12))
def test_a_smooth_curve_keeps_its_ends_and_stays_inside_its_points(points: list[tuple[float, float]]) -> None:
    # the B-spline's weights are at least 0 and add up to 1 (de Boor), so it lies in the convex hull
    curve = smooth(points)
    assert curve[0] == points[0] and curve[-1] == points[-1]
    assert MultiPoint(points).convex_hull.buffer(1e-6).covers(MultiPoint(curve))


@given(POINTS, POINTS, st.integers(3, 9))
def test_a_smooth_curve_through_even_steps_is_straight(a: tuple[float, float], b: tuple[float, float], n: int) -> None:
    # cubic B-splines reproduce straight lines (de Boor)
    points = [(a[0] + (b[0] - a[0]) * i / n, a[1] + (b[1] - a[1]) * i / n) for i in range(n + 1)]
    curve = smooth(points)
    for i, (x, y) in enumerate(curve):
        t = i / (len(curve) - 1)
        assert (x, y) == pytest.approx((a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t), abs=1e-6)
