"""Corners are found by the order of the edges, however their ends are rounded."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from ellwand import prove_sheet
from ellwand.model.draft import Draft
from ellwand.prove.shell import shell_of
from sheets import sheet

HAIR = 4e-9
"""What adding up lengths in another order does to a coordinate, and more (cm)."""


def moved(draft: Draft, by: float, hair: float) -> Draft:
    """Every piece drawn elsewhere, each edge's end a hair from where the next one starts."""
    pieces = tuple(
        replace(
            piece,
            edges=tuple(
                replace(edge, points=(*((x + by, y) for x, y in edge.points[:-1]), _end(edge.points[-1], by + hair)))
                for edge in piece.edges
            ),
        )
        for piece in draft.pieces
    )
    return replace(draft, pieces=pieces)


def _end(point: tuple[float, float], by: float) -> tuple[float, float]:
    return point[0] + by, point[1]


@cache
def drafted() -> Draft:
    return prove_sheet(sheet({"gores": [{"place": "side"}, {"place": "centre-front"}]})).draft


@settings(max_examples=40, deadline=None)
@given(st.sampled_from([0.0, 0.0005, 0.0015, 0.33335, 0.125]), st.floats(-HAIR, HAIR))
def test_the_shell_is_the_same_wherever_its_pieces_are_drawn(by: float, hair: float) -> None:
    draft = drafted()
    plain, other = shell_of(draft), shell_of(moved(draft, by, hair))
    assert (other.vertices, other.edges, other.faces) == (plain.vertices, plain.edges, plain.faces)
    assert [rim.id for rim in other.rims] == [rim.id for rim in plain.rims]
