"""Cautions in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from ellwand.depict.words.others import OTHER_CAUTIONS
from ellwand.depict.words.saying import Numbers
from ellwand.language import N_, _
from ellwand.units import decimal

Say = Callable[[Numbers], str]

SMALL_PARTS: Final = frozenset({N_("buttons"), N_("hooks"), N_("toggles"), N_("pins")})


def _small_parts(n: Numbers) -> str:
    first, *others = (_(name) if name in SMALL_PARTS else name for name in n.text("what").split(" and "))
    for other in others:
        first = _("{one} and {other}", one=first, other=other)
    return _("Under three years: {what} are small parts that can be swallowed; use a soft closure instead.", what=first)


CAUTIONS: Final[Mapping[str, Say]] = {
    **OTHER_CAUTIONS,
    "child-needles": lambda n: _(
        "Child: count your pins and needles before and after sewing, and feel along every seam, so that none stays in"
        " it."
    ),
    "child-neck-cord": lambda n: _(
        "Young child: use no tie, lace or cord at the neck, where it can strangle; close the slit with a flat"
        " button or leave it open, and follow local rules (EN 14682, 16 CFR 1120)."
    ),
    "child-neck-ends": lambda n: _(
        "Child: leave no free cord ends at the neck and no loop over {loop} round; better close it without cords, and"
        " follow local rules (EN 14682, 16 CFR 1120).",
        loop=n.cm(15),
    ),
    "child-body-cord": lambda n: _(
        "Child: cord ends on the body may show at most {most} each and never hang below the hem;"
        " follow local rules (EN 14682).",
        most=n.cm(14),
    ),
    "child-back-cord": lambda n: _(
        "Child: no cord may come out at the back; close it with flat buttons, and follow local rules (EN 14682)."
    ),
    "small-parts": _small_parts,
    "wide-sleeve": lambda n: _(
        "Sleeves {girth} round at the end swing into flames and pots: pin or tie them back near any fire.",
        girth=n.of("cuff"),
    ),
    "low-hem": lambda n: _(
        "The hem hangs {height} above the floor: lift it on stairs and keep it well away from open fire.",
        height=n.of("hem"),
    ),
    "trailing-hem": lambda n: _(
        "The hem trails {length} on the floor: lift it to walk, never wear it near open fire or on stairs alone.",
        length=n.of("hem"),
    ),
    "bloused": lambda n: _(
        "Wear it belted at the waist, {blouse} of it drawn up over the belt: unbelted it hangs so much lower.",
        blouse=n.of("blouse"),
    ),
    "riding": lambda n: _(
        "On a horse this long closed hem can catch and hold the rider: ride only with splits up to the crotch."
    ),
    "riding-closed": lambda n: _(
        "On a horse this long closed hem is wide enough to sit astride, but can catch: draw it up over the knees, or"
        " split it up to the crotch."
    ),
    "bias-hangs": lambda n: _(
        "Slanted edges stretch: let the sewn garment hang for a day, then level the hem before turning it."
    ),
    "pins": lambda n: _(
        "Pins open and drop out: lay the points along the cloth away from the neck, and count them afterwards."
    ),
    "pin-carries": lambda n: _(
        "The cloak weighs about {weight} kg, and all of it hangs from its pin: take a stout one, and set it through a"
        " fold or a patch.",
        weight=decimal(n.number("grams") / 1000, 1),
    ),
    "pin-thin": lambda n: _(
        "Cloth of {weight} g/m² is thin: a heavy pin or brooch drags it down and tears it. Take a light one, and set it"
        " through a fold or a patch.",
        weight=n.count("grams"),
    ),
}
