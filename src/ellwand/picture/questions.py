"""What is asked about a picture: what it shows of seams, folds and arms, and what of it cannot be seen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from ellwand.language import N_

UNSEEN: Final = "unseen"
"""The answer where the picture does not show it."""


@dataclass(frozen=True, slots=True)
class Question:
    """A question and its answers, each by the word it has in a file of marks."""

    asks: str
    answers: Mapping[str, str]


QUESTIONS: Final[Mapping[str, Question]] = MappingProxyType(
    {
        "folds": Question(
            N_("Where do the folds of the skirt begin?"),
            {
                "shoulder": N_("at the shoulder or chest"),
                "waist": N_("at the waist or the belt"),
                "hip": N_("at the hip or below"),
                "nowhere": N_("there are none"),
            },
        ),
        "stands_out": Question(
            N_("Where does the skirt stand out from the body?"),
            {
                "sides": N_("at the sides"),
                "all round": N_("at the sides, before and behind"),
                "nowhere": N_("it falls straight"),
            },
        ),
        "middle": Question(
            N_("Is there a line down the middle of the body?"),
            {
                "seam": N_("a seam or a change of colour"),
                "none": N_("none"),
            },
        ),
        "split": Question(
            N_("Is it split from the hem up?"),
            {
                "middle": N_("in the middle, before or behind"),
                "sides": N_("at the sides"),
                "none": N_("nowhere"),
            },
        ),
        "arm": Question(
            N_("How does the sleeve lie on the arm?"),
            {
                "close": N_("close all along"),
                "close below": N_("loose above, close below the elbow"),
                "loose": N_("loose all along"),
                "wide": N_("very wide at its end"),
                "bare": N_("there is none"),
            },
        ),
        "neck": Question(
            N_("How does it open for the head?"),
            {
                "wide": N_("the neck is wide"),
                "slit": N_("it is close, with a slit or a brooch"),
                "front": N_("it opens down the front"),
            },
        ),
        "belted": Question(N_("Is it belted?"), {"yes": N_("yes"), "no": N_("no")}),
    }
)
"""In the order in which they are asked."""
