"""Bounds against the best lengths known of published and project instances, and against lays of drafted garments."""

from __future__ import annotations

import pytest
from packing import TUNICS, rectangles_task, tunic_task
from test_packing import GENERAL, tunic

from ellwand.errors import CannotDraft
from ellwand.lay.bounds import better_bound, bound_of
from ellwand.lay.bounds.best import named_bounds
from ellwand.lay.bounds.kinds import kinds_in, kinds_of
from ellwand.lay.bounds.proof import fits_within
from ellwand.lay.rows import rows
from ellwand.lay.shapes import shapes_of, usable_width
from ellwand.lay.task import Budget, length_of
from sweep import garments, made


@pytest.mark.parametrize("name", sorted(TUNICS))
def test_no_named_bound_is_above_the_best_known_lay(name: str) -> None:
    kinds, width = kinds_in(tunic_task(name))
    assert all(bound <= GENERAL[name] for bound in named_bounds(kinds, width).values())


@pytest.mark.parametrize(("name", "gap"), [("A90", 0.02), ("B112", 0.03), ("B150nap", 0.2)])
def test_the_search_proves_more_and_never_too_much(name: str, gap: float) -> None:
    """In what two seconds do; A90 and B112 are proved best in five.  The pieces and the task are the same question."""
    budget, known = Budget(effort=2), GENERAL[name]
    bound, why = bound_of(tunic_task(name), budget=budget, known=known)
    assert bound <= known <= (1 + gap) * bound
    assert why.startswith("every arrangement")


def test_pieces_and_task_are_one_question() -> None:
    pieces, on = tunic("C150")
    of_pieces = better_bound(pieces, on, parts=(), budget=Budget(), known=None)
    of_task = bound_of(tunic_task("C150"), budget=Budget())
    assert (round(of_pieces[0], 6), of_pieces[1]) == (round(of_task[0], 6), of_task[1])


@pytest.mark.parametrize("name", ["C1_1", "C1_2", "C1_3"])
def test_zero_waste_rectangles(name: str) -> None:
    """Hopper and Turton's C1 are cut from a known length: no bound is above it, nor is it proved too short."""
    task, shortest = rectangles_task(name)
    kinds, width = kinds_in(task)
    assert all(bound <= shortest + 1e-9 for bound in named_bounds(kinds, width).values())
    assert fits_within(kinds, width, shortest, effort=0.1, seconds=9.0).fits is not False


def test_drafted_garments_with_their_curves_slits_and_holes() -> None:
    """Against the instant engine's lay on the cloth of each: no named bound is above it, nor is it proved too short."""
    seen = 0
    for tables, person in garments(7, 40):
        try:
            garment = made(tables, person)
            cloth = garment.cloths[0]
            pieces = [piece for piece in garment.draft.pieces if piece.cloth == cloth.name]
            parts = (*garment.draft.parts, *garment.draft.applied)
            shapes = shapes_of(pieces, parts, cloth)
        except CannotDraft:
            continue
        length = length_of(rows(shapes, usable_width(cloth) + cloth.gap))
        kinds, width = kinds_of(pieces, parts, cloth)
        assert {name for name, bound in named_bounds(kinds, width).items() if bound > length + 1e-6} == set()
        if seen < 6:
            assert fits_within(kinds[:3], width, length, effort=0.05, seconds=9.0).fits is not False
        seen += 1
    assert seen > 15
