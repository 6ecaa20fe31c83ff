"""The wearer's measures as the card says them."""

from __future__ import annotations

from collections.abc import Sequence

from ellwand.model.garment import Garment
from ellwand.model.wearer import Measure, Wearer
from ellwand.units import format_length

SHOWN = (
    "height",
    "bust_girth",
    "waist_girth",
    "hip_girth",
    "across_shoulder",
    "arm_length",
    "upper_arm_girth",
    "hand_girth",
    "neck_base_girth",
    "head_girth",
)
"""The measures that decide the pieces."""


def measured(garment: Garment) -> str:
    """The measures that were taken, on one line; '' when there are none."""
    said = [f"{_plain(name)} {_say(garment.wearer, m)}" for name, m in _of(garment.wearer, "measured")]
    said += [f"{hand} arm {_say(garment.wearer, Measure(cm))}" for hand, cm in garment.wearer.arms.items()]
    return ", ".join(said)


def estimated(garment: Garment) -> str:
    """The estimated ones with their spread (one standard deviation)."""
    return ", ".join(f"{_plain(name)} {_say(garment.wearer, m)}" for name, m in _of(garment.wearer, "estimated"))


def measure_these(garment: Garment) -> tuple[str, ...]:
    """Estimated measures that decide whether the neck passes the head: to be taken before cutting."""
    if garment.choices.other is not None:
        return ()
    closed = garment.draft.dimensions.neck_slit > 0 or garment.choices.neck.opening != "none"
    deciding: Sequence[str] = ("head_girth", "neck_base_girth") if closed else ("head_girth",)
    return tuple(_plain(name) for name in deciding if garment.wearer.measures[name].source == "estimated")


def _of(wearer: Wearer, source: str) -> list[tuple[str, Measure]]:
    # two arms measured each on its own are said each on its own
    shown = [name for name in SHOWN if name != "arm_length" or len(wearer.arms) < 2]
    return [(name, wearer.measures[name]) for name in shown if wearer.measures[name].source == source]


def _plain(name: str) -> str:
    return name.replace("_girth", "").replace("_", " ")


def _say(wearer: Wearer, m: Measure) -> str:
    text = format_length(m.value, wearer.unit, mark=False)
    if m.source == "estimated":
        text = f"{text} ± {format_length(m.sd, wearer.unit, mark=False)}"
    return text.replace(" ", "\u00a0")
