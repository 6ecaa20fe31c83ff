"""Divided fields on garments from the whole choice space: nothing is lost, and the shell is sewn together as before."""

from __future__ import annotations

import json
import random
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any, Final, get_args

import pytest
from shapely import Polygon

from ellwand.adorn import adorn, divided
from ellwand.draft import draft
from ellwand.errors import BadInput, CannotDraft
from ellwand.geometry.lines import length
from ellwand.model.choices import plainest
from ellwand.model.draft import Draft, edge_at
from ellwand.model.heraldry import IN_FOUR, LEVELLED, TINCTURES, USUAL_COUNT, Division, Partition, spelt
from ellwand.model.piece import Piece
from ellwand.pipeline import read_wearer
from ellwand.prove.shell import shell_of
from ellwand.publish.garment_json import _piece, _plain
from independent import faults
from outside.gluing import agree
from sweep import garment_at, read

SEED: Final = 41
TRIED: Final = 110
WAYS: Final = get_args(Partition)
UPRIGHT: Final = frozenset({"per pale", "quarterly", "gyronny", "paly", "chequy"})
"""These have a line down the middle, or may have one beside a gore."""
TINCTURED: Final = re.compile(rf"-({'|'.join(map(spelt, TINCTURES))})(-\d+)?$")
MIDDLE: Final = re.compile(r"centre|(?<!side-)panel-")
FAMILY: Final = ("sleeve", "gusset")


def chosen(number: int) -> Division:
    """Every way in turn."""
    dice = random.Random(f"{SEED} {number}")
    by: Partition = WAYS[number % len(WAYS)]
    four = by in IN_FOUR and dice.random() < 0.4
    count = dice.choice([0, 4, 6, 8]) if by in USUAL_COUNT else 0
    at = dice.choice([None, "waist", "hip", dice.uniform(20, 60)]) if by in LEVELLED else None
    return Division(by, tuple(dice.sample(TINCTURES, 4 if four else 2)), count, at)


@cache
def both() -> tuple[tuple[Draft, Draft], ...]:
    """Garments of the sweep before and after their field is divided at random."""
    out = []
    for i in range(TRIED):
        tables, person = garment_at(SEED, i)
        for key in ("division", "charges", "bands", "repeats"):
            tables["garment"].pop(key, None)
        try:
            sheet = read(tables, person)
            choices = plainest(sheet.choices)
            if choices.other is not None or choices.growth is not None:
                continue
            whole = adorn(draft(choices, read_wearer(sheet)[0]))
            whole = replace(whole, choices=replace(whole.choices, division=chosen(len(out))))
            out.append((whole, divided(whole)))
        except BadInput:
            continue
    return tuple(out)


def sewn(piece: Piece) -> float:
    return float(Polygon(piece.sewn, piece.sewn_holes).area)


def pieces_by_part(work: Draft) -> dict[str, Piece]:
    by_id = {piece.id: piece for piece in work.pieces}
    return {part.id: by_id[part.piece] for part in work.parts}


def document(work: Draft) -> dict[str, Any]:
    shell = shell_of(work)
    doc = {
        "pieces": [_piece(piece) for piece in work.pieces],
        "parts": _plain(work.parts),
        "seams": _plain(work.seams),
        "rims": _plain(shell.rims),
        "shell": {"euler": shell.euler},
    }
    return json.loads(json.dumps(doc))  # type: ignore[no-any-return]


def test_enough_garments_are_divided_in_every_way() -> None:
    ways = Counter(whole.choices.division.by for whole, _ in both() if whole.choices.division)
    assert sum(ways.values()) >= 50
    assert set(ways) == set(WAYS)


def test_no_cloth_is_lost_and_every_part_keeps_its_area() -> None:
    for whole, cut in both():
        before, after = pieces_by_part(whole), pieces_by_part(cut)
        shares: dict[str, float] = dict.fromkeys(before, 0.0)
        for part, piece in after.items():
            shares[TINCTURED.sub("", part)] += sewn(piece)
        assert shares == pytest.approx({part: sewn(piece) for part, piece in before.items()}, rel=1e-6)
        assert {piece.tincture for piece in after.values()} <= set(TINCTURES)
        assert sum(piece.count for piece in cut.pieces if piece.kind == "shell") == len(cut.parts)


def test_the_shell_is_sewn_as_before() -> None:
    for whole, cut in both():
        before, after = shell_of(whole), shell_of(cut)
        assert (after.euler, after.components, after.orientable) == (before.euler, 1, True)
        rims = [sorted(rim.length for rim in shell.rims) for shell in (before, after)]
        assert rims[1] == pytest.approx(rims[0], abs=1e-6)
        assert sorted(rim.opens_to for rim in after.rims) == sorted(rim.opens_to for rim in before.rims)


def test_a_second_opinion_finds_no_fault() -> None:
    for whole, cut in both():
        assert faults(document(cut)) == [], whole.choices.division


def test_a_mesh_welded_along_the_seams_has_the_same_shell() -> None:
    for _, cut in [each for each in both() if len(each[1].parts) < 40][::4]:
        assert agree(cut, shell_of(cut))


def test_tinctures_agree_across_every_seam_but_where_the_division_runs_in_it() -> None:
    """What is left over: shares too narrow to sew, as at the points of gores, which keep their neighbour's tincture."""
    every = disagree = 0.0
    for whole, cut in both():
        division = whole.choices.division
        assert division is not None
        if any(gore.top for gore in whole.choices.gores):
            # beside a blunt gore the panels stand apart, and a slanting line comes to them at two heights
            continue
        pieces = pieces_by_part(cut)
        for seam in cut.seams:
            parts = (seam.a.part, seam.b.part)
            if seam.kind == "division seam" or any(part.startswith(FAMILY) for part in parts):
                continue
            cm = length(edge_at(cut, seam.a).points)
            every += cm
            if pieces[parts[0]].tincture == pieces[parts[1]].tincture:
                continue
            told = " ".join(f"{ref.part} {ref.edge}" for ref in (seam.a, seam.b))
            in_the_line = division.by in UPRIGHT and MIDDLE.search(told)
            if not in_the_line:
                disagree += cm
    assert disagree < 0.02 * every


def test_sleeves_follow_their_side_and_gussets_their_sleeve() -> None:
    for _, cut in both():
        pieces = pieces_by_part(cut)
        for hand in ("left", "right"):
            arm = [part for part in pieces if part.startswith(FAMILY) and hand in part.split("-")]
            own = {pieces[part].tincture for part in arm}
            assert len(own) <= 1


def test_marks_stay_with_their_edges_and_names_are_told_apart() -> None:
    for whole, cut in both():
        assert sum(1 for _ in marks(cut)) == sum(1 for _ in marks(whole))
        for piece in cut.pieces:
            assert {mark.edge for mark in piece.marks} <= {edge.id for edge in piece.edges}
        for told in ("id", "name"):
            assert len({getattr(piece, told) for piece in cut.pieces}) == len(cut.pieces)


def marks(work: Draft) -> Iterator[str]:
    for part, piece in pieces_by_part(work).items():
        yield from (mark.kind for mark in piece.marks if mark.part in ("", part))


def test_no_share_is_too_small_to_sew() -> None:
    for whole, cut in both():
        known = {round(sewn(piece), 3) for piece in whole.pieces}
        for piece in cut.pieces:
            if piece.kind == "shell" and round(sewn(piece), 3) not in known:
                assert not Polygon(piece.sewn, piece.sewn_holes).buffer(-0.99).is_empty, piece.name


def test_what_cannot_be_divided_is_refused_in_a_sentence() -> None:
    whole, _ = both()[0]
    for division in (Division("per fess", ("gules", "or"), 0, 2.0), Division("paly", ("gules", "or"), 40)):
        with pytest.raises(CannotDraft, match=r"garment\.division\.(at|count): .*; choose "):
            divided(replace(whole, choices=replace(whole.choices, division=division)))
