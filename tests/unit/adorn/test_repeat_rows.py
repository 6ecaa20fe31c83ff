"""A whole number of motifs along a line: counted, and walked again."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from ellwand.adorn.repeats.rows import Limits, Way, fills, row_places


def limits(size: tuple[float, float], gap: tuple[float, float], *, corners: bool = True) -> Limits:
    return Limits(size, gap, 1.0, 1.0, corners)


@pytest.mark.parametrize(
    ("around", "repeat", "count"),
    # n = round(C / r) and each repeat becomes C / n; hems of finds: H42 342 cm, H33 277 cm, Bocksten 250 cm, and a cuff
    [(342.0, 9.0, 38), (277.0, 10.0, 28), (250.0, 8.5, 29), (26.0, 6.0, 4), (100.0, 7.0, 14)],
)
def test_as_many_as_go_nearest(around: float, repeat: float, count: int) -> None:
    assert count == round(around / repeat)
    size = 0.6 * repeat
    best = next(fills([Way(around, True)], limits((size, size), (0.3 * repeat, 0.5 * repeat))))
    (row,) = best.rows[0]
    assert (row.count, row.pitch) == (count, pytest.approx(around / count))
    assert row.gap == pytest.approx(around / count - size)


def test_what_joins_fills_the_line_by_its_size() -> None:
    """100 cm in motifs of 6 to 8 cm without a gap: 14 of 7.14 cm, the nearest to 7."""
    best = next(fills([Way(100.0, True)], limits((6, 8), (0, 0))))
    assert best.size == pytest.approx(100 / 14)
    assert best.rows[0][0].count == 14


def test_none_fits() -> None:
    assert not list(fills([Way(10.0, True)], limits((6, 6.5), (1, 2))))


SIZES = st.tuples(st.floats(2, 8), st.floats(0, 3)).map(lambda each: (each[0], each[0] + each[1]))
GAPS = st.tuples(st.floats(0.2, 3), st.floats(0, 6)).map(lambda each: (each[0], each[0] + each[1]))


def walked(way: Way, size: float, places: list[float]) -> list[float]:
    """The gaps from one motif to the next, and for a closed line from the last to the first."""
    ends = [*places, places[0] + way.length] if way.closed else places
    return [b - a - size for a, b in itertools.pairwise(ends)]


@given(st.floats(15, 400), SIZES, GAPS, st.booleans())
def test_sizes_and_gaps_add_up_to_the_line(
    length: float, size: tuple[float, float], gap: tuple[float, float], closed: bool
) -> None:
    way = Way(length, closed)
    found = next(fills([way], limits(size, gap)), None)
    low, high = (length / (each[0] + each[1]) for each in zip(size, gap, strict=True))
    if found is None:
        # there is no whole number between the counts of the largest and the smallest repeat
        assert math.floor(low + 1e-6) < math.ceil(high - 1e-6) or low < 1
        return
    assert size[0] - 1e-6 <= found.size <= size[1] + 1e-6
    places = [place for row in found.rows[0] for place in row_places(row)]
    gaps = walked(way, found.size, places)
    total = len(places) * found.size + math.fsum(gaps)
    if not closed:
        # half a gap before the first and after the last
        total += places[0] - found.size / 2 + length - places[-1] - found.size / 2
        assert places[0] == pytest.approx(length - places[-1])
    assert total == pytest.approx(length, abs=1e-6)
    assert all(gap[0] - 1e-6 <= each <= gap[1] + 1e-6 for each in gaps)


@given(
    st.floats(60, 400), SIZES, GAPS, st.lists(st.floats(0.02, 0.48), min_size=1, max_size=4, unique=True), st.booleans()
)
def test_clear_of_seams_and_alike_on_both_sides(
    length: float, size: tuple[float, float], gap: tuple[float, float], shares: list[float], behind: bool
) -> None:
    half = sorted(length * share for share in shares)
    seams = (*half, *([length / 2] if behind else []), *sorted(length - at for at in half))
    way = Way(length, True, seams=seams)
    found = next(fills([way], limits(size, gap)), None)
    assume(found is not None)
    assert found is not None
    places = sorted(place % length for row in found.rows[0] for place in row_places(row))
    for seam in seams:
        apart = min(min((place - seam) % length, (seam - place) % length) for place in places)
        assert apart >= found.size / 2 - 1e-6
    # what lies a from the start on one side lies so on the other
    assert all(min(min((a + b) % length, -(a + b) % length) for b in places) < 1e-6 for a in places)
    gaps = walked(way, found.size, places)
    assert all(gap[0] - 1e-6 <= each <= gap[1] + 1e-6 for each in gaps)
    assert len(places) * found.size + math.fsum(gaps) == pytest.approx(length)


@given(st.floats(12, 40), st.floats(12, 40), st.floats(1.5, 4))
def test_corners_of_a_rectangle(across: float, down: float, most: float) -> None:
    """Away from the cloth by 90° four times: between two corner motifs, as wide as a motif is high and standing
    outside the corner by the inset, lie whole motifs with one gap more than there are."""
    begin = across / 2
    corners = tuple((at, -90.0) for at in (begin, begin + down, begin + down + across, begin + 2 * down + across))
    way = Way(2 * (across + down), True, corners)
    wanted = limits((1.2, most), (0.1, 3))
    found = next(fills([way], wanted), None)
    assert found is not None
    assert len(found.rows[0]) == 4
    for row, side in zip(found.rows[0], (down, across, down, across), strict=True):
        assert row.end - row.begin == pytest.approx(side + 2 * wanted.inset)
        assert row.count * found.size + (row.count + 1) * row.gap == pytest.approx(side + 2 * wanted.inset)
        assert row.first - found.size / 2 - row.begin == pytest.approx(row.gap)


def test_lines_of_different_length_share_one_stencil() -> None:
    ways = [Way(109.0, False), Way(97.0, False)]
    found = next(fills(ways, limits((5, 7), (1.5, 6))))
    for way, rows in zip(ways, found.rows, strict=True):
        (row,) = rows
        assert row.count * (found.size + row.gap) == pytest.approx(way.length)
