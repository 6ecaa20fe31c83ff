"""The two or three structures that would look like the picture: ranked by what was answered and read, with the reasons.

Bayes' rule with every structure as likely at first: what speaks for one is the likelihood of an answer under it against
that under the average structure.  An answer is wrong or misread one time in so many, so that none decides alone.
"""

from __future__ import annotations

import copy
import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final

from ellwand.model.picture import Marks, Offer, Reading, Reason
from ellwand.model.wearer import Wearer
from ellwand.picture.questions import UNSEEN
from ellwand.picture.structures import STRUCTURES, Structure

WRONG: Final = 0.12
"""So often an answer is a misreading, and then any of them: our own figure."""
MOST: Final = 3
ENOUGH: Final = 0.02
"""A third or second structure is offered if it is at least so likely."""
SLEEVES: Final = {
    "close": "tapered",
    "close below": "fitted forearm",
    "loose": "straight",
    "wide": "wide",
    "bare": "none",
}
NECKS: Final = {"wide": "oval", "slit": "keyhole", "front": "round"}
ENDS: Final = ((0.35, "cap"), (0.66, "elbow"), (0.9, "three-quarter"), (1.06, "wrist"))
"""Up to these shares of the arm a sleeve's length has that name; beyond them it is over the hand."""
BASE: Final = (15.0, 120.0)
"""A gore's base is at least and at most so wide (cm)."""
BOUNDS: Final = {"length": (35.0, 170.0), "split": (5.0, 110.0)}
"""Bounds of lengths that a sheet takes (cm)."""


def offers(marks: Marks, readings: Sequence[Reading], wearer: Wearer) -> tuple[Offer, ...]:
    """The likeliest structures first, each as a [garment] with the lengths that were read."""
    read = {each.what: each for each in readings}
    reasons = {name: tuple(_reasons(each, marks, read, wearer)) for name, each in STRUCTURES.items()}
    total = {name: math.fsum(reason.weight for reason in given) for name, given in reasons.items()}
    most = max(total.values())
    whole = math.fsum(math.exp(each - most) for each in total.values())
    share = {name: math.exp(each - most) / whole for name, each in total.items()}
    ranked = sorted(STRUCTURES, key=lambda name: -share[name])[:MOST]
    return tuple(
        Offer(name, share[name], reasons[name], _garment(STRUCTURES[name], marks, read, wearer))
        for place, name in enumerate(ranked)
        if place == 0 or share[name] >= ENOUGH
    )


def _reasons(structure: Structure, marks: Marks, read: Mapping[str, Reading], wearer: Wearer) -> Iterator[Reason]:
    """What each answer and the hem say of it, against the average structure."""
    for question, answer in marks.answers.items():
        if answer != UNSEEN and question in structure.shows:
            mine = _likely(structure, question, answer)
            average = math.fsum(_likely(each, question, answer) for each in STRUCTURES.values()) / len(STRUCTURES)
            yield Reason(question, answer, math.log(mine / average))
    if "sweep" in read:
        ratio, spread = _hem(read["sweep"], wearer)
        mine = _density(structure, ratio, spread)
        average = math.fsum(_density(each, ratio, spread) for each in STRUCTURES.values()) / len(STRUCTURES)
        yield Reason("sweep", f"{ratio:.1f}", math.log(mine / average))


def _likely(structure: Structure, question: str, answer: str) -> float:
    shown = structure.shows[question]
    return (1 - WRONG) * shown[answer] + WRONG / len(shown)


def _hem(sweep: Reading, wearer: Wearer) -> tuple[float, float]:
    """The hem as a share of the hip's girth, and the spread of its logarithm."""
    ratio = sweep.value / wearer["hip_girth"]
    return ratio, math.log(sweep.high / sweep.low) / (2 * 1.645)


def _density(structure: Structure, ratio: float, spread: float) -> float:
    middle, own = structure.sweep
    wide = math.hypot(own, spread)
    near = math.exp(-0.5 * (math.log(ratio / middle) / wide) ** 2) / wide
    return (1 - WRONG) * near + WRONG * 0.5


def _garment(structure: Structure, marks: Marks, read: Mapping[str, Reading], wearer: Wearer) -> dict[str, Any]:
    """The sheet's [garment]: the structure with what was read."""
    out: dict[str, Any] = copy.deepcopy(dict(structure.garment))
    out["length"] = _bounded("length", read["length"].value)
    if out["gores"] and "sweep" in read:
        # a side place has two gores, the wearer's left and right
        count = sum(2 if gore["place"] == "side" else 1 for gore in out["gores"])
        base = round(min(max((read["sweep"].value - wearer["hip_girth"] - 14.0) / count, BASE[0]), BASE[1]))
        for gore in out["gores"]:
            gore["base"] = float(base)
    for split in out.get("splits", []):
        if "split" in read:
            split["height"] = _bounded("split", read["split"].value)
    sleeve = _sleeve(marks, read)
    if sleeve:
        out["sleeve"] = sleeve
    neck = NECKS.get(marks.answers.get("neck", ""))
    if neck:
        out["neck"] = {"shape": neck}
    if marks.answers.get("belted") == "yes":
        out["belt"] = "waist"
    return out


def _sleeve(marks: Marks, read: Mapping[str, Reading]) -> dict[str, Any]:
    shape = SLEEVES.get(marks.answers.get("arm", ""))
    out: dict[str, Any] = {} if shape is None else {"shape": shape}
    if shape == "none":
        return out
    if "sleeve_share" in read:
        share = read["sleeve_share"].value
        out["length"] = next((name for most, name in ENDS if share <= most), "over-hand")
    if shape == "wide" and "opening" in read:
        out["cuff"] = float(round(2 * read["opening"].value))
    return out


def _bounded(what: str, value: float) -> float:
    least, most = BOUNDS[what]
    return float(round(min(max(value, least), most)))
