"""Mends are true: what the words tell to do is done to the sheet, and the finding is gone.

Every code that has a mend is shown by a garment below, or stands in one of two short lists with the reason; then the
same is tried on whatever the sweep finds (tests/sweep.py).
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any, Final

import pytest

from ellwand import BadInput
from ellwand.depict.words.mends import MEND
from ellwand.errors import CannotDraft
from ellwand.model.finding import Finding
from ellwand.model.garment import Garment
from ellwand.plan.mending import mends
from mending import mended
from sheets import JOAN
from sweep import Tables, garments, made

CHILD: Final = {"name": "Wat", "sex": "male", "age": 8, "height": 128, "head_girth": 53}
BRIEF: Final = {"sex": "female", "height": 164, "bust_girth": 96}
SEED, CHUNKS, EACH = 21, 4, 40
STRAIGHT: Final = {"height": 175, "bust_girth": 100, "waist_girth": 84, "hip_girth": 92, "head_girth": 57}
SHORT: Final = {"sex": "male", "height": 150, "bust_girth": 128, "hip_girth": 118, "head_girth": 57}
LARGE_HEADED: Final = {
    "sex": "male",
    "age": 2,
    "height": 84,
    "bust_girth": 47,
    "waist_girth": 46,
    "hip_girth": 47,
    "head_girth": 52,
}
BARE: Final = {"gores": []}
GORE: Final = {"place": "side", "start": "hip", "base": 40}

PARTED: Final = {"division": {"by": "per pale", "tinctures": ["gules", "azure"]}}
SHOWS: Final[Mapping[str, tuple[dict[str, Any], dict[str, Any]]]] = {
    "neck-tight": ({"neck": {"shape": "round", "ease": 0}}, JOAN),
    "neck-by-estimate": ({}, BRIEF),
    "fold-with-open-shoulder": ({"neck": {"shape": "round", "opening": "shoulder left"}}, JOAN),
    "cloak-covers": ({"style": "cloak", "cloak": {"shape": "rectangle", "width": 60}}, JOAN),
    "breeches-foot": ({"style": "breeches", "breeches": {"hem": 24, "length": "ankle"}}, JOAN),
    "breeches-leg": ({"style": "breeches", "breeches": {"hem": 34, "length": "knee"}}, JOAN),
    "other-hem": ({"style": "cloak", "cloak": {"length": 160}}, JOAN),
    "apron-covers": ({"style": "apron", "apron": {"top": "plain", "width": 22}}, JOAN),
    "hood-cape narrow": ({"style": "hood", "hood": {"gores": "shoulder", "gore": 10}}, JOAN),
    "hood-cape": ({"style": "hood", "hood": {"gores": "none", "cape": 29}}, JOAN),
    "fits biceps": ({"body": {"cut": "shoulder panels"}, "sleeve": {"length": "cap", "cuff": "close"}}, JOAN),
    "over-head": ({**BARE, "body": {"ease": 1}}, STRAIGHT),
    "over-head will not work": ({**BARE, "body": {"ease": 0}}, LARGE_HEADED),
    "over-head open at the side": (
        {**BARE, "body": {"ease": 0}, "sleeve": {"shape": "none"}, "closures": [{"at": "side"}]},
        LARGE_HEADED,
    ),
    "riding": ({"gores": [{**GORE, "base": 10}], "style": "riding surcote", "splits": []}, JOAN),
    "riding split low": ({**BARE, "length": "ankle", "splits": [{"place": "centre-front", "height": 15}]}, JOAN),
    "fits": ({**BARE, "body": {"ease": 2}}, JOAN),
    "fits-by-estimate": ({**BARE, "body": {"ease": 6}}, BRIEF),
    "walking": ({**BARE, "length": "ankle"}, JOAN),
    "walking split low": ({**BARE, "length": "ankle", "splits": [{"place": "side", "height": 12}]}, JOAN),
    "sitting": ({**BARE, "body": {"ease": 2}}, JOAN),
    "reaching": ({"sleeve": {"gusset": "none"}}, JOAN),
    "reaching shaped": (
        {"body": {"shoulder": "seam"}, "sleeve": {"gusset": "none", "head": "shaped", "head_ease": 1}},
        JOAN,
    ),
    "overhead": ({**BARE, "length": "hip", "over": [{"thickness_mm": 12}]}, JOAN),
    "elbow-room": ({"layer": "skin", "over": [{"thickness_mm": 20}]}, JOAN),
    "shoulder-strip": ({"neck": {"shape": "round"}, "body": {"ease": 0}}, {"sex": "male", "age": 4, "height": 102}),
    "neck-width": ({"neck": {"shape": "round", "ease": 12}}, CHILD),
    "gore-room": (
        {
            "length": 100,
            "sleeve": {"gusset": 10},
            "gores": [{**GORE, "start": 43}],
            "closures": [{"at": "side"}],
        },
        JOAN,
    ),
    "gore-in-slit": ({"gores": [{**GORE, "place": "centre-front"}]}, JOAN),
    "gore-in-slit in a panel": ({"gores": [{**GORE, "place": "panel-back"}]}, JOAN),
    "split-top": ({**BARE, "splits": [{"place": "centre-back", "height": 75}]}, JOAN),
    "underarm-room": ({"sleeve": {"length": 18, "gusset": 13.5}}, JOAN),
    "sleeve-length": ({"sleeve": {"length": 85}}, JOAN),
    "hem-clears": ({"length": 150}, JOAN),
    "fold-with-one-centre-seam": ({"body": {"centre_seam": "front"}}, JOAN),
    "centre-seam-for-closure": ({**BARE, "closures": [{"at": "centre-front"}]}, JOAN),
    "gore-to-armpit": (
        {"gores": [{**GORE, "start": "waist"}], "over": [{"thickness_mm": 15}]},
        {"sex": "female", "age": 4, "height": 103},
    ),
    "panel-narrowed": ({"body": {"cut": "shoulder panels", "ease": 0}}, {**JOAN, "across_shoulder": 47}),
    "corners-hang": ({"gores": [{**GORE, "hem": "straight"}]}, JOAN),
    "lasts": ({**BARE, "body": {"ease": 0}}, {"sex": "female", "age": 10, "height": 140}),
    "head-by-estimate": ({"style": "hood"}, BRIEF),
    "band-bends": ({"bands": [{"at": "hem", "width": 4, "cut": "straight"}]}, JOAN),
    "band-bends on the bias": ({"bands": [{"at": "neck", "width": 4, "cut": "bias"}]}, JOAN),
    "band-bends ready made": ({"bands": [{"at": "neck", "width": 1, "make": "bought"}]}, JOAN),
    "tincture-rule": ({"charges": [{"ordinary": "fess", "tincture": "sable"}], **PARTED}, JOAN),
    "tincture-lost": ({"charges": [{"ordinary": "fess", "tincture": "gules"}], **PARTED}, JOAN),
    "band-taken-up": ({"growth": {"by": "deep hem"}, "bands": [{"at": "hem", "width": 2}]}, CHILD),
}
"""Code, and a word where the mend has more than one form: a garment that shows it, and whom it is for."""

NO_CHOICE: Final = {
    **dict.fromkeys(("hang-hem", "hang-trips", "hang-pulls"), "hung and looked at again"),
    "slit-depth": "less of a slit, but not how much less",
    "cloak-neck": "measured again",
    "hood-face": "measured again",
    "breeches-sitting": "measured again",
    **dict.fromkeys(
        ("neck-too-small", "cuff-too-small", "cuff-by-estimate", "hood-neck", "coif-head", "breeches-hip"),
        "the draft sizes it to pass, so only the sweep or a broken draft shows one",
    ),
    "allowance-for-finish": "tests/unit/prove/test_allowance.py",
    "overhead-held": "so close a sleeve is rare: left to the sweep",
    **dict.fromkeys(("period", "period-unknown", "period-elsewhere"), "tests/unit/prove/test_evidence.py"),
    **dict.fromkeys(
        ("layer-girth", "layer-neck", "layer-sleeve", "layer-sleeve-room", "layer-hem"),
        "of two sheets, one worn over the other",
    ),
    **dict.fromkeys(
        (
            *("cloth-enough", "cloth-fault", "cloth-laid-flat", "cloth-not-needed", "cloth-remnants-unused"),
            *("cloth-stripes", "cloth-table", "cloth-tears", "cloth-washed-sewn"),
        ),
        "of the cloth: no choice of the garment's",
    ),
}
"""Codes that no garment above shows, and why."""


WITHOUT_BUTTON: Final = frozenset(
    {
        *("neck-by-estimate", "fits-by-estimate", "head-by-estimate"),
        *("cloak-covers", "breeches-foot", "breeches-leg", "other-hem", "apron-covers", "hood-cape"),
        *("band-bends", "band-taken-up", "tincture-rule", "tincture-lost"),
    }
)
"""Codes whose mend is told in words alone: measuring again, a decision that only the maker can take, and those of other
garments, bands and tinctures, which have no button yet."""


def still_there(tables: Tables, person: Tables, finding: Finding) -> bool:
    """Whether the garment has that finding, and it is not sound."""
    return any(
        (each.code, each.subject) == (finding.code, finding.subject) and each.outcome != "sound"
        for each in made(tables, person).proof.findings
    )


def shown(name: str) -> tuple[Tables, Tables, Garment, list[Finding]]:
    garment, person = SHOWS[name]
    tables: Tables = {"garment": garment, "sewing": {}, "cloth": {"width": 150}}
    done = made(tables, person)
    found = [f for f in done.proof.findings if f.code == name.split()[0] and f.outcome != "sound"]
    return tables, person, done, found


@pytest.mark.parametrize("name", SHOWS)
def test_done_as_told_it_is_gone(name: str) -> None:
    tables, person, garment, found = shown(name)
    assert found, "the garment does not show it"
    for finding in found:
        ways = list(mended(tables, person, garment, finding))
        assert ways, "nothing in the words can be done"
        for told, mended_tables, mended_person in ways:
            assert not still_there(mended_tables, mended_person, finding), (told, mended_tables["garment"])


@pytest.mark.parametrize("name", SHOWS)
def test_a_button_does_what_it_says(name: str) -> None:
    """On the bench each way to mend is a button: pressed, the finding is gone."""
    tables, person, garment, found = shown(name)
    pressed = [way for finding in found for way in mends(finding, tables, garment)]
    assert pressed or name.split()[0] in WITHOUT_BUTTON
    for way in pressed:
        assert way.label
        for finding in found:
            if way in mends(finding, tables, garment):
                assert not still_there(way.tables, person, finding), way.label


def test_every_code_with_a_mend_is_shown() -> None:
    """Faults of the program apart."""
    ours = {code for code, says in MEND.items() if "fault of the program" not in _said(says)}
    assert ours - {name.split()[0] for name in SHOWS} - set(NO_CHOICE) == set()


def _said(says: Any) -> str:
    try:
        return str(says(Finding("", "", "look again"), None))
    except (AttributeError, KeyError):
        return ""


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_what_the_sweep_finds_is_mended(chunk: int) -> None:
    """A mend may meet another choice that forbids it, and then is refused in one sentence; it is never in vain."""
    refused = done = 0
    for tables, person in garments(SEED, EACH, first=chunk * EACH):
        try:
            garment = made(tables, person)
        except CannotDraft:
            continue
        for finding in garment.proof.findings:
            for told, mended_tables, mended_person in mended(tables, person, garment, finding):
                try:
                    there = still_there(mended_tables, mended_person, finding)
                except BadInput:
                    refused += 1
                    continue
                done += 1
                assert not there, (finding, told, json.dumps([tables, person]))
    assert refused < 0.5 * done
