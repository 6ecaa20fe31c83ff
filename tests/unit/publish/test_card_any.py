"""Cards of many kinds of garments: nothing over the page's edge, no letter on another, no letter too small."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from card_specimens import CHILD, INCHES

from ellwand.cli.commands import in_large_type
from ellwand.depict.sizes import neck_hole
from ellwand.errors import EllwandError
from ellwand.model.garment import Garment
from ellwand.pipeline import make
from ellwand.publish import card_pdf
from printed import Letter, letters, on_each_other, outside, pages
from sheets import sheet
from sweep import garment_at, read

BANDS = [{"at": at, "width": 3} for at in ("neck", "cuffs", "hem", "armholes")]
CHECKS = {"by": "chequy", "tinctures": ["or", "azure"]}
MANY: dict[str, tuple[dict[str, Any], dict[str, Any]]] = {
    "bands": ({"style": "tunic", "bands": BANDS}, {}),
    "train": ({"style": "gored gown", "train": 200}, {}),
    "narrow": ({"style": "gored gown"}, {"cloth": {"width": 45}}),
    "checks": ({"division": {**CHECKS, "count": 3}}, {}),
    "quarterly": ({"style": "wide-sleeved gown", "division": {**CHECKS, "by": "quarterly"}}, {"wearer": INCHES}),
    "herald": (
        {
            "style": "riding surcote",
            "division": {"by": "per pale", "tinctures": ["azure", "or"]},
            "charges": [{"ordinary": "fess", "tincture": "gules", "on": "front"}],
            "repeats": [{"motif": "roundel", "along": "hem", "by": "stencil", "colour": "white"}],
        },
        {},
    ),
    "child": ({"style": "tunic", "growth": {"months": 12}}, {"wearer": CHILD}),
    "gored": ({"style": "gored gown"}, {"wearer": INCHES}),
    "halves": ({"body": {"centre_seam": "both"}, "neck": {"shape": "rectangle"}}, {}),
    **{style: ({"style": style}, {}) for style in ("riding surcote", "hood", "cloak", "coif", "apron", "breeches")},
}
ORDINARY = ("riding surcote", "hood", "cloak", "coif", "apron", "breeches", "bands", "child")
LONG = "Wilhelmine von der Hohen Brücke über dem Salzwasser zu Oberunterwald"
SWEPT = 4


@cache
def made(kind: str) -> Garment:
    choices, rest = MANY[kind]
    return make(sheet(choices, **rest), seconds=0)


def sound(data: bytes, least: float = 8.0) -> list[list[Letter]]:
    """The letters of every page, once they are seen to be inside it, apart, and of ``least`` points at least."""
    out = []
    for page in pages(data):
        found = letters(page)
        assert found
        assert not outside(page, found)
        assert not list(on_each_other(found))
        assert min(each.size for each in found) > least - 0.01
        out.append(found)
    return out


@pytest.mark.parametrize("kind", MANY)
def test_every_letter_stands_clear(kind: str) -> None:
    count = len(sound(card_pdf(made(kind))))
    if kind in ORDINARY:
        assert count == 2
    if kind == "herald":  # three cloths, and a good deal to tell
        assert count <= 4


def test_half_fronts_with_a_rectangle_neck_tell_how_wide_it_is() -> None:
    """The sewn half is half the neck's width; the cut one is less by the neck's allowance, and more by the centre's."""
    for piece in made("halves").draft.pieces:
        neck = [edge for edge in piece.edges if edge.kind == "neck"]
        if not neck:
            continue
        xs = [x for edge in neck for x, _ in edge.points]
        centre = next(edge.allowance for edge in piece.edges if edge.id.startswith("centre-"))
        hole = neck_hole(piece)
        assert hole is not None and hole.half
        assert hole.width == pytest.approx(max(xs) - min(xs) - neck[0].allowance + centre, abs=0.01)


@pytest.mark.parametrize("kind", ["bands", "narrow", "gored"])
def test_large_type_has_no_letter_under_fourteen_points_and_says_the_same(kind: str) -> None:
    plain, large = (
        sound(card_pdf(each), least) for each, least in ((made(kind), 8.0), (in_large_type(made(kind)), 14.0))
    )
    assert len(large) >= len(plain)
    plain_words, large_words = ("".join(each.text for page in said for each in page) for said in (plain, large))
    for heading in ("Tobuy", "Chalklist", "Sewingorder", "Checks", "Takecare", "Fullline:cuthere."):
        assert (heading in plain_words) == (heading in large_words)
    for step in made(kind).steps[:1]:
        assert str(step.n) in large_words


@pytest.mark.parametrize("name", [LONG, "Ἀναστασία Παλαιολογίνα", "Ярослава Мстиславна", "王小明", "مريم بنت حسن"])
def test_a_name_in_any_script_fits(name: str) -> None:
    garment = made("hood")
    sound(card_pdf(replace(garment, wearer=replace(garment.wearer, name=name), title=f"{name} hood")))


def test_garments_from_the_whole_choice_space() -> None:
    cards = 0
    for i in range(40):
        try:
            garment = make(read(*garment_at(31, i)), seconds=0)
        except EllwandError:
            continue
        if len(garment.draft.pieces) <= 20:
            sound(card_pdf(garment))
            cards += 1
        if cards == SWEPT:
            return
    raise AssertionError("too few garments")
