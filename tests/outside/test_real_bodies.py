"""Every style in both body cuts, on real people: assembles, goes on, lays.

Bodies: 96 seeded rows of ANSUR II 2012 (see tests/bodies.py), through the public API.
"""

from __future__ import annotations

import json

import pytest

from bodies import sample
from ellwand import garment_json, make
from ellwand.choose.options.body import CUTS
from ellwand.choose.styles import STYLES
from ellwand.model.others import KINDS
from independent import faults
from sheets import sheet

PEOPLE = sample(72, seed=2026)


@pytest.mark.parametrize("chunk", range(3))
@pytest.mark.parametrize("cut", CUTS)
@pytest.mark.parametrize("style", [style for style in STYLES if style not in KINDS])
def test_every_style_and_cut_on_real_bodies(style: str, cut: str, chunk: int) -> None:
    for person in PEOPLE[chunk::3]:
        garment = make(sheet({"style": style, "body": {"cut": cut}}, wearer=person), seconds=0)
        assert faults(json.loads(garment_json(garment))) == [], person
        failed = [f for f in garment.proof.findings if f.outcome == "will not work"]
        assert failed == [], person


@pytest.mark.parametrize("style", KINDS)
def test_hoods_cloaks_and_their_like_on_real_bodies(style: str) -> None:
    for person in PEOPLE:
        garment = make(sheet({"style": style}, wearer=person), seconds=0)
        assert faults(json.loads(garment_json(garment))) == [], person
        assert [f for f in garment.proof.findings if f.outcome == "will not work"] == [], person
