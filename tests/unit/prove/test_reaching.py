"""Arms that lift: the closed form against a model of two rigid links, sampled; and mends that are true.

Source: plane geometry (two rigid links on a hinge, cloth as strings that do not stretch).
"""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bodies import sample
from ellwand.depict import words
from ellwand.errors import CannotDraft
from ellwand.geometry.reach import LEVEL, OVERHEAD, Reach, angle_reached, hanging, hem_lift, reach_of
from ellwand.model.finding import Finding
from proving_specimens import CHILD, found
from sheets import JOAN


def strung(radius: float, far: float) -> float:
    """Half the length of a string round a circle, drawn tight to a point ``far`` from its middle: walked in steps."""
    touch = math.acos(radius / far)
    steps = 4000
    around = [
        (radius * math.cos(a), radius * math.sin(a))
        for a in (touch + (math.pi - touch) * i / steps for i in range(steps + 1))
    ]
    return math.dist((far, 0.0), around[0]) + sum(math.dist(a, b) for a, b in itertools.pairwise(around))


@given(st.floats(1.5, 12), st.floats(1.01, 6))
@settings(max_examples=25)
def test_a_loop_hangs_as_a_string_round_a_circle(radius: float, share: float) -> None:
    far = radius * share
    assert hanging(strung(radius, far), radius) == pytest.approx(far, abs=2e-3)


def can_hold(reach: Reach, degrees: float, lift: float) -> bool:
    """Whether some point under the arm lies within all three lengths of cloth: every point of a fine net is tried."""
    radius = reach.arm / (2 * math.pi)
    far = hanging(reach.half_loop, radius)
    waist = (0.0, -(reach.waist - radius))
    theta = math.radians(degrees)
    out, down = (math.sin(theta), -math.cos(theta)), (-math.cos(theta), -math.sin(theta))
    deep = hanging(reach.elbow_half, radius)
    elbow = (out[0] * reach.elbow + down[0] * deep, out[1] * reach.elbow + down[1] * deep)
    for i in range(1, 161):
        m = far * i / 160
        for k in range(361):
            a = math.radians(-90 + k / 2)
            point = (m * math.cos(a), m * math.sin(a))
            if math.dist(point, waist) > reach.to_waist + lift + 1e-9:
                continue
            if reach.to_elbow is None or math.dist(point, elbow) <= reach.to_elbow + 1e-9:
                return True
    return False


reaches = st.builds(
    reach_of,
    armhole=st.floats(16, 28),
    side_panel=st.sampled_from([0.0, 8.0, 16.0]),
    gusset=st.sampled_from([(0.0, 0.0), (8.0, 8.0), (12.0, 12.0), (12.0, 8.0)]),
    waist=st.floats(34, 46),
    spare=st.sampled_from([0.0, 5.0]),
    arm=st.floats(22, 44),
    underarm=st.floats(14, 32),
    elbow=st.floats(14, 32),
    elbow_half=st.floats(12, 20),
)


@given(reaches, st.sampled_from([1.0, 4.0, 9.0]))
@settings(max_examples=12, deadline=None)
def test_the_angle_is_the_one_at_which_two_rigid_links_run_out_of_cloth(reach: Reach, lift: float) -> None:
    angle = angle_reached(reach, lift)
    if angle <= 3 or angle >= OVERHEAD:
        return
    slack = 3.0
    # a net of points finds nearly all that there is, and nothing beyond
    assert not can_hold(reach, min(angle + slack, OVERHEAD), lift)
    assert can_hold(reach, angle - slack, lift)


@given(reaches, st.floats(0, 6), st.floats(0, 6))
@settings(max_examples=30)
def test_more_lift_never_lets_the_arm_lift_less(reach: Reach, lift: float, more: float) -> None:
    assert angle_reached(reach, lift + more) >= angle_reached(reach, lift) - 1e-9


@given(reaches)
@settings(max_examples=15, deadline=None)
def test_the_hem_rises_by_just_what_the_angle_takes(reach: Reach) -> None:
    for angle in (LEVEL, OVERHEAD):
        lift = hem_lift(reach, angle)
        if 0 < lift < math.inf:
            assert angle_reached(reach, lift + 0.01) >= angle - 0.05
            assert angle_reached(reach, lift - 0.05) < angle


def test_cloth_without_thickness_lifts_level_and_no_further() -> None:
    """Flat cloth on a flat body is cut with the arms level; one more degree draws up the side (plane geometry)."""
    flat = reach_of(
        armhole=20,
        side_panel=0,
        gusset=(0, 0),
        waist=40,
        spare=0,
        arm=1e-6,
        underarm=math.hypot(25, 4),
        elbow=25,
        elbow_half=16,
    )
    assert angle_reached(flat, 1e-6) == pytest.approx(LEVEL, abs=0.2)
    assert hem_lift(flat, LEVEL) < 0.01
    # overhead the whole way from waist to elbow is straight: the lift is what two hinged lengths lack
    lacks = 40 + math.hypot(25, 16) - (20 + math.hypot(25, 4))
    assert hem_lift(flat, OVERHEAD) <= lacks + 0.01


@pytest.mark.parametrize("body", [JOAN, CHILD, *sample(5, seed=11)])
@pytest.mark.parametrize("shape", ["square", "triangles", "diamond"])
def test_a_gusset_of_its_own_size_lifts_the_arm_level(body: Mapping[str, Any], shape: str) -> None:
    garment: dict[str, Any] = {"sleeve": {"gusset_shape": shape}}
    finding = found(garment, body)["reaching:arms"]
    if float(body.get("bust_girth", 0)) < 115:
        assert finding.outcome == "sound"
        assert float(finding.values["level"]) <= 3.1  # level is taken to half a degree
    elif finding.outcome != "sound":
        # panels so wide reach far down the arm; side panels do not
        assert found(mended(garment, finding), body)["reaching:arms"].outcome == "sound"
    assert float(finding.values["level"]) <= float(finding.values["bare_level"])


def mended(garment: dict[str, Any], finding: Finding) -> dict[str, Any]:
    """The garment with what the finding's mend says."""
    told = words.mend(finding, "cm")
    out = {key: dict(value) if isinstance(value, dict) else value for key, value in garment.items()}
    for table, key, value in re.findall(r'(sleeve|body)\.(\w+) = "([^"]+)"', told):
        out.setdefault(table, {})[key] = value
    if "leave sleeve.cuff out" in told:
        out["sleeve"].pop("cuff", None)
    if more := re.search(r"Make the garment ([\d.]+) cm longer", told):
        out["length"] = float(out["length"]) + float(more.group(1))
    return out


@pytest.mark.parametrize("body", [JOAN, CHILD, *sample(4, seed=23)])
@pytest.mark.parametrize(
    "garment",
    [
        {"sleeve": {"gusset": "none"}},
        {"sleeve": {"gusset": 2}},
        {"sleeve": {"gusset": "none", "seam": "back"}},
        {"body": {"shoulder": "seam"}, "sleeve": {"head": "shaped"}},
        {"body": {"shoulder": "seam"}, "sleeve": {"head": "shaped", "gusset": "none", "shape": "wide"}},
    ],
)
def test_what_mends_reaching_is_true(garment: dict[str, Any], body: Mapping[str, Any]) -> None:
    findings = found(garment, body)
    for code in ("reaching:arms", "overhead-held:arms"):
        if code in findings and findings[code].outcome != "sound":
            after = found(mended(garment, findings[code]), body)
            assert code not in after or after[code].outcome == "sound"


def test_a_short_garment_is_lengthened_until_it_stays_below_the_waist() -> None:
    garment = {"length": 55, "sleeve": {"shape": "straight"}}
    finding = found(garment)["overhead:arms"]
    assert finding.outcome == "look again"
    assert found(mended(garment, finding))["overhead:arms"].outcome == "sound"


def test_a_bent_elbow_has_room_or_is_told() -> None:
    padded = {"over": [{"thickness_mm": 22}], "sleeve": {"shape": "fitted forearm"}}
    finding = found(padded)["elbow-room:elbows"]
    assert finding.outcome == "look again"
    assert found(mended(padded, finding))["elbow-room:elbows"].outcome == "sound"
    assert found({"sleeve": {"shape": "fitted forearm"}})["elbow-room:elbows"].outcome == "sound"


def test_a_sleeve_over_the_hand_tells_its_folds() -> None:
    finding = found({"sleeve": {"length": "over-hand"}})["sleeve-length:sleeves"]
    said = words.why(finding, "cm")
    folds = float(re.search(r"Its ([\d.]+) cm beyond the wrist", said).group(1))  # type: ignore[union-attr]
    assert folds == pytest.approx((finding.measured or 0) - float(finding.values["arm"]), abs=0.1)
    assert "folds" not in words.why(found({})["sleeve-length:sleeves"], "cm")


@pytest.mark.parametrize("length", ["cap", "elbow"])
def test_a_sleeve_that_rides_up_is_not_held_at_the_elbow(length: str) -> None:
    try:
        findings = found({"body": {"cut": "shoulder panels"}, "sleeve": {"length": length}})
    except CannotDraft as error:
        pytest.fail(str(error))
    assert findings["reaching:arms"].measured == OVERHEAD
    assert "elbow-room:elbows" not in findings
