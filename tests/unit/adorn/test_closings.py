"""Closures in numbers, against paths walked point by point and the wearers' real garments."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from ellwand.adorn import adorn
from ellwand.adorn.closures.closings import KINDS, TAIL, _spread, cloth_circle
from ellwand.adorn.closures.lacing import lace_length, rows
from ellwand.depict import words
from ellwand.depict.words.closings import to_buy
from ellwand.errors import CannotDraft
from ellwand.model.closing import Closing
from ellwand.model.draft import Draft, piece_of
from ellwand.model.piece import edge_of
from ellwand.sew import sew
from proving_specimens import drafted


def closed(garment: dict[str, object]) -> Draft:
    return adorn(drafted(garment)[0])


def only(garment: dict[str, object]) -> Closing:
    (closing,) = closed(garment).closings
    return closing


def walked(points: list[tuple[float, float]]) -> float:
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))


def threaded(lacing: str, count: int, pitch: float, gap: float) -> float:
    """The lace hole by hole, as a hand threads it: left eyelets at x = 0, right ones at x = gap."""
    one, other = rows(lacing, count, pitch)  # type: ignore[arg-type]
    left, right = [(0.0, y) for y in one], [(gap, y) for y in other]
    if lacing == "spiral":
        # from the level pair at the top over each side in turn to the level pair at the bottom
        path = [right[0], left[0]]
        for lower, next_left in zip(right[1:-1], left[1:], strict=True):
            path += [lower, next_left]
        return walked([*path, right[-1]])
    if lacing == "crossed":
        ends = walked([left[0], right[0]])
        first = [side[i] for i, side in enumerate(itertools.islice(itertools.cycle([left, right]), count))]
        second = [side[i] for i, side in enumerate(itertools.islice(itertools.cycle([right, left]), count))]
        return ends + walked(first) + walked(second)
    path = []
    for i in range(count):
        path += [left[i], right[i]] if i % 2 == 0 else [right[i], left[i]]
    return walked(path)


@given(st.sampled_from(["spiral", "ladder", "crossed"]), st.integers(2, 40), st.floats(0.5, 8), st.floats(0.2, 6))
def test_a_lace_is_as_long_as_its_path_through_the_eyelets(lacing: str, count: int, pitch: float, gap: float) -> None:
    # brute force: the lace is threaded eyelet by eyelet and measured
    assert lace_length(lacing, count, pitch, gap) == pytest.approx(threaded(lacing, count, pitch, gap))  # type: ignore[arg-type]


def test_a_crossed_lace_by_hand() -> None:
    # ten pairs 2 cm apart in rows 4 cm apart: 4 + 18 √20
    assert lace_length("crossed", 10, 2, 4) == pytest.approx(84.498, abs=1e-3)


@given(st.integers(2, 30), st.floats(0.5, 8))
def test_spiral_eyelets_lie_half_way_between_with_level_pairs_at_the_ends(count: int, pitch: float) -> None:
    one, other = rows("spiral", count, pitch)
    assert (one[0], one[-1]) == (other[0], other[-1])
    assert all(b == pytest.approx((a + c) / 2) for a, b, c in zip(one, other[1:-1], one[1:], strict=False))
    assert len(other) == count + 1


CLOSURES = st.fixed_dictionaries(
    {
        "at": st.sampled_from(["neck slit", "centre-front", "centre-back", "side", "cuffs"]),
        "by": st.sampled_from(list(KINDS)),
        "lacing": st.sampled_from(["spiral", "ladder", "crossed"]),
    },
    optional={"spacing": st.floats(0.8, 12)},
)
BODIES = st.fixed_dictionaries(
    {
        "cut": st.sampled_from(["wide panels", "shoulder panels"]),
        "shoulder": st.sampled_from(["fold", "seam"]),
        "centre_seam": st.sampled_from(["none", "both", "front"]),
    }
)


@settings(max_examples=40, deadline=None)
@given(CLOSURES, BODIES, st.sampled_from(["centre", "left", "right"]))
def test_fastenings_sit_evenly_within_their_opening_and_just_inside_the_cloth(
    closure: dict[str, object], body: dict[str, object], slit: str
) -> None:
    garment = {"body": body, "neck": {"slit": slit}, "sleeve": {"shape": "fitted forearm"}, "closures": [closure]}
    try:
        draft = closed(garment)
    except CannotDraft:
        return
    (closing,) = draft.closings
    kind = KINDS[closing.by]
    asked = closure.get("spacing", kind.spacing)
    assert closing.pitch <= asked + 1e-9  # type: ignore[operator]
    assert all(b - a == pytest.approx(closing.pitch) for a, b in itertools.pairwise(closing.one))
    assert closing.one[-1] <= closing.length + 1e-6
    assert closing.openings == (2 if closing.at == "cuffs" else 1)
    for piece in draft.pieces:
        cloth = Polygon(piece.sewn, piece.sewn_holes)
        for mark in piece.marks:
            edge = LineString(edge_of(piece, mark.edge).points)
            assert edge.distance(Point(mark.at)) == pytest.approx(kind.inset, abs=0.02)
            assert cloth.buffer(1e-6).contains(Point(mark.at))
            # the distance that is told is the distance on the cloth, from the end at neck, cuff or armpit
            along = edge.project(Point(mark.at))
            assert min(abs(along - mark.distance), abs(edge.length - along - mark.distance)) < 0.02


def test_both_lips_of_every_opening_are_marked() -> None:
    draft = closed({"sleeve": {"shape": "fitted forearm"}, "closures": [{"at": "cuffs", "by": "buttons"}]})
    marks = piece_of(draft, "sleeve-left").marks
    count = draft.closings[0].count
    assert sorted({mark.edge for mark in marks}) == ["underarm-back-opening", "underarm-front-opening"]
    assert len(marks) == 2 * count


def test_the_wearers_left_of_a_neck_slit_is_the_left() -> None:
    # on a whole body seen from outside, front below, the wearer's left lies at the greater x
    draft = closed({"closures": [{"at": "neck slit", "by": "lacing"}]})
    closing, marks = draft.closings[0], piece_of(draft, "body").marks
    left = [mark for mark in marks if mark.edge == "neck-slit-1"]
    assert len(left) == len(closing.one)
    assert min(mark.at[0] for mark in left) > max(mark.at[0] for mark in marks if mark not in left)


def test_buttonholes_of_the_herjolfsnes_gowns() -> None:
    # no. 63: 15 buttonholes 1.8 cm apart span 25.2 cm; a 25.2 cm run at that spacing has as many gaps
    closing = only({"closures": [{"at": "side", "by": "buttons", "spacing": 1.8}]})
    assert closing.pitch == pytest.approx(1.7, abs=0.1)
    assert closing.count == math.ceil((25.0 - 1.0) / 1.8)


def test_a_whole_front_is_closed_to_the_hip() -> None:
    draft = closed({"closures": [{"at": "centre-front", "by": "buttons"}]})
    closing = draft.closings[0]
    piece = piece_of(draft, "front-left")
    lowest = min(mark.at[1] for mark in piece.marks) - piece.levels[0].base_y
    hip = draft.dimensions.levels["hip"]
    assert hip - 0.01 <= lowest < hip + closing.count * 0.1 + 0.01


def test_cuffs_that_pass_the_hand_need_nothing() -> None:
    draft = closed({"closures": [{"at": "cuffs", "by": "buttons"}]})
    assert draft.closings == ()
    last = sew(draft)[-1]
    assert "nothing to close" in words.step(last, draft, "cm")


def test_a_lace_cannot_overlap() -> None:
    with pytest.raises(CannotDraft, match="cannot overlap"):
        closed({"closures": [{"at": "neck slit", "by": "lacing", "lap": "overlap"}]})


def test_number_spacing_and_cord_are_told() -> None:
    draft = closed({"closures": [{"at": "neck slit", "by": "lacing", "lacing": "crossed", "spacing": 2}]})
    closing = draft.closings[0]
    said = words.step(sew(draft)[-1], draft, "cm")
    assert f"{closing.count} eyelets in each edge" in said
    assert f"{closing.pitch:g} cm apart" in said
    assert f"a lace of {math.ceil(closing.cord)} cm" in said
    assert closing.cord > 2 * TAIL


def test_closures_take_time_and_thread() -> None:
    plain, closed_ = drafted({"closures": [{"at": "neck slit"}]})[0], closed({"closures": [{"at": "neck slit"}]})
    before, after = sew(plain)[-1], sew(closed_)[-1]
    assert after.minutes_hand > before.minutes_hand
    assert after.thread_m > before.thread_m


def test_distances_in_inches_fall_on_eighths() -> None:
    from ellwand.choose import read_sheet
    from ellwand.draft import draft
    from ellwand.measure import wearer_from
    from sheets import toml

    tables = {
        "wearer": {"name": "A", "unit": "in", "height": 65, "bust_girth": 38, "head_girth": 22},
        "garment": {"closures": [{"at": "neck slit", "by": "buttons"}]},
        "cloth": {"main": {"width": 150}},
    }
    read = read_sheet(toml(tables).encode(), lambda name: 1.0)
    (closing,) = adorn(draft(read.choices, wearer_from(read.wearer), "main")).closings
    assert all((at / 0.3175) == pytest.approx(round(at / 0.3175)) for at in closing.one)


@pytest.mark.parametrize(
    ("run", "spacing", "open_end", "count"),
    [
        (25.2, 1.8, True, 15),  # no. 63 of Herjolfsnes: 15 buttonholes 1.8 cm apart
        (24.75, 2.25, True, 12),  # no. 64: 12 of them 2.25 cm apart
        (27.0, 2.25, False, 12),  # or 12 intervals, as one page's measure has it
    ],
)
def test_rows_of_the_herjolfsnes_gowns(run: float, spacing: float, open_end: bool, count: int) -> None:
    assert _spread(run, spacing, open_end, 1) == (count, pytest.approx(spacing))


@pytest.mark.parametrize(("button", "circle"), [(0.6, 2.5), (1.5, 6.0), (1.05, 4.25)])
def test_a_cloth_buttons_circle(button: float, circle: float) -> None:
    """Thursfield, The Medieval Tailor's Assistant: 6 to 15 mm finished, from a circle of 2.5 to 6 cm."""
    assert cloth_circle(button) == pytest.approx(circle)


def test_a_cloth_button_is_small_and_takes_more_cloth_than_covers_it() -> None:
    # a ball that wide has the surface π d², the circle π c² / 4: so much is gathered inside
    for tenths in range(6, 16):
        button = tenths / 10
        assert math.pi * button**2 < math.pi * cloth_circle(button) ** 2 / 4
    for wide in (0.5, 2.0):
        with pytest.raises(CannotDraft, match="are not made"):
            only({"closures": [{"at": "side", "by": "buttons", "buttons": "cloth", "size": wide}]})


def test_cloth_buttons_are_told_on_the_card_and_in_the_list() -> None:
    garment = {"closures": [{"at": "neck slit", "by": "buttons", "buttons": "cloth", "size": 1.5}]}
    draft = closed(garment)
    said = words.step(sew(draft)[-1], draft, "cm")
    assert "cut a circle 6 cm across from the scraps" in said and "1.7 cm long" in said
    assert to_buy(draft.closings[0], "cm").startswith(f"{draft.closings[0].count} cloth buttons")


def test_a_loop_goes_round_its_toggle() -> None:
    small, large = (only({"closures": [{"at": "side", "by": "loops", "size": wide}]}) for wide in (1.0, 3.0))
    assert large.cord - small.cord == pytest.approx(large.count * math.pi * 2.0)
    assert small.cord / small.count > math.pi * small.size


def test_usual_buttons_are_smaller_where_they_are_set_close() -> None:
    assert only({"closures": [{"at": "side", "by": "buttons"}]}).size == 1.2
    close = only({"closures": [{"at": "side", "by": "buttons", "spacing": 0.8}]})
    assert 0.4 < close.size < close.pitch <= 0.8


def test_buttons_do_not_overlap() -> None:
    with pytest.raises(CannotDraft, match="do not fit"):
        only({"closures": [{"at": "side", "by": "buttons", "size": 1.8, "spacing": 1.0}]})
