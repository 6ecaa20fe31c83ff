"""Drafts broken on purpose: the proof has to see each.

Source of the counting: Euler characteristic 2 − n of a sphere with n holes.
"""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest

from ellwand.errors import InternalFault
from ellwand.model.draft import Draft, EdgeRef, Seam
from ellwand.model.wearer import Wearer
from ellwand.prove import prove
from proving_specimens import drafted

GARMENTS = {
    "tunic with gores": {"gores": [{"place": "side", "start": "waist", "base": 30, "make": "halves"}]},
    "shoulder panels": {"body": {"cut": "shoulder panels", "flare": 12, "shoulder": "seam"}},
    "centre gores and slit sides": {
        "body": {"centre_seam": "both"},
        "gores": [{"place": "centre-front", "start": "hip", "base": 40, "make": "whole"}],
        "splits": [{"place": "side", "height": "crotch"}],
    },
    "sleeveless": {"sleeve": {"shape": "none"}, "neck": {"shape": "boat"}},
}


def failures(draft: Draft, wearer: Wearer) -> set[str]:
    return {each.code for each in prove(draft, wearer).findings if each.outcome == "will not work"}


@pytest.fixture(params=GARMENTS, name="whole")
def _whole(request: pytest.FixtureRequest) -> tuple[Draft, Wearer]:
    return drafted(GARMENTS[request.param])


def with_seam(draft: Draft, seam: Seam, **changes: EdgeRef) -> Draft:
    return replace(draft, seams=tuple(replace(s, **changes) if s.id == seam.id else s for s in draft.seams))


def test_the_whole_ones_are_sound(whole: tuple[Draft, Wearer]) -> None:
    assert failures(*whole) == set()


def test_a_dropped_seam(whole: tuple[Draft, Wearer]) -> None:
    draft, wearer = whole
    for seam in draft.seams:
        broken = replace(draft, seams=tuple(s for s in draft.seams if s != seam))
        assert failures(broken, wearer) >= {"edge-unsewn"}, seam


def test_two_seams_with_their_edges_swapped(whole: tuple[Draft, Wearer]) -> None:
    """Every pair, both ways: a to the other's b, and a to the other's a."""
    draft, wearer = whole
    for one, other in itertools.combinations(draft.seams, 2):
        crossed = with_seam(with_seam(draft, one, b=other.b), other, b=one.b)
        turned = with_seam(with_seam(draft, one, b=other.a), other, a=one.b)
        assert failures(crossed, wearer), (one, other)
        assert failures(turned, wearer), (one, other)


def test_a_mirrored_part(whole: tuple[Draft, Wearer]) -> None:
    draft, wearer = whole
    if len(draft.parts) == 1:  # the mirror image of a garment in one part is the garment, mirrored
        assert failures(replace(draft, parts=(replace(draft.parts[0], mirrored=True),)), wearer) == set()
        return
    for part in draft.parts:
        turned = tuple(replace(p, mirrored=not p.mirrored) if p == part else p for p in draft.parts)
        assert failures(replace(draft, parts=turned), wearer) & {"surface", "openings"}, part


def test_a_shrunk_edge(whole: tuple[Draft, Wearer]) -> None:
    draft, wearer = whole
    for piece in draft.pieces:
        for edge in piece.edges:
            ax, ay = edge.points[0]
            short = replace(edge, points=tuple((ax + 0.9 * (x - ax), ay + 0.9 * (y - ay)) for x, y in edge.points))
            edges = tuple(short if each == edge else each for each in piece.edges)
            pieces = tuple(replace(p, edges=edges) if p == piece else p for p in draft.pieces)
            assert "outline-gap" in failures(replace(draft, pieces=pieces), wearer), (piece.id, edge.id)


def test_a_sleeve_sewn_in_back_to_front() -> None:
    """Every length matches; only the corners tell."""
    draft, wearer = drafted(GARMENTS["tunic with gores"])
    swap = {"armhole-front": "armhole-back", "armhole-back": "armhole-front"}
    seams = tuple(
        replace(s, b=replace(s.b, edge=swap[s.b.edge])) if s.kind == "armhole" and s.b.part == "sleeve-left" else s
        for s in draft.seams
    )
    assert seams != draft.seams
    assert failures(replace(draft, seams=seams), wearer) >= {"surface"}


def test_an_outline_that_crosses_itself_or_runs_backwards() -> None:
    draft, wearer = drafted({})
    piece = draft.pieces[0]
    crossed = replace(piece, cut=(piece.cut[0], piece.cut[2], piece.cut[1], *piece.cut[3:]))
    reversed_ = replace(piece, sewn=tuple(reversed(piece.sewn)))
    for broken, code in ((crossed, "outline-crosses"), (reversed_, "outline-reversed")):
        assert code in failures(replace(draft, pieces=(broken, *draft.pieces[1:])), wearer)


def test_an_edge_sewn_twice_and_one_that_is_not_there() -> None:
    draft, wearer = drafted({})
    seam = draft.seams[0]
    twice = replace(draft, seams=(*draft.seams, replace(seam, id="seam-again")))
    assert "edge-sewn-twice" in failures(twice, wearer)
    with pytest.raises(InternalFault, match="no such edge"):
        prove(with_seam(draft, seam, a=EdgeRef(seam.a.part, "nowhere")), wearer)
