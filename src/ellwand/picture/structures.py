"""The structures that may lie under what a picture shows, and how likely each shows what.

The likelihoods are our own judgement of what these cuts look like when they are worn: a gore's folds begin where the
gore begins, what has gores all round stands out all round, what has a seam in the middle may show it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

from ellwand.language import N_

Shown = Mapping[str, Mapping[str, float]]
ROUND: Final = ({"place": "side"}, {"place": "centre-front"}, {"place": "centre-back"})


@dataclass(frozen=True, slots=True)
class Structure:
    """A way of cutting: what it is, its sheet's [garment] without lengths, and what it shows.

    ``shows``: for each question how likely each answer is.  ``sweep``: the hem as a share of the hip's girth, its
    middle and the spread of its logarithm.  ``hidden``: what no picture tells of it.
    """

    about: str
    garment: Mapping[str, Any]
    shows: Shown
    sweep: tuple[float, float]
    hidden: str


def _gores(start: str, *places: Mapping[str, str]) -> list[dict[str, Any]]:
    return [{**place, "start": start} for place in places]


STRUCTURES: Final[Mapping[str, Structure]] = MappingProxyType(
    {
        "straight": Structure(
            N_("straight panels without gores, open at the sides"),
            {"style": "tunic", "gores": [], "splits": [{"place": "side", "height": "hip"}]},
            {
                "folds": {"shoulder": 0.2, "waist": 0.2, "hip": 0.05, "nowhere": 0.55},
                "stands_out": {"sides": 0.08, "all round": 0.02, "nowhere": 0.9},
                "middle": {"seam": 0.04, "none": 0.96},
                "split": {"middle": 0.02, "sides": 0.8, "none": 0.18},
            },
            (1.2, 0.12),
            N_("whether the shoulder is a fold or a seam"),
        ),
        "side gores": Structure(
            N_("two wide panels, with a gore in each side from the hip"),
            {"style": "tunic", "gores": _gores("hip", ROUND[0])},
            {
                "folds": {"shoulder": 0.06, "waist": 0.14, "hip": 0.7, "nowhere": 0.1},
                "stands_out": {"sides": 0.85, "all round": 0.07, "nowhere": 0.08},
                "middle": {"seam": 0.04, "none": 0.96},
                "split": {"middle": 0.04, "sides": 0.04, "none": 0.92},
            },
            (1.9, 0.2),
            N_("whether each gore is whole or in halves, and whether the shoulder is a fold or a seam"),
        ),
        "side gores high": Structure(
            N_("two wide panels, with a gore in each side from the waist"),
            {"style": "tunic", "gores": _gores("waist", ROUND[0])},
            {
                "folds": {"shoulder": 0.06, "waist": 0.7, "hip": 0.16, "nowhere": 0.08},
                "stands_out": {"sides": 0.85, "all round": 0.08, "nowhere": 0.07},
                "middle": {"seam": 0.04, "none": 0.96},
                "split": {"middle": 0.04, "sides": 0.04, "none": 0.92},
            },
            (2.0, 0.2),
            N_("whether each gore is whole or in halves, and whether the shoulder is a fold or a seam"),
        ),
        "gores all round": Structure(
            N_("wide panels with a seam down the middle, and gores from the waist at the sides, before and behind"),
            {"style": "wide-sleeved gown", "gores": _gores("waist", *ROUND)},
            {
                "folds": {"shoulder": 0.06, "waist": 0.74, "hip": 0.14, "nowhere": 0.06},
                "stands_out": {"sides": 0.1, "all round": 0.86, "nowhere": 0.04},
                "middle": {"seam": 0.55, "none": 0.45},
                "split": {"middle": 0.05, "sides": 0.03, "none": 0.92},
            },
            (2.7, 0.25),
            N_("whether the middle has a seam or the gores are set in slits, and how the side panels are cut"),
        ),
        "panels and gores": Structure(
            N_("narrow panels with panels under the arms, and gores from the waist all round"),
            {"style": "gored gown", "gores": _gores("waist", *ROUND)},
            {
                "folds": {"shoulder": 0.05, "waist": 0.76, "hip": 0.14, "nowhere": 0.05},
                "stands_out": {"sides": 0.08, "all round": 0.88, "nowhere": 0.04},
                "middle": {"seam": 0.6, "none": 0.4},
                "split": {"middle": 0.05, "sides": 0.03, "none": 0.92},
            },
            (2.9, 0.25),
            N_("the seams between the narrow panels, which folds hide"),
        ),
        "riding": Structure(
            N_("wide panels with gores in the sides, split in the middle before and behind"),
            {"style": "riding surcote", "gores": _gores("hip", ROUND[0])},
            {
                "folds": {"shoulder": 0.06, "waist": 0.16, "hip": 0.68, "nowhere": 0.1},
                "stands_out": {"sides": 0.8, "all round": 0.1, "nowhere": 0.1},
                "middle": {"seam": 0.3, "none": 0.7},
                "split": {"middle": 0.88, "sides": 0.02, "none": 0.1},
            },
            (1.9, 0.2),
            N_("whether it is split behind as it is before"),
        ),
    }
)
