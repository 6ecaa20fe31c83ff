"""The shell that the proof counts is the one that trimesh counts, on surfaces of known kind and on the sweep.

Known kinds: a cylinder, a Möbius band, a torus and a disc with a hole, all of one rectangle (any text on surfaces);
the library is trimesh.  Garments: tests/sweep.py, 400 of them.
"""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from gluing import agree, glued

from ellwand.draft import pieced_to_fit
from ellwand.errors import CannotDraft
from ellwand.model.draft import EdgeRef, Part, Seam
from ellwand.model.piece import Edge, Piece
from ellwand.prove.shell import shell_of
from ellwand.publish.garment_json import Stitched
from proving_specimens import drafted
from sweep import garments, made

CHUNKS, EACH = 8, 50


def sheet_of_cloth(sewn: dict[str, str], *, hole: bool = False) -> Stitched:
    """A rectangle of 30 by 20 cm whose edges are sewn as told, perhaps with a hole of 4 by 4."""
    corners = [(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)]
    around = [(10.0, 8.0), (10.0, 12.0), (14.0, 12.0), (14.0, 8.0)]
    lines = dict(
        zip(("below", "right", "above", "left"), zip(corners, corners[1:] + corners[:1], strict=True), strict=True)
    )
    edges = [Edge(name, "hem", line, 0.0) for name, line in lines.items()]
    if hole:
        edges.append(Edge("hole", "neck", (*around, around[0]), 0.0))
    holes = (tuple(around),) if hole else ()
    piece = Piece("sheet", "sheet", "main", 1, "body", tuple(corners), holes, tuple(corners), holes, tuple(edges))
    seams = [Seam(f"seam-{a}", EdgeRef("sheet", a), EdgeRef("sheet", b), "seam", "plain") for a, b in sewn.items()]
    return Stitched((piece,), (Part("sheet", "sheet"),), tuple(seams))


@pytest.mark.parametrize(
    ("sewn", "hole", "turned", "euler", "rims", "two_sided"),
    [
        ({}, False, [], 1, [100], True),
        ({}, True, [], 0, [16, 100], True),
        ({"left": "right"}, False, [], 0, [30, 30], True),
        ({"left": "right"}, False, ["seam-left"], 0, [60], False),
        ({"left": "right", "above": "below"}, False, [], 0, [], True),
        ({"left": "right", "above": "below"}, False, ["seam-above"], 0, [], False),
        ({"left": "right", "above": "below"}, True, [], -1, [16], True),
    ],
    ids=["disc", "ring", "cylinder", "Möbius band", "torus", "Klein bottle", "torus with a hole"],
)
def test_known_surfaces(
    sewn: dict[str, str], hole: bool, turned: list[str], euler: int, rims: list[float], two_sided: bool
) -> None:
    found = glued(sheet_of_cloth(sewn, hole=hole), wrong_way=turned)
    assert (found.euler, found.bodies, found.two_sided, found.manifold) == (euler, 1, two_sided, True)
    assert list(found.rims) == pytest.approx(rims)


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_the_proof_counts_the_same_shell(chunk: int) -> None:
    for i, (tables, person) in enumerate(garments(seed=5, count=EACH, first=chunk * EACH)):
        try:
            garment = made(tables, person)
        except CannotDraft:
            continue
        told = json.dumps([chunk * EACH + i, tables, person])
        assert agree(garment.draft, shell_of(garment.draft)), (glued(garment.draft), told)


@pytest.mark.parametrize("width", [45.0, 75.0])
def test_pieced_on_a_narrow_cloth_it_is_the_same_shell(width: float) -> None:
    done = 0
    for tables, person in garments(seed=6, count=EACH):
        try:
            whole = made(tables, person)
            draft = pieced_to_fit(whole.draft, width)
        except CannotDraft:
            continue
        done += draft is not whole.draft
        found, before = shell_of(draft), whole.proof.shell
        assert agree(draft, found), json.dumps([tables, person])
        assert (found.euler, len(found.rims)) == (before.euler, len(before.rims))
    assert done


def test_a_seam_sewn_the_wrong_way_round_is_seen() -> None:
    draft, _ = drafted({})
    for seam in draft.seams:
        found = glued(draft, wrong_way=[seam.id])
        assert not found.two_sided


def test_a_seam_left_open_is_seen() -> None:
    draft, _ = drafted({})
    whole = shell_of(draft)
    for seam in draft.seams:
        open_there = replace(draft, seams=tuple(each for each in draft.seams if each is not seam))
        assert not agree(open_there, whole)
        assert agree(open_there, shell_of(open_there))
