"""What a lay's drawing shows, on lays made by hand and against the outlines unfolded by shapely."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from shapely import LineString, Polygon, box
from shapely.affinity import translate
from shapely.ops import unary_union

from ellwand.depict.lay_sheet import laid_size
from ellwand.depict.laying import lay_drawing
from ellwand.depict.lettering import shape_of
from ellwand.depict.words.lays import how_it_lies, how_short, lay_name, measured_from
from ellwand.model.cloth import Cloth, Fault, Repeat
from ellwand.model.drawing import Drawing, Role
from ellwand.model.lay import Lay, Placement
from ellwand.model.piece import Piece

SCALE = 0.06
CLOTH = Cloth("main", 150.0, washed=True)


def piece(name: str, width: float, height: float, count: int = 1) -> Piece:
    ring = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    return Piece(name, name, "main", count, "body", ring, (), ring, (), ())


PIECES = (piece("front", 60, 100), piece("sleeve", 40, 50, 2), piece("band", 20, 10))


def at(name: str, x: float, y: float, **more: object) -> Placement:
    return Placement(name, name, x, y, 0.0, False, **more)  # type: ignore[arg-type]


def a_lay(*placements: Placement, **more: object) -> Lay:
    lay = Lay("main", 150, 148, 200, 210, 160, "area", 0.7, "flat", "rows", placements)
    return replace(lay, **more)  # type: ignore[arg-type]


FLAT = a_lay(at("front", 1, 0), at("sleeve", 61, 0), at("band", 61, 60))
LENGTHWISE = a_lay(
    at("front", -30, 10, layers=2, on_fold=True),
    at("sleeve", 32, 0, layers=2, partner="sleeve-right"),
    fold="lengthwise",
)
CROSSWISE = a_lay(
    at("front", 5, -50, layers=2, on_fold=True), at("sleeve", 70, 0, layers=2, partner="sleeve-right"), fold="crosswise"
)
LEFT_OVER = a_lay(at("band", 5, 5), width=60, usable_width=60, length=30, remnant=1)
KINDS = {"flat": FLAT, "lengthwise": LENGTHWISE, "crosswise": CROSSWISE, "left-over": LEFT_OVER}


def drawn(lay: Lay, cloth: Cloth = CLOTH, *, lying: bool = False) -> Drawing:
    return lay_drawing(lay, PIECES, "cm", cloth=cloth, scale=SCALE, lying=lying)


def lines(drawing: Drawing, role: Role) -> list[LineString]:
    return [LineString((*s.points, s.points[0]) if s.closed else s.points) for s in drawing.strokes if s.role == role]


def texts(drawing: Drawing) -> list[str]:
    return [label.text for label in drawing.labels]


@pytest.mark.parametrize("lying", [False, True])
@pytest.mark.parametrize("kind", KINDS)
def test_no_words_lie_on_each_other(kind: str, lying: bool) -> None:
    drawing = drawn(KINDS[kind], replace(CLOTH, nap=True, faults=(Fault(100, 120, 9, 9),)), lying=lying)
    for a, b in itertools.combinations(drawing.labels, 2):
        assert shape_of(a, SCALE).intersection(shape_of(b, SCALE)).area < 0.2, (a.text, b.text)


@pytest.mark.parametrize("kind", KINDS)
def test_waste_is_shaded_and_nothing_else(kind: str) -> None:
    lay = KINDS[kind]
    known = {p.id: Polygon(p.cut) for p in PIECES}
    cut = unary_union([translate(known[p.piece], p.x, p.y) for p in lay.placements])
    waste = box(0, 0, *laid_size(lay)).difference(cut)
    hatched = lines(drawn(lay), "waste")
    assert hatched and all(waste.buffer(1e-6).contains(line) for line in hatched)
    # lines 2.2 mm apart on paper: no spot of waste is further than half of that from one
    assert waste.buffer(-0.12 / SCALE).difference(unary_union(hatched).buffer(0.12 / SCALE)).area < 0.01


def test_on_the_fold_only_half_is_cut_and_not_along_the_fold() -> None:
    drawing = drawn(LENGTHWISE)
    front = [line for line in lines(drawing, "cut") if not line.is_ring]
    # up from the hem along the side, across the shoulder: 30 + 100 + 30
    assert sum(line.length for line in front) == pytest.approx(160, abs=0.01)
    assert all(line.intersection(LineString([(0, 0), (0, 200)])).length < 1e-6 for line in front)
    across = [line for line in lines(drawn(CROSSWISE), "cut") if not line.is_ring]
    assert sum(line.length for line in across) == pytest.approx(50 + 60 + 50, abs=0.01)
    for each in (LENGTHWISE, CROSSWISE):
        said = texts(drawn(each))
        assert said.count("on the fold") == 1 and "fold" in said
        assert any(text.startswith("cut 2") for text in said)


def test_folded_cloth_is_drawn_as_it_lies() -> None:
    assert laid_size(LENGTHWISE) == (75, 200) and laid_size(CROSSWISE) == (150, 100)
    assert [line.length for line in lines(drawn(LENGTHWISE), "selvedge")] == [200]
    assert [line.length for line in lines(drawn(CROSSWISE), "selvedge")] == [100, 100]
    assert lines(drawn(LEFT_OVER), "selvedge") == []
    assert [line.length for line in lines(drawn(LENGTHWISE), "fold")] == [200]


@pytest.mark.parametrize(
    ("kind", "place"),
    [("flat", (20, 150, 26, 155)), ("lengthwise", (49, 150, 55, 155)), ("crosswise", (20, 50, 26, 55))],
)
def test_faults_are_shown_where_they_lie(kind: str, place: tuple[float, float, float, float]) -> None:
    """A fault at 20 … 26 across and 150 … 155 along, of a cloth that is folded at 75, or at 100 along."""
    drawing = drawn(KINDS[kind], replace(CLOTH, faults=(Fault(20, 150, 6, 5),)))
    outline = next(s for s in drawing.strokes if s.role == "fault" and s.closed)
    assert Polygon(outline.points).symmetric_difference(box(*place)).area < 1e-6
    assert "fault" in texts(drawing)


def test_a_fault_under_the_fold_lies_on_it() -> None:
    drawing = drawn(LENGTHWISE, replace(CLOTH, faults=(Fault(70, 150, 20, 5),)))
    outline = next(s for s in drawing.strokes if s.role == "fault" and s.closed)
    assert Polygon(outline.points).bounds == (0, 150, 15, 155)


def test_the_shortest_possible_is_marked_unless_the_lay_is_it() -> None:
    words = "no lay of these pieces can be shorter than this"
    (bound,) = lines(drawn(FLAT), "bound")
    assert bound.bounds[1] == bound.bounds[3] == 160 and words in texts(drawn(FLAT))
    assert lines(drawn(CROSSWISE), "bound")[0].bounds[1] == 80
    for lay in (replace(FLAT, lower_bound=199.95), LEFT_OVER):
        assert lines(drawn(lay), "bound") == [] and words not in texts(drawn(lay))


def test_nap_has_an_arrow_and_pieces_one_head() -> None:
    plain, napped = drawn(FLAT), drawn(FLAT, replace(CLOTH, nap=True))
    assert "nap" in texts(napped) and "nap" not in texts(plain)
    # a shaft and two heads for each of the larger pieces, or a shaft and one head, and the nap's own arrow
    heads = [sum(len(line.coords) == 3 for line in lines(drawing, "grain")) for drawing in (plain, napped)]
    assert heads[0] >= 4 and heads[1] == heads[0] / 2 + 1


def test_stripes_keep_their_places_on_the_fold() -> None:
    striped = replace(CLOTH, repeat=Repeat(across=10, x=5))
    assert sorted({line.bounds[0] for line in lines(drawn(FLAT, striped), "stripe")}) == list(range(5, 150, 10))
    # the fold is at 75, in the middle of a stripe
    assert sorted({line.bounds[0] for line in lines(drawn(LENGTHWISE, striped), "stripe")}) == list(range(0, 75, 10))


def test_a_short_table_shows_where_the_cloth_is_moved() -> None:
    drawing = drawn(FLAT, replace(CLOTH, table=120.0))
    assert [line.bounds[1] for line in lines(drawing, "leader")] == [100]
    assert "move the cloth along to here" in texts(drawing)


def test_lays_are_told_apart_and_told_plainly() -> None:
    other = replace(FLAT, cloth="lining")
    flat = replace(FLAT, start=200.0)
    assert lay_name(FLAT, [FLAT]) == "the lay"
    assert lay_name(other, [FLAT, other]) == "the lining cloth"
    assert lay_name(LEFT_OVER, [LEFT_OVER, FLAT]) == "left-over 1"
    assert lay_name(LENGTHWISE, [LENGTHWISE, flat]) == "the lay, folded part"
    assert lay_name(flat, [LENGTHWISE, flat]) == "the lay, flat part"
    assert "75 cm wide and 200 cm long, two layers" in how_it_lies(LENGTHWISE, "cm")
    assert "150 cm wide and 100 cm long, two layers" in how_it_lies(CROSSWISE, "cm")
    assert how_it_lies(flat, "cm").startswith("From 200 cm on")
    assert measured_from(LENGTHWISE) == ("the cut end", "the fold")
    assert measured_from(CROSSWISE) == ("the fold", "the left selvedge")


def test_the_gap_is_told_and_best_only_when_proved() -> None:
    assert how_short(FLAT, "cm").startswith("At most 25.0% longer") and "160 cm" in how_short(FLAT, "cm")
    assert how_short(replace(FLAT, lower_bound=200.0), "cm").startswith("Proved best")
    assert how_short(LEFT_OVER, "cm") == ""
