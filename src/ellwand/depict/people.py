"""The wearer's measures as the card says them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from ellwand.language import N_, _
from ellwand.model.garment import Garment
from ellwand.model.others import kind_of
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
"""The measures that decide the pieces of a body with sleeves."""
SHOWN_OF_OTHERS: Final[Mapping[str, Sequence[str]]] = {
    "hood": ("height", "head_girth", "neck_base_girth", "shoulder_girth"),
    "cloak": ("height", "neck_base_girth", "shoulder_girth", "nape_to_floor"),
    "coif": ("head_girth",),
    "apron": ("height", "waist_girth", "hip_girth", "waist_to_floor"),
    "breeches": ("height", "waist_girth", "hip_girth", "thigh_girth", "waist_to_floor", "crotch_to_floor"),
}
"""Those of hoods and their like."""


CALLED: Final = (
    N_("height"),
    N_("bust"),
    N_("waist"),
    N_("hip"),
    N_("across shoulder"),
    N_("arm length"),
    N_("upper arm"),
    N_("hand"),
    N_("neck base"),
    N_("head"),
    N_("shoulder"),
    N_("nape to floor"),
    N_("waist to floor"),
    N_("thigh"),
    N_("crotch to floor"),
)
"""What the measures are called."""


def measured(garment: Garment) -> str:
    """The measures that were taken, on one line; '' when there are none."""
    said = [f"{_plain(name)} {_say(garment.wearer, m)}" for name, m in _of(garment, "measured")]
    if garment.choices.other is None:
        arms = {"left": _("left arm"), "right": _("right arm")}
        said += [f"{arms[hand]} {_say(garment.wearer, Measure(cm))}" for hand, cm in garment.wearer.arms.items()]
    return ", ".join(said)


def estimated(garment: Garment) -> str:
    """The estimated ones with their spread (one standard deviation)."""
    return ", ".join(f"{_plain(name)} {_say(garment.wearer, m)}" for name, m in _of(garment, "estimated"))


def measure_these(garment: Garment) -> tuple[str, ...]:
    """Estimated measures that decide whether the neck passes the head: to be taken before cutting."""
    if garment.choices.other is not None:
        return ()
    closed = garment.draft.dimensions.neck_slit > 0 or garment.choices.neck.opening != "none"
    deciding: Sequence[str] = ("head_girth", "neck_base_girth") if closed else ("head_girth",)
    return tuple(_plain(name) for name in deciding if garment.wearer.measures[name].source == "estimated")


def _of(garment: Garment, source: str) -> list[tuple[str, Measure]]:
    wearer, other = garment.wearer, garment.choices.other
    # two arms measured each on its own are said each on its own
    shown: Sequence[str] = [name for name in SHOWN if name != "arm_length" or len(wearer.arms) < 2]
    if other is not None:
        shown = SHOWN_OF_OTHERS[kind_of(other)]
    return [(name, wearer.measures[name]) for name in shown if wearer.measures[name].source == source]


def _plain(name: str) -> str:
    return _(name.replace("_girth", "").replace("_", " "))


def _say(wearer: Wearer, m: Measure) -> str:
    text = format_length(m.value, wearer.unit, mark=False)
    if m.source == "estimated":
        text = f"{text} ± {format_length(m.sd, wearer.unit, mark=False)}"
    return text.replace(" ", "\u00a0")
