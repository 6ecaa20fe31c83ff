"""What the hanging garment tells, in words, and what would mend it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from ellwand.depict.words.saying import Numbers, Say, place
from ellwand.language import _, plural
from ellwand.model.finding import Finding
from ellwand.units import decimal


def _hem(f: Finding, n: Numbers) -> str:
    folds = plural("{n} fold", "{n} folds", round(n.number("folds")))
    told = {"low": n.of("low"), "high": n.of("high"), "folds": folds}
    if f.outcome == "sound":
        return _("As it hangs, its hem is {low} to {high} above the floor and falls in {folds}.", **told)
    return _(
        "As it hangs, its hem is {low} to {high} above the floor, {range} off level, and falls in {folds}.",
        range=n.cm(f.measured),
        **told,
    )


HANG_WHY: Final[Mapping[str, Say]] = {
    "hang-hem": _hem,
    "hang-trips": lambda f, n: _(
        "As it hangs, its hem is {height} above the floor in front: whoever wears it will step on it.",
        height=n.cm(f.measured),
    ),
    "hang-belt": lambda f, n: _("As it hangs, the cloth falls {much} down over the belt.", much=n.cm(f.measured)),
    "hang-pulls": lambda f, n: _(
        "As it hangs, it pulls at the {place}: the cloth is {much} in 100 longer there than it was cut.",
        place=place(f.subject),
        much=decimal(round(f.measured or 0.0, 1)),
    ),
}
HANG_MEND: Final[Mapping[str, Say]] = {
    "hang-hem": lambda f, n: _("Let it hang for a day, then trim the hem as hang.csv says."),
    "hang-trips": lambda f, n: _("Make it {much} shorter.", much=n.more((f.needed or 0.0) - (f.measured or 0.0))),
    "hang-pulls": lambda f, n: _("Give it more ease there, or a larger gusset."),
}
