"""Every garment can be made as its steps tell: sewn in the mind from garment.json alone (tests/making.py)."""

from __future__ import annotations

import json
from typing import Any, Final

import pytest

from ellwand import prove_sheet
from ellwand.errors import BadInput
from ellwand.publish.garment_json import garment_json
from making import Doc, faults, swapped
from sheets import sheet
from sweep import garments, made

SEED, CHUNKS, EACH = 33, 5, 80
"""So many sheets that some 300 garments can be drafted of them."""


def told(**tables: Any) -> Doc:
    doc: Doc = json.loads(garment_json(prove_sheet(sheet(tables.get("garment"), sewing=tables.get("sewing")))))
    return doc


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_whatever_the_choices_the_steps_make_the_garment(chunk: int) -> None:
    count = 0
    for tables, person in garments(SEED, EACH, first=chunk * EACH):
        try:
            doc = json.loads(garment_json(made(tables, person)))
        except BadInput:
            continue
        count += 1
        assert not faults(doc), (faults(doc)[:3], tables)
    assert count >= 0.65 * EACH


WAYS: Final = [
    {"sleeves": sleeves, "gussets": gussets}
    for sleeves in ("flat", "in the round")
    for gussets in ("in the corner", "on the sleeve", "on the body")
]


@pytest.mark.parametrize("way", WAYS, ids=lambda way: " ".join(way.values()))
@pytest.mark.parametrize("sleeve", [{"gusset_shape": s} for s in ("square", "triangles", "diamond")], ids=str)
def test_every_way_of_gussets_and_sleeves_makes_the_same_shell(way: dict[str, str], sleeve: dict[str, str]) -> None:
    doc = told(garment={"sleeve": sleeve, "neck": {"facing": "strip"}}, sewing=way)
    usual = told(garment={"sleeve": sleeve, "neck": {"facing": "strip"}})
    assert not faults(doc)
    assert doc["shell"] == usual["shell"] and doc["pieces"] == usual["pieces"]
    same = [sorted(step["seams"]) for step in doc["sewing"]] == [sorted(step["seams"]) for step in usual["sewing"]]
    assert same == (way == WAYS[0])


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("underarm and sides", "sleeves"),  # the sleeve on to a closed body
        ("hem", "underarm and sides"),
        ("gores", "underarm and sides"),
        ("neck", "hem"),  # faced when all is closed
        ("cuffs", "gores"),
    ],
)
def test_two_steps_in_each_others_place_are_found_out(first: str, second: str) -> None:
    doc = told(garment={"neck": {"facing": "strip"}})
    assert not faults(doc)
    assert faults(swapped(doc, first, second))


def test_what_is_left_out_or_told_twice_is_found_out() -> None:
    doc = told()
    for key in ("seams", "edges"):
        for change in (lambda each: each[1:], lambda each: [*each, each[0]]):
            steps = [dict(step) for step in doc["sewing"]]
            step = next(step for step in steps if step[key])
            step[key] = change(step[key])
            assert faults({**doc, "sewing": steps})
    steps = [{**step, "needs": [step["n"]]} for step in doc["sewing"]]
    assert faults({**doc, "sewing": steps})
