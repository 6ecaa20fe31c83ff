"""The stitching of bands, motifs, charges and bars, counted a second time from where they lie."""

from __future__ import annotations

import math
from typing import Any

import pytest
from shapely import Polygon

from ellwand import prove_sheet
from ellwand.depict.shopping import bill, shopping_rows
from ellwand.model.garment import Garment
from ellwand.model.step import Step
from sheets import sheet

BARE: dict[str, Any] = {"style": "tunic", "neck": {"shape": "oval"}}


def made(**more: object) -> Garment:
    return prove_sheet(sheet({**BARE, **more}))


def only(garment: Garment, *codes: str) -> Step:
    (step,) = (step for step in garment.steps if step.code in codes)
    return step


def sewn(step: Step, stitch: str = "hemming") -> float:
    return math.fsum(row.length for row in step.rows if row.stitch == stitch)


@pytest.mark.parametrize("make", ["bought", "cloth", "braid"])
def test_a_straight_band_is_sewn_down_along_both_sides(make: str) -> None:
    """Round both cuffs: twice as long as they are, but for what the band bends and overlaps."""
    garment = made(bands=[{"at": "cuffs", "make": make, "width": 2}])
    cuffs = 2 * garment.draft.dimensions.cuff
    step = only(garment, "bands flat", "bands round")
    assert sewn(step) == pytest.approx(2 * cuffs, rel=0.1)
    assert step.minutes_hand > 0 and step.minutes_machine > 0 and step.thread_m > 2 * cuffs / 100


def test_a_cord_is_sewn_on_once() -> None:
    cord, braid = (
        sewn(only(made(bands=[{"at": "cuffs", "make": make, "width": 1}]), "bands flat", "bands round"))
        for make in ("cord", "braid")
    )
    assert cord == pytest.approx(braid / 2, rel=0.05)


def test_a_charge_is_sewn_down_all_round() -> None:
    garment = made(charges=[{"ordinary": "fess", "tincture": "gules"}])
    regions = [region for charge in garment.draft.adornment.charges for region in charge.regions]
    around = math.fsum(Polygon(region.ring, region.holes).length for region in regions)
    assert sewn(only(garment, "charges")) == pytest.approx(around)


def test_motifs_are_sewn_down_where_they_are_sewn_on_and_not_where_they_are_painted() -> None:
    repeats = {"motif": "roundel", "along": "hem"}
    garment = made(repeats=[{**repeats, "by": "appliqué"}])
    (repeat,) = garment.draft.adornment.repeats
    one = math.fsum(Polygon(region.ring, region.holes).length for region in repeat.motif.regions)
    assert sewn(only(garment, "motifs", "motifs round")) == pytest.approx(repeat.count * one)
    painted = only(made(repeats=[{**repeats, "by": "stencil"}]), "motifs", "motifs round")
    assert painted.rows == () and painted.thread_m == 0


def test_every_bar_is_counted() -> None:
    """Each is one centimetre of bar stitch (our own figure), in the step that works it."""
    garment = made(splits=[{"place": "centre-front"}])
    bars = 0
    for step in garment.steps:
        count = sum(each.by == "bar" for each in step.reinforce)
        if step.code != "closures":
            assert sewn(step, "bar") == pytest.approx(count)
        bars += count
    assert bars > 0


def test_bands_that_are_bought_stand_on_the_list_and_the_bill() -> None:
    garment = made(bands=[{"at": "cuffs", "make": "bought", "width": 2, "colour": "red"}])
    around = 2 * garment.draft.dimensions.cuff
    listed = dict(shopping_rows(garment))["band"]
    assert "of red band 2 cm wide, round each cuff" in listed
    (line,) = (line for line in bill(garment).lines if "band" in line.what)
    assert around / 100 <= line.amount < around / 100 + 0.3
    assert listed.startswith(f"{100 * line.amount:.0f} cm")
    woven = dict(shopping_rows(made(bands=[{"at": "cuffs", "make": "tablet woven", "width": 2}])))
    assert "g, for the tablet woven band" in woven["yarn"]
