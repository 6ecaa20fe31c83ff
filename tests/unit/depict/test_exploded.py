"""The garment taken apart: every part as it is cut, none over another, a leader for every seam.

Congruence and overlaps are computed by shapely from the drawing's own lines.
"""

from __future__ import annotations

import itertools
import re

import pytest
from shapely import LineString, Point, Polygon, STRtree
from shapely.affinity import affine_transform

from ellwand import prove_sheet
from ellwand.choose.styles import STYLES
from ellwand.depict.exploded import exploded, exploded_sheet, exploded_view
from ellwand.depict.lettering import shape_of
from ellwand.errors import EllwandError
from ellwand.model.draft import Draft, EdgeRef, Part, edge_at, piece_of
from ellwand.model.drawing import Drawing
from sheets import sheet
from sweep import garment_at, made

SEED = 7
SWEPT = 100


@pytest.fixture(scope="module", params=sorted(STYLES))
def draft(request: pytest.FixtureRequest) -> Draft:
    return prove_sheet(sheet({"style": request.param})).draft


def test_the_drawn_pieces_are_the_pieces_and_lie_free(draft: Draft) -> None:
    drawing = exploded_view(draft, "cm")
    rings = [(stroke.points, stroke.holes) for stroke in drawing.strokes if stroke.role == "piece"]
    shapes = [Polygon(*ring) for ring in rings[: len(draft.parts)]]
    assert len(rings) == len(draft.parts) + len(draft.applied)
    for part, shape in zip(draft.parts, shapes, strict=True):
        assert _moved_piece(draft, part, shape).symmetric_difference(shape).area < 1e-6 * shape.area
    assert _shared(shapes) < 1e-6


def test_every_seam_of_the_drawing_has_a_leader(draft: Draft) -> None:
    drawing = exploded_view(draft, "cm")
    shapes = [Polygon(s.points) for s in drawing.strokes if s.role == "piece"]
    place = {part.id: _motion(draft, part, shape) for part, shape in zip(draft.parts, shapes, strict=False)}
    ends = [(s.points[0], s.points[-1]) for s in drawing.strokes if s.role == "link"]
    assert not _without(draft, place, ends)


def test_leaders_do_not_cross_pieces(draft: Draft) -> None:
    made_ = exploded(draft)
    tree = STRtree([laid.shape().buffer(-0.01) for laid in made_.laid.values()])
    for join, line in made_.leaders:
        assert not len(tree.query(LineString(line), predicate="intersects")), (join.a, join.b)


@pytest.mark.parametrize("tens", range(5))
def test_garments_of_every_kind(tens: int) -> None:
    done = 0
    for i in range(tens * 1000, tens * 1000 + 100):
        if done == SWEPT // 5:
            break
        try:
            draft = made(*garment_at(SEED, i)).draft
        except EllwandError:
            continue
        done += 1
        apart = exploded(draft)
        shapes = [apart.laid[part.id].shape() for part in draft.parts]
        for part, shape in zip(draft.parts, shapes, strict=True):
            piece = piece_of(draft, part.id)
            whole = Polygon(piece.sewn, piece.sewn_holes)
            assert shape.area == pytest.approx(whole.area, rel=1e-9), (i, part.id)
            assert shape.length == pytest.approx(whole.length, rel=1e-9), (i, part.id)
        assert _shared(shapes) < 1e-4, i
        place = {p.id: _motion(draft, p, Polygon(apart.laid[p.id].ring)) for p in draft.parts}
        ends = [(line[0], line[-1]) for _, line in apart.leaders]
        assert not _without(draft, place, ends), i
    assert done == SWEPT // 5


def test_it_fits_its_room_and_its_words_lie_free(draft: Draft) -> None:
    drawn = exploded_sheet(draft, "cm", 18.6, 15.0)
    assert drawn.width <= 18.6
    assert drawn.height <= 15.0
    words = [shape_of(label, drawn.scale).buffer(-0.02 / drawn.scale) for label in drawn.drawing.labels]
    assert not any(one.intersects(two) for one, two in itertools.combinations(words, 2))
    assert all(_is_numbered(drawn.drawing, piece) for piece in range(1, len(draft.pieces) + 1))


def _is_numbered(drawing: Drawing, number: int) -> bool:
    return any(label.text.split(" ")[0] == str(number) for label in drawing.labels)


def _shared(shapes: list[Polygon]) -> float:
    """The largest area (cm²) that two shapes share."""
    tree = STRtree(shapes)
    pairs = tree.query(shapes, predicate="intersects").T.tolist()
    return max((shapes[i].intersection(shapes[k]).area for i, k in pairs if i < k), default=0.0)


def _motion(draft: Draft, part: Part, shape: Polygon) -> list[float]:
    """The rigid motion from the part's piece to where it lies, from the ends of its longest side."""
    ring = piece_of(draft, part.id).sewn
    there = list(shape.exterior.coords)[:-1]
    there = there if len(there) == len(ring) else list(shape.exterior.coords)[: len(ring)]
    i = max(range(len(ring)), key=lambda k: abs(complex(*ring[k]) - complex(*ring[k - 1])))
    sign = -1.0 if part.mirrored else 1.0
    a, b = complex(sign * ring[i - 1][0], ring[i - 1][1]), complex(sign * ring[i][0], ring[i][1])
    p, q = complex(*there[i - 1]), complex(*there[i])
    turn = (q - p) / (b - a)
    move = p - turn * a
    return [sign * turn.real, -turn.imag, sign * turn.imag, turn.real, move.real, move.imag]


def _moved_piece(draft: Draft, part: Part, shape: Polygon) -> Polygon:
    piece = piece_of(draft, part.id)
    motion = _motion(draft, part, shape)
    assert abs(motion[0] * motion[3] - motion[1] * motion[2]) == pytest.approx(1.0, abs=1e-9)
    return affine_transform(Polygon(piece.sewn, piece.sewn_holes), motion)


def _without(
    draft: Draft,
    place: dict[str, list[float]],
    ends: list[tuple[tuple[float, float], tuple[float, float]]],
) -> list[str]:
    """The seams between two parts that no leader shows, on neither hand."""
    refs = [ref for seam in draft.seams for ref in (seam.a, seam.b)]
    if not refs or not ends:
        return [seam.id for seam in draft.seams if seam.a.part != seam.b.part]
    drawn = [affine_transform(LineString(edge_at(draft, ref).points), place[ref.part]) for ref in refs]
    lines = dict(zip(refs, drawn, strict=True))
    at: dict[EdgeRef, tuple[set[int], set[int]]] = {ref: (set(), set()) for ref in refs}
    for k in (0, 1):
        tree = STRtree([Point(end[k]) for end in ends])
        for i, end in tree.query(drawn, predicate="dwithin", distance=1e-6).T.tolist():
            at[refs[i]][k].add(end)
    by_parts: dict[frozenset[str], list[int]] = {}
    for k, seam in enumerate(draft.seams):
        by_parts.setdefault(frozenset((seam.a.part, seam.b.part)), []).append(k)
    shown: set[str] = set()
    for group in by_parts.values():
        for k in group:
            a, b = at[draft.seams[k].a], at[draft.seams[k].b]
            if a[0] & b[1] or b[0] & a[1]:
                # seams that run on into each other are one to the eye: they share the leader
                shown |= {draft.seams[i].id for i in _running_on(draft, group, k, lines)}
    told = {_name(seam.a, seam.b, False) for seam in draft.seams if seam.id in shown}
    return [
        seam.id
        for seam in draft.seams
        if seam.a.part != seam.b.part and seam.id not in shown and _name(seam.a, seam.b, True) not in told
    ]


def _running_on(draft: Draft, group: list[int], first: int, lines: dict[EdgeRef, LineString]) -> set[int]:
    """The seams of the same two parts that are joined to one end to end."""
    out = {first}
    grown = True
    while grown:
        grown = False
        for k in group:
            if k not in out and any(
                lines[draft.seams[k].a].distance(lines[draft.seams[i].a]) < 1e-6
                and lines[draft.seams[k].b].distance(lines[draft.seams[i].b]) < 1e-6
                for i in out
            ):
                out.add(k)
                grown = True
    return out


def _name(a: EdgeRef, b: EdgeRef, turned: bool) -> frozenset[str]:
    swap = {"left": "right", "right": "left"} if turned else {}
    return frozenset(
        "-".join(swap.get(word, word) for word in re.sub(r"-\d+(?=-|$)", "", text).split("-"))
        for text in (f"{a.part}-{a.edge}", f"{b.part}-{b.edge}")
    )
