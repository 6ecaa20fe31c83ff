"""The rules of hood, cloak, coif, apron and breeches as sums to do by hand; each is that of the room that drafts it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from typing import Any, Final

from ellwand.depict.handout_tunic import CLOTH, EASE_WORD, HEMS, HEMS_WORD, LONGEST, SHOP, landmark
from ellwand.depict.handout_words import Given, Operand, Result, Rule, Sums, Taken, steps
from ellwand.draft.others import apron as an_apron
from ellwand.draft.others import breeches as a_pair
from ellwand.draft.others import cloak as a_cloak
from ellwand.draft.others import coif as a_coif
from ellwand.draft.others import hood as a_hood
from ellwand.language import N_
from ellwand.model.choices import girth_over
from ellwand.model.draft import Draft
from ellwand.model.others import BETWEEN_THE_LEGS, SHOULDER_DROP, Apron, Breeches, Cloak, Coif, CoifSize, Hood
from ellwand.units import Unit, round_near

SPARE: Final = {"cloak": 1.4, "breeches": 1.8, "coif": 1.6, "apron": 2.3}
"""Cloth to buy over the rectangles that the pieces lie in, for seams, hems, washing and what falls beside them: our own
figures.  An apron may be wider than its cloth."""


BUY: Final = N_("cloth to buy, about")


def other_sums(draft: Draft, unit: Unit) -> Sums:
    """All sums of a garment of its own cut."""
    other = draft.choices.other
    rules = tuple(_RULES[type(other)](draft, other))
    return Sums(draft.choices.sewing.chalk, rules, SHOP[unit])


def _down_to(top: str, chosen: str | float, name: str, less: float = 0.0) -> Iterator[Rule]:
    """A length from a height down to a landmark, or as chosen; ``less``: what a band takes of it after rounding."""
    key = "whole length" if less else "length"
    if isinstance(chosen, float):
        yield Rule(key, name, (Given(chosen),), (), "near", not less)
    else:
        before, height = landmark(chosen)
        yield from before
        yield Rule(key, name, (Taken(top),), steps(("-", height)), "near", not less)
    if less:
        band = Given(less, N_("the band"))
        yield Rule("length", N_("length below the band"), (Result(key),), steps(("-", band)))


def _under(draft: Draft, more: float = 0.0) -> Given:
    return Given(more + girth_over(draft.choices.beneath_mm), EASE_WORD)


def _longest(key: str, times: int = 1) -> Rule:
    """The longest piece, so many times as long as that size, with hems."""
    both = steps(("×", times)) if times > 1 else ()
    return Rule("longest", LONGEST, (Result(key),), (*both, *steps(("+", Given(HEMS, HEMS_WORD)))), shown=False)


def _hood(draft: Draft, hood: Hood) -> Iterator[Rule]:
    head = (Taken("head_girth", True),)
    yield Rule("width", N_("width of each side"), head, steps(("+", _under(draft, hood.ease)), ("÷", 2)), "up")
    cape = Given(round_near(hood.cape, draft.choices.sewing.chalk), N_("the cape"))
    down = steps(("-", Taken("nape_to_floor")), ("+", Given(a_hood.CROWN_EASE, EASE_WORD)), ("+", cape))
    yield Rule("height", N_("height from the crown to the hem"), (Taken("height"),), down, "near")
    chin = steps(("-", cape), ("-", Given(a_hood.CHIN, N_("below the chin"))))
    yield Rule("face", N_("opening for the face, on each side"), (Result("height"),), chin)
    if hood.gores == "squares":
        yield Rule(
            "gore", N_("side of each square gore"), (cape if hood.gore is None else Given(hood.gore),), (), "near"
        )
    elif hood.gores == "shoulder":
        yield from _shoulder_gore(draft, hood, cape)
    area = steps(("×", Result("width")), ("÷", CLOTH), ("×", 2))
    yield Rule("for hood", N_("cloth for the hood"), (Result("height"),), area, shown=False)
    yield _longest("height", 2 if hood.cut == "folded" else 1)
    then = steps(("×", 1.6 if hood.gores == "none" else 2.5), ("at least", Result("longest")))
    yield Rule("cloth", BUY, (Result("for hood"),), then, "shop")


def _shoulder_gore(draft: Draft, hood: Hood, cape: Given) -> Iterator[Rule]:
    name = N_("width of each shoulder gore at the hem")
    if hood.gore is not None:
        yield Rule("gore", name, (Given(hood.gore),), (), "near")
        return
    share = min(1.0, max(0.0, cape.cm / SHOULDER_DROP))
    spread = steps(("-", Taken("neck_base_girth")), ("×", share), ("+", Taken("neck_base_girth")))
    yield Rule("shoulders", N_("round the shoulders, under the cape"), (Taken("shoulder_girth"),), spread, shown=False)
    then = steps(
        ("+", _under(draft, a_hood.SHOULDER_EASE)),
        ("-", Result("width")),
        ("-", Result("width")),
        ("÷", 2),
        ("at least", Given(a_hood.LEAST_GORE)),
        ("at most", Given(2 * cape.cm)),
    )
    yield Rule("gore", name, (Result("shoulders"),), then, "up")


def _cloak(draft: Draft, cloak: Cloak) -> Iterator[Rule]:
    yield from _down_to("nape_to_floor", cloak.length, N_("length, from the nape to the hem"))
    if cloak.shape == "rectangle":
        name = N_("width of the cloak")
        if cloak.width is None:
            yield Rule("width", name, (Result("length"),), steps(("×", 2)))
        else:
            yield Rule("width", name, (Given(cloak.width),))
        turned: tuple[Operand, Operand] = (Result("width"), Result("length"))
    else:
        angle = a_cloak.ANGLES[cloak.shape]
        outer: tuple[Operand, ...] = (Result("length"),)
        if cloak.neck == "cut":
            neck = steps(("+", _under(draft, a_cloak.NECK_EASE)), ("÷", angle))
            yield Rule("inner", N_("string for the neck"), (Taken("neck_base_girth"),), neck)
            yield Rule("outer", N_("string for the hem"), (Result("inner"),), steps(("+", Result("length"))))
        else:
            yield Rule("outer", N_("string for the hem"), outer)
        times = 2 if cloak.shape == "semicircle" else 3
        yield Rule(
            "across", N_("the circle's parts beside each other"), (Result("outer"),), steps(("×", times)), shown=False
        )
        turned = (Result("across"), Result("outer"))
    first, second = turned
    yield Rule("longest", LONGEST, (first,), steps(("+", Given(1.5 * HEMS, HEMS_WORD))), shown=False)
    area = steps(("×", second), ("÷", CLOTH), ("×", SPARE["cloak"]), ("at least", Result("longest")))
    yield Rule("cloth", BUY, (first,), area, "shop")


def _coif(draft: Draft, coif: Coif) -> Iterator[Rule]:
    head = (Taken("head_girth", True),)
    yield Rule("head", N_("head with ease"), head, steps(("+", _under(draft, coif.ease))), shown=False)
    around = (Result("head"),)
    yield Rule("width", N_("width of one half, from the face to the back"), around, steps(("÷", 3)), "up")
    ear = Given(a_coif.BELOW_THE_EAR, N_("below the ear"))
    tall = steps(("×", a_coif.OVER_THE_HEAD), ("+", ear))
    yield Rule("height", N_("height of one half"), around, tall, "up")
    round_it = steps(("×", a_coif.ROUNDED))
    yield Rule("curve", N_("radius of the curve at the back"), (Result("width"),), round_it, "near")
    size = draft.settled
    if isinstance(size, CoifSize) and size.band:
        half = steps(("-", Given(size.band / 2, N_("half the band"))))
        yield Rule("side width", N_("width of each side, without the band"), (Result("width"),), half)
        yield Rule("side height", N_("height of each side, without the band"), (Result("height"),), half)
        yield Rule("band", N_("width of the band"), (Given(size.band),))
    yield _longest("height")
    area = steps(("×", Result("height")), ("×", 2), ("÷", CLOTH), ("×", SPARE["coif"]))
    both = (*area, *steps(("at least", Result("longest"))))
    yield Rule("cloth", BUY, (Result("width"),), both, "shop")


def _apron(draft: Draft, apron: Apron) -> Iterator[Rule]:
    under = girth_over(draft.choices.beneath_mm)
    gathered = apron.top == "gathered"
    if gathered:
        around = steps(("+", Given(under, EASE_WORD)), ("×", an_apron.BAND))
        yield Rule("band", N_("length of the band"), (Taken("waist_girth"),), around, "near")
    name = N_("width of the apron")
    if apron.width is not None:
        yield Rule("width", name, (Given(apron.width),), (), "near")
    elif gathered:
        yield Rule("width", name, (Result("band"),), steps(("×", an_apron.FULLNESS)), "near")
    else:
        hips = steps(("+", Given(under, EASE_WORD)), ("×", an_apron.PLAIN))
        yield Rule("width", name, (Taken("hip_girth"),), hips, "near")
    less = an_apron.BAND_WIDTH if gathered else 0.0
    yield from _down_to("waist_to_floor", apron.length, N_("length, from the waist to the hem"), less)
    yield _longest("length")
    area = steps(("×", Result("length")), ("÷", CLOTH), ("×", SPARE["apron"]), ("at least", Result("longest")))
    yield Rule("cloth", BUY, (Result("width"),), area, "shop")


def _breeches(draft: Draft, breeches: Breeches) -> Iterator[Rule]:
    grid, under = draft.choices.sewing.chalk, girth_over(draft.choices.beneath_mm)
    thigh = steps(("+", Given(a_pair.THIGH_EASE + under, EASE_WORD)))
    yield Rule("thigh", N_("thigh with ease"), (Taken("thigh_girth"),), thigh, shown=False)
    half = steps(("+", Given(breeches.ease + under, EASE_WORD)), ("÷", 2), ("at least", Result("thigh")))
    yield Rule("leg", N_("width of each leg"), (Taken("hip_girth"),), half, "up")
    banded = breeches.waist == "band"
    above = round_near(a_pair.BAND_WIDTH, grid) if banded else 0.0
    legs = steps(("-", Taken("crotch_to_floor")), ("×", 2))
    yield Rule("deep", N_("twice from the waist to the crotch"), (Taken("waist_to_floor"),), legs, shown=False)
    gusset = Given(round_near(breeches.gusset, grid), N_("the gusset"))
    across = steps(("×", math.sqrt(2)))
    yield Rule("corner", N_("the gusset from corner to corner"), (gusset,), across, shown=False)
    rise = steps(
        ("×", BETWEEN_THE_LEGS),
        ("+", Result("deep")),
        ("+", Given(a_pair.SITTING_EASE + under / math.pi, EASE_WORD)),
        ("-", Result("corner")),
        ("÷", 2),
        ("-", Given(above, N_("the band"))),
    )
    yield Rule("rise", N_("from the waist down to the gusset"), (Taken("hip_girth"),), rise, "up")
    yield from _down_to("waist_to_floor", breeches.length, N_("length, from the waist to the hem"), above)
    yield Rule("gusset", N_("side of the square gusset"), (Given(gusset.cm),))
    if breeches.hem is not None:
        yield Rule("hem", N_("width of each leg at the hem"), (Given(breeches.hem),), (), "near")
    if banded:
        lapped = steps(("+", Given(a_pair.BAND_EASE + under, EASE_WORD)))
        half_band = (*lapped, *steps(("÷", 2)))
        yield Rule("half band", N_("half the band"), (Taken("waist_girth"),), half_band, "up", shown=False)
        yield Rule("band", N_("length of the band"), (Result("half band"),), steps(("×", 2)))
    yield _longest("length")
    area = steps(("×", Result("length")), ("×", 2), ("÷", CLOTH), ("×", SPARE["breeches"]))
    area = (*area, *steps(("at least", Result("longest"))))
    yield Rule("cloth", BUY, (Result("leg"),), area, "shop")


_RULES: Final[Mapping[type[Any], Callable[[Draft, Any], Iterator[Rule]]]] = {
    Hood: _hood,
    Cloak: _cloak,
    Coif: _coif,
    Apron: _apron,
    Breeches: _breeches,
}
