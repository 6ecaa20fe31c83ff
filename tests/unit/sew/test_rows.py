"""Rows of stitching and their time: counts by hand, figures of 1826 and 1861, and what is sewn in a whole garment."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ellwand import prove_sheet
from ellwand.adorn import adorn
from ellwand.depict.shopping import shopping_rows
from ellwand.geometry.lines import length
from ellwand.model.choices import Finish, Sewing, Timed
from ellwand.model.cloth import Cloth
from ellwand.model.draft import Draft, edge_at
from ellwand.model.stitch import Stitching
from ellwand.sew import sew
from ellwand.sew.fastening import MAKING, closing_rows
from ellwand.sew.pace import HAND, minutes, totals
from ellwand.sew.rows import ROWS, applied_rows, bar_rows, edge_rows, seam_rows
from proving_specimens import drafted
from sheets import sheet

HANDLESS = Sewing()
MACHINE = Sewing(by="machine")
AT_23 = Sewing(timed=Timed(6.9, 1))
"""A hand that makes 23 stitches of 3 mm a minute."""
SHIRT = [3000, 500, 150, 1264, 1228, 63, 264, 840, 1468, 1880, 390, 2554, 3050, 1526, 843, 424, 1104]
"""The stitches of a fine shirt, row by row, as Hone's Every-Day Book counts them (1826)."""


def told(rows: tuple[Stitching, ...]) -> dict[str, float]:
    return {row.stitch: row.length for row in rows}


def least(rows: tuple[Stitching, ...]) -> tuple[float, float]:
    return math.fsum(row.thread_m[0] for row in rows), math.fsum(row.minutes[0] for row in rows)


# --- rows -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("finish", "by_hand", "by_machine"),
    [
        ("plain", {"running": 1}, {"lockstitch": 1}),
        ("run and fell", {"running": 1, "hemming": 1}, {"lockstitch": 2}),
        ("french", {"running": 2}, {"lockstitch": 2}),
        ("overcast", {"running": 1, "overcast": 2}, {"lockstitch": 1, "zigzag": 2}),
        ("flat-felled", {"running": 2}, {"lockstitch": 2}),
        ("open and stitched down", {"running": 3}, {"lockstitch": 3}),
    ],
)
def test_rows_of_each_finish(finish: str, by_hand: dict[str, float], by_machine: dict[str, float]) -> None:
    assert told(seam_rows(1.0, "side seam", finish, HANDLESS)) == by_hand
    assert told(seam_rows(1.0, "side seam", finish, MACHINE)) == by_machine


def test_every_finish_has_its_rows() -> None:
    assert set(ROWS) == set(get_args(Finish))


def test_stressed_seams_are_back_stitched_by_hand() -> None:
    """Finds from London keep back stitch for stressed places (Crowfoot, Pritchard and Staniland)."""
    assert told(seam_rows(10, "gusset", "run and fell", HANDLESS)) == {"back stitch": 10, "hemming": 10}
    assert told(seam_rows(10, "gusset", "run and fell", MACHINE)) == {"lockstitch": 20}


def test_thread_of_one_seam_by_hand() -> None:
    """1 m of run and fell, 3 mm stitches, two layers of 1 mm: the running row is 1 + 0.2/0.3 to the cm; the fell's
    stitches bite 2 mm and catch two layers: (2 √(0.2² + 0.15²) + 0.4) / 0.3 = 0.9/0.3; and 10 to 15 % waste."""
    running, fell = seam_rows(100, "side seam", "run and fell", HANDLESS, thickness=0.1)
    assert running.thread_m == pytest.approx((1.1 * 5 / 3, 1.15 * 5 / 3))
    assert fell.thread_m == pytest.approx((1.1 * 3, 1.15 * 3))
    assert (running.iso, fell.iso) == ("209", "")
    assert running.per_cm == pytest.approx(10 / 3)


def test_the_makers_stitch_is_the_makers() -> None:
    own = Sewing(stitch=0.2)
    assert {row.per_cm for row in seam_rows(10, "gusset", "run and fell", own)} == {5.0}
    # a bar is as close as ever
    assert [row.per_cm for row in bar_rows(1, own)] == [row.per_cm for row in bar_rows(1, HANDLESS)]


# --- time -----------------------------------------------------------------------------------------------


def test_a_published_shirt_takes_fourteen_hours_fifty_three() -> None:
    """Hone's 20,548 stitches at the 23 a minute of a sewing-machine maker's test of 1861 are 893 minutes; the test's
    own shirt, 14 h 26 (from memory), and both, lie between a quick and a slow hand."""
    assert sum(SHIRT) == 20_548
    assert minutes("running", sum(SHIRT) * 0.3, AT_23) == pytest.approx((893.4, 893.4), abs=0.1)
    low, high = minutes("running", sum(SHIRT) * 0.3, HANDLESS)
    assert low < 14 * 60 + 26 < 893 < high


def test_a_hand_at_23_stitches_a_minute() -> None:
    """3 mm stitches make 6.9 cm a minute, 4.1 m an hour; 2 mm ones 4.6 cm, 2.8 m (arithmetic)."""
    assert pytest.approx(4.1, abs=0.05) == 6.9 * 60 / 100
    assert 414 / minutes("running", 414, AT_23)[0] == pytest.approx(6.9)
    finer = replace(AT_23, stitch=0.2, timed=Timed(4.6, 1))
    assert 276 / minutes("running", 276, finer)[1] == pytest.approx(4.6)


def test_the_range_is_of_the_sourced_rates() -> None:
    """The same test of 1861: 30 stitches a minute on fine silk, 10 on the vamps of shoes; by machine 640 and 374."""
    assert HAND == (10, 30)
    assert minutes("running", 90, HANDLESS) == pytest.approx((300 / 30, 300 / 10))
    # 160 cm in 2.5 mm stitches are 640: a minute for the quick machine, with pinning and ending besides
    assert minutes("lockstitch", 160, MACHINE, runs=0) == pytest.approx((1, 640 / 374))
    low, high = minutes("lockstitch", 160, MACHINE, runs=2)
    assert (low - 1, high - 640 / 374) == pytest.approx((2 * 1.0, 2 * 3.0))


@given(
    cm=st.floats(5, 1000),
    took=st.floats(0.1, 600),
    by=st.sampled_from(["hand", "machine"]),
    stitch=st.sampled_from([None, 0.15, 0.4]),
)
def test_the_makers_pace_gives_back_the_timed_seam(cm: float, took: float, by: str, stitch: float | None) -> None:
    sewing = Sewing(by=by, stitch=stitch, timed=Timed(cm, took))  # type: ignore[arg-type]
    (row,) = seam_rows(cm, "side seam", "plain", sewing)
    assert row.minutes == pytest.approx((took, took))
    other = Sewing(by="machine" if by == "hand" else "hand", timed=None)
    assert seam_rows(cm, "side seam", "plain", other)[0].minutes[0] > 0


@given(
    cm=st.floats(1, 1000),
    more=st.floats(0.5, 500),
    thick=st.floats(0.02, 0.5),
    thicker=st.floats(0.01, 0.5),
    stitch=st.floats(0.1, 0.5),
    longer=st.floats(0.01, 0.5),
    by=st.sampled_from(["hand", "machine"]),
    finish=st.sampled_from(sorted(ROWS)),
    kind=st.sampled_from(["side seam", "gusset"]),
)
def test_work_grows_with_the_seam_the_cloth_and_finer_stitches(
    cm: float,
    more: float,
    thick: float,
    thicker: float,
    stitch: float,
    longer: float,
    by: str,
    finish: str,
    kind: str,
) -> None:
    sewing = Sewing(by=by, stitch=stitch)  # type: ignore[arg-type]
    rows = seam_rows(cm, kind, finish, sewing, thickness=thick)
    for row in rows:
        assert 0 < row.thread_m[0] < row.thread_m[1]
        assert 0 < row.minutes[0] < row.minutes[1]
    thread, took = least(rows)
    on_thread, on_took = least(seam_rows(cm + more, kind, finish, sewing, thickness=thick))
    assert on_thread > thread and on_took > took
    thick_thread, thick_took = least(seam_rows(cm, kind, finish, sewing, thickness=thick + thicker))
    assert thick_thread > thread and thick_took == took
    coarse = least(seam_rows(cm, kind, finish, replace(sewing, stitch=stitch + longer), thickness=thick))
    assert coarse[0] < thread and coarse[1] < took
    assert least(seam_rows(2 * cm, kind, finish, sewing, thickness=thick))[0] == pytest.approx(2 * thread)


# --- a garment ------------------------------------------------------------------------------------------

PLAIN = Sewing(finish="plain")


def rows_of(draft: Draft, cloths: tuple[Cloth, ...] = ()) -> list[Stitching]:
    return [row for step in sew(draft, cloths) for row in step.rows]


def sewn_by(draft: Draft, sewing: Sewing) -> Draft:
    choices = replace(draft.choices, sewing=sewing)
    return replace(draft, choices=choices, seams=tuple(replace(seam, finish=sewing.finish) for seam in draft.seams))


def test_a_garment_is_sewn_as_far_as_its_seams_and_edges_are_long() -> None:
    """Without facings: every seam once, every edge hemmed once, a slit's strip sewn on and felled."""
    draft = sewn_by(drafted({"neck": {"shape": "oval"}, "gores": [{"place": "side", "base": 40}]})[0], PLAIN)
    sewn = {ref for seam in draft.seams for ref in (seam.a, seam.b)}
    seams = dict.fromkeys(("running", "back stitch"), 0.0)
    for seam in draft.seams:
        name = "back stitch" if seam.kind in ("armhole", "gusset") else "running"
        seams[name] += length(edge_at(draft, seam.a).points)
    pieces = {piece.id: piece for piece in draft.pieces}
    hems = math.fsum(
        length(edge.points)
        for part in draft.parts
        for edge in pieces[part.piece].edges
        if not any((ref.part, ref.edge) == (part.id, edge.id) for ref in sewn)
    )
    expected = {**seams, "hemming": hems}
    found: dict[str, float] = {}
    for row in rows_of(draft):
        found[row.stitch] = found.get(row.stitch, 0.0) + row.length
    assert {name: found.pop(name) for name in expected} == pytest.approx(expected)
    assert set(found) <= {"bar"}


def test_a_facings_own_stitching_is_counted() -> None:
    """A shaped facing's outer edge is turned under and stitched; the neck is then sewn to it instead of hemmed."""
    bare, faced = (
        adorn(sewn_by(drafted({"neck": {"shape": "round", "slit": "none", **more}})[0], PLAIN))
        for more in ({}, {"facing": "shaped"})
    )
    neck = math.fsum(length(edge.points) for piece in bare.pieces for edge in piece.edges if edge.kind == "neck")
    (facing,) = (piece for piece in faced.pieces if piece.kind == "applied")
    outer = math.fsum(length(edge.points) for edge in facing.edges if edge.kind == "facing")

    def at_neck(draft: Draft) -> dict[str, float]:
        return told(next(step.rows for step in sew(draft) if step.code == "neck"))

    assert at_neck(bare) == pytest.approx({"hemming": neck})
    assert at_neck(faced) == pytest.approx({"running": neck, "hemming": outer})


@pytest.mark.parametrize("extra", [{"neck": {"shape": "round", "facing": "strip"}}, {"neck": {"collar": 4}}])
def test_strips_and_collars_take_more_than_a_hem(extra: dict[str, object]) -> None:
    bare, more = (totals(sew(adorn(drafted(each)[0]))) for each in ({"neck": {"shape": "round"}}, extra))
    assert more.hours[0] > bare.hours[0]
    assert more.thread_m[0] > bare.thread_m[0]


def test_thicker_cloth_takes_more_thread_and_no_more_time() -> None:
    draft = drafted({})[0]
    thin, thick = (totals(sew(draft, (Cloth("main", 150, thickness_mm=mm),))) for mm in (0.3, 3.0))
    assert thick.thread_m[0] > 1.5 * thin.thread_m[0]
    assert thick.hours == thin.hours
    # medium cloth is what is taken where nothing is known
    assert totals(sew(draft, (Cloth("main", 150),))).thread_m == pytest.approx(totals(sew(draft)).thread_m)


def test_the_sheets_pace_reaches_the_garment() -> None:
    slow, quick = (
        totals(prove_sheet(sheet({}, sewing={"timed": {"length": 40, "minutes": took}})).steps) for took in (24, 12)
    )
    without = [row for step in prove_sheet(sheet({})).steps if step.code == "closures" for row in step.rows]
    fixed = math.fsum(row.minutes[0] for row in without) / 60
    assert slow.hours[0] - fixed == pytest.approx(2 * (quick.hours[0] - fixed))


def test_steps_tell_the_middle_of_their_rows() -> None:
    for step in prove_sheet(sheet({})).steps:
        assert step.thread_m == pytest.approx(sum(sum(row.thread_m) for row in step.rows) / 2)
        assert step.minutes_hand == pytest.approx(sum(sum(row.minutes) for row in step.rows) / 2)


# --- fastenings -----------------------------------------------------------------------------------------


def test_a_cloth_button_takes_as_long_again_as_it_is_formed() -> None:
    """Under two minutes each for a practised hand (a maker's report): at least that is added."""
    made, bought = (
        adorn(drafted({"closures": [{"at": "neck slit", "by": "buttons", "buttons": each}]})[0]).closings[0]
        for each in ("cloth", "bought")
    )
    took = [math.fsum(row.minutes[0] for row in closing_rows(each, HANDLESS)) for each in (made, bought)]
    assert took[0] - took[1] == pytest.approx(MAKING[0] * made.count) == 2 * made.count
    assert told(closing_rows(made, HANDLESS))["running"] == pytest.approx(made.count * math.pi * made.circle)


def test_fastenings_are_hand_work_on_any_garment() -> None:
    closing = adorn(drafted({"closures": [{"at": "neck slit", "by": "lacing"}]})[0]).closings[0]
    by_hand = closing_rows(closing, HANDLESS)
    assert by_hand == closing_rows(closing, MACHINE)
    # two rows of eyelets, each worked round a hole of 3/16 in
    around = math.pi * 3 / 16 * 2.54
    assert told(by_hand)["buttonhole"] == pytest.approx(closing.pieces * around, rel=0.01)


def test_pins_take_no_stitch() -> None:
    assert (
        closing_rows(adorn(drafted({"closures": [{"at": "neck slit", "by": "pins"}]})[0]).closings[0], HANDLESS) == ()
    )


def test_sewing_on_takes_a_seam_and_a_fold() -> None:
    assert told(applied_rows(50, 60, HANDLESS)) == {"running": 50, "hemming": 60}
    assert told(applied_rows(0, 60, HANDLESS)) == told(edge_rows(60, HANDLESS)) == {"hemming": 60}


@pytest.mark.parametrize(
    ("style", "listed", "bars"), [("coif", "60 cm of tape", 2), ("apron", "140 cm of tape", 2), ("hood", "", 0)]
)
def test_garments_of_their_own_cut_are_tied(style: str, listed: str, bars: int) -> None:
    garment = prove_sheet(sheet({"style": style}))
    assert dict(shopping_rows(garment)).get("ties", "").startswith(listed)
    fasten = [row for step in garment.steps if step.code == "fasten" for row in step.rows]
    assert told(tuple(fasten)) == ({"bar": bars} if bars else {})


def test_a_gathered_apron_has_two_gathering_threads() -> None:
    garment = prove_sheet(
        sheet({"style": "apron", "apron": {"top": "gathered", "width": 120}}, sewing={"finish": "plain"})
    )
    step = next(step for step in garment.steps if step.code == "gather")
    (seam,) = (seam for seam in garment.draft.seams if seam.id in step.seams)
    wide, band = (length(edge_at(garment.draft, ref).points) for ref in (seam.a, seam.b))
    assert told(step.rows)["running"] == pytest.approx(2 * max(wide, band) + wide)
