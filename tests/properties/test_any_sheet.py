"""Any legal sheet either drafts to a sound shell or is refused with one sentence."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bodies import rows, wearer
from ellwand import BadInput, garment_json, make, prove_sheet
from ellwand.publish.garment_json import read_stitched
from independent import faults
from sheets import sheet
from strategies import garments

people = st.integers(0, len(rows()) - 1).map(lambda i: wearer(rows()[i]))


@settings(max_examples=400, suppress_health_check=[HealthCheck.too_slow])
@given(garment=garments, person=people, inches=st.booleans())
def test_sound_or_refused(garment: dict[str, Any], person: dict[str, object], inches: bool) -> None:
    if inches:
        person = {key: v / 2.54 if isinstance(v, float) else v for key, v in person.items()} | {"unit": "in"}
        garment = {key: v for key, v in garment.items() if key not in ("length", "gores", "splits", "sleeve", "neck")}
        if "body" in garment:
            garment["body"] = {k: v for k, v in garment["body"].items() if k not in ("ease", "flare")}
    try:
        done = prove_sheet(sheet(garment, wearer=person))
    except BadInput as refused:
        assert refused.problem and str(refused).endswith(".") and "\n" not in str(refused)
        return
    assert faults(json.loads(garment_json(done))) == []
    assert not [f for f in done.proof.findings if f.code.startswith("assembles") and f.outcome != "sound"]


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow])
@given(
    garment=garments,
    person=people,
    cloth=st.fixed_dictionaries(
        {
            "width": st.integers(50, 160),
            "nap": st.booleans(),
            "reversible": st.booleans(),
            "crosswise": st.sampled_from(["never", "small pieces", "any"]),
        }
    ),
)
def test_lays_stay_on_the_cloth(garment: dict[str, Any], person: dict[str, object], cloth: dict[str, Any]) -> None:
    try:
        done = make(sheet(garment, wearer=person, cloth=cloth), seconds=0)
    except BadInput:
        return
    doc = json.loads(garment_json(done))
    assert faults(doc) == []
    mirrored = {part["id"]: part["mirrored"] for part in doc["parts"]}
    for placement in doc["lays"][0]["placements"]:
        if cloth["nap"]:
            assert placement["turn"] == 0
        if not cloth["reversible"]:
            assert placement["flip"] == mirrored[placement["part"]]


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow])
@given(garment=garments, person=people)
def test_garment_json_reads_back(garment: dict[str, Any], person: dict[str, object]) -> None:
    try:
        done = prove_sheet(sheet(garment, wearer=person))
    except BadInput:
        return
    text = garment_json(done)
    back = read_stitched(text)
    assert back.parts == done.draft.parts
    assert [(s.id, s.a, s.b) for s in back.seams] == [(s.id, s.a, s.b) for s in done.draft.seams]
    for read, drawn in zip(back.pieces, done.draft.pieces, strict=True):
        assert [edge.id for edge in read.edges] == [edge.id for edge in drawn.edges]
        for (x, y), (u, v) in zip(read.cut, drawn.cut, strict=True):
            assert abs(x - u) < 1e-4 and abs(y - v) < 1e-4


def test_the_same_sheet_gives_the_same_document() -> None:
    texts = {garment_json(make(sheet(), seconds=0)) for _ in range(2)}
    assert len(texts) == 1
