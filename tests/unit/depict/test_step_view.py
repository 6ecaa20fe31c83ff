"""The pictures of steps: true to the pieces, edges face to face, letters clear of each other (checked with shapely)."""

from __future__ import annotations

import itertools
import math
from functools import cache
from typing import Any, Final

import pytest
from shapely import LineString, Polygon, union_all

from ellwand import prove_sheet
from ellwand.choose.styles import STYLES
from ellwand.depict.lettering import shape_of
from ellwand.depict.naming import all_parts
from ellwand.depict.step_view import LEAST_GAP, WIDEST, Layout, laid_out, step_drawing
from ellwand.depict.step_view.motion import REST
from ellwand.errors import CannotDraft
from ellwand.model.drawing import Drawing
from ellwand.model.garment import Garment
from ellwand.model.step import Step
from ellwand.sew.others import OTHER_NEEDS
from ellwand.sew.plan import NEEDS
from sheets import sheet
from sweep import garments, made

Tables = dict[str, Any]
WIDE: Final = {"cut": "wide panels"}
SPECIMENS: Final[dict[str, tuple[Tables, Tables]]] = {
    **{style: ({"style": style}, {}) for style in STYLES},
    "split slits": ({"splits": [{"place": "centre-front"}]}, {}),
    "side splits": ({"splits": [{"place": "side"}], "gores": []}, {}),
    "underlaps": (
        {
            "neck": {"collar": 4, "facing": "strip"},
            "closures": [{"at": "neck slit", "by": "buttons", "lap": "overlap", "overlap": 2.5}],
        },
        {},
    ),
    "train": ({"length": "floor", "train": 30}, {}),
    "in the round": ({}, {"sleeves": "in the round"}),
    "bands": ({"body": WIDE, "bands": [{"at": "cuffs"}, {"at": "hem"}]}, {}),
    "motifs": ({"body": WIDE, "repeats": [{"motif": "lozenge", "along": "neck"}]}, {}),
    "motifs round": ({"body": WIDE, "gores": [], "repeats": [{"motif": "lozenge", "along": "hem"}]}, {}),
    "charges": (
        {
            "body": {**WIDE, "centre_seam": "both", "shoulder": "seam"},
            "charges": [{"ordinary": "fess", "tincture": "or"}],
        },
        {},
    ),
    "divided": ({"division": {"by": "per fess", "tinctures": ["or", "gules"]}}, {}),
    "hood with a tail": ({"style": "hood", "hood": {"gores": "shoulder", "liripipe": 60}}, {}),
    "rectangular cloak": ({"style": "cloak", "cloak": {"shape": "rectangle", "width": 250}}, {}),
    "cloak of strips": ({"style": "cloak"}, {}),
    "french": ({}, {"finish": "french"}),
}
SWEPT: Final = range(60)


@cache
def specimen(name: str) -> Garment:
    garment, sewing = SPECIMENS[name]
    narrow = {"width": 62} if "strips" in name else {}
    return prove_sheet(sheet(garment, sewing=sewing, cloth=narrow))


@cache
def swept() -> tuple[Garment, ...]:
    out = []
    for tables, person in garments(7, len(SWEPT)):
        try:
            out.append(made(tables, person))
        except CannotDraft:
            continue
    return tuple(out)


def drawing_of(done: Garment, step: Step) -> Drawing:
    return step_drawing(step, done.draft, done.wearer.unit, done.steps)


def well_drawn(done: Garment, step: Step) -> None:
    """Something is drawn, all of it is on paper near its room, and no label lies on another."""
    drawing = drawing_of(done, step)
    points = [point for stroke in drawing.strokes for point in stroke.points]
    assert points and all(math.isfinite(x) and math.isfinite(y) for x, y in points), step.code
    boxes = [shape_of(label, 1.0) for label in drawing.labels]
    corners = [*points, *(corner for box in boxes for corner in box.exterior.coords)]
    right, top = max(x for x, _ in corners), max(y for _, y in corners)
    assert min(x for x, _ in corners) > -1e-6 and min(y for _, y in corners) > -1e-6, step.code
    assert right < 8.25 and top < 8.0, (step.code, right, top)
    for (one, a), (two, b) in itertools.combinations(zip(drawing.labels, boxes, strict=True), 2):
        assert a.intersection(b).area < 1e-6, (step.code, one.text, two.text)


def true_to_pieces(done: Garment, layout: Layout) -> None:
    """What is drawn has the area and the edges of the sewn outline; a folded part shows its two layers of it."""
    pieces = {part.id: part.piece for part in all_parts(done.draft)}
    outlines = {piece.id: piece for piece in done.draft.pieces}
    for part, laid in layout.laid.items():
        piece = outlines[pieces[part]]
        whole = Polygon(piece.sewn, piece.sewn_holes).buffer(0)
        under = laid.beneath()
        drawn = laid.shape().area + (under.area if under is not None else 0.0)
        assert drawn == pytest.approx(whole.area, rel=1e-6), part
        for edge in piece.edges:
            assert LineString(laid.edge(edge.id)).length == pytest.approx(LineString(edge.points).length, abs=1e-6)


def heading(line: tuple[tuple[float, float], ...]) -> float:
    return math.atan2(line[-1][1] - line[0][1], line[-1][0] - line[0][0])


def face_to_face(layout: Layout) -> None:
    """The chords of joins laid face to face are parallel within 1°, and as far apart as the layout says."""
    for i, stated in layout.facing.items():
        join = layout.joins[i]
        a, b = layout.line(join), layout.line(join, second=True)
        off = abs((heading(a) - heading(b) + math.pi) % (2 * math.pi) - math.pi)
        assert math.degrees(off) < 1.0
        # how far apart the middles of the chords are, measured square to the first
        (ax, ay), (bx, by) = (((line[0][0] + line[-1][0]) / 2, (line[0][1] + line[-1][1]) / 2) for line in (a, b))
        square = abs(-(bx - ax) * math.sin(heading(a)) + (by - ay) * math.cos(heading(a)))
        assert square == pytest.approx(stated, abs=1e-6)
        assert 0.0 <= stated <= 2.6 * layout.gap


def lie_apart(layout: Layout) -> None:
    """What is not joined yet covers less than a hundredth of any other part."""
    shapes = {part: laid.shape() for part, laid in layout.laid.items()}
    for one, two in itertools.combinations(shapes, 2):
        if one in layout.apart or two in layout.apart:
            a, b = shapes[one], shapes[two]
            assert a.intersection(b, grid_size=1e-6).area < 0.01 * min(a.area, b.area), (one, two)


def holds(done: Garment) -> None:
    for step in done.steps:
        well_drawn(done, step)
        layout = laid_out(step, done.draft, done.steps)
        true_to_pieces(done, layout)
        face_to_face(layout)
        lie_apart(layout)


@pytest.mark.parametrize("name", SPECIMENS)
def test_every_step_of_every_style_and_specimen(name: str) -> None:
    holds(specimen(name))


@pytest.mark.parametrize("share", range(4))
def test_every_step_of_swept_garments(share: int) -> None:
    for done in swept()[share::4]:
        holds(done)


def test_every_step_there_is_has_been_drawn() -> None:
    drawn = {step.code for done in (*swept(), *map(specimen, SPECIMENS)) for step in done.steps}
    assert not {*NEEDS, *OTHER_NEEDS} - drawn


def test_a_plain_sleeve_faces_its_armhole_across_a_gap_that_shows() -> None:
    done = specimen("tunic")
    step = next(step for step in done.steps if step.code == "sleeves")
    layout = laid_out(step, done.draft, done.steps)
    assert set(layout.laid) >= {"body", "sleeve-left"} and "sleeve-right" not in layout.laid
    assert layout.facing and layout.repeated == ("on the right",)
    assert layout.facing[0] == pytest.approx(layout.gap, abs=1e-6)
    assert layout.gap <= WIDEST and LEAST_GAP > 0
    assert layout.laid["body"].motion == REST


def test_a_sleeve_folded_for_its_seam_shows_half_of_itself() -> None:
    done = specimen("in the round")
    step = next(step for step in done.steps if step.code == "sleeve seams")
    layout = laid_out(step, done.draft, done.steps)
    (sleeve,) = layout.laid.values()
    under = sleeve.beneath()
    assert layout.folded and sleeve.wrong and under is not None
    assert sleeve.shape().area == pytest.approx(under.area, rel=1e-6)
    assert sleeve.shape().symmetric_difference(under).area < 1e-6


def test_bars_are_drawn_where_the_gusset_is_seen_and_nowhere_else() -> None:
    done = specimen("breeches")
    step = next(step for step in done.steps if step.code == "crotch gusset")
    drawing = drawing_of(done, step)
    cloth = union_all([Polygon(stroke.points) for stroke in drawing.strokes if stroke.role == "blank"]).buffer(0.25)
    feet = [LineString(stroke.points) for stroke in drawing.strokes if stroke.role == "stitch"]
    assert feet and all(cloth.intersects(foot) for foot in feet)


def test_of_many_like_parts_one_of_each_kind_is_drawn() -> None:
    done = max(swept(), key=lambda each: len(each.draft.parts))
    assert len(done.draft.parts) > 40
    named = set()
    for step in done.steps:
        layout = laid_out(step, done.draft, done.steps)
        if "at all like seams" in layout.repeated:
            named.add(step.code)
            kinds = {part.piece for part in all_parts(done.draft) if part.id in step.parts}
            shown = {layout.laid[part].own.piece.id for join in layout.joins for part in (join.a, join.b)}
            assert shown <= kinds and len(layout.laid) < len(step.parts)
    assert named
