"""What was read from a picture, what speaks for each structure and against it, and what no picture tells, in words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from ellwand.language import N_, _
from ellwand.model.picture import Offer, Reading, Reason
from ellwand.picture.questions import QUESTIONS
from ellwand.picture.reading import SHARES
from ellwand.picture.structures import STRUCTURES
from ellwand.units import Unit, decimal, format_length

READ: Final = {
    "heads": N_("how many heads high it is drawn"),
    "hem": N_("the hem above the floor"),
    "length": N_("length of the garment, from the shoulder at the neck"),
    "belt": N_("the belt above the floor"),
    "neck_depth": N_("depth of the neck in front"),
    "split": N_("height of the split"),
    "sleeve_share": N_("how far down the arm the sleeve goes"),
    "sleeve": N_("length of the sleeve, from the shoulder"),
    "opening": N_("width of the sleeve's opening, laid flat"),
    "hem_width": N_("width of the hem as it is drawn"),
    "sweep": N_("hem all round"),
}
SPEAKS: Final = 0.1
"""A reason below this (a logarithm) is neither for nor against."""
UNKNOWN: Final = (
    N_("how the seams under the arms and on the shoulders run"),
    N_("how deep the folds are, and so how wide the hem is beyond what is drawn"),
    N_("what is worn beneath, and how the cloth is lined"),
)
"""What no picture tells."""


def reading_said(each: Reading, unit: Unit) -> tuple[str, str, str]:
    """What was read, its value, and the range that holds it 9 times in 10."""
    if each.what == "sleeve_share":
        said = [_("{share}%", share=decimal(100 * value)) for value in (each.value, each.low, each.high)]
    elif each.what in SHARES:
        said = [decimal(value, 1) for value in (each.value, each.low, each.high)]
    else:
        said = [format_length(value, unit) for value in _rounded(each)]
    value, low, high = said
    return _(READ[each.what]), value, _("{low} to {high}", low=low, high=high)


def _rounded(each: Reading) -> list[float]:
    """No finer than half a centimetre: a picture is no rule."""
    return [round(2 * value) / 2 for value in (each.value, each.low, each.high)]


def structure_said(offer: Offer) -> str:
    """What kind of cut it is."""
    return structure_named(offer.structure)


def structure_named(structure: str) -> str:
    """What kind of cut goes by that name."""
    return _(STRUCTURES[structure].about)


def likely_said(offer: Offer) -> str:
    """How likely it is among all that were thought of."""
    return _("likely {share} times in 100", share=max(1, round(100 * offer.share)))


def reasons_said(offer: Offer) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What speaks for it and what against it, the weightiest first."""
    ranked = sorted(offer.reasons, key=lambda each: -abs(each.weight))
    speaks = [tuple(reason_said(each) for each in ranked if sign * each.weight > SPEAKS) for sign in (1, -1)]
    return speaks[0], speaks[1]


def reason_said(reason: Reason) -> str:
    """A question with its answer, or the hem against the hip."""
    if reason.about == "sweep":
        return _("the hem is {times} times as long as the hip is round", times=reason.said)
    question = QUESTIONS[reason.about]
    return f"{_(question.asks)} {_(question.answers[reason.said])}"


def hidden_said(offer: Offer) -> str:
    """What the picture does not tell of this structure."""
    return _(STRUCTURES[offer.structure].hidden)


def unknown_said() -> Sequence[str]:
    """What no picture tells."""
    return [_(each) for each in UNKNOWN]
