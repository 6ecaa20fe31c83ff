"""What each step of sewing is called."""

from __future__ import annotations

from typing import Final

from ellwand.language import N_, _

STEP_NAMES: Final = frozenset(
    {
        N_("armhole edges"),
        N_("band"),
        N_("bands flat"),
        N_("bands round"),
        N_("casing"),
        N_("centre seams"),
        N_("charges"),
        N_("closures"),
        N_("collar"),
        N_("crotch gusset"),
        N_("crown"),
        N_("cuffs"),
        N_("divisions"),
        N_("elbow gores"),
        N_("face edge"),
        N_("fasten"),
        N_("front and back"),
        N_("gather"),
        N_("gores"),
        N_("gores in slits"),
        N_("gussets"),
        N_("halves"),
        N_("hang"),
        N_("hem"),
        N_("inside legs"),
        N_("leg hems"),
        N_("let hang"),
        N_("lower edge"),
        N_("mark"),
        N_("motifs"),
        N_("motifs round"),
        N_("neck"),
        N_("neck slit"),
        N_("openings"),
        N_("outer edges"),
        N_("piecing"),
        N_("rise"),
        N_("shoulder gores"),
        N_("shoulders"),
        N_("side panels"),
        N_("side panels to back"),
        N_("sleeve halves"),
        N_("sleeve seams"),
        N_("sleeves"),
        N_("sleeves behind"),
        N_("sleeves to side panels"),
        N_("split slits"),
        N_("splits"),
        N_("square gores"),
        N_("strips"),
        N_("tail"),
        N_("tail on"),
        N_("take up"),
        N_("underarm and sides"),
        N_("underlaps"),
    }
)
"""Every step's code."""


def step_named(code: str) -> str:
    """A step's name as its title.

    Raises KeyError for a step without a name.
    """
    if code not in STEP_NAMES:
        raise KeyError(code)
    name = _(code)
    return name[:1].upper() + name[1:]
