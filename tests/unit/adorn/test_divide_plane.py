"""A piece parted by lines, against shapely's polygonizer on the same lines."""

from __future__ import annotations

import itertools
import math
from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, box, get_parts, polygonize
from shapely.affinity import rotate
from shapely.ops import unary_union

from ellwand.adorn.division.plane import Face, between_alike, faces_of, polygon
from ellwand.geometry.lines import Line

Rings = list[list[tuple[tuple[str, int], Line]]]


def rings_of(shape: Polygon) -> Rings:
    """Every side of a shape an edge of its own."""
    out: Rings = []
    for r, ring in enumerate([shape.exterior, *shape.interiors]):
        points = [(float(x), float(y)) for x, y in ring.coords]
        if ring.is_ccw != (r == 0):
            points.reverse()
        out.append([((f"{r}-{n}", 0), (a, b)) for n, (a, b) in enumerate(itertools.pairwise(points))])
    return out


def crossing(shape: Polygon, line: LineString, rings: Rings) -> list[Line]:
    """The line's stretches within the shape; the sides of ``rings`` come apart where they end."""
    found: list[Line] = []
    for part in get_parts(line.intersection(shape)):
        if isinstance(part, LineString) and part.length > 1:
            found.append(tuple((float(x), float(y)) for x, y in part.coords))
    for stretch in found:
        for end in (stretch[0], stretch[-1]):
            for ring in rings:
                side = next((n for n, (_, points) in enumerate(ring) if _on(points, end)), None)
                if side is not None:
                    (name, count), points = ring[side]
                    ring[side : side + 1] = [((name, count), (points[0], end)), ((f"{name}'", count), (end, points[1]))]
    return found


def _on(points: Line, end: tuple[float, float]) -> bool:
    clear = min(math.dist(points[0], end), math.dist(points[1], end)) > 1e-4
    return clear and LineString(points).distance(LineString([end, end]).centroid) < 1e-9


def never(_: Polygon) -> bool:
    return False


def sound(faces: tuple[Face, ...], whole: Polygon) -> None:
    shapes = [polygon(face) for face in faces]
    assert all(shape.is_valid and shape.exterior.is_ccw for shape in shapes)
    assert math.isclose(sum(shape.area for shape in shapes), whole.area, rel_tol=1e-9)
    assert math.isclose(unary_union(shapes).area, whole.area, rel_tol=1e-6)
    for n, face in enumerate(faces):
        assert shapes[n].contains(polygon(face).representative_point())
        for bit in (bit for ring in (face.ring, *face.holes) for bit in ring if bit.key is None):
            beyond = faces[bit.beyond]
            across = [each.points for ring in (beyond.ring, *beyond.holes) for each in ring if each.beyond == n]
            assert bit.points[::-1] in across


PLATE = Polygon([(0, 0), (50, 0), (50, 40), (30, 40), (25, 15), (20, 40), (0, 40)], [[(8, 8), (8, 16), (15, 12)]])


@settings(max_examples=60, deadline=None)
@given(
    turns=st.lists(st.tuples(st.floats(1, 179), st.floats(-18, 18)), min_size=1, max_size=4),
    shape=st.sampled_from([PLATE, box(0, 0, 60, 25), Polygon([(0, 0), (40, 0), (20, 50)])]),
)
def test_any_straight_lines_part_any_piece_as_the_polygonizer_does(
    turns: list[tuple[float, float]], shape: Polygon
) -> None:
    rings, drawn = rings_of(shape), []
    centre = shape.centroid
    for degrees, aside in turns:
        line = rotate(LineString([(centre.x - 99, centre.y + aside), (centre.x + 99, centre.y + aside)]), degrees)
        drawn += crossing(shape, line, rings)
    theirs = polygonize(list(get_parts(unary_union([shape.boundary, *map(LineString, drawn)]))))
    inside = [part for part in theirs.geoms if shape.contains(part.representative_point())]
    if min((part.area for part in inside), default=0) < 0.5 or not drawn:
        return
    found = faces_of(rings, drawn, never)
    # lines that cross within half a centimetre cross in one point: areas differ by that much at most
    ours = sorted(polygon(face).area for face in found)
    if len(ours) == len(inside):
        assert all(abs(a - b) < 30 for a, b in zip(ours, sorted(part.area for part in inside), strict=True))
    sound(found, shape)


def test_one_line_parts_a_piece_exactly() -> None:
    rings = rings_of(box(0, 0, 40, 20))
    drawn = crossing(box(0, 0, 40, 20), LineString([(-5, 3), (45, 13)]), rings)
    found = faces_of(rings, drawn, never)
    # trapezoids: (4 + 12) / 2 · 40 and the rest
    assert sorted(round(polygon(face).area, 9) for face in found) == [320.0, 480.0]


def test_lines_through_a_hole_on_both_sides_leave_two_halves_of_its_ring() -> None:
    shape = Polygon(box(0, 0, 40, 40).exterior, [[(15, 15), (15, 25), (25, 25), (25, 15)]])
    rings = rings_of(shape)
    drawn = crossing(shape, LineString([(20, -1), (20, 41)]), rings)
    found = faces_of(rings, drawn, never)
    assert len(found) == 2 and not any(face.holes for face in found)
    names = Counter(bit.key[0][0] for face in found for bit in face.ring if bit.key)
    assert names == {"0": 6, "1": 6}


def test_what_is_too_small_stays_with_its_neighbour_and_keeps_the_larger_heart() -> None:
    shape = box(0, 0, 40, 20)
    rings = rings_of(shape)
    drawn = crossing(shape, LineString([(39, -1), (39, 21)]), rings)
    drawn += crossing(shape, LineString([(10, -1), (10, 21)]), rings)
    found = faces_of(rings, drawn, lambda part: part.buffer(-1).is_empty)
    assert sorted(polygon(face).area for face in found) == [200.0, 600.0]
    assert all(10 < face.heart[0] < 39 for face in found if polygon(face).area == 600)


def test_lines_between_alike_faces_are_named_once() -> None:
    rings = rings_of(box(0, 0, 30, 10))
    drawn = [each for x in (10, 20) for each in crossing(box(0, 0, 30, 10), LineString([(x, -1), (x, 11)]), rings)]
    found = faces_of(rings, drawn, never)
    assert between_alike(found, ["gules", "or", "gules"]) == []
    assert len(between_alike(found, ["gules", "gules", "gules"])) == 1
