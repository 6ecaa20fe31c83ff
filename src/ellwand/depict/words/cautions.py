"""Cautions in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from ellwand.depict.words.others import OTHER_CAUTIONS
from ellwand.depict.words.saying import Numbers

Say = Callable[[Numbers], str]

CAUTIONS: Final[Mapping[str, Say]] = {
    **OTHER_CAUTIONS,
    "child-needles": lambda n: (
        "Child: count your pins and needles before and after sewing, and feel along every seam, so that none stays in"
        " it."
    ),
    "child-neck-cord": lambda n: (
        "Young child: use no tie, lace or cord at the neck, where it can strangle; close the slit with a flat"
        " button or leave it open, and follow local rules (EN 14682, 16 CFR 1120)."
    ),
    "child-neck-ends": lambda n: (
        "Child: leave no free cord ends at the neck and no loop over"
        f" {n.cm(15)} round; better close it without cords, and follow local rules (EN 14682, 16 CFR 1120)."
    ),
    "child-body-cord": lambda n: (
        f"Child: cord ends on the body may show at most {n.cm(14)} each and never hang below the hem;"
        " follow local rules (EN 14682)."
    ),
    "child-back-cord": lambda n: (
        "Child: no cord may come out at the back; close it with flat buttons, and follow local rules (EN 14682)."
    ),
    "small-parts": lambda n: (
        f"Under three years: {n.text('what')} are small parts that can be swallowed; use a soft closure instead."
    ),
    "wide-sleeve": lambda n: (
        f"Sleeves {n.of('cuff')} round at the end swing into flames and pots: pin or tie them back near any fire."
    ),
    "low-hem": lambda n: (
        f"The hem hangs {n.of('hem')} above the floor: lift it on stairs and keep it well away from open fire."
    ),
    "trailing-hem": lambda n: (
        f"The hem trails {n.of('hem')} on the floor: lift it to walk, never wear it near open fire or on stairs alone."
    ),
    "bloused": lambda n: (
        f"Wear it belted at the waist, {n.of('blouse')} of it drawn up over the belt: unbelted it hangs so much lower."
    ),
    "riding": lambda n: (
        "On a horse this long closed hem can catch and hold the rider: ride only with splits up to the crotch."
    ),
    "riding-closed": lambda n: (
        "On a horse this long closed hem is wide enough to sit astride, but can catch: draw it up over the knees, or"
        " split it up to the crotch."
    ),
    "bias-hangs": lambda n: (
        "Slanted edges stretch: let the sewn garment hang for a day, then level the hem before turning it."
    ),
    "pins": lambda n: (
        "Pins open and drop out: lay the points along the cloth away from the neck, and count them afterwards."
    ),
    "pin-carries": lambda n: (
        f"The cloak weighs about {n.number('grams') / 1000:.1f} kg, and all of it hangs from its pin: take a stout one,"
        " and set it through a fold or a patch."
    ),
    "pin-thin": lambda n: (
        f"Cloth of {n.number('grams'):.0f} g/m² is thin: a heavy pin or brooch drags it down and tears it. Take a light"
        " one, and set it through a fold or a patch."
    ),
}
