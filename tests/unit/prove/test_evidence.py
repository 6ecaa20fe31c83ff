"""Period evidence: dated rows, hints with their source, mends that are true."""

from __future__ import annotations

import copy
import re
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ellwand.depict import words
from ellwand.depict.words.evidence import PHRASES
from ellwand.model import choices as chosen
from ellwand.model import others
from ellwand.model.finding import Finding
from ellwand.prove.evidence import EVERYWHERE, STANDINGS, collected, evidence
from proving_specimens import drafted

KEYS = {
    "body.cut": get_args(chosen.Cut),
    "body.shoulder": set(get_args(chosen.Shoulder)) - {"either"},
    "body.centre_seam": set(get_args(chosen.CentreSeam)) - {"none", "either"},
    "gores": (*get_args(chosen.GorePlace), "none"),
    "sleeve.shape": get_args(chosen.SleeveShape),
    "neck.shape": get_args(chosen.NeckShape),
    "splits": get_args(chosen.SplitPlace),
    "hood.gores": get_args(others.HoodGores),
    "cloak.shape": get_args(others.CloakShape),
}
GARMENTS: tuple[dict[str, Any], ...] = (
    {"style": "tunic"},
    {"style": "shift"},
    {"style": "wide-sleeved gown"},
    {"style": "gored gown"},
    {"style": "riding surcote"},
    {
        "body": {"shoulder": "seam", "centre_seam": "both"},
        "neck": {"shape": "round"},
        "closures": [{"at": "side", "by": "lacing"}, {"at": "cuffs", "by": "buttons"}],
        "splits": [{"place": "side", "height": 20}],
        "gores": [],
    },
    {
        "neck": {"shape": "boat"},
        "sleeve": {"shape": "straight", "length": "elbow"},
        "closures": [{"at": "centre-front", "by": "hooks"}],
        "gores": [{"place": "panel-front", "base": 20, "start": "hip"}],
    },
)


def found(garment: dict[str, Any], date: int | None, region: str | None) -> dict[str, Finding]:
    when = {"date": date} if date else {}
    where = {"region": region} if region else {}
    findings = evidence(drafted({**garment, **when, **where})[0])
    assert len({each.subject for each in findings}) == len(findings)
    return {each.subject: each for each in findings}


def test_every_row_is_dated_sourced_and_of_a_known_region() -> None:
    all_ = collected()
    for values in all_.rows.values():
        for rows in values.values():
            for row in rows:
                assert row.region in all_.within and row.standing in STANDINGS and row.source
                assert 200 <= row.start <= row.end <= 1600
                assert 15 <= row.margin <= 50


def test_every_choice_has_a_phrase_and_every_value_is_one_of_the_sheet() -> None:
    all_ = collected()
    assert set(PHRASES) == set(all_.rows)
    for key, values in KEYS.items():
        assert set(all_.rows[key]) == set(values), key
    for value in all_.rows["closures"]:
        at, by = value.removeprefix("by ").split(" by ") if not value.startswith("by ") else ("", value[3:])
        assert by in get_args(chosen.ClosureBy) and (not at or at in get_args(chosen.ClosurePlace))


def test_every_region_lies_in_europe_at_last() -> None:
    all_ = collected()
    assert all(all_.related(EVERYWHERE, region) for region in all_.within)
    assert all_.region(" Northwest  EUROPE ") == "north-west Europe"
    assert all_.related("Denmark", "north-west Europe") and not all_.related("Greenland", "Scandinavia")


def test_nothing_is_said_without_a_date() -> None:
    assert found({"style": "gored gown"}, None, "England") == {}


@pytest.mark.parametrize(
    ("garment", "date", "region", "subject", "standing"),
    [
        # close fit spread from the Continent about 1330 to Scandinavia about 1360 to 1370, to Greenland with time
        ({"style": "gored gown"}, 1345, "France", "sleeve.shape", "usual"),
        ({"style": "gored gown"}, 1250, "England", "sleeve.shape", "known"),
        ({"style": "gored gown"}, 1340, "Sweden", "sleeve.shape", "known elsewhere"),
        ({"style": "gored gown"}, 1380, "Sweden", "sleeve.shape", "usual"),
        # buttons at the cuffs from about 1300
        ({"style": "gored gown"}, 1180, "England", "closures-cuffs-by-buttons", "not known"),
        ({"style": "gored gown"}, 1310, "England", "closures-cuffs-by-buttons", "usual"),
        # gores: Moselund, Kragelund, Skjoldehamn before 1100; the Guddal and Viborg shirts have none
        ({"style": "tunic"}, 1080, "Denmark", "gores-side", "usual"),
        ({"gores": []}, 1080, "Norway", "gores-none", "known"),
        # a lacing at the side in the 12th century is argued for from pictures
        ({"closures": [{"at": "side", "by": "lacing"}]}, 1150, "France", "closures-side-by-lacing", "rare or debated"),
        # sleeveless surcotes are common from about 1300
        ({"style": "riding surcote"}, 1320, "England", "sleeve.shape", "usual"),
        ({"style": "riding surcote"}, 1100, "England", "sleeve.shape", "not known"),
        # the keyhole with a small brooch: the early and high period
        ({"style": "tunic"}, 1180, "north-west Europe", "neck.shape", "usual"),
        (
            {"closures": [{"at": "centre-front", "by": "hooks"}]},
            1300,
            "England",
            "closures-centre-front-by-hooks",
            "not known",
        ),
        ({"closures": [{"at": "centre-front", "by": "hooks"}]}, 1550, None, "closures-centre-front-by-hooks", "usual"),
    ],
)
def test_published_dates(garment: dict[str, Any], date: int, region: str | None, subject: str, standing: str) -> None:
    finding = found(garment, date, region)[subject]
    assert finding.values["standing"] == standing
    assert finding.outcome == ("sound" if standing in (*STANDINGS[:2], "known elsewhere") else "look again")


def test_a_region_without_evidence_says_so() -> None:
    (finding,) = found({"style": "tunic"}, 1180, "Japan").values()
    assert finding.outcome == "look again"
    assert "Japan" in words.why(finding, "cm")
    told = re.search(r'region = "([^"]+)"', words.mend(finding, "cm"))
    assert told and "region" not in found({"style": "tunic"}, 1180, told.group(1))


@given(st.sampled_from(GARMENTS), st.integers(500, 1600), st.sampled_from([None, *collected().within, "Iceland"]))
@settings(max_examples=60)
def test_a_hint_is_never_a_bar_and_names_its_source(garment: dict[str, Any], date: int, region: str | None) -> None:
    for finding in found(garment, date, region).values():
        assert finding.outcome in ("sound", "look again")
        why, mend = words.why(finding, "cm"), words.mend(finding, "cm")
        assert "A hint only." in why and len(why) <= 220 and why[0].isupper()
        assert str(finding.values.get("source", "")) in why
        assert len(mend) <= 220 and (mend == "" or finding.outcome != "sound")


@given(st.sampled_from(GARMENTS), st.integers(900, 1450), st.sampled_from([None, "England", "Denmark", "Greenland"]))
@settings(max_examples=40)
def test_the_mend_removes_the_finding(garment: dict[str, Any], date: int, region: str | None) -> None:
    for subject, finding in found(garment, date, region).items():
        mend = words.mend(finding, "cm")
        if finding.outcome == "sound" or not mend:
            continue
        after = found(_mended(garment, finding, mend), date, region)
        assert subject not in after or after[subject].outcome == "sound", (garment, mend)


def _mended(garment: dict[str, Any], finding: Finding, mend: str) -> dict[str, Any]:
    """The garment as the mend tells."""
    new = copy.deepcopy(garment)
    key, value = str(finding.values["choice"]), str(finding.values["value"])
    if told := re.findall(r'(\w+)\.(\w+) = "([^"]+)"', mend):
        for table, name, what in told:
            new.setdefault(table, {})[name] = what
    elif told := re.findall(r'gores of place = "([^"]+)"', mend):
        new["gores"] = [{"place": told[0], "base": 30, "start": "hip"}]
    else:
        assert "leave it out" in mend
        style = drafted(garment)[0].choices
        if key == "gores":
            new["gores"] = [{"place": g.place, "base": 30, "start": "hip"} for g in style.gores if g.place != value]
        elif key == "splits":
            new["splits"] = [{"place": s.place, "height": 20} for s in style.splits if s.place != value]
        elif key == "closures":
            new["closures"] = [{"at": c.at, "by": c.by} for c in style.closures if f"{c.at} by {c.by}" != value]
        else:
            table, name = key.split(".")
            new[table] = {k: v for k, v in new.get(table, {}).items() if k != name}
    return new
