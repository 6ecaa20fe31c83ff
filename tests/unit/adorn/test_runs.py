"""Lines round the sewn garment: their lengths against the proof, their joints against the document's seams."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest

import sweep
from ellwand.adorn.runs.places import PLACES, runs_at
from ellwand.errors import BadInput, CannotDraft
from ellwand.model.draft import Draft
from ellwand.model.garment import Garment
from ellwand.model.run import Run, begun_at, beside, hand_in, part_of_run, reversed_run, spot_at, starts
from ellwand.pipeline import proved, read_wearer
from ellwand.prove.sewn import body_top, girth_at, sewn_up, sleeve_girth, sleeve_levels, sleeves_of
from ellwand.prove.shell import shell_of
from sheets import sheet

SWEPT = 300
RIMS = {
    "hem": ({"hem", "leg"}, {"hem", "leg-left", "leg-right"}),
    "neck": ({"neck"}, {"neck"}),
    "cuffs": ({"cuff"}, {"cuff-left", "cuff-right"}),
    "waist": ({"waist"}, {"waist"}),
    "face": ({"face"}, {"face"}),
}
"""Place -> the kinds of edges that belong to it, and what their openings open to."""


@cache
def garments() -> tuple[Garment, ...]:
    """The sweep's garments, nothing put on them."""
    return tuple(_drafted(31, SWEPT))


def _drafted(seed: int, count: int) -> Iterator[Garment]:
    for tables, person in sweep.garments(seed, count):
        bare = {key: value for key, value in tables["garment"].items() if key not in ("bands", "charges", "division")}
        try:
            read = sweep.read({**tables, "garment": bare}, person)
            yield proved(read, read.choices, *read_wearer(read))
        except BadInput:
            continue


def _runs(draft: Draft, at: str, height: float | None = None) -> tuple[Run, ...]:
    try:
        return runs_at(draft, at, height)
    except CannotDraft:
        return ()


def test_each_rim_is_as_long_as_the_proof_finds_it() -> None:
    checked = 0
    for garment in garments():
        draft, shell = garment.draft, shell_of(garment.draft)
        by_id = {piece.id: piece for piece in draft.pieces}
        edges = {(part.id, edge.id): edge for part in draft.parts for edge in by_id[part.piece].edges}
        for at, (kinds, opens_to) in RIMS.items():
            runs = _runs(draft, at)
            rims = [rim for rim in shell.rims if opens_to & set(rim.opens_to)]
            told = [edges[ref.part, ref.edge] for rim in rims for ref in rim.edges]
            wanted = math.fsum(_long(edge.points) for edge in told if edge.kind in kinds)
            assert math.fsum(run.length for run in runs) == pytest.approx(wanted, abs=1e-6), (garment.title, at)
            whole = [rim for rim in rims if all(edges[ref.part, ref.edge].kind in kinds for ref in rim.edges)]
            assert sum(run.closed for run in runs) == len(whole)
            for rim in whole:
                assert any(run.length == pytest.approx(rim.length, abs=1e-6) for run in runs if run.closed)
            checked += len(runs)
    assert checked > 3 * SWEPT


def _long(line: Any) -> float:
    return math.fsum(math.dist(a, b) for a, b in itertools.pairwise(line))


def test_a_ring_round_the_skirt_is_the_girth_there() -> None:
    checked = 0
    for garment in garments():
        draft = garment.draft
        if draft.choices.other is not None:
            continue
        sewn = sewn_up(draft, garment.wearer)
        for share in (0.05, 0.3, 0.6, 0.95):
            if (height := share * body_top(sewn)) > 0.6:
                runs = runs_at(draft, "skirt ring", height)
                assert math.fsum(run.length for run in runs) == pytest.approx(girth_at(sewn, height), rel=3e-5)
                checked += 1
    assert checked > SWEPT


def test_a_ring_round_the_arm_is_the_sleeve_s_girth_there() -> None:
    checked = 0
    for garment in garments():
        draft = garment.draft
        if draft.choices.other is not None:
            continue
        for hand, sleeve in sleeves_of(sewn_up(draft, garment.wearer)).items():
            underarm, cuff = sleeve_levels(sleeve)
            for share in (0.25, 0.5, 0.9):
                down = underarm + (cuff - underarm) * share
                run = next((run for run in _runs(draft, "upper arm ring", down) if hand in run.name), None)
                if run is None or {"gore", "strip", "gusset"} & {w for s in run.stretches for w in s.part.split("-")}:
                    # the proof's girth is of the sleeve's own pieces alone
                    continue
                assert run.length == pytest.approx(sleeve_girth(sleeve, down), abs=1e-4)
                checked += 1
    assert checked > SWEPT


def test_stretches_meet_where_the_seams_of_the_document_join_corners() -> None:
    """Corners are joined anew from seams and edges as garment.json tells them, by relabelling."""
    met = 0
    for garment in garments()[:90]:
        draft = garment.draft
        pieces = {piece.id: {edge.id: edge.points for edge in piece.edges} for piece in draft.pieces}
        parts = {part.id: pieces[part.piece] for part in draft.parts}
        mirrored = {part.id: part.mirrored for part in draft.parts}
        label: dict[tuple[str, float, float], Any] = {
            key: key
            for part in parts
            for points in parts[part].values()
            for key in (_at(part, points[0]), _at(part, points[-1]))
        }
        joins = []
        for seam in draft.seams:
            a, b = parts[seam.a.part][seam.a.edge], parts[seam.b.part][seam.b.edge]
            ends = (0, -1) if mirrored[seam.a.part] != mirrored[seam.b.part] else (-1, 0)
            joins += [
                (_at(seam.a.part, a[0]), _at(seam.b.part, b[ends[0]])),
                (_at(seam.a.part, a[-1]), _at(seam.b.part, b[ends[1]])),
            ]
        changed = True
        while changed:
            changed = False
            for one, other in joins:
                low = min(label[one], label[other])
                changed |= label[one] != low or label[other] != low
                label[one] = label[other] = low
            for key, name in label.items():
                label[key] = label[name]
        for at in PLACES:
            for run in _runs(draft, at):
                if run.along == "line":
                    continue
                pairs = list(itertools.pairwise(run.stretches))
                pairs += [(run.stretches[-1], run.stretches[0])] if run.closed else []
                for one, other in pairs:
                    if one.part == other.part and math.dist(one.points[-1], other.points[0]) < 1e-6:
                        continue
                    a, b = _at(one.part, one.points[-1]), _at(other.part, other.points[0])
                    assert label.get(a, a) == label.get(b, b), (garment.title, run.name)
                    met += 1
    assert met > 1000


def _at(part: str, point: tuple[float, float]) -> tuple[str, float, float]:
    return part, round(point[0], 3), round(point[1], 3)


def test_the_cloth_lies_on_the_hand_that_is_told() -> None:
    from shapely import Point, Polygon

    checked = 0
    for garment in garments()[:60]:
        draft = garment.draft
        piece_of = {part.id: part.piece for part in draft.parts}
        shape = {piece.id: Polygon(piece.sewn, piece.sewn_holes) for piece in draft.pieces}
        for at in ("neck", "hem", "cuffs"):
            for run in _runs(draft, at):
                for begin, stretch in zip(starts(run), run.stretches, strict=False):
                    within, outside = (
                        beside(run, begin + stretch.length * 0.45, inward).at for inward in (0.05, -0.05)
                    )
                    assert shape[piece_of[stretch.part]].contains(Point(within))
                    assert not shape[piece_of[stretch.part]].contains(Point(outside))
                    assert hand_in(stretch) == (1 if stretch.cloth == "left" else -1)
                    checked += 1
    assert checked > 300


def test_rounds_of_the_body_begin_at_the_centre_front_and_go_to_the_wearer_s_left() -> None:
    garment = {"neck": {"shape": "round", "slit": "none"}, "body": {"cut": "wide panels", "shoulder": "fold"}}
    draft = _first(garment)
    for at, height in (("neck", None), ("hem", None), ("skirt ring", 20.0)):
        (run,) = runs_at(draft, at, height)
        first = spot_at(run, 0.0)
        middle = (min(x for x, _ in _body(draft)) + max(x for x, _ in _body(draft))) / 2
        assert run.closed
        assert first.at[0] == pytest.approx(middle, abs=1e-3)
        # the front lies below the shoulder line, its left at the viewer's right
        assert spot_at(run, 2.0).at[0] > middle
        assert spot_at(run, run.length - 2.0).at[0] < middle


def _first(garment: dict[str, Any]) -> Draft:
    read = sheet(garment)
    return proved(read, read.choices, *read_wearer(read)).draft


def _body(draft: Draft) -> Any:
    return next(piece.sewn for piece in draft.pieces if piece.id == "body")


def test_corners_of_a_square_neck_turn_by_right_angles_away_from_the_cloth() -> None:
    for shoulder in ("fold", "seam"):
        draft = _first({"neck": {"shape": "rectangle"}, "body": {"shoulder": shoulder}})
        (run,) = runs_at(draft, "neck")
        assert run.turns == pytest.approx([-90.0] * 4, abs=1e-6)
        assert reversed_run(run).turns == pytest.approx([-90.0] * 4, abs=1e-6)


def test_a_split_s_lips_run_down_from_its_top() -> None:
    draft = _first({"splits": [{"place": "centre-back", "height": "20 cm"}]})
    one, other = runs_at(draft, "splits")
    for lip in (one, other):
        assert lip.length == pytest.approx(20.0, abs=0.01)
    assert one.stretches[0].points[0] == pytest.approx(other.stretches[0].points[0], abs=0.2)


def test_parts_of_a_run() -> None:
    draft = _first({"neck": {"shape": "rectangle"}})
    (run,) = runs_at(draft, "neck")
    whole = run.length
    for start, end in ((1.0, 9.0), (0.0, whole), (whole - 3.0, whole + 4.0), (5.0, whole + 5.0)):
        bit = part_of_run(run, start, end)
        assert bit.length == pytest.approx(end - start, abs=1e-6)
        for at in (0.0, 0.3 * (end - start), end - start - 1e-6):
            assert spot_at(bit, at).at == pytest.approx(spot_at(run, (start + at) % whole).at, abs=1e-5)
        for corner in bit.corners:
            assert any((start + corner) % whole == pytest.approx(each) for each in run.corners)
    later = begun_at(run, 7.0)
    assert later.length == pytest.approx(whole)
    assert len(later.corners) == 4
    assert spot_at(later, 1.0).at == pytest.approx(spot_at(run, 8.0).at)
    back = reversed_run(run)
    assert spot_at(back, 1.0).at == pytest.approx(spot_at(run, whole - 1.0).at)


def test_what_is_not_there_is_told() -> None:
    draft = _first({"sleeve": {"shape": "none"}})
    with pytest.raises(CannotDraft, match="this garment has no cuffs"):
        runs_at(draft, "cuffs")
    with pytest.raises(CannotDraft, match="does not go round the body"):
        runs_at(draft, "skirt ring", 90.0)
    with pytest.raises(CannotDraft, match="needs one"):
        runs_at(draft, "skirt ring")


@pytest.mark.parametrize("by", ["per pale", "quarterly", "per chevron", "barry", "chequy", "lozengy", "per bend"])
@pytest.mark.parametrize("garment", [{}, {"body": {"shoulder": "seam"}, "splits": [{"place": "centre-back"}]}])
def test_a_divided_field_has_the_same_lines(by: str, garment: dict[str, Any]) -> None:
    """The division adds seams and nothing else: every line is as long as on the undivided garment."""
    plain = _first(garment)
    divided = _first({**garment, "division": {"by": by, "tinctures": ["gules", "or"]}})
    assert len(divided.parts) > len(plain.parts)
    rings = [("skirt ring", 15.0), ("skirt ring", 50.0)]
    for at, height in [(at, None) for at in PLACES if at != "gore seams"] + rings:
        one, other = _runs(plain, at, height), _runs(divided, at, height)
        assert [run.closed for run in one] == [run.closed for run in other], at
        assert math.fsum(run.length for run in one) == pytest.approx(math.fsum(run.length for run in other), abs=0.02)
